/* A linear programme in four unknowns, small, dense and exact as far as doubles go:
 *
 *     maximise s   subject to   h[i] s + x[i] p + y[i] q + z[i] r <= b[i],   h[i] >= 0.
 *
 * Source: the revised simplex method on the dual (G. B. Dantzig, "Linear Programming and
 * Extensions", 1963, chapter 9), whose basis is four rows: a 4 by 4 matrix that is inverted afresh
 * at each step, so that no error is carried along. Ties are broken lexicographically (G. B.
 * Dantzig, A. Orden, P. Wolfe, Pacific J. Math. 5, 1955), so that rows which repeat or meet in one
 * point, the normal case in a crystal, cannot make it go round in circles, and the answer is the
 * same one each time.
 *
 * Why not others: an incremental method after R. Seidel (1991) divides by a row's largest
 * coefficient at each of its four levels and needs a tolerance at each; a general package allocates
 * and starts slowly. Here one step costs one pass over the rows.
 *
 * Pure; no allocation.
 */
#ifndef LW_ROUGH_LP4_H
#define LW_ROUGH_LP4_H

#include "base/status.h"

/* count rows, a column of numbers for each unknown. */
typedef struct lw_lp4 {
    int count;
    const double *h, *x, *y, *z, *b;
} lw_lp4;

typedef struct lw_lp4_answer {
    double s, p, q, r;
    int row[4];       /* the rows that hold it, those with weight 0 too */
    double weight[4]; /* how much s grows when that row's b grows by 1; sum of weight * h is 1 */
    int steps;
} lw_lp4_answer;

/* The rows hold within LW_LP_SLACK of their size. LW_NOT_CLOSED when s has no bound, or
 * when the best points fill a whole line; LW_NO_SOLUTION when no point satisfies them (possible
 * only where some h are 0), or when rounding keeps the method from ending: not seen to happen. */
lw_status lw_lp4_solve(const lw_lp4 *rows, lw_lp4_answer *out);

#endif
