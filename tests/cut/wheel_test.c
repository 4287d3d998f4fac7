/* Whether a cut's teeth are on another wheel. */
#include "cut/wheel.h"
#include "geom/tolerance.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* The teeth of the classic round on 96: mains 96-12-24, breaks 3-9-15, stars 6-18 (published in
 * teaching texts of faceters' guilds). */
static int round_teeth(double teeth[32])
{
    int count = 0;
    for (int k = 0; k < 8; k++) {
        teeth[count++] = 12.0 * k;
        teeth[count++] = 12.0 * k + 3.0;
        teeth[count++] = 12.0 * k + 9.0;
        teeth[count++] = 12.0 * k + 6.0;
    }
    return count;
}

static lw_wheel_fit fit_of(const double *teeth, int count, int from, int to)
{
    lw_wheel_fit fit;
    lw_wheel_fit_teeth(teeth, count, from, to, &fit);
    return fit;
}

/* worked: greatest common divisors by factors: 96 = 2^5 3, 64 = 2^6, 80 = 2^4 5, 120 = 2^3 3 5,
 * 77 = 7 11, 84 = 2^2 3 7, 88 = 2^3 11. */
static void test_shared(void **state)
{
    (void)state;
    assert_int_equal(lw_wheel_shared(96, 64), 32);
    assert_int_equal(lw_wheel_shared(64, 96), 32);
    assert_int_equal(lw_wheel_shared(96, 80), 16);
    assert_int_equal(lw_wheel_shared(96, 120), 24);
    assert_int_equal(lw_wheel_shared(96, 77), 1);
    assert_int_equal(lw_wheel_shared(77, 88), 11);
    assert_int_equal(lw_wheel_shared(84, 77), 7);
    assert_int_equal(lw_wheel_shared(96, 96), 96);
}

/* worked: 64 to 96 is x 1.5, so the even teeth are there and the odd ones half way. */
static void test_64_to_96(void **state)
{
    (void)state;
    for (int t = 0; t < 64; t++) {
        double moved = lw_wheel_tooth((double)t, 64, 96);
        assert_true(moved == 1.5 * t);
        double tooth[2] = {0.0, (double)t};
        lw_wheel_fit fit = fit_of(tooth, 2, 64, 96);
        assert_int_equal(fit.whole, t % 2 == 0);
        assert_true(fit.offset == 0.0);
        /* half a tooth of 96 */
        assert_true(fit.greatest_cheater_deg == (t % 2 ? 1.875 : 0.0));
    }
}

/* worked: 3 of 96 is M / 32 of M: whole, with 96 at 0, only where 32 divides M. */
static void test_round(void **state)
{
    (void)state;
    double teeth[32];
    int count = round_teeth(teeth);
    for (int i = 0; i < LW_WHEEL_COMMON; i++) {
        int wheel = lw_wheels_common[i];
        lw_wheel_fit fit = fit_of(teeth, count, 96, wheel);
        assert_int_equal(fit.whole, wheel % 32 == 0);
        assert_int_equal(fit.wheel, wheel);
    }
    /* worked: on 80 mains and stars are whole (12 -> 10, 6 -> 5), breaks half way: 2.25 deg */
    lw_wheel_fit fit = fit_of(teeth, count, 96, 80);
    assert_true(fit.offset == 0.0);
    assert_int_equal(fit.whole_count, 16);
    assert_true(fit.greatest_cheater_deg == 2.25);
    /* worked: on 120, x 1.25: 3 -> 3.75, 9 -> 11.25, 6 -> 7.5: the mains are whole; the stars are
     * half way, 1.5 deg */
    fit = fit_of(teeth, count, 96, 120);
    assert_true(fit.offset == 0.0);
    assert_int_equal(fit.whole_count, 8);
    assert_true(fit.greatest_cheater_deg == 1.5);
}

/* worked: turning the whole stone helps where no facet stands at 0. Breaks alone on 80 stand at
 * 2.5, 7.5 …: turned by half a tooth they are whole. A pinwheel at 1, 13, 25 … of 96 stands at 2/3
 * of a tooth of 64: turned by 1/3. */
static void test_turned(void **state)
{
    (void)state;
    const double breaks[4] = {3, 9, 15, 93};
    lw_wheel_fit fit = fit_of(breaks, 4, 96, 80);
    assert_true(fit.whole && fit.offset == 0.5 && fit.greatest_cheater_deg == 0.0);
    double pinwheel[8];
    for (int k = 0; k < 8; k++) {
        pinwheel[k] = 1.0 + 12.0 * k;
    }
    fit = fit_of(pinwheel, 8, 96, 64);
    assert_true(fit.whole);
    assert_true(fabs(fit.offset - 1.0 / 3.0) < 1e-12);
    /* worked: 2 -> 1 1/3 leaves another fraction, so the stone stays as it is, every tooth a third
     * of 5.625 degrees off */
    pinwheel[7] = 2.0;
    fit = fit_of(pinwheel, 8, 96, 64);
    assert_false(fit.whole);
    assert_true(fit.offset == 0.0);
    assert_int_equal(fit.whole_count, 0);
    assert_true(fabs(fit.greatest_cheater_deg - 1.875) < 1e-9);
}

/* A pear with its tip at 24 through 96 -> 64, 80, 120 and back, every tooth. */
static void test_there_and_back(void **state)
{
    (void)state;
    const int wheels[] = {64, 80, 120, 77, 72, 32, 7, 1440};
    for (size_t w = 0; w < sizeof wheels / sizeof *wheels; w++) {
        for (int t = 0; t < 96; t++) {
            double there = lw_wheel_tooth((double)t, 96, wheels[w]);
            assert_true(there >= 0.0 && there < wheels[w]);
            assert_true(lw_wheel_tooth(there, wheels[w], 96) == (double)t);
        }
    }
    assert_true(lw_wheel_tooth(24.0, 96, 64) == 16.0);
    assert_true(lw_wheel_tooth(24.0, 96, 80) == 20.0);
    assert_true(lw_wheel_tooth(24.0, 96, 120) == 30.0);
    assert_true(lw_wheel_tooth(0.0, 96, 64) == 0.0);
    assert_true(lw_wheel_tooth(95.9999999, 96, 64) == 0.0);
}

static unsigned next_random(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u;
    return *state >> 8;
}

/* The answer by trying: offsets that can help are whole numbers of 1 / from, and everything is
 * whole arithmetic. */
static bool whole_by_trying(const double *teeth, int count, int from, int to)
{
    for (int offset = 0; offset < from; offset++) {
        int whole = 0;
        for (int i = 0; i < count; i++) {
            whole += ((int)teeth[i] * to + offset) % from == 0;
        }
        if (whole == count) {
            return true;
        }
    }
    return false;
}

static void test_against_trying(void **state)
{
    (void)state;
    unsigned seed = 5;
    int whole = 0;
    for (int i = 0; i < 3000; i++) {
        int from = 1 + (int)(next_random(&seed) % 130);
        int to = 1 + (int)(next_random(&seed) % 130);
        int count = 1 + (int)(next_random(&seed) % 6);
        double teeth[6];
        for (int k = 0; k < count; k++) {
            teeth[k] = (double)(next_random(&seed) % (unsigned)from);
        }
        lw_wheel_fit fit = fit_of(teeth, count, from, to);
        bool expected_whole = whole_by_trying(teeth, count, from, to);
        assert_int_equal(fit.whole, expected_whole);
        assert_int_equal(fit.whole_count == count, expected_whole);
        assert_true(fit.offset >= 0.0 && fit.offset < 1.0);
        whole += fit.whole;
        /* The other sense: the mirror image fits as well. */
        for (int k = 0; k < count; k++) {
            teeth[k] = teeth[k] == 0.0 ? 0.0 : (double)from - teeth[k];
        }
        lw_wheel_fit other = fit_of(teeth, count, from, to);
        assert_int_equal(other.whole, expected_whole);
    }
    assert_in_range(whole, 100, 2900);
}

/* Facets of a stone: level ones need no tooth. */
static void test_stone(void **state)
{
    (void)state;
    double teeth[32];
    int count = round_teeth(teeth);
    lw_facet facets[33];
    memset(facets, 0, sizeof facets);
    for (int i = 0; i < count; i++) {
        facets[i].tooth = teeth[i];
        facets[i].angle_deg = 42.0;
    }
    facets[count].tooth = 0.5;
    lw_stone stone = {.facet_count = count + 1, .facets = facets};
    int wheels[LW_WHEEL_COMMON];
    assert_int_equal(lw_wheels_that_do(&stone, 96, wheels), 3);
    const int expected[3] = {96, 64, 32};
    assert_memory_equal(wheels, expected, sizeof expected);
    lw_wheel_fit fit;
    lw_wheel_fit_stone(&stone, 96, 64, &fit);
    assert_true(fit.whole);
    assert_int_equal(fit.whole_count, count);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shared),         cmocka_unit_test(test_64_to_96),
        cmocka_unit_test(test_round),          cmocka_unit_test(test_turned),
        cmocka_unit_test(test_there_and_back), cmocka_unit_test(test_against_trying),
        cmocka_unit_test(test_stone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
