/* What trace.c makes ready once, and the sources that are built once an instruction set work from.
 * Private to this folder. */
#ifndef LW_LIGHT_WIDE_PARTS_H
#define LW_LIGHT_WIDE_PARTS_H

#include "light/wide/trace.h"

/* Directions whose cosine with the axis is above a bound. Where the cone is narrow, single
 * precision tells the distance between the two directions' tips much better than the cosine. */
typedef struct lw_wide_cone {
    float x, y, z;
    bool narrow;
    float bound; /* of the cosine; narrow: of the distance squared */
} lw_wide_cone;

typedef struct lw_wide_patch {
    bool pane;
    lw_wide_cone cone; /* of a pane only the axis counts */
    float right[3], above[3], tan_width, tan_tall;
    float even, slope; /* of the radiance, the wavelength's scale in it */
} lw_wide_patch;

/* The surroundings at one wavelength. */
typedef struct lw_wide_sky {
    lw_wide_cone head;
    float head_radiance;
    float zenith[3];
    int patch_count;
    lw_wide_patch patches[LW_LIGHT_MOST_PATCHES];
} lw_wide_sky;

/* What Fresnel's equations need of a surface met from one side: eta = n here / n beyond. Its square
 * in two parts, since a rounding in it would tell at every surface alike. */
typedef struct lw_wide_medium {
    float eta, square, square_rest;
    float square_less_1; /* eta^2 - 1 */
} lw_wide_medium;

typedef struct lw_wide_setup {
    const lw_wide_solid *solid;
    lw_wide_medium inside, outside; /* light that comes from there */
    float absorption, least_energy, most_surfaces;
    bool unpolarised;
    lw_wide_sky sky;
} lw_wide_setup;

/* One instruction set's own. */
typedef struct lw_wide_kernels {
    void (*exit)(const lw_wide_solid *solid, const lw_wide_rays *rays, int facet[], float length[]);
    void (*look)(const lw_wide_setup *job, lw_vec3 direction, int count, const lw_vec3 from[],
                 lw_wide_light out[], bool hit[]);
    void (*finish)(const lw_wide_setup *job, int count, const lw_wide_inside rays[],
                   lw_wide_light out[]);
} lw_wide_kernels;

extern const lw_wide_kernels lw_wide_scalar, lw_wide_sse2, lw_wide_avx2, lw_wide_avx512,
    lw_wide_simd128;

#endif
