/* The pictures of beams and of tilt, and what they are made of: scale, hatching, directions. */
#include "sheet/beam_picture.h"
#include "sheet/bench.h"
#include "sheet/compass.h"
#include "sheet/hatch.h"
#include "sheet/page_look.h"
#include "sheet/paint_cairo.h"
#include "sheet/strength.h"
#include "sheet/tilt_picture.h"

#include "geom/angle.h"
#include "light/spectrum.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Some five millimetres are kept free around a picture. */
#define BORDER 15.0

/* ---- parts --------------------------------------------------------------- */

typedef struct oklab {
    double l, a, b;
} oklab;

/* published: B. Ottosson, 2020: linear sRGB to OKLab. */
static oklab oklab_of(lw_ink ink)
{
    double r = lw_srgb_decode(ink.red), g = lw_srgb_decode(ink.green), b = lw_srgb_decode(ink.blue);
    double l = cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
    double m = cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
    double s = cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
    return (oklab){0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s,
                   1.9779984951 * l - 2.4285922050 * m + 0.4505937099 * s,
                   0.0259040371 * l + 0.7827717662 * m - 0.8086757660 * s};
}

/* worked: equal steps of strength are equal steps of lightness, all of one hue; were a colour
 * outside of sRGB and clipped, neither would hold. */
static void strength_is_even(void **state)
{
    (void)state;
    double first = oklab_of(lw_strength_ink(0.0)).l, last = oklab_of(lw_strength_ink(1.0)).l;
    assert_true(last - first > 0.7);
    for (int i = 0; i <= 40; i++) {
        oklab at = oklab_of(lw_strength_ink(i / 40.0));
        assert_true(fabs(at.l - (first + (last - first) * i / 40.0)) < 1e-6);
        assert_true(fabs(lw_atan2_deg(at.b, at.a) + 105.0) < 0.1);
    }
    for (int i = 0; i <= 20; i++) { /* a mark stands off from its ground */
        double own = oklab_of(lw_strength_ink(i / 20.0)).l;
        assert_true(fabs(oklab_of(lw_strength_mark_ink(i / 20.0)).l - own) > 0.3);
    }
    lw_ink under = lw_strength_ink(-3.0), low = lw_strength_ink(0.0);
    assert_memory_equal(&under, &low, sizeof low);
}

/* worked: slanted lines 2 apart over a square of 20 points lie on x + y = k 2 sqrt 2, end on its
 * sides, and number as many as such levels between its corners' 30 and 70: 14. */
static void hatching_stays_inside(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_display_list list;
    lw_list_init(&list, &memory);
    lw_list_page(&list, 100.0, 100.0);
    const lw_spot square[4] = {{10, 20}, {30, 20}, {30, 40}, {10, 40}};
    lw_hatch_draw(&list, square, 4, LW_HATCH_SLANTED, 2.0, 0.4, lw_grey(0.0));
    assert_int_equal(list.status, LW_OK);
    assert_int_equal(list.mark_count, 1);
    assert_int_equal(list.spot_count, 2 * 14);
    for (size_t i = 0; i < list.spot_count; i++) {
        lw_spot at = list.spots[i].at;
        double level = (at.x + at.y) / (2.0 * sqrt(2.0));
        assert_true(fabs(level - round(level)) < 1e-9);
        assert_true(at.x > 10 - 1e-9 && at.x < 30 + 1e-9 && at.y > 20 - 1e-9 && at.y < 40 + 1e-9);
    }
    const lw_spot tiny[3] = {{13.0, 10.0}, {13.1, 10.0}, {13.0, 10.1}};
    lw_hatch_draw(&list, tiny, 3, LW_HATCH_CROSSED, 9.0, 0.4, lw_grey(0.0));
    assert_int_equal(list.mark_count, 1);
    lw_hatch_draw(&list, square, 4, LW_HATCH_CROSSED, 2.0, 0.4, lw_grey(0.0));
    assert_int_equal(list.mark_count, 2);
    assert_true(list.marks[1].count > 2 * 27);
    lw_list_destroy(&list);
}

/* worked: as seen from the table azimuth runs counter-clockwise, tooth 24 of 96 stands on the left.
 * On the dial half of the sky lies above 30 degrees: at 1 / sqrt 2 of its radius. */
static void directions(void **state)
{
    (void)state;
    lw_spot left = lw_compass_spot((lw_spot){50, 50}, 10.0, 90.0);
    assert_true(fabs(left.x - 40.0) < 1e-9 && fabs(left.y - 50.0) < 1e-9);
    lw_sincos up = lw_sincos_deg(30.0);
    lw_spot half = lw_compass_sky((lw_spot){0, 0}, 10.0, (lw_vec3){up.cos, 0.0, up.sin});
    assert_true(fabs(half.x) < 1e-9 && fabs(half.y + 10.0 / sqrt(2.0)) < 1e-9);
    double azimuth_deg = 0.0;
    assert_int_equal(lw_compass_tooth(96, 0, &azimuth_deg), 96);
    assert_true(azimuth_deg == 0.0);
    assert_int_equal(lw_compass_tooth(96, 2, &azimuth_deg), 24);
    assert_true(azimuth_deg == 90.0);
    assert_int_equal(lw_compass_tooth(77, 2, &azimuth_deg), 19); /* 19.25 */
    assert_true(fabs(azimuth_deg - 360.0 * 19 / 77) < 1e-12);
}

/* ---- beams --------------------------------------------------------------- */

static lw_beam_map map_of(const sheet_bench *made, const lw_light_options *look)
{
    lw_memory memory = lw_memory_standard();
    lw_beam_map map;
    assert_int_equal(lw_beam_map_make(&memory, &made->stone.solid, look, &map), LW_OK);
    return map;
}

static lw_beam_picture picture_of(const sheet_bench *made, const lw_beam_map *map,
                                  const lw_surroundings *around, const lw_light_options *look)
{
    return (lw_beam_picture){.solid = &made->stone.solid,
                             .map = map,
                             .surroundings = around,
                             .tilt_deg = look->tilt_deg,
                             .turn_deg = look->turn_deg,
                             .wheel = made->cut.wheel,
                             .index = look->index.yellow,
                             .heading = "A stone in corundum, seen 15 degrees off, from between "
                                        "teeth 33 and 34"};
}

/* Where a run of text stands; fails when there is none. */
static lw_spot place_of(const lw_display_list *list, const char *text)
{
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        if (mark->kind == LW_MARK_TEXT && strcmp(list->text + mark->first, text) == 0) {
            return mark->at;
        }
    }
    fail_msg("no '%s' on the page", text);
    return (lw_spot){0};
}

static size_t filled(const lw_display_list *list)
{
    size_t count = 0;
    for (size_t i = 0; i < list->mark_count; i++) {
        count += list->marks[i].kind == LW_MARK_PATH && list->marks[i].style.filled;
    }
    return count;
}

static void look_at(const char *path, lw_painter *painter, double index, double tilt_deg,
                    double turn_deg)
{
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = lw_painter_metrics(painter);
    sheet_bench made;
    sheet_bench_file(path, 8.0, &made);
    lw_light_options look = lw_light_defaults(index);
    look.bound = 1e-4;
    look.tilt_deg = tilt_deg;
    look.turn_deg = turn_deg;
    lw_beam_map map = map_of(&made, &look);
    lw_surroundings around = lw_light_surroundings(&look);
    lw_beam_picture picture = picture_of(&made, &map, &around, &look);
    lw_display_list list;
    lw_list_init(&list, &memory);
    assert_int_equal(lw_beam_picture_compose(&memory, &picture, &metrics, &list), LW_OK);
    page_look_within(&list, &metrics, BORDER, path);
    page_look_apart(&list, &metrics, path);
    assert_true(filled(&list) > map.patch_count);
    /* tooth 0 at the top of the face, whatever the eye does */
    lw_spot top = place_of(&list, "96"), left = place_of(&list, "24"), low = place_of(&list, "48");
    assert_true(top.y < left.y && left.y < low.y && left.x < top.x && left.x < low.x);
    lw_list_destroy(&list);
    lw_beam_map_destroy(&map);
    sheet_bench_drop(&made);
}

static void beams_fit_their_page(void **state)
{
    (void)state;
    static const char *const paths[] = {"cuts/round-brilliant.cut", "cuts/marquise-brilliant.cut",
                                        "cuts/step-octagon.cut", "cuts/pinwheel.cut",
                                        "cuts/pear-brilliant.cut"};
    lw_memory memory = lw_memory_standard();
    lw_painter *painter = NULL;
    assert_int_equal(lw_painter_new(&memory, &painter), LW_OK);
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        look_at(paths[i], painter, 1.544, 0.0, 0.0);
        look_at(paths[i], painter, 1.77, 15.0, 123.0);
        look_at(paths[i], painter, 1.544, 60.0, -40.0);
    }
    lw_painter_destroy(painter);
}

/* A pear's point lies at tooth 0 and so at the top: its outline reaches further there. */
static void a_pear_stands_on_its_round_end(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    sheet_bench made;
    sheet_bench_file("cuts/pear-brilliant.cut", 8.0, &made);
    double far = 0.0, near = 0.0;
    for (int i = 0; i < made.stone.solid.vertex_count; i++) {
        far = fmax(far, made.stone.solid.vertices[i].x);
        near = fmax(near, -made.stone.solid.vertices[i].x);
    }
    assert_true(far > near); /* else the pear is another one */
    lw_light_options look = lw_light_defaults(1.77);
    look.bound = 1e-3;
    look.tilt_deg = 5.0;
    look.turn_deg = 200.0;
    lw_beam_map map = map_of(&made, &look);
    lw_surroundings around = lw_light_surroundings(&look);
    lw_beam_picture picture = picture_of(&made, &map, &around, &look);
    lw_display_list list;
    lw_list_init(&list, &memory);
    assert_int_equal(lw_beam_picture_compose(&memory, &picture, &metrics, &list), LW_OK);
    lw_spot top = place_of(&list, "96"), low = place_of(&list, "48"), left = place_of(&list, "24");
    assert_true(left.y - top.y > low.y - left.y);
    lw_list_destroy(&list);
    lw_beam_map_destroy(&map);
    sheet_bench_drop(&made);
}

/* ---- tilt ---------------------------------------------------------------- */

enum { RINGS = 5, SPOKES = 24 };
static const double tilts[RINGS] = {0.0, 10.0, 20.0, 30.0, 40.0};

typedef struct field {
    double brightness[RINGS * SPOKES], window[RINGS * SPOKES];
} field;

/* Window: slope x tilt + level. */
static field field_of(double level, double slope)
{
    field made;
    for (int i = 0; i < RINGS * SPOKES; i++) {
        made.brightness[i] = 0.7 - 0.005 * tilts[i / SPOKES];
        made.window[i] = level + slope * tilts[i / SPOKES];
    }
    return made;
}

static lw_tilt_picture tilt_of(const field *values)
{
    return (lw_tilt_picture){
        .rings = RINGS,
        .spokes = SPOKES,
        .tilt_deg = tilts,
        .brightness = values->brightness,
        .window = values->window,
        .window_shows = 0.01,
        .settled = 0.03,
        .wheel = 96,
        .index = 1.544,
        .heading = "A stone of a title that goes on for a while in a material of a long name",
        .sentence = "Tilted: clear to 10.0 degrees, then a window opens under the crown half that "
                    "has a name (step 12), first toward a place between teeth 3 and 4; there one "
                    "sees out by the pavilion main (step 2)."};
}

/* How far the window's line lies from the map's middle, least and most (-1: there is none), and the
 * rim's radius. The line is told by the ground that it has, the rim by its width. */
static void line_radii(const lw_display_list *list, const lw_metrics *metrics, double *least,
                       double *most, double *rim)
{
    lw_spot middle = {0.0, 0.0};
    *least = HUGE_VAL;
    *most = -1.0;
    *rim = 0.0;
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        if (mark->kind == LW_MARK_PATH && mark->style.line_width == 0.9) {
            lw_extent box = lw_mark_extent(list, mark, metrics);
            middle = (lw_spot){0.5 * (box.left + box.right), 0.5 * (box.top + box.bottom)};
            *rim = 0.5 * (box.right - box.left) - 0.45;
        }
        if (mark->kind != LW_MARK_PATH || mark->style.line_width != 3.0) {
            continue;
        }
        for (size_t k = mark->first; k < mark->first + mark->count; k++) {
            lw_spot at = list->spots[k].at;
            double radius = hypot(at.x - middle.x, at.y - middle.y);
            *least = fmin(*least, radius);
            *most = fmax(*most, radius);
        }
    }
}

/* worked: a window of 0.101 % a degree comes to 1 % at 9.9 of 40 degrees: a circle. */
static void the_line_is_where_it_is_worked(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list list;
    lw_list_init(&list, &memory);
    field values = field_of(0.0, 0.00101);
    lw_tilt_picture picture = tilt_of(&values);
    assert_int_equal(lw_tilt_picture_compose(&picture, &metrics, &list), LW_OK);
    double least = 0.0, most = 0.0, rim = 0.0;
    line_radii(&list, &metrics, &least, &most, &rim);
    double worked = rim * (0.01 / 0.00101) / 40.0;
    assert_true(fabs(least - worked) < 1e-6 * worked && fabs(most - worked) < 1e-6 * worked);
    lw_list_destroy(&list);
}

static void tilt_fits_its_page(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_painter *painter = NULL;
    assert_int_equal(lw_painter_new(&memory, &painter), LW_OK);
    lw_metrics metrics = lw_painter_metrics(painter);
    const double levels[] = {0.0, 0.0, 0.3, 0.02}, slopes[] = {0.001, 0.0, 0.0, -0.001};
    const char *const said[] = {"Window", "No line: no direction of the map shows one.",
                                "No line: a window is open in every direction of the map.",
                                "Window"};
    for (int i = 0; i < 4; i++) {
        lw_display_list list;
        lw_list_init(&list, &memory);
        field values = field_of(levels[i], slopes[i]);
        lw_tilt_picture picture = tilt_of(&values);
        picture.place = i % 2 ? "Under an open sky with low cloud" : NULL;
        assert_int_equal(lw_tilt_picture_compose(&picture, &metrics, &list), LW_OK);
        page_look_within(&list, &metrics, BORDER, said[i]);
        page_look_apart(&list, &metrics, said[i]);
        double least = 0.0, most = 0.0, rim = 0.0;
        line_radii(&list, &metrics, &least, &most, &rim);
        assert_true((most >= 0.0) == (slopes[i] != 0.0));
        lw_list_destroy(&list);
    }
    lw_painter_destroy(painter);
}

/* worked: a ring whose directions are 0.2 and 0.9 by turns has no mean worth telling; one whose are
 * all 0.6 has. */
static void a_stone_that_flashes(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_metrics metrics = sheet_bench_metrics();
    lw_display_list list;
    lw_list_init(&list, &memory);
    field values = field_of(0.0, 0.001);
    for (int spoke = 0; spoke < SPOKES; spoke++) {
        values.brightness[SPOKES + spoke] = 0.6;
        values.brightness[2 * SPOKES + spoke] = spoke % 2 ? 0.2 : 0.9;
    }
    lw_tilt_picture picture = tilt_of(&values);
    assert_int_equal(lw_tilt_picture_compose(&picture, &metrics, &list), LW_OK);
    lw_spot steady = place_of(&list, "60 %"), flashing = place_of(&list, "flashes");
    assert_true(flashing.y > steady.y && flashing.x == steady.x);
    lw_list_destroy(&list);
}

/* ---- memory -------------------------------------------------------------- */

static void memory_runs_out(void **state)
{
    (void)state;
    lw_metrics metrics = sheet_bench_metrics();
    sheet_bench made;
    sheet_bench_file("cuts/pinwheel.cut", 8.0, &made);
    lw_light_options look = lw_light_defaults(1.544);
    look.bound = 1e-3;
    lw_beam_map map = map_of(&made, &look);
    lw_surroundings around = lw_light_surroundings(&look);
    lw_beam_picture beams = picture_of(&made, &map, &around, &look);
    field values = field_of(0.0, 0.001);
    lw_tilt_picture tilt = tilt_of(&values);
    bool beams_done = false, tilt_done = false;
    int tried = 0;
    for (long left = 0; !beams_done || !tilt_done; left++) {
        scarce have = {.left = left};
        lw_memory memory = scarce_memory(&have);
        lw_display_list list;
        lw_list_init(&list, &memory);
        lw_status status = lw_beam_picture_compose(&memory, &beams, &metrics, &list);
        beams_done = status == LW_OK;
        assert_true(beams_done || status == LW_NO_MEMORY);
        lw_list_destroy(&list);
        have.left = left;
        lw_list_init(&list, &memory);
        status = lw_tilt_picture_compose(&tilt, &metrics, &list);
        tilt_done = status == LW_OK;
        assert_true(tilt_done || status == LW_NO_MEMORY);
        lw_list_destroy(&list);
        assert_int_equal(have.granted, 0);
        tried++;
    }
    assert_true(tried > 10);
    lw_beam_map_destroy(&map);
    sheet_bench_drop(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(strength_is_even),
        cmocka_unit_test(hatching_stays_inside),
        cmocka_unit_test(directions),
        cmocka_unit_test(beams_fit_their_page),
        cmocka_unit_test(a_pear_stands_on_its_round_end),
        cmocka_unit_test(the_line_is_where_it_is_worked),
        cmocka_unit_test(tilt_fits_its_page),
        cmocka_unit_test(a_stone_that_flashes),
        cmocka_unit_test(memory_runs_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
