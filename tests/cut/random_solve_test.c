/* Texts made at random, solved and checked: nothing is lost, nothing hangs, and a stone that comes
 * out is a sound solid. Run under the sanitizers by the asan preset. */
#include "cut/check.h"
#include "cut/random_cut.h"
#include "cut/read.h"
#include "cut/solve.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ROUNDS = 3000 };

typedef struct tally {
    int unread, unsolved, stones, passing;
} tally;

static void try_text(const char *text, size_t length, const lw_solve_options *options, tally *t)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut = {0};
    lw_stone stone = {0};
    lw_check check = {0};
    if (lw_cut_read(&memory, text, length, &cut, &problem) != LW_OK) {
        t->unread++;
        return;
    }
    lw_status status = lw_cut_solve(&memory, &cut, options, &stone, &problem);
    if (status == LW_OK) {
        const char *fault = lw_polyhedron_fault(&stone.solid);
        if (fault != NULL) {
            fail_msg("%s\n%s", fault, text);
        }
        assert_int_equal(lw_cut_check(&memory, &cut, &stone, NULL, &check), LW_OK);
        t->stones++;
        t->passing += check.closed && check.every_facet && check.every_meet && check.cuttable;
    } else {
        assert_int_equal(problem.status, status);
        assert_true(problem.line > 0);
        t->unsolved++;
    }
    lw_check_destroy(&check);
    lw_stone_destroy(&stone);
    lw_cut_destroy(&cut);
}

static void random_texts_solve_or_say_why(void **state)
{
    (void)state;
    static const lw_solve_options sized = {.size_kind = LW_SIZE_WIDTH_MM, .size = 9.0};
    tally t = {0};
    for (int i = 0; i < ROUNDS; i++) {
        char text[1 << 14];
        size_t length = random_cut((uint64_t)i, text, sizeof text);
        try_text(text, length, i % 2 == 0 ? &sized : NULL, &t);
    }
    print_message("%d unread, %d without a stone, %d stones, %d of them pass\n", t.unread,
                  t.unsolved, t.stones, t.passing);
    /* So that it is not all refused at the door. */
    assert_true(t.unsolved > ROUNDS / 10 && t.stones > ROUNDS / 50);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_texts_solve_or_say_why),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
