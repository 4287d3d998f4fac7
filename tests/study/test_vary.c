/* Varied stones: what is free, and that the stone is the cut's own. */
#include "tune_case.h"

#include "cut/write.h"
#include "geom/tolerance.h"
#include "meter.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

static const lw_solve_options no_size = {.size_kind = LW_SIZE_NONE};

/* Worked, by reading the texts: a setting is free where it moves neither outline nor girdle nor a
 * side as a whole; a step is where its angle is stated and the next tier is laid on what is there.
 */
static void what_is_free_is_what_the_text_leaves(void **state)
{
    (void)state;
    static const struct {
        const char *cut, *free;
    } cases[] = {
        {"round-brilliant", "table, star, lower"},
        {"classic-quartz-round", "pavilion-break, crown-break, star"},
        {"step-octagon", "table, step 6 (pavilion middle), step 7 (pavilion outer), step 10 (crown "
                         "middle), step 11 (crown inner)"},
        {"single-cut", "table"},
        {"oval-brilliant", "table, lower, star"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        tune_case c;
        lw_handle found[LW_VARY_MOST];
        int count = 0;
        char text[400] = "";
        tune_case_make(cases[i].cut, &no_size, &c);
        assert_int_equal(lw_vary_free(&c.vary, found, &count), LW_OK);
        for (int k = 0; k < count; k++) {
            strcat(text, k == 0 ? "" : ", ");
            strcat(text, found[k].name);
            assert_true(found[k].lowest <= found[k].start && found[k].start <= found[k].highest);
        }
        assert_string_equal(text, cases[i].free);
        tune_case_drop(&c);
    }
}

/* Worked: the round brilliant's angles all follow from its mains by tangents, so that the side
 * ratio and the setting come to the same stone. */
static void a_side_is_what_its_setting_makes_of_it(void **state)
{
    (void)state;
    tune_case c, set;
    lw_stone stone;
    double values[2] = {41.3, 33.1};
    lw_override overrides[2] = {{"pavilion", LW_UNIT_NUMBER, values[0]},
                                {"crown", LW_UNIT_NUMBER, values[1]}};
    lw_solve_options options = {.overrides = overrides, .override_count = 2};
    tune_case_make("round-brilliant", &no_size, &c);
    tune_case_make("round-brilliant", &options, &set);
    assert_int_equal(lw_vary_stone(&c.vary, &c.memory, c.handles, values, 2, &stone), LW_OK);
    assert_int_equal(stone.facet_count, set.vary.stone.facet_count);
    for (int i = 0; i < stone.facet_count; i++) {
        const lw_plane *a = &stone.facets[i].plane, *b = &set.vary.stone.facets[i].plane;
        assert_true(lw_vec3_length(lw_vec3_sub(a->normal, b->normal)) < LW_MEET_HOLDS);
        assert_true(fabs(a->distance - b->distance) < LW_MEET_HOLDS);
    }
    assert_true(fabs(lw_flattest_pavilion_deg(&stone) - 41.3) < LW_SAME_ANGLE_DEG);
    lw_stone_destroy(&stone);
    tune_case_drop(&set);
    tune_case_drop(&c);
}

static void same_stone(const lw_stone *a, const lw_stone *b)
{
    assert_true(fabs(a->measures.mass.volume - b->measures.mass.volume) < LW_MEET_HOLDS);
    assert_true(fabs(a->measures.table - b->measures.table) < LW_MEET_HOLDS);
    assert_true(fabs(a->measures.depth - b->measures.depth) < LW_MEET_HOLDS);
    assert_int_equal(a->measures.facet_count, b->measures.facet_count);
}

/* The text is the stone: sides, a setting and a step at once, in every cut that has them. */
static void the_text_is_the_stone(void **state)
{
    (void)state;
    static const char *const cuts[] = {"round-brilliant", "classic-quartz-round", "step-octagon",
                                       "square-cushion", "triangle-brilliant"};
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0]; i++) {
        tune_case c;
        lw_handle handles[LW_VARY_MOST + 2];
        double values[LW_VARY_MOST + 2];
        int count = 0;
        lw_stone stone;
        lw_adapted text;
        lw_problem problem = {0};
        lw_solve_options sized = {.size_kind = LW_SIZE_WIDTH_MM, .size = 7.0};
        tune_case_make(cuts[i], &sized, &c);
        assert_int_equal(lw_vary_free(&c.vary, handles, &count), LW_OK);
        handles[count++] = c.handles[0];
        handles[count++] = c.handles[1];
        for (int k = 0; k < count; k++) {
            double room = handles[k].highest - handles[k].start;
            values[k] = handles[k].start + (room > 0.0 ? 0.07 * room : -0.1);
        }
        assert_int_equal(lw_vary_stone(&c.vary, &c.memory, handles, values, count, &stone), LW_OK);
        if (lw_vary_cut(&c.vary, handles, values, count, &text, &problem) != LW_OK) {
            fail_msg("%s: %s; expected %s", cuts[i], problem.found, problem.expected);
        }
        same_stone(&stone, &text.stone);
        assert_true(fabs(stone.measures.width * stone.unit_mm - 7.0) < 1e-9);
        assert_true(stone.measures.mass.volume != c.vary.stone.measures.mass.volume);
        assert_true(fabs(stone.measures.diameter - c.vary.stone.measures.diameter) < 1e-9);
        lw_adapted_destroy(&text);
        lw_stone_destroy(&stone);
        tune_case_drop(&c);
    }
}

/* Worked: a middle tier flatter than the tier at the keel, which stands at 43, takes it away. */
static void a_step_too_flat_has_no_stone(void **state)
{
    (void)state;
    tune_case c;
    lw_handle found[LW_VARY_MOST];
    int count = 0;
    lw_stone stone;
    tune_case_make("step-octagon", &no_size, &c);
    assert_int_equal(lw_vary_free(&c.vary, found, &count), LW_OK);
    assert_string_equal(found[1].name, "step 6 (pavilion middle)");
    double value = 42.0;
    assert_int_equal(lw_vary_stone(&c.vary, &c.memory, &found[1], &value, 1, &stone),
                     LW_NO_SOLUTION);
    value = 49.0;
    assert_int_equal(lw_vary_stone(&c.vary, &c.memory, &found[1], &value, 1, &stone), LW_OK);
    lw_stone_destroy(&stone);
    /* between its neighbours, the keel's tier at 43 and the outer one at 58 */
    assert_true(found[1].lowest >= 43.0 && found[1].highest <= 58.0);
    tune_case_drop(&c);
}

/* A setting beyond the limits that its cut gives it. */
static void a_setting_beyond_its_limits_has_no_stone(void **state)
{
    (void)state;
    tune_case c;
    lw_handle found[LW_VARY_MOST];
    int count = 0;
    lw_stone stone;
    double value = 88.5; /* lower: from 55 to 88 */
    tune_case_make("round-brilliant", &no_size, &c);
    assert_int_equal(lw_vary_free(&c.vary, found, &count), LW_OK);
    assert_string_equal(found[2].name, "lower");
    assert_true(found[2].highest == 88.0 && found[2].start == 77.0);
    assert_int_equal(lw_vary_stone(&c.vary, &c.memory, &found[2], &value, 1, &stone),
                     LW_NO_SOLUTION);
    tune_case_drop(&c);
}

/* A stone that was asked for by weight is varied at the width that this came to. */
static void the_width_stays(void **state)
{
    (void)state;
    tune_case c;
    lw_stone stone;
    lw_solve_options heavy = {
        .size_kind = LW_SIZE_WEIGHT_CT, .size = 2.0, .specific_gravity = 2.65};
    double values[2] = {44.5, 40.0};
    tune_case_make("classic-quartz-round", &heavy, &c);
    assert_int_equal(lw_vary_stone(&c.vary, &c.memory, c.handles, values, 2, &stone), LW_OK);
    double was = c.vary.stone.measures.width * c.vary.stone.unit_mm;
    assert_true(fabs(stone.measures.width * stone.unit_mm - was) < 1e-9);
    assert_true(fabs(lw_stone_weight_ct(&c.vary.stone, 2.65) - 2.0) < 1e-6);
    assert_true(fabs(lw_stone_weight_ct(&stone, 2.65) - 2.0) > 1e-3);
    lw_stone_destroy(&stone);
    tune_case_drop(&c);
}

static void memory_runs_out_anywhere(void **state)
{
    (void)state;
    tune_case c;
    double values[2] = {44.5, 40.0};
    lw_status status = LW_NO_MEMORY;
    tune_case_make("classic-quartz-round", &no_size, &c);
    long n = 0;
    while (status == LW_NO_MEMORY) {
        meter m = {.refuse_at = ++n};
        lw_memory scarce = meter_memory(&m);
        lw_stone stone = {0};
        status = lw_vary_stone(&c.vary, &scarce, c.handles, values, 2, &stone);
        lw_stone_destroy(&stone);
        assert_int_equal(m.held, 0);
        assert_true(n < 1000);
    }
    assert_int_equal(status, LW_OK);
    assert_true(n > 5); /* several requests were refused, each alone */
    tune_case_drop(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_free_is_what_the_text_leaves),
        cmocka_unit_test(a_side_is_what_its_setting_makes_of_it),
        cmocka_unit_test(the_text_is_the_stone),
        cmocka_unit_test(a_step_too_flat_has_no_stone),
        cmocka_unit_test(a_setting_beyond_its_limits_has_no_stone),
        cmocka_unit_test(the_width_stays),
        cmocka_unit_test(memory_runs_out_anywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
