/* Texts without measure: a clear error, in bounded time and memory, whatever comes. */
#define _POSIX_C_SOURCE 200809L

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"
#include "cut/write.h"
#include "meter.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

/* What reading any text may take: the largest that is read is 1 MiB. Seconds are those of the
 * processor, with room for a slow one under a sanitizer. */
static const double most_seconds = 20.0;
static const long most_bytes = 128L << 20;

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static lw_status metered_read(const char *text, size_t length, lw_problem *problem)
{
    meter m = {0};
    lw_memory memory = meter_memory(&m);
    lw_cut cut = {0};
    double start = seconds_now();
    lw_status status = lw_cut_read(&memory, text, length, &cut, problem);
    double taken = seconds_now() - start;
    if (status == LW_OK) {
        lw_cut_destroy(&cut);
    }
    assert_int_equal(m.held, 0);
    printf("  %zu bytes: %.3f s, %.1f MiB at most\n", length, taken,
           (double)m.most / (1024.0 * 1024.0));
    assert_true(taken < most_seconds);
    assert_true(m.most < most_bytes);
    return status;
}

static void expect(const char *text, size_t length, lw_status status, const char *message)
{
    lw_problem problem = {0};
    char written[1024];
    assert_int_equal(metered_read(text, length, &problem), status);
    lw_problem_write(&problem, written, sizeof written);
    assert_string_equal(written, message);
}

static void expect_text(const char *text, lw_status status, const char *message)
{
    expect(text, strlen(text), status, message);
}

/* first, and then unit again and again, until length bytes are full. */
static char *repeated(const char *first, const char *unit, size_t length)
{
    size_t head = strlen(first);
    size_t size = strlen(unit);
    char *text = malloc(length + 1);
    assert_non_null(text);
    memcpy(text, first, head);
    for (size_t i = head; i < length; i++) {
        text[i] = unit[(i - head) % size];
    }
    text[length] = '\0';
    return text;
}

static void test_hundred_megabytes(void **state)
{
    (void)state;
    const size_t size = 100000000;
    char *text = repeated("", "main at 43 on 96 to point\n", size);
    expect(text, size, LW_TOO_LARGE,
           "found a text of 100000000 bytes; expected at most 1048576 bytes (a cut is a short "
           "text)");
    free(text);
}

static void test_nul_bytes(void **state)
{
    (void)state;
    static const char message[] =
        "1:1: found a NUL byte; expected text in UTF-8 (this looks like no text file)";
    char *text = calloc(LW_CUT_MOST_BYTES, 1);
    assert_non_null(text);
    expect(text, 1, LW_BAD_INPUT, message);
    expect(text, LW_CUT_MOST_BYTES, LW_BAD_INPUT, message);
    free(text);
}

static void test_absurd_counts(void **state)
{
    (void)state;
    expect_text("wheel 999999999999\n", LW_BAD_INPUT,
                "1:7: found '999999999999'; expected the wheel's teeth, a whole number from 3 to "
                "1440");
    expect_text("wheel 96\nfold 99999999999999999999999999999999\n", LW_BAD_INPUT,
                "2:6: found '99999999999999999999999999999999'; expected none, mirror, or a whole "
                "number from 1 to 1440");
    expect_text("wheel 96\npavilion\nmain at 43 on 96 x99999999999999999999 to point\n",
                LW_BAD_INPUT, "3:18: found 'x99999999999999999999'; expected x1 to x1440");
    expect_text("wheel 96\npavilion\nmain at 43 on 96 to meet 999999999th left main, own main\n",
                LW_TOO_LARGE, "3:26: found '999999999th'; expected an ordinal from 1st to 2000th");
}

/* Brackets, signs and points within one another: a line of them, and a text of them. */
static void check_nesting(const char *first, const char *unit, const char *message)
{
    char *line = repeated(first, unit, 1990);
    char *text = repeated(first, unit, LW_CUT_MOST_BYTES);
    lw_problem problem = {0};
    expect_text(line, LW_TOO_LARGE, message);
    assert_int_equal(metered_read(text, LW_CUT_MOST_BYTES, &problem), LW_TOO_LARGE);
    free(line);
    free(text);
}

/* Worked: the 66th of them is the first too deep; of a sum, the 64th sign. */
static void test_nesting(void **state)
{
    (void)state;
    static const char expression[] =
        "found an expression that is nested too deep; expected at most 64 signs and brackets "
        "within one another (give a part of it a name with let)";
    static const char point[] = "found a point that is nested too deep; expected at most 64 points "
                                "within one another";
    static const char step[] = "wheel 96\npavilion\nmain at 43 on 96 to ";
    char message[512];
    snprintf(message, sizeof message, "1:74: %s", expression);
    check_nesting("let a = ", "(", message);
    check_nesting("let a = ", "-", message);
    snprintf(message, sizeof message, "1:334: %s", expression);
    check_nesting("let a = ", "sin( ", message);
    snprintf(message, sizeof message, "1:139: %s", expression);
    check_nesting("let a = ", "2^", message);
    snprintf(message, sizeof message, "1:136: %s", expression);
    check_nesting("let a = ", "1+", message);
    snprintf(message, sizeof message, "3:86: %s", point);
    check_nesting(step, "(", message);
    snprintf(message, sizeof message, "3:931: %s", point);
    check_nesting(step, "share 1 from  ", message);
}

/* 1 MiB of one kind of line. */
static void check_full(const char *unit, lw_status expected)
{
    static const char head[] = "wheel 96\npavilion\nmain at 43 on 96 to point\n";
    /* A little less: the words of the head come to stand in columns. */
    const size_t size = LW_CUT_MOST_BYTES - 64;
    lw_problem problem = {0};
    char *text = repeated(head, unit, size);
    size_t length = size;
    while (text[length - 1] != '\n') {
        length--;
    }
    assert_int_equal(metered_read(text, length, &problem), expected);
    free(text);
}

static void test_full_texts(void **state)
{
    (void)state;
    check_full("\n", LW_OK);
    check_full("#\n", LW_OK);
    check_full("\n#\n", LW_OK);
    check_full("note \"x\"\n", LW_TOO_LARGE); /* it grows when written: the words get columns */
    check_full("note     \"x\"\n", LW_OK);
    check_full("let a = 1\n", LW_BAD_INPUT);
    check_full("redop\n", LW_TOO_LARGE);
    check_full("a at 1 on 1 to apex\n", LW_TOO_LARGE);
}

/* As much work for the reader as the limits allow: 499 steps of nearly 2,000 bytes, each with some
 * 190 facets to be looked up and a misspelt one at the very end. */
static void test_most_work(void **state)
{
    (void)state;
    char *text = malloc(LW_CUT_MOST_BYTES + 4096);
    size_t length = 0;
    assert_non_null(text);
    length += (size_t)sprintf(text, "wheel 1440\npavilion\n");
    for (int i = 0; i < 499; i++) {
        length += (size_t)sprintf(text + length, "s%d at 43 on %d only to ", i, i);
        for (int j = 0; j < 12; j++) {
            length += (size_t)sprintf(text + length, "share 1 from meet s%d", 498 - i);
            for (int k = 0; k < 15; k++) {
                length += (size_t)sprintf(text + length, ",s%d@%d", (i * 7 + k) % 499, k);
            }
            length += (size_t)sprintf(text + length, " towards ");
        }
        length += (size_t)sprintf(text + length, i < 498 ? "apex\n" : "meet a, b\n");
    }
    lw_problem problem = {0};
    assert_true(length < LW_CUT_MOST_BYTES);
    assert_int_equal(metered_read(text, length, &problem), LW_BAD_INPUT);
    assert_string_equal(problem.found, "a facet called 'a'");
    free(text);
}

static void test_decimal_commas(void **state)
{
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL) {
        skip();
    }
    test_absurd_counts(state);
    test_nesting(state);
    test_most_work(state);
    setlocale(LC_ALL, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_hundred_megabytes), cmocka_unit_test(test_nul_bytes),
        cmocka_unit_test(test_absurd_counts),     cmocka_unit_test(test_nesting),
        cmocka_unit_test(test_full_texts),        cmocka_unit_test(test_most_work),
        cmocka_unit_test(test_decimal_commas),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
