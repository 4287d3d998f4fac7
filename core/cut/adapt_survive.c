/* Which rules hold on a stretched stone as they stand.
 *
 * A linear map in plan keeps meets, apex, shares between points and levels. Facets of one azimuth
 * stay so, and their common line stays level and parallel to them, so "line own F, own G" holds as
 * well, though its point moves along the line. Widths, lengths of edges and distances from the axis
 * do not stay, nor does which neighbour is the nearer. */
#include "cut/adapt_stretch.h"

#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

static bool ref_survives(const lw_stretch_job *job, int step, const lw_facet_ref *ref)
{
    /* A tier that falls apart cannot name itself. */
    return ref->relation != LW_RELATION_NEXT && strcmp(ref->name, job->cut->steps[step].name) != 0;
}

static bool point_survives(const lw_stretch_job *job, int step, const lw_point *point)
{
    bool survives = true;
    for (int i = 0; i < point->facet_count; i++) {
        const lw_facet_ref *ref = &point->facets[i];
        survives = survives && ref_survives(job, step, ref) &&
                   (point->kind != LW_POINT_LINE || ref->relation == LW_RELATION_OWN);
    }
    if (point->kind == LW_POINT_SHARE) {
        survives = survives && point_survives(job, step, point->from) &&
                   point_survives(job, step, point->towards);
    }
    return survives;
}

static bool on_own(const lw_stretch_job *job, int step, const lw_rule *rule)
{
    return rule->facets[0].relation == LW_RELATION_OWN &&
           ref_survives(job, step, &rule->facets[0]) &&
           (rule->point == NULL || point_survives(job, step, rule->point));
}

/* A point on the axis holds when it is one that is there, or counts from the girdle line. */
static bool axis_survives(const lw_stretch_job *job, int step, const lw_rule *rule)
{
    const lw_tier *tier = &job->stone->tiers[step];
    const lw_facet *facet = &job->stone->facets[tier->first];
    double sign = facet->plane.normal.z > 0.0 ? 1.0 : -1.0;
    lw_girdle_levels levels;
    lw_values values;
    lw_value value;
    if (rule->value == NULL) {
        return false;
    }
    lw_girdle_lines(&job->stone->solid, &levels);
    if (lw_values_make(job->cut, NULL, 0, &values, NULL) != LW_OK ||
        lw_value_of(job->cut, &values, rule->value, &value, NULL) != LW_OK ||
        (value.unit == LW_UNIT_MM && !(job->stone->unit_mm > 0.0))) {
        return false;
    }
    double depth = value.unit == LW_UNIT_MM ? value.value / job->stone->unit_mm : value.value;
    double line = sign > 0.0 ? levels.line_high : levels.line_low;
    double z = facet->plane.distance / facet->plane.normal.z;
    return fabs(sign * (z - line) - depth) <= LW_MEET_HOLDS;
}

bool lw_rule_survives_stretch(const lw_stretch_job *job, int step, const lw_rule *rule)
{
    if (job->in_figures) {
        return false;
    }
    switch (rule->kind) {
    case LW_RULE_THROUGH:
        return point_survives(job, step, rule->point);
    case LW_RULE_LEVEL:
    case LW_RULE_SHARE_ON:
        return on_own(job, step, rule);
    case LW_RULE_GIRDLE:
        return true;
    case LW_RULE_POINT:
    case LW_RULE_HEIGHT:
        return axis_survives(job, step, rule);
    default:
        return false;
    }
}
