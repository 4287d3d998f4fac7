/* The main job: what every plan must keep to, and where entries go. */
#include "plan_case.h"
#include "plan_words.h"

#include "matter/refraction.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static bool near(double value, double expected)
{
    return fabs(value - expected) <= 1e-12 * fmax(1.0, fabs(expected));
}

static void assert_range(const lw_range *range)
{
    assert_true(range->value[0] > 0.0);
    assert_true(range->value[0] < range->value[1]);
    assert_true(range->value[1] < range->value[2]);
}

static void assert_entry(const lw_plan *plan, const lw_plan_entry *entry)
{
    const lw_plan_request *asked = lw_plan_asked(plan);
    assert_range(&entry->width_mm);
    assert_range(&entry->weight_ct);
    assert_range(&entry->yield);
    assert_true(entry->evidence.sound);
    assert_true(entry->touch_count >= 2);
    /* worked: 1 ct = 0.2 g */
    double mm = entry->adapted.stone.unit_mm;
    const lw_measures *measures = &entry->adapted.stone.measures;
    double weight = measures->mass.volume * mm * mm * mm * asked->material->sg / 200.0;
    assert_true(near(entry->weight_ct.value[1], weight));
    assert_true(near(entry->width_mm.value[1], measures->width * mm));
    assert_true(near(entry->yield.value[1] * lw_plan_rough_ct(plan), weight));
    assert_true(entry->yield.value[2] < 1.0);
    assert_true(entry->brightness > 0.0 && entry->brightness < 1.0);
    assert_true(entry->window >= 0.0 && entry->window < 0.2);
    assert_true(entry->difficulty.value > 2.0);
    assert_true(entry->need_count >= 5);
}

/* The score by the formula in docs/plan.md, from the entries themselves. */
static void assert_scores(const lw_plan *plan)
{
    double weight = 0, light = 0, ease = 1e9, last = 101;
    for (int i = 0; i < lw_plan_count(plan); i++) {
        const lw_plan_entry *e = lw_plan_at(plan, i);
        weight = fmax(weight, e->weight_ct.value[1]);
        light = fmax(light, e->brightness - e->window);
        ease = fmin(ease, e->difficulty.value);
    }
    for (int i = 0; i < lw_plan_count(plan); i++) {
        const lw_plan_entry *e = lw_plan_at(plan, i);
        double total = 40 * e->weight_ct.value[1] / weight +
                       30 * (e->brightness - e->window) / light + 10 * ease / e->difficulty.value +
                       15 * e->score.bench + 5 * e->score.suits;
        assert_true(near(e->score.total, total));
        assert_true(total <= last);
        last = total;
    }
}

static void all_cuts_in_a_quartz_pebble(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_all(&c);
    c.request.kit = (lw_kit){.wheel_count = 1, .wheels = {96}};
    lw_plan *plan = plan_case_run(&c, 500);
    assert_true(lw_plan_count(plan) >= 9);
    for (int i = 0; i < lw_plan_count(plan); i++) {
        const lw_plan_entry *entry = lw_plan_at(plan, i);
        if (entry->state != LW_PLAN_GOOD) {
            fail_msg("%s: %s", entry->name, entry->problem.found);
        }
        assert_entry(plan, entry);
    }
    assert_scores(plan);
    assert_ptr_equal(lw_plan_best(plan), lw_plan_at(plan, 0));
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

/* Cutters report 25 to 33 % for custom work and 40 % and more from well-shaped rough (a gem
 * society's figures). A pebble is well shaped and here without a flaw; a small one loses more to
 * the margins: the likely yield of rounds lies between 25 and 40 %, and every range takes in a part
 * of what custom work reports. */
static void yields_are_those_of_custom_work(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    c.request.readings = (lw_readings){{10, 8, 7}};
    plan_case_add_builtin(&c, "classic-quartz-round");
    plan_case_add_builtin(&c, "round-brilliant");
    plan_case_add_builtin(&c, "oval-brilliant");
    plan_case_add_builtin(&c, "step-octagon");
    lw_plan *plan = plan_case_run(&c, 1000);
    for (int i = 0; i < lw_plan_count(plan); i++) {
        const lw_plan_entry *e = lw_plan_at(plan, i);
        print_message("%s: %.1f %% (%.1f to %.1f)\n", e->name, 100 * e->yield.value[1],
                      100 * e->yield.value[0], 100 * e->yield.value[2]);
        assert_true(e->yield.value[0] < 0.33 && e->yield.value[2] > 0.25);
        assert_true(e->yield.value[1] > 0.25 && e->yield.value[1] < 0.40);
    }
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

/* The pavilion's angle for a material: as common practice has it, never below critical + 1. */
static void angles_suit_the_material(void **state)
{
    (void)state;
    static const struct {
        const char *material;
        double pavilion_deg;
    } rows[] = {
        {"quartz", 43},         /* common practice: below n = 1.6 */
        {"corundum", 42},       /* common practice: nearly all; not named by this cut */
        {"cubic_zirconia", 41}, /* common practice: near 2 and above */
        {"fluorite", 44.74},    /* worked: the middle of 44.21 .. 45.26 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        plan_case c;
        plan_case_start(&c, rows[i].material);
        plan_case_add_builtin(&c, "classic-quartz-round");
        lw_plan *plan = plan_case_run(&c, 1000);
        const lw_plan_entry *e = lw_plan_at(plan, 0);
        assert_int_equal(e->state, LW_PLAN_GOOD);
        assert_true(fabs(e->pavilion_deg - rows[i].pavilion_deg) < 0.02);
        double critical = lw_material_critical_angle_deg(c.request.material);
        assert_true(near(e->critical_margin_deg, e->pavilion_deg - critical));
        assert_true(e->critical_margin_deg > 0.5);
        lw_plan_destroy(plan);
        plan_case_drop(&c);
    }
}

/* worked: asin(n sin(P - crit)): quartz at 43 degrees turns 4.1 degrees before it windows */
static void tilt_of_quartz(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_builtin(&c, "classic-quartz-round");
    lw_plan *plan = plan_case_run(&c, 1000);
    assert_true(fabs(lw_plan_at(plan, 0)->tilt_deg - 4.1) < 0.05);
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

static void wheels_decide_the_order(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_builtin(&c, "classic-quartz-round"); /* 32 positions: none of 80 */
    plan_case_add_builtin(&c, "single-cut");           /* 16 positions: 80 has them */
    c.request.kit = (lw_kit){.wheel_count = 1, .wheels = {80}, .cheater = LW_HAVE_NO};
    lw_plan *plan = plan_case_run(&c, 1000);
    assert_string_equal(lw_plan_at(plan, 0)->name, "single-cut");
    assert_int_equal(lw_plan_at(plan, 0)->state, LW_PLAN_GOOD);
    assert_int_equal(lw_plan_at(plan, 1)->state, LW_PLAN_NO_WHEEL);
    char text[600];
    lw_plan_write_why(plan, 1, text, sizeof text);
    assert_string_equal(text, "None of your wheels has its teeth: it asks for a wheel of 96, 64 or "
                              "32 teeth, or a cheater.");
    lw_plan_destroy(plan);
    c.request.kit.cheater = LW_HAVE_YES;
    plan = plan_case_run(&c, 1000);
    const lw_plan_entry *round = plan_case_find(plan, "classic-quartz-round");
    assert_int_equal(round->state, LW_PLAN_GOOD);
    assert_true(near(round->score.bench, 0.75));
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

static void too_small_and_no_room(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_builtin(&c, "single-cut");
    c.request.least_width_mm = 15;
    lw_plan *plan = plan_case_run(&c, 1000);
    assert_int_equal(lw_plan_at(plan, 0)->state, LW_PLAN_TOO_SMALL);
    assert_null(lw_plan_best(plan));
    lw_plan_destroy(plan);
    c.request.allowances.wanted_mm = 6; /* worked: 10.5 / 2 is less */
    plan = plan_case_run(&c, 1000);
    assert_int_equal(lw_plan_at(plan, 0)->state, LW_PLAN_NO_ROOM);
    char text[200];
    lw_plan_write_why(plan, 0, text, sizeof text);
    assert_string_equal(text, "Nothing of it is left in this rough once the margins are off.");
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

/* A cut that has no stone says why and takes nothing from the others. */
static void a_broken_cut_stays_behind(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_text(&c, "roofless",
                       "wheel 96\nfold 8 mirror\ndop crown\npavilion\n"
                       "main at 42 on 96 to point\ngirdle at 90 on 96 to size\n");
    plan_case_add_builtin(&c, "single-cut");
    lw_plan *plan = plan_case_run(&c, 1000);
    assert_string_equal(lw_plan_at(plan, 0)->name, "single-cut");
    const lw_plan_entry *broken = lw_plan_at(plan, 1);
    assert_int_equal(broken->state, LW_PLAN_FAILED);
    char text[600];
    lw_plan_write_why(plan, 1, text, sizeof text);
    assert_true(strlen(text) > strlen("It has no stone in this material: "));
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

/* A girdle in mm: the stone planned has it, at the size it was planned for. */
static void a_girdle_in_mm(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_text(&c, "mm",
                       "wheel 96\nfold 8 mirror\ndop crown\npavilion\n"
                       "main at 43 on 96 to point\ngirdle at 90 on 96 to size\n"
                       "transfer\ncrown\nmain at 38 on 96 to girdle 0.3 mm\nadapter\n"
                       "table at 0 to table 55 % across main@96\n");
    lw_plan *plan = plan_case_run(&c, 1000);
    const lw_plan_entry *e = lw_plan_at(plan, 0);
    if (e->state != LW_PLAN_GOOD) {
        fail_msg("%s", e->problem.found);
    }
    assert_entry(plan, e);
    const lw_stone *stone = &e->adapted.stone;
    assert_true(fabs(stone->measures.girdle_thin * stone->unit_mm - 0.3) < 1e-9);
    /* close to the largest: the same stone a thousandth larger would not fit */
    assert_true(e->evidence.clearance_mm <
                lw_allowance_margin_mm(&c.request.allowances, LW_CASE_LIKELY) + 0.02);
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

static void words_fit_their_buffer(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "tourmaline");
    c.request.habit = LW_HABIT_HEXAGONAL_PRISM;
    c.request.readings = (lw_readings){{18, 9, 8}};
    plan_case_add_builtin(&c, "step-octagon");
    plan_case_add_builtin(&c, "single-cut");
    lw_plan *plan = plan_case_run(&c, 1000);
    char whole[600], cut[20];
    size_t length = lw_plan_write_place(plan, lw_plan_at(plan, 0), whole, sizeof whole);
    assert_int_equal(length, strlen(whole));
    assert_non_null(strstr(whole, "The c axis lies "));
    assert_int_equal(lw_plan_write_place(plan, lw_plan_at(plan, 0), cut, sizeof cut), length);
    assert_int_equal(strlen(cut), 19);
    assert_memory_equal(cut, whole, 19);
    assert_int_equal(lw_plan_write_place(plan, lw_plan_at(plan, 0), NULL, 0), length);
    assert_true(lw_plan_write_why(plan, 1, whole, sizeof whole) > 20);
    assert_true(lw_plan_write_score(lw_plan_at(plan, 0), whole, sizeof whole) > 40);
    assert_true(strlen(lw_plan_orientation_advice(c.request.material)) > 10);
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_cuts_in_a_quartz_pebble),
        cmocka_unit_test(yields_are_those_of_custom_work),
        cmocka_unit_test(angles_suit_the_material),
        cmocka_unit_test(tilt_of_quartz),
        cmocka_unit_test(wheels_decide_the_order),
        cmocka_unit_test(too_small_and_no_room),
        cmocka_unit_test(a_broken_cut_stays_behind),
        cmocka_unit_test(a_girdle_in_mm),
        cmocka_unit_test(words_fit_their_buffer),
    };
    return cmocka_run_group_tests_name("study/plan", tests, NULL, NULL);
}
