/* Both climbers, held to the same promises. */
#include "climb_nlopt.h"
#include "meter.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

static const lw_climber *const climbers[] = {&lw_climber_pattern, &lw_climber_nlopt};
enum { CLIMBERS = 2 };

/* Two hills: a broad one at (0.75, 0.2), of height 1, and one of height 2 at (0.3, 0.6), a tenth as
 * wide. Worked: at the higher one's top the other has exp(-0.3625 / 0.18) = 0.1335 left. */
typedef struct hills {
    int asked;
    double best, at[2];
    unsigned long long trail; /* of all places, in their order */
    int outside;
} hills;

static double hills_at(void *context, const double *place)
{
    hills *h = context;
    double bx = place[0] - 0.75, by = place[1] - 0.2, nx = place[0] - 0.3, ny = place[1] - 0.6;
    double score =
        exp(-(bx * bx + by * by) / 0.18) + 2.0 * exp(-(nx * nx + ny * ny) / (0.18 / 16.0));
    for (int i = 0; i < 2; i++) {
        h->outside += place[i] >= 0.0 && place[i] <= 1.0 ? 0 : 1;
        h->trail = (h->trail ^ (unsigned long long)(place[i] * 1e15)) * 1099511628211ULL;
    }
    h->asked++;
    if (score > h->best) {
        h->best = score;
        h->at[0] = place[0];
        h->at[1] = place[1];
    }
    return score;
}

static void climb(const lw_climber *climber, const lw_climb *what, int budget, hills *h)
{
    lw_memory memory = lw_memory_standard();
    void *state = NULL;
    bool done = false;
    assert_int_equal(climber->begin(&memory, what, &state), LW_OK);
    while (!done) {
        int before = h->asked;
        assert_int_equal(climber->step(state, budget, hills_at, h, &done), LW_OK);
        assert_true(h->asked - before <= budget);
        assert_true(done || h->asked > before);
    }
    climber->end(state);
    assert_int_equal(h->outside, 0);
    assert_true(h->asked <= what->most);
}

static lw_climb everywhere(unsigned seed)
{
    return (lw_climb){.kind = LW_CLIMB_EVERYWHERE, .count = 2, .most = 200, .seed = seed};
}

static lw_climb from(const double at[2])
{
    return (lw_climb){.kind = LW_CLIMB_FROM_START,
                      .count = 2,
                      .start = {at[0], at[1]},
                      .first_step = 0.08,
                      .tolerance = 1e-5,
                      .most = 400};
}

static void the_higher_of_two_hills_is_found(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        for (unsigned seed = 1; seed <= 5; seed++) {
            hills h = {0};
            lw_climb first = everywhere(seed);
            climb(climbers[i], &first, 200, &h);
            assert_true(h.best > 1.2); /* the lower hill alone has 1.0 at most */
            lw_climb second = from(h.at);
            h.asked = 0;
            climb(climbers[i], &second, 400, &h);
            assert_true(fabs(h.at[0] - 0.3) < 5e-3 && fabs(h.at[1] - 0.6) < 5e-3);
            assert_true(h.best > 2.1335 && h.best < 2.135);
        }
    }
}

/* From the foot of the lower hill a climb goes up that one: it is the nearest. */
static void a_climb_goes_to_the_nearest_top(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        hills h = {0};
        lw_climb local = from((double[]){0.9, 0.05});
        climb(climbers[i], &local, 400, &h);
        assert_true(fabs(h.at[0] - 0.75) < 1e-2 && fabs(h.at[1] - 0.2) < 1e-2);
        assert_true(h.asked < 400); /* it ended because it had arrived */
    }
}

static void steps_of_any_size_ask_for_the_same_places(void **state)
{
    (void)state;
    static const int budgets[] = {1, 7, 50, 1000};
    for (int i = 0; i < CLIMBERS; i++) {
        for (int kind = 0; kind < 2; kind++) {
            unsigned long long trail = 0;
            for (size_t b = 0; b < sizeof budgets / sizeof budgets[0]; b++) {
                hills h = {0};
                lw_climb what = kind == 0 ? everywhere(3) : from((double[]){0.5, 0.5});
                climb(climbers[i], &what, budgets[b], &h);
                assert_true(b == 0 || h.trail == trail);
                trail = h.trail;
            }
        }
    }
}

static void another_seed_looks_elsewhere_and_the_same_at_the_same(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        unsigned long long trails[3];
        static const unsigned seeds[3] = {1, 2, 1};
        for (int k = 0; k < 3; k++) {
            hills h = {0};
            lw_climb what = everywhere(seeds[k]);
            climb(climbers[i], &what, 40, &h);
            trails[k] = h.trail;
        }
        assert_true(trails[0] == trails[2]);
        assert_true(trails[0] != trails[1]);
    }
}

static void refused_memory_leaves_nothing(void **state)
{
    (void)state;
    for (int i = 0; i < CLIMBERS; i++) {
        for (long n = 1; n <= 2; n++) {
            meter m = {.refuse_at = n};
            lw_memory memory = meter_memory(&m);
            lw_climb what = everywhere(1);
            void *climbing = NULL;
            lw_status status = climbers[i]->begin(&memory, &what, &climbing);
            if (status == LW_OK) {
                climbers[i]->end(climbing);
            } else {
                assert_int_equal(status, LW_NO_MEMORY);
                assert_null(climbing);
            }
            assert_true(n > 1 || status == LW_NO_MEMORY);
            assert_int_equal(m.held, 0);
        }
        climbers[i]->end(NULL);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_higher_of_two_hills_is_found),
        cmocka_unit_test(a_climb_goes_to_the_nearest_top),
        cmocka_unit_test(steps_of_any_size_ask_for_the_same_places),
        cmocka_unit_test(another_seed_looks_elsewhere_and_the_same_at_the_same),
        cmocka_unit_test(refused_memory_leaves_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
