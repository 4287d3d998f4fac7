/* The best angles: a search over handles as a step function.
 *
 * First the cut as it stands; then places all over the box; then up from the best of them to its
 * top; then to figures that can be dialled; then, for each handle, how flat the top is. What a
 * place is worth is said by a judge that is passed in (tune_judge.h has the one that looks at the
 * stone), who climbs by a table of functions (climb.h), so that nothing here knows of stones,
 * NLopt, threads or clocks. The best place so far may be asked for at any time; who does not want
 * to wait any longer stops calling.
 *
 * Places are compared so (K. Deb, An efficient constraint handling method for genetic algorithms,
 * Computer Methods in Applied Mechanics and Engineering 186, 2000): of two that keep every limit,
 * the one with the higher score; one that keeps them before one that does not; of two that do not,
 * the one with the smaller excess.
 */
#ifndef LW_STUDY_TUNE_H
#define LW_STUDY_TUNE_H

#include "climb.h"
#include "seen.h"
#include "vary.h"

/* What is known of the stone at one place. score and excess are all that the search looks at. */
typedef struct lw_try {
    double values[LW_VARY_MOST]; /* of the handles */
    bool there;                  /* it has a stone that passes its check */
    double score;                /* >= 0; the cut as it stands has 1 */
    double excess;               /* 0: every limit is kept; else by how much they are passed */
    lw_seen seen;                /* all 0 where a limit of shape was passed: not looked at */
    double weight;               /* over that of the cut as it stands, at the same width */
    double table, crown, pavilion, depth; /* shares of the width */
    double flattest_deg;                  /* the flattest facet of the pavilion */
    double tilted_window;                 /* at the tilt that is asked about; 0 when none is */
} lw_try;

/* Fills in all but values. Only LW_NO_MEMORY ends a search; no stone is no failure. */
typedef struct lw_judge {
    lw_status (*judge)(void *context, lw_try *place);
    void *context;
} lw_judge;

typedef struct lw_tune_request {
    int handle_count; /* 1..LW_VARY_MOST; each with lowest < highest and start within */
    const lw_handle *handles;
    lw_judge judge;
    const lw_climber *climber;
    unsigned seed;
    int most_everywhere, most_from_best; /* tries; 0: LW_TUNE_EVERYWHERE and LW_TUNE_FROM_BEST a
                                            handle and once more */
    double whole_deg; /* angles come out in whole steps of this; 0: as they are found */
} lw_tune_request;

enum { LW_TUNE_EVERYWHERE = 100, LW_TUNE_FROM_BEST = 40 };

/* How flat the top is along one handle, the others at their best: where the score has fallen by
 * LW_TUNE_FLAT of the best, or why the range ends before. */
typedef enum lw_flat_end {
    LW_FLAT_FALLS, /* a one per cent lower score */
    LW_FLAT_RANGE, /* the end of the handle's range */
    LW_FLAT_LIMIT  /* a limit, or no stone beyond */
} lw_flat_end;

typedef struct lw_flat {
    double low, high; /* within LW_TUNE_FLAT_DEG, in the handle's unit */
    lw_flat_end low_end, high_end;
} lw_flat;

#define LW_TUNE_FLAT 0.01
#define LW_TUNE_FLAT_DEG 0.01

typedef struct lw_tune lw_tune;

/* The request is copied, handles too; climber and judge must outlive the search. LW_NO_MEMORY.
 * Destroy takes NULL. */
lw_status lw_tune_new(const lw_memory *memory, const lw_tune_request *request, lw_tune **out);
void lw_tune_destroy(lw_tune *tune);

/* About budget (>= 1) tries' worth of work. */
lw_status lw_tune_step(lw_tune *tune, int budget);
bool lw_tune_is_done(const lw_tune *tune);
/* 0..1, never falling. */
double lw_tune_progress(const lw_tune *tune);

/* The cut as it stands, once a step was made. */
const lw_try *lw_tune_start(const lw_tune *tune);
/* The best so far. When the search is done and this one's excess is above 0 or it is not there, no
 * place was found that keeps the limits, and this one came nearest. */
const lw_try *lw_tune_best(const lw_tune *tune);
/* Of a search that is done and found a place: of handle i. */
const lw_flat *lw_tune_flat(const lw_tune *tune, int i);
int lw_tune_tries(const lw_tune *tune);

#endif
