/* Placement at one rotation: worked sizes, and every placement looked at afresh. */
#include "fit_shapes.h"
#include "random.h"
#include "rough/fit.h"
#include "rough/habit.h"
#include "rough/turn.h"

#include "geom/angle.h"
#include "geom/tolerance.h"
#include "meter.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

static const double no_turn[9] = {1, 0, 0, 0, 1, 0, 0, 0, 1};

static lw_rough make(lw_habit habit, double a, double b, double c)
{
    lw_memory memory = lw_memory_standard();
    lw_rough rough;
    lw_readings readings = {{a, b, c}};
    assert_int_equal(lw_habit_rough(&memory, habit, &readings, &rough, NULL), LW_OK);
    return rough;
}

static lw_placement place(const lw_rough *rough, const test_shape *stone, double margin,
                          const double rotation[9])
{
    lw_memory memory = lw_memory_standard();
    lw_fitter *fitter = NULL;
    assert_int_equal(lw_fitter_new(&memory, rough, &stone->shape, margin, &fitter), LW_OK);
    lw_placement placement;
    assert_int_equal(lw_fitter_place(fitter, rotation, &placement), LW_OK);
    lw_fitter_center(fitter, &placement);
    lw_fitter_destroy(fitter);
    lw_fit_evidence evidence;
    lw_fit_verify(rough, &stone->shape, margin, &placement, NULL, 0, &evidence);
    assert_true(placement.scale_mm <= 0.0 || evidence.sound);
    assert_true(placement.scale_mm <= 0.0 || evidence.touch_count >= 2);
    return placement;
}

static void assert_near(double value, double expected, double within)
{
    if (!(fabs(value - expected) <= within)) {
        fail_msg("%.17g is not %.17g", value, expected);
    }
}

static void cube_in_a_block(void **state)
{
    (void)state;
    test_shape cube;
    test_cube(&cube);
    lw_rough rough = make(LW_HABIT_BLOCK, 4, 6, 8);
    lw_placement placement = place(&rough, &cube, 0, no_turn);
    assert_near(placement.scale_mm, 4, 1e-13);                 /* worked: the least of the three */
    assert_near(lw_vec3_length(placement.shift_mm), 0, 1e-12); /* worked: room on both sides */
    placement = place(&rough, &cube, 0.75, no_turn);
    assert_near(placement.scale_mm, 2.5, 1e-13); /* worked: 4 - 2 * 0.75 */
    /* worked: an eighth of a turn about z makes it sqrt(2) wide in x and y */
    double eighth[9];
    lw_turn_matrix(lw_turn_by((lw_vec3){0, 0, LW_PI / 4}), eighth);
    placement = place(&rough, &cube, 0, eighth);
    assert_near(placement.scale_mm, 4 / sqrt(2.0), 1e-13);
    placement = place(&rough, &cube, 2.5, no_turn); /* worked: 4 - 5 */
    assert_near(placement.scale_mm, -1, 1e-13);
    lw_rough_destroy(&rough);
}

static void what_it_touches(void **state)
{
    (void)state;
    test_shape cube;
    test_cube(&cube);
    lw_rough rough = make(LW_HABIT_BLOCK, 4, 6, 8);
    lw_placement placement = place(&rough, &cube, 0.5, no_turn);
    int touches[8];
    lw_fit_evidence evidence;
    lw_fit_verify(&rough, &cube.shape, 0.5, &placement, touches, 8, &evidence);
    assert_int_equal(evidence.touch_count, 2); /* worked: both x faces */
    assert_int_equal(touches[0], 0);
    assert_int_equal(touches[1], 1);
    assert_near(evidence.clearance_mm, 0.5, 1e-12);
    /* a stone moved by twice the tolerance is no longer sound; the check can fail */
    placement.shift_mm.x += 2 * LW_FIT_SOUND * rough.span_mm;
    lw_fit_verify(&rough, &cube.shape, 0.5, &placement, NULL, 0, &evidence);
    assert_false(evidence.sound);
    lw_rough_destroy(&rough);
}

static void octahedron_in_its_own_kind(void **state)
{
    (void)state;
    test_shape stone;
    test_octahedron(&stone);
    lw_rough rough = make(LW_HABIT_OCTAHEDRON, 10, 10, 10);
    /* worked: edge 1 is sqrt(2) from point to point */
    assert_near(place(&rough, &stone, 0, no_turn).scale_mm, 10 / sqrt(2.0), 1e-12);
    /* worked: a margin m moves the faces, at 5 / sqrt(3) from the middle, inward by m */
    double share = 1 - 0.3 * sqrt(3.0) / 5;
    assert_near(place(&rough, &stone, 0.3, no_turn).scale_mm, share * 10 / sqrt(2.0), 1e-12);
    lw_rough_destroy(&rough);
}

static void girdle_of_fixed_thickness(void **state)
{
    (void)state;
    test_shape stone;
    test_round(&stone, 0.8);
    /* worked: depth (0.16 + 0.43) s + 0.8 in a block 6 deep */
    lw_rough rough = make(LW_HABIT_BLOCK, 40, 40, 6);
    lw_placement placement = place(&rough, &stone, 0, no_turn);
    assert_near(placement.scale_mm, (6 - 0.8) / 0.59, 1e-12);
    lw_rough_destroy(&rough);
    /* worked: across, the girdle's thickness does not count */
    rough = make(LW_HABIT_BLOCK, 5, 40, 40);
    assert_near(place(&rough, &stone, 0, no_turn).scale_mm, 5, 1e-12);
    lw_rough_destroy(&rough);
}

/* At the size found, the girdle can be made part of the stone: the same stone, the same answer. */
static void fixed_girdle_agrees_with_a_solid_one(void **state)
{
    (void)state;
    test_random random = {11};
    for (int i = 0; i < 200; i++) {
        lw_habit habit = (lw_habit)test_whole(&random, LW_HABIT_COUNT);
        lw_rough rough = make(habit, test_between(&random, 16, 24), test_between(&random, 8, 10),
                              test_between(&random, 7, 9));
        double rotation[9];
        lw_turn_matrix(lw_turn_spread(i, 200), rotation);
        test_shape halves, whole;
        test_round(&halves, 0.4);
        lw_placement fixed = place(&rough, &halves, 0.1, rotation);
        test_round(&whole, 0.4);
        for (int k = 0; k < whole.shape.corner_count; k++) {
            double lift = k < whole.shape.crown_count ? 0.2 : -0.2;
            whole.corners[k].z += lift / fixed.scale_mm;
        }
        whole.shape.girdle_mm = 0;
        lw_placement solid = place(&rough, &whole, 0.1, rotation);
        assert_near(solid.scale_mm, fixed.scale_mm, 1e-9 * fixed.scale_mm);
        lw_rough_destroy(&rough);
    }
}

/* Rough and stone turned together: nothing changes. */
static void turning_both_changes_nothing(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    test_random random = {5};
    test_shape stone;
    test_round(&stone, 0);
    lw_rough rough = make(LW_HABIT_COBBED, 13, 9, 8);
    for (int i = 0; i < 100; i++) {
        lw_turn turn = lw_turn_spread(i, 100), first = lw_turn_spread((i * 37) % 100, 100);
        double r[9], r_first[9], r_both[9];
        lw_turn_matrix(turn, r);
        lw_turn_matrix(first, r_first);
        lw_turn_matrix(lw_turn_after(turn, first), r_both);
        lw_vec3 away = {test_between(&random, -9, 9), test_between(&random, -9, 9), 3};
        lw_rough_face faces[32];
        for (int k = 0; k < rough.face_count; k++) {
            lw_vec3 n = rough.faces[k].plane.normal;
            lw_vec3 m = {r[0] * n.x + r[1] * n.y + r[2] * n.z, r[3] * n.x + r[4] * n.y + r[5] * n.z,
                         r[6] * n.x + r[7] * n.y + r[8] * n.z};
            faces[k].plane = (lw_plane){m, rough.faces[k].plane.distance + lw_vec3_dot(m, away)};
            faces[k].what = rough.faces[k].what;
        }
        lw_rough turned;
        assert_int_equal(lw_rough_make(&memory, faces, rough.face_count, &turned), LW_OK);
        double one = place(&rough, &stone, 0.2, r_first).scale_mm;
        double two = place(&turned, &stone, 0.2, r_both).scale_mm;
        assert_near(one, two, 1e-11 * one);
        lw_rough_destroy(&turned);
    }
    lw_rough_destroy(&rough);
}

static void every_habit_and_rotation_is_sound(void **state)
{
    (void)state;
    test_shape stone;
    test_round(&stone, 0);
    for (int habit = 0; habit < LW_HABIT_COUNT; habit++) {
        lw_rough rough = make((lw_habit)habit, 21, 10, 8.5);
        for (int i = 0; i < LW_TURN_AXIS_COUNT + 150; i++) {
            double rotation[9];
            lw_turn_matrix(i < LW_TURN_AXIS_COUNT ? lw_turn_axis(i)
                                                  : lw_turn_spread(i - LW_TURN_AXIS_COUNT, 150),
                           rotation);
            assert_true(place(&rough, &stone, 0.25, rotation).scale_mm > 0); /* place checks */
        }
        lw_rough_destroy(&rough);
    }
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    test_shape stone;
    test_round(&stone, 0);
    lw_readings readings = {{12, 10, 9}};
    for (int n = 1;; n++) {
        meter m = {.refuse_at = n};
        lw_memory memory = meter_memory(&m);
        lw_rough rough = {0};
        lw_fitter *fitter = NULL;
        lw_status status = lw_habit_rough(&memory, LW_HABIT_PEBBLE, &readings, &rough, NULL);
        if (status == LW_OK) {
            status = lw_fitter_new(&memory, &rough, &stone.shape, 0, &fitter);
        }
        lw_fitter_destroy(fitter);
        lw_rough_destroy(&rough);
        assert_int_equal(m.held, 0);
        if (status == LW_OK) {
            assert_true(n > 4);
            break;
        }
        assert_int_equal(status, LW_NO_MEMORY);
    }
}

static void open_or_empty_roughs(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_rough rough;
    lw_rough_face faces[6] = {{{{1, 0, 0}, 1}, ""},  {{{-1, 0, 0}, 1}, ""}, {{{0, 1, 0}, 1}, ""},
                              {{{0, -1, 0}, 1}, ""}, {{{0, 0, 1}, 1}, ""},  {{{0, 0, -1}, -2}, ""}};
    assert_int_equal(lw_rough_make(&memory, faces, 5, &rough), LW_NOT_CLOSED);
    assert_int_equal(lw_rough_make(&memory, faces, 6, &rough), LW_EMPTY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cube_in_a_block),
        cmocka_unit_test(what_it_touches),
        cmocka_unit_test(octahedron_in_its_own_kind),
        cmocka_unit_test(girdle_of_fixed_thickness),
        cmocka_unit_test(fixed_girdle_agrees_with_a_solid_one),
        cmocka_unit_test(turning_both_changes_nothing),
        cmocka_unit_test(every_habit_and_rotation_is_sound),
        cmocka_unit_test(every_allocation_may_fail),
        cmocka_unit_test(open_or_empty_roughs),
    };
    return cmocka_run_group_tests_name("rough/fit", tests, NULL, NULL);
}
