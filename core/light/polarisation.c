#include "light/polarisation.h"

#include "geom/tolerance.h"

lw_vec3 lw_polarisation_axis(lw_vec3 direction, lw_vec3 normal, lw_vec3 fallback)
{
    lw_vec3 s = lw_vec3_cross(direction, normal);
    double length = lw_vec3_length(s);
    if (length < LW_SQUARE_ON)
        return fallback;
    return lw_vec3_scale(s, 1.0 / length);
}

lw_stokes lw_stokes_turn(lw_stokes state, lw_vec3 direction, lw_vec3 s_from, lw_vec3 s_to)
{
    double c = lw_vec3_dot(s_from, s_to);
    double s = lw_vec3_dot(lw_vec3_cross(direction, s_from), s_to);
    double size = c * c + s * s; /* 1 within rounding */
    double cos2 = (c * c - s * s) / size;
    double sin2 = 2.0 * c * s / size;
    return (lw_stokes){state.i, state.q * cos2 + state.u * sin2, state.u * cos2 - state.q * sin2,
                       state.v};
}

/* i and q by the shares of s and p, u and v by the product of the amplitudes. */
static lw_stokes split(lw_stokes state, double share_s, double share_p, double re, double im)
{
    double mean = 0.5 * (share_s + share_p);
    double half = 0.5 * (share_s - share_p);
    return (lw_stokes){mean * state.i + half * state.q, half * state.i + mean * state.q,
                       re * state.u - im * state.v, im * state.u + re * state.v};
}

lw_stokes lw_stokes_reflect(lw_stokes state, const lw_fresnel *surface)
{
    return split(state, surface->reflect_s, surface->reflect_p, surface->reflect_re,
                 surface->reflect_im);
}

lw_stokes lw_stokes_transmit(lw_stokes state, const lw_fresnel *surface)
{
    return split(state, surface->transmit_s, surface->transmit_p, surface->transmit_re, 0.0);
}
