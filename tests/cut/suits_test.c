/* What the built-in cuts are said to suit: materials that the table knows by exactly that key, in
 * which no facet of the pavilion, at the settings' defaults, lies below the critical angle. */
#include "cut/bench.h"

#include "cut/text_file.h"
#include "matter/material.h"
#include "matter/refraction.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void suits_one(const char *path, const bench_stone *made, const char *key)
{
    lw_memory memory = lw_memory_standard();
    const lw_material *material = lw_material_by_key(key);
    lw_check check = {0};
    if (material == NULL) {
        fail_msg("%s suits %s, which the table does not have", path, key);
        return;
    }
    lw_check_options options = {.critical_angle_deg = lw_material_critical_angle_deg(material)};
    assert_int_equal(lw_cut_check(&memory, &made->cut, &made->stone, &options, &check), LW_OK);
    for (int i = 0; i < check.finding_count; i++) {
        char words[300];
        (void)lw_finding_write(&made->cut, &made->stone, &check.findings[i], words, sizeof words);
        fail_msg("%s in %s: %s", path, key, words);
    }
    lw_check_destroy(&check);
}

static void suits_all(const char *path)
{
    bench_stone made;
    bench_make_file(path, NULL, &made);
    assert_true(made.cut.suit_count > 0);
    for (int i = 0; i < made.cut.suit_count; i++) {
        suits_one(path, &made, made.cut.suits[i]);
    }
    bench_drop(&made);
}

static void built_ins_suit_what_they_say(void **state)
{
    (void)state;
    assert_true(each_file("cuts", ".cut", suits_all) >= 12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(built_ins_suit_what_they_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
