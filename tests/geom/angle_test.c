/* Accuracy and symmetry of the trigonometry. Expected values: the C library's long double functions
 * (64 bits of mantissa), exact values of elementary geometry, and mirror images of ourselves. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "geom/angle.h"
#include "geom/stones.h"

#include <math.h>

enum { SAMPLES = 300000 };

static const long double pi_long = 3.14159265358979323846264338327950288L;

/* How far value is from exact, in units of the last place of exact. */
static double ulps(double value, long double exact)
{
    double near = fabs((double)exact);
    double unit = nextafter(near, HUGE_VAL) - near;
    return (double)(fabsl((long double)value - exact) / (long double)unit);
}

static void assert_ulps(double value, long double exact)
{
    if (!(ulps(value, exact) <= 2.0)) {
        fail_msg("%.17g is %.3g units from %.21Lg", value, ulps(value, exact), exact);
    }
}

/* Even, or crowded towards 0. */
static double sample(stone_random *random, double most)
{
    double share = 2.0 * random_share(random) - 1.0;
    return random_below(random, 2) == 0 ? most * share
                                        : most * share * pow(10.0, -12.0 * random_share(random));
}

static void radians_are_accurate(void **state)
{
    (void)state;
    stone_random random = {11};
    for (int i = 0; i < SAMPLES; i++) {
        double x = sample(&random, i % 2 == 0 ? 1e5 : 7.0);
        lw_sincos at = lw_sincos_rad(x);
        assert_ulps(at.sin, sinl(x));
        assert_ulps(at.cos, cosl(x));
    }
    for (int k = 1; k < 60000; k += 7) { /* where all leading digits cancel */
        double x = (double)(k * (pi_long / 2.0L));
        assert_ulps(lw_sincos_rad(x).sin, sinl(x));
        assert_ulps(lw_sincos_rad(x).cos, cosl(x));
    }
}

/* sin and cos of degrees reduced exactly by remquo, so that the reference does not lose digits. */
static void reference_deg(double degrees, long double *sine, long double *cosine)
{
    int quarter = 0;
    long double near = remquol(degrees, 90.0L, &quarter) * (pi_long / 180.0L);
    long double s = sinl(near), c = cosl(near);
    const long double sines[4] = {s, c, -s, -c}, cosines[4] = {c, -s, -c, s};
    *sine = sines[quarter & 3];
    *cosine = cosines[quarter & 3];
}

static void degrees_are_accurate(void **state)
{
    (void)state;
    stone_random random = {12};
    for (int i = 0; i < SAMPLES; i++) {
        double x = sample(&random, i % 3 == 0 ? 1e9 : i % 3 == 1 ? 400.0 : 90.0);
        long double s = 0.0L, c = 0.0L;
        reference_deg(x, &s, &c);
        lw_sincos at = lw_sincos_deg(x);
        assert_ulps(at.sin, s);
        assert_ulps(at.cos, c);
        assert_ulps(lw_tan_deg(x), s / c);
    }
}

static void turns_are_accurate(void **state)
{
    (void)state;
    stone_random random = {13};
    for (int i = 0; i < SAMPLES; i++) {
        double x = sample(&random, i % 2 == 0 ? 3.0 : 1e6);
        int quarter = 0;
        long double near = remquol(x, 0.25L, &quarter) * (2.0L * pi_long);
        long double s = (quarter & 1) != 0 ? cosl(near) : sinl(near);
        assert_ulps(fabs(lw_sincos_turns(x).sin), fabsl(s));
    }
}

static void inverses_are_accurate(void **state)
{
    (void)state;
    stone_random random = {14};
    for (int i = 0; i < SAMPLES; i++) {
        double y = sample(&random, 10.0), x = sample(&random, 10.0), z = sample(&random, 1.0);
        assert_ulps(lw_atan2(y, x), atan2l(y, x));
        assert_ulps(lw_atan2_deg(y, x), atan2l(y, x) * (180.0L / pi_long));
        assert_ulps(lw_asin_deg(z), asinl(z) * (180.0L / pi_long));
        assert_ulps(lw_acos_deg(z), acosl(z) * (180.0L / pi_long));
    }
}

/* Exact equality, with the bits of zero's sign included: a plane with a normal of -0 prints badly.
 */
static void assert_same(double a, double b)
{
    if (!(a == b) || (a == 0.0 && signbit(a) != signbit(b))) {
        fail_msg("%.17g is not %.17g", a, b);
    }
}

static void exact_values_are_exact(void **state)
{
    (void)state; /* worked: elementary geometry */
    assert_same(lw_sincos_deg(0.0).sin, 0.0);
    assert_same(lw_sincos_deg(30.0).sin, 0.5);
    assert_same(lw_sincos_deg(150.0).sin, 0.5);
    assert_same(lw_sincos_deg(-30.0).sin, -0.5);
    assert_same(lw_sincos_deg(60.0).cos, 0.5);
    assert_same(lw_sincos_deg(60.0).sin, sqrt(3.0) / 2.0);
    assert_same(lw_sincos_deg(45.0).sin, sqrt(0.5));
    assert_same(lw_sincos_deg(45.0).cos, sqrt(0.5));
    assert_same(lw_sincos_deg(90.0).sin, 1.0);
    assert_same(lw_sincos_deg(90.0).cos, 0.0);
    assert_same(lw_sincos_deg(-90.0).cos, 0.0);
    assert_same(lw_sincos_deg(180.0).sin, 0.0);
    assert_same(lw_sincos_deg(3.6e8 + 90.0).sin, 1.0);
    assert_same(lw_sincos_turns(0.25).cos, 0.0);
    assert_same(lw_sincos_turns(0.125).sin, sqrt(0.5));
    assert_same(lw_sincos_share(8.0, 96.0).sin, 0.5);
    assert_same(lw_sincos_share(40.0, 96.0).sin, 0.5);
    assert_same(lw_tan_deg(45.0), 1.0);
    assert_same(lw_tan_deg(135.0), -1.0);
    assert_true(lw_tan_deg(90.0) == 1e300 && lw_tan_deg(-90.0) == -1e300);
}

static void exact_inverses_are_exact(void **state)
{
    (void)state;
    assert_same(lw_atan2(1.0, 0.0), (double)(pi_long / 2.0L));
    assert_same(lw_atan2(0.0, -1.0), (double)pi_long);
    assert_same(lw_atan2(0.0, 0.0), 0.0);
    for (int i = -3; i <= 4; i++) {
        static const double x[] = {1, 1, 0, -1, -1, -1, 0, 1}, y[] = {0, 1, 1, 1, 0, -1, -1, -1};
        int k = i & 7;
        assert_same(lw_atan2_deg(y[k] * 0.3, x[k] * 0.3), 45.0 * i);
    }
    assert_same(lw_asin_deg(1.0), 90.0);
    assert_same(lw_asin_deg(1.0 + 1e-9), 90.0); /* clamped */
    assert_same(lw_acos_deg(-1.5), 180.0);
    assert_same(lw_acos_deg(0.0), 90.0);
}

static void assert_mirrored(lw_sincos a, lw_sincos b, double sin_sign, double cos_sign)
{
    assert_true(a.sin == sin_sign * b.sin && a.cos == cos_sign * b.cos);
}

static void mirror_images_are_equal_to_the_bit(void **state)
{
    (void)state;
    stone_random random = {15};
    for (int i = 0; i < SAMPLES; i++) {
        /* 2^-20 of a degree: all the sums below are exact */
        double x = floor(random_share(&random) * 90.0 * 0x1p20) * 0x1p-20;
        lw_sincos at = lw_sincos_deg(x), other = lw_sincos_deg(90.0 - x);
        assert_true(at.sin == other.cos && at.cos == other.sin);
        assert_mirrored(lw_sincos_deg(-x), at, -1.0, 1.0);
        assert_mirrored(lw_sincos_deg(180.0 - x), at, 1.0, -1.0);
        assert_mirrored(lw_sincos_deg(180.0 + x), at, -1.0, -1.0);
        assert_mirrored(lw_sincos_deg(360.0 - x), at, -1.0, 1.0);
        assert_mirrored(lw_sincos_deg(x + 720.0), at, 1.0, 1.0);
    }
}

/* Teeth that mirror one another on every wheel in use, quarters of a tooth included. */
static void teeth_mirror_to_the_bit(void **state)
{
    (void)state;
    static const double wheels[] = {96, 64, 80, 120, 72, 77, 84, 88, 108, 60, 32};
    for (size_t w = 0; w < sizeof wheels / sizeof wheels[0]; w++) {
        double n = wheels[w];
        for (double tooth = 0.0; tooth < n; tooth += 0.25) {
            lw_sincos at = lw_sincos_share(tooth, n);
            assert_mirrored(lw_sincos_share(n - tooth, n), at, -1.0, 1.0);
            assert_mirrored(lw_sincos_share(0.5 * n - tooth, n), at, 1.0, -1.0);
            assert_mirrored(lw_sincos_share(tooth + n, n), at, 1.0, 1.0);
            lw_sincos quarter = lw_sincos_share(0.25 * n - tooth, n);
            assert_true(quarter.sin == at.cos && quarter.cos == at.sin);
            assert_ulps(at.cos + 2.0,
                        2.0L + cosl(2.0L * pi_long * (long double)tooth / (long double)n));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(radians_are_accurate),
        cmocka_unit_test(degrees_are_accurate),
        cmocka_unit_test(turns_are_accurate),
        cmocka_unit_test(inverses_are_accurate),
        cmocka_unit_test(exact_values_are_exact),
        cmocka_unit_test(exact_inverses_are_exact),
        cmocka_unit_test(mirror_images_are_equal_to_the_bit),
        cmocka_unit_test(teeth_mirror_to_the_bit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
