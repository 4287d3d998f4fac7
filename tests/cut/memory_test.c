/* The n-th allocation made to fail, for every n: a clean LW_NO_MEMORY, nothing lost, nothing
 * written to the cut. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"
#include "cut/text_file.h"
#include "meter.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static lw_status read_with(const char *text, size_t length, meter *c, lw_cut *cut,
                           lw_problem *problem)
{
    lw_memory memory = meter_memory(c);
    return lw_cut_read(&memory, text, length, cut, problem);
}

static void check_file(const char *path)
{
    size_t length = 0;
    meter whole = {0};
    lw_cut cut = {0}, before;
    lw_problem problem = {0};
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    lw_status expected = read_with(text, length, &whole, &cut, &problem);
    if (expected == LW_OK) {
        lw_cut_destroy(&cut);
    }
    assert_int_equal(whole.held, 0);
    for (long n = 1; n <= whole.asked; n++) {
        meter c = {.refuse_at = n};
        memset(&cut, 0xA5, sizeof cut);
        memcpy(&before, &cut, sizeof cut);
        assert_int_equal(read_with(text, length, &c, &cut, &problem), LW_NO_MEMORY);
        assert_int_equal(problem.status, LW_NO_MEMORY);
        assert_int_equal(c.held, 0);
        assert_memory_equal(&cut, &before, sizeof cut);
    }
    printf("%s: %ld allocations\n", path, whole.asked);
    free(text);
}

static void test_good_cuts(void **state)
{
    (void)state;
    check_file("tests/cut/every-rule.cut");
    check_file("cuts/round-brilliant.cut");
}

/* An error is told whatever memory is left, and frees what was taken. */
static void test_broken_cuts(void **state)
{
    (void)state;
    assert_true(each_file("tests/cut/broken", ".cut", check_file) >= 60);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_good_cuts),
        cmocka_unit_test(test_broken_cuts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
