/* The search for the best angles, on hills whose tops are known. */
#include "climb_nlopt.h"
#include "meter.h"
#include "tune.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

static const lw_climber *const climbers[] = {&lw_climber_pattern, &lw_climber_nlopt};
enum { CLIMBERS = 2 };

/* A parabola of height 2 over pavilion and crown, its top at top_*, falling by 1 at a distance of
 * half_width; shut from fence_deg of pavilion on, and without any stone below hole_deg of crown. */
typedef struct hill {
    double top_pavilion, top_crown, half_width;
    double fence_deg, hole_deg;
    int asked, fails_at;
} hill;

static lw_status judge_hill(void *context, lw_try *place)
{
    hill *h = context;
    double x = (place->values[0] - h->top_pavilion) / h->half_width;
    double y = (place->values[1] - h->top_crown) / h->half_width;
    if (++h->asked == h->fails_at) {
        return LW_NO_MEMORY;
    }
    place->there = place->values[1] >= h->hole_deg;
    place->excess = fmax(place->values[0] - h->fence_deg, 0.0);
    place->score = fmax(2.0 - x * x - y * y, 0.0);
    return LW_OK;
}

static const lw_handle handles[2] = {
    {LW_HANDLE_PAVILION, 0, LW_UNIT_DEG, 42.0, 38.0, 46.0, "pavilion main"},
    {LW_HANDLE_CROWN, 1, LW_UNIT_DEG, 35.0, 25.0, 45.0, "crown main"},
};

static const hill open_hill = {41.317, 30.261, 3.0, 90.0, 0.0, 0, 0};

static lw_tune_request request_of(hill *h, const lw_climber *climber)
{
    return (lw_tune_request){.handle_count = 2,
                             .handles = handles,
                             .judge = {judge_hill, h},
                             .climber = climber,
                             .seed = 1,
                             .whole_deg = 0.05};
}

static lw_tune *run(const lw_tune_request *request, int budget)
{
    lw_memory memory = lw_memory_standard();
    lw_tune *tune = NULL;
    double progress = 0.0;
    assert_int_equal(lw_tune_new(&memory, request, &tune), LW_OK);
    while (!lw_tune_is_done(tune)) {
        int before = lw_tune_tries(tune);
        assert_int_equal(lw_tune_step(tune, budget), LW_OK);
        assert_true(lw_tune_tries(tune) <= before + budget);
        assert_true(lw_tune_progress(tune) >= progress && lw_tune_progress(tune) <= 1.0);
        progress = lw_tune_progress(tune);
    }
    assert_true(progress == 1.0);
    return tune;
}

/* Worked: the top's nearest whole twentieths of a degree are 41.3 and 30.25, whose score falls
 * short of 2 by ((0.017)^2 + (0.011)^2) / 9 = 4.6e-5. */
static void the_top_is_found_in_whole_steps(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hill h = open_hill;
        lw_tune_request request = request_of(&h, climbers[i]);
        lw_tune *tune = run(&request, 25);
        const lw_try *best = lw_tune_best(tune);
        assert_true(best->values[0] == 41.3 && best->values[1] == 30.25);
        assert_true(fabs(best->score - (2.0 - 4.6e-5)) < 1e-6);
        assert_true(lw_tune_start(tune)->values[0] == 42.0);
        assert_int_equal(lw_tune_tries(tune), h.asked);
        lw_tune_destroy(tune);
    }
}

static void the_top_is_found_as_it_is(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hill h = open_hill;
        lw_tune_request request = request_of(&h, climbers[i]);
        request.whole_deg = 0.0;
        lw_tune *tune = run(&request, 1000);
        assert_true(fabs(lw_tune_best(tune)->values[0] - 41.317) < 0.02);
        assert_true(fabs(lw_tune_best(tune)->values[1] - 30.261) < 0.02);
        lw_tune_destroy(tune);
    }
}

/* Worked: 2 - x^2 / 9 has fallen by a hundredth of 2 at x = sqrt(0.18) = 0.4243, counted from the
 * top; the other unknown stands 0.011 off its own, which is nothing beside it. */
static void flatness_of_a_parabola(void **state)
{
    (void)state;
    hill h = open_hill;
    lw_tune_request request = request_of(&h, &lw_climber_pattern);
    lw_tune *tune = run(&request, 10);
    const double tops[2] = {41.317, 30.261};
    for (int i = 0; i < 2; i++) {
        const lw_flat *flat = lw_tune_flat(tune, i);
        assert_int_equal(flat->low_end, LW_FLAT_FALLS);
        assert_int_equal(flat->high_end, LW_FLAT_FALLS);
        assert_true(fabs(flat->low - (tops[i] - 0.4243)) < 1.5 * LW_TUNE_FLAT_DEG);
        assert_true(fabs(flat->high - (tops[i] + 0.4243)) < 1.5 * LW_TUNE_FLAT_DEG);
    }
    lw_tune_destroy(tune);
}

/* The top lies beyond the fence at 41 degrees and beyond the end of the crown's range: the best is
 * at both, and the flat parts end there. */
static void limits_and_ranges_are_kept(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hill h = open_hill;
        h.fence_deg = 41.0;
        h.top_crown = 45.2;
        lw_tune_request request = request_of(&h, climbers[i]);
        lw_tune *tune = run(&request, 13);
        const lw_try *best = lw_tune_best(tune);
        assert_true(best->there && best->excess == 0.0);
        assert_true(best->values[0] <= 41.0 && best->values[0] >= 40.9);
        assert_true(best->values[1] <= 45.0 && best->values[1] >= 44.9);
        assert_int_equal(lw_tune_flat(tune, 0)->high_end, LW_FLAT_LIMIT);
        assert_true(lw_tune_flat(tune, 0)->high <= 41.0);
        assert_int_equal(lw_tune_flat(tune, 1)->high_end, LW_FLAT_RANGE);
        assert_true(lw_tune_flat(tune, 1)->high == 45.0);
        lw_tune_destroy(tune);
    }
}

/* Nothing below 40 degrees of crown has a stone, and the start has none. */
static void a_start_without_a_stone_is_left(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hill h = open_hill;
        h.hole_deg = 40.0;
        h.half_width = 12.0; /* so that the score is above 0 in all of the box */
        lw_tune_request request = request_of(&h, climbers[i]);
        lw_tune *tune = run(&request, 50);
        assert_false(lw_tune_start(tune)->there);
        assert_true(lw_tune_best(tune)->there);
        assert_true(fabs(lw_tune_best(tune)->values[1] - 40.0) < 0.051);
        lw_tune_destroy(tune);
    }
}

/* No place keeps the limit: the best is the one that comes nearest, at the low end. */
static void what_cannot_be_kept_is_said(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hill h = open_hill;
        h.fence_deg = 37.0;
        lw_tune_request request = request_of(&h, climbers[i]);
        lw_tune *tune = run(&request, 50);
        assert_true(lw_tune_best(tune)->there);
        assert_true(fabs(lw_tune_best(tune)->excess - 1.0) < 0.02);
        lw_tune_destroy(tune);
    }
}

static void budgets_do_not_matter(void **state)
{
    (void)state;
    static const int budgets[] = {1, 9, 10000};
    for (int i = 0; i < CLIMBERS; i++) {
        lw_try first = {0};
        for (int b = 0; b < 3; b++) {
            hill h = open_hill;
            lw_tune_request request = request_of(&h, climbers[i]);
            request.whole_deg = 0.0;
            lw_tune *tune = run(&request, budgets[b]);
            const lw_try *best = lw_tune_best(tune);
            assert_true(b == 0 ||
                        (best->values[0] == first.values[0] && best->values[1] == first.values[1]));
            first = *best;
            lw_tune_destroy(tune);
        }
    }
}

/* A judge that runs out of memory at any try, and a search that does itself. */
static void failures_stay(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    for (int at = 1; at < 250; at += 31) {
        hill h = open_hill;
        lw_tune *tune = NULL;
        h.fails_at = at;
        lw_tune_request request = request_of(&h, &lw_climber_pattern);
        assert_int_equal(lw_tune_new(&memory, &request, &tune), LW_OK);
        assert_int_equal(lw_tune_step(tune, 100000), LW_NO_MEMORY);
        assert_false(lw_tune_is_done(tune));
        assert_int_equal(lw_tune_step(tune, 10), LW_NO_MEMORY);
        lw_tune_destroy(tune);
    }
    for (long n = 1; n <= 3; n++) {
        hill h = open_hill;
        meter m = {.refuse_at = n};
        lw_memory scarce = meter_memory(&m);
        lw_tune *tune = NULL;
        lw_tune_request request = request_of(&h, &lw_climber_pattern);
        lw_status status = lw_tune_new(&scarce, &request, &tune);
        if (status == LW_OK) {
            status = lw_tune_step(tune, 100000);
        }
        assert_int_equal(status, LW_NO_MEMORY);
        lw_tune_destroy(tune);
        assert_int_equal(m.held, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_top_is_found_in_whole_steps),
        cmocka_unit_test(the_top_is_found_as_it_is),
        cmocka_unit_test(flatness_of_a_parabola),
        cmocka_unit_test(limits_and_ranges_are_kept),
        cmocka_unit_test(a_start_without_a_stone_is_left),
        cmocka_unit_test(what_cannot_be_kept_is_said),
        cmocka_unit_test(budgets_do_not_matter),
        cmocka_unit_test(failures_stay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
