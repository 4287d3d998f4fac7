#include "sheet/replay.h"

#include "geom/angle.h"

#include <math.h>

enum { SIDES = 72 };

/* How far the preform stands outside the stone, as a share of the width: enough to be seen. */
#define STANDS_OUT 0.05
/* Facets steeper than this (|normal.z|) count as upright, flatter than 1 minus it as level. */
#define UPRIGHT 1e-9

typedef struct bounds {
    double out;         /* beyond the stone, sideways */
    double bottom, top; /* heights */
    double needs_height;
} bounds;

static double reach(const lw_polyhedron *solid, lw_vec3 direction)
{
    double most = -HUGE_VAL;
    for (int i = 0; i < solid->vertex_count; i++) {
        most = fmax(most, lw_vec3_dot(solid->vertices[i], direction));
    }
    return most;
}

/* A tier that makes a point on the axis must find room for it, though it is cut away later. */
static bool makes_point(const lw_step *step)
{
    for (int i = 0; i < step->rule_count; i++) {
        if (step->rules[i].kind == LW_RULE_POINT) {
            return true;
        }
    }
    return false;
}

static bounds find_bounds(const lw_cut *cut, const lw_stone *stone)
{
    bounds b = {.out = STANDS_OUT,
                .bottom = -reach(&stone->solid, (lw_vec3){0, 0, -1}),
                .top = reach(&stone->solid, (lw_vec3){0, 0, 1})};
    for (int i = 0; i < stone->facet_count; i++) {
        const lw_facet *f = &stone->facets[i];
        lw_vec3 n = f->plane.normal;
        if (fabs(n.z) < UPRIGHT) {
            double beyond = f->plane.distance - reach(&stone->solid, n);
            b.out = fmax(b.out, beyond + STANDS_OUT);
        } else if (makes_point(&cut->steps[f->step])) {
            double z = f->plane.distance / n.z;
            b.bottom = fmin(b.bottom, z);
            b.top = fmax(b.top, z);
        }
    }
    b.needs_height = b.top - b.bottom;
    double over = STANDS_OUT * b.needs_height;
    b.bottom -= over;
    b.top += over;
    return b;
}

static lw_status cut_plane(lw_replay *replay, lw_vec3 normal, double distance, lw_side side,
                           double angle_deg)
{
    lw_plane plane = {normal, distance};
    replay->facets[replay->preform++] =
        (lw_facet){.step = -1, .side = side, .angle_deg = angle_deg, .plane = plane};
    return lw_solid_cut(replay->solid, plane, NULL);
}

static lw_status cut_preform(lw_replay *replay, const bounds *b)
{
    lw_status status = LW_OK;
    for (int i = 0; i < SIDES && status == LW_OK; i++) {
        lw_sincos at = lw_sincos_turns((double)i / SIDES);
        lw_vec3 n = {at.cos, at.sin, 0.0};
        double out = reach(&replay->stone->solid, n) + b->out;
        status = cut_plane(replay, n, out, LW_SIDE_GIRDLE, 90.0);
    }
    if (status == LW_OK) {
        status = cut_plane(replay, (lw_vec3){0, 0, -1}, -b->bottom, LW_SIDE_PAVILION, 0.0);
    }
    if (status == LW_OK) {
        status = cut_plane(replay, (lw_vec3){0, 0, 1}, b->top, LW_SIDE_CROWN, 0.0);
    }
    replay->needs_height = b->needs_height;
    return status;
}

static double half_extent(const lw_stone *stone, const bounds *b)
{
    double most = fmax(-b->bottom, b->top);
    for (int i = 0; i < stone->solid.vertex_count; i++) {
        lw_vec3 v = stone->solid.vertices[i];
        most = fmax(most, hypot(v.x, v.y) + b->out);
    }
    return 1.25 * most;
}

static size_t facet_room(const lw_stone *stone)
{
    return (size_t)(SIDES + 2 + stone->facet_count);
}

lw_status lw_replay_init(lw_replay *replay, const lw_memory *memory, const lw_cut *cut,
                         const lw_stone *stone)
{
    lw_replay fresh = {.memory = *memory, .cut = cut, .stone = stone};
    void *facets = NULL;
    lw_status status = lw_memory_new(memory, facet_room(stone), sizeof *fresh.facets, &facets);
    fresh.facets = facets;
    if (status == LW_OK) {
        status = lw_solid_new(memory, (int)facet_room(stone), &fresh.solid);
    }
    if (status == LW_OK) {
        bounds b = find_bounds(cut, stone);
        lw_solid_start(fresh.solid, half_extent(stone, &b));
        status = cut_preform(&fresh, &b);
    }
    if (status != LW_OK) {
        lw_replay_destroy(&fresh);
        return status;
    }
    lw_solid_extract(fresh.solid, &fresh.shape);
    *replay = fresh;
    return LW_OK;
}

void lw_replay_destroy(lw_replay *replay)
{
    if (replay->facets != NULL) {
        lw_memory_free(&replay->memory, replay->facets, facet_room(replay->stone),
                       sizeof *replay->facets);
    }
    lw_solid_destroy(replay->solid);
    *replay = (lw_replay){.memory = replay->memory};
}

lw_status lw_replay_next(lw_replay *replay)
{
    const lw_tier *tier = &replay->stone->tiers[replay->done];
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        replay->facets[replay->preform + i] = replay->stone->facets[i];
        lw_status status = lw_solid_cut(replay->solid, replay->stone->facets[i].plane, NULL);
        if (status != LW_OK) {
            return status;
        }
    }
    replay->done++;
    lw_solid_extract(replay->solid, &replay->shape);
    return LW_OK;
}

static bool has_face(const lw_polyhedron *shape, int plane)
{
    return shape->face_start[plane + 1] > shape->face_start[plane];
}

static bool sides_gone(const lw_replay *replay)
{
    for (int i = 0; i < SIDES; i++) {
        if (has_face(&replay->shape, i)) {
            return false;
        }
    }
    return true;
}

/* Whether a face of the girdle still runs out into that end of the preform. */
static bool girdle_reaches(const lw_replay *replay, int end)
{
    const lw_polyhedron *shape = &replay->shape;
    for (int k = shape->face_start[end]; k < shape->face_start[end + 1]; k++) {
        int across = shape->face_across[k];
        if (across < shape->plane_count && replay->facets[across].side == LW_SIDE_GIRDLE) {
            return true;
        }
    }
    return false;
}

/* The least width: a jaw always comes to lie on a flat, so that the upright facets are all the
 * directions to try. Without any the outline is a knife edge, and its measure stands. */
static double width_on_flats(const lw_replay *replay, double otherwise)
{
    const lw_polyhedron *shape = &replay->shape;
    double least = HUGE_VAL;
    for (int i = replay->preform; i < shape->plane_count; i++) {
        if (has_face(shape, i) && replay->facets[i].side == LW_SIDE_GIRDLE) {
            lw_vec3 n = shape->planes[i].normal;
            least = fmin(least, reach(shape, n) + reach(shape, lw_vec3_scale(n, -1.0)));
        }
    }
    return least == HUGE_VAL ? otherwise : least;
}

/* The greatest distance in plan of any two corners. */
static double greatest_width(const lw_polyhedron *shape)
{
    double most = 0.0;
    for (int i = 0; i < shape->vertex_count; i++) {
        lw_vec3 a = shape->vertices[i];
        for (int k = i + 1; k < shape->vertex_count; k++) {
            double dx = shape->vertices[k].x - a.x;
            double dy = shape->vertices[k].y - a.y;
            most = fmax(most, dx * dx + dy * dy);
        }
    }
    return sqrt(most);
}

lw_bench_size lw_replay_size(const lw_replay *replay)
{
    lw_bench_size size = {0};
    if (!sides_gone(replay)) {
        return size;
    }
    int bottom = SIDES;
    int top = SIDES + 1;
    lw_measures m;
    lw_stone_measure(replay->facets, &replay->shape, &m);
    bool own_bottom = !has_face(&replay->shape, bottom);
    bool own_top = !has_face(&replay->shape, top);
    bool below = !girdle_reaches(replay, bottom);
    bool above = !girdle_reaches(replay, top);
    size.width = width_on_flats(replay, m.width);
    size.length = greatest_width(&replay->shape);
    size.diameter = m.diameter;
    size.pavilion = own_bottom && below ? m.pavilion : 0.0;
    size.crown = own_top && above ? m.crown : 0.0;
    size.girdle_thick = below && above ? m.girdle_thick : 0.0;
    size.girdle_thin = below && above ? m.girdle_thin : 0.0;
    size.depth = own_bottom && own_top ? m.depth : 0.0;
    size.table = own_top ? m.table : 0.0;
    size.culet = own_bottom ? m.culet : 0.0;
    return size;
}
