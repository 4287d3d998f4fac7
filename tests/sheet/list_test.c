/* What a display list holds, and how it fails. */
#include "sheet/bench.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static const lw_style thin = {.line_width = 2.0};

static void close_to(double a, double b)
{
    assert_true(fabs(a - b) < 1e-9);
}

/* worked: a line from (10, 20) to (30, 5), two points wide, reaches one point beyond its ends; text
 * of five characters at size 10 is 30 wide, ends at 100 when it stands on its right, and goes from
 * 8 above its baseline to 2 below. */
static void test_extent(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 200.0, 300.0);
    lw_list_line(&list, (lw_spot){10, 20}, (lw_spot){30, 5}, &thin);
    lw_extent box = lw_list_extent(&list, 0, &metrics);
    close_to(box.left, 9.0);
    close_to(box.right, 31.0);
    close_to(box.top, 4.0);
    close_to(box.bottom, 21.0);
    lw_type type = {.size = 10.0};
    lw_list_text(&list, (lw_spot){100, 50}, LW_ALIGN_RIGHT, &type, "stone", 5);
    box = lw_mark_extent(&list, &list.marks[1], &metrics);
    close_to(box.left, 70.0);
    close_to(box.right, 100.0);
    close_to(box.top, 42.0);
    close_to(box.bottom, 52.0);
    lw_list_destroy(&list);
    lw_list_destroy(&list);
}

/* A circle's path passes through its four outermost spots and strays from the circle by less than
 * 3e-4 of the radius (published: the usual handle of 0.5523 gives 2.7e-4). */
static void test_circle(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 200.0, 300.0);
    lw_list_circle(&list, (lw_spot){50, 60}, 10.0, &thin);
    assert_int_equal(list.status, LW_OK);
    const lw_path_spot *s = list.spots;
    double worst = 0.0;
    for (int quarter = 0; quarter < 4; quarter++) {
        lw_spot from = quarter == 0 ? s[0].at : s[3 * quarter].at;
        const lw_path_spot *c = &s[1 + 3 * quarter];
        for (int i = 0; i <= 10; i++) {
            double t = i / 10.0;
            double u = 1.0 - t;
            double b[4] = {u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t};
            double x = b[0] * from.x + b[1] * c[0].at.x + b[2] * c[1].at.x + b[3] * c[2].at.x;
            double y = b[0] * from.y + b[1] * c[0].at.y + b[2] * c[1].at.y + b[3] * c[2].at.y;
            worst = fmax(worst, fabs(hypot(x - 50.0, y - 60.0) / 10.0 - 1.0));
        }
    }
    assert_true(worst < 3e-4 && worst > 1e-5);
    lw_list_destroy(&list);
}

static void test_append_moves(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list page;
    lw_display_list strip;
    lw_list_init(&page, &memory);
    lw_list_init(&strip, &memory);
    lw_list_page(&page, 200.0, 300.0);
    lw_list_page(&page, 200.0, 300.0);
    lw_list_page(&strip, 100.0, 100.0);
    lw_list_rectangle(&strip, (lw_spot){1, 2}, 10.0, 20.0, &(lw_style){.filled = true});
    lw_type type = {.size = 10.0};
    lw_list_text(&strip, (lw_spot){0, 40}, LW_ALIGN_LEFT, &type, "a", 1);
    lw_list_append(&page, &strip, 30.0, 40.0);
    assert_int_equal(page.mark_count, 2);
    assert_int_equal(page.marks[0].page, 1);
    lw_extent box = lw_list_extent(&page, 1, &metrics);
    close_to(box.left, 30.0);
    close_to(box.top, 42.0);
    close_to(box.right, 41.0);
    close_to(box.bottom, 82.0);
    box = lw_list_extent(&page, 0, &metrics);
    assert_true(box.left > box.right);
    lw_list_destroy(&page);
    lw_list_destroy(&strip);
}

/* A drawing of many lines is one mark. */
static void test_extend(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 200.0, 300.0);
    lw_list_line(&list, (lw_spot){0, 0}, (lw_spot){1, 0}, &thin);
    lw_list_extend(&list, (lw_spot){5, 5}, (lw_spot){6, 6});
    assert_int_equal(list.mark_count, 1);
    assert_int_equal(list.marks[0].count, 4);
    assert_int_equal(list.spots[2].op, LW_PATH_MOVE);
    lw_list_destroy(&list);
}

/* Whichever request for memory is refused, the list fails, stays failed, and gives all back. */
static void test_memory_runs_out(void **state)
{
    (void)state;
    lw_status status = LW_NO_MEMORY;
    long grant = 0;
    for (; status != LW_OK; grant++) {
        scarce s = {.left = grant};
        lw_memory memory = scarce_memory(&s);
        lw_display_list list;
        lw_list_init(&list, &memory);
        lw_list_page(&list, 200.0, 300.0);
        for (int i = 0; i < 100 && list.status == LW_OK; i++) {
            lw_list_line(&list, (lw_spot){0, 0}, (lw_spot){1, 1}, &thin);
            lw_list_extend(&list, (lw_spot){0, 0}, (lw_spot){1, 1});
            lw_list_text(&list, (lw_spot){0, 0}, LW_ALIGN_LEFT, &(lw_type){.size = 9.0}, "ab", 2);
        }
        size_t marks = list.mark_count;
        status = list.status;
        lw_list_line(&list, (lw_spot){0, 0}, (lw_spot){1, 1}, &thin);
        assert_true(status == LW_OK || (status == LW_NO_MEMORY && list.mark_count == marks));
        lw_list_destroy(&list);
        assert_int_equal(s.granted, 0);
    }
    assert_true(grant > 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_extent),          cmocka_unit_test(test_circle),
        cmocka_unit_test(test_append_moves),    cmocka_unit_test(test_extend),
        cmocka_unit_test(test_memory_runs_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
