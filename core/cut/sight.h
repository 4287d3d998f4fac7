/* How a cutter knows when a step is deep enough. Private to core/cut. */
#ifndef LW_CUT_SIGHT_H
#define LW_CUT_SIGHT_H

#include "cut/check.h"
#include "cut/solver.h"

/* The solver holds all planes of the stone and the solid of the steps before this one. With several
 * rules the one that is worst to see counts. */
lw_sight lw_step_sight(lw_solver *solver, int step);

#endif
