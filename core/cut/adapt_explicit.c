/* Steps that say everything in figures: angle, teeth, distance. What is left where a rule does not
 * survive a change. */
#include "cut/adapt_parts.h"

#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <math.h>

double lw_written_tooth(double tooth, int wheel)
{
    return tooth == 0.0 ? (double)wheel : tooth;
}

static bool one_distance(const lw_facet *facets, int count)
{
    for (int i = 1; i < count; i++) {
        if (fabs(facets[i].plane.distance - facets[0].plane.distance) > LW_MEET_HOLDS) {
            return false;
        }
    }
    return true;
}

void lw_edit_explicit_distance(lw_edit *edit, lw_step *step, const lw_facet *facets, int count)
{
    lw_rule rule = {.kind = LW_RULE_DISTANCE};
    step->each = false;
    step->rule_count = 1;
    if (one_distance(facets, count)) {
        rule.value = lw_edit_number(edit, facets[0].plane.distance, LW_UNIT_NUMBER);
        step->rules[0] = rule;
        return;
    }
    const lw_expr **values = lw_edit_new(edit, (size_t)count, sizeof *values);
    for (int i = 0; values != NULL && i < count; i++) {
        values[i] = lw_edit_number(edit, facets[i].plane.distance, LW_UNIT_NUMBER);
    }
    rule.values = values;
    rule.value_count = count;
    step->rules[0] = rule;
}

void lw_edit_explicit_tooth(lw_edit *edit, lw_step *step, const lw_facet *facet)
{
    double *tooth = lw_edit_new(edit, 1, sizeof *tooth);
    if (!step->tooth_free || tooth == NULL) {
        return;
    }
    int wheel = edit->cut.wheel;
    double text = edit->cut.left_handed ? lw_tooth_wrap(-facet->tooth, wheel) : facet->tooth;
    *tooth = lw_written_tooth(text, wheel);
    step->teeth = tooth;
    step->tooth_count = 1;
    step->tooth_free = false;
    step->listed = true;
}

void lw_edit_explicit_step(lw_edit *edit, lw_step *step, const lw_facet *facets, int count)
{
    step->angle = lw_edit_number(edit, facets[0].angle_deg, LW_UNIT_NUMBER);
    step->angle_near = NULL;
    lw_edit_explicit_tooth(edit, step, &facets[0]);
    lw_edit_explicit_distance(edit, step, facets, count);
}
