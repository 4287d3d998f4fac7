/* One surface: light/fresnel.h and light/polarisation.h. */
#include "geom/angle.h"
#include "light/near.h"
#include "light/polarisation.h"

static double cos_deg(double degrees)
{
    return lw_sincos_deg(degrees).cos;
}

static double critical_deg(double index)
{
    return lw_asin_deg(1.0 / index);
}

/* published: handbooks give 4.57 % for quartz (1.544) and 17.2 % for diamond (2.417). */
static void normal_reflectance(void **state)
{
    (void)state;
    const struct {
        double index, percent, within;
    } rows[] = {{1.544, 4.57, 0.005}, {2.417, 17.2, 0.05}};
    for (int i = 0; i < 2; i++) {
        for (int out = 0; out < 2; out++) {
            double eta = out ? rows[i].index : 1.0 / rows[i].index;
            lw_fresnel f = lw_fresnel_at(eta, 1.0);
            assert_near(100.0 * f.reflect_s, rows[i].percent, rows[i].within);
            assert_near(f.reflect_s, f.reflect_p, 1e-16);
            assert_true(f.reflect_re < 0.0); /* r_p = -r_s: Born & Wolf's sign */
        }
    }
}

/* published: Born & Wolf 7th ed., 1.5.3, table 1.1 and eq. 46: tan(polarising angle) = n; glass of
 * 1.52 has 56 deg 40'. */
static void brewster(void **state)
{
    (void)state;
    const double indices[] = {1.333, 1.52, 1.544, 1.77, 2.417};
    for (int i = 0; i < 5; i++) {
        double angle = lw_atan2_deg(indices[i], 1.0);
        lw_fresnel f = lw_fresnel_at(1.0 / indices[i], cos_deg(angle));
        assert_true(f.reflect_p < 1e-30);
        assert_true(f.reflect_s > 0.05);
        assert_near(f.transmit_p, 1.0, 1e-15);
    }
    assert_near(lw_atan2_deg(1.52, 1.0), 56.0 + 40.0 / 60.0, 0.5 / 60.0);
}

/* published: critical angles of diamond 24.44, quartz 40.37, corundum 34.40, topaz 38.12, zirconia
 * 27.58, fluorite 44.21 (handbook indices). */
static void critical_angle(void **state)
{
    (void)state;
    const double rows[][2] = {{2.417, 24.44}, {1.544, 40.37}, {1.77, 34.40},
                              {1.62, 38.12},  {2.16, 27.58},  {1.434, 44.21}};
    for (int i = 0; i < 6; i++) {
        double angle = critical_deg(rows[i][0]);
        assert_near(angle, rows[i][1], 0.005);
        assert_false(lw_fresnel_at(rows[i][0], cos_deg(angle - 1e-9)).total);
        assert_true(lw_fresnel_at(rows[i][0], cos_deg(angle + 1e-9)).total);
        assert_false(lw_fresnel_at(1.0 / rows[i][0], cos_deg(89.999)).total);
    }
}

/* delta = delta_p - delta_s at a total reflection inside a medium of this index. */
static double phase_deg(double index, double angle_deg)
{
    lw_fresnel f = lw_fresnel_at(index, cos_deg(angle_deg));
    assert_true(f.total);
    return lw_atan2_deg(f.reflect_im, f.reflect_re);
}

/* published: Born & Wolf 7th ed., 1.5.4: glass of 1.51, phase difference 45 deg at 48 deg 37' and
 * 54 deg 37' (Fresnel's rhomb), its greatest 45 deg 56' at 51 deg 20'. */
static void fresnels_rhomb(void **state)
{
    (void)state;
    double minute = 1.0 / 60.0;
    assert_near(fabs(phase_deg(1.51, 48.0 + 37.0 * minute)), 45.0, 3.0 * minute);
    assert_near(fabs(phase_deg(1.51, 54.0 + 37.0 * minute)), 45.0, 1.0 * minute);
    assert_near(fabs(phase_deg(1.51, 51.0 + 20.0 * minute)), 45.0 + 56.0 * minute, minute);
    assert_true(fabs(phase_deg(1.51, 50.0)) < 45.0 + 57.0 * minute);
    assert_true(fabs(phase_deg(1.51, 53.0)) < 45.0 + 57.0 * minute);
}

/* published: the same, eq. 60: tan(delta / 2) = cos sqrt(sin^2 - n^2) / sin^2, n = 1 / index. */
static void phase_formula(void **state)
{
    (void)state;
    const double indices[] = {1.434, 1.544, 1.77, 2.417};
    for (int i = 0; i < 4; i++) {
        for (double angle = critical_deg(indices[i]) + 0.01; angle < 90.0; angle += 0.37) {
            lw_sincos a = lw_sincos_deg(angle);
            double n = 1.0 / indices[i];
            double tangent = a.cos * sqrt(a.sin * a.sin - n * n) / (a.sin * a.sin);
            double expected = 2.0 * lw_atan2_deg(tangent, 1.0);
            assert_near(fabs(phase_deg(indices[i], angle)), expected, 1e-8);
        }
    }
}

/* worked: the laws of sines and tangents (Born & Wolf 7th ed., 1.5.2, eq. 21a; 1.5.3, eq. 33) in
 * extended precision, over the trade's indices and both ways through. */
static void sines_and_tangents(void **state)
{
    (void)state;
    const double indices[] = {1.333, 1.434, 1.544, 1.62, 1.77, 2.16, 2.417};
    const long double degree = 3.14159265358979323846264338328L / 180;
    for (int k = 0; k < 7; k++) {
        for (int angle = 1; angle < 90; angle++) {
            long double i = angle * degree, r = asinl(sinl(i) / indices[k]);
            long double s = sinl(i - r) / sinl(i + r), p = tanl(i - r) / tanl(i + r);
            lw_fresnel in = lw_fresnel_at(1.0 / indices[k], (double)cosl(i));
            lw_fresnel out = lw_fresnel_at(indices[k], (double)cosl(r));
            assert_near(in.reflect_s, (double)(s * s), 1e-14);
            assert_near(in.reflect_p, (double)(p * p), 1e-14);
            assert_near(in.reflect_re, (double)(-s * p), 1e-14);
            assert_near(in.cos_t, (double)cosl(r), 1e-15);
            assert_near(out.reflect_s, (double)(s * s), 1e-13);
            assert_near(out.reflect_p, (double)(p * p), 1e-13);
        }
    }
}

/* published: handbooks of optics and gemmology give at normal incidence 2.0 % for water (1.333),
 * 4.0 % for glass (1.5), 7.7 % for corundum (1.77), 13.5 % for cubic zirconia (2.16). At 45 degrees
 * R_p is the square of R_s, whatever the index (Fresnel). */
static void reflectance_table(void **state)
{
    (void)state;
    const double rows[][2] = {{1.333, 2.0}, {1.5, 4.0}, {1.77, 7.7}, {2.16, 13.5}};
    for (int i = 0; i < 4; i++) {
        assert_near(100.0 * lw_fresnel_at(1.0 / rows[i][0], 1.0).reflect_s, rows[i][1], 0.05);
        lw_fresnel slanting = lw_fresnel_at(1.0 / rows[i][0], cos_deg(45.0));
        assert_near(slanting.reflect_p, slanting.reflect_s * slanting.reflect_s, 1e-16);
        assert_true(slanting.reflect_s > 0.04);
    }
}

/* worked: shares that return and pass add to 1 for s and p apart; products of amplitudes cannot
 * pass what the energies allow; both directions of one beam pass the same (reciprocity). */
static void energy(void **state)
{
    (void)state;
    for (double index = 1.0; index < 3.0; index += 0.083) {
        for (double angle = 0.0; angle < 90.0; angle += 0.61) {
            lw_fresnel in = lw_fresnel_at(1.0 / index, cos_deg(angle));
            assert_near(in.reflect_s + in.transmit_s, 1.0, 1e-15);
            assert_near(in.reflect_p + in.transmit_p, 1.0, 1e-15);
            double product = in.transmit_s * in.transmit_p;
            assert_near(in.transmit_re * in.transmit_re, product, 1e-15);
            lw_fresnel out = lw_fresnel_at(index, in.cos_t);
            assert_near(out.transmit_s, in.transmit_s, 1e-7);
            assert_near(out.transmit_p, in.transmit_p, 1e-7);
        }
    }
}

/* worked: at a total reflection light that swings at 45 degrees between s and p comes back as
 * elliptic as the phase says, with all its energy. */
static void total_reflection_makes_elliptic(void **state)
{
    (void)state;
    lw_fresnel f = lw_fresnel_at(1.51, cos_deg(54.0 + 37.0 / 60.0));
    lw_stokes once = lw_stokes_reflect((lw_stokes){1.0, 0.0, 1.0, 0.0}, &f);
    lw_stokes twice = lw_stokes_reflect(once, &f);
    assert_near(once.i, 1.0, 1e-15);
    assert_near(fabs(once.v), lw_sincos_deg(45.0).sin, 3e-4);
    assert_near(twice.u, 0.0, 6e-4); /* the rhomb: circular after two */
    assert_near(fabs(twice.v), 1.0, 1e-6);
    assert_near(twice.u * twice.u + twice.v * twice.v, 1.0, 1e-14);
}

/* worked: turning the frame by an angle turns (q, u) by twice as much and back. */
static void turning_the_frame(void **state)
{
    (void)state;
    lw_vec3 direction = {0.0, 0.0, 1.0}, x = {1.0, 0.0, 0.0};
    lw_stokes linear = {1.0, 1.0, 0.0, 0.3};
    for (double angle = 0.0; angle < 360.0; angle += 7.5) {
        lw_sincos a = lw_sincos_deg(angle), b = lw_sincos_deg(2.0 * angle);
        lw_vec3 s = {a.cos, a.sin, 0.0};
        lw_stokes seen = lw_stokes_turn(linear, direction, x, s);
        assert_near(seen.q, b.cos, 1e-15);
        assert_near(seen.u, -b.sin, 1e-15);
        lw_stokes back = lw_stokes_turn(seen, direction, s, x);
        assert_near(back.q, 1.0, 1e-15);
        assert_near(back.u, 0.0, 1e-15);
        assert_near(back.v, 0.3, 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(normal_reflectance), cmocka_unit_test(brewster),
        cmocka_unit_test(critical_angle),     cmocka_unit_test(fresnels_rhomb),
        cmocka_unit_test(phase_formula),      cmocka_unit_test(energy),
        cmocka_unit_test(sines_and_tangents), cmocka_unit_test(reflectance_table),
        cmocka_unit_test(turning_the_frame),  cmocka_unit_test(total_reflection_makes_elliptic),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
