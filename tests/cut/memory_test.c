/* The n-th allocation made to fail, for every n: a clean LW_NO_MEMORY, nothing lost, nothing
 * written to the cut. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"
#include "cut/text_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct counter {
    long given;      /* allocations so far, growths included */
    long refuse_at;  /* refuse this one; 0: none */
    long held_bytes; /* not freed yet */
} counter;

static void *counted_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    counter *c = context;
    if (new_size == 0) {
        free(block);
        c->held_bytes -= (long)old_size;
        return NULL;
    }
    if (++c->given == c->refuse_at) {
        return NULL;
    }
    void *fresh = malloc(new_size); /* moved each time, so that a pointer that is kept shows */
    assert_non_null(fresh);
    if (block != NULL) {
        memcpy(fresh, block, old_size < new_size ? old_size : new_size);
        free(block);
    }
    c->held_bytes += (long)new_size - (long)old_size;
    return fresh;
}

static lw_status read_with(const char *text, size_t length, counter *c, lw_cut *cut,
                           lw_problem *problem)
{
    lw_memory memory = {counted_resize, c};
    return lw_cut_read(&memory, text, length, cut, problem);
}

static void check_file(const char *path)
{
    size_t length = 0;
    counter whole = {0};
    lw_cut cut = {0}, before;
    lw_problem problem = {0};
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    lw_status expected = read_with(text, length, &whole, &cut, &problem);
    if (expected == LW_OK) {
        lw_cut_destroy(&cut);
    }
    assert_int_equal(whole.held_bytes, 0);
    for (long n = 1; n <= whole.given; n++) {
        counter c = {.refuse_at = n};
        memset(&cut, 0xA5, sizeof cut);
        memcpy(&before, &cut, sizeof cut);
        assert_int_equal(read_with(text, length, &c, &cut, &problem), LW_NO_MEMORY);
        assert_int_equal(problem.status, LW_NO_MEMORY);
        assert_int_equal(c.held_bytes, 0);
        assert_memory_equal(&cut, &before, sizeof cut);
    }
    printf("%s: %ld allocations\n", path, whole.given);
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
