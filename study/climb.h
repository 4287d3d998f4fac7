/* Looking for the highest score in a box, a few scores at a time.
 *
 * Who climbs is passed in as a table of functions: NLopt's algorithms natively (climb_nlopt.h), and
 * where there is no NLopt the search of our own below. Unknowns run from 0 to 1 and the score is to
 * be as high as possible; it need be neither smooth nor continuous. The scorer remembers the best:
 * a climber only chooses where to look. The same climb asks for the same places in the same order,
 * however it is cut into steps.
 */
#ifndef LW_STUDY_CLIMB_H
#define LW_STUDY_CLIMB_H

#include "base/memory.h"

#include <stdbool.h>

enum { LW_CLIMB_MOST = 16 }; /* unknowns */

typedef enum lw_climb_kind {
    LW_CLIMB_EVERYWHERE, /* over the whole box */
    LW_CLIMB_FROM_START  /* up from a place, to the nearest top */
} lw_climb_kind;

typedef struct lw_climb {
    lw_climb_kind kind;
    int count;                   /* of unknowns, 1..LW_CLIMB_MOST */
    double start[LW_CLIMB_MOST]; /* FROM_START: within the box */
    double first_step;           /* FROM_START: how far to reach out at first */
    double tolerance;            /* FROM_START: ends when it reaches less far than this */
    int most;                    /* scores to ask for, >= 1 */
    unsigned seed;               /* for what is left to chance */
} lw_climb;

typedef double (*lw_climb_score)(void *context, const double *place);

typedef struct lw_climber {
    const char *name; /* for people */
    /* LW_NO_MEMORY. */
    lw_status (*begin)(const lw_memory *memory, const lw_climb *climb, void **state);
    /* Asks for at most budget (>= 1) scores; *done when there is nothing more to ask. LW_NO_MEMORY.
     */
    lw_status (*step)(void *state, int budget, lw_climb_score score, void *context, bool *done);
    /* Takes NULL. */
    void (*end)(void *state);
} lw_climber;

/* Ours: no library, the same numbers on every machine. Everywhere: a low-discrepancy sequence (J.
 * H. Halton, On the efficiency of certain quasi-random sequences of points in evaluating
 * multi-dimensional integrals, Numerische Mathematik 2, 1960), shifted by the seed (R. Cranley and
 * T. N. L. Patterson, Randomization of number theoretic methods for multiple integration, SIAM
 * Journal on Numerical Analysis 13, 1976). From a start: compass search, the step halved where no
 * way leads up (T. G. Kolda, R. M. Lewis and V. Torczon, Optimization by direct search, SIAM Review
 * 45, 2003, section 1). */
extern const lw_climber lw_climber_pattern;

#endif
