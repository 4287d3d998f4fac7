/* How a cutter knows when a step is deep enough. Private to core/cut. */
#ifndef LW_CUT_SIGHT_H
#define LW_CUT_SIGHT_H

#include "cut/check.h"
#include "cut/solver.h"

/* The solver holds all planes of the stone and the solid of the steps before this one. With several
 * rules, or a depth for each tooth, the one that is worst to see counts, and *facet is
 * the first that has it. */
lw_sight lw_step_sight(lw_solver *solver, int step, int *facet);

#endif
