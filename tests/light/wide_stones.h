/* Stones that fold in every way that wide rays know, and some that do not fold. */
#ifndef LW_TESTS_LIGHT_WIDE_STONES_H
#define LW_TESTS_LIGHT_WIDE_STONES_H

#include "light/shape.h"
#include "light/wide/trace.h"

typedef struct wide_stone {
    const char *name;
    int folds; /* worked: one halves space between the mirror planes, each further one halves what
                  is left, rounded up; none for few facets, which are looked at as fast */
    shape shape;
    lw_wide_solid wide;
} wide_stone;

enum { WIDE_STONES = 11, WIDE_ROUND = 0 };

/* All of them: a round, a cube, a trough, stones of 1 to 6 mirror planes most of which are turned
 * away from the axes, one turned like a propeller, and a ball of 60 facets without order. */
void wide_stones_make(wide_stone stones[WIDE_STONES]);
void wide_stones_destroy(wide_stone stones[WIDE_STONES]);

#endif
