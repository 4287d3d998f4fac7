/* What a stone is worth to whoever tunes it.
 *
 * The score is the mean of a few measures, each over its value for the cut as it stands, weighted
 * by the shares that the user gave: 1 is the cut as it stands, 1.1 a tenth better. Limits are not
 * weighed against the score: they are kept or they are not. docs/tune.md has the formulas.
 */
#ifndef LW_STUDY_TUNE_JUDGE_H
#define LW_STUDY_TUNE_JUDGE_H

#include "tune.h"

typedef enum lw_aim {
    LW_AIM_BRIGHTNESS,
    LW_AIM_FIRE,
    LW_AIM_CONTRAST,
    LW_AIM_WEIGHT, /* at the same width */
    LW_AIM_COUNT
} lw_aim;

/* "brightness", "fire", "contrast", "weight". */
extern const char *const lw_aim_names[LW_AIM_COUNT];

/* Zeros: no limit, but for window_tilt_deg, which is below 0 for none. */
typedef struct lw_tune_limits {
    double window_tilt_deg;    /* no window (LW_WINDOW_OPENS) straight from above nor at this tilt,
                                  with    angles off by hold_deg or not */
    double pavilion_least_deg; /* no pavilion facet flatter: the critical angle and a margin */
    double crown_least, crown_most; /* height over width */
    double depth_most;              /* depth over width */
} lw_tune_limits;

typedef struct lw_judge_request {
    const lw_vary *vary;
    const lw_handle *handles;
    int handle_count;
    lw_look look;
    double hold_deg;             /* >= 0 */
    double shares[LW_AIM_COUNT]; /* >= 0, not all 0: asserted */
    lw_tune_limits limits;
    int threads; /* that look at the stones of one place; 0: as many as there are processors. With
                    more than one the memory must be safe with threads, as the standard one is */
} lw_judge_request;

typedef struct lw_stone_judge {
    lw_memory memory;
    lw_judge_request asked;     /* its shares add to 1 */
    lw_try before;              /* the cut as it stands, looked at whatever the limits say */
    double first[LW_AIM_COUNT]; /* its aims, the mean over angles that are off */
} lw_stone_judge;

/* Looks at the cut as it stands. The score is the same whatever the threads. LW_NO_SOLUTION when an
 * aim that counts has nothing of its measure to begin with (*lacking says which), LW_NO_MEMORY, and
 * as lw_light_measure. vary and handles must outlive the judge, which owns nothing. */
lw_status lw_stone_judge_make(const lw_memory *memory, const lw_judge_request *request,
                              lw_stone_judge *out, lw_aim *lacking);

/* As a judge; valid as long as it is. */
lw_judge lw_stone_judge_use(lw_stone_judge *judge);

#endif
