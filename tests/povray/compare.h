/* Picture against picture: POV-Ray's and that of light/sampled.h, ray by ray at the same places. */
#ifndef LW_TESTS_POVRAY_COMPARE_H
#define LW_TESTS_POVRAY_COMPARE_H

#include "light/measures.h"
#include "povray/render.h"

/* A pixel is compared where our value a quarter pixel off, in four directions, is the same as in
 * its middle within this: elsewhere a beam's edge runs through it, and rounding decides on which
 * side the ray goes. In shares of the brightest radiance. */
#define COMPARE_STEADY 1e-4

typedef struct comparison {
    long face;            /* pixels whose middle meets the stone, by our rays */
    long elsewhere;       /* of all pixels, those whose middle shows another facet, or none, in
                             POV-Ray's picture of the facets */
    double ours, theirs;  /* mean radiance over the face */
    long compared;        /* pixels compared one by one */
    double largest, rms;  /* their differences, in shares of the brightest radiance */
    long beyond_unsteady; /* of the others, those that differ by more than `within` */
} comparison;

/* What is seen at every pixel: brightness + glare. Rows from the top; -1 where the stone is not. */
typedef struct own_picture {
    int pixels;
    double *radiance;
    int *facet;   /* the first that is met; -1 */
    bool *steady; /* COMPARE_STEADY holds */
} own_picture;

/* Allocates with malloc; asserts. options->bound is not looked at. */
own_picture own_picture_of(const lw_optic_solid *solid, const lw_light_options *options,
                           const povray_view *view);
void own_picture_destroy(own_picture *picture);

/* Facets from POVRAY_FACETS, as POV-Ray's picture shows them: how many pixels differ. */
long compare_facets(const own_picture *ours, const double facets[]);

comparison compare_pictures(const own_picture *ours, const double theirs[], double brightest,
                            double within);

#endif
