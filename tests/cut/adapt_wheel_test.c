/* The same stone on another wheel, turned, and in the mirror; and what is then dialled. */
#include "cut/adapt.h"
#include "cut/adapt_help.h"
#include "cut/dial.h"
#include "geom/tolerance.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static lw_memory memory;

static void to_fit(const solved_cut *from, const lw_wheel_fit *fit, lw_adapted *out)
{
    lw_problem problem = {0};
    lw_status status = lw_adapt_to_wheel(&memory, &from->cut, &from->stone, fit, out, &problem);
    if (status != LW_OK) {
        fail_msg("%d: %s; %s", problem.line, problem.found, problem.expected);
    }
    assert_true(out->exact);
    assert_true(out->deviation < 1e-12);
    check_promises(out);
}

static void to_wheel(const solved_cut *from, int wheel, lw_adapted *out)
{
    lw_wheel_fit fit;
    lw_wheel_fit_stone(&from->stone, from->cut.wheel, wheel, &fit);
    to_fit(from, &fit, out);
}

static void turned(const solved_cut *from, double teeth, lw_adapted *out)
{
    lw_wheel_fit fit = {.wheel = from->cut.wheel, .whole = true, .offset = teeth};
    to_fit(from, &fit, out);
}

static void mirrored(const solved_cut *from, lw_adapted *out)
{
    lw_problem problem = {0};
    assert_int_equal(lw_adapt_to_mirror(&memory, &from->cut, &from->stone, out, &problem), LW_OK);
    assert_true(out->exact);
    assert_true(out->deviation < 1e-12);
    check_promises(out);
}

static lw_vec3 same_place(const void *context, lw_vec3 p)
{
    (void)context;
    return p;
}

static lw_vec3 turned_place(const void *context, lw_vec3 p)
{
    double angle = *(const double *)context;
    return (lw_vec3){p.x * cos(angle) - p.y * sin(angle), p.x * sin(angle) + p.y * cos(angle), p.z};
}

static lw_vec3 mirrored_place(const void *context, lw_vec3 p)
{
    (void)context;
    return (lw_vec3){p.x, -p.y, p.z};
}

/* The number of teeth round the wheel at which the stone reaches farthest from its axis. */
static double tip_of(const solved_cut *stone)
{
    const lw_polyhedron *solid = &stone->stone.solid;
    lw_vec3 far = {0.0, 0.0, 0.0};
    for (int v = 0; v < solid->vertex_count; v++) {
        lw_vec3 p = solid->vertices[v];
        if (hypot(p.x, p.y) > hypot(far.x, far.y) + 1e-9) {
            far = p;
        }
    }
    double turns = atan2(far.y, far.x) / (2.0 * acos(-1.0));
    return (turns < 0.0 ? turns + 1.0 : turns) * stone->cut.wheel;
}

static int count_whole(const lw_stone *stone)
{
    int whole = 0;
    for (int i = 0; i < stone->facet_count; i++) {
        whole += floor(stone->facets[i].tooth) == stone->facets[i].tooth;
    }
    return whole;
}

/* A pear with its tip at 24 of 96: at 16 of 64, 20 of 80, 30 of 120, and back at 24. On the crown
 * its tip is dialled at 72 (and 48, 60, 90); in the mirror it stands at 72, and is dialled at 24.
 */
static void test_pear(void **state)
{
    (void)state;
    solved_cut built_in;
    lw_adapted pear;
    lw_adapted there;
    lw_adapted back;
    solve_file("cuts/pear-brilliant.cut", 0.0, &built_in);
    turned(&built_in, 24.0, &pear);
    assert_true(fabs(tip_of(&pear) - 24.0) < 1e-9);
    assert_int_equal(count_whole(&pear.stone), pear.stone.facet_count);
    double quarter = acos(-1.0) / 2.0;
    assert_true(vertices_differ(&built_in.stone, &pear.stone, turned_place, &quarter) < 1e-12);
    static const int wheels[] = {64, 80, 120, 96, 77};
    for (size_t i = 0; i < sizeof wheels / sizeof *wheels; i++) {
        double n = (double)wheels[i];
        lw_wheel_fit plain = {.wheel = wheels[i]};
        to_fit(&pear, &plain, &there);
        assert_true(fabs(tip_of(&there) - n / 4.0) < 1e-9);
        assert_true(vertices_differ(&pear.stone, &there.stone, same_place, NULL) < 1e-12);
        lw_dial_kit kit = {.wheel = wheels[i]};
        if (wheels[i] % 4 == 0) {
            lw_dial dial = lw_dial_of(&kit, LW_SIDE_CROWN, tip_of(&there));
            assert_int_equal(dial.number, 3 * wheels[i] / 4);
            assert_true(fabs(dial.cheater_deg) < 1e-6);
        }
        lw_wheel_fit home = {.wheel = 96, .whole = true};
        to_fit(&there, &home, &back);
        assert_true(planes_differ(&pear.stone, &back.stone) < 1e-12);
        for (int k = 0; k < pear.stone.facet_count; k++) {
            assert_true(pear.stone.facets[k].tooth == back.stone.facets[k].tooth);
        }
        lw_adapted_destroy(&back);
        lw_adapted_destroy(&there);
    }
    mirrored(&pear, &there);
    assert_true(fabs(tip_of(&there) - 72.0) < 1e-9);
    lw_dial_kit kit = {.wheel = 96};
    assert_int_equal(lw_dial_of(&kit, LW_SIDE_CROWN, tip_of(&there)).number, 24);
    lw_adapted_destroy(&there);
    lw_adapted_destroy(&pear);
    lw_adapted_destroy(&built_in);
}

/* A pinwheel has a fold and no mirror: turned over by a wrong sign it would spin the other way. */
static void test_pinwheel(void **state)
{
    (void)state;
    solved_cut pinwheel;
    lw_adapted other;
    lw_adapted back;
    solve_file("cuts/pinwheel.cut", 8.0, &pinwheel);
    static const int wheels[] = {64, 80, 120};
    for (int i = 0; i < 3; i++) {
        to_wheel(&pinwheel, wheels[i], &other);
        assert_true(planes_differ(&pinwheel.stone, &other.stone) < 1e-12);
        to_wheel(&other, 96, &back);
        assert_true(planes_differ(&pinwheel.stone, &back.stone) < 1e-12);
        assert_int_equal(count_whole(&back.stone), back.stone.facet_count);
        assert_true(text_has(&back.cut, "on 2  to girdle girdle"));
        assert_true(text_has(&back.cut, "on 7  to meet"));
        lw_adapted_destroy(&back);
        lw_adapted_destroy(&other);
    }
    mirrored(&pinwheel, &other);
    assert_true(text_has(&other.cut, "hand     left"));
    assert_true(vertices_differ(&pinwheel.stone, &other.stone, mirrored_place, NULL) < 1e-12);
    assert_true(vertices_differ(&pinwheel.stone, &other.stone, same_place, NULL) > 0.01);
    mirrored(&other, &back);
    assert_true(text_has(&back.cut, "hand     right"));
    assert_true(planes_differ(&pinwheel.stone, &back.stone) < 1e-14);
    lw_adapted_destroy(&back);
    /* The left-handed one, turned: the text's teeth run the other way. */
    turned(&other, 5.0, &back);
    double angle = 5.0 / 96.0 * 2.0 * acos(-1.0);
    assert_true(vertices_differ(&other.stone, &back.stone, turned_place, &angle) < 1e-12);
    lw_adapted_destroy(&back);
    lw_adapted_destroy(&other);
    lw_adapted_destroy(&pinwheel);
}

/* common practice: transfer turns the stone end for end. Blades at 2, 14 … of the crown are dialled
 * at 94, 82 …; the same pinwheel left-handed at 2, 14 ….*/
static void test_pinwheel_dialled(void **state)
{
    (void)state;
    solved_cut pinwheel;
    lw_adapted left;
    lw_dial_kit kit = {.wheel = 96};
    solve_file("cuts/pinwheel.cut", 0.0, &pinwheel);
    mirrored(&pinwheel, &left);
    int blades = 0;
    for (int i = 0; i < pinwheel.stone.facet_count; i++) {
        const lw_facet *right_facet = &pinwheel.stone.facets[i];
        const lw_facet *left_facet = &left.stone.facets[i];
        if (strcmp(pinwheel.cut.steps[right_facet->step].name, "blade") == 0) {
            int right_number = lw_dial_of(&kit, LW_SIDE_CROWN, right_facet->tooth).number;
            int left_number = lw_dial_of(&kit, LW_SIDE_CROWN, left_facet->tooth).number;
            assert_int_equal(right_number % 12, 10);
            assert_int_equal(left_number % 12, 2);
            blades++;
        }
    }
    assert_int_equal(blades, 8);
    lw_adapted_destroy(&left);
    lw_adapted_destroy(&pinwheel);
}

/* Every built-in cut, stated for every common wheel, is the same stone; those that fit have whole
 * teeth. */
static void test_every_cut(void **state)
{
    (void)state;
    int whole = 0;
    for (int i = 0; built_in_cuts[i] != NULL; i++) {
        solved_cut from;
        lw_adapted to;
        lw_adapted back;
        solve_file(built_in_cuts[i], 0.0, &from);
        for (int w = 0; w < LW_WHEEL_COMMON; w++) {
            lw_wheel_fit fit;
            lw_wheel_fit_stone(&from.stone, from.cut.wheel, lw_wheels_common[w], &fit);
            to_fit(&from, &fit, &to);
            assert_int_equal(to.cut.wheel, lw_wheels_common[w]);
            if (fit.whole) {
                assert_int_equal(count_whole(&to.stone), to.stone.facet_count);
                whole++;
            }
            lw_wheel_fit home = {.wheel = from.cut.wheel, .whole = true};
            to_fit(&to, &home, &back);
            if (fit.offset == 0.0) {
                assert_true(planes_differ(&from.stone, &back.stone) < 1e-12);
                assert_int_equal(count_whole(&back.stone), back.stone.facet_count);
            }
            lw_adapted_destroy(&to);
            lw_adapted_destroy(&back);
        }
        lw_adapted_destroy(&from);
    }
    assert_in_range(whole, 20, 120);
}

/* worked: 64 to 96 is x 1.5: whole for even teeth. Names that stand at a tooth go along. */
static void test_64_to_96(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to;
    solve_text("wheel 64\nfold 8 mirror\n"
               "dop crown\npavilion\n"
               "main at 43 on 64 to point\n"
               "girdle at 90 on 2 to size\n"
               "break at 45 on 2 to meet left main, own girdle, left girdle\n"
               "transfer\ncrown\n"
               "main at 42 on 64 to girdle 2.5 %\n"
               "break at 47 on 2 to meet left main, own girdle, left girdle\n"
               "star at 27 on 4 to meet left main, right main, left break, right break\n"
               "adapter\ntable at 0 to meet main@64, star@4, star@60\n",
               0.0, &from);
    to_wheel(&from, 96, &to);
    assert_int_equal(count_whole(&to.stone), to.stone.facet_count);
    assert_true(text_has(&to.cut, "on 3  to size"));
    assert_true(text_has(&to.cut, "to meet main@96, star@6, star@90"));
    assert_true(text_has(&to.cut, "fold     8 mirror"));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
}

/* The cut for the two tests below, but for its last crown step. */
#define UNEVEN(last)                                                                               \
    "wheel 96\nfold 4 mirror\n"                                                                    \
    "dop crown\npavilion\n"                                                                        \
    "main at 43 on 3 to point # all at 3 and 9\n"                                                  \
    "girdle at 90 on 3 to size\n"                                                                  \
    "transfer\ncrown\n"                                                                            \
    "main at 42 on 3 to girdle 2.5 %\n" last "adapter\ntable at 0 to table 40 % across main@3\n"

static void half_a_tooth_on(const solved_cut *from, lw_adapted *to)
{
    lw_wheel_fit fit;
    lw_wheel_fit_stone(&from->stone, 96, 80, &fit);
    assert_true(fit.whole && fit.offset == 0.5);
    to_fit(from, &fit, to);
    assert_int_equal(count_whole(&to->stone), to->stone.facet_count);
    double angle = 0.5 / 80.0 * 2.0 * acos(-1.0);
    assert_true(vertices_differ(&from->stone, &to->stone, turned_place, &angle) < 1e-12);
}

/* worked: everything stands at 3, 15, 21, 27 … of 96, 2.5, 12.5, 17.5, 22.5 … of 80: whole once the
 * stone is turned by half a tooth. The mirror then lies between two teeth, so mirrored steps become
 * lists; one whose teeth each find their own depth, from neighbours named left and right, falls in
 * two, with left and right changed over in the second. */
static void test_turned_by_half_a_tooth(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to;
    solve_text(UNEVEN("break at 30 on 15 to each meet right main, 2nd right main, right girdle\n"),
               0.0, &from);
    half_a_tooth_on(&from, &to);
    assert_int_equal(to.cut.step_count, from.cut.step_count + 1);
    assert_true(text_has(&to.cut, "fold     4\n"));
    assert_true(text_has(&to.cut, "on 3, 18, 23, 38, 43, 58, 63, 78 to point"));
    assert_true(text_has(&to.cut, "main@3"));
    assert_true(text_has(&to.cut, "# all at 3 and 9"));
    assert_true(text_has(&to.cut, "the stone turned by 0.5 of a tooth."));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
}

/* Where the first of the two cuts away the points of the second, all is put in figures. */
static void test_turned_in_figures(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to;
    solve_text(UNEVEN("break at 30 on 15 to each share 50 % from meet left main, right main, left "
                      "girdle towards meet right main, 2nd right main, right girdle\n"),
               0.0, &from);
    half_a_tooth_on(&from, &to);
    assert_true(text_has(&to.cut, "to distance"));
    assert_int_equal(to.cut.setting_count, 0);
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
}

/* Free teeth, their neighbourhood moves with the wheel. */
static void test_free_tooth(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to;
    solve_text("wheel 96\n"
               "dop crown\npavilion\n"
               "main at 43 on 96, 24, 48, 72 to point\n"
               "girdle at 90 on 96, 24, 48, 72 to size\n"
               "break at free on free near 13 to meet main@96, main@24, girdle@96 and share 30 % "
               "from meet main@96, girdle@96, girdle@72 towards apex and share 30 % from meet "
               "main@24, girdle@24, girdle@48 towards apex\n"
               "transfer\ncrown\n"
               "main at 35 on 96, 24, 48, 72 to girdle 3 %\n"
               "adapter\ntable at 0 to table 50 % across main@96\n",
               0.0, &from);
    to_wheel(&from, 64, &to);
    assert_true(text_has(&to.cut, "free near 8.66666666666666"));
    assert_true(text_has(&to.cut, "main@64, main@16, girdle@64"));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
}

int main(void)
{
    memory = lw_memory_standard();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pear),
        cmocka_unit_test(test_pinwheel),
        cmocka_unit_test(test_pinwheel_dialled),
        cmocka_unit_test(test_every_cut),
        cmocka_unit_test(test_64_to_96),
        cmocka_unit_test(test_turned_by_half_a_tooth),
        cmocka_unit_test(test_turned_in_figures),
        cmocka_unit_test(test_free_tooth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
