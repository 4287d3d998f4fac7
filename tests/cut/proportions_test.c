/* Rounds against the proportions, facet counts and angles that the literature prints. */
#include "cut/bench.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

typedef struct proportions {
    const char *source;
    double table, crown_deg, pavilion_deg; /* in */
    double crown, pavilion;                /* out, percent of the diameter */
} proportions;

static void round_with(const lw_override *settings, int count, bench_stone *out)
{
    lw_solve_options options = {.overrides = settings, .override_count = count};
    bench_make_file("cuts/round-brilliant.cut", &options, out);
}

/* Tolerance 0.1 percent, as the tables are printed. */
static void rows_of_proportions(void **state)
{
    (void)state;
    static const proportions rows[] = {
        {"M. Tolkowsky, Diamond Design, 1919", 53, 34.5, 40.75, 16.2, 43.1},
        {"Eppler 1939, practical fine cut (angles from memory)", 56, 33.2, 40.8, 14.4, 43.2},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const lw_override settings[] = {{"table", LW_UNIT_PERCENT, rows[i].table},
                                        {"crown", LW_UNIT_DEG, rows[i].crown_deg},
                                        {"pavilion", LW_UNIT_DEG, rows[i].pavilion_deg}};
        bench_stone made;
        round_with(settings, 3, &made);
        const lw_measures *m = &made.stone.measures;
        bench_near(100.0 * m->table_corner / m->diameter, rows[i].table, 1e-9);
        bench_near(100.0 * m->crown / m->diameter, rows[i].crown, 0.1);
        bench_near(100.0 * m->pavilion / m->diameter, rows[i].pavilion, 0.1);
        bench_drop(&made);
    }
}

/* A faceters' guild's teaching text after Long and Steele: 43/45 pavilion, 42/47/27 crown; table
 * 51.6, crown 21.8, pavilion 46.6 percent of the width across the corners, which is 1.01959 of that
 * across the flats (1 / cos 11.25 degrees, worked). */
static void classic_quartz_round(void **state)
{
    (void)state;
    bench_stone made;
    bench_make_file("cuts/classic-quartz-round.cut", NULL, &made);
    const lw_measures *m = &made.stone.measures;
    bench_near(100.0 * m->table_corner / m->diameter, 51.6, 0.1);
    bench_near(100.0 * m->crown / m->diameter, 21.8, 0.1);
    bench_near(100.0 * m->pavilion / m->diameter, 46.6, 0.1);
    bench_near(m->diameter / m->width, 1.01959, 5e-6);
    assert_int_equal(m->facet_count, 57);
    assert_int_equal(m->girdle_facet_count, 16);
    bench_drop(&made);
}

/* Counts as the trade teaches them: a round 57 without a culet, a single cut 17. */
static void facet_counts(void **state)
{
    (void)state;
    static const struct {
        const char *path;
        int facets, girdle;
    } rows[] = {{"cuts/round-brilliant.cut", 57, 16}, {"cuts/single-cut.cut", 17, 16}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        bench_stone made;
        bench_make_file(rows[i].path, NULL, &made);
        assert_int_equal(made.stone.measures.facet_count, rows[i].facets);
        assert_int_equal(made.stone.measures.girdle_facet_count, rows[i].girdle);
        bench_drop(&made);
    }
}

/* Published pair: pavilion 41.15 degrees with lower halves of 80 percent has halves of 42.24. */
static void lower_half_published(void **state)
{
    (void)state;
    const lw_override settings[] = {{"pavilion", LW_UNIT_DEG, 41.15},
                                    {"lower", LW_UNIT_PERCENT, 80}};
    bench_stone made;
    round_with(settings, 2, &made);
    bench_near(bench_angle(&made, "lower-half", 0), 42.24, 0.005);
    bench_drop(&made);
}

/* Worked by algebra: crown 34.5, table 53, stars 50 gives stars of 23.07 and upper halves of
 * 40.58 degrees. */
static void crown_angles_worked(void **state)
{
    (void)state;
    bench_stone made;
    round_with(NULL, 0, &made);
    bench_near(bench_angle(&made, "star", 0), 23.07, 0.005);
    bench_near(bench_angle(&made, "upper-half", 0), 40.58, 0.005);
    bench_drop(&made);
}

static double length_tan(double degrees)
{
    return lw_tan_deg(degrees);
}

/* The three formulas, worked with c = cos 22.5, k = cos 11.25, over many lengths: what the meets
 * come to must be what the algebra says. */
static void angles_from_lengths(void **state)
{
    (void)state;
    double c = lw_sincos_deg(22.5).cos;
    double k = lw_sincos_deg(11.25).cos;
    for (int i = 0; i < 27; i++) {
        double table = 0.50 + 0.05 * (i % 3);
        double star = 0.45 + 0.07 * (i / 3 % 3);
        double lower = 0.70 + 0.06 * (i / 9);
        const lw_override settings[] = {{"table", LW_UNIT_PERCENT, 100 * table},
                                        {"star", LW_UNIT_PERCENT, 100 * star},
                                        {"lower", LW_UNIT_PERCENT, 100 * lower}};
        bench_stone made;
        round_with(settings, 3, &made);
        double r = table * c + star * (1 - table * c);
        bench_near(length_tan(bench_angle(&made, "lower-half", 0)),
                   length_tan(40.75) * (1 - (1 - lower) * c) / (lower * k), 1e-12);
        bench_near(length_tan(bench_angle(&made, "star", 0)),
                   length_tan(34.5) * (r * c - table) / (star * (1 - table * c)), 1e-12);
        bench_near(length_tan(bench_angle(&made, "upper-half", 0)),
                   length_tan(34.5) * (1 - r * c) / ((1 - r) * k), 1e-12);
        assert_true(bench_passes(&made));
        bench_drop(&made);
    }
}

/* A round with a girdle of 96 flats, near enough to smooth, whose breaks are eight-fold: the girdle
 * is scalloped by 50 (1 - cos 11.25) tan(half angle) percent a side; published as 0.86 and 0.83
 * (Harding 2005) for halves near 41.9 and 40.8 degrees. Worked: the sum for one side. */
static void scallops(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 8 mirror\n"
               "dop crown\npavilion\n"
               "half at 41.9 on 3 to point\n"
               "girdle at 90 on 0.5 x96 to size\n"
               "transfer\ncrown\n"
               "cap at 0.5 on 0.5 x96 to girdle 3 %\n",
               NULL, &made);
    const lw_measures *m = &made.stone.measures;
    double ripple = 100.0 * (m->girdle_thick - m->girdle_thin);
    double worked = 50.0 * (1.0 - lw_sincos_deg(11.25).cos) * length_tan(41.9);
    bench_near(ripple, worked, 0.02);
    bench_near(ripple, 0.86, 0.02);
    bench_drop(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_of_proportions),
        cmocka_unit_test(classic_quartz_round),
        cmocka_unit_test(facet_counts),
        cmocka_unit_test(lower_half_published),
        cmocka_unit_test(crown_angles_worked),
        cmocka_unit_test(angles_from_lengths),
        cmocka_unit_test(scallops),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
