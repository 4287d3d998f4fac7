/* Built-in cuts as stones, and materials as indices, for tests of light. All assert that it works.
 */
#ifndef LW_TESTS_LIGHT_BUILT_IN_H
#define LW_TESTS_LIGHT_BUILT_IN_H

#include "cut/cut.h"
#include "cut/solve.h"
#include "light/measures.h"

/* The cut of that name; where widened, its settings may be anything from 1 to 89, for scans that go
 * farther than a cutter would. */
lw_cut built_in_cut(const char *name, bool widened);

/* With these settings in place of its own; count may be 0. */
lw_stone built_in_stone(const lw_cut *cut, const lw_override *overrides, int count);

/* The mean indices of a material at the three lines. */
lw_light_index built_in_index(const char *material);

#endif
