/* How a stone looks, in numbers.
 *
 * Over the silhouette seen from a far eye; a path k through the stone leaves it toward w_k with
 * weight W_k (Fresnel and absorption), L is the surroundings' radiance (the head's inside its cone,
 * which is 0 under the default sky):
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
 *               after the same facets as 589.3 nm, weighted by W_k L(w_k); 0 when nothing does
 *
 * Downward is below the stone's girdle plane. reflected + sent + absorbed + given_up = 1, where
 * sent is the mean of sum W_k. docs/light.md has the formulas, and what each was checked against.
 *
 * Source: the definitions are this project's; the angles and weights are geometry and Fresnel's
 * equations (light/fresnel.h). Frame: the stone's. Lengths: the solid's.
 */
#ifndef LW_LIGHT_MEASURES_H
#define LW_LIGHT_MEASURES_H

#include "light/beam.h"

typedef struct lw_light_options {
    lw_light_index index;        /* each >= 1 */
    double absorption;           /* a length; >= 0 */
    double tilt_deg;             /* 0..90 (90 left out): the eye's angle from the table's normal */
    double turn_deg;             /* the azimuth it is tilted toward, counter-clockwise from +x */
    double head_deg;             /* half-angle of the viewer's head, 0..90; below 0: the place's */
    const lw_light_place *place; /* NULL: the even sky */
    bool unpolarised;            /* average s and p at each surface, as general renderers do */
    bool whole;                  /* follow all of the face, whatever its symmetry */
    double bound;                /* share of the face's light below which a piece of a beam is
                                    finished by rays; > 0 */
    int most_surfaces;           /* a path is given up after this many; > 0 */
} lw_light_options;

/* Index n at every line, no absorption, eye straight above, the even sky with a head of 10 degrees,
 * polarised, bound LW_LIGHT_BOUND, 1,000 surfaces. */
lw_light_options lw_light_defaults(double index);

/* Brightness comes out to 1e-5 in quartz and 1e-4 in diamond with this; LW_LIGHT_COARSE serves
 * searches (1e-4 to 5e-4). error_est says what it is. */
#define LW_LIGHT_BOUND 1e-6
#define LW_LIGHT_COARSE 1e-5

typedef struct lw_light_measures {
    double brightness, glare, window, leak, extinction, contrast, fire_deg;
    double reflected, sent, absorbed;
    double unresolved; /* energy not followed as beams: a hard bound on what is off */
    double given_up;   /* energy that nothing followed to its end */
    double error_est;  /* of brightness: 99 % of cases lie within */
    long beams;        /* pieces of beams followed from one surface to the next … */
    long rays;         /* … and rays that finished pieces, two each */
} lw_light_measures;

/* Exact beams, on a part of the face where symmetry allows. The same numbers on every run.
 * LW_BAD_INPUT when an option is out of its range or not finite; LW_NOT_CLOSED; LW_NO_MEMORY,
 * LW_TOO_LARGE. */
lw_status lw_light_measure(const lw_memory *memory, const lw_polyhedron *polyhedron,
                           const lw_light_options *options, lw_light_measures *out);

/* The same with a bound, in place of the one given, chosen so that error_est comes to no more than
 * error (> 0), or as near to it as LW_LIGHT_FINEST leads. */
lw_status lw_light_measure_to(const lw_memory *memory, const lw_polyhedron *polyhedron,
                              const lw_light_options *options, double error,
                              lw_light_measures *out);
#define LW_LIGHT_FINEST 1e-9

/* What one facet does for the stone. All but per-area figures are shares of what falls on the whole
 * face; over all facets face adds to 1, and bright and lights both to brightness. */
typedef struct lw_facet_light {
    double face;       /* of what the eye sees, it covers this much */
    double bright;     /* brightness that is seen through it, … */
    double window;     /* … and window, … */
    double extinction; /* … and the head */
    double met;        /* light inside the stone falls on it: more than 1 where it does so often */
    double turned;     /* and is sent on inside by it */
    double lights;     /* brightness whose light comes into the stone by it */
    double leaks;      /* light that leaves downward by it */
} lw_facet_light;

/* Adds what another does. */
void lw_facet_light_add(lw_facet_light *sum, const lw_facet_light *more);

/* The same, and of_planes[plane_count] filled in by the polyhedron's planes (zeros for one without
 * a face). What rays finished is not among it but for face, bright and extinction. */
lw_status lw_light_measure_facets(const lw_memory *memory, const lw_polyhedron *polyhedron,
                                  const lw_light_options *options, lw_light_measures *out,
                                  lw_facet_light of_planes[]);

/* Whether the options are in their ranges and finite. */
bool lw_light_options_sound(const lw_light_options *options);

/* Where the stone stands and who looks: what the options come to. */
lw_surroundings lw_light_surroundings(const lw_light_options *options);

#endif
