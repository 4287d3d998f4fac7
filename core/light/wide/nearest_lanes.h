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

/* facet as a number; how fast the ray runs at it, > 0; how far it is, square to it. */
typedef struct wide_nearest {
    wide facet, speed, slack;
} wide_nearest;

/* Nearest is largest in speed / slack, compared crosswise; all slacks are positive, thanks to the
 * skin. */
static inline void wide_consider(const float *plane, int padded, wide number, const wide_ray *ray,
                                 wide_nearest *best)
{
    wide_vec normal = {wide_all(plane[0]), wide_all(plane[padded]), wide_all(plane[2 * padded])};
    wide speed = wide_dot(normal, ray->to);
    wide slack = wide_all(plane[3 * padded]);
    slack = wide_sub_mul(normal.x, ray->at.x, slack);
    slack = wide_sub_mul(normal.y, ray->at.y, slack);
    slack = wide_sub_mul(normal.z, ray->at.z, slack);
    wide_mask nearer = wide_less(wide_mul(best->speed, slack), wide_mul(speed, best->slack));
    best->facet = wide_select(nearer, number, best->facet);
    best->speed = wide_select(nearer, speed, best->speed);
    best->slack = wide_select(nearer, slack, best->slack);
}

/* rows registers of rays at once, so that one waits for nothing while another is worked on. */
static inline void wide_nearest_of(const lw_wide_solid *solid, int rows, const wide_ray rays[],
                                   wide_nearest best[])
{
    for (int r = 0; r < rows; r++)
        best[r] = (wide_nearest){wide_all(0.0f), wide_all(0.0f), wide_all(1.0f)};
    wide number = wide_all(0.0f);
    for (int i = 0; i < solid->facet_count; i++) {
        for (int r = 0; r < rows; r++)
            wide_consider(solid->numbers + i, solid->padded, number, &rays[r], &best[r]);
        number = wide_add(number, wide_all(1.0f));
    }
}

static inline wide wide_length(const lw_wide_solid *solid, const wide_nearest *best)
{
    wide true_slack = wide_sub(best->slack, wide_all(solid->skin));
    return wide_div(wide_max(true_slack, wide_all(0.0f)), best->speed);
}

#endif
