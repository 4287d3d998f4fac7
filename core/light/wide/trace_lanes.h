/* Many rays at once, to their ends. Included once by each trace_*.c, which names its lanes and its
 * LANES_KERNELS; what it does is said in trace.h, and in light/path.h for one ray. */
#include "light/wide/fold_lanes.h"
#include "light/wide/look_lanes.h"

#include <assert.h>

static inline void nearest(const lw_wide_solid *solid, const wide_ray rays[LANES_ROWS],
                           wide_nearest hits[LANES_ROWS])
{
    if (solid->fold.folds == 0) {
        wide_nearest_of_all(solid, rays, hits);
        return;
    }
    wide_search search[LANES_ROWS];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) search[r] =
        wide_search_from(&solid->fold, &rays[r]);
    wide_search_on(solid, 0, search);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) hits[r] = wide_found(solid, &search[r]);
}

/* ---- one surface -------------------------------------------------------- */

static inline wide_vec load_vec(const ray_pack *pack, enum ray_row first, int lane)
{
    return (wide_vec){wide_load(&pack->rows[first][lane]), wide_load(&pack->rows[first + 1][lane]),
                      wide_load(&pack->rows[first + 2][lane])};
}

static inline void store_vec(ray_pack *pack, enum ray_row first, int lane, wide_vec a)
{
    wide_store(&pack->rows[first][lane], a.x);
    wide_store(&pack->rows[first + 1][lane], a.y);
    wide_store(&pack->rows[first + 2][lane], a.z);
}

static inline void book(ray_pack *pack, enum ray_row row, int lane, wide a)
{
    wide_store(&pack->rows[row][lane], wide_add(wide_load(&pack->rows[row][lane]), a));
}

/* What passes, weight of it, is seen by the surroundings. */
LANES_INLINE void book_leaving(const lw_wide_setup *job, ray_pack *pack, int lane, wide_vec to,
                               wide weight)
{
    wide_mask head;
    wide radiance = wide_radiance(&job->sky, to, &head);
    wide down = wide_keep(wide_less(to.z, wide_all(0.0f)), weight);
    book(pack, BRIGHTNESS, lane, wide_mul(weight, radiance));
    book(pack, SENT, lane, weight);
    book(pack, LEAK, lane, down);
    book(pack, WINDOW, lane, wide_mul(down, wide_load(&pack->rows[FRESH][lane])));
    book(pack, EXTINCTION, lane, wide_keep(head, weight));
}

LANES_INLINE wide_stokes absorb(const lw_wide_setup *job, ray_pack *pack, int lane, wide length)
{
    wide_stokes a = {wide_load(&pack->rows[STOKES_I][lane]), wide_load(&pack->rows[STOKES_Q][lane]),
                     wide_load(&pack->rows[STOKES_U][lane]),
                     wide_load(&pack->rows[STOKES_V][lane])};
    if (job->absorption == 0.0f)
        return a;
    wide share = wide_exp(wide_mul(wide_all(-job->absorption), length));
    wide left = wide_mul(a.i, share);
    book(pack, ABSORBED, lane, wide_sub(a.i, left));
    return (wide_stokes){left, wide_mul(a.q, share), wide_mul(a.u, share), wide_mul(a.v, share)};
}

LANES_INLINE void store_stokes(const lw_wide_setup *job, ray_pack *pack, int lane, wide_stokes a)
{
    wide_store(&pack->rows[STOKES_I][lane], a.i);
    if (job->unpolarised)
        return; /* q, u and v began as nothing and stay so */
    wide_store(&pack->rows[STOKES_Q][lane], a.q);
    wide_store(&pack->rows[STOKES_U][lane], a.u);
    wide_store(&pack->rows[STOKES_V][lane], a.v);
}

/* What one register of rays meets on its way through lw_path_next. */
typedef struct passage {
    wide_ray ray;
    wide_vec normal, s;
    wide speed, length, cos_i, sin2_i;
    wide_surface surface;
    wide_stokes state;
} passage;

LANES_INLINE passage arrive(const lw_wide_setup *job, const wide_ray *ray, const wide_nearest *hit)
{
    const lw_wide_solid *solid = job->solid;
    const float *x = solid->numbers, *y = x + solid->padded, *z = y + solid->padded;
    passage p = {.ray = *ray, .speed = hit->speed, .length = hit->length};
    p.normal = (wide_vec){wide_look_up(x, hit->facet), wide_look_up(y, hit->facet),
                          wide_look_up(z, hit->facet)};
    p.cos_i = wide_min(wide_max(hit->speed, wide_all((float)LW_WIDE_FLATTEST)), wide_all(1.0f));
    p.s = wide_cross(ray->to, p.normal);
    p.sin2_i = wide_dot(p.s, p.s);
    return p;
}

/* The state on arrival, told in the surface's frame. */
LANES_INLINE void tell_in_frame(const lw_wide_setup *job, ray_pack *pack, int lane, passage *p)
{
    p->state = absorb(job, pack, lane, p->length);
    if (job->unpolarised)
        return;
    wide_vec s_before = load_vec(pack, S_X, lane);
    wide least = wide_all((float)LW_WIDE_SQUARE_ON), sine = wide_sqrt(p->sin2_i);
    wide inverse = wide_div(wide_all(1.0f), wide_max(sine, least));
    p->s = wide_select_vec(wide_less(least, sine), wide_scale(p->s, inverse), s_before);
    p->state = wide_turn(p->state, p->ray.to, s_before, p->s);
    store_vec(pack, S_X, lane, p->s);
}

LANES_INLINE void let_out(const lw_wide_setup *job, ray_pack *pack, int lane, const passage *p)
{
    const wide_surface *surface = &p->surface;
    wide weight = wide_add_mul(surface->transmit_half, p->state.q,
                               wide_mul(surface->transmit_mean, p->state.i));
    wide_vec to = wide_refracted(job->inside.eta, p->ray.to, p->normal, p->cos_i, surface->cos_t);
    book_leaving(job, pack, lane, to, weight);
}

LANES_INLINE void go_on(const lw_wide_setup *job, ray_pack *pack, int lane, const passage *p)
{
    store_stokes(job, pack, lane, wide_reflect(p->state, &p->surface));
    store_vec(pack, AT_X, lane, wide_along(p->ray.at, p->length, p->ray.to));
    wide twice = wide_mul(wide_all(-2.0f), p->speed);
    store_vec(pack, TO_X, lane, wide_of_length_1(wide_along(p->ray.to, twice, p->normal)));
    wide_store(&pack->rows[FRESH][lane], wide_all(0.0f));
    book(pack, SURFACES, lane, wide_all(1.0f));
}

/* lw_path_next for all rows, whose nearest facets are known; in stages, so that while one row waits
 * for a root or a quotient the others go on. */
LANES_INLINE void take_on(const lw_wide_setup *job, ray_pack *pack, const wide_ray rays[LANES_ROWS],
                          const wide_nearest hits[LANES_ROWS])
{
    passage p[LANES_ROWS];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) p[r] = arrive(job, &rays[r], &hits[r]);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) p[r].surface =
        wide_surface_at(&job->inside, p[r].cos_i, p[r].sin2_i);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) tell_in_frame(job, pack, r * LANES, &p[r]);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) let_out(job, pack, r * LANES, &p[r]);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) go_on(job, pack, r * LANES, &p[r]);
}

/* ---- all of them -------------------------------------------------------- */

/* The lanes of one register whose ray is over. */
static inline unsigned lanes_over(const lw_wide_setup *job, const ray_pack *pack, int lane)
{
    wide energy = wide_load(&pack->rows[STOKES_I][lane]);
    wide surfaces = wide_load(&pack->rows[SURFACES][lane]);
    return wide_bits(wide_either(wide_less(energy, wide_all(job->least_energy)),
                                 wide_less(wide_all(job->most_surfaces - 0.5f), surfaces)));
}

/* Hands out what is over and takes in what waits; gives how many rays are under way less. */
static int change_rays(ray_queue *queue, ray_pack *pack)
{
    int fewer = 0;
    for (int r = 0; r < LANES_ROWS; r++) {
        unsigned over = lanes_over(queue->job, pack, r * LANES);
        for (int k = r * LANES; over != 0; k++, over >>= 1) {
            if ((over & 1) == 0 || pack->number[k] == NO_RAY)
                continue;
            hand_out(pack, k, queue->out);
            take_next(queue, pack, k);
            fewer += pack->number[k] == NO_RAY;
        }
    }
    return fewer;
}

static void follow_all(ray_queue *queue)
{
    const lw_wide_setup *job = queue->job;
    ray_pack pack;
    int under_way = 0;
    for (int k = 0; k < LANES_ROWS * LANES; k++) {
        take_next(queue, &pack, k);
        under_way += pack.number[k] != NO_RAY;
    }
    while (under_way > 0) {
        wide_ray rays[LANES_ROWS];
        wide_nearest hits[LANES_ROWS];
        for (int r = 0; r < LANES_ROWS; r++)
            rays[r] =
                (wide_ray){load_vec(&pack, AT_X, r * LANES), load_vec(&pack, TO_X, r * LANES)};
        nearest(job->solid, rays, hits);
        take_on(job, &pack, rays, hits);
        under_way -= change_rays(queue, &pack);
    }
}

/* ---- what trace.c calls ------------------------------------------------- */

static void finish(const lw_wide_setup *job, int count, const lw_wide_inside rays[],
                   lw_wide_light out[])
{
    ray_queue queue = {.fill = fill_from_inside, .job = job};
    queue.source = &rays;
    queue.out = out;
    queue.total = count;
    follow_all(&queue);
}

static void look(const lw_wide_setup *job, lw_vec3 direction, int count, const lw_vec3 from[],
                 lw_wide_light out[], bool hit[])
{
    entry_source source = entry_source_make(job, direction, from, hit);
    ray_queue queue = {.fill = fill_from_outside, .job = job};
    queue.source = &source;
    queue.out = out;
    queue.total = count;
    follow_all(&queue);
}

enum { WIDTH = LANES_ROWS * LANES, MOST_LATE = WIDTH / 8 + 2 };

static inline wide_ray load_ray(const lw_wide_rays *rays, int k)
{
    return (wide_ray){
        {wide_load_any(rays->x + k), wide_load_any(rays->y + k), wide_load_any(rays->z + k)},
        {wide_load_any(rays->dx + k), wide_load_any(rays->dy + k), wide_load_any(rays->dz + k)}};
}

static inline void store_nearest(const wide_nearest *hit, int k, int facet[], float length[])
{
    wide_store_whole(facet + k, hit->facet);
    wide_store_any(length + k, hit->length);
}

/* A whole number of times WIDTH rays, compared with every facet. */
static void exit_scan(const lw_wide_solid *solid, const lw_wide_rays *rays, int count, int facet[],
                      float length[])
{
    for (int i = 0; i < count; i += WIDTH) {
        wide_ray row[LANES_ROWS];
        wide_nearest hits[LANES_ROWS];
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) row[r] = load_ray(rays, i + r * LANES);
        wide_nearest_of_all(solid, row, hits);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
            store_nearest(&hits[r], i + r * LANES, facet, length);
    }
}

/* Rays that were long in coming back: what is known of each. */
typedef struct late_rays {
    int count;
    int ray[2 * WIDTH];
    alignas(64) float along[2 * WIDTH], speed[2 * WIDTH], facet[2 * WIDTH];
} late_rays;

static void note_late(const wide_search search[LANES_ROWS], int first, unsigned long bits,
                      late_rays *late)
{
    alignas(64) float along[WIDTH], speed[WIDTH], facet[WIDTH];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
    {
        wide_store(along + r * LANES, search[r].along);
        wide_store(speed + r * LANES, search[r].speed);
        wide_store(facet + r * LANES, search[r].facet);
    }
    for (; bits != 0; bits &= bits - 1) {
        int lane = __builtin_ctzl(bits), at = late->count++;
        late->ray[at] = first + lane;
        late->along[at] = along[lane];
        late->speed[at] = speed[lane];
        memcpy(&late->facet[at], &facet[lane], sizeof facet[lane]); /* bits, not a number */
    }
}

/* Takes the last of them, WIDTH at most, to their ends. */
static void exit_late(const lw_wide_solid *solid, const lw_wide_rays *rays, late_rays *late,
                      int facet[], float length[])
{
    int count = late->count < WIDTH ? late->count : WIDTH;
    int first = late->count - count;
    late->count = first;
    float part[6][WIDTH];
    const float *all[6] = {rays->x, rays->y, rays->z, rays->dx, rays->dy, rays->dz};
    for (int k = 0; k < WIDTH; k++) {
        for (int q = 0; q < 6; q++)
            part[q][k] = all[q][late->ray[first + (k < count ? k : 0)]];
    }
    lw_wide_rays few = {WIDTH, part[0], part[1], part[2], part[3], part[4], part[5]};
    wide_search search[LANES_ROWS];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
    {
        wide_ray ray = load_ray(&few, r * LANES);
        search[r] = wide_search_from(&solid->fold, &ray);
        search[r].along = wide_load_any(late->along + first + r * LANES);
        search[r].speed = wide_load_any(late->speed + first + r * LANES);
        search[r].facet = wide_load_any(late->facet + first + r * LANES);
    }
    wide_search_on(solid, 0, search);
    int facets[WIDTH];
    float lengths[WIDTH];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
    {
        wide_nearest hit = wide_found(solid, &search[r]);
        store_nearest(&hit, r * LANES, facets, lengths);
    }
    for (int k = 0; k < count; k++) {
        facet[late->ray[first + k]] = facets[k];
        length[late->ray[first + k]] = lengths[k];
    }
}

static void exit_folded(const lw_wide_solid *solid, const lw_wide_rays *rays, int count,
                        int facet[], float length[])
{
    late_rays late = {0};
    for (int i = 0; i < count; i += WIDTH) {
        wide_search search[LANES_ROWS];
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
        {
            wide_ray ray = load_ray(rays, i + r * LANES);
            search[r] = wide_search_from(&solid->fold, &ray);
        }
        unsigned long bits = wide_search_on(solid, MOST_LATE, search);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
        {
            wide_nearest hit = wide_found(solid, &search[r]);
            store_nearest(&hit, i + r * LANES, facet, length);
        }
        if (bits != 0)
            note_late(search, i, bits, &late);
        if (late.count >= WIDTH)
            exit_late(solid, rays, &late, facet, length);
    }
    if (late.count > 0)
        exit_late(solid, rays, &late, facet, length);
}

/* The last rays, fewer than WIDTH. */
static void exit_last(const lw_wide_solid *solid, const lw_wide_rays *rays, int from, int facet[],
                      float length[])
{
    float part[6][WIDTH] = {{0}};
    const float *all[6] = {rays->x, rays->y, rays->z, rays->dx, rays->dy, rays->dz};
    int count = rays->count - from;
    for (int k = 0; k < 6; k++)
        memcpy(part[k], all[k] + from, (size_t)count * sizeof part[k][0]);
    for (int i = count; i < WIDTH; i++)
        part[5][i] = 1.0f;
    lw_wide_rays full = {WIDTH, part[0], part[1], part[2], part[3], part[4], part[5]};
    int facets[WIDTH];
    float lengths[WIDTH];
    LANES_KERNELS.exit(solid, &full, facets, lengths);
    memcpy(facet + from, facets, (size_t)count * sizeof facet[0]);
    memcpy(length + from, lengths, (size_t)count * sizeof length[0]);
}

static void exit_all(const lw_wide_solid *solid, const lw_wide_rays *rays, int facet[],
                     float length[])
{
    int whole = rays->count / WIDTH * WIDTH;
    if (solid->fold.folds > 0)
        exit_folded(solid, rays, whole, facet, length);
    else
        exit_scan(solid, rays, whole, facet, length);
    if (whole < rays->count)
        exit_last(solid, rays, whole, facet, length);
}

const lw_wide_kernels LANES_KERNELS = {exit_all, look, finish};
