/* The state of a beam: how much light, and how it swings.
 *
 * Stokes parameters in the beam's own frame (s, p = direction x s), both of length 1:
 * i = |E_s|^2 + |E_p|^2, q = |E_s|^2 - |E_p|^2, u + i v = 2 E_s conj(E_p). Light from the
 * surroundings is unpolarised (1, 0, 0, 0) and becomes polarised at the first slanting surface; a
 * total reflection turns u into v. Averaging s and p at each surface instead is what
 * lw_stokes_forget does.
 *
 * A path may be followed from the eye: by reciprocity (Born & Wolf 7th ed., 1.5; the first element
 * of a chain of Mueller matrices is the same in both directions) the share of unpolarised light
 * that makes its way from the surroundings to the eye is that from the eye to the surroundings.
 */
#ifndef LW_LIGHT_POLARISATION_H
#define LW_LIGHT_POLARISATION_H

#include "geom/vec.h"
#include "light/fresnel.h"

typedef struct lw_stokes {
    double i, q, u, v;
} lw_stokes;

static inline lw_stokes lw_stokes_unpolarised(double energy)
{
    return (lw_stokes){energy, 0.0, 0.0, 0.0};
}

/* The same energy with its polarisation averaged away. */
static inline lw_stokes lw_stokes_forget(lw_stokes state)
{
    return lw_stokes_unpolarised(state.i);
}

static inline lw_stokes lw_stokes_scale(lw_stokes state, double share)
{
    return (lw_stokes){state.i * share, state.q * share, state.u * share, state.v * share};
}

/* The direction of s at a surface; where the beam meets it squarely every direction serves, and
 * fallback (at right angles to the beam) is given back. Lengths 1. */
lw_vec3 lw_polarisation_axis(lw_vec3 direction, lw_vec3 normal, lw_vec3 fallback);

/* The state of a beam told in the frame of s_to instead of s_from, both at right angles to it, of
 * any length. */
static inline lw_stokes lw_stokes_turn(lw_stokes state, lw_vec3 direction, lw_vec3 s_from,
                                       lw_vec3 s_to)
{
    double c = lw_vec3_dot(s_from, s_to);
    double s = lw_vec3_dot(lw_vec3_cross(direction, s_from), s_to);
    double per = 1.0 / (c * c + s * s);
    double cos2 = (c * c - s * s) * per;
    double sin2 = 2.0 * c * s * per;
    return (lw_stokes){state.i, state.q * cos2 + state.u * sin2, state.u * cos2 - state.q * sin2,
                       state.v};
}

/* i and q by the shares of s and p, u and v by the product of the amplitudes. */
static inline lw_stokes lw_stokes_split(lw_stokes state, double share_s, double share_p, double re,
                                        double im)
{
    double mean = 0.5 * (share_s + share_p);
    double half = 0.5 * (share_s - share_p);
    return (lw_stokes){mean * state.i + half * state.q, half * state.i + mean * state.q,
                       re * state.u - im * state.v, im * state.u + re * state.v};
}

/* Told in the surface's frame, before and after. */
static inline lw_stokes lw_stokes_reflect(lw_stokes state, const lw_fresnel *surface)
{
    return lw_stokes_split(state, surface->reflect_s, surface->reflect_p, surface->reflect_re,
                           surface->reflect_im);
}

static inline lw_stokes lw_stokes_transmit(lw_stokes state, const lw_fresnel *surface)
{
    return lw_stokes_split(state, surface->transmit_s, surface->transmit_p, surface->transmit_re,
                           0.0);
}

#endif
