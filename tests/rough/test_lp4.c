/* The programme in four unknowns, by its own conditions: worked cases, and optimality shown by the
 * weights (a feasible point and weights >= 0 with weight.h = 1, weight.normal = 0 and weight.b = s
 * prove each other: duality, any textbook of linear programming). */
#include "lp_case.h"

#include "geom/tolerance.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static void worked_boxes(void **state)
{
    (void)state;
    /* worked: a cube of half edge 1 in a box 4 by 6 by 8: s = 2, held by the x faces alone */
    double h[6] = {1, 1, 1, 1, 1, 1};
    double x[6] = {1, -1, 0, 0, 0, 0}, y[6] = {0, 0, 1, -1, 0, 0}, z[6] = {0, 0, 0, 0, 1, -1};
    double b[6] = {2, 2, 3, 3, 4, 4};
    lw_lp4 rows = {6, h, x, y, z, b};
    lw_lp4_answer answer;
    assert_int_equal(lw_lp4_solve(&rows, &answer), LW_OK);
    assert_true(fabs(answer.s - 2.0) < 1e-14);
    assert_true(fabs(answer.p) < 1e-14);
    assert_true(fabs(answer.q) <= 1.0 + 1e-14 && fabs(answer.r) <= 2.0 + 1e-14);
    /* worked: the box shifted by 5 in x only shifts the answer */
    b[0] = 7;
    b[1] = -3;
    assert_int_equal(lw_lp4_solve(&rows, &answer), LW_OK);
    assert_true(fabs(answer.s - 2.0) < 1e-13 && fabs(answer.p - 5.0) < 1e-13);
    /* worked: a margin wider than the box leaves s below 0: 2 - 3 */
    for (int i = 0; i < 6; i++) {
        b[i] = (i < 2 ? 2 : i < 4 ? 3 : 4) - 3;
    }
    assert_int_equal(lw_lp4_solve(&rows, &answer), LW_OK);
    assert_true(fabs(answer.s + 1.0) < 1e-14);
}

static void open_ones_are_refused(void **state)
{
    (void)state;
    double h[5] = {1, 1, 1, 1, 1}, b[5] = {2, 2, 3, 3, 4};
    double x[5] = {1, -1, 0, 0, 0}, y[5] = {0, 0, 1, -1, 0}, z[5] = {0, 0, 0, 0, 1};
    lw_lp4_answer answer = {.s = 77};
    /* worked: x bounds s, but nothing bounds r */
    lw_lp4 rows = {4, h, x, y, z, b};
    assert_int_equal(lw_lp4_solve(&rows, &answer), LW_NOT_CLOSED);
    lw_lp4 none = {0, h, x, y, z, b};
    assert_int_equal(lw_lp4_solve(&none, &answer), LW_NOT_CLOSED);
    lw_lp4 one = {1, h, x, y, z, b};
    assert_int_equal(lw_lp4_solve(&one, &answer), LW_NOT_CLOSED);
    assert_true(answer.s == 77.0);
    /* worked: two faces that pass one another, with h = 0: no point at all */
    double h0[6] = {0, 0, 1, 1, 1, 1}, b0[6] = {-1, -1, 3, 3, 4, 4};
    double x6[6] = {1, -1}, y6[6] = {0, 0, 1, -1}, z6[6] = {0, 0, 0, 0, 1, -1};
    lw_lp4 empty = {6, h0, x6, y6, z6, b0};
    assert_int_equal(lw_lp4_solve(&empty, &answer), LW_NO_SOLUTION);
}

static double reach(const lp_case *c, const lw_lp4_answer *a)
{
    double largest = fabs(a->s) + fabs(a->p) + fabs(a->q) + fabs(a->r);
    for (int i = 0; i < c->rows.count; i++) {
        largest = fmax(largest, fabs(c->b[i]));
    }
    return largest;
}

static void assert_optimal(const lp_case *c, const lw_lp4_answer *a)
{
    double size = reach(c, a);
    for (int i = 0; i < c->rows.count; i++) {
        double over = c->h[i] * a->s + c->x[i] * a->p + c->y[i] * a->q + c->z[i] * a->r - c->b[i];
        assert_true(over <= 2.0 * LW_LP_SLACK * size);
    }
    double sum[4] = {0}, bound = 0, weight = 0;
    for (int i = 0; i < 4; i++) {
        int k = a->row[i];
        assert_true(k >= 0 && k < c->rows.count && a->weight[i] >= 0.0);
        double w = a->weight[i];
        sum[0] += w * c->h[k];
        sum[1] += w * c->x[k];
        sum[2] += w * c->y[k];
        sum[3] += w * c->z[k];
        bound += w * c->b[k];
        weight += w;
    }
    assert_true(fabs(sum[0] - 1.0) < 1e-10);
    for (int i = 1; i < 4; i++) {
        assert_true(fabs(sum[i]) < 1e-10 * (1.0 + weight));
    }
    assert_true(fabs(bound - a->s) <= 1e-10 * size * (1.0 + weight));
}

static void weights_prove_the_answer(void **state)
{
    (void)state;
    static lp_case c;
    test_random random = {42};
    int most_steps = 0;
    for (int i = 0; i < 60000; i++) {
        lp_case_make(&c, i % LP_CASE_KINDS, &random);
        lw_lp4_answer answer;
        lw_status status = lw_lp4_solve(&c.rows, &answer);
        if (status == LW_NO_SOLUTION && i % LP_CASE_KINDS == 5) {
            continue; /* h = 0 with b < 0 on both sides: the peer test checks these */
        }
        assert_int_equal(status, LW_OK);
        assert_optimal(&c, &answer);
        most_steps = answer.steps > most_steps ? answer.steps : most_steps;
    }
    print_message("most steps of 60000: %d\n", most_steps);
    assert_true(most_steps < 100);
}

static void same_answer_again(void **state)
{
    (void)state;
    static lp_case c;
    test_random random = {7};
    lp_case_make(&c, 3, &random);
    lw_lp4_answer one, two;
    assert_int_equal(lw_lp4_solve(&c.rows, &one), LW_OK);
    assert_int_equal(lw_lp4_solve(&c.rows, &two), LW_OK);
    assert_memory_equal(&one.s, &two.s, sizeof one.s);
    assert_memory_equal(one.row, two.row, sizeof one.row);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worked_boxes),
        cmocka_unit_test(open_ones_are_refused),
        cmocka_unit_test(weights_prove_the_answer),
        cmocka_unit_test(same_answer_again),
    };
    return cmocka_run_group_tests_name("rough/lp4", tests, NULL, NULL);
}
