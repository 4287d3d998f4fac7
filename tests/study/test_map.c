/* Maps over pavilion and crown, and lines through them. */
#include "contour.h"
#include "map.h"
#include "meter.h"
#include "tune_case.h"

#include "geom/angle.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

enum { SIDE = 41, PLACES = SIDE * SIDE };

/* ---- lines ---- */

static double length_of(const lw_contour *c, int line)
{
    double length = 0.0;
    const lw_contour_line *l = &c->lines[line];
    for (int i = l->first; i + 1 < l->first + l->count; i++) {
        length += hypot(c->spots[i + 1].x - c->spots[i].x, c->spots[i + 1].y - c->spots[i].y);
    }
    return length;
}

/* Worked: x^2 + y^2 = r^2 is a circle; between corners a parabola strays from its chord by at most
 * (1/2)^2 / (2 r) steps. */
static void a_circle_is_one_closed_line(void **state)
{
    (void)state;
    static double field[PLACES];
    lw_memory memory = lw_memory_standard();
    lw_contour c;
    double radius = 13.7;
    for (int i = 0; i < PLACES; i++) {
        double x = i % SIDE - 20.0, y = i / SIDE - 20.0;
        field[i] = x * x + y * y;
    }
    assert_int_equal(lw_contour_trace(&memory, field, SIDE, SIDE, radius * radius, &c), LW_OK);
    assert_int_equal(c.line_count, 1);
    assert_true(c.lines[0].closed);
    assert_true(c.spots[0].x == c.spots[c.spot_count - 1].x);
    assert_true(c.spots[0].y == c.spots[c.spot_count - 1].y);
    for (int i = 0; i < c.spot_count; i++) {
        assert_true(fabs(hypot(c.spots[i].x - 20.0, c.spots[i].y - 20.0) - radius) < 0.0185);
    }
    assert_true(fabs(length_of(&c, 0) - 2.0 * 3.14159265 * radius) < 0.3);
    lw_contour_destroy(&c);
    lw_contour_destroy(&c);
}

/* Worked: a plane's lines are straight and cross the whole grid. */
static void a_plane_has_straight_open_lines(void **state)
{
    (void)state;
    double field[7 * 5];
    lw_memory memory = lw_memory_standard();
    lw_contour c;
    for (int i = 0; i < 35; i++) {
        field[i] = 2.0 * (i % 7) + i / 7;
    }
    assert_int_equal(lw_contour_trace(&memory, field, 7, 5, 6.5, &c), LW_OK);
    assert_int_equal(c.line_count, 1);
    assert_false(c.lines[0].closed);
    for (int i = 0; i < c.spot_count; i++) {
        assert_true(fabs(2.0 * c.spots[i].x + c.spots[i].y - 6.5) < 1e-12);
    }
    assert_true(fabs(length_of(&c, 0) - hypot(2.0, 4.0)) < 1e-12);
    lw_contour_destroy(&c);
}

/* The saddle x y in one square: its lines cut off two corners, and which two is the middle's to
 * say. And a corner without a number leaves its squares empty. */
static void saddles_and_holes(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_contour c;
    const double saddle[4] = {1.0, 0.0, 0.0, 1.0};
    for (int high = 0; high < 2; high++) {
        double level = high ? 0.6 : 0.4; /* the middle is 0.5 */
        assert_int_equal(lw_contour_trace(&memory, saddle, 2, 2, level, &c), LW_OK);
        assert_int_equal(c.line_count, 2);
        for (int i = 0; i < 2; i++) {
            /* Both lines lie about the corners that the middle does not go with: those of 1 where
             * the level is above the middle, at x + y = 0 and 2. */
            const lw_contour_spot *s = &c.spots[c.lines[i].first];
            double x = 0.5 * (s[0].x + s[1].x), y = 0.5 * (s[0].y + s[1].y);
            assert_int_equal(c.lines[i].count, 2);
            assert_int_equal(fabs(x - y) < 1e-12, high);
            assert_int_equal(fabs(x + y - 1.0) < 1e-12, !high);
        }
        lw_contour_destroy(&c);
    }
    const double hole[6] = {0.0, 1.0, NAN, 0.0, 1.0, 0.0};
    assert_int_equal(lw_contour_trace(&memory, hole, 3, 2, 0.5, &c), LW_OK);
    assert_int_equal(c.line_count, 1); /* the left square's alone */
    assert_true(c.spots[0].x == 0.5 && c.spots[1].x == 0.5);
    lw_contour_destroy(&c);
    const double level_ground[4] = {1.0, 1.0, 1.0, 1.0};
    assert_int_equal(lw_contour_trace(&memory, level_ground, 2, 2, 1.0, &c), LW_OK);
    assert_int_equal(c.line_count, 0);
    lw_contour_destroy(&c);
}

static void refused_memory_leaves_nothing(void **state)
{
    (void)state;
    double field[7 * 5];
    for (int i = 0; i < 35; i++) {
        field[i] = (i % 7 - 3) * (i / 7 - 2);
    }
    lw_status status = LW_NO_MEMORY;
    long n = 0;
    while (status == LW_NO_MEMORY) {
        meter m = {.refuse_at = ++n};
        lw_memory memory = meter_memory(&m);
        lw_contour c = {0};
        status = lw_contour_trace(&memory, field, 7, 5, 1.5, &c);
        if (status == LW_OK) {
            lw_contour_destroy(&c);
        }
        assert_int_equal(m.held, 0);
    }
    assert_int_equal(status, LW_OK);
    assert_true(n > 3);
}

/* ---- maps ---- */

static lw_map_request ask(const tune_case *c, int columns, int rows)
{
    return (lw_map_request){.vary = &c->vary,
                            .handles = {c->handles[0], c->handles[1]},
                            .pavilion = {38.0, 46.0, columns},
                            .crown = {30.0, 45.0, rows},
                            .look = tune_case_look(1.544, 1.554, 1.541)};
}

/* Every place is what the stone with those settings is measured to be by itself. */
static void places_are_what_is_measured_there(void **state)
{
    (void)state;
    tune_case c;
    lw_solve_options none = {0};
    lw_map_place places[12];
    lw_parallel how = {.threads = 2};
    tune_case_make("single-cut", &none, &c);
    lw_map_request request = ask(&c, 4, 3);
    request.pavilion = (lw_map_axis){40.0, 46.0, 4};
    assert_int_equal(lw_map_run(&c.memory, &request, &how, places), LW_OK);
    for (int i = 0; i < 12; i++) {
        lw_override overrides[2] = {
            {"pavilion", LW_UNIT_NUMBER, lw_map_angle(&request.pavilion, i % 4)},
            {"crown", LW_UNIT_NUMBER, lw_map_angle(&request.crown, i / 4)}};
        lw_solve_options options = {.overrides = overrides, .override_count = 2};
        lw_stone stone;
        lw_light_measures m;
        assert_int_equal(lw_cut_solve(&c.memory, &c.cut, &options, &stone, NULL), LW_OK);
        assert_int_equal(lw_light_measure(&c.memory, &stone.solid, &request.look.light, &m), LW_OK);
        assert_true(places[i].there);
        assert_true(fabs(places[i].values[LW_MAP_BRIGHTNESS] - m.brightness) < 1e-4);
        assert_true(fabs(places[i].values[LW_MAP_FIRE] - m.fire_deg) < 1e-3);
        assert_true(fabs(places[i].values[LW_MAP_WINDOW] - m.window) < 1e-4);
        assert_true(places[i].window == places[i].values[LW_MAP_WINDOW]);
        assert_true(fabs(places[i].values[LW_MAP_WEIGHT] -
                         stone.measures.mass.volume / c.vary.stone.measures.mass.volume) < 1e-9);
        assert_true(fabs(places[i].flattest_deg - overrides[0].value) < 1e-9);
        lw_stone_destroy(&stone);
    }
    tune_case_drop(&c);
}

static void threads_do_not_matter(void **state)
{
    (void)state;
    tune_case c;
    lw_solve_options none = {0};
    static lw_map_place one[63], three[63];
    tune_case_make("classic-quartz-round", &none, &c);
    lw_map_request request = ask(&c, 9, 7);
    request.look.rock_deg = 7.0;
    request.window_tilt_deg = 5.0;
    lw_parallel alone = {.threads = 1}, together = {.threads = 3};
    assert_int_equal(lw_map_run(&c.memory, &request, &alone, one), LW_OK);
    assert_int_equal(lw_map_run(&c.memory, &request, &together, three), LW_OK);
    assert_memory_equal(one, three, sizeof one);
    tune_case_drop(&c);
}

/* Worked: a pavilion flatter than the critical angle (quartz 40.37) lets light from straight above
 * out at its first meeting, so the mains are a window; above it they are not. The cut's mains are
 * its flattest facets. */
static void the_window_line_lies_at_the_critical_angle(void **state)
{
    (void)state;
    tune_case c;
    lw_solve_options none = {0};
    static lw_map_place places[33 * 4];
    lw_parallel how = {.threads = 2};
    double critical = lw_asin_deg(1.0 / 1.544);
    tune_case_make("classic-quartz-round", &none, &c);
    lw_map_request request = ask(&c, 33, 4);
    assert_int_equal(lw_map_run(&c.memory, &request, &how, places), LW_OK);
    for (int i = 0; i < 33 * 4; i++) {
        double angle = lw_map_angle(&request.pavilion, i % 33);
        assert_true(places[i].there);
        assert_true(angle > critical ? places[i].window < LW_WINDOW_OPENS
                                     : places[i].window > LW_WINDOW_OPENS);
        assert_int_equal(places[i].flattest_deg > critical, angle > critical);
    }
    tune_case_drop(&c);
}

/* Stones at which a sliver of a beam once had its middle far outside of them, and so no brightness:
 * found on a map of 16,441 places. */
static void every_place_has_numbers(void **state)
{
    (void)state;
    static const double places[][2] = {{41.1375, 40.05}, {41.3, 36.2},    {43.425, 35.925},
                                       {43.6125, 35.1},  {43.9125, 38.4}, {44.1125, 38.675},
                                       {44.625, 34.825}, {44.625, 35.1}};
    tune_case c;
    lw_solve_options none = {0};
    tune_case_make("classic-quartz-round", &none, &c);
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        lw_look look = tune_case_look(1.5472, 1.5553, 1.5437);
        lw_stone stone;
        lw_seen seen;
        assert_int_equal(lw_vary_stone(&c.vary, &c.memory, c.handles, places[i], 2, &stone), LW_OK);
        assert_int_equal(lw_look_at(&c.memory, &stone.solid, 8, &look, &seen), LW_OK);
        assert_true(isfinite(seen.brightness) && seen.brightness > 0.3);
        assert_true(isfinite(seen.contrast) && seen.contrast > 0.0);
        assert_true(isfinite(seen.error_est));
        lw_stone_destroy(&stone);
    }
    tune_case_drop(&c);
}

static void the_best_place_is_the_best(void **state)
{
    (void)state;
    lw_map_request request = {.pavilion = {40.0, 42.0, 3}, .crown = {30.0, 31.0, 2}};
    lw_map_place places[6] = {0};
    assert_int_equal(lw_map_best(&request, places, LW_MAP_BRIGHTNESS), -1);
    for (int i = 1; i < 6; i++) {
        places[i].there = true;
        places[i].values[LW_MAP_BRIGHTNESS] = i == 4 ? 0.9 : 0.5;
        places[i].values[LW_MAP_LEAK] = i == 2 ? 0.1 : 0.3;
    }
    places[0].values[LW_MAP_BRIGHTNESS] = 2.0; /* has no stone */
    assert_int_equal(lw_map_best(&request, places, LW_MAP_BRIGHTNESS), 4);
    assert_int_equal(lw_map_best(&request, places, LW_MAP_LEAK), 2);
    assert_true(lw_map_angle(&request.pavilion, 0) == 40.0);
    assert_true(lw_map_angle(&request.pavilion, 1) == 41.0);
    assert_true(lw_map_angle(&request.pavilion, 2) == 42.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_circle_is_one_closed_line),
        cmocka_unit_test(a_plane_has_straight_open_lines),
        cmocka_unit_test(saddles_and_holes),
        cmocka_unit_test(refused_memory_leaves_nothing),
        cmocka_unit_test(places_are_what_is_measured_there),
        cmocka_unit_test(threads_do_not_matter),
        cmocka_unit_test(the_window_line_lies_at_the_critical_angle),
        cmocka_unit_test(every_place_has_numbers),
        cmocka_unit_test(the_best_place_is_the_best),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
