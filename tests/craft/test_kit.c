/* What a stone asks of the bench. Sources: teeth by arithmetic (worked); dops, laps, polish and
 * adapter by common practice. */
#include "craft/need.h"
#include "craft/second_hand.h"
#include "craft_cut.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static lw_wheel_choice choose(const craft_cut *cut, int count, const int *wheels)
{
    lw_kit kit = {.wheel_count = count};
    memcpy(kit.wheels, wheels, (size_t)count * sizeof *wheels);
    lw_wheel_choice choice;
    lw_kit_choose_wheel(&kit, &cut->cut, &cut->stone, &choice);
    return choice;
}

static void the_best_wheel(void **state)
{
    (void)state;
    craft_cut cut;
    craft_cut_of_name("round-brilliant", &cut);
    lw_wheel_choice choice = choose(&cut, 0, (int[]){0});
    assert_true(choice.own && choice.fit.whole);
    assert_int_equal(choice.fit.wheel, 96);
    /* worked: halves at 3 of 96 are at 2 of 64 and at 2.5 of 80; turned by half a tooth the mains
     * fall between instead: 80 / 16 = 5 positions, odd teeth of 16ths are whole once turned, but
     * mains (0/16) and halves (1/32) leave 0 and 1/2: never both */
    choice = choose(&cut, 2, (int[]){80, 64});
    assert_int_equal(choice.fit.wheel, 64);
    assert_true(choice.fit.whole);
    choice = choose(&cut, 3, (int[]){64, 80, 96});
    assert_int_equal(choice.fit.wheel, 96); /* the cut's own before another that does */
    choice = choose(&cut, 1, (int[]){80});
    assert_false(choice.fit.whole);
    assert_true(choice.fit.greatest_cheater_deg > 2.2 && choice.fit.greatest_cheater_deg < 2.3);
    craft_cut_drop(&cut);
}

static const lw_need *find(const lw_need *needs, int count, lw_need_kind kind)
{
    for (int i = 0; i < count; i++) {
        if (needs[i].kind == kind) {
            return &needs[i];
        }
    }
    return NULL;
}

static void nothing_said_is_nothing_missing(void **state)
{
    (void)state;
    craft_cut cut;
    craft_cut_of_name("classic-quartz-round", &cut);
    lw_kit kit = {0};
    lw_wheel_choice choice;
    lw_need needs[LW_NEED_COUNT];
    lw_kit_choose_wheel(&kit, &cut.cut, &cut.stone, &choice);
    const lw_material *quartz = lw_material_by_key("quartz");
    assert_non_null(quartz);
    int count = lw_kit_needs(&kit, &cut.cut, &cut.stone, quartz, 8.0, &choice, needs);
    assert_int_equal(count, LW_NEED_COUNT);
    for (int i = 0; i < count; i++) {
        assert_int_equal(needs[i].have, LW_HAVE_UNSAID);
        assert_true(strlen(needs[i].text) > 5);
    }
    /* worked: half and seven tenths of 8 mm are 4 and 5.6; dops come in half millimetres */
    assert_string_equal(find(needs, count, LW_NEED_DOP)->text, "a dop of 4 to 5.5 mm");
    /* worked: 32 positions at least: 96, 64, then 32 itself; 80, 120, 72 … lack some */
    assert_string_equal(find(needs, count, LW_NEED_WHEEL)->text,
                        "a wheel of 96, 64 or 32 teeth, or a cheater");
    /* common practice: cerium oxide for quartz */
    assert_string_equal(find(needs, count, LW_NEED_POLISH)->text,
                        "cerium oxide to polish with, and a lap for it");
    craft_cut_drop(&cut);
}

static void a_poor_kit_and_a_full_one(void **state)
{
    (void)state;
    craft_cut cut;
    craft_cut_of_name("classic-quartz-round", &cut);
    lw_kit poor = {.wheel_count = 1,
                   .wheels = {80},
                   .dop_count = 1,
                   .dops_mm = {12},
                   .lap_count = 1,
                   .laps = {260},
                   .polishes_said = true,
                   .polishes = LW_POLISH_DIAMOND,
                   .adapter = LW_HAVE_NO,
                   .transfer_jig = LW_HAVE_NO,
                   .cheater = LW_HAVE_NO};
    const lw_material *quartz = lw_material_by_key("quartz");
    lw_wheel_choice choice;
    lw_need needs[LW_NEED_COUNT];
    lw_kit_choose_wheel(&poor, &cut.cut, &cut.stone, &choice);
    int count = lw_kit_needs(&poor, &cut.cut, &cut.stone, quartz, 8.0, &choice, needs);
    for (int i = 0; i < count; i++) {
        bool there = needs[i].kind == LW_NEED_COARSE;
        assert_int_equal(needs[i].have, there ? LW_HAVE_YES : LW_HAVE_NO);
    }
    lw_kit full = {.wheel_count = 2,
                   .wheels = {80, 96},
                   .dop_count = 2,
                   .dops_mm = {12, 5},
                   .lap_count = 3,
                   .laps = {260, 1200, 8000},
                   .polishes_said = true,
                   .polishes = LW_POLISH_CERIUM | LW_POLISH_ALUMINA,
                   .adapter = LW_HAVE_YES,
                   .transfer_jig = LW_HAVE_YES};
    lw_kit_choose_wheel(&full, &cut.cut, &cut.stone, &choice);
    count = lw_kit_needs(&full, &cut.cut, &cut.stone, quartz, 8.0, &choice, needs);
    assert_int_equal(count, LW_NEED_COUNT);
    for (int i = 0; i < count; i++) {
        assert_int_equal(needs[i].have, LW_HAVE_YES);
    }
    craft_cut_drop(&cut);
}

static void a_kit_is_looked_at(void **state)
{
    (void)state;
    lw_problem problem = {0};
    lw_kit kit = {.wheel_count = 1, .wheels = {96}, .dop_count = 1, .dops_mm = {6}};
    assert_int_equal(lw_kit_check(&kit, &problem), LW_OK);
    kit.wheels[0] = 7;
    assert_int_equal(lw_kit_check(&kit, &problem), LW_BAD_INPUT);
    assert_string_equal(problem.found, "a wheel of 7 teeth");
    kit.wheels[0] = 96;
    kit.dops_mm[0] = 0;
    assert_int_equal(lw_kit_check(&kit, &problem), LW_BAD_INPUT);
    kit.dop_count = 0;
    kit.lap_count = 1;
    kit.laps[0] = 5;
    assert_int_equal(lw_kit_check(&kit, NULL), LW_BAD_INPUT);
    assert_int_equal(lw_polish_find("alumina"), LW_POLISH_ALUMINA);
    assert_int_equal(lw_polish_find("soap"), 0);
}

/* Every polish that the table of materials names is one that a kit can have. */
static void polishes_of_the_table(void **state)
{
    (void)state;
    int named = 0;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const char *polish = lw_material_at(i)->polish;
        if (polish[0] != '\0') {
            assert_true(lw_polish_find(polish) != 0);
            named++;
        }
    }
    assert_true(named > 20);
}

static void the_second_hand_list(void **state)
{
    (void)state;
    bool wheels = false, drain = false;
    for (int i = 0; i < lw_second_hand_count(); i++) {
        const lw_second_hand *row = lw_second_hand_at(i);
        assert_true(strlen(row->why) > 10 && strlen(row->check) > 10);
        wheels = wheels || strstr(row->part, "96") != NULL;
        drain = drain || strstr(row->part, "drain") != NULL;
    }
    assert_true(wheels && drain);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_best_wheel),
        cmocka_unit_test(nothing_said_is_nothing_missing),
        cmocka_unit_test(a_poor_kit_and_a_full_one),
        cmocka_unit_test(a_kit_is_looked_at),
        cmocka_unit_test(polishes_of_the_table),
        cmocka_unit_test(the_second_hand_list),
    };
    return cmocka_run_group_tests_name("craft/kit", tests, NULL, NULL);
}
