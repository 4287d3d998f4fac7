/* What tilting does: study/tilt.h. Run under the thread sanitizer too (label: threads). */
#include "tilt.h"

#include "geom/angle.h"
#include "light/near.h"
#include "light/shape.h"
#include "meter.h"

static const lw_parallel alone = {.threads = 1};

static lw_tilt_request request_for(const shape *stone, double index, int spokes)
{
    lw_tilt_request request = {.solid = &stone->solid,
                               .look = lw_light_defaults(index),
                               .most_deg = 40.0,
                               .tilt_step_deg = 2.0,
                               .spokes = spokes};
    request.look.bound = 1e-4;
    return request;
}

/* ---- when the window opens ------------------------------------------------ */

/* worked, from Snell's law: the far side of a pavilion of P is met at P less the angle that the ray
 * takes inside, so that it lets light through from a tilt of asin(n sin(P - crit)) on. From there
 * the window is open only a little: it may show as much as 0.2 degrees later. */
static double worked_opening_deg(double index, double pavilion_deg)
{
    double critical_deg = lw_atan2_deg(1.0, sqrt(index * index - 1.0));
    double sine = index * lw_sincos_deg(pavilion_deg - critical_deg).sin;
    return lw_atan2_deg(sine, sqrt(1.0 - sine * sine));
}

static void a_trough_opens_where_snell_says(void **state)
{
    (void)state;
    const double index[] = {1.544, 1.77}, pavilion_deg[] = {43.0, 41.0};
    const double published_deg[] = {4.1, 11.7}; /* the two cases as they are taught, to 0.1 */
    for (int i = 0; i < 2; i++) {
        shape trough = shape_trough(pavilion_deg[i]);
        lw_tilt_request request = request_for(&trough, index[i], 8);
        lw_tilt_window found;
        assert_int_equal(lw_tilt_window_find(&trough.memory, &request, &found), LW_OK);
        double worked = worked_opening_deg(index[i], pavilion_deg[i]);
        assert_near(worked, published_deg[i], 0.05);
        assert_true(found.opens);
        assert_true(found.clear_to_deg > worked - LW_TILT_CLEAR_DEG);
        assert_true(found.clear_to_deg < worked + 0.2);
        assert_true(found.face_up < 1e-9);
        assert_true(found.turn_deg == 0.0); /* the first of two that are alike */
        assert_int_equal(found.plane, 0); /* seen through the table, out by the side that the … */
        assert_int_equal(found.behind, 2); /* … eye leans away from */
        assert_true(found.share > LW_WINDOW_SHOWS);
        shape_destroy(&trough);
    }
}

/* worked: in the round the mains' plane through the axis is the trough's; breaks and the facets
 * between change where it shows first by little, and all eight directions are alike. */
static void a_round_opens_about_there(void **state)
{
    (void)state;
    shape round = shape_round(41.0, 37.0, 0.56, 0.5, 0.78);
    lw_tilt_request request = request_for(&round, 1.77, 32);
    lw_tilt_window found;
    assert_int_equal(lw_tilt_window_find(&round.memory, &request, &found), LW_OK);
    double worked = worked_opening_deg(1.77, 41.0);
    assert_true(found.opens);
    assert_near(found.clear_to_deg, worked, 1.5);
    assert_true(found.plane == round.solid.plane_count - 1); /* the table, last in shape_round */
    assert_true(found.turn_deg < 45.0);
    shape_destroy(&round);
}

/* worked: fluorite's critical angle is 44.21 degrees, so that a pavilion of 43 windows face-up; no
 * pavilion of diamond's does (24.44) until the tilt is asin(2.417 sin(41 - 24.44)) = 43.6. */
static void open_at_once_or_not_at_all(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_tilt_request request = request_for(&trough, 1.434, 4);
    lw_tilt_window found;
    assert_int_equal(lw_tilt_window_find(&trough.memory, &request, &found), LW_OK);
    assert_true(found.opens);
    assert_true(found.clear_to_deg == 0.0);
    assert_true(found.face_up > 0.1);
    shape_destroy(&trough);

    trough = shape_trough(41.0);
    request = request_for(&trough, 2.417, 4);
    assert_true(worked_opening_deg(2.417, 41.0) > 43.0);
    assert_int_equal(lw_tilt_window_find(&trough.memory, &request, &found), LW_OK);
    assert_false(found.opens);
    assert_true(found.clear_to_deg == request.most_deg);
    shape_destroy(&trough);
}

/* ---- the map ------------------------------------------------------------- */

static void same_measures(const lw_light_measures *a, const lw_light_measures *b, double within)
{
    assert_near(a->brightness, b->brightness, within);
    assert_near(a->window, b->window, within);
    assert_near(a->leak, b->leak, within);
    assert_near(a->extinction, b->extinction, within);
    assert_near(a->glare, b->glare, within);
}

/* Directions that the map takes for alike, measured one by one: of 32 around an eight-fold mirrored
 * stone three kinds are. A ray that finishes a piece and passes close by an edge may go the other
 * way in a turned copy: such a piece carries no more than the bound. */
static void copies_are_what_measuring_gives(void **state)
{
    (void)state;
    shape round = shape_round(43.0, 42.0, 0.52, 0.5, 0.8);
    lw_tilt_request request = request_for(&round, 1.544, 32);
    request.tilt_step_deg = 20.0;
    request.look.bound = 1e-5;
    lw_tilt_map map;
    assert_int_equal(lw_tilt_map_make(&round.memory, &request, &alone, &map), LW_OK);
    assert_int_equal(map.rings, 3);
    for (int ring = 0; ring < map.rings; ring++) {
        for (int spoke = 0; spoke < map.spokes; spoke++) {
            lw_light_options look = request.look;
            lw_light_measures m;
            look.tilt_deg = map.tilt_deg[ring];
            look.turn_deg = 360.0 * spoke / map.spokes;
            assert_int_equal(lw_light_measure(&round.memory, &round.solid, &look, &m), LW_OK);
            const lw_light_measures *told = &map.light[ring * map.spokes + spoke];
            same_measures(told, &m, told->error_est + m.error_est);
        }
    }
    /* and there is something to be copied wrongly */
    assert_true(fabs(map.light[32].brightness - map.light[34].brightness) > 1e-3);
    lw_tilt_map_destroy(&map);
    lw_tilt_map_destroy(&map);
    shape_destroy(&round);
}

/* worked: a ring's mean is the mean of its cells, its unrest that of one half less the other; the
 * ring of no tilt is one direction. */
static void rings(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_tilt_request request = request_for(&trough, 1.544, 6);
    request.most_deg = 25.0;
    request.tilt_step_deg = 10.0;
    lw_tilt_map map;
    assert_int_equal(lw_tilt_map_make(&trough.memory, &request, &alone, &map), LW_OK);
    assert_int_equal(map.rings, 4);
    assert_true(map.tilt_deg[0] == 0.0 && map.tilt_deg[2] == 20.0 && map.tilt_deg[3] == 25.0);
    size_t window = offsetof(lw_light_measures, window);
    for (int ring = 0; ring < map.rings; ring++) {
        double sum = 0.0;
        for (int spoke = 0; spoke < 6; spoke++)
            sum += map.light[ring * 6 + spoke].window;
        assert_near(lw_tilt_ring_mean(&map, ring, window), sum / 6.0, 1e-15);
        const lw_light_measures *row = map.light + ring * 6;
        double halves = row[0].window - row[1].window + row[2].window - row[3].window +
                        row[4].window - row[5].window;
        assert_near(lw_tilt_ring_unsettled(&map, ring, window), fabs(halves) / 3.0, 1e-15);
    }
    for (int spoke = 1; spoke < 6; spoke++)
        assert_memory_equal(&map.light[0], &map.light[spoke], sizeof map.light[0]);
    /* along the trough's keel both sides stay as far from the critical angle as they were */
    assert_true(map.light[2 * 6 + 0].window > 0.05);
    lw_tilt_map_destroy(&map);
    shape_destroy(&trough);
}

/* The same bits on one thread as on two, and on as many as the machine has. */
static void threads_change_nothing(void **state)
{
    (void)state;
    shape round = shape_round(41.0, 34.0, 0.56, 0.5, 0.78);
    lw_tilt_request request = request_for(&round, 2.417, 12);
    request.look.bound = 1e-3;
    request.tilt_step_deg = 20.0;
    lw_tilt_map first;
    assert_int_equal(lw_tilt_map_make(&round.memory, &request, &alone, &first), LW_OK);
    for (int threads = 0; threads <= 2; threads += 2) {
        lw_parallel how = {.threads = threads};
        lw_tilt_map next;
        assert_int_equal(lw_tilt_map_make(&round.memory, &request, &how, &next), LW_OK);
        size_t cells = (size_t)first.rings * (size_t)first.spokes;
        assert_memory_equal(first.light, next.light, cells * sizeof *first.light);
        lw_tilt_map_destroy(&next);
    }
    lw_tilt_map_destroy(&first);
    shape_destroy(&round);
}

/* ---- what is refused ------------------------------------------------------ */

static void what_is_refused(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_tilt_request good = request_for(&trough, 1.544, 8);
    lw_tilt_request wrong[8];
    for (int i = 0; i < 8; i++)
        wrong[i] = good;
    wrong[0].most_deg = 0.0;
    wrong[1].most_deg = 90.0;
    wrong[2].most_deg = (double)NAN;
    wrong[3].tilt_step_deg = 0.0;
    wrong[4].tilt_step_deg = 1e-3;
    wrong[5].spokes = 0;
    wrong[6].spokes = LW_TILT_MOST_SPOKES + 1;
    wrong[7].look.index.yellow = 0.5;
    for (int i = 0; i < 8; i++) {
        lw_tilt_map map, map_before;
        lw_tilt_window window, window_before;
        memset(&map, 0x5a, sizeof map);
        memset(&window, 0x5a, sizeof window);
        map_before = map;
        window_before = window;
        assert_int_equal(lw_tilt_map_make(&trough.memory, &wrong[i], &alone, &map), LW_BAD_INPUT);
        assert_int_equal(lw_tilt_window_find(&trough.memory, &wrong[i], &window), LW_BAD_INPUT);
        assert_memory_equal(&map, &map_before, sizeof map);
        assert_memory_equal(&window, &window_before, sizeof window);
    }
    shape_destroy(&trough);
}

static void cancelled(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_tilt_request request = request_for(&trough, 1.544, 8);
    atomic_bool stop = true;
    lw_parallel how = {.threads = 2, .cancel = &stop};
    meter m = {0};
    lw_memory memory = meter_memory(&m);
    lw_tilt_map map;
    assert_int_equal(lw_tilt_map_make(&memory, &request, &how, &map), LW_CANCELLED);
    assert_int_equal(m.held, 0);
    shape_destroy(&trough);
}

/* Each request for memory refused in turn: an error, nothing held, the output as it was. */
static void memory_refused(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_tilt_request request = request_for(&trough, 1.544, 2);
    request.look.bound = 1e-2;
    request.most_deg = 4.0;
    bool map_done = false, window_done = false;
    int tried = 0;
    for (long n = 1; !map_done || !window_done; n++) {
        meter m = {.refuse_at = n};
        lw_memory memory = meter_memory(&m);
        lw_tilt_map map = {.rings = -7};
        lw_status status = lw_tilt_map_make(&memory, &request, &alone, &map);
        map_done = status == LW_OK;
        assert_true(map_done || (status == LW_NO_MEMORY && map.rings == -7));
        if (map_done)
            lw_tilt_map_destroy(&map);
        assert_int_equal(m.held, 0);
        m = (meter){.refuse_at = n};
        lw_tilt_window window = {.plane = -7};
        status = lw_tilt_window_find(&memory, &request, &window);
        window_done = status == LW_OK;
        assert_true(window_done || (status == LW_NO_MEMORY && window.plane == -7));
        assert_int_equal(m.held, 0);
        tried++;
    }
    assert_true(tried > 10);
    shape_destroy(&trough);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_trough_opens_where_snell_says),
        cmocka_unit_test(a_round_opens_about_there),
        cmocka_unit_test(open_at_once_or_not_at_all),
        cmocka_unit_test(copies_are_what_measuring_gives),
        cmocka_unit_test(rings),
        cmocka_unit_test(threads_change_nothing),
        cmocka_unit_test(what_is_refused),
        cmocka_unit_test(cancelled),
        cmocka_unit_test(memory_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
