/* The measures once more, by rays one at a time in double precision: the plain way, which the beams
 * are held against. Ten thousand times the work for the same error.
 */
#ifndef LW_LIGHT_SAMPLED_H
#define LW_LIGHT_SAMPLED_H

#include "light/measures.h"
#include "light/path.h"

/* What one ray from the eye meets: its share of each sum of light/measures.h. */
typedef struct lw_ray_light {
    double brightness, glare, window, leak, extinction;
    double reflected, sent, absorbed, given_up;
    double fire;        /* sum of W L x the angle in degrees … */
    double fire_weight; /* … and of W L where both lines leave */
} lw_ray_light;

/* A path is given up below this share of its ray's energy. */
#define LW_RAY_ENDS 1e-15

/* False, with *out untouched, when the ray misses the stone. direction has length 1. bound is not
 * looked at; a path ends at LW_RAY_ENDS or after most_surfaces. */
bool lw_light_of_ray(const lw_optic_solid *solid, const lw_light_options *options,
                     const lw_surroundings *surroundings, lw_vec3 from, lw_vec3 direction,
                     lw_ray_light *out);

/* Over the rectangle around the silhouette, on LW_LIGHT_GRIDS low-discrepancy grids that differ by
 * a shift; error_est comes from how far their means part. out->rays counts those that met the
 * stone; unresolved is 0, for nothing is followed as beams and all is resolved but given_up.
 * LW_BAD_INPUT also for rays outside LW_LIGHT_GRIDS .. LW_LIGHT_MOST_RAYS. */
lw_status lw_light_measure_by_rays(const lw_memory *memory, const lw_polyhedron *polyhedron,
                                   const lw_light_options *options, int rays,
                                   lw_light_measures *out);

enum { LW_LIGHT_GRIDS = 8, LW_LIGHT_MOST_RAYS = 1 << 28 };

#endif
