/* Difficulty: the formula in difficulty.h worked by hand on cuts of which everything is known. */
#include "craft/difficulty.h"
#include "craft_cut.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void a_single_cut(void **state)
{
    (void)state;
    craft_cut cut;
    craft_cut_of_name("single-cut", &cut);
    lw_difficulty d = lw_difficulty_of(&cut.cut, &cut.stone);
    /* worked: 8 + 8 + 1 and 16 on the girdle; 42, 90, 33, 0; the table names the crown mains */
    assert_int_equal(d.facets, 33);
    assert_int_equal(d.settings, 4);
    assert_int_equal(d.chain, 2);
    assert_true(d.closest_deg == 0.0);
    assert_true(fabs(d.value - (33 / 20.0 + 4 / 4.0 + 0.5)) < 1e-12);
    assert_string_equal(lw_difficulty_text(d.value), "a first stone");
    craft_cut_drop(&cut);
}

static void a_round_brilliant(void **state)
{
    (void)state;
    craft_cut cut;
    craft_cut_of_name("round-brilliant", &cut);
    lw_difficulty d = lw_difficulty_of(&cut.cut, &cut.stone);
    /* worked: 57 and 16; mains, girdle, lower halves, mains, upper halves, stars, table; main ->
     * upper half -> star -> table */
    assert_int_equal(d.facets, 73);
    assert_int_equal(d.settings, 7);
    assert_int_equal(d.chain, 4);
    /* worked: tan H = tan P (1 - (1 - L) c) / (L k), P 40.75, L 0.77: H 41.94 */
    assert_true(fabs(d.closest_deg - 1.19) < 0.005);
    double expected = 73 / 20.0 + 7 / 4.0 + 1.5 + 2.0 / d.closest_deg;
    assert_true(fabs(d.value - expected) < 1e-12);
    craft_cut_drop(&cut);
}

/* A temporary step is work too; crown and pavilion of one name do not lengthen each other's run. */
static void temporary_steps_count(void **state)
{
    (void)state;
    const char *plain = "wheel 96\nfold 8 mirror\ndop crown\npavilion\nmain at 42 on 96 to point\n"
                        "girdle at 90 on 96 to size\ntransfer\ncrown\n"
                        "main at 35 on 96 to girdle 3 %\nadapter\n"
                        "table at 0 to table 55 % across main@96\n";
    const char *more = "wheel 96\nfold 8 mirror\ndop crown\npavilion\n"
                       "temporary rough at 38 on 6 to temporary point 60 %\n"
                       "main at 42 on 96 to point\n"
                       "girdle at 90 on 96 to size\ntransfer\ncrown\n"
                       "main at 35 on 96 to girdle 3 %\nadapter\n"
                       "table at 0 to table 55 % across main@96\n";
    craft_cut one, two;
    craft_cut_of_text(plain, &one);
    craft_cut_of_text(more, &two);
    lw_difficulty d = lw_difficulty_of(&one.cut, &one.stone);
    lw_difficulty e = lw_difficulty_of(&two.cut, &two.stone);
    assert_int_equal(d.facets, 25);     /* worked: 8 + 8 + 8 + 1 */
    assert_int_equal(e.facets, 25 + 8); /* and eight to be cut away again */
    assert_int_equal(d.chain, 2);       /* crown main, table */
    assert_true(fabs(e.closest_deg - 4.0) < 1e-9);
    assert_true(e.value > d.value);
    craft_cut_drop(&one);
    craft_cut_drop(&two);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_single_cut),
        cmocka_unit_test(a_round_brilliant),
        cmocka_unit_test(temporary_steps_count),
    };
    return cmocka_run_group_tests_name("craft/difficulty", tests, NULL, NULL);
}
