/* What a machine bought second-hand must come with, and how to look at it.
 *
 * Source: common practice of cutters.
 */
#ifndef LW_CRAFT_SECOND_HAND_H
#define LW_CRAFT_SECOND_HAND_H

#include <stdbool.h>

typedef struct lw_second_hand {
    const char *part;  /* "master lap" */
    const char *why;   /* a sentence: what it is for, or what goes wrong without it */
    const char *check; /* a sentence: how to look at it before paying */
    bool needed;       /* false: a cutter can start without it */
} lw_second_hand;

/* Static storage. */
int lw_second_hand_count(void);
/* 0 <= i < count: asserted. */
const lw_second_hand *lw_second_hand_at(int i);

#endif
