/* Once it is set up, the solver allocates nothing, however the steps hang on one another and
 * however often the size is put right. */
#include "cut/read.h"
#include "cut/solver.h"
#include "cut/text_file.h"
#include "meter.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void solves_in_place(const char *text, size_t length)
{
    meter m = {0};
    lw_memory standard = lw_memory_standard();
    lw_memory counted = meter_memory(&m);
    lw_cut cut;
    lw_values values;
    lw_solver solver;
    lw_problem problem = {0};
    assert_int_equal(lw_cut_read(&standard, text, length, &cut, NULL), LW_OK);
    assert_int_equal(lw_values_make(&cut, NULL, 0, &values, NULL), LW_OK);
    assert_int_equal(lw_solver_init(&solver, &counted, &cut, &values, &problem), LW_OK);
    long after_set_up = m.asked;
    assert_true(after_set_up > 0);
    for (int i = 0; i < 3; i++) {
        double raised = 0.0;
        lw_measures measures;
        assert_int_equal(lw_solver_expand(&solver), LW_GOT);
        if (lw_solver_run(&solver, 5.0 + i, &raised, &measures) != LW_GOT) {
            fail_msg("%d:%d: %s", problem.line, problem.column, problem.found);
        }
        assert_true(measures.mass.volume > 0.0);
    }
    assert_int_equal(m.asked, after_set_up);
    lw_solver_destroy(&solver);
    lw_cut_destroy(&cut);
}

static void solves_file(const char *path)
{
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    solves_in_place(text, length);
    free(text);
}

static void built_ins_solve_in_place(void **state)
{
    (void)state;
    assert_true(each_file("cuts", ".cut", solves_file) >= 12);
}

/* Steps that point to one another; a length looked for by trying; a free tooth; a rule in mm. */
static void every_way_to_solve_is_in_place(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "wheel 96\nfold 4 mirror\npavilion\nmain at 45 on 96 to point 50 %\n"
        "girdle at 90 on 96 to size\n"
        "upper at 60 on 96 to share 50 % from line own main, own girdle towards line own main, own "
        "lower\nlower at 30 on 96 to share 50 % from line own main, own upper towards apex\n"
        "crown\nlid at 45 on 96 to girdle 0.3 mm\n",
        "wheel 96\nfold 4 mirror\npavilion\ngirdle at 90 on 96 to size\n"
        "main at 45 on 96 to level on own girdle\n"
        "again at free on free near 20 to apex and meet main@96, main@24, girdle@24 and meet "
        "main@24, main@48, girdle@24\n"
        "corner at 90 on 12 to width 20 %\ncrown\nlid at 45 on 96 to girdle 5 %\n"
        "table at 0 to culet 40 %\n",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        solves_in_place(texts[i], strlen(texts[i]));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(built_ins_solve_in_place),
        cmocka_unit_test(every_way_to_solve_is_in_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
