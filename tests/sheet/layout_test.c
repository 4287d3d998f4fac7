/* Whole sheets, as pango measures them: everything on the page, nothing over anything else, every
 * step there. */
#include "sheet/bench.h"
#include "sheet/page_look.h"
#include "sheet/paint_cairo.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Printers cannot reach the edge: 8 mm are kept free. */
#define BORDER 22.0

static const char *const shipped[] = {
    "cuts/round-brilliant.cut", "cuts/classic-quartz-round.cut", "cuts/single-cut.cut",
    "cuts/step-octagon.cut",    "cuts/oval-brilliant.cut",       "cuts/square-cushion.cut",
    "cuts/pear-brilliant.cut",  "cuts/marquise-brilliant.cut",   "cuts/triangle-brilliant.cut",
};

static lw_painter *new_painter(void)
{
    lw_memory memory = lw_memory_standard();
    lw_painter *painter = NULL;
    assert_int_equal(lw_painter_new(&memory, &painter), LW_OK);
    return painter;
}

static void compose(const lw_sheet_facts *facts, lw_paper paper, const char *name,
                    lw_painter *painter, lw_display_list *list)
{
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = lw_painter_metrics(painter);
    assert_int_equal(lw_sheet_compose(&memory, facts, paper, &metrics, list), LW_OK);
    page_look_within(list, &metrics, BORDER, name);
    page_look_apart(list, &metrics, name);
}

static void on_both_papers(const lw_sheet_facts *facts, const char *name)
{
    lw_memory memory = lw_memory_standard();
    lw_painter *painter = new_painter();
    lw_display_list list;
    lw_list_init(&list, &memory);
    compose(facts, LW_PAPER_A4, name, painter, &list);
    compose(facts, LW_PAPER_LETTER, name, painter, &list);
    lw_list_destroy(&list);
    lw_painter_destroy(painter);
}

static void test_shipped(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof shipped / sizeof shipped[0]; i++) {
        sheet_bench made;
        sheet_bench_file(shipped[i], 8.0, &made);
        lw_sheet_facts facts = sheet_bench_facts(&made);
        on_both_papers(&facts, shipped[i]);
        facts.counts = LW_COUNTS_CLOCKWISE;
        facts.zero_at = 0.3; /* cheaters everywhere */
        facts.pointer_deg = 135.0;
        on_both_papers(&facts, shipped[i]);
        sheet_bench_drop(&made);
    }
}

/* How often a text is a whole run on the sheet. */
static int runs_of(const lw_display_list *list, const char *text)
{
    int count = 0;
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        count += mark->kind == LW_MARK_TEXT && strcmp(list->text + mark->first, text) == 0;
    }
    return count;
}

/* The number of a step is set in letters that nothing else has: find each, on rising pages. */
static void test_steps_are_numbered_through(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_painter *painter = new_painter();
    lw_display_list list;
    lw_list_init(&list, &memory);
    for (size_t i = 0; i < sizeof shipped / sizeof shipped[0]; i++) {
        sheet_bench made;
        sheet_bench_file(shipped[i], 8.0, &made);
        lw_sheet_facts facts = sheet_bench_facts(&made);
        compose(&facts, LW_PAPER_A4, shipped[i], painter, &list);
        int step = 0;
        int page = 0;
        for (size_t k = 0; k < list.mark_count; k++) {
            const lw_mark *mark = &list.marks[k];
            if (mark->kind == LW_MARK_TEXT && mark->type.face == LW_FACE_BOLD &&
                mark->type.size > 18.0 && mark->at.x < 40.0 && mark->at.y > 60.0 - 30.0 &&
                atoi(list.text + mark->first) == step + 1) {
                step++;
                assert_true(mark->page >= page);
                page = mark->page;
            }
        }
        assert_int_equal(step, made.cut.step_count);
        char last[48];
        snprintf(last, sizeof last, "page %zu of %zu", list.page_count, list.page_count);
        assert_int_equal(runs_of(&list, last), 1);
        sheet_bench_drop(&made);
    }
    lw_list_destroy(&list);
    lw_painter_destroy(painter);
}

/* worked: 96 mains a side, 96 on the girdle, 96 breaks on the crown and a table: 385 facets. */
static const char many[] = "title \"Many\"\nwheel 96\nfold 96\ndop crown\npavilion\n"
                           "main at 43 on 96 to point\n"
                           "girdle at 90 on 96 to size\n"
                           "transfer\ncrown\n"
                           "main at 42 on 96 to girdle 2.5 %\n"
                           "upper at 30 on 96 to share 30 % from line own girdle, own main "
                           "towards apex\n"
                           "adapter\n"
                           "table at 0 to table 50 % across upper@96\n";

static void test_hundreds_of_facets(void **state)
{
    (void)state;
    sheet_bench made;
    sheet_bench_make(many, 10.0, &made);
    assert_int_equal(made.stone.facet_count, 4 * 96 + 1);
    lw_sheet_facts facts = sheet_bench_facts(&made);
    on_both_papers(&facts, "385 facets");
    facts.zero_at = 0.37;
    on_both_papers(&facts, "385 facets with cheaters");
    sheet_bench_drop(&made);
}

/* A tier of 600 teeth does not fit on one page; each tooth is still there exactly once. */
static void test_a_tier_beyond_a_page(void **state)
{
    (void)state;
    static const char text[] = "wheel 600\nfold 600\ndop crown\npavilion\n"
                               "main at 43 on 600 to point\ngirdle at 90 on 600 to size\n"
                               "transfer\ncrown\nadapter\ntable at 0 to height 5 %\n";
    sheet_bench made;
    sheet_bench_make(text, 30.0, &made);
    lw_sheet_facts facts = sheet_bench_facts(&made);
    on_both_papers(&facts, "600 teeth");
    facts.zero_at = 0.37;
    on_both_papers(&facts, "600 teeth with cheaters");
    sheet_bench_drop(&made);
}

/* Titles, notes, remarks and names as long as a text allows. */
static void test_long_words(void **state)
{
    (void)state;
    char text[12000] = "title \"";
    for (int i = 0; i < 120; i++) {
        strcat(text, i % 3 ? "Endless " : "titleswithoutanyblank");
    }
    strcat(text, "\"\n");
    for (int i = 0; i < 3; i++) {
        strcat(text, "note \"");
        for (int k = 0; k < 120; k++) {
            strcat(text, "w\u00f6rter und ");
        }
        strcat(text, "\"\n");
    }
    strcat(text, "wheel 96\nfold 8 mirror\ndop crown\npavilion\n"
                 "a-name-as-long-as-the-reader-will-take-i at 43.123456 on 96 to point \"");
    for (int k = 0; k < 150; k++) {
        strcat(text, "remark ");
    }
    strcat(text, "\"\ngirdle at 90 on 3 to size\ntransfer\ncrown\nadapter\n"
                 "table at 0 to height 5 %\n");
    sheet_bench made;
    sheet_bench_make(text, 10.0, &made);
    lw_sheet_facts facts = sheet_bench_facts(&made);
    char longest[4000];
    memset(longest, 'x', sizeof longest - 1);
    longest[sizeof longest - 1] = '\0';
    const char *all[64];
    for (int i = 0; i < 64; i++) {
        all[i] = longest;
    }
    facts.cautions = all;
    facts.caution_count = 64;
    facts.remarks = all;
    facts.remark_count = 64;
    facts.material = longest;
    facts.polish = longest;
    on_both_papers(&facts, "long words");
    sheet_bench_drop(&made);
}

/* A stone without a size is told in shares of its width, and without a weight. */
static void test_without_size(void **state)
{
    (void)state;
    sheet_bench made;
    sheet_bench_file("cuts/classic-quartz-round.cut", 0.0, &made);
    lw_sheet_facts facts = sheet_bench_facts(&made);
    facts.material = NULL;
    facts.check = NULL;
    on_both_papers(&facts, "no size");
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list list;
    lw_list_init(&list, &memory);
    assert_int_equal(lw_sheet_compose(&memory, &facts, LW_PAPER_A4, &metrics, &list), LW_OK);
    for (size_t i = 0; i < list.mark_count; i++) {
        if (list.marks[i].kind == LW_MARK_TEXT) {
            assert_null(strstr(list.text + list.marks[i].first, "\u00a0mm"));
            assert_null(strstr(list.text + list.marks[i].first, "\u00a0ct"));
        }
    }
    lw_list_destroy(&list);
    sheet_bench_drop(&made);
}

/* Whichever request for memory is refused: said so, and nothing is kept. */
static void test_memory_runs_out(void **state)
{
    (void)state;
    sheet_bench made;
    sheet_bench_file("cuts/single-cut.cut", 6.0, &made);
    lw_sheet_facts facts = sheet_bench_facts(&made);
    lw_metrics metrics = sheet_bench_metrics();
    lw_status status = LW_NO_MEMORY;
    long grant = 0;
    for (; status != LW_OK && grant < 4000; grant++) {
        scarce s = {.left = grant};
        lw_memory memory = scarce_memory(&s);
        lw_display_list list;
        lw_list_init(&list, &memory);
        status = lw_sheet_compose(&memory, &facts, LW_PAPER_A4, &metrics, &list);
        assert_true(status == LW_OK || status == LW_NO_MEMORY);
        lw_list_destroy(&list);
        assert_int_equal(s.granted, 0);
    }
    assert_int_equal(status, LW_OK);
    assert_true(grant > 10);
    sheet_bench_drop(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_shipped),
        cmocka_unit_test(test_steps_are_numbered_through),
        cmocka_unit_test(test_hundreds_of_facets),
        cmocka_unit_test(test_a_tier_beyond_a_page),
        cmocka_unit_test(test_long_words),
        cmocka_unit_test(test_without_size),
        cmocka_unit_test(test_memory_runs_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
