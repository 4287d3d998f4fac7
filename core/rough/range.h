/* What is taken off between the caliper and the finished stone, as a range.
 *
 * Three cases are carried through everything: the least stone one should count on, the likely one,
 * and the largest that could come of it. Each has its own error of the readings and its own margin,
 * all a side, so twice that in a width. The figures are assumptions of common practice but for the
 * polish: cutters leave 0.02 to 0.10 mm at prepolish and 0.01 to 0.02 mm at polish (a cutter's
 * report).
 */
#ifndef LW_ROUGH_RANGE_H
#define LW_ROUGH_RANGE_H

#include "rough/habit.h"

typedef enum lw_case { LW_CASE_LEAST, LW_CASE_LIKELY, LW_CASE_MOST, LW_CASE_COUNT } lw_case;

typedef enum lw_skill {
    LW_SKILL_BEGINNER,  /* first stones: overcuts are made good by recutting a tier smaller */
    LW_SKILL_PRACTISED, /* dozens of stones */
    LW_SKILL_EXACT,     /* dops on centre, stops at the line, seldom recuts */
    LW_SKILL_COUNT
} lw_skill;

bool lw_skill_find(const char *text, lw_skill *out);

/* Millimetres a side, one for each case. */
typedef struct lw_allowances {
    double caliper_mm;                /* error of one reading, either way */
    double preform_mm[LW_CASE_COUNT]; /* skin and the bruises of a coarse lap, about its grain */
    double skill_mm[LW_CASE_COUNT];   /* off centre, overcut, recut */
    double polish_mm[LW_CASE_COUNT];  /* from prepolish to polish */
    double wanted_mm;                 /* what the user wants kept clear besides */
} lw_allowances;

#define LW_CALIPER_USUAL_MM 0.1
#define LW_ALLOWANCE_MOST_MM 20.0

lw_allowances lw_allowances_for(lw_skill skill);
/* All of a case together: what a fitter's margin is. */
double lw_allowance_margin_mm(const lw_allowances *allowances, lw_case which);
/* The readings with their error: smaller for the least case, larger for the most. The result may
 * be no reading any more (see LW_READING_LEAST_MM): lw_habit_rough tells. */
lw_readings lw_allowance_readings(const lw_allowances *allowances, const lw_readings *readings,
                                  lw_case which);

/* A range: least <= likely <= most. */
typedef struct lw_range {
    double value[LW_CASE_COUNT];
} lw_range;

#endif
