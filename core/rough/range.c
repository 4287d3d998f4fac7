#include "rough/range.h"

#include <assert.h>
#include <string.h>

static const char *const skill_words[LW_SKILL_COUNT] = {"beginner", "practised", "exact"};

static const double skill_mm[LW_SKILL_COUNT][LW_CASE_COUNT] = {
    [LW_SKILL_BEGINNER] = {0.60, 0.30, 0.10},
    [LW_SKILL_PRACTISED] = {0.30, 0.15, 0.05},
    [LW_SKILL_EXACT] = {0.10, 0.03, 0.00},
};

bool lw_skill_find(const char *text, lw_skill *out)
{
    for (int i = 0; i < LW_SKILL_COUNT; i++) {
        if (strcmp(skill_words[i], text) == 0) {
            *out = (lw_skill)i;
            return true;
        }
    }
    return false;
}

lw_allowances lw_allowances_for(lw_skill skill)
{
    assert((unsigned)skill < LW_SKILL_COUNT);
    lw_allowances allowances = {
        .caliper_mm = LW_CALIPER_USUAL_MM,
        .preform_mm = {0.20, 0.10, 0.00},
        .polish_mm = {0.10, 0.05, 0.02},
    };
    memcpy(allowances.skill_mm, skill_mm[skill], sizeof allowances.skill_mm);
    return allowances;
}

double lw_allowance_margin_mm(const lw_allowances *allowances, lw_case which)
{
    assert((unsigned)which < LW_CASE_COUNT);
    return allowances->preform_mm[which] + allowances->skill_mm[which] +
           allowances->polish_mm[which] + allowances->wanted_mm;
}

lw_readings lw_allowance_readings(const lw_allowances *allowances, const lw_readings *readings,
                                  lw_case which)
{
    double shift = which == LW_CASE_LEAST  ? -allowances->caliper_mm
                   : which == LW_CASE_MOST ? allowances->caliper_mm
                                           : 0.0;
    lw_readings out = *readings;
    for (int i = 0; i < 3; i++) {
        out.mm[i] += shift;
    }
    return out;
}
