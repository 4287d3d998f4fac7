/* Solving as a whole: steps that hang on one another, sizes, symmetry, memory. */
#include "cut/bench.h"

#include "cut/text_file.h"
#include "geom/angle.h"
#include "meter.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static lw_status solve_text(const char *text, lw_problem *problem)
{
    lw_memory memory = lw_memory_standard();
    lw_cut cut;
    lw_stone stone;
    lw_status status = lw_cut_read(&memory, text, strlen(text), &cut, problem);
    if (status != LW_OK) {
        return status;
    }
    status = lw_cut_solve(&memory, &cut, NULL, &stone, problem);
    if (status == LW_OK) {
        lw_stone_destroy(&stone);
    }
    lw_cut_destroy(&cut);
    return status;
}

/* ---- steps that hang on one another ------------------------------------- */

/* The girdle is cut to the meet of mains that are cut to the girdle's own corner further down: two
 * depths, two linear rules. */
static const char forward[] = "wheel 96\nfold 4 mirror\npavilion\n"
                              "main at 45 on 96 to point 50 %\n"
                              "side at 60 on 96 to meet girdle@96, main@96, girdle@24\n"
                              "girdle at 90 on 96 to size\n"
                              "crown\nlid at 45 on 96 to girdle 5 %\n";

static void a_rule_may_point_down(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(forward, NULL, &made);
    /* The side passes the corner where main and girdle meet: there at x = 0.5 and z = 0. */
    double raised = made.stone.raised;
    lw_plane side = made.stone.facets[made.stone.tiers[1].first].plane;
    double depth = side.distance - side.normal.z * raised;
    assert_true(fabs(depth - 0.5 * sqrt(0.75)) < 1e-12);
    assert_int_equal(made.check.sights[1], LW_SIGHT_BLIND);
    assert_false(made.check.cuttable);
    bench_drop(&made);
}

/* Two tiers, each through a share of the other's line: solved together. a - b = 0.1 and so on,
 * worked through the plane equations below. */
static void two_steps_solved_together(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 4 mirror\npavilion\n"
               "main at 45 on 96 to point 50 %\n"
               "girdle at 90 on 96 to size\n"
               "upper at 60 on 96 to share 50 % from line own main, own girdle towards "
               "line own main, own lower\n"
               "lower at 30 on 96 to share 50 % from line own main, own upper towards apex\n"
               "crown\nlid at 45 on 96 to girdle 20 %\n",
               NULL, &made);
    /* Along the main from the girdle (0) to the point (1): u = l / 2 and l = (u + 1) / 2, so u =
     * 1/3 and l = 2/3. The main runs from (0.5, 0) to (0, -0.5). */
    double raised = made.stone.raised;
    lw_plane upper = made.stone.facets[made.stone.tiers[2].first].plane;
    lw_plane lower = made.stone.facets[made.stone.tiers[3].first].plane;
    double u = 0.5 * (1 - 1.0 / 3) * sqrt(0.75) + 0.5 / 3 * 0.5;
    double l = 0.5 * (1 - 2.0 / 3) * 0.5 + 0.5 * 2 / 3 * sqrt(0.75);
    assert_true(fabs(upper.distance - upper.normal.z * raised - u) < 1e-12);
    assert_true(fabs(lower.distance - lower.normal.z * raised - l) < 1e-12);
    bench_drop(&made);
}

/* The upper tier hangs from the main at x = 0.5; the twin passes the upper tier at x = 0.4, and so
 * lies deeper than the main by a fixed amount, whatever the main does; yet they are to be as deep
 * as one another. */
static void no_solution_is_said(void **state)
{
    (void)state;
    lw_problem problem = {0};
    lw_status status = solve_text("wheel 96\nfold 4 mirror\npavilion\n"
                                  "girdle at 90 on 96 to size\n"
                                  "inner at 90 on 96 to size 80 %\n"
                                  "main at 45 on 96 to match twin@96\n"
                                  "upper at 60 on 96 to line girdle@96, main@96\n"
                                  "twin at 45 on 96 to line inner@96, upper@96\n"
                                  "crown\nlid at 45 on 96 to girdle 5 %\n",
                                  &problem);
    assert_int_equal(status, LW_NO_SOLUTION);
    assert_int_equal(problem.line, 6);
    assert_non_null(strstr(problem.hint, "6 7 8"));
}

static void more_than_one_solution_is_said(void **state)
{
    (void)state;
    lw_problem problem = {0};
    lw_status status = solve_text("wheel 96\nfold 4 mirror\npavilion\n"
                                  "girdle at 90 on 96 to size\n"
                                  "main at 45 on 96 to match lower@12\n"
                                  "lower at 50 on 12 to match main@96\n"
                                  "crown\nlid at 45 on 96 to girdle 5 %\n",
                                  &problem);
    assert_int_equal(status, LW_MANY_SOLUTIONS);
    assert_int_equal(problem.line, 5);
    assert_non_null(strstr(problem.hint, "5 6"));
}

/* ---- sizes -------------------------------------------------------------- */

static void every_way_to_give_a_size(void **state)
{
    (void)state;
    static const lw_size_kind kinds[] = {LW_SIZE_WIDTH_MM, LW_SIZE_LENGTH_MM, LW_SIZE_DIAMETER_MM,
                                         LW_SIZE_WEIGHT_CT};
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        lw_solve_options options = {.size_kind = kinds[i], .size = 7.5, .specific_gravity = 2.65};
        bench_stone made;
        bench_make_file("cuts/oval-brilliant.cut", &options, &made);
        const lw_measures *m = &made.stone.measures;
        double mm = made.stone.unit_mm;
        double found[] = {m->width * mm, m->length * mm, m->diameter * mm,
                          lw_stone_weight_ct(&made.stone, 2.65)};
        assert_true(fabs(found[i] - 7.5) < 1e-12);
        bench_drop(&made);
    }
}

static void a_rule_in_mm_needs_a_size(void **state)
{
    (void)state;
    lw_problem problem = {0};
    assert_int_equal(solve_text("wheel 96\nfold 4 mirror\npavilion\n"
                                "girdle at 90 on 96 to size\n"
                                "main at 45 on 96 to level on own girdle\n"
                                "crown\nlid at 45 on 96 to girdle 0.3 mm\n",
                                &problem),
                     LW_BAD_INPUT);
    assert_int_equal(problem.line, 7);
}

/* A girdle of 0.3 mm in a stone of a stated weight: shape and size settle together. */
static void mm_and_weight_settle(void **state)
{
    (void)state;
    lw_override girdle = {"girdle", LW_UNIT_MM, 0.3};
    lw_solve_options options = {
        .size_kind = LW_SIZE_WEIGHT_CT, .size = 2.0, .specific_gravity = 2.65};
    bench_stone made;
    (void)girdle;
    bench_make("wheel 96\nfold 8 mirror\npavilion\nmain at 43 on 96 to point\n"
               "girdle at 90 on 96 to size\n"
               "crown\nmain at 40 on 96 to girdle 0.3 mm\nadapter\n"
               "table at 0 to table 55 % across main@96\n",
               &options, &made);
    assert_true(fabs(lw_stone_weight_ct(&made.stone, 2.65) - 2.0) < 1e-9);
    assert_true(fabs(made.stone.measures.girdle_thick * made.stone.unit_mm - 0.3) < 1e-9);
    bench_drop(&made);
}

/* ---- every built-in cut ------------------------------------------------- */

static void passes(const char *path)
{
    bench_stone made;
    bench_make_file(path, NULL, &made);
    if (!bench_passes(&made)) {
        fail_msg("%s does not pass its check", path);
    }
    bench_drop(&made);
}

static void every_built_in_passes(void **state)
{
    (void)state;
    assert_true(each_file("cuts", ".cut", passes) >= 12);
}

/* Every setting at both ends of its limits, the others at their defaults. */
static void swept(const char *path)
{
    bench_stone base;
    bench_make_file(path, NULL, &base);
    for (int i = 0; i < base.cut.setting_count; i++) {
        const lw_setting *setting = &base.cut.settings[i];
        const lw_expr *ends[2] = {setting->lowest, setting->highest};
        for (int k = 0; k < 2 && !setting->is_let; k++) {
            lw_override one = {setting->name, ends[k]->unit, ends[k]->value};
            lw_solve_options options = {.overrides = &one, .override_count = 1};
            bench_stone made;
            print_message("%s with %s = %g\n", path, setting->name, one.value);
            bench_make_file(path, &options, &made);
            if (!bench_passes(&made)) {
                fail_msg("%s fails with %s = %g", path, setting->name, one.value);
            }
            bench_drop(&made);
        }
    }
    bench_drop(&base);
}

static void built_ins_pass_at_the_ends_of_their_settings(void **state)
{
    (void)state;
    (void)each_file("cuts", ".cut", swept);
}

/* ---- symmetry ----------------------------------------------------------- */

/* Whether some vertex of the solid lies at p. */
static bool has_vertex(const lw_polyhedron *solid, lw_vec3 p)
{
    for (int v = 0; v < solid->vertex_count; v++) {
        if (lw_vec3_length(lw_vec3_sub(solid->vertices[v], p)) < 1e-12) {
            return true;
        }
    }
    return false;
}

static lw_vec3 turned(lw_vec3 p, double c, double s)
{
    return (lw_vec3){c * p.x - s * p.y, s * p.x + c * p.y, p.z};
}

static void symmetric(const char *path)
{
    bench_stone made;
    bench_make_file(path, NULL, &made);
    lw_sincos step = lw_sincos_turns(1.0 / made.cut.fold);
    const lw_polyhedron *solid = &made.stone.solid;
    for (int v = 0; v < solid->vertex_count; v++) {
        lw_vec3 p = solid->vertices[v];
        if (!has_vertex(solid, turned(p, step.cos, step.sin)) ||
            (made.cut.mirror && !has_vertex(solid, (lw_vec3){p.x, -p.y, p.z}))) {
            fail_msg("%s: vertex %d has no twin within 1e-12", path, v);
        }
    }
    bench_drop(&made);
}

static void symmetric_stones_are_symmetric(void **state)
{
    (void)state;
    (void)each_file("cuts", ".cut", symmetric);
}

/* ---- memory ------------------------------------------------------------- */

static void every_allocation_may_fail(void **state)
{
    (void)state;
    size_t length = 0;
    char *text = text_of_file("cuts/oval-brilliant.cut", &length);
    lw_status status = LW_NO_MEMORY;
    long n = 1;
    for (; status != LW_OK; n++) {
        meter m = {.refuse_at = n};
        lw_memory memory = meter_memory(&m);
        lw_cut cut = {0};
        lw_stone stone = {0};
        lw_check check = {0};
        status = lw_cut_read(&memory, text, length, &cut, NULL);
        if (status == LW_OK) {
            status = lw_cut_solve(&memory, &cut, NULL, &stone, NULL);
            if (status == LW_OK) {
                status = lw_cut_check(&memory, &cut, &stone, NULL, &check);
                if (status == LW_OK) {
                    lw_check_destroy(&check);
                }
                lw_stone_destroy(&stone);
            }
            lw_cut_destroy(&cut);
        }
        assert_true(status == LW_OK || status == LW_NO_MEMORY);
        assert_int_equal(m.held, 0);
    }
    assert_true(n > 10);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_rule_may_point_down),
        cmocka_unit_test(two_steps_solved_together),
        cmocka_unit_test(no_solution_is_said),
        cmocka_unit_test(more_than_one_solution_is_said),
        cmocka_unit_test(every_way_to_give_a_size),
        cmocka_unit_test(a_rule_in_mm_needs_a_size),
        cmocka_unit_test(mm_and_weight_settle),
        cmocka_unit_test(every_built_in_passes),
        cmocka_unit_test(built_ins_pass_at_the_ends_of_their_settings),
        cmocka_unit_test(symmetric_stones_are_symmetric),
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
