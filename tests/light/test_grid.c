/* Exact beams against a grid of rays as dense as a large picture: 1,024 x 1,024 pixels, or, with
 * LW_LONG in the environment, 4,096 x 4,096 by wide rays and as many rays one by one in double
 * precision. Prints what docs/light.md records. */
#include "light/built_in.h"
#include "light/near.h"
#include "light/sampled.h"
#include "light/wide_grid.h"

#include <stdio.h>
#include <stdlib.h>

typedef struct grid_case {
    const char *material, *cut;
    double tilt_deg;
} grid_case;

/* The turn is none of the stone's own, so that no edge runs along a row of pixels. */
#define TURN_DEG 7.0

static const grid_case cases[] = {
    {"quartz", "classic-quartz-round", 0.0}, {"quartz", "classic-quartz-round", 13.0},
    {"corundum", "round-brilliant", 0.0},    {"corundum", "round-brilliant", 13.0},
    {"diamond", "round-brilliant", 0.0},     {"diamond", "round-brilliant", 13.0},
};
enum { CASES = sizeof cases / sizeof cases[0] };

static bool is_long(void)
{
    return getenv("LW_LONG") != NULL;
}

typedef struct posed {
    lw_stone stone;
    lw_light_options options;
    lw_light_measures beams;
} posed;

static posed pose(const grid_case *c)
{
    lw_memory memory = lw_memory_standard();
    lw_cut cut = built_in_cut(c->cut, false);
    posed made = {.stone = built_in_stone(&cut, NULL, 0), .options = lw_light_defaults(1.0)};
    lw_cut_destroy(&cut);
    made.options.index = built_in_index(c->material);
    made.options.tilt_deg = c->tilt_deg;
    made.options.turn_deg = TURN_DEG;
    double error = is_long() ? 1e-5 : 5e-5;
    assert_int_equal(
        lw_light_measure_to(&memory, &made.stone.solid, &made.options, error, &made.beams), LW_OK);
    assert_true(made.beams.error_est <= error);
    return made;
}

static void say(const grid_case *c, const char *how, double brightness, double error,
                const lw_light_measures *beams)
{
    print_message("%-9s %2.0f deg  %-22s %.6f +- %.1e; beams %.6f +- %.1e, apart %+.1e\n",
                  c->material, c->tilt_deg, how, brightness, error, beams->brightness,
                  beams->error_est, beams->brightness - brightness);
}

/* worked: two ways to the same number; 2e-4 whatever either says of its own error. Other measures
 * are of like size and have like errors; single precision is 1e-6 of what is summed. */
static void beams_against_wide_rays(void **state)
{
    (void)state;
    int side = is_long() ? 4096 : 1024;
    lw_memory memory = lw_memory_standard();
    for (int i = 0; i < CASES; i++) {
        posed p = pose(&cases[i]);
        lw_optic_solid solid;
        assert_int_equal(lw_optic_solid_make(&memory, &p.stone.solid, &solid), LW_OK);
        wide_grid grid = wide_grid_look(&solid, &p.options, side);
        char how[40];
        snprintf(how, sizeof how, "grid of %d^2", side);
        say(&cases[i], how, grid.brightness, grid.error, &p.beams);
        double room = p.beams.error_est + grid.error + 1e-6;
        assert_true(grid.hits > (long)side * side / 2);
        assert_near(p.beams.brightness, grid.brightness, fmin(room, 2e-4));
        assert_near(p.beams.leak, grid.leak, 2.0 * room);
        assert_near(p.beams.window, grid.window, 2.0 * room);
        assert_near(p.beams.extinction, grid.extinction, 2.0 * room);
        assert_near(p.beams.glare, grid.glare, 2.0 * room);
        assert_near(p.beams.reflected, grid.reflected, 2.0 * room);
        lw_optic_solid_destroy(&solid);
        lw_stone_destroy(&p.stone);
    }
}

static void beams_against_plain_rays(void **state)
{
    (void)state;
    int rays = is_long() ? 1 << 24 : 1 << 16;
    lw_memory memory = lw_memory_standard();
    for (int i = 0; i < CASES; i++) {
        posed p = pose(&cases[i]);
        lw_light_measures plain;
        assert_int_equal(
            lw_light_measure_by_rays(&memory, &p.stone.solid, &p.options, rays, &plain), LW_OK);
        char how[40];
        snprintf(how, sizeof how, "%d rays, one by one", rays);
        say(&cases[i], how, plain.brightness, plain.error_est, &p.beams);
        double room = p.beams.error_est + plain.error_est;
        assert_near(p.beams.brightness, plain.brightness, is_long() ? fmin(room, 2e-4) : room);
        /* fire is told from what beams resolve: the rest may spread half or twice as far */
        double rest = p.beams.unresolved / p.beams.brightness;
        assert_near(p.beams.fire_deg, plain.fire_deg, (rest + 5.0 * room) * plain.fire_deg);
        assert_near(p.beams.contrast, plain.contrast, p.beams.unresolved + 3.0 * room);
        print_message("%-9s %2.0f deg  fire %.5f by rays, %.5f by beams, which leave %.1e "
                      "unresolved; contrast %.5f, %.5f\n",
                      cases[i].material, cases[i].tilt_deg, plain.fire_deg, p.beams.fire_deg,
                      p.beams.unresolved, plain.contrast, p.beams.contrast);
        lw_stone_destroy(&p.stone);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(beams_against_wide_rays),
        cmocka_unit_test(beams_against_plain_rays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
