/* Drawings of a stone: what is seen from where. */
#include "sheet/bench.h"
#include "sheet/figure.h"
#include "sheet/replay.h"
#include "sheet/wheel_picture.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char round_cut[] = "title \"Round\"\n"
                                "wheel 96\n"
                                "fold 8 mirror\n"
                                "dop crown\n"
                                "pavilion\n"
                                "main at 43 on 96 to point\n"
                                "girdle at 90 on 3 to size\n"
                                "break at 45 on 3 to meet left main, own girdle, left girdle\n"
                                "transfer\n"
                                "crown\n"
                                "main at 42 on 96 to girdle 2.5 %\n"
                                "adapter\n"
                                "table at 0 to table 52 % across main@96\n";

static bool is_frame(const lw_view *view)
{
    lw_vec3 cross = lw_vec3_cross(view->right, view->up);
    return lw_vec3_length(lw_vec3_sub(cross, view->toward)) < 1e-12 &&
           fabs(lw_vec3_length(view->toward) - 1.0) < 1e-12 &&
           fabs(lw_vec3_dot(view->up, view->toward)) < 1e-12;
}

/* From the definition of the frame (azimuth counter-clockwise seen from the table): with tooth 0 at
 * the top, a quarter turn on (tooth 24 of 96, +y) lies on the left of the crown and on the right of
 * the pavilion, which is seen from below. */
static void test_sides_mirror(void **state)
{
    (void)state;
    lw_figure crown = {.view = lw_view_of_side(LW_SIDE_CROWN), .scale = 10.0};
    lw_figure pavilion = {.view = lw_view_of_side(LW_SIDE_PAVILION), .scale = 10.0};
    assert_true(is_frame(&crown.view) && is_frame(&pavilion.view));
    lw_vec3 first = {1, 0, 0};
    lw_vec3 quarter = {0, 1, 0};
    assert_true(lw_figure_project(&crown, first).y == -10.0);
    assert_true(lw_figure_project(&pavilion, first).y == -10.0);
    assert_true(lw_figure_project(&crown, quarter).x == -10.0);
    assert_true(lw_figure_project(&pavilion, quarter).x == 10.0);
}

/* Tipped, the named azimuth comes to the reader (down the page), and that side stays upward. */
static void test_tipped(void **state)
{
    (void)state;
    for (int side = LW_SIDE_PAVILION; side <= LW_SIDE_CROWN; side++) {
        for (int deg = 0; deg < 360; deg += 45) {
            lw_figure f = {.view = lw_view_tipped((lw_side)side, deg, 60.0), .scale = 1.0};
            lw_sincos a = lw_sincos_deg(deg);
            assert_true(is_frame(&f.view));
            assert_true(lw_figure_project(&f, (lw_vec3){a.cos, a.sin, 0}).y > 0.49);
            double up = side == LW_SIDE_CROWN ? 1.0 : -1.0;
            assert_true(lw_figure_project(&f, (lw_vec3){0, 0, up}).y < -0.86);
        }
    }
}

/* The number of separate lines in the marks that have this width. */
static int lines_of_width(const lw_display_list *list, double width)
{
    int count = 0;
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        if (mark->kind == LW_MARK_PATH && !mark->style.filled && mark->style.line_width == width) {
            count += (int)mark->count / 2;
        }
    }
    return count;
}

/* worked: from above, the crown of 8 mains and a table shows 8 edges around the table and 8 between
 * mains; its outline is the 16 flats' upper edges. From below: 16 breaks and 8 mains around the
 * point have 8 edges between mains, 16 between mains and breaks, 8 between the breaks of a pair. */
static void test_hidden_lines(void **state)
{
    (void)state;
    sheet_bench made;
    sheet_bench_make(round_cut, 7.0, &made);
    lw_memory memory = lw_memory_standard();
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 300.0, 300.0);
    lw_figure figure = {.solid = &made.stone.solid, .view = lw_view_of_side(LW_SIDE_CROWN)};
    lw_figure_fit(&figure, 20.0, 30.0, 200.0, 100.0);
    lw_figure_draw(&figure, &list);
    assert_int_equal(lines_of_width(&list, 0.45), 16);
    assert_int_equal(lines_of_width(&list, 1.1), 16);
    lw_extent box = lw_figure_extent(&figure);
    assert_true(box.left >= 20.0 - 1e-9 && box.right <= 220.0 + 1e-9);
    assert_true(fabs(box.top - 30.0) < 1e-9 && fabs(box.bottom - 130.0) < 1e-9);
    lw_list_clear(&list);
    lw_list_page(&list, 300.0, 300.0);
    figure.view = lw_view_of_side(LW_SIDE_PAVILION);
    figure.fresh_first = made.stone.tiers[3].first;
    figure.fresh_count = made.stone.tiers[3].count;
    lw_figure_draw(&figure, &list);
    assert_int_equal(lines_of_width(&list, 0.45), 8);
    assert_int_equal(lines_of_width(&list, 0.8), 24);
    assert_int_equal(lines_of_width(&list, 1.1), 16);
    lw_list_destroy(&list);
    sheet_bench_drop(&made);
}

/* The replay ends in the stone itself: nothing of the preform is left, and what can be measured is
 * what the solver measured. Before the girdle is cut nothing can be. */
static void test_replay(void **state)
{
    (void)state;
    sheet_bench made;
    sheet_bench_make(round_cut, 7.0, &made);
    lw_memory memory = lw_memory_standard();
    lw_replay replay = {0};
    assert_int_equal(lw_replay_init(&replay, &memory, &made.cut, &made.stone), LW_OK);
    for (int step = 0; step < made.cut.step_count; step++) {
        assert_int_equal(lw_replay_next(&replay), LW_OK);
        assert_null(lw_polyhedron_fault(&replay.shape));
        lw_bench_size size = lw_replay_size(&replay);
        assert_true((size.width > 0.0) == (step >= 2));
        assert_true((size.pavilion > 0.0) == (step >= 2));
        assert_true((size.girdle_thick > 0.0) == (step >= 5));
        assert_true((size.depth > 0.0) == (step >= 7));
        assert_true((size.table > 0.0) == (step >= 7));
    }
    const lw_measures *m = &made.stone.measures;
    lw_bench_size size = lw_replay_size(&replay);
    assert_true(fabs(size.width - m->width) < 1e-9);
    assert_true(fabs(size.depth - m->depth) < 1e-9);
    assert_true(fabs(size.table - m->table) < 1e-9);
    assert_true(fabs(size.girdle_thin - m->girdle_thin) < 1e-9);
    assert_int_equal(replay.shape.vertex_count, made.stone.solid.vertex_count);
    lw_replay_destroy(&replay);
    lw_replay_destroy(&replay);
    sheet_bench_drop(&made);
}

/* Grinding never makes a stone wider or longer, and the last step leaves what the solver measured.
 */
static void test_sizes_only_shrink(void **state)
{
    (void)state;
    static const char *const cuts[] = {"cuts/pear-brilliant.cut", "cuts/triangle-brilliant.cut",
                                       "cuts/marquise-brilliant.cut", "cuts/step-octagon.cut"};
    lw_memory memory = lw_memory_standard();
    for (size_t i = 0; i < sizeof cuts / sizeof cuts[0]; i++) {
        sheet_bench made;
        sheet_bench_file(cuts[i], 8.0, &made);
        lw_replay replay = {0};
        assert_int_equal(lw_replay_init(&replay, &memory, &made.cut, &made.stone), LW_OK);
        lw_bench_size last = {.width = 1e9, .length = 1e9};
        for (int step = 0; step < made.cut.step_count; step++) {
            assert_int_equal(lw_replay_next(&replay), LW_OK);
            lw_bench_size size = lw_replay_size(&replay);
            if (size.width > 0.0) {
                assert_true(size.width <= last.width + 1e-9 && size.width >= 1.0 - 1e-9);
                assert_true(size.length <= last.length + 1e-9);
                last = size;
            }
        }
        assert_true(fabs(last.width - made.stone.measures.width) < 1e-9);
        assert_true(fabs(last.length - made.stone.measures.length) < 1e-9);
        lw_replay_destroy(&replay);
        sheet_bench_drop(&made);
    }
}

/* Finds the run of text and gives its place relative to the wheel's middle. */
static lw_spot label(const lw_display_list *list, const char *text)
{
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        if (mark->kind == LW_MARK_TEXT && strcmp(list->text + mark->first, text) == 0) {
            return (lw_spot){mark->at.x - 100.0, mark->at.y - 100.0};
        }
    }
    fail_msg("no %s on the wheel", text);
    return (lw_spot){0, 0};
}

/* Seen from behind the quill the first tooth is under the pointer, and on a wheel that counts
 * counter-clockwise the higher numbers lie on the left of it. */
static void test_wheel(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    const lw_dial dials[4] = {{12, 0.0}, {60, 0.0}, {36, 0.0}, {84, 0.0}};
    lw_dial_kit kit = {.wheel = 96};
    lw_wheel_picture picture = {.kit = &kit, .dials = dials, .count = 4};
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 200.0, 200.0);
    lw_wheel_draw(&picture, &list, &metrics, (lw_spot){100, 100}, 50.0);
    assert_true(label(&list, "12").y < -25.0 && fabs(label(&list, "12").x) < 1e-9);
    assert_true(label(&list, "36").x < -25.0);
    assert_true(label(&list, "84").x > 25.0);
    assert_true(label(&list, "60").y > 25.0);
    kit.counts = LW_COUNTS_CLOCKWISE;
    picture.pointer_deg = 90.0;
    lw_list_clear(&list);
    lw_list_page(&list, 200.0, 200.0);
    lw_wheel_draw(&picture, &list, &metrics, (lw_spot){100, 100}, 50.0);
    assert_true(label(&list, "12").x > 25.0);
    assert_true(label(&list, "36").y > 25.0);
    lw_list_destroy(&list);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sides_mirror),      cmocka_unit_test(test_tipped),
        cmocka_unit_test(test_hidden_lines),      cmocka_unit_test(test_replay),
        cmocka_unit_test(test_sizes_only_shrink), cmocka_unit_test(test_wheel),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
