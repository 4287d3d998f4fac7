/* Rays from the eye, to where they are inside the stone. Built once an instruction set.
 *
 * All run alike, so that each plane's place along a ray is a linear function of where the ray
 * stands on a screen at right angles to it: two products a plane and ray. The screen passes through
 * the solid's middle, where single precision serves best.
 */
#ifndef LW_LIGHT_WIDE_LOOK_LANES_H
#define LW_LIGHT_WIDE_LOOK_LANES_H

#include "light/wide/queue_lanes.h"
#include "light/wide/sky_lanes.h"

enum { ENTRY_PLANES = 128 };

/* Rays come in by a facet that faces them, leave by one that faces away, and run along one that
 * they see edge on: there at is not how far along the ray, but how far inside. */
enum entry_kind { FACES, FACES_AWAY, EDGE_ON };

typedef struct entry_plane {
    enum entry_kind kind;
    unsigned facet;
    float at, right, up; /* at a place on the screen: at + right x + up y */
} entry_plane;

typedef struct entry_source {
    const lw_wide_setup *job;
    lw_vec3 direction, right, up;
    lw_vec3 axis; /* s where a facet is met squarely */
    const lw_vec3 *from;
    bool *hit;        /* or NULL */
    int first, count; /* which facets planes tells of */
    entry_plane planes[ENTRY_PLANES];
} entry_source;

static lw_vec3 any_axis(lw_vec3 direction)
{
    bool along_x = fabs(direction.x) > 0.5;
    lw_vec3 other = along_x ? (lw_vec3){0.0, 1.0, 0.0} : (lw_vec3){1.0, 0.0, 0.0};
    lw_vec3 across = lw_vec3_cross(direction, other);
    return lw_vec3_scale(across, 1.0 / lw_vec3_length(across));
}

static entry_source entry_source_make(const lw_wide_setup *job, lw_vec3 direction,
                                      const lw_vec3 from[], bool hit[])
{
    lw_vec3 axis = any_axis(direction);
    return (entry_source){.job = job,
                          .direction = direction,
                          .right = axis,
                          .up = lw_vec3_cross(direction, axis),
                          .axis = axis,
                          .from = from,
                          .hit = hit};
}

static entry_plane entry_plane_of(const entry_source *source, int facet)
{
    const lw_wide_solid *solid = source->job->solid;
    const float *numbers = solid->numbers + facet;
    lw_vec3 normal = {(double)numbers[0], (double)numbers[solid->padded],
                      (double)numbers[2 * solid->padded]};
    double distance = (double)numbers[3 * solid->padded] - (double)solid->skin;
    double speed = lw_vec3_dot(normal, source->direction);
    bool edge_on = fabs(speed) < LW_WIDE_EDGE_ON;
    double by = edge_on ? 1.0 : 1.0 / speed;
    return (entry_plane){.kind = edge_on       ? EDGE_ON
                                 : speed < 0.0 ? FACES
                                               : FACES_AWAY,
                         .facet = (unsigned)facet,
                         .at = (float)(distance * by),
                         .right = (float)(-lw_vec3_dot(normal, source->right) * by),
                         .up = (float)(-lw_vec3_dot(normal, source->up) * by)};
}

/* Makes planes tell of the facets from first on. */
static void see_planes(entry_source *source, int first)
{
    if (source->count > 0 && source->first == first)
        return;
    int left = source->job->solid->facet_count - first;
    source->first = first;
    source->count = left < ENTRY_PLANES ? left : ENTRY_PLANES;
    for (int i = 0; i < source->count; i++)
        source->planes[i] = entry_plane_of(source, first + i);
}

/* Where rays come in, by which facet (a whole), and where they leave, along them from the screen.
 */
typedef struct entry_block {
    alignas(64) float x[QUEUE_BLOCK], y[QUEUE_BLOCK];
    float enter[QUEUE_BLOCK], leave[QUEUE_BLOCK], facet[QUEUE_BLOCK];
    float rows[STARTS][QUEUE_BLOCK];
} entry_block;

static const float beyond_all = 1e30f;

static void cross_planes(const entry_source *source, entry_block *block, int count)
{
    for (int k = 0; k < count; k += LANES) {
        wide x = wide_load(block->x + k), y = wide_load(block->y + k);
        wide enter = wide_load(block->enter + k), leave = wide_load(block->leave + k);
        wide facet = wide_load(block->facet + k);
        for (int i = 0; i < source->count; i++) {
            const entry_plane *plane = &source->planes[i];
            wide at = wide_add_mul(wide_all(plane->right), x, wide_all(plane->at));
            at = wide_add_mul(wide_all(plane->up), y, at);
            if (plane->kind == FACES) {
                facet = wide_select(wide_less(enter, at), wide_whole(plane->facet), facet);
                enter = wide_max(at, enter);
            } else if (plane->kind == FACES_AWAY) {
                leave = wide_min(at, leave);
            } else {
                leave = wide_select(wide_less(at, wide_all(0.0f)), wide_all(-beyond_all), leave);
            }
        }
        wide_store(block->enter + k, enter);
        wide_store(block->leave + k, leave);
        wide_store(block->facet + k, facet);
    }
}

static void find_entries(entry_source *source, entry_block *block, int first, int count)
{
    lw_vec3 middle = source->job->solid->middle;
    for (int k = 0; k < QUEUE_BLOCK; k++) {
        bool real = k < count;
        lw_vec3 from = real ? lw_vec3_sub(source->from[first + k], middle) : source->right;
        block->x[k] = (float)lw_vec3_dot(from, source->right);
        block->y[k] = (float)lw_vec3_dot(from, source->up);
        block->enter[k] = -beyond_all;
        block->leave[k] = beyond_all;
        block->facet[k] = 0.0f;
    }
    for (int i = 0; i < source->job->solid->facet_count; i += ENTRY_PLANES) {
        see_planes(source, i);
        cross_planes(source, block, count);
    }
}

static inline wide_vec wide_vec_all(lw_vec3 a)
{
    return (wide_vec){wide_all((float)a.x), wide_all((float)a.y), wide_all((float)a.z)};
}

static inline void store_three(entry_block *block, enum ray_row first, int k, wide_vec a)
{
    wide_store(&block->rows[first][k], a.x);
    wide_store(&block->rows[first + 1][k], a.y);
    wide_store(&block->rows[first + 2][k], a.z);
}

/* The place on the screen, moved along the ray, and from there square to the facet: what is lost
 * where the facet is seen nearly edge on. */
static inline wide_vec entry_place(const entry_source *source, const entry_block *block, int k,
                                   wide facet, wide_vec normal)
{
    const lw_wide_solid *solid = source->job->solid;
    wide_vec at = wide_scale(wide_vec_all(source->direction), wide_load(block->enter + k));
    at = wide_along(at, wide_load(block->x + k), wide_vec_all(source->right));
    at = wide_along(at, wide_load(block->y + k), wide_vec_all(source->up));
    wide distance = wide_look_up(solid->numbers + 3 * solid->padded, facet);
    distance = wide_sub(distance, wide_all(solid->skin));
    return wide_along(at, wide_sub(distance, wide_dot(at, normal)), normal);
}

/* lw_path_enter for one register of rays. */
static inline void enter(const entry_source *source, entry_block *block, int k)
{
    const lw_wide_setup *job = source->job;
    const lw_wide_solid *solid = job->solid;
    wide facet = wide_load(block->facet + k);
    wide_vec normal = {wide_look_up(solid->numbers, facet),
                       wide_look_up(solid->numbers + solid->padded, facet),
                       wide_look_up(solid->numbers + 2 * solid->padded, facet)};
    wide_vec inward = wide_scale(normal, wide_all(-1.0f));
    wide_vec to = wide_vec_all(source->direction);
    float eta = job->outside.eta;
    wide cos_i = wide_max(wide_dot(inward, to), wide_all((float)LW_WIDE_FLATTEST));
    cos_i = wide_min(cos_i, wide_all(1.0f));
    wide_vec s = wide_cross(to, normal);
    wide sin2_i = wide_dot(s, s);
    wide least = wide_all((float)LW_WIDE_SQUARE_ON), sine = wide_sqrt(sin2_i);
    s = wide_select_vec(wide_less(least, sine),
                        wide_scale(s, wide_div(wide_all(1.0f), wide_max(sine, least))),
                        wide_vec_all(source->axis));
    wide_surface surface = wide_surface_at(&job->outside, cos_i, sin2_i);
    wide_vec mirrored = wide_along(to, wide_mul(wide_all(2.0f), cos_i), normal);
    wide_mask head;
    wide radiance = wide_radiance(&job->sky, wide_of_length_1(mirrored), &head);
    store_three(block, AT_X, k, entry_place(source, block, k, facet, normal));
    store_three(block, TO_X, k, wide_refracted(eta, to, inward, cos_i, surface.cos_t));
    store_three(block, S_X, k, s);
    wide q = job->unpolarised ? wide_all(0.0f) : surface.transmit_half;
    wide_store(&block->rows[STOKES_I][k], surface.transmit_mean);
    wide_store(&block->rows[STOKES_Q][k], q);
    wide_store(&block->rows[STOKES_U][k], wide_all(0.0f));
    wide_store(&block->rows[STOKES_V][k], wide_all(0.0f));
    wide_store(&block->rows[FRESH][k], wide_all(1.0f));
    wide_store(&block->rows[REFLECTED][k], surface.reflect_mean);
    wide_store(&block->rows[GLARE][k], wide_mul(surface.reflect_mean, radiance));
}

/* Lets those of a block that hit the stone wait in the queue. */
static void queue_hits(ray_queue *queue, const entry_source *source, const entry_block *block,
                       int first, int count)
{
    for (int k = 0; k < count; k++) {
        bool hit = block->enter[k] > -beyond_all && block->enter[k] < block->leave[k];
        if (source->hit != NULL)
            source->hit[first + k] = hit;
        if (!hit) {
            queue->out[first + k] = (lw_wide_light){0};
            continue;
        }
        int at = queue->count++;
        queue->number[at] = first + k;
        for (int row = 0; row < STARTS; row++)
            queue->rows[row][at] = block->rows[row][k];
    }
}

static bool fill_from_outside(ray_queue *queue)
{
    entry_source *source = queue->source;
    queue->next = queue->count = 0;
    while (queue->count == 0 && queue->taken < queue->total) {
        int first = queue->taken;
        int left = queue->total - first;
        int count = left < QUEUE_BLOCK ? left : QUEUE_BLOCK;
        entry_block block;
        find_entries(source, &block, first, count);
        for (int k = 0; k < count; k += LANES)
            enter(source, &block, k);
        queue_hits(queue, source, &block, first, count);
        queue->taken += count;
    }
    return queue->count > 0;
}

#endif
