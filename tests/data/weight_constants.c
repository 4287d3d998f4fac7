/* The handbooks' constants for estimating a weight, W = length x width x depth (mm) x SG x k,
 * against the built-in cuts. Handbook constants are estimates for stones as they are usually cut:
 * the deviation is printed and decides nothing. What is held: bounds that any convex stone obeys,
 * that each shape has been looked at, and that the built-in round is the round of round_prior.h. */
#include "round_prior.h"

#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* published: tables derived from handbooks of gem identification (rounds D^2 h, others L W h). */
static const struct {
    const char *shape, *cut;
    double low, high;
} handbook[] = {
    {"round", "round-brilliant", .0018, .0018},
    {"round", "classic-quartz-round", .0018, .0018},
    {"round", "single-cut", .0018, .0018},
    {"emerald", "step-octagon", .0025, .0025},
    {"oval", "oval-brilliant", .0020, .0020},
    {"square cushion", "square-cushion", .0018, .0018},
    {"pear", "pear-brilliant", .0018, .0018},
    {"marquise", "marquise-brilliant", .0016, .0017},
    {"triangle, not given", "triangle-brilliant", 0.0, 0.0},
};

static lw_stone solve(const char *name, const lw_solve_options *options)
{
    lw_memory memory = lw_memory_standard();
    const lw_builtin *builtin = lw_builtin_find(name);
    assert_non_null(builtin);
    lw_cut cut;
    lw_stone stone;
    lw_problem problem;
    assert_int_equal(lw_cut_read(&memory, builtin->text, builtin->length, &cut, &problem), LW_OK);
    assert_int_equal(lw_cut_solve(&memory, &cut, options, &stone, &problem), LW_OK);
    lw_cut_destroy(&cut);
    return stone;
}

/* The outline's area: the faces that look up, seen from above. */
static double outline_area(const lw_polyhedron *solid)
{
    double area = 0.0;
    for (int i = 0; i < solid->plane_count; i++)
        area += lw_polyhedron_face_area(solid, i) * fmax(solid->planes[i].normal.z, 0.0);
    return area;
}

/* k of a stone by the product of its two widths. */
static double constant(const lw_measures *m, double plan)
{
    return m->mass.volume / (plan * m->depth) / 200.0;
}

static void print_constant(const char *name, const char *shape, double k, double low, double high)
{
    printf("%-22s %.5f  ", name, k);
    if (high == 0.0)
        printf("no figure (%s)\n", shape);
    else if (low == high)
        printf("%s %.4f: %+.1f %%\n", shape, low, 100.0 * (k / low - 1.0));
    else
        printf("%s %.4f to %.4f: %+.1f to %+.1f %%\n", shape, low, high, 100.0 * (k / high - 1.0),
               100.0 * (k / low - 1.0));
}

/* worked: a convex stone holds the two pyramids over its outline, and stays in the prism. */
static void constants(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof handbook / sizeof handbook[0]; i++) {
        lw_solve_options options = {0};
        lw_stone stone = solve(handbook[i].cut, &options);
        const lw_measures *m = &stone.measures;
        bool round = strcmp(handbook[i].shape, "round") == 0;
        double plan = round ? m->width * m->width : m->length * m->width;
        print_constant(handbook[i].cut, handbook[i].shape, constant(m, plan), handbook[i].low,
                       handbook[i].high);
        if (round)
            print_constant("  corner to corner", "round", constant(m, m->diameter * m->diameter),
                           handbook[i].low, handbook[i].high);
        double prism = outline_area(&stone.solid) * m->depth;
        assert_true(m->mass.volume > prism / 3.0 && m->mass.volume < prism);
        assert_true(prism <= m->length * m->width * m->depth * (1.0 + 1e-12));
        lw_stone_destroy(&stone);
    }
}

/* The built-in round with a level girdle of 16 and the planes of round_prior.c are one solid. */
static void the_same_round(void **state)
{
    (void)state;
    const double settings[][6] = {{40.8, 34.5, 56, 50, 77, 3.5}, {41.4, 33.0, 60, 55, 80, 3.0}};
    for (int i = 0; i < 2; i++) {
        const double *s = settings[i];
        const lw_override overrides[] = {
            {"pavilion", LW_UNIT_NUMBER, s[0]}, {"crown", LW_UNIT_NUMBER, s[1]},
            {"table", LW_UNIT_NUMBER, s[2]},    {"star", LW_UNIT_NUMBER, s[3]},
            {"lower", LW_UNIT_NUMBER, s[4]},    {"girdle", LW_UNIT_NUMBER, s[5]}};
        lw_solve_options options = {.overrides = overrides, .override_count = 6};
        lw_stone stone = solve("round-brilliant", &options);
        double d = stone.measures.diameter;
        round_shape shape = {s[1], s[0], 0.01 * s[5], 0.01 * s[2], 0.01 * s[3], 0.01 * s[4], 16};
        lw_memory memory = lw_memory_standard();
        lw_solid *workshop = NULL;
        assert_int_equal(lw_solid_new(&memory, ROUND_MOST_PLANES, &workshop), LW_OK);
        double volume = round_volume(workshop, &shape);
        printf("built in %.12f, by formula %.12f\n", stone.measures.mass.volume / (d * d * d),
               volume);
        assert_true(fabs(stone.measures.mass.volume / (d * d * d) / volume - 1.0) < 1e-9);
        lw_solid_destroy(workshop);
        lw_stone_destroy(&stone);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constants),
        cmocka_unit_test(the_same_round),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
