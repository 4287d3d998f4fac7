/* Habits: volumes in closed form (worked, each beside its row), readings met, error cases. */
#include "rough/habit.h"
#include "rough/range.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static lw_rough make(lw_habit habit, double a, double b, double c)
{
    lw_memory memory = lw_memory_standard();
    lw_rough rough;
    lw_readings readings = {{a, b, c}};
    assert_int_equal(lw_habit_rough(&memory, habit, &readings, &rough, NULL), LW_OK);
    assert_null(lw_polyhedron_fault(&rough.solid));
    return rough;
}

static double volume(lw_habit habit, double a, double b, double c)
{
    lw_rough rough = make(habit, a, b, c);
    double value = rough.volume_mm3;
    lw_rough_destroy(&rough);
    lw_rough_destroy(&rough);
    return value;
}

static void assert_near(double value, double expected, double ratio)
{
    if (!(fabs(value - expected) <= ratio * fabs(expected))) {
        fail_msg("%.17g is not %.17g", value, expected);
    }
}

/* Inner polyhedron of the ellipsoid, worked: between parallels it is a stack of frusta of regular
 * polygons; height h between radii p, q: h / 3 (p^2 + p q + q^2) times the area of the polygon in
 * the unit circle, n / 2 sin(2 pi / n). */
static double worn_share(int sectors, int bands)
{
    double area = 0.5 * sectors * lw_sincos_turns(1.0 / sectors).sin, sum = 0;
    for (int i = 0; i < bands; i++) {
        lw_sincos low = lw_sincos_turns(0.25 * i / bands);
        lw_sincos high = lw_sincos_turns(0.25 * (i + 1) / bands);
        sum += (high.sin - low.sin) / 3 *
               (low.cos * low.cos + low.cos * high.cos + high.cos * high.cos);
    }
    return 2 * area * sum / 8; /* of the box 2 by 2 by 2 */
}

static void volumes_of_worn_pieces(void **state)
{
    (void)state;
    double box = 14.0 * 10.0 * 8.0;
    assert_near(volume(LW_HABIT_PEBBLE, 14, 10, 8), box * worn_share(24, 6), 1e-12);
    /* worked: half of an ellipsoid twice as high */
    assert_near(volume(LW_HABIT_HALF_PEBBLE, 14, 10, 8), box * worn_share(24, 6), 1e-12);
    /* worked: 24-gon in the unit circle, over the square around it */
    assert_near(volume(LW_HABIT_PLATE, 14, 10, 8), box * 3 * lw_sincos_turns(1.0 / 24).sin, 1e-12);
    /* the inner solid leaves out less than 4 % of the ellipsoid (this file's own bound) */
    lw_rough rough = make(LW_HABIT_PEBBLE, 14, 10, 8);
    assert_near(rough.whole_mm3, box * LW_PI / 6, 1e-15); /* worked: ellipsoid */
    assert_true(rough.volume_mm3 < rough.whole_mm3);
    assert_true(rough.volume_mm3 > 0.96 * rough.whole_mm3);
    lw_rough_destroy(&rough);
}

static void volumes_of_forms(void **state)
{
    (void)state;
    double box = 14.0 * 10.0 * 8.0;
    assert_near(volume(LW_HABIT_BLOCK, 14, 10, 8), box, 1e-13);
    assert_near(volume(LW_HABIT_CUBE, 14, 10, 8), box, 1e-13);
    /* worked: x + y + z <= 1.4 in the unit cube: a corner of 1.4, less three of 0.4 outside */
    double cobbed = (1.4 * 1.4 * 1.4 - 3 * 0.4 * 0.4 * 0.4) / 6;
    assert_near(volume(LW_HABIT_COBBED, 14, 10, 8), box * cobbed, 1e-12);
    /* worked: eight corners of volume 1/6 of the octant */
    assert_near(volume(LW_HABIT_OCTAHEDRON, 14, 10, 8), box / 6, 1e-12);
    /* published: edge a, 16 sqrt(3) a^3 / 9, and 4 a / sqrt(3) between fourfold corners: 1/4 */
    assert_near(volume(LW_HABIT_DODECAHEDRON, 14, 10, 8), box / 4, 1e-12);
    /* worked: 24 pyramids over kites (1,0,0) (2/3,2/3,0) (1/2,1/2,1/2) (2/3,0,2/3) of 1/9 each */
    assert_near(volume(LW_HABIT_TRAPEZOHEDRON, 14, 10, 8), box / 3, 1e-12);
    /* worked: unit normals at 120 degrees about c, each t from c: determinant
     * (3 sqrt(3) / 2) sin^2 t cos t */
    lw_sincos t = lw_sincos_deg(44.61);
    assert_near(volume(LW_HABIT_RHOMBOHEDRON, 14, 10, 8),
                box / (1.5 * sqrt(3.0) * t.sin * t.sin * t.cos), 1e-12);
}

/* A regular hexagon, w over corners, has the area 3 sqrt(3) / 8 w^2 (published). */
static void volumes_of_prisms(void **state)
{
    (void)state;
    double w = 9, f = w * sqrt(3.0) / 2, area = 3 * sqrt(3.0) / 8 * w * w;
    double point = lw_tan_deg(51.79) * f / 2;
    assert_near(volume(LW_HABIT_HEXAGONAL_PRISM, 20, w, f), area * 20, 1e-12);
    /* worked: a pyramid is a third of its prism */
    assert_near(volume(LW_HABIT_POINTED_PRISM, 20, w, f), area * (20 - point * 2 / 3), 1e-12);
    assert_near(volume(LW_HABIT_DOUBLE_POINTED, 20, w, f), area * (20 - point * 4 / 3), 1e-12);
    /* worked: two frusta from full to half width: (1 + 1/2 + 1/4) / 3 */
    assert_near(volume(LW_HABIT_BARREL, 20, w, f), area * 20 * 7 / 12, 1e-12);
    /* worked: uneven hexagon, 10 over corners and 6 over flats: 6 (10 - 6 / (2 sqrt(3))) */
    assert_near(volume(LW_HABIT_HEXAGONAL_PRISM, 20, 10, 6), 20 * 6 * (10 - sqrt(3.0)), 1e-12);
}

static double extent(const lw_rough *rough, double x, double y, double z)
{
    lw_vec3 n = {x, y, z}, back = {-x, -y, -z};
    return lw_polyhedron_support(&rough->solid, n, NULL) +
           lw_polyhedron_support(&rough->solid, back, NULL);
}

static void the_jaws_read_the_readings(void **state)
{
    (void)state;
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        if (i == LW_HABIT_RHOMBOHEDRON) {
            continue; /* its readings are square to its faces: the determinant tests them */
        }
        lw_rough rough = make((lw_habit)i, 21, 10, 8.5);
        assert_near(extent(&rough, 1, 0, 0), 21, 1e-12);
        assert_near(extent(&rough, 0, 1, 0), 10, 1e-12);
        assert_near(extent(&rough, 0, 0, 1), 8.5, 1e-12);
        assert_true(rough.whole_mm3 >= rough.volume_mm3);
        for (int k = 0; k < rough.face_count; k++) {
            assert_true(strlen(rough.faces[k].what) > 3);
        }
        lw_rough_destroy(&rough);
    }
}

/* Every corner of a worn solid lies on the ellipsoid: it is an inner one. */
static void worn_corners_lie_on_the_ellipsoid(void **state)
{
    (void)state;
    lw_rough rough = make(LW_HABIT_PEBBLE, 14, 10, 8);
    assert_int_equal(rough.solid.vertex_count, 24 * 11 + 2); /* worked: rings and two poles */
    for (int i = 0; i < rough.solid.vertex_count; i++) {
        lw_vec3 p = rough.solid.vertices[i];
        assert_near(p.x * p.x / 49 + p.y * p.y / 25 + p.z * p.z / 16, 1, 1e-12);
    }
    lw_rough_destroy(&rough);
}

static void weight_of_a_block(void **state)
{
    (void)state;
    /* worked: 10 mm cubed of SG 2.65 is 2.65 g, 13.25 ct */
    lw_rough rough = make(LW_HABIT_BLOCK, 10, 10, 10);
    assert_near(lw_rough_weight_ct(&rough, 2.65), 13.25, 1e-13);
    lw_rough_destroy(&rough);
}

static void bad(lw_habit habit, double a, double b, double c, const char *found)
{
    lw_memory memory = lw_memory_standard();
    lw_rough rough = {.face_count = -7};
    lw_problem problem = {0};
    lw_readings readings = {{a, b, c}};
    lw_status status = lw_habit_rough(&memory, habit, &readings, &rough, &problem);
    assert_int_equal(status, LW_BAD_INPUT);
    assert_int_equal(rough.face_count, -7);
    assert_string_equal(problem.found, found);
    assert_true(strlen(problem.expected) > 0);
}

static void bad_readings(void **state)
{
    (void)state;
    bad(LW_HABIT_PEBBLE, 0, 10, 8, "0 mm as the first reading");
    bad(LW_HABIT_PEBBLE, 12, -3, 8, "-3 mm as the second reading");
    bad(LW_HABIT_PEBBLE, 12, 10, 1200, "1200 mm as the third reading");
    bad(LW_HABIT_PEBBLE, (double)NAN, 10, 8, "no number mm as the first reading");
    bad(LW_HABIT_PEBBLE, (double)INFINITY, 10, 8, "no number mm as the first reading");
    bad(LW_HABIT_HEXAGONAL_PRISM, 20, 5, 9, "a third reading of 1.73 times the second or more");
    bad(LW_HABIT_DOUBLE_POINTED, 8, 9, 7.8, "8 mm along a prism of this width");
}

static void keys_lead_back(void **state)
{
    (void)state;
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        const lw_habit_words *words = lw_habit_describe((lw_habit)i);
        lw_habit found = LW_HABIT_COUNT;
        assert_true(lw_habit_find(words->key, &found));
        assert_int_equal(found, i);
        assert_true(strlen(words->note) > 10 && strlen(words->readings[2]) > 5);
    }
    lw_habit untouched = LW_HABIT_PLATE;
    assert_false(lw_habit_find("boulder", &untouched));
    assert_int_equal(untouched, LW_HABIT_PLATE);
}

/* The three cases of a range lie inside one another: smaller readings make a smaller solid. */
static void cases_are_nested(void **state)
{
    (void)state;
    lw_allowances allowances = lw_allowances_for(LW_SKILL_PRACTISED);
    lw_readings readings = {{21, 10, 8.5}};
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        lw_memory memory = lw_memory_standard();
        double last = 0;
        for (int k = 0; k < LW_CASE_COUNT; k++) {
            lw_readings shifted = lw_allowance_readings(&allowances, &readings, (lw_case)k);
            lw_rough rough;
            lw_status status = lw_habit_rough(&memory, (lw_habit)i, &shifted, &rough, NULL);
            assert_int_equal(status, LW_OK);
            assert_true(rough.volume_mm3 > last);
            last = rough.volume_mm3;
            lw_rough_destroy(&rough);
        }
    }
}

static void allowances_shrink_with_skill(void **state)
{
    (void)state;
    for (int k = 0; k < LW_CASE_COUNT; k++) {
        double last = 1e9;
        for (int i = 0; i < LW_SKILL_COUNT; i++) {
            lw_allowances allowances = lw_allowances_for((lw_skill)i);
            double margin = lw_allowance_margin_mm(&allowances, (lw_case)k);
            assert_true(margin > 0 && margin < last);
            last = margin;
            assert_true(k == 0 || margin < lw_allowance_margin_mm(&allowances, (lw_case)(k - 1)));
        }
    }
    lw_allowances allowances = lw_allowances_for(LW_SKILL_EXACT);
    double before = lw_allowance_margin_mm(&allowances, LW_CASE_LIKELY);
    allowances.wanted_mm = 0.5;
    assert_near(lw_allowance_margin_mm(&allowances, LW_CASE_LIKELY), before + 0.5, 1e-15);
    lw_skill skill = LW_SKILL_COUNT;
    assert_true(lw_skill_find("practised", &skill));
    assert_int_equal(skill, LW_SKILL_PRACTISED);
    assert_false(lw_skill_find("lucky", &skill));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(volumes_of_worn_pieces),
        cmocka_unit_test(volumes_of_forms),
        cmocka_unit_test(volumes_of_prisms),
        cmocka_unit_test(the_jaws_read_the_readings),
        cmocka_unit_test(worn_corners_lie_on_the_ellipsoid),
        cmocka_unit_test(weight_of_a_block),
        cmocka_unit_test(bad_readings),
        cmocka_unit_test(keys_lead_back),
        cmocka_unit_test(cases_are_nested),
        cmocka_unit_test(allowances_shrink_with_skill),
    };
    return cmocka_run_group_tests_name("rough/habit", tests, NULL, NULL);
}
