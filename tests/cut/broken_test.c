/* The corpus of broken cuts: tests/cut/broken/NAME.cut must give exactly the message in
 * NAME.expected, and no cut. Files whose name begins with "solve-" are good texts of cuts that have
 * no stone; they belong to the solver's test, here they must be read. With an argument "write" the
 * program writes the messages as they are now, to be looked through before they are kept. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"
#include "cut/text_file.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int broken_count;
static bool rewrite;

static void path_of_message(const char *path, char out[512])
{
    snprintf(out, 512, "%.*s.expected", (int)(strlen(path) - strlen(".cut")), path);
}

static void keep_message(const char *path, const char *message)
{
    char name[512];
    path_of_message(path, name);
    FILE *file = fopen(name, "wb");
    if (file != NULL) {
        fprintf(file, "%s\n", message);
        fclose(file);
    }
}

static void compare_message(const char *path, const char *message)
{
    char name[512], line[2100];
    size_t length = 0;
    path_of_message(path, name);
    char *expected = text_of_file(name, &length);
    if (expected == NULL) {
        fail_msg("%s has no message to compare with", path);
    }
    snprintf(line, sizeof line, "%s\n", message);
    if (strcmp(line, expected) != 0) {
        fail_msg("%s\n  gives:    %s  expected: %s", path, line, expected);
    }
    free(expected);
}

static lw_status read_untouched(const char *path, lw_problem *problem)
{
    lw_memory memory = lw_memory_standard();
    lw_cut cut, before;
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    /* The reader gets no NUL behind the text. */
    char *exact = malloc(length > 0 ? length : 1);
    memcpy(exact, text, length);
    memset(&cut, 0xA5, sizeof cut);
    memcpy(&before, &cut, sizeof cut);
    lw_status status = lw_cut_read(&memory, exact, length, &cut, problem);
    if (status == LW_OK) {
        lw_cut_destroy(&cut);
    } else {
        assert_memory_equal(&cut, &before, sizeof cut);
    }
    free(exact);
    free(text);
    return status;
}

static void check_file(const char *path)
{
    lw_problem problem = {0};
    char message[2048];
    lw_status status = read_untouched(path, &problem);
    if (strstr(path, "/solve-") != NULL) {
        assert_int_equal(status, LW_OK);
        return;
    }
    if (status == LW_OK) {
        fail_msg("%s is read without a word", path);
    }
    assert_int_equal(problem.status, status);
    assert_true(problem.line > 0);
    broken_count++;
    lw_problem_write(&problem, message, sizeof message);
    if (rewrite) {
        keep_message(path, message);
    } else {
        compare_message(path, message);
    }
}

static void test_corpus(void **state)
{
    (void)state;
    broken_count = 0;
    each_file("tests/cut/broken", ".cut", check_file);
    assert_true(broken_count >= 60);
}

/* The same words where the decimal sign is a comma. */
static void test_corpus_with_decimal_commas(void **state)
{
    (void)state;
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL) {
        skip();
    }
    assert_string_equal(localeconv()->decimal_point, ",");
    broken_count = 0;
    each_file("tests/cut/broken", ".cut", check_file);
    assert_true(broken_count >= 60);
    setlocale(LC_ALL, "C");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_corpus),
        cmocka_unit_test(test_corpus_with_decimal_commas),
    };
    rewrite = argc > 1 && strcmp(argv[1], "write") == 0;
    return cmocka_run_group_tests(tests, NULL, NULL);
}
