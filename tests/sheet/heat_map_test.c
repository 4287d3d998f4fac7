/* Heat maps: what is drawn where, and the job that carries one. */
#include "bench.h"

#include "sheet/draw_job.h"
#include "sheet/heat_map.h"
#include "sheet/strength.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS = 4, ROWS = 3 };

static const lw_spot line_spots[3] = {{10.5, 2.0}, {11.0, 3.0}, {11.0, 4.0}};
static const lw_heat_line lines[2] = {{"far", false, true, line_spots, 3},
                                      {NULL, true, false, line_spots, 2}};
static const lw_heat_mark marks[2] = {{"here", 11.0, 2.0, false}, {"there", 13.0, 4.0, true}};
static const char *const notes[2] = {"A first sentence.", "And a second."};

static lw_heat_map map_of(const double *values)
{
    return (lw_heat_map){.heading = "What goes with what",
                         .x = {"across, degrees", 10.0, 13.0, COLUMNS},
                         .y = {"up, degrees", 2.0, 4.0, ROWS},
                         .values = values,
                         .value_title = "much, %",
                         .lines = lines,
                         .line_count = 2,
                         .marks = marks,
                         .mark_count = 2,
                         .notes = notes,
                         .note_count = 2};
}

static void fill(double values[COLUMNS * ROWS])
{
    for (int i = 0; i < COLUMNS * ROWS; i++) {
        values[i] = i;
    }
}

static void compose(const lw_heat_map *map, lw_display_list *list)
{
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_list_init(list, &memory);
    assert_int_equal(lw_heat_map_compose(map, &metrics, list), LW_OK);
    assert_int_equal(list->page_count, 1);
}

static const lw_mark *find_text(const lw_display_list *list, const char *text)
{
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *m = &list->marks[i];
        if (m->kind == LW_MARK_TEXT && strcmp(list->text + m->first, text) == 0) {
            return m;
        }
    }
    return NULL;
}

static bool same_ink(lw_ink a, lw_ink b)
{
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

/* The first path filled with that ink. */
static const lw_mark *find_fill(const lw_display_list *list, lw_ink ink)
{
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *m = &list->marks[i];
        if (m->kind == LW_MARK_PATH && m->style.filled && same_ink(m->style.fill, ink)) {
            return m;
        }
    }
    return NULL;
}

/* Worked: the least value is darkest and stands at the lower left, the most is palest and at the
 * upper right; values between are as strong as they are large. */
static void squares_are_as_strong_as_their_values(void **state)
{
    (void)state;
    double values[COLUMNS * ROWS];
    lw_display_list list;
    fill(values);
    lw_heat_map map = map_of(values);
    compose(&map, &list);
    const lw_mark *least = find_fill(&list, lw_strength_ink(0.0));
    const lw_mark *most = find_fill(&list, lw_strength_ink(1.0));
    assert_non_null(least);
    assert_non_null(most);
    assert_non_null(find_fill(&list, lw_strength_ink(5.0 / 11.0)));
    lw_metrics metrics = sheet_bench_metrics();
    lw_extent low = lw_mark_extent(&list, least, &metrics);
    lw_extent high = lw_mark_extent(&list, most, &metrics);
    assert_true(low.left < high.left && low.top > high.top);
    lw_list_destroy(&list);
}

static void holes_are_lined_and_do_not_count(void **state)
{
    (void)state;
    double values[COLUMNS * ROWS];
    lw_display_list list;
    fill(values);
    values[0] = NAN;
    values[11] = NAN;
    lw_heat_map map = map_of(values);
    compose(&map, &list);
    int slants = 0;
    for (size_t i = 0; i < list.mark_count; i++) {
        const lw_mark *m = &list.marks[i];
        slants += m->kind == LW_MARK_PATH && !m->style.filled && m->style.line_width == 0.6 &&
                  m->count == 2;
    }
    assert_int_equal(slants, 2);
    assert_non_null(find_fill(&list, lw_strength_ink(0.0))); /* 1 is the least now */
    assert_non_null(find_fill(&list, lw_strength_ink(1.0))); /* and 10 the most */
    lw_list_destroy(&list);
}

static void nothing_to_draw_is_refused(void **state)
{
    (void)state;
    double values[COLUMNS * ROWS];
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list list;
    for (int i = 0; i < COLUMNS * ROWS; i++) {
        values[i] = NAN;
    }
    lw_heat_map map = map_of(values);
    lw_list_init(&list, &memory);
    assert_int_equal(lw_heat_map_compose(&map, &metrics, &list), LW_BAD_INPUT);
    assert_int_equal(list.page_count, 0);
    lw_list_destroy(&list);
}

static bool apart(const lw_extent *a, const lw_extent *b)
{
    return a->right <= b->left || b->right <= a->left || a->bottom <= b->top || b->bottom <= a->top;
}

/* All that is said is there, on the page, and no name lies on another. */
static void everything_is_said(void **state)
{
    (void)state;
    static const char *const said[] = {"far",         "here",   "there", "across, degrees",
                                       "up, degrees", "much, %"};
    enum { SAID = sizeof said / sizeof said[0] };
    double values[COLUMNS * ROWS];
    lw_display_list list;
    lw_extent boxes[SAID];
    lw_metrics metrics = sheet_bench_metrics();
    fill(values);
    lw_heat_map map = map_of(values);
    compose(&map, &list);
    for (int i = 0; i < SAID; i++) {
        const lw_mark *m = find_text(&list, said[i]);
        assert_non_null(m);
        boxes[i] = lw_mark_extent(&list, m, &metrics);
        for (int k = 0; k < i; k++) {
            assert_true(apart(&boxes[i], &boxes[k]));
        }
    }
    lw_extent all = lw_list_extent(&list, 0, &metrics);
    assert_true(all.left >= 0.0 && all.top >= 0.0);
    assert_true(all.right <= list.pages[0].width && all.bottom <= list.pages[0].height);
    lw_list_destroy(&list);
}

/* Worked by hand. */
static void ticks_are_round(void **state)
{
    (void)state;
    static const struct {
        double low, high;
        int most;
        lw_ticks ticks;
    } cases[] = {
        {38.0, 48.0, 9, {38.0, 2.0, 6, 0}},    {30.0, 50.0, 9, {30.0, 5.0, 5, 0}},
        {0.411, 0.478, 9, {0.42, 0.01, 6, 2}}, {19.8, 82.1, 9, {20.0, 10.0, 7, 0}},
        {-1.0, 1.0, 5, {-1.0, 0.5, 5, 1}},     {12.01, 12.04, 2, {12.02, 0.02, 2, 2}},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        lw_ticks t = lw_ticks_for(cases[i].low, cases[i].high, cases[i].most);
        assert_true(fabs(t.first - cases[i].ticks.first) < 1e-12);
        assert_true(fabs(t.apart - cases[i].ticks.apart) < 1e-12);
        assert_int_equal(t.count, cases[i].ticks.count);
        assert_int_equal(t.decimals, cases[i].ticks.decimals);
    }
}

/* ---- the job ---- */

static void a_map_goes_through_its_job(void **state)
{
    (void)state;
    double values[COLUMNS * ROWS];
    char *text = NULL;
    size_t length = 0;
    lw_problem problem = {0};
    fill(values);
    values[3] = NAN;
    values[4] = 1.0 / 3.0;
    lw_heat_map map = map_of(values);
    lw_draw_job job = {.map = &map, .output = "map.svg"}, back;
    assert_int_equal(lw_draw_job_write(&job, &text, &length), LW_OK);
    lw_memory memory = lw_memory_standard();
    lw_arena arena = lw_arena_make(&memory);
    assert_int_equal(lw_draw_job_read(&arena, text, length, &back, &problem), LW_OK);
    assert_null(back.cut_text);
    assert_non_null(back.map);
    assert_string_equal(back.map->heading, map.heading);
    assert_string_equal(back.map->x.title, map.x.title);
    assert_true(back.map->y.low == 2.0 && back.map->y.high == 4.0 && back.map->y.count == ROWS);
    for (int i = 0; i < COLUMNS * ROWS; i++) {
        assert_true(isnan(values[i]) ? isnan(back.map->values[i])
                                     : back.map->values[i] == values[i]);
    }
    assert_int_equal(back.map->line_count, 2);
    assert_string_equal(back.map->lines[0].label, "far");
    assert_null(back.map->lines[1].label);
    assert_true(back.map->lines[0].ticked && !back.map->lines[0].dashed);
    assert_true(!back.map->lines[1].ticked && back.map->lines[1].dashed);
    assert_true(back.map->lines[0].count == 3 && back.map->lines[0].spots[2].y == 4.0);
    assert_true(back.map->marks[1].filled && back.map->marks[1].x == 13.0);
    assert_string_equal(back.map->notes[1], notes[1]);
    lw_arena_destroy(&arena);
    free(text);
}

static void broken_jobs_are_refused(void **state)
{
    (void)state;
    static const char *const jobs[] = {
        "{\"output\": \"a.svg\"}",
        "{\"output\": \"a.svg\", \"map\": 7}",
        "{\"output\": \"a.svg\", \"map\": {}}",
        /* fewer values than places */
        "{\"output\": \"a.svg\", \"map\": {\"heading\": \"\", \"value_title\": \"\", \"x\": "
        "{\"title\": \"\", \"low\": 1, \"high\": 2, \"count\": 2}, \"y\": {\"title\": \"\", "
        "\"low\": 1, \"high\": 2, \"count\": 2}, \"values\": [1, 2, 3], \"lines\": [], "
        "\"marks\": [], \"notes\": []}}",
        /* an axis that runs backward */
        "{\"output\": \"a.svg\", \"map\": {\"heading\": \"\", \"value_title\": \"\", \"x\": "
        "{\"title\": \"\", \"low\": 2, \"high\": 1, \"count\": 2}, \"y\": {\"title\": \"\", "
        "\"low\": 1, \"high\": 2, \"count\": 2}, \"values\": [1, 2, 3, 4], \"lines\": [], "
        "\"marks\": [], \"notes\": []}}",
        /* text among the values */
        "{\"output\": \"a.svg\", \"map\": {\"heading\": \"\", \"value_title\": \"\", \"x\": "
        "{\"title\": \"\", \"low\": 1, \"high\": 2, \"count\": 2}, \"y\": {\"title\": \"\", "
        "\"low\": 1, \"high\": 2, \"count\": 2}, \"values\": [1, 2, 3, \"4\"], \"lines\": [], "
        "\"marks\": [], \"notes\": []}}",
    };
    lw_memory memory = lw_memory_standard();
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        lw_arena arena = lw_arena_make(&memory);
        lw_problem problem = {0};
        lw_draw_job job = {.page = 77};
        assert_int_equal(lw_draw_job_read(&arena, jobs[i], strlen(jobs[i]), &job, &problem),
                         LW_BAD_INPUT);
        assert_true(problem.found[0] != '\0');
        assert_int_equal(job.page, 77);
        lw_arena_destroy(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(squares_are_as_strong_as_their_values),
        cmocka_unit_test(holes_are_lined_and_do_not_count),
        cmocka_unit_test(nothing_to_draw_is_refused),
        cmocka_unit_test(everything_is_said),
        cmocka_unit_test(ticks_are_round),
        cmocka_unit_test(a_map_goes_through_its_job),
        cmocka_unit_test(broken_jobs_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
