/* Specific gravity by weighing: matter/weigh.h. */
#include "matter/near.h"
#include "matter/weigh.h"

#include <string.h>

static double water(double temperature_c)
{
    double density = 0.0;
    assert_int_equal(lw_water_density(temperature_c, &density), LW_OK);
    return density;
}

/* from memory: handbooks' densities of water, g/cm3, to the last place given; 3.98 C is the
 * densest, 0.999975 (Tanaka et al. 2001). */
static void density_of_water(void **state)
{
    (void)state;
    const double rows[][2] = {{0.0, 0.99984},  {4.0, 0.99997},  {10.0, 0.99970}, {15.0, 0.99910},
                              {20.0, 0.99821}, {25.0, 0.99705}, {30.0, 0.99565}, {40.0, 0.99222}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_near(water(rows[i][0]), rows[i][1], 5.1e-6);
    }
    /* from memory: the table that the formula was published with, kg/m3. */
    const double fine[][2] = {
        {10.0, 999.7027}, {15.0, 999.1026}, {20.0, 998.2067}, {25.0, 997.0470}, {30.0, 995.6488}};
    for (size_t i = 0; i < sizeof fine / sizeof fine[0]; i++) {
        assert_near(1000.0 * water(fine[i][0]), fine[i][1], 1e-4);
    }
    assert_near(water(3.983035), 0.99997495, 1e-12);
    assert_true(water(3.9) < water(3.983035) && water(4.1) < water(3.983035));
    double density = 7.0;
    const double bad[] = {-0.001, 40.001, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(lw_water_density(bad[i], &density), LW_BAD_INPUT);
    }
    assert_near(density, 7.0, 0.0);
}

static lw_gravity weigh(double air, double in_water, double temperature_c, double error)
{
    lw_weighing weighing = {air, in_water, temperature_c, error, 0.0};
    lw_gravity gravity;
    assert_int_equal(lw_weigh(&weighing, &gravity, NULL), LW_OK);
    return gravity;
}

/* published: F. B. Wade, A Text-Book of Precious Stones, 1918: 4.02 carats losing 1.00 in water is
 * 4.02, the water counting as 1. */
static void published_weighing(void **state)
{
    (void)state;
    lw_gravity gravity = weigh(4.02, 3.02, 20.0, 0.0);
    assert_near(gravity.sg / gravity.water_density, 4.02, 1e-12);
    assert_near(gravity.sg, 4.02 * 0.99821, 4.02 * 5e-6);
    assert_near(gravity.error, 0.0, 0.0);
    assert_near(gravity.least, gravity.sg, 1e-15);
    assert_near(gravity.most, gravity.sg, 1e-15);
}

/* published: 0.01 ct in the reading in water of a 2 ct ruby (SG 4.00) moves it by 0.08; worked: in
 * both readings, independent, by 0.10, at worst by 0.14. */
static void errors_of_a_small_stone(void **state)
{
    (void)state;
    lw_gravity gravity = weigh(2.0, 1.5, 15.0, 0.01);
    assert_near(gravity.sg, 4.0, 0.004);
    assert_near(gravity.error, 0.10, 0.0005);
    /* worked: 2 * .01 / .25 = .08 for the reading in water alone */
    double moved = weigh(2.0, 1.505, 15.0, 0.0).sg - weigh(2.0, 1.495, 15.0, 0.0).sg;
    assert_near(moved, 0.08, 0.0005);
    /* worked: 2.01/.52 and 1.99/.48, times .99910 */
    assert_near(gravity.least, 2.01 / 0.52 * 0.99910, 1e-4);
    assert_near(gravity.most, 1.99 / 0.48 * 0.99910, 1e-4);
    assert_near(0.5 * (gravity.most - gravity.least), 0.14, 0.001);
}

/* A made stone of known density is given back at any temperature: W_water = W (1 - rho / SG). */
static void known_density_comes_back(void **state)
{
    (void)state;
    for (double sg = 1.05; sg < 8.2; sg += 0.37) {
        for (double t = 0.0; t <= 40.0; t += 2.5) {
            double air = 3.17;
            lw_gravity gravity = weigh(air, air * (1.0 - water(t) / sg), t, 0.0);
            assert_near(gravity.sg, sg, sg * 1e-12);
        }
    }
}

/* The first-order error against the spread of many weighings with errors of +- e, seen as two
 * equal and independent steps up or down: the root mean square is the same to second order. */
static void error_matches_trials(void **state)
{
    (void)state;
    double sum = 0.0;
    lw_gravity middle = weigh(5.0, 3.1, 22.0, 0.005);
    for (int a = -1; a <= 1; a += 2) {
        for (int b = -1; b <= 1; b += 2) {
            double apart = weigh(5.0 + 0.005 * a, 3.1 + 0.005 * b, 22.0, 0.0).sg - middle.sg;
            sum += apart * apart;
        }
    }
    assert_near(sqrt(sum / 4.0), middle.error, 0.005 * middle.error);
}

/* The water's temperature: 1 degree at 20 is 0.0002, and the density has its summit at 4. */
static void temperature_counts(void **state)
{
    (void)state;
    lw_weighing weighing = {2.0, 1.5, 20.0, 0.0, 1.0};
    lw_gravity gravity;
    assert_int_equal(lw_weigh(&weighing, &gravity, NULL), LW_OK);
    assert_near(gravity.error, gravity.sg * 0.5 * (water(19.0) - water(21.0)) / water(20.0), 1e-12);
    assert_near(gravity.error, 0.00083, 0.00003);
    weighing.temperature_c = 4.0;
    assert_int_equal(lw_weigh(&weighing, &gravity, NULL), LW_OK);
    assert_near(gravity.most, 4.0 * 0.99997495, 1e-12);
    assert_true(gravity.least < gravity.sg);
}

static void bad_weighings_are_refused(void **state)
{
    (void)state;
    const struct {
        lw_weighing weighing;
        const char *says; /* part of what was found */
    } rows[] = {
        {{0.0, 0.0, 20.0, 0.0, 0.0}, "air"},       {{-2.0, 1.5, 20.0, 0.0, 0.0}, "air"},
        {{NAN, 1.5, 20.0, 0.0, 0.0}, "air"},       {{2.0, 0.0, 20.0, 0.0, 0.0}, "water"},
        {{2.0, -0.1, 20.0, 0.0, 0.0}, "water"},    {{1.5, 2.0, 20.0, 0.0, 0.0}, "not below"},
        {{2.0, 2.0, 20.0, 0.0, 0.0}, "not below"}, {{2.0, 1.5, 20.0, -0.01, 0.0}, "error"},
        {{2.0, 1.5, 20.0, 0.25, 0.0}, "loss"},     {{2.0, 1.5, 20.0, NAN, 0.0}, "error"},
        {{2.0, 1.9, 20.0, 0.05, 0.0}, "loss"},     {{2.0, 1.5, 20.0, 0.2101, 0.0}, "loss"},
        {{2.0, 1.93, 20.0, 0.0, 0.0}, "loss"},     {{2.0, 1.5, 40.1, 0.0, 0.0}, "40"},
        {{2.0, 1.5, -1.0, 0.0, 0.0}, "40"},        {{2.0, 1.5, NAN, 0.0, 0.0}, "40"},
        {{2.0, 1.5, 39.5, 0.0, 1.0}, "40"},        {{2.0, 1.5, 20.0, 0.0, -1.0}, "error"},
        {{INFINITY, 1.5, 20.0, 0.0, 0.0}, "air"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_gravity gravity = {.sg = 77.0};
        lw_problem problem = {0};
        assert_int_equal(lw_weigh(&rows[i].weighing, &gravity, &problem), LW_BAD_INPUT);
        assert_near(gravity.sg, 77.0, 0.0);
        if (strstr(problem.found, rows[i].says) == NULL) {
            fail_msg("row %zu says '%s'", i, problem.found);
        }
        assert_int_equal(lw_weigh(&rows[i].weighing, &gravity, NULL), LW_BAD_INPUT);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(density_of_water),          cmocka_unit_test(published_weighing),
        cmocka_unit_test(errors_of_a_small_stone),   cmocka_unit_test(known_density_comes_back),
        cmocka_unit_test(error_matches_trials),      cmocka_unit_test(temperature_counts),
        cmocka_unit_test(bad_weighings_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
