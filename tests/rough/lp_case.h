/* Linear programmes like those of a placement: random ones, and the degenerate ones of crystals. */
#ifndef LW_TEST_ROUGH_LP_CASE_H
#define LW_TEST_ROUGH_LP_CASE_H

#include "random.h"
#include "rough/lp4.h"

enum { LP_CASE_MOST = 400, LP_CASE_KINDS = 6 };

typedef struct lp_case {
    double h[LP_CASE_MOST], x[LP_CASE_MOST], y[LP_CASE_MOST], z[LP_CASE_MOST], b[LP_CASE_MOST];
    lw_lp4 rows;
} lp_case;

/* kind 0: random normals; 1: pairs of them, as parallel faces; 2: a box, every row several times;
 * 3: axes and diagonals with small whole numbers in h and b, so that many rows meet; 4: random with
 * nearly equal rows beside; 5: random with some h of 0 and b below 0 (a margin too wide). All are
 * bounded. */
void lp_case_make(lp_case *out, int kind, test_random *random);

#endif
