/* Cut to stone. */
#ifndef LW_CUT_SOLVE_H
#define LW_CUT_SOLVE_H

#include "cut/stone.h"
#include "cut/value.h"

/* What gives the stone its size. Rules in mm need one; a cut without such rules may do without. */
typedef enum lw_size_kind {
    LW_SIZE_NONE,
    LW_SIZE_WIDTH_MM,
    LW_SIZE_LENGTH_MM,
    LW_SIZE_DIAMETER_MM,
    LW_SIZE_WEIGHT_CT /* needs specific_gravity */
} lw_size_kind;

typedef struct lw_solve_options {
    const lw_override *overrides;
    int override_count;
    lw_size_kind size_kind;
    double size;
    double specific_gravity; /* for LW_SIZE_WEIGHT_CT */
} lw_solve_options;

/* Works out every angle, tooth and depth and builds the solid.
 *
 * Steps are taken in order, each from the solid that those before it left. Steps whose rules point
 * to a step further down are solved together with it. A tier has one depth: it is worked out for
 * its first tooth and kept for the rest, as at the lap, unless the step says "each".
 *
 * On failure *out is untouched and *problem (may be NULL) has the step's line and column.
 * LW_BAD_INPUT (a rule in mm without a size, a value out of its range), LW_NOT_FOUND (a facet or a
 * meet that does not exist), LW_AMBIGUOUS (lists the candidates), LW_NO_SOLUTION,
 * LW_MANY_SOLUTIONS, LW_NOT_CLOSED, LW_EMPTY, LW_TOO_LARGE, LW_NO_MEMORY.
 * A facet without area and a temporary facet that stays are no failure here: they are in the stone
 * for lw_check to name. */
lw_status lw_cut_solve(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_stone *out, lw_problem *problem);

#endif
