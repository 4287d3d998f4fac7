/* The facet that each of many rays leaves by: the innermost loop. Built once an instruction set. */
#ifndef LW_LIGHT_WIDE_NEAREST_LANES_H
#define LW_LIGHT_WIDE_NEAREST_LANES_H

#include "light/wide/lanes.h"
#include "light/wide/parts.h"

typedef struct wide_vec {
    wide x, y, z;
} wide_vec;

static inline wide wide_dot(wide_vec a, wide_vec b)
{
    return wide_add_mul(a.z, b.z, wide_add_mul(a.y, b.y, wide_mul(a.x, b.x)));
}

typedef struct wide_ray {
    wide_vec at, to;
} wide_ray;

/* facet as a whole; how fast the ray runs at it, > 0; how far it runs to there. */
typedef struct wide_nearest {
    wide facet, speed, length;
} wide_nearest;

/* The nearest so far: slack is how far its plane is, square to it. */
typedef struct wide_candidate {
    wide facet, speed, slack;
} wide_candidate;

/* Nearest is largest in speed / slack, compared crosswise; all slacks are positive, thanks to the
 * skin. */
static inline void wide_consider(const wide_vec *normal, wide distance, wide number,
                                 const wide_ray *ray, wide_candidate *best)
{
    wide speed = wide_dot(*normal, ray->to);
    wide slack = wide_sub_mul(normal->x, ray->at.x, distance);
    slack = wide_sub_mul(normal->y, ray->at.y, slack);
    slack = wide_sub_mul(normal->z, ray->at.z, slack);
    wide_mask nearer = wide_less(wide_mul(best->speed, slack), wide_mul(speed, best->slack));
    best->facet = wide_select(nearer, number, best->facet);
    best->speed = wide_select(nearer, speed, best->speed);
    best->slack = wide_select(nearer, slack, best->slack);
}

/* LANES_ROWS registers of rays at once, so that one waits for nothing while another is worked on.
 */
static inline void wide_nearest_of_all(const lw_wide_solid *solid, const wide_ray rays[LANES_ROWS],
                                       wide_nearest found[LANES_ROWS])
{
    wide_candidate best[LANES_ROWS];
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) best[r] =
        (wide_candidate){wide_whole(0), wide_all(0.0f), wide_all(1.0f)};
    const float *plane = solid->numbers;
    int apart = solid->padded;
    for (int i = 0; i < solid->facet_count; i++, plane++) {
        wide_vec normal = {wide_all(plane[0]), wide_all(plane[apart]), wide_all(plane[2 * apart])};
        wide distance = wide_all(plane[3 * apart]), number = wide_whole((unsigned)i);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
            wide_consider(&normal, distance, number, &rays[r], &best[r]);
    }
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
    {
        wide true_slack = wide_sub(best[r].slack, wide_all(solid->skin));
        wide length = wide_div(wide_max(true_slack, wide_all(0.0f)), best[r].speed);
        found[r] = (wide_nearest){best[r].facet, best[r].speed, length};
    }
}

#endif
