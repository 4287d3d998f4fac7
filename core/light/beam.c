#include "light/beam.h"

#include "geom/angle.h"
#include "geom/tolerance.h"
#include "light/beam_finish.h"
#include "light/beam_parts.h"
#include "light/path.h"

#include <assert.h>

lw_screen lw_screen_for(lw_vec3 eye, double turn_deg)
{
    lw_sincos turn = lw_sincos_deg(turn_deg);
    lw_vec3 across = {-turn.sin, turn.cos, 0.0};
    return (lw_screen){across, lw_vec3_cross(eye, across), eye};
}

/* Beams that have met equally many surfaces. */
typedef struct generation {
    lw_beam *beams;
    size_t count, capacity;
    lw_ring corners; /* of one after the other */
} generation;

/* All that a run needs. */
typedef struct follower {
    const lw_beam_job *job;
    const lw_beam_watch *watch;
    lw_memory memory;
    lw_splitter splitter;
    lw_finisher finisher;
    generation now, next;
    double face; /* area of the part of the face that is followed */
    double lost; /* area x energy */
    long followed;
} follower;

/* Room for one more beam and its corners at the end of the next generation; it is not in it until
 * it is kept. NULL when memory is out or too many wait. */
static lw_beam *make_room(follower *f, size_t corner_count)
{
    generation *next = &f->next;
    if (next->count == next->capacity) {
        void *beams = next->beams;
        if (next->count >= LW_BEAMS_MOST ||
            lw_memory_reserve(&f->memory, &beams, &next->capacity, next->count + 1,
                              sizeof *next->beams) != LW_OK)
            return NULL;
        next->beams = beams;
    }
    if (!lw_ring_reserve(&f->memory, &next->corners, next->corners.count + corner_count))
        return NULL;
    return &next->beams[next->count];
}

/* The beam that room was made for is complete but for its corners. */
static void keep(follower *f, const lw_ring *polygon)
{
    generation *next = &f->next;
    lw_spot2 *corners = next->corners.corners + next->corners.count;
    for (size_t i = 0; i < polygon->count; i++)
        corners[i] = polygon->corners[i];
    next->corners.count += polygon->count;
    next->beams[next->count++].corner_count = polygon->count;
}

/* ---- absorption ---------------------------------------------------------- */

/* What of a piece's light is left after the way so far, on average over it. */
static double mean_left(const follower *f, const lw_ring *polygon, lw_slope length)
{
    double per = f->job->absorption;
    if (per == 0.0)
        return 1.0;
    return lw_ring_mean_exp(polygon, (lw_slope){per * length.at, per * length.a, per * length.b});
}

/* ---- at a surface inside ------------------------------------------------- */

/* 2 asin(chord / 2), in degrees; by the series where that is exact to rounding. */
static double angle_of_chord_deg(double chord)
{
    if (chord > 0.1)
        return 2.0 * lw_asin_deg(fmin(0.5 * chord, 1.0));
    double h = 0.25 * chord * chord;
    double series =
        1.0 +
        h * (1.0 / 6 + h * (3.0 / 40 + h * (5.0 / 112 + h * (35.0 / 1152 + h * 63.0 / 2816))));
    return chord * series * (180.0 / LW_PI);
}

/* Where a line of the spectrum leaves; false at total reflection. */
static bool line_leaves(double index, lw_vec3 way, lw_vec3 normal, lw_vec3 *out)
{
    double cos_i = lw_vec3_dot(way, normal);
    if (cos_i <= 0.0)
        return false;
    double left = 1.0 - index * index * (1.0 - cos_i * cos_i);
    if (left <= 0.0)
        return false;
    *out = lw_refracted(way, normal, index, sqrt(left));
    return true;
}

static double spread_deg(const follower *f, const lw_beam *beam, lw_vec3 normal)
{
    const lw_light_index *index = &f->job->index;
    lw_vec3 blue, red;
    if (index->blue == index->red)
        return 0.0;
    if (!line_leaves(index->blue, beam->blue, normal, &blue) ||
        !line_leaves(index->red, beam->red, normal, &red))
        return -1.0;
    return angle_of_chord_deg(lw_vec3_length(lw_vec3_sub(blue, red)));
}

static void note_leaving(lw_beam_trail *trail, const lw_beam_part *part)
{
    trail->seen += part->weight * part->radiance;
    if (part->weight > trail->strongest) {
        trail->strongest = part->weight;
        trail->strongest_way = part->way;
        trail->strongest_facet = part->facet;
        trail->strongest_surfaces = trail->surfaces;
    }
}

/* As lw_polarisation_axis, without its length made 1. */
static lw_vec3 plane_axis(lw_vec3 way, lw_vec3 normal, lw_vec3 fallback)
{
    lw_vec3 s = lw_vec3_cross(way, normal);
    return lw_vec3_dot(s, s) < LW_SQUARE_ON * LW_SQUARE_ON ? fallback : s;
}

/* The piece's state after this surface; what leaves there goes into *part. */
static void pass_surface(const follower *f, const lw_beam *from, lw_vec3 normal, lw_beam *beam,
                         lw_beam_part *part)
{
    double index = f->job->index.yellow;
    lw_fresnel surface = lw_fresnel_at(index, lw_vec3_dot(from->way, normal));
    lw_vec3 s = plane_axis(from->way, normal, from->s);
    lw_stokes state = lw_stokes_turn(from->state, from->way, from->s, s);
    if (!surface.total) {
        part->weight = lw_stokes_transmit(state, &surface).i;
        part->way = lw_refracted(from->way, normal, index, surface.cos_t);
        part->radiance = lw_surroundings_radiance(f->job->surroundings, part->way);
        part->spread_deg = part->radiance > 0.0 ? spread_deg(f, from, normal) : 0.0;
    }
    state = lw_stokes_reflect(state, &surface);
    beam->state = f->job->unpolarised ? lw_stokes_forget(state) : state;
    beam->s = s;
    beam->way = lw_mirrored(from->way, normal);
    if (f->job->index.blue != f->job->index.red) {
        beam->blue = lw_mirrored(from->blue, normal);
        beam->red = lw_mirrored(from->red, normal);
    }
}

/* The points of the facet that the spots of the screen stand for. */
static void move_to(const lw_beam *from, lw_slope length, lw_beam *beam)
{
    beam->foot = lw_vec3_add(from->foot, lw_vec3_scale(from->way, length.at));
    beam->across = lw_vec3_add(from->across, lw_vec3_scale(from->way, length.a));
    beam->up = lw_vec3_add(from->up, lw_vec3_scale(from->way, length.b));
    beam->length = (lw_slope){from->length.at + length.at, from->length.a + length.a,
                              from->length.b + length.b};
}

static lw_vec3 point_at(const lw_beam *beam, lw_spot2 spot)
{
    return lw_vec3_add(beam->foot, lw_vec3_add(lw_vec3_scale(beam->across, spot.a),
                                               lw_vec3_scale(beam->up, spot.b)));
}

/* The corner furthest in a direction that no cut has an edge along: whatever order corners are in
 * and however they are rounded, it stays the same, so that measures stay smooth as a stone changes.
 */
static lw_spot2 outermost(const lw_ring *polygon)
{
    const lw_spot2 way = {0.8191, 0.5737};
    lw_spot2 best = polygon->corners[0];
    for (size_t i = 1; i < polygon->count; i++) {
        lw_spot2 here = polygon->corners[i];
        if (way.a * (here.a - best.a) + way.b * (here.b - best.b) > 0.0)
            best = here;
    }
    return best;
}

/* A piece is handed to two rays that take it to its end. The second begins 0.6 of the way from the
 * middle to a corner: two thirds, the root mean square distance in a disc, less what corners stand
 * out. */
static void finish(follower *f, const lw_beam *beam, const lw_ring *polygon, double left)
{
    lw_spot2 middle = lw_ring_middle(polygon, beam->area);
    lw_spot2 corner = outermost(polygon);
    lw_spot2 aside = {middle.a + 0.6 * (corner.a - middle.a),
                      middle.b + 0.6 * (corner.b - middle.b)};
    lw_finisher_add(&f->finisher, beam, point_at(beam, middle), point_at(beam, aside), left);
}

/* One piece at the facet it falls on: told to the watcher, then followed or finished. */
static lw_status meet(follower *f, const lw_beam *from, int facet, double area)
{
    const lw_ring *polygon = &f->splitter.piece;
    lw_beam *beam = make_room(f, polygon->count);
    if (beam == NULL)
        return LW_NO_MEMORY;
    lw_vec3 normal = lw_optic_solid_normal(f->job->solid, facet);
    beam->facet = facet;
    beam->trail = from->trail;
    beam->trail.surfaces++;
    beam->area = area;
    move_to(from, lw_splitter_length(&f->splitter, facet), beam);
    lw_beam_part part = {.corners = polygon->corners,
                         .count = (int)polygon->count,
                         .area = beam->area,
                         .facet = facet,
                         .trail = &beam->trail};
    double left = mean_left(f, polygon, beam->length);
    pass_surface(f, from, normal, beam, &part);
    part.met = left * from->state.i;
    part.absorbed = mean_left(f, polygon, from->length) * from->state.i - part.met;
    part.weight *= left;
    part.inside = left * beam->state.i;
    if (part.weight > 0.0)
        note_leaving(&beam->trail, &part);
    part.last = beam->area * part.inside < f->job->bound * f->face ||
                beam->trail.surfaces >= f->job->most_surfaces;
    if (f->watch->part != NULL)
        f->watch->part(f->watch->context, &part);
    if (part.last)
        finish(f, beam, polygon, left);
    else
        keep(f, polygon);
    return LW_OK;
}

/* A beam goes to its next surface, in as many pieces as it falls on facets. */
static lw_status follow_beam(follower *f, const lw_beam *beam, const lw_spot2 *corners, int facet)
{
    double covered = 0.0;
    lw_splitter_start(&f->splitter, beam, corners, facet);
    while ((facet = lw_splitter_next(&f->splitter, beam)) >= 0) {
        double area = f->splitter.cut ? lw_ring_area(&f->splitter.piece) : beam->area;
        covered += area;
        lw_status status = meet(f, beam, facet, area);
        if (status != LW_OK)
            return status;
    }
    f->followed++;
    f->lost += fabs(beam->area - covered) * beam->state.i;
    return facet == -1 ? LW_OK : LW_NO_MEMORY;
}

/* Points within beams, and where rays from there arrive, many at once. */
enum { AT_ONCE = 128 };
typedef struct arrivals {
    float x[AT_ONCE], y[AT_ONCE], z[AT_ONCE], dx[AT_ONCE], dy[AT_ONCE], dz[AT_ONCE];
    float length[AT_ONCE];
    int facet[AT_ONCE];
} arrivals;

static void find_arrivals(const follower *f, const lw_beam *beams, int count,
                          const lw_spot2 *corners, arrivals *out)
{
    const lw_wide_solid *solid = &f->finisher.solid;
    for (int i = 0; i < count; i++) {
        lw_vec3 point = point_at(&beams[i], lw_corners_mean(corners, beams[i].corner_count));
        lw_vec3 at = lw_vec3_sub(point, solid->middle), way = beams[i].way;
        out->x[i] = (float)at.x;
        out->y[i] = (float)at.y;
        out->z[i] = (float)at.z;
        out->dx[i] = (float)way.x;
        out->dy[i] = (float)way.y;
        out->dz[i] = (float)way.z;
        corners += beams[i].corner_count;
    }
    lw_wide_rays rays = {count, out->x, out->y, out->z, out->dx, out->dy, out->dz};
    lw_wide_exit(f->finisher.lanes, solid, &rays, out->facet, out->length);
}

static lw_status follow_generation(follower *f)
{
    generation done = f->now;
    f->now = f->next;
    f->next = done;
    f->next.count = f->next.corners.count = 0;
    const lw_spot2 *corners = f->now.corners.corners;
    for (size_t first = 0; first < f->now.count; first += AT_ONCE) {
        size_t left = f->now.count - first;
        int count = left < AT_ONCE ? (int)left : AT_ONCE;
        const lw_beam *beams = f->now.beams + first;
        arrivals at;
        find_arrivals(f, beams, count, corners, &at);
        for (int i = 0; i < count; i++) {
            lw_status status = follow_beam(f, &beams[i], corners, at.facet[i]);
            if (status != LW_OK)
                return status;
            corners += beams[i].corner_count;
        }
    }
    return LW_OK;
}

/* ---- entering ------------------------------------------------------------ */

/* The outline of a facet on the screen. */
static bool outline(follower *f, int facet)
{
    const lw_beam_job *job = f->job;
    const lw_optic_solid *solid = job->solid;
    int first = solid->ring_start[facet], last = solid->ring_start[facet + 1];
    lw_ring *ring = &f->splitter.piece, *spare = &f->splitter.spare;
    size_t room = (size_t)(last - first) + 3;
    if (!lw_ring_reserve(&f->memory, ring, room) || !lw_ring_reserve(&f->memory, spare, room))
        return false;
    ring->count = 0;
    for (int i = first; i < last; i++) {
        lw_vec3 corner = solid->corners[solid->corner[i]];
        ring->corners[ring->count++] = (lw_spot2){lw_vec3_dot(job->screen.across, corner),
                                                  lw_vec3_dot(job->screen.up, corner)};
    }
    return true;
}

/* Spots of the screen over the facet's plane: p = foot + a across + b up. */
static void lay_on(const lw_screen *screen, lw_vec3 normal, double distance, lw_beam *beam)
{
    double per = 1.0 / lw_vec3_dot(normal, screen->eye);
    lw_vec3 eye = screen->eye;
    beam->foot = lw_vec3_scale(eye, distance * per);
    beam->across =
        lw_vec3_sub(screen->across, lw_vec3_scale(eye, per * lw_vec3_dot(normal, screen->across)));
    beam->up = lw_vec3_sub(screen->up, lw_vec3_scale(eye, per * lw_vec3_dot(normal, screen->up)));
}

static void clip_to_wedge(follower *f, const lw_beam *beam)
{
    const lw_wedge *wedge = f->job->wedge;
    for (int i = 0; wedge != NULL && i < wedge->side_count && f->splitter.piece.count > 0; i++) {
        lw_vec3 side = wedge->sides[i];
        lw_slope outside = {-lw_vec3_dot(side, beam->foot), -lw_vec3_dot(side, beam->across),
                            -lw_vec3_dot(side, beam->up)};
        if (lw_ring_clip(&f->splitter.piece, outside, f->splitter.sliver, &f->splitter.spare)) {
            lw_ring kept = f->splitter.piece;
            f->splitter.piece = f->splitter.spare;
            f->splitter.spare = kept;
        }
    }
}

/* Directions and state just inside. */
static void refract_in(const lw_beam_job *job, lw_vec3 normal, lw_beam *beam, double *reflected)
{
    lw_vec3 way = lw_vec3_scale(job->screen.eye, -1.0);
    double cos_i = -lw_vec3_dot(way, normal);
    lw_fresnel surface = lw_fresnel_at(1.0 / job->index.yellow, cos_i);
    lw_fresnel blue = lw_fresnel_at(1.0 / job->index.blue, cos_i);
    lw_fresnel red = lw_fresnel_at(1.0 / job->index.red, cos_i);
    lw_stokes light = lw_stokes_unpolarised(1.0);
    lw_stokes inside = lw_stokes_transmit(light, &surface);
    *reflected = lw_stokes_reflect(light, &surface).i;
    beam->state = job->unpolarised ? lw_stokes_forget(inside) : inside;
    beam->s = lw_polarisation_axis(way, normal, job->screen.across);
    beam->way = lw_of_length_1(lw_refracted(way, normal, 1.0 / job->index.yellow, surface.cos_t));
    beam->blue = lw_refracted(way, normal, 1.0 / job->index.blue, blue.cos_t);
    beam->red = lw_refracted(way, normal, 1.0 / job->index.red, red.cos_t);
}

/* The light that falls on what of a facet lies in the wedge, with its polygon in the splitter's
 * hand; area 0 where there is nothing. */
static lw_status fall_on(follower *f, int facet, lw_vec3 normal, lw_beam *beam)
{
    beam->area = 0.0;
    if (lw_vec3_dot(normal, f->job->screen.eye) <= LW_GRAZING)
        return LW_OK;
    if (!outline(f, facet))
        return LW_NO_MEMORY;
    lay_on(&f->job->screen, normal, f->job->solid->distance[facet], beam);
    clip_to_wedge(f, beam);
    if (f->splitter.piece.count >= 3)
        beam->area = lw_ring_area(&f->splitter.piece);
    return LW_OK;
}

static lw_status measure_face(follower *f)
{
    const lw_optic_solid *solid = f->job->solid;
    lw_beam beam;
    for (int i = 0; i < solid->facet_count; i++) {
        if (fall_on(f, i, lw_optic_solid_normal(solid, i), &beam) != LW_OK)
            return LW_NO_MEMORY;
        f->face += beam.area;
    }
    return LW_OK;
}

static lw_status enter(follower *f, int facet)
{
    const lw_beam_job *job = f->job;
    lw_vec3 normal = lw_optic_solid_normal(job->solid, facet);
    lw_beam light = {.facet = facet, .trail = {.entry = facet, .strongest_facet = -1}};
    if (fall_on(f, facet, normal, &light) != LW_OK)
        return LW_NO_MEMORY;
    if (light.area <= 0.0)
        return LW_OK;
    const lw_ring *polygon = &f->splitter.piece;
    lw_beam_entry entry = {.corners = polygon->corners,
                           .count = (int)polygon->count,
                           .area = light.area,
                           .facet = facet};
    refract_in(job, normal, &light, &entry.reflected);
    entry.mirrored = lw_of_length_1(lw_mirrored(lw_vec3_scale(job->screen.eye, -1.0), normal));
    if (f->watch->enter != NULL)
        f->watch->enter(f->watch->context, &entry);
    lw_beam *beam = make_room(f, polygon->count);
    if (beam == NULL)
        return LW_NO_MEMORY;
    *beam = light;
    keep(f, polygon);
    return LW_OK;
}

static lw_status follow_all(follower *f)
{
    lw_status status = measure_face(f);
    for (int i = 0; i < f->job->solid->facet_count && status == LW_OK; i++)
        status = enter(f, i);
    while (status == LW_OK && f->next.count > 0)
        status = follow_generation(f);
    if (status == LW_OK)
        lw_finisher_flush(&f->finisher);
    return status;
}

static void free_generation(const lw_memory *memory, generation *g)
{
    lw_memory_free(memory, g->beams, g->capacity, sizeof *g->beams);
    lw_memory_free(memory, g->corners.corners, g->corners.capacity, sizeof *g->corners.corners);
}

lw_status lw_beams_follow(const lw_memory *memory, const lw_beam_job *job,
                          const lw_beam_watch *watch, lw_beam_totals *out)
{
    assert(job->bound > 0.0 && job->most_surfaces > 0 && job->index.yellow >= 1.0);
    follower f = {.job = job, .watch = watch, .memory = *memory};
    lw_status status = lw_splitter_make(memory, job->solid, &f.splitter);
    if (status != LW_OK)
        return status;
    status = lw_finisher_make(memory, job, watch, &f.finisher);
    if (status == LW_OK)
        status = follow_all(&f);
    if (status == LW_OK)
        *out = (lw_beam_totals){
            .area = f.face, .beams = f.followed, .rays = f.finisher.rays, .lost = f.lost / f.face};
    lw_finisher_destroy(&f.finisher);
    lw_splitter_destroy(&f.splitter);
    free_generation(memory, &f.now);
    free_generation(memory, &f.next);
    return status;
}
