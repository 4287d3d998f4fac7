/* Many rays at once.
 *
 * The same tracing as light/path.h, in single precision, with as many rays side by side as the
 * machine has lanes: one source (trace_lanes.h), built once for each instruction set and chosen at
 * run time. All of them give pictures that agree within LW_WIDE_AGREES; one of them gives the same
 * numbers on every run, whatever the order in which work is handed out.
 *
 * A ray that is done makes room for the next at once, so that lanes do not wait for one another.
 * Lengths are the solid's.
 */
#ifndef LW_LIGHT_WIDE_TRACE_H
#define LW_LIGHT_WIDE_TRACE_H

#include "light/optic_solid.h"
#include "light/surroundings.h"

typedef enum lw_lanes {
    LW_LANES_SCALAR,  /* 1 */
    LW_LANES_SSE2,    /* 4 */
    LW_LANES_AVX2,    /* 8, with fused multiply-add */
    LW_LANES_AVX512,  /* 16 */
    LW_LANES_SIMD128, /* 4, WebAssembly */
    LW_LANES_COUNT
} lw_lanes;

/* The widest that is built in and that this machine has. */
lw_lanes lw_lanes_best(void);
bool lw_lanes_usable(lw_lanes lanes);
/* "avx2" and so on. */
const char *lw_lanes_text(lw_lanes lanes);

/* The facets in single precision, relative to the solid's middle. Each is moved outward by a skin
 * of LW_WIDE_SKIN half extents, so that a start on a facet or an edge lies inside whatever rounding
 * does, and nothing need be clamped; lengths are told without it. */
typedef struct lw_wide_solid {
    int facet_count;
    lw_vec3 middle;
    float *numbers; /* [4][padded]: normals' x, y, z, distances; what pads is never met */
    int padded;     /* facet_count, up to a multiple of LW_WIDE_FACETS_AT_ONCE */
    float skin;
} lw_wide_solid;

enum { LW_WIDE_FACETS_AT_ONCE = 4 };

lw_status lw_wide_solid_make(const lw_memory *memory, const lw_optic_solid *solid,
                             lw_wide_solid *out);
void lw_wide_solid_destroy(const lw_memory *memory, lw_wide_solid *solid);

/* Where rays from inside leave: for count rays given as arrays, the facet and the length.
 * Lengths 1. The bare nearest-exit kernel, for those who only need that, and to be measured. */
typedef struct lw_wide_rays {
    int count;
    const float *x, *y, *z;    /* relative to the solid's middle */
    const float *dx, *dy, *dz; /* of length 1 */
} lw_wide_rays;
void lw_wide_exit(lw_lanes lanes, const lw_wide_solid *solid, const lw_wide_rays *rays, int facet[],
                  float length[]);

/* What one wavelength meets. */
typedef struct lw_wide_job {
    const lw_wide_solid *solid;
    double index;      /* of refraction, >= 1 */
    double absorption; /* a length: exp(-absorption x length) of the energy passes */
    bool unpolarised;
    const lw_surroundings *surroundings;
    const double *patch_scale; /* [patch_count + 1] what each patch's radiance, and at the end the
                                  head's, is multiplied by at this wavelength; NULL: 1 */
    double least_energy;       /* a path is given up below this share of what it started with */
    int most_surfaces;
} lw_wide_job;

/* What becomes of one ray: shares of the energy that it starts with, except that brightness and
 * glare are multiplied by the surroundings' radiance. */
typedef struct lw_wide_light {
    float brightness, glare, window, leak, extinction;
    float reflected, sent, absorbed, given_up;
} lw_wide_light;

/* Rays from outside: light from the eye, unpolarised, energy 1. from: any point before the stone,
 * absolute (not relative to the middle); direction common to all, away from the eye. out[i] is all
 * zero where ray i misses, and hit[i] then false; hit may be NULL. */
void lw_wide_look(lw_lanes lanes, const lw_wide_job *job, lw_vec3 direction, int count,
                  const lw_vec3 from[], lw_wide_light out[], bool hit[]);

/* A ray that is inside already, at a point on a facet, its energy and polarisation as a share of
 * whatever (Stokes parameters, light/polarisation.h, told by the axis s). No glare, and window is
 * counted only where first says that it has met no surface inside yet. */
typedef struct lw_wide_inside {
    lw_vec3 at, direction, s; /* absolute; lengths 1 */
    float i, q, u, v;         /* i > 0 */
    bool first;
} lw_wide_inside;

/* Follows them to their ends. Shares in out[k] are of rays[k].i. */
void lw_wide_finish(lw_lanes lanes, const lw_wide_job *job, int count, const lw_wide_inside rays[],
                    lw_wide_light out[]);

#endif
