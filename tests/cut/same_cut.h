/* Are two cuts the same but for the places of their parts in the text? */
#ifndef LW_TESTS_SAME_CUT_H
#define LW_TESTS_SAME_CUT_H

#include "cut/cut.h"

/* NULL when they are, else what differs. Numbers are compared to the last bit. */
const char *cut_difference(const lw_cut *a, const lw_cut *b);

#endif
