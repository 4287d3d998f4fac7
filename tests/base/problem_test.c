/* Problems and statuses: how they are worded and cut to size. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/problem.h"

#include <string.h>

static void assert_worded(int line, int column, const char *found, const char *expected,
                          const char *hint, const char *text)
{
    lw_problem problem;
    char written[1024];
    assert_int_equal(lw_problem_set(&problem, LW_BAD_INPUT, line, column, found, expected, hint),
                     LW_BAD_INPUT);
    assert_int_equal(lw_problem_write(&problem, written, sizeof written), strlen(text));
    assert_string_equal(written, text);
}

static void parts_come_together(void **state)
{
    (void)state;
    assert_worded(3, 7, "'tabel'", "a step", "did you mean 'table'?",
                  "3:7: found 'tabel'; expected a step (did you mean 'table'?)");
    assert_worded(3, 0, "x", "y", NULL, "3: found x; expected y");
    assert_worded(0, 0, "x", NULL, NULL, "found x");
    assert_worded(0, 5, "x", "", "", "found x"); /* a column needs a line */
    assert_worded(2, 1, NULL, "y", NULL, "2:1: the input is not what is expected; expected y");
}

static void control_characters_do_not_pass(void **state)
{
    (void)state;
    assert_worded(1, 1, "a\x1b[2Jb\n\x7f", "c\td", NULL, "1:1: found a?[2Jb??; expected c?d");
    assert_worded(1, 1, "\xc3\xa9", "z", NULL, "1:1: found \xc3\xa9; expected z");
}

/* Cut at 239 bytes, but never inside a character of two to four bytes. */
static void long_text_is_cut_between_characters(void **state)
{
    (void)state;
    static const char *const characters[] = {"a", "\xc3\xa9", "\xe2\x82\xac", "\xf0\x9f\x92\x8e"};
    for (size_t kind = 0; kind < 4; kind++) {
        for (size_t lead = 0; lead < 4; lead++) {
            char text[1200] = "";
            size_t width = kind + 1, count = 250;
            memset(text, 'x', lead);
            for (size_t i = 0; i < count; i++) {
                memcpy(text + lead + i * width, characters[kind], width);
            }
            lw_problem problem;
            lw_problem_set(&problem, LW_BAD_INPUT, 1, 1, text, "", "");
            size_t fits = lead + (239 - lead) / width * width;
            assert_int_equal(strlen(problem.found), fits);
            assert_memory_equal(problem.found, text, fits);
        }
    }
}

static void writing_stops_at_the_capacity(void **state)
{
    (void)state;
    lw_problem problem;
    char text[16];
    lw_problem_set(&problem, LW_NOT_FOUND, 12, 34, "something", "else", "hint");
    memset(text, '#', sizeof text);
    size_t length = lw_problem_write(&problem, text, 8);
    assert_int_equal(length, strlen("12:34: found something; expected else (hint)"));
    assert_string_equal(text, "12:34: ");
    assert_int_equal(text[8], '#');
}

static void no_problem_is_fine(void **state)
{
    (void)state;
    assert_int_equal(lw_problem_set(NULL, LW_AMBIGUOUS, 1, 1, "a", "b", "c"), LW_AMBIGUOUS);
}

static void every_status_has_its_own_words(void **state)
{
    (void)state;
    for (int i = 0; i < LW_STATUS_COUNT; i++) {
        const char *text = lw_status_text((lw_status)i);
        assert_true(strlen(text) > 0);
        for (int k = 0; k < i; k++) {
            assert_string_not_equal(text, lw_status_text((lw_status)k));
        }
    }
    assert_string_equal(lw_status_text(LW_STATUS_COUNT), "unknown status");
    assert_string_equal(lw_status_text((lw_status)-1), "unknown status");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_come_together),
        cmocka_unit_test(control_characters_do_not_pass),
        cmocka_unit_test(long_text_is_cut_between_characters),
        cmocka_unit_test(writing_stops_at_the_capacity),
        cmocka_unit_test(no_problem_is_fine),
        cmocka_unit_test(every_status_has_its_own_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
