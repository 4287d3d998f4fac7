/* A third opinion on polarised light: chains of Mueller matrices, in extended precision.
 *
 * Written from the textbook's matrices alone, with its own nearest exit over the bare list of
 * planes; nothing of core/light.
 *
 * Source (from memory): D. Goldstein, Polarized Light, 2nd ed., 2003, ch. 5 (diattenuator, retarder
 * and rotation) and ch. 8 (amplitudes at a surface by sines and tangents); phase of total
 * reflection M. Born and E. Wolf, Principles of Optics, 7th ed., 1.5.4, eq. 60. Frame of a beam:
 * s, p and the direction are a right-handed triple; a rotation is counter-clockwise in it.
 */
#ifndef LW_TESTS_LIGHT_MUELLER_H
#define LW_TESTS_LIGHT_MUELLER_H

#include "geom/vec.h"

typedef struct mueller {
    long double m[4][4];
} mueller;

typedef struct mueller_state {
    long double s[4];
} mueller_state;

/* s and p are multiplied by these amplitudes, which may be negative. */
mueller mueller_diattenuator(long double amplitude_s, long double amplitude_p);
/* The phase of s is put before that of p by so many radians. */
mueller mueller_retarder(long double radians);
/* The same light told in a frame turned by so many radians about the direction. */
mueller mueller_rotation(long double radians);
mueller_state mueller_apply(const mueller *matrix, const mueller_state *state);

/* Born & Wolf eq. 60: radians between s and p after a total reflection inside. */
long double mueller_total_phase(long double index, long double angle);

/* What happens at each surface inside. */
typedef struct mueller_step {
    int plane;
    long double angle;  /* of incidence, radians */
    long double turned; /* by how much the plane of incidence has turned about the beam */
    long double weight; /* energy that leaves; 0 at a total reflection */
    long double inside; /* and that goes on */
} mueller_step;

/* Unpolarised light of energy 1 from outside, direction of length 1: glare is what the first
 * surface returns, steps[0..count - 1] what follows. Returns the plane it enters by. */
int mueller_trace(const lw_plane *planes, int plane_count, double index, lw_vec3 from,
                  lw_vec3 direction, int count, mueller_step steps[], long double *glare);

#endif
