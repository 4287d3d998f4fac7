/* Weights of 53,940 measured round diamonds, predicted from their outer measures with our own
 * solids, against the weights on the scale. Figures and what they mean: docs/checks/diamonds.md. */
#include "diamond_rows.h"
#include "round_prior.h"
#include "spread.h"

#include "matter/material.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

static const char path[] = "tests/data/node_modules/@observablehq/sample-datasets/diamonds.csv";

enum { SKIPPED = 77 };

static diamond *rows;     /* the sound ones, in the order of the file */
static diamond *refused;  /* those that the cleaning rule leaves out */
static double *predicted; /* carat, for each sound one */
static double *scratch;
static int row_count, refused_count, zero_count, contradicted_count, impossible_count, read_count;

/* ---- prediction --------------------------------------------------------- */

static double mean_width(const diamond *row)
{
    return 0.5 * (row->x + row->y);
}

static round_shape likeliest(const round_prior *prior, const diamond *row, double depth_percent)
{
    return round_likeliest(prior, 0.01 * depth_percent, 0.01 * row->table_percent);
}

/* Built round with diameter 1, then stretched to x by y. */
static double predict(lw_solid *workshop, const round_prior *prior, const diamond *row,
                      double depth_percent)
{
    round_shape shape = likeliest(prior, row, depth_percent);
    double volume = round_volume(workshop, &shape);
    double stretch = row->x * row->y * mean_width(row);
    return volume * stretch * lw_material_by_key("diamond")->sg / 200.0;
}

static lw_solid *new_workshop(void)
{
    lw_memory memory = lw_memory_standard();
    lw_solid *workshop = NULL;
    assert_int_equal(lw_solid_new(&memory, ROUND_MOST_PLANES, &workshop), LW_OK);
    return workshop;
}

/* By the depth column, which is stated finer than z, or by z. */
static void predict_all(const round_prior *prior, bool by_z, double *out)
{
    lw_solid *workshop = new_workshop();
    for (int i = 0; i < row_count; i++) {
        double depth = by_z ? diamond_depth_by_z(&rows[i]) : rows[i].depth_percent;
        out[i] = predict(workshop, prior, &rows[i], depth);
        assert_true(out[i] > 0.0);
    }
    lw_solid_destroy(workshop);
}

/* ---- groups ------------------------------------------------------------- */

typedef bool (*chooser)(const diamond *row, double low, double high);

static bool is_any(const diamond *row, double low, double high)
{
    (void)row, (void)low, (void)high;
    return true;
}

static bool has_grade(const diamond *row, double low, double high)
{
    (void)high;
    return (int)row->grade == (int)low;
}

static bool weighs(const diamond *row, double low, double high)
{
    return row->carat >= low - 1e-9 && row->carat < high - 1e-9;
}

static bool is_deep(const diamond *row, double low, double high)
{
    return row->depth_percent >= low - 1e-9 && row->depth_percent < high - 1e-9;
}

/* Predicted over weighed, less 1, in percent, of the rows chosen. */
static spread errors(const double *weights, chooser choose, double low, double high)
{
    int count = 0;
    for (int i = 0; i < row_count; i++) {
        if (choose(&rows[i], low, high))
            scratch[count++] = 100.0 * (weights[i] / rows[i].carat - 1.0);
    }
    return spread_of(scratch, count);
}

static void print_heading(const char *what)
{
    printf("\n%-26s %6s %7s %7s %7s %7s %7s %8s\n", what, "stones", "1 %", "25 %", "median", "75 %",
           "99 %", "|median|");
}

static spread print_errors(const char *name, const double *weights, chooser choose, double low,
                           double high)
{
    spread s = errors(weights, choose, low, high);
    printf("%-26s %6d %7.2f %7.2f %7.2f %7.2f %7.2f %8.2f\n", name, s.count, s.percent_1, s.quarter,
           s.median, s.three_quarters, s.percent_99, s.median_size);
    return s;
}

/* ---- tests -------------------------------------------------------------- */

/* published with the data: 53,940 rows, 20 with a zero dimension. Counted here: 153 whose depth
 * contradicts z; one with a table (95 %) that no brilliant with such stars has. */
static void cleaning(void **state)
{
    (void)state;
    printf("%d rows: %d with a zero, %d contradict themselves, %d cannot be; %d remain\n",
           read_count, zero_count, contradicted_count, impossible_count, row_count);
    assert_int_equal(read_count, 53940);
    assert_int_equal(zero_count, 20);
    assert_int_equal(contradicted_count, 153);
    assert_int_equal(impossible_count, 1);
    assert_int_equal(row_count, 53766);
}

static bool fits(lw_solid *workshop, const diamond *row, double depth_percent)
{
    double weight = predict(workshop, &round_prior_stated, row, depth_percent);
    return weight > 0.0 && fabs(weight / row->carat - 1.0) < 0.05;
}

/* What is wrong with the rows left out: which of the two depths the weight agrees with, to 5 %. */
static void left_out(void **state)
{
    (void)state;
    lw_solid *workshop = new_workshop();
    int by_column = 0, by_z = 0, by_both = 0, by_neither = 0;
    for (int i = 0; i < refused_count; i++) {
        bool column = fits(workshop, &refused[i], refused[i].depth_percent);
        bool z = diamond_check(&refused[i]) != DIAMOND_ZERO &&
                 diamond_depth_by_z(&refused[i]) < 85.0 &&
                 fits(workshop, &refused[i], diamond_depth_by_z(&refused[i]));
        by_column += column && !z;
        by_z += z && !column;
        by_both += z && column;
        by_neither += !z && !column;
    }
    lw_solid_destroy(workshop);
    printf("left out: weight agrees with the depth column alone %d, with z alone %d, both %d, "
           "neither %d\n",
           by_column, by_z, by_both, by_neither);
    assert_int_equal(by_column + by_z + by_both + by_neither, 173);
    assert_true(by_column > by_z);
}

/* published: the data's own constant, carat / (x y z), has the median .00612. */
static void one_constant(void **state)
{
    (void)state;
    for (int i = 0; i < row_count; i++)
        scratch[i] = rows[i].carat / (rows[i].x * rows[i].y * rows[i].z);
    spread s = spread_of(scratch, row_count);
    printf("carat / (x y z): median %.6f, 1 %% %.6f, 99 %% %.6f\n", s.median, s.percent_1,
           s.percent_99);
    assert_true(s.median > 0.006115 && s.median < 0.006125);
}

/* worked: the likeliest stone has the depth asked for; where that is the depth of the prior's own
 * means, it is those. */
static void prior_is_consistent(void **state)
{
    (void)state;
    const double degree = acos(-1.0) / 180.0;
    for (double depth = 0.40; depth < 0.80; depth += 0.01) {
        round_shape s = round_likeliest(&round_prior_stated, depth, 0.57);
        double rise = 0.5 * (1.0 - s.table) * tan(s.crown_deg * degree);
        double sink = 0.5 * tan(s.pavilion_deg * degree);
        assert_true(fabs(rise + s.girdle + sink - depth) < 1e-9);
    }
    round_shape mean =
        round_likeliest(&round_prior_stated, 0.035 + 0.215 * 0.687280966 + 0.431605, 0.57);
    assert_true(fabs(mean.crown_deg - 34.5) < 0.01 && fabs(mean.pavilion_deg - 40.8) < 0.01);
}

/* Measured (in brackets), with the prior as it was stated: median .52, median size .94, middle half
 * 1.71, 1 % -3.58, 99 % 3.69. The bounds are wide enough for another material's figure of the last
 * digit, and narrow enough for a mistake of half a percent in the solid, its volume or the prior.
 */
static void all_stones(void **state)
{
    (void)state;
    print_heading("error in percent");
    spread s = print_errors("all", predicted, is_any, 0, 0);
    assert_true(s.median > 0.2 && s.median < 0.8);
    assert_true(s.median_size < 1.05);
    assert_true(s.three_quarters - s.quarter < 1.85);
    assert_true(s.percent_1 > -4.0 && s.percent_99 < 4.0);
    for (int i = GRADE_COUNT - 1; i >= 0; i--) {
        s = print_errors(diamond_grade_names[i], predicted, has_grade, i, 0);
        assert_true(s.median_size < (i == GRADE_FAIR ? 1.7 : 1.4));
    }
}

static void by_weight_and_depth(void **state)
{
    (void)state;
    const double weights[] = {0.2, 0.3, 0.5, 0.7, 0.9, 1.0, 1.05, 1.2, 1.5, 1.55, 2.0, 2.05, 6.0};
    const double depths[] = {40, 58, 60, 61, 62, 63, 64, 66, 80};
    char name[40];
    print_heading("by weight, ct");
    for (int i = 0; i < 12; i++) {
        snprintf(name, sizeof name, "%.2f to %.2f", weights[i], weights[i + 1] - 0.01);
        print_errors(name, predicted, weighs, weights[i], weights[i + 1]);
    }
    print_heading("by depth, %");
    for (int i = 0; i < 8; i++) {
        snprintf(name, sizeof name, "%.1f to %.1f", depths[i], depths[i + 1] - 0.1);
        print_errors(name, predicted, is_deep, depths[i], depths[i + 1]);
    }
}

/* Found in the data: stones of just a round weight weigh more than their outline says, and deep
 * ones too: the weight stands where no measure tells of it, in the girdle. */
static void weight_is_left_in_the_girdle(void **state)
{
    (void)state;
    const double steps[][3] = {{1.0, 1.05, 1.2}, {1.5, 1.55, 2.0}, {2.0, 2.05, 6.0}};
    for (int i = 0; i < 3; i++) {
        spread at = errors(predicted, weighs, steps[i][0], steps[i][1]);
        spread above = errors(predicted, weighs, steps[i][1], steps[i][2]);
        assert_true(at.median < above.median - 0.2);
        assert_true(at.percent_1 < above.percent_1 - 1.0);
    }
    assert_true(errors(predicted, is_deep, 66, 80).percent_1 < -5.0);
}

static spread vary(const char *name, const round_prior *prior, bool by_z, double *out)
{
    predict_all(prior, by_z, out);
    return print_errors(name, out, is_any, 0, 0);
}

static double small_above_large(const double *weights)
{
    return errors(weights, weighs, 0.2, 0.3).median - errors(weights, weighs, 2.05, 6.0).median;
}

static void told_otherwise(void **state)
{
    (void)state;
    double *other = malloc((size_t)row_count * sizeof *other);
    assert_non_null(other);
    print_heading("told otherwise");
    vary("depth from z", &round_prior_stated, true, other);
    round_prior changed = round_prior_stated;
    changed.girdle_facets = 16;
    vary("girdle of 16 flats", &changed, false, other);
    changed = round_prior_stated;
    changed.girdle += 0.01;
    vary("girdle 1 point thicker", &changed, false, other);
    for (int i = 0; i < row_count; i++)
        other[i] = predicted[i] * rows[i].carat / (rows[i].carat + 0.0045);
    print_errors("scale rounded down", other, is_any, 0, 0);
    print_errors("  0.20 to 0.29 ct", other, weighs, 0.2, 0.3);
    print_errors("  2.05 ct and up", other, weighs, 2.05, 6.0);
    /* measured: small stones stand 1.1 % above large ones; were the third decimal dropped, as the
     * trade does, .5 % would be left */
    assert_true(fabs(small_above_large(other)) < 0.6 * small_above_large(predicted));
    for (int i = 0; i < row_count; i++)
        other[i] = 0.00612 * rows[i].x * rows[i].y * rows[i].z;
    spread constant = print_errors(".00612 x y z", other, is_any, 0, 0);
    free(other);
    /* measured: our solids say more than one constant does */
    spread ours = errors(predicted, is_any, 0, 0);
    assert_true(ours.three_quarters - ours.quarter <
                0.8 * (constant.three_quarters - constant.quarter));
}

/* Measured: 12 rows, whose three dimensions agree with one another and not with the weight: another
 * stone's, or a slip in the weight. */
static void the_worst(void **state)
{
    (void)state;
    int count = 0;
    printf("\nbeyond 15 %%:\n");
    for (int i = 0; i < row_count; i++) {
        double error = 100.0 * (predicted[i] / rows[i].carat - 1.0);
        if (fabs(error) < 15.0)
            continue;
        count++;
        printf("  %5.2f ct %-9s depth %4.1f table %4.1f  %5.2f x %5.2f x %5.2f  %+6.1f\n",
               rows[i].carat, diamond_grade_names[rows[i].grade], rows[i].depth_percent,
               rows[i].table_percent, rows[i].x, rows[i].y, rows[i].z, error);
    }
    assert_int_equal(count, 12);
}

/* ---- reading ------------------------------------------------------------ */

static bool can_be(const diamond *row)
{
    round_shape shape = likeliest(&round_prior_stated, row, row->depth_percent);
    return round_can_be(&shape);
}

/* Keeps the sound rows that a round brilliant can be made for. */
static void clean(void)
{
    for (int i = 0; i < read_count; i++) {
        diamond_fault fault = diamond_check(&rows[i]);
        zero_count += fault == DIAMOND_ZERO;
        contradicted_count += fault == DIAMOND_CONTRADICTED;
        if (fault != DIAMOND_SOUND)
            refused[refused_count++] = rows[i];
        else if (!can_be(&rows[i]))
            impossible_count++;
        else
            rows[row_count++] = rows[i];
    }
}

static int prepare(void **state)
{
    (void)state;
    predicted = malloc((size_t)read_count * sizeof *predicted);
    scratch = malloc((size_t)read_count * sizeof *scratch);
    refused = malloc((size_t)read_count * sizeof *refused);
    if (predicted == NULL || scratch == NULL || refused == NULL)
        return -1;
    clean();
    predict_all(&round_prior_stated, false, predicted);
    return 0;
}

static int finish(void **state)
{
    (void)state;
    free(refused);
    free(scratch);
    free(predicted);
    free(rows);
    return 0;
}

int main(void)
{
    read_count = diamonds_read(path, &rows);
    if (read_count == -1) {
        fprintf(stderr, "%s is not there: tools/fetch_data.sh fetches it\n", path);
        return getenv("CI") != NULL ? EXIT_FAILURE : SKIPPED;
    }
    if (read_count < 0)
        return EXIT_FAILURE;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cleaning),
        cmocka_unit_test(left_out),
        cmocka_unit_test(one_constant),
        cmocka_unit_test(prior_is_consistent),
        cmocka_unit_test(all_stones),
        cmocka_unit_test(by_weight_and_depth),
        cmocka_unit_test(weight_is_left_in_the_girdle),
        cmocka_unit_test(told_otherwise),
        cmocka_unit_test(the_worst),
    };
    return cmocka_run_group_tests(tests, prepare, finish);
}
