/* What is written reads back as the same cut, and is written the same again. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/random_cut.h"
#include "cut/read.h"
#include "cut/same_cut.h"
#include "cut/text_file.h"
#include "cut/write.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *written(const lw_cut *cut, size_t *length)
{
    *length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(*length + 1);
    assert_non_null(text);
    assert_int_equal(lw_cut_write(cut, text, *length + 1), *length);
    assert_int_equal(strlen(text), *length);
    return text;
}

/* False when the text is no cut. */
static bool check_round_trip(const char *text, size_t length, const char *what)
{
    lw_memory memory = lw_memory_standard();
    lw_cut first = {0}, second = {0};
    lw_problem problem = {0};
    char message[1024] = "";
    if (lw_cut_read(&memory, text, length, &first, &problem) != LW_OK) {
        return false;
    }
    size_t size = 0, again_size = 0;
    char *once = written(&first, &size);
    if (lw_cut_read(&memory, once, size, &second, &problem) != LW_OK) {
        lw_problem_write(&problem, message, sizeof message);
        fail_msg("%s: what was written is not read: %s\n%s", what, message, once);
    }
    const char *difference = cut_difference(&first, &second);
    if (difference != NULL) {
        fail_msg("%s: %s came back otherwise:\n%s\nwas:\n%s", what, difference, once, text);
    }
    char *twice = written(&second, &again_size);
    assert_string_equal(once, twice);
    free(once);
    free(twice);
    lw_cut_destroy(&first);
    lw_cut_destroy(&second);
    return true;
}

static void check_file(const char *path)
{
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    if (!check_round_trip(text, length, path)) {
        fail_msg("%s is not read", path);
    }
    free(text);
}

static void test_cuts(void **state)
{
    (void)state;
    assert_true(each_file("cuts", ".cut", check_file) > 0);
    check_file("tests/cut/every-rule.cut");
}

/* every-rule.cut is written in the canonical layout. */
static void test_canonical(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0};
    size_t length = 0, size = 0;
    char *text = text_of_file("tests/cut/every-rule.cut", &length);
    assert_non_null(text);
    assert_int_equal(lw_cut_read(&memory, text, length, &cut, NULL), LW_OK);
    char *again = written(&cut, &size);
    assert_string_equal(again, text);
    free(again);
    free(text);
    lw_cut_destroy(&cut);
}

/* The steps that the page's examples speak of. */
static const char example_head[] =
    "wheel 96\nfold 8 mirror\npavilion\nmain at 43 on 96 to point\ngirdle at 90 on 3 to size\n"
    "crown\nmain at 42 on 96 to girdle 2 %\nupper at 47 on 3 to apex\nstar at 27 on 6 to apex\n";

/* Every `at …` of the page is the rest of a step. */
static void test_page_examples(void **state)
{
    (void)state;
    size_t length = 0;
    char *page = text_of_file("docs/cut-language.md", &length);
    int count = 0;
    assert_non_null(page);
    for (const char *at = strstr(page, "`at "); at != NULL; at = strstr(at + 1, "`at ")) {
        const char *end = strchr(at + 1, '`');
        char text[2048];
        assert_non_null(end);
        const char *to = strstr(at, " to ");
        if (to == NULL || to > end) {
            continue; /* a word or two in the running text */
        }
        int size = snprintf(text, sizeof text, "%ssample %.*s\n", example_head, (int)(end - at - 1),
                            at + 1);
        if (!check_round_trip(text, (size_t)size, "an example")) {
            fail_msg("docs/cut-language.md: this is not read: %.*s", (int)(end - at - 1), at + 1);
        }
        count++;
    }
    assert_true(count >= 25);
    free(page);
}

/* The whole cut at the page's top, in the layout that the page promises. */
static void test_page_cut(void **state)
{
    (void)state;
    size_t length = 0, size = 0;
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0};
    char *page = text_of_file("docs/cut-language.md", &length);
    assert_non_null(page);
    char *start = strstr(page, "```\n") + 4;
    char *end = strstr(start, "```\n");
    assert_int_equal(lw_cut_read(&memory, start, (size_t)(end - start), &cut, NULL), LW_OK);
    char *again = written(&cut, &size);
    *end = '\0';
    assert_string_equal(again, start);
    free(again);
    free(page);
    lw_cut_destroy(&cut);
}

static void check_random(int count)
{
    enum { CAPACITY = 1 << 15 };
    char *text = malloc(CAPACITY);
    int good = 0;
    assert_non_null(text);
    for (int i = 0; i < count; i++) {
        char what[32];
        snprintf(what, sizeof what, "random cut %d", i);
        size_t length = random_cut((uint64_t)i, text, CAPACITY);
        good += check_round_trip(text, length, what);
    }
    free(text);
    printf("%d of %d random cuts are cuts\n", good, count);
    assert_true(good > count / 2);
}

static void test_random(void **state)
{
    (void)state;
    check_random(20000);
}

static void test_random_with_decimal_commas(void **state)
{
    (void)state;
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL) {
        skip();
    }
    check_random(500);
    setlocale(LC_ALL, "C");
}

/* Like snprintf: the length is told, and what fits is there with its end. */
static void test_small_buffers(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0};
    const char *text = "wheel 96\npavilion\nmain at 43 on 96 to point\n";
    size_t size = 0;
    assert_int_equal(lw_cut_read(&memory, text, strlen(text), &cut, NULL), LW_OK);
    char *whole = written(&cut, &size);
    char *part = malloc(size + 8);
    for (size_t capacity = 0; capacity <= size + 1; capacity++) {
        memset(part, '~', size + 8);
        assert_int_equal(lw_cut_write(&cut, part, capacity), size);
        assert_int_equal(part[capacity], '~');
        if (capacity > 0) {
            assert_int_equal(strlen(part), capacity - 1);
            assert_memory_equal(part, whole, capacity - 1);
        }
    }
    free(part);
    free(whole);
    lw_cut_destroy(&cut);
}

/* Expressions that were put together by a program and not read get the brackets they need. */
static void test_brackets(void **state)
{
    (void)state;
    const lw_expr one = {.kind = LW_EXPR_NUMBER, .value = 1.0};
    const lw_expr minus = {.kind = LW_EXPR_NUMBER, .value = -2.0, .unit = LW_UNIT_DEG};
    const lw_expr sum = {.kind = LW_EXPR_ADD, .left = &one, .right = &minus};
    const lw_expr product = {.kind = LW_EXPR_MULTIPLY, .left = &sum, .right = &sum};
    const lw_expr power = {.kind = LW_EXPR_POWER, .left = &minus, .right = &minus};
    const lw_expr difference = {.kind = LW_EXPR_SUBTRACT, .left = &one, .right = &sum};
    char text[64];
    lw_expr_write(&product, text, sizeof text);
    assert_string_equal(text, "(1 + -2 deg) * (1 + -2 deg)");
    lw_expr_write(&power, text, sizeof text);
    assert_string_equal(text, "(-2 deg)^-2 deg");
    lw_expr_write(&difference, text, sizeof text);
    assert_string_equal(text, "1 - (1 + -2 deg)");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cuts),          cmocka_unit_test(test_canonical),
        cmocka_unit_test(test_page_examples), cmocka_unit_test(test_page_cut),
        cmocka_unit_test(test_random),        cmocka_unit_test(test_random_with_decimal_commas),
        cmocka_unit_test(test_small_buffers), cmocka_unit_test(test_brackets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
