/* From the stone's tooth to the dial and back. */
#include "cut/dial.h"
#include "geom/tolerance.h"
#include "geom/vec.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const lw_dial_kit plain96 = {.wheel = 96, .counts = LW_COUNTS_COUNTER_CLOCKWISE};
static const lw_dial_kit against96 = {.wheel = 96, .counts = LW_COUNTS_CLOCKWISE};

static unsigned next_random(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u;
    return *state >> 8;
}

static double random_share(unsigned *state)
{
    return (double)next_random(state) / 16777216.0;
}

/* worked: a pear whose tip is at 24 and which is cut with its table up at the machine's far end.
 * Its crown main at the tip is found at 72, and the other way about on a wheel that counts
 * clockwise. A pear symmetric about 96-48 would hide the mistake. */
static void test_pear_tip(void **state)
{
    (void)state;
    assert_int_equal(lw_dial_of(&plain96, LW_SIDE_PAVILION, 24.0).number, 24);
    assert_int_equal(lw_dial_of(&plain96, LW_SIDE_CROWN, 24.0).number, 72);
    assert_int_equal(lw_dial_of(&against96, LW_SIDE_PAVILION, 24.0).number, 72);
    assert_int_equal(lw_dial_of(&against96, LW_SIDE_CROWN, 24.0).number, 24);
}

/* common practice: the highest tooth is written for 0. */
static void test_highest_stands_for_zero(void **state)
{
    (void)state;
    assert_int_equal(lw_dial_of(&plain96, LW_SIDE_PAVILION, 0.0).number, 96);
    assert_int_equal(lw_dial_of(&plain96, LW_SIDE_CROWN, 0.0).number, 96);
    lw_dial near = lw_dial_of(&plain96, LW_SIDE_CROWN, 0.25);
    assert_int_equal(near.number, 96);
    assert_true(near.cheater_deg == -0.25 * 3.75);
    assert_int_equal(lw_dial_of(&plain96, LW_SIDE_PAVILION, 95.75).number, 96);
}

/* worked: 3 of 96 is 2.5 of 80, half way; half a tooth of 80 is 2.25 degrees, and its mirror twin
 * at 77.5 takes the opposite. 10.4 of 96 is 10 and 0.4 x 3.75 degrees. */
static void test_cheater(void **state)
{
    (void)state;
    lw_dial_kit kit = {.wheel = 80};
    lw_dial half = lw_dial_of(&kit, LW_SIDE_PAVILION, 2.5);
    lw_dial twin = lw_dial_of(&kit, LW_SIDE_PAVILION, 77.5);
    assert_int_equal(half.number, 2);
    assert_true(half.cheater_deg == 2.25);
    assert_int_equal(twin.number, 78);
    assert_true(twin.cheater_deg == -2.25);
    lw_dial some = lw_dial_of(&plain96, LW_SIDE_PAVILION, 10.4);
    assert_int_equal(some.number, 10);
    assert_true(fabs(some.cheater_deg - 1.5) < 1e-12);
    lw_dial noise = lw_dial_of(&plain96, LW_SIDE_PAVILION, 10.0 + 1e-9);
    assert_true(noise.cheater_deg == 0.0);
}

static lw_vec3 turned_about_x(lw_vec3 v, double degrees)
{
    double radians = degrees * acos(-1.0) / 180.0;
    return (lw_vec3){v.x, cos(radians) * v.y - sin(radians) * v.z,
                     sin(radians) * v.y + cos(radians) * v.z};
}

/* worked: the machine as a thing in space. The quill points along +x with the wheel at its near
 * end and the lap below (-z); seen from behind, along +x with z up, counter-clockwise is the
 * negative turn about x. At number 0 the stone's tooth 0 lies to the lap. Turning the wheel until
 * a number stands where 0 stood turns the stone with it, by the number's place the other way. The
 * facet that is wanted must then face the lap. */
static double facing_lap(lw_side facing, lw_counts counts, lw_dial dial, double azimuth_deg)
{
    double place = ((double)dial.number * 3.75 + dial.cheater_deg) *
                   (counts == LW_COUNTS_COUNTER_CLOCKWISE ? -1.0 : 1.0);
    /* Up through the table: away from the lap side of the quill when the pavilion is cut. */
    lw_vec3 up = {facing == LW_SIDE_PAVILION ? -1.0 : 1.0, 0.0, 0.0};
    lw_vec3 zero = {0.0, 0.0, -1.0};
    lw_vec3 quarter = lw_vec3_cross(up, zero);
    double radians = azimuth_deg * acos(-1.0) / 180.0;
    lw_vec3 outward =
        lw_vec3_add(lw_vec3_scale(zero, cos(radians)), lw_vec3_scale(quarter, sin(radians)));
    return -turned_about_x(outward, -place).z;
}

static void test_machine_in_space(void **state)
{
    (void)state;
    unsigned seed = 7;
    for (int i = 0; i < 2000; i++) {
        double tooth = random_share(&seed) * 96.0;
        lw_side facing = i % 2 ? LW_SIDE_CROWN : LW_SIDE_PAVILION;
        lw_counts counts = i % 4 < 2 ? LW_COUNTS_CLOCKWISE : LW_COUNTS_COUNTER_CLOCKWISE;
        lw_dial_kit kit = {.wheel = 96, .counts = counts};
        lw_dial dial = lw_dial_of(&kit, facing, tooth);
        assert_true(facing_lap(facing, counts, dial, tooth * 3.75) > 1.0 - 1e-12);
        lw_dial beside = {dial.number + 1, dial.cheater_deg};
        assert_true(facing_lap(facing, counts, beside, tooth * 3.75) < 1.0 - 1e-3);
    }
}

static void test_round_trip(void **state)
{
    (void)state;
    unsigned seed = 11;
    for (int i = 0; i < 20000; i++) {
        lw_dial_kit kit = {.wheel = 1 + (int)(next_random(&seed) % LW_CUT_MOST_TEETH),
                           .counts = i % 2 ? LW_COUNTS_CLOCKWISE : LW_COUNTS_COUNTER_CLOCKWISE,
                           .zero_at = i % 8 < 4 ? 0.0 : random_share(&seed) * 5.0};
        double n = (double)kit.wheel;
        double tooth = i % 3 ? floor(random_share(&seed) * n) : random_share(&seed) * n;
        lw_side facing = i % 4 < 2 ? LW_SIDE_CROWN : LW_SIDE_PAVILION;
        lw_dial dial = lw_dial_of(&kit, facing, tooth);
        assert_in_range(dial.number, 1, kit.wheel);
        assert_true(fabs(dial.cheater_deg) <= 180.0 / n * (1.0 + 1e-5));
        double back = lw_dial_tooth(&kit, facing, dial);
        double miss = fabs(back - tooth);
        assert_true(fmin(miss, n - miss) <= LW_SAME_TOOTH * 1.01);
        if (kit.zero_at == 0.0 && floor(tooth) == tooth) {
            assert_true(back == tooth && dial.cheater_deg == 0.0);
        }
    }
}

/* A dop that is not keyed: both sides of the transfer share one zero. worked: with 0 at 5, tooth
 * 24 of the crown stands at 5 - 24 = 77 of 96. */
static void test_zero_elsewhere(void **state)
{
    (void)state;
    lw_dial_kit kit = {.wheel = 96, .zero_at = 5.0};
    assert_int_equal(lw_dial_of(&kit, LW_SIDE_CROWN, 24.0).number, 77);
    assert_int_equal(lw_dial_of(&kit, LW_SIDE_PAVILION, 24.0).number, 29);
}

/* common practice: opposite ones first, then once round. */
static void test_order(void **state)
{
    (void)state;
    const double mains[8] = {0, 12, 24, 36, 48, 60, 72, 84};
    int order[8];
    lw_dial_order(&plain96, LW_SIDE_PAVILION, mains, 8, true, order);
    const int opening[8] = {0, 4, 2, 6, 1, 5, 3, 7};
    assert_memory_equal(order, opening, sizeof opening);
    lw_dial_order(&plain96, LW_SIDE_PAVILION, mains, 8, false, order);
    const int round[8] = {0, 1, 2, 3, 4, 5, 6, 7};
    assert_memory_equal(order, round, sizeof round);
    /* On the crown the dial's numbers rise where the teeth fall. */
    lw_dial_order(&plain96, LW_SIDE_CROWN, mains, 8, false, order);
    const int crown[8] = {0, 7, 6, 5, 4, 3, 2, 1};
    assert_memory_equal(order, crown, sizeof crown);
}

static void test_order_odd_and_unsorted(void **state)
{
    (void)state;
    const double three[3] = {64, 0, 32};
    int order[5];
    lw_dial_order(&plain96, LW_SIDE_PAVILION, three, 3, true, order);
    const int opening[3] = {0, 1, 2};
    assert_memory_equal(order, opening, sizeof opening);
    const double five[5] = {10, 90, 50, 30, 70};
    lw_dial_order(&plain96, LW_SIDE_PAVILION, five, 5, false, order);
    const int round[5] = {0, 3, 2, 4, 1};
    assert_memory_equal(order, round, sizeof round);
    lw_dial_order(&plain96, LW_SIDE_PAVILION, five, 0, true, order);
    lw_dial_order(&plain96, LW_SIDE_PAVILION, five, 1, true, order);
    assert_int_equal(order[0], 0);
}

/* Every tooth once, whatever the tier. */
static void test_order_is_a_permutation(void **state)
{
    (void)state;
    unsigned seed = 3;
    for (int i = 0; i < 200; i++) {
        double teeth[60];
        int order[60];
        int count = 1 + (int)(next_random(&seed) % 60);
        for (int k = 0; k < count; k++) {
            teeth[k] = random_share(&seed) * 96.0;
        }
        lw_dial_order(&plain96, LW_SIDE_CROWN, teeth, count, i % 2, order);
        uint64_t seen = 0;
        for (int k = 0; k < count; k++) {
            assert_in_range(order[k], 0, count - 1);
            seen |= (uint64_t)1 << order[k];
        }
        assert_true(seen == ((uint64_t)1 << count) - 1);
        assert_int_equal(order[0], 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pear_tip),
        cmocka_unit_test(test_highest_stands_for_zero),
        cmocka_unit_test(test_cheater),
        cmocka_unit_test(test_machine_in_space),
        cmocka_unit_test(test_round_trip),
        cmocka_unit_test(test_zero_elsewhere),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_order_odd_and_unsorted),
        cmocka_unit_test(test_order_is_a_permutation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
