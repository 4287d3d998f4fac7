/* Directions, surfaces and absorption, many at once: light/path.c, light/polarisation.c and
 * light/fresnel.c in lanes. Built once an instruction set. */
#ifndef LW_LIGHT_WIDE_PHYSICS_LANES_H
#define LW_LIGHT_WIDE_PHYSICS_LANES_H

#include "geom/tolerance.h"
#include "light/wide/nearest_lanes.h"

static inline wide_vec wide_cross(wide_vec a, wide_vec b)
{
    return (wide_vec){wide_sub_mul(a.z, b.y, wide_mul(a.y, b.z)),
                      wide_sub_mul(a.x, b.z, wide_mul(a.z, b.x)),
                      wide_sub_mul(a.y, b.x, wide_mul(a.x, b.y))};
}

static inline wide_vec wide_scale(wide_vec a, wide s)
{
    return (wide_vec){wide_mul(a.x, s), wide_mul(a.y, s), wide_mul(a.z, s)};
}

/* a + s b */
static inline wide_vec wide_along(wide_vec a, wide s, wide_vec b)
{
    return (wide_vec){wide_add_mul(s, b.x, a.x), wide_add_mul(s, b.y, a.y),
                      wide_add_mul(s, b.z, a.z)};
}

static inline wide_vec wide_select_vec(wide_mask m, wide_vec a, wide_vec b)
{
    return (wide_vec){wide_select(m, a.x, b.x), wide_select(m, a.y, b.y), wide_select(m, a.z, b.z)};
}

/* A direction whose length is 1 but for rounding, brought back to 1: one step of Newton's method
 * for the inverse of the root. */
static inline wide_vec wide_of_length_1(wide_vec a)
{
    wide half = wide_mul(wide_dot(a, a), wide_all(0.5f));
    return wide_scale(a, wide_sub(wide_all(1.5f), half));
}

/* e^a for a <= 0, to 2 units in the last place; below -87 it stays at e^-87, as good as nothing.
 * a = n ln 2 + r with |r| <= ln 2 / 2, ln 2 in two parts (W. J. Cody and W. Waite, Software Manual
 * for the Elementary Functions, 1980, ch. 6); e^r by its series to r^7. */
static inline wide wide_exp(wide a)
{
    const float rounder = 12582912.0f; /* 1.5 x 2^23: added, only a whole is left */
    a = wide_max(a, wide_all(-87.0f));
    wide n = wide_add_mul(a, wide_all(1.44269504f), wide_all(rounder));
    n = wide_sub(n, wide_all(rounder));
    wide r = wide_sub_mul(n, wide_all(0.693359375f), a);
    r = wide_add_mul(n, wide_all(2.12194440e-4f), r);
    static const float series[] = {1.0f / 720, 1.0f / 120, 1.0f / 24, 1.0f / 6, 0.5f, 1.0f, 1.0f};
    wide sum = wide_all(1.0f / 5040);
    for (int i = 0; i < 7; i++)
        sum = wide_add_mul(sum, r, wide_all(series[i]));
    return wide_mul(sum, wide_power_of_2(n));
}

/* As lw_fresnel, with means and half differences of s and p. */
typedef struct wide_surface {
    wide_mask total;
    wide cos_t;
    wide reflect_mean, reflect_half, reflect_re, reflect_im;
    wide transmit_mean, transmit_half;
} wide_surface;

/* 1 - sin^2 of the passing beam. Near an index of 1, where no angle but the flattest is critical,
 * the second form loses nothing; at the critical angle of a gem the first loses least. */
static inline wide wide_cos2_beyond(const lw_wide_medium *medium, wide cos_i, wide sin2_i)
{
    if (medium->square > 2.0f) {
        wide cos2 = wide_sub_mul(wide_all(medium->square), sin2_i, wide_all(1.0f));
        return wide_sub_mul(wide_all(medium->square_rest), sin2_i, cos2);
    }
    wide cos2_i = wide_mul(cos_i, cos_i);
    return wide_add_mul(wide_all(medium->square), cos2_i, wide_all(-medium->square_less_1));
}

/* The formulas of lw_fresnel_at; q is cos_t, or its imaginary part when total. The two cases share
 * the one division. */
static inline wide_surface wide_surface_at(const lw_wide_medium *medium, wide cos_i, wide sin2_i)
{
    wide n = wide_all(medium->eta);
    wide cos2_t = wide_cos2_beyond(medium, cos_i, sin2_i);
    wide_surface s = {.total = wide_less(cos2_t, wide_all(0.0f))};
    wide q = wide_sqrt(wide_abs(cos2_t));
    wide near = wide_mul(n, cos_i), far = wide_mul(n, q);
    wide sum_s = wide_add(near, q), sum_p = wide_add(cos_i, far);
    wide re = wide_add_mul(near, cos_i, wide_mul(far, q));
    wide im = wide_mul(wide_mul(cos_i, q), wide_all(medium->square_less_1));
    wide re2 = wide_mul(re, re);
    wide size = wide_select(s.total, wide_add_mul(im, im, re2), wide_mul(sum_s, sum_p));
    wide inverse = wide_div(wide_all(1.0f), size);
    wide by_s = wide_mul(sum_p, inverse), by_p = wide_mul(sum_s, inverse); /* 1 / sum_s … */
    wide r_s = wide_mul(wide_sub(near, q), by_s), r_p = wide_mul(wide_sub(cos_i, far), by_p);
    wide passing = wide_mul(wide_mul(wide_all(2.0f), near), q);
    wide t_s = wide_mul(passing, wide_mul(by_s, by_s)); /* half of the share */
    wide t_p = wide_mul(passing, wide_mul(by_p, by_p));
    wide half_s = wide_mul(wide_mul(wide_all(0.5f), r_s), r_s);
    wide half_p = wide_mul(wide_mul(wide_all(0.5f), r_p), r_p);
    wide total_re = wide_mul(wide_sub_mul(im, im, re2), inverse);
    wide total_im = wide_mul(wide_mul(wide_mul(wide_all(2.0f), re), im), inverse);
    wide zero = wide_all(0.0f);
    s.cos_t = q;
    s.reflect_mean = wide_select(s.total, wide_all(1.0f), wide_add(half_s, half_p));
    s.reflect_half = wide_select(s.total, zero, wide_sub(half_s, half_p));
    s.reflect_re = wide_select(s.total, total_re, wide_mul(r_s, r_p));
    s.reflect_im = wide_keep(s.total, total_im);
    s.transmit_mean = wide_select(s.total, zero, wide_add(t_s, t_p));
    s.transmit_half = wide_select(s.total, zero, wide_sub(t_s, t_p));
    return s;
}

static inline wide_vec wide_refracted(float eta, wide_vec to, wide_vec normal, wide cos_i,
                                      wide cos_t)
{
    wide along = wide_sub_mul(wide_all(eta), cos_i, cos_t);
    return wide_of_length_1(wide_along(wide_scale(to, wide_all(eta)), along, normal));
}

typedef struct wide_stokes {
    wide i, q, u, v;
} wide_stokes;

/* lw_stokes_turn: from the axis s_from to s_to. */
static inline wide_stokes wide_turn(wide_stokes state, wide_vec to, wide_vec s_from, wide_vec s_to)
{
    wide c = wide_dot(s_from, s_to);
    wide s = wide_dot(wide_cross(to, s_from), s_to);
    wide c2 = wide_mul(c, c), s2 = wide_mul(s, s);
    wide inverse = wide_div(wide_all(1.0f), wide_add(c2, s2));
    wide cos2 = wide_mul(wide_sub(c2, s2), inverse);
    wide sin2 = wide_mul(wide_mul(wide_all(2.0f), wide_mul(c, s)), inverse);
    return (wide_stokes){state.i, wide_add_mul(state.u, sin2, wide_mul(state.q, cos2)),
                         wide_sub_mul(state.q, sin2, wide_mul(state.u, cos2)), state.v};
}

static inline wide_stokes wide_reflect(wide_stokes a, const wide_surface *surface)
{
    wide re = surface->reflect_re, im = surface->reflect_im;
    wide mean = surface->reflect_mean, half = surface->reflect_half;
    return (wide_stokes){
        wide_add_mul(half, a.q, wide_mul(mean, a.i)), wide_add_mul(mean, a.q, wide_mul(half, a.i)),
        wide_sub_mul(im, a.v, wide_mul(re, a.u)), wide_add_mul(re, a.v, wide_mul(im, a.u))};
}

#endif
