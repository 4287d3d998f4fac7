/* Small systems of linear equations. Private to core/cut. */
#ifndef LW_CUT_LINEAR_H
#define LW_CUT_LINEAR_H

#include <stdbool.h>

/* The most unknowns that are solved together: a ring of sixteen steps, each with depth, angle and
 * tooth. */
enum { LW_JOINT_MOST = 48 };

typedef struct lw_linear {
    double matrix[LW_JOINT_MOST][LW_JOINT_MOST];
    double right[LW_JOINT_MOST];
} lw_linear;

/* Solves matrix . out = -right for count unknowns by Gaussian elimination with full pivoting, which
 * destroys both. Gives the rank; where it is short, the open unknowns get 0, and *consistent tells
 * whether the equations that are left over hold. */
int lw_linear_solve(lw_linear *linear, int count, double *out, bool *consistent);

#endif
