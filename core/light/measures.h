/* How a stone looks, in numbers.
 *
 * Over the silhouette seen from a far eye; a path k through the stone leaves it toward w_k with
 * weight W_k (Fresnel and absorption), L is the surroundings' radiance, 0 inside the head's cone:
 *
 *   brightness  mean of sum W_k L(w_k): the share of the lit surroundings that reaches the eye
 *               from inside the stone
 *   glare       mean of R L(mirrored): the same from the outer surface
 *   window      mean of sum W_k over the parts that leave downward at the first surface they meet
 *               inside: what is seen straight through
 *   leak        mean of sum W_k over all parts that leave downward (window is a part of it)
 *   extinction  mean of sum W_k over the parts that leave into the head's cone
 *   contrast    standard deviation of sum W_k L(w_k)
 *   fire_deg    mean angle between the directions in which the lines 430.8 nm and 686.7 nm leave
 *               by the same facets as 589.3 nm, weighted by W_k L(w_k); 0 when nothing does
 *
 * reflected + sent + absorbed + unresolved = 1, where sent is the mean of sum W_k.
 *
 * Source: the definitions are this project's; the angles and weights are geometry and Fresnel's
 * equations (light/fresnel.h). Frame: the stone's. Lengths: the solid's.
 */
#ifndef LW_LIGHT_MEASURES_H
#define LW_LIGHT_MEASURES_H

#include "light/path.h"
#include "light/surroundings.h"

/* Refractive indices at the three lines; all equal where the dispersion is not known. */
typedef struct lw_light_index {
    double yellow; /* 589.3 nm: what the eye sees; all measures but fire_deg */
    double blue;   /* 430.8 nm (G) */
    double red;    /* 686.7 nm (B) */
} lw_light_index;

typedef struct lw_light_options {
    lw_light_index index; /* each >= 1 */
    double absorption;    /* a length; >= 0 */
    double tilt_deg;      /* 0..90 (90 left out): the eye's angle from the table's normal */
    double turn_deg;      /* the azimuth it is tilted toward, counter-clockwise from +x */
    double head_deg;      /* half-angle of the viewer's head, 0..90 */
    bool unpolarised;     /* average s and p at each surface, as general renderers do */
    int rays;             /* over the rectangle around the silhouette, 8..LW_LIGHT_MOST_RAYS */
    double least_energy;  /* a path is given up below this; > 0 */
    int most_surfaces;    /* or after this many; > 0 */
} lw_light_options;

enum { LW_LIGHT_MOST_RAYS = 1 << 28 };

/* Index n at every line, no absorption, eye straight above, head of 10 degrees, polarised,
 * 131,072 rays, followed down to 1e-6 or 1,000 surfaces. */
lw_light_options lw_light_defaults(double index);

/* What one ray from the eye meets: its share of each sum above. */
typedef struct lw_ray_light {
    double brightness, glare, window, leak, extinction;
    double reflected, sent, absorbed, unresolved;
    double fire;        /* sum of W L x the angle in degrees … */
    double fire_weight; /* … and of W L where it counts */
} lw_ray_light;

/* False, with *out untouched, when the ray misses the stone. direction has length 1. */
bool lw_light_of_ray(const lw_optic_solid *solid, const lw_light_options *options,
                     const lw_surroundings *surroundings, lw_vec3 from, lw_vec3 direction,
                     lw_ray_light *out);

typedef struct lw_light_measures {
    double brightness, glare, window, leak, extinction, contrast, fire_deg;
    double reflected, sent, absorbed;
    double unresolved; /* mean energy of the paths given up: a hard bound on what is missing */
    double error_est;  /* of brightness, from the sampling: 99 % of cases lie within */
    long beams;        /* beams followed; for now each is a ray, so the rays that met the stone */
} lw_light_measures;

/* Rays lie on LW_LIGHT_GRIDS low-discrepancy grids that differ by a shift; error_est comes from
 * how far their means part. The same numbers on every run.
 * LW_BAD_INPUT when an option is out of its range or not finite; LW_NOT_CLOSED; LW_NO_MEMORY. */
lw_status lw_light_measure(const lw_memory *memory, const lw_polyhedron *polyhedron,
                           const lw_light_options *options, lw_light_measures *out);

enum { LW_LIGHT_GRIDS = 8 };

#endif
