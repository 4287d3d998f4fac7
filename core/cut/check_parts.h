/* The pieces of the check. Private to core/cut. */
#ifndef LW_CUT_CHECK_PARTS_H
#define LW_CUT_CHECK_PARTS_H

#include "cut/check.h"
#include "cut/solver.h"

/* A check in the making: findings has room for capacity. */
typedef struct lw_check_work {
    lw_check check;
    size_t capacity;
} lw_check_work;

lw_status lw_check_add(lw_check_work *work, lw_finding finding);

/* Cuts the stone again, step by step: how each depth is known, whether each meet holds at every
 * tooth, which side the dop holds. */
lw_status lw_check_replay(lw_check_work *work, const lw_memory *memory, const lw_cut *cut,
                          const lw_stone *stone);

#endif
