/* Points, directions and planes of three-space, in double precision.
 *
 * Frame: right-handed, z up through the table, z = 0 at mid-girdle, unit length the cut's width.
 */
#ifndef LW_GEOM_VEC_H
#define LW_GEOM_VEC_H

#include <math.h>

typedef struct lw_vec3 {
    double x, y, z;
} lw_vec3;

/* The half-space normal . p <= distance; normal has length 1 and points outward. */
typedef struct lw_plane {
    lw_vec3 normal;
    double distance;
} lw_plane;

static inline lw_vec3 lw_vec3_add(lw_vec3 a, lw_vec3 b)
{
    return (lw_vec3){a.x + b.x, a.y + b.y, a.z + b.z};
}

static inline lw_vec3 lw_vec3_sub(lw_vec3 a, lw_vec3 b)
{
    return (lw_vec3){a.x - b.x, a.y - b.y, a.z - b.z};
}

static inline lw_vec3 lw_vec3_scale(lw_vec3 a, double s)
{
    return (lw_vec3){a.x * s, a.y * s, a.z * s};
}

static inline double lw_vec3_dot(lw_vec3 a, lw_vec3 b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static inline lw_vec3 lw_vec3_cross(lw_vec3 a, lw_vec3 b)
{
    return (lw_vec3){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static inline double lw_vec3_length(lw_vec3 a)
{
    return sqrt(lw_vec3_dot(a, a));
}

/* a and b weighted 1 - t and t. */
static inline lw_vec3 lw_vec3_mix(lw_vec3 a, lw_vec3 b, double t)
{
    return lw_vec3_add(lw_vec3_scale(a, 1.0 - t), lw_vec3_scale(b, t));
}

/* How far p lies outside the plane; negative inside. */
static inline double lw_plane_height(lw_plane plane, lw_vec3 p)
{
    return lw_vec3_dot(plane.normal, p) - plane.distance;
}

#endif
