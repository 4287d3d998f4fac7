/* Running text: where lines break, and numbers in words. */
#include "sheet/bench.h"
#include "sheet/phrase.h"
#include "sheet/text_flow.h"

#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

typedef struct page {
    lw_display_list list;
    lw_metrics metrics;
    lw_flow flow;
} page;

static page *open_page(double width)
{
    static page p;
    lw_memory memory = lw_memory_standard();
    lw_list_init(&p.list, &memory);
    lw_list_page(&p.list, 400.0, 400.0);
    p.metrics = sheet_bench_metrics();
    lw_flow_begin(&p.flow, &p.list, &p.metrics, 10.0, 20.0, width);
    return &p;
}

static const char *line(const page *p, size_t i)
{
    assert_true(i < p->list.mark_count);
    return p->list.text + p->list.marks[i].first;
}

static const lw_type ten = {.size = 10.0};
static const lw_type twenty = {.size = 20.0};

/* worked: characters are 6 wide at size 10; "until the" is 54, "until the lines" 90. */
static void test_breaks_at_blanks(void **state)
{
    (void)state;
    page *p = open_page(60.0);
    lw_flow_add(&p->flow, &ten, "until the lines");
    double below = lw_flow_end(&p->flow);
    assert_int_equal(p->list.mark_count, 2);
    assert_string_equal(line(p, 0), "until the");
    assert_string_equal(line(p, 1), "lines");
    assert_true(fabs(below - (20.0 + 2.0 * (10.0 + 1.5))) < 1e-9);
    lw_list_destroy(&p->list);
}

/* Letters of different sizes stand on one baseline: that of the largest (0.8 x 20 below the top).
 */
static void test_one_baseline(void **state)
{
    (void)state;
    page *p = open_page(300.0);
    lw_flow_add(&p->flow, &ten, "set");
    lw_flow_add(&p->flow, &twenty, "43");
    lw_flow_add(&p->flow, &ten, ", cut");
    lw_flow_end(&p->flow);
    assert_int_equal(p->list.mark_count, 3);
    for (size_t i = 0; i < 3; i++) {
        assert_true(fabs(p->list.marks[i].at.y - 36.0) < 1e-9);
    }
    /* Punctuation is glued on: "43" begins at 10 + 18 + 6, is 24 wide, and the comma follows. */
    assert_true(fabs(p->list.marks[2].at.x - 58.0) < 1e-9);
    lw_list_destroy(&p->list);
}

/* A word wider than the measure is broken, between characters of UTF-8 and not within them. */
static void test_long_word(void **state)
{
    (void)state;
    page *p = open_page(24.0);
    lw_flow_add(&p->flow, &ten, "a\u00e9\u00e9bbbbccc");
    lw_flow_end(&p->flow);
    assert_int_equal(p->list.mark_count, 3);
    assert_string_equal(line(p, 0), "a\u00e9\u00e9b");
    assert_string_equal(line(p, 1), "bbbc");
    assert_string_equal(line(p, 2), "cc");
    lw_list_destroy(&p->list);
}

/* Below a picture the lines may be wider. */
static void test_widens(void **state)
{
    (void)state;
    page *p = open_page(24.0);
    lw_flow_widen(&p->flow, 30.0, 100.0);
    lw_flow_add(&p->flow, &ten, "one two three four");
    lw_flow_end(&p->flow);
    assert_int_equal(p->list.mark_count, 2);
    assert_string_equal(line(p, 0), "one");
    assert_string_equal(line(p, 1), "two three four");
    lw_list_destroy(&p->list);
}

/* More words and bytes than a line can hold do not lose any. */
static void test_nothing_is_lost(void **state)
{
    (void)state;
    page *p = open_page(1e6);
    for (int i = 0; i < 1000; i++) {
        lw_flow_add(&p->flow, &ten, i % 2 ? "ab" : "abcdefghijklmnopqrstuvwxyz");
    }
    lw_flow_end(&p->flow);
    size_t letters = 0;
    for (size_t i = 0; i < p->list.mark_count; i++) {
        for (const char *c = line(p, i); *c != '\0'; c++) {
            letters += *c != ' ';
        }
    }
    assert_int_equal(letters, 500 * (26 + 2));
    lw_list_destroy(&p->list);
}

static void says(double value, int decimals, const char *expected)
{
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_number(&phrase, value, decimals);
    assert_string_equal(phrase.text, expected);
}

/* A point stays a point where the locale writes a comma. */
static void test_numbers(void **state)
{
    (void)state;
    (void)setlocale(LC_ALL, "de_DE.UTF-8");
    says(7.2, 2, "7.20");
    says(0.005, 2, "0.01");
    says(-0.001, 2, "0.00");
    says(-1.256, 1, "\u22121.3");
    says(1234567.0, 0, "1234567");
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_phrase_degrees(&phrase, 43.0);
    lw_phrase_add(&phrase, " ");
    lw_phrase_degrees(&phrase, 42.24);
    lw_phrase_add(&phrase, " ");
    lw_phrase_degrees(&phrase, 41.999);
    assert_string_equal(phrase.text, "43.0\u00b0 42.24\u00b0 42.0\u00b0");
    (void)setlocale(LC_ALL, "C");
}

/* What does not fit is left off at a whole character. */
static void test_phrase_is_bounded(void **state)
{
    (void)state;
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    for (int i = 0; i < 2000; i++) {
        lw_phrase_add(&phrase, "\u20ac");
    }
    assert_true(phrase.full);
    assert_int_equal(phrase.length, (LW_PHRASE_BYTES - 1) / 3 * 3);
    assert_int_equal(strlen(phrase.text), phrase.length);
    lw_phrase_clear(&phrase);
    lw_phrase_add_start(&phrase, "\u20ac\u20ac\u20ac", 4);
    assert_string_equal(phrase.text, "\u20ac\u2026");
    lw_phrase_clear(&phrase);
    lw_phrase_add_name(&phrase, "Quartz", 100);
    lw_phrase_add(&phrase, " ");
    lw_phrase_add_name(&phrase, "YAG", 100);
    assert_string_equal(phrase.text, "quartz YAG");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_breaks_at_blanks),  cmocka_unit_test(test_one_baseline),
        cmocka_unit_test(test_long_word),         cmocka_unit_test(test_widens),
        cmocka_unit_test(test_nothing_is_lost),   cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_phrase_is_bounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
