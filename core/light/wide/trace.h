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

#include "base/arena.h"
#include "light/optic_solid.h"
#include "light/surroundings.h"
#include "light/symmetry.h"

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

enum { LW_WIDE_FACETS_AT_ONCE = 4, LW_WIDE_MOST_FOLDS = 8, LW_WIDE_FEW_BITS = 3 };

/* A fold: what lies on the far side of a plane, across x + up y > 0, is turned over. bit says so.
 */
typedef struct lw_wide_crease {
    float across, up, across_twice, up_twice, bit;
} lw_wide_crease;

/* A stone that has mirror planes through its axis, folded along them like paper until a wedge is
 * left; unless that would not save time. The facets that are left stand for all (fold_lanes.h).
 * Before folding it is turned about its axis, so that the first plane lies at y = 0. */
typedef struct lw_wide_fold {
    int folds; /* 0: not folded */
    float turn_cos, turn_sin;
    lw_wide_crease creases[LW_WIDE_MOST_FOLDS];
    int straight; /* 1: the second plane lies at x = 0; 2: and the third at y = x */
    int kinds;    /* of facets, in the wedge: first those that lie level, then those that are
                     their own images in the first plane, then the rest */
    int level, level_or_own;
    int kind_bits;    /* that they are numbered in */
    int kinds_padded; /* 2^kind_bits, and at least 16: with LW_WIDE_FEW_BITS all stand there twice
                       */
    float *numbers; /* [5][kinds_padded]: normals' x, y, z, minus their distances, and their numbers
                       as the bits of wholes */
    float *facet;   /* [2^folds][2^kind_bits]: which one it is before the folding, by the folds
                       that turned it over (bits) and its kind */
    float box[3];   /* half extents of a box around the middle that holds the stone, and more */
} lw_wide_fold;

/* The facets in single precision, relative to the solid's middle. Each is moved outward by a skin
 * of LW_WIDE_SKIN half extents, so that a start on a facet or an edge lies inside whatever rounding
 * does, and nothing need be clamped; lengths are told without it. */
typedef struct lw_wide_solid {
    int facet_count;
    lw_vec3 middle; /* on the axis where the stone is mirrored */
    float *numbers; /* [4][padded]: normals' x, y, z, distances; what pads is never met */
    int padded;     /* facet_count, up to a multiple of LW_WIDE_FACETS_AT_ONCE */
    float skin;
    lw_wide_fold fold;
    lw_arena arena;
} lw_wide_solid;

/* symmetry: the solid's own (lw_symmetry_of_solid), which says where to fold. LW_NO_MEMORY. */
lw_status lw_wide_solid_make(const lw_memory *memory, const lw_optic_solid *solid,
                             const lw_symmetry *symmetry, lw_wide_solid *out);
/* Takes a zeroed one, and twice. */
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
