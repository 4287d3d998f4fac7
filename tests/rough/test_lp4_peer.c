/* Against the GNU Linear Programming Kit (libglpk), on the same rows: values and refusals agree.
 * Its simplex alone, with tolerances of 1e-12: its exact arithmetic first rounds each number by up
 * to 1e-9 (seen in a row with h of 0.0006: 1.4e-8 apart). */
#include "lp_case.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

#include <glpk.h>

enum { USUAL_CASES = 20000, LONG_CASES = 200000 };

static void set_row(glp_prob *lp, const lp_case *c, int i)
{
    int index[5] = {0, 1, 2, 3, 4};
    double value[5] = {0, c->h[i], c->x[i], c->y[i], c->z[i]};
    glp_set_row_bnds(lp, i + 1, GLP_UP, 0.0, c->b[i]);
    glp_set_mat_row(lp, i + 1, 4, index, value);
}

/* GLP_OPT, GLP_NOFEAS or another of its states. */
static int peer_solve(const lp_case *c, double *s)
{
    glp_prob *lp = glp_create_prob();
    glp_set_obj_dir(lp, GLP_MAX);
    glp_add_cols(lp, 4);
    glp_add_rows(lp, c->rows.count);
    for (int k = 1; k <= 4; k++) {
        glp_set_col_bnds(lp, k, GLP_FR, 0.0, 0.0);
        glp_set_obj_coef(lp, k, k == 1 ? 1.0 : 0.0);
    }
    for (int i = 0; i < c->rows.count; i++) {
        set_row(lp, c, i);
    }
    glp_smcp how;
    glp_init_smcp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.tol_bnd = how.tol_dj = 1e-12;
    glp_simplex(lp, &how);
    int status = glp_get_status(lp);
    *s = glp_get_obj_val(lp);
    glp_delete_prob(lp);
    return status;
}

/* s is the sum of weight * b: the size of what it is made from. */
static double answer_size(const lp_case *c, const lw_lp4_answer *answer)
{
    double size = 1.0;
    for (int i = 0; i < 4; i++) {
        size += answer->weight[i] * fabs(c->b[answer->row[i]]);
    }
    return size;
}

static void agrees_with_glpk(void **state)
{
    (void)state;
    static lp_case c;
    int cases = getenv("LW_LONG") != NULL ? LONG_CASES : USUAL_CASES;
    int optimal = 0, refused = 0;
    double worst = 0;
    test_random random = {2024};
    for (int i = 0; i < cases; i++) {
        lp_case_make(&c, i % LP_CASE_KINDS, &random);
        lw_lp4_answer answer = {.s = 0};
        lw_status status = lw_lp4_solve(&c.rows, &answer);
        double peer = 0;
        int peer_status = peer_solve(&c, &peer);
        if (peer_status == GLP_NOFEAS || peer_status == GLP_INFEAS) {
            assert_int_equal(status, LW_NO_SOLUTION);
            refused++;
            continue;
        }
        assert_int_equal(peer_status, GLP_OPT);
        assert_int_equal(status, LW_OK);
        double apart = fabs(answer.s - peer) / answer_size(&c, &answer);
        worst = fmax(worst, apart);
        if (!(apart <= 1e-9)) {
            fail_msg("case %d: %.17g here, %.17g there", i, answer.s, peer);
        }
        optimal++;
    }
    print_message("%d agree (worst %.1e), %d refused by both\n", optimal, worst, refused);
    assert_true(optimal > cases / 2);
    glp_free_env();
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(agrees_with_glpk)};
    glp_term_out(GLP_OFF);
    return cmocka_run_group_tests_name("rough/lp4 against GLPK", tests, NULL, NULL);
}
