/* The search over rotations, as a step function: no thread, no clock, the same answer however the
 * work is cut into steps.
 *
 * First the turns that set the stone along the rough's axes, and an even spread of others; then the
 * best few of these are improved by a pattern search on the rotation vector (R. Hooke and T. A.
 * Jeeves, J. ACM 8, 1961; the axes of the pattern are turned afresh each round, because the best
 * scale has ridges that a fixed cross gets stuck on), and the very best a few times more. What it
 * finds always fits: a lower bound of the largest stone in this solid, not a proof that nothing
 * larger does.
 */
#ifndef LW_ROUGH_SEARCH_H
#define LW_ROUGH_SEARCH_H

#include "rough/fit.h"
#include "rough/turn.h"

#include <stdbool.h>

enum {
    LW_SEARCH_SPREAD = 96,      /* rotations of the even spread */
    LW_SEARCH_MOST_LEADS = 12,  /* starts that are improved */
    LW_SEARCH_MOST_ROUNDS = 60, /* of the pattern, for one start */
    LW_SEARCH_ENCORES = 4       /* times the best is improved once more, from smaller steps */
};

typedef struct lw_lead {
    lw_turn turn;
    double scale_mm;
} lw_lead;

/* How hard to look. */
typedef struct lw_search_effort {
    int leads;             /* 1..LW_SEARCH_MOST_LEADS */
    double first_step_deg; /* of the pattern */
    double last_step_deg;  /* below this a lead is done */
} lw_search_effort;

/* 8 leads, 12 to 0.02 degrees: about 1,500 placements. */
lw_search_effort lw_search_effort_usual(void);

typedef struct lw_search {
    lw_fitter *fitter;
    lw_search_effort effort;
    int next_start; /* of LW_TURN_AXIS_COUNT + LW_SEARCH_SPREAD */
    int lead_count;
    lw_lead leads[LW_SEARCH_MOST_LEADS]; /* best first while starts are tried */
    int lead;         /* the one being improved; lead_count and on: the best, once more */
    int round, probe; /* of its pattern */
    double step_deg;
    bool moved; /* whether this round has */
    bool done;
    int tried; /* placements so far */
    lw_placement best;
} lw_search;

/* Begins; nothing is tried yet, best.scale_mm is 0. */
void lw_search_start(lw_search *search, lw_fitter *fitter, const lw_search_effort *effort);
/* Tries at most budget placements. search->done tells when there is nothing left; best is then
 * centred. */
lw_status lw_search_step(lw_search *search, int budget);
/* 0..1, never falling. */
double lw_search_progress(const lw_search *search);

#endif
