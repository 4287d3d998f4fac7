#include "cut/adapt_side.h"

#include "cut/solver.h"
#include "cut/value.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

/* A side of the edit as it is being changed. */
typedef struct side_job {
    lw_edit *edit;
    const lw_angle_job *job;
    const lw_side_change *change;
    lw_values before, after; /* the settings, without and with the side's own setting changed */
    double sign;             /* +1 crown, -1 pavilion */
} side_job;

double lw_tangent_ratio(double old_deg, double new_deg)
{
    lw_sincos was = lw_sincos_deg(old_deg);
    lw_sincos is = lw_sincos_deg(new_deg);
    return (is.sin * was.cos) / (is.cos * was.sin);
}

static bool same_figure(double a, double b)
{
    return fabs(a - b) <= LW_SAME_FIGURE * fmax(fabs(a), fabs(b));
}

/* The expression's value before and after; false when it has none (the solver will say). */
static bool evaluate(const side_job *j, const lw_expr *expr, double *before, double *after)
{
    lw_value old_value;
    lw_value new_value;
    const lw_cut *cut = &j->edit->cut;
    if (lw_value_of(cut, &j->before, expr, &old_value, NULL) != LW_OK ||
        lw_value_of(cut, &j->after, expr, &new_value, NULL) != LW_OK) {
        return false;
    }
    *before = old_value.value;
    *after = new_value.value;
    return true;
}

/* ---- angles ---- */

static double wanted_angle(const side_job *j, double angle_deg)
{
    if (fabs(angle_deg - j->change->old_deg) <= LW_SAME_ANGLE_DEG) {
        return j->change->new_deg;
    }
    return lw_scaled_angle_deg(angle_deg, j->change->ratio);
}

static void fit_angle(side_job *j, const lw_expr **expr)
{
    double before = 0.0;
    double after = 0.0;
    if (*expr == NULL || !evaluate(j, *expr, &before, &after)) {
        return;
    }
    double wanted = wanted_angle(j, before);
    if (!same_figure(after, wanted)) {
        *expr = lw_edit_number(j->edit, wanted, LW_UNIT_NUMBER);
    }
}

/* ---- lengths ---- */

/* A length whose value is to be factor times what it was. */
static void fit_length(side_job *j, const lw_expr **expr, double factor)
{
    double before = 0.0;
    double after = 0.0;
    if (!(factor > 0.0) || !evaluate(j, *expr, &before, &after) || after == 0.0) {
        return;
    }
    if (!same_figure(before * factor, after)) {
        *expr = lw_edit_scaled(j->edit, *expr, before * factor / after);
    }
}

/* A length before the change, in widths; false when it has no value. */
static bool width_share(const side_job *j, const lw_expr *expr, double *out)
{
    lw_value value;
    if (lw_value_of(&j->edit->cut, &j->before, expr, &value, NULL) != LW_OK) {
        return false;
    }
    bool mm = value.unit == LW_UNIT_MM;
    *out = mm ? value.value / j->job->stone->unit_mm : value.value;
    return !mm || j->job->stone->unit_mm > 0.0;
}

/* A depth along the axis counts from the side's girdle line, or from the frame's zero when it was
 * cut before there was a girdle. */
static void fit_depth(side_job *j, const lw_facet *facet, const lw_expr **expr)
{
    double depth = 0.0;
    if (*expr == NULL || facet->plane.normal.z == 0.0 || !width_share(j, *expr, &depth) ||
        depth == 0.0) {
        return;
    }
    const lw_girdle_levels *levels = &j->job->levels;
    double ratio = j->change->ratio;
    double line = j->sign > 0.0 ? levels->line_high : levels->line_low;
    double level = j->sign > 0.0 ? levels->anchor_high : levels->anchor_low;
    double z = facet->plane.distance / facet->plane.normal.z;
    bool from_line = fabs(j->sign * (z - line) - depth) <= LW_MEET_HOLDS;
    double moved = j->sign * (ratio - 1.0) * (z - level);
    fit_length(j, expr, from_line ? ratio : (depth + moved) / depth);
}

/* A distance, from the frame's zero as the text has it, which the stone's differs from by a shift
 * along the axis. */
static void fit_distance(side_job *j, int facet, const lw_expr **expr)
{
    const lw_plane *was = &j->job->stone->facets[facet].plane;
    const lw_plane *is = &j->job->scaled[facet].plane;
    double distance = 0.0;
    if (*expr == NULL || was->normal.z == 0.0 || !width_share(j, *expr, &distance) ||
        distance == 0.0) {
        return;
    }
    double shift = (distance - was->distance) / was->normal.z;
    fit_length(j, expr, (is->distance + is->normal.z * shift) / distance);
}

/* An edge's length, measured on the scaled stone. */
static void fit_edge(side_job *j, int facet, const lw_rule *named, const lw_expr **expr)
{
    const lw_stone *stone = j->job->stone;
    const lw_stone *image = j->job->image;
    double length = 0.0;
    if (image == NULL || !width_share(j, *expr, &length)) {
        return;
    }
    for (int i = 0; i < stone->facet_count; i++) {
        const lw_step *step = &j->edit->steps[stone->facets[i].step];
        double was = lw_shape_edge(&stone->solid, facet, i);
        if (strcmp(step->name, named->facets[0].name) == 0 && was > 0.0 &&
            fabs(was - length) <= LW_MEET_HOLDS) {
            fit_length(j, expr, lw_shape_edge(&image->solid, facet, i) / was);
            return;
        }
    }
}

static void fit_distances(side_job *j, const lw_tier *tier, lw_rule *rule)
{
    fit_distance(j, tier->first, &rule->value);
    if (rule->value_count == 0) {
        return;
    }
    const lw_expr **values = lw_edit_new(j->edit, (size_t)rule->value_count, sizeof *values);
    for (int i = 0; values != NULL && i < rule->value_count; i++) {
        values[i] = rule->values[i];
        if (i < tier->count) {
            fit_distance(j, tier->first + i, &values[i]);
        }
    }
    rule->values = values;
}

/* Rules that say a length which scaling changes. */
static bool says_depth(lw_rule_kind kind)
{
    return kind == LW_RULE_POINT || kind == LW_RULE_HEIGHT || kind == LW_RULE_DISTANCE ||
           kind == LW_RULE_EDGE;
}

static void fit_rule(side_job *j, const lw_tier *tier, lw_rule *rule)
{
    switch (rule->kind) {
    case LW_RULE_POINT:
    case LW_RULE_HEIGHT:
        fit_depth(j, &j->job->stone->facets[tier->first], &rule->value);
        break;
    case LW_RULE_DISTANCE:
        fit_distances(j, tier, rule);
        break;
    case LW_RULE_EDGE:
        fit_edge(j, tier->first, rule, &rule->value);
        break;
    default:
        break;
    }
}

/* ---- the setting that drives a side ---- */

/* Whether an expression (or none) is worth the same before and after. */
static bool unmoved(const side_job *j, const lw_expr *expr)
{
    double before = 0.0;
    double after = 0.0;
    return expr == NULL || !evaluate(j, expr, &before, &after) || before == after;
}

static bool point_unmoved(const side_job *j, const lw_point *point)
{
    return point == NULL || (unmoved(j, point->share) && point_unmoved(j, point->from) &&
                             point_unmoved(j, point->towards));
}

/* Whether every angle of the side goes as the tangent ratio asks, and nothing else moves. */
static bool step_follows(const side_job *j, const lw_step *step)
{
    double before = 0.0;
    double after = 0.0;
    bool ours = step->side == j->change->side;
    if (step->angle != NULL && evaluate(j, step->angle, &before, &after)) {
        double wanted = ours ? wanted_angle(j, before) : before;
        if (!same_figure(after, wanted)) {
            return false;
        }
    }
    for (int r = 0; r < step->rule_count; r++) {
        const lw_rule *rule = &step->rules[r];
        if (!(ours && says_depth(rule->kind)) &&
            !(unmoved(j, rule->value) && point_unmoved(j, rule->point))) {
            return false;
        }
    }
    return true;
}

static bool all_follow(const side_job *j)
{
    for (int i = 0; i < j->edit->cut.step_count; i++) {
        const lw_step *step = &j->edit->steps[i];
        if (step->kind == LW_STEP_FACETS && !step_follows(j, step)) {
            return false;
        }
    }
    return true;
}

/* Moves a limit out of the way of the new value; a bare limit has the value's unit. */
static void widen(side_job *j, lw_setting *setting)
{
    lw_value limit;
    double value = j->change->new_deg;
    const lw_cut *cut = &j->edit->cut;
    if (lw_value_of(cut, &j->before, setting->lowest, &limit, NULL) == LW_OK &&
        limit.value > value) {
        setting->lowest = lw_edit_number(j->edit, value, LW_UNIT_NUMBER);
    }
    if (lw_value_of(cut, &j->before, setting->highest, &limit, NULL) == LW_OK &&
        limit.value < value) {
        setting->highest = lw_edit_number(j->edit, value, LW_UNIT_NUMBER);
    }
}

static lw_setting *setting_called(const side_job *j, const char *name)
{
    for (int i = 0; i < j->edit->cut.setting_count; i++) {
        lw_setting *setting = &j->edit->settings[i];
        if (!setting->is_let && strcmp(setting->name, name) == 0) {
            return setting;
        }
    }
    return NULL;
}

/* Sets the setting that the main step's angle names, if it drives the side by itself. */
static void try_setting(side_job *j)
{
    const lw_expr *angle = j->edit->steps[j->change->main_step].angle;
    bool named = angle != NULL && angle->kind == LW_EXPR_NAME;
    lw_setting *setting = named ? setting_called(j, angle->name) : NULL;
    lw_value old_value;
    if (setting == NULL ||
        lw_value_of(&j->edit->cut, &j->before, setting->value, &old_value, NULL) != LW_OK) {
        return;
    }
    lw_setting kept = *setting;
    setting->value = lw_edit_number(j->edit, j->change->new_deg, old_value.unit);
    widen(j, setting);
    if (j->edit->out_of_memory ||
        lw_values_make(&j->edit->cut, NULL, 0, &j->after, NULL) != LW_OK || !all_follow(j)) {
        *setting = kept;
        j->after = j->before;
    }
}

lw_status lw_edit_side(lw_edit *edit, const lw_angle_job *job, const lw_side_change *change,
                       lw_problem *problem)
{
    side_job j = {.edit = edit, .job = job, .change = change};
    if (change->main_step < 0) {
        return LW_OK;
    }
    j.sign = change->side == LW_SIDE_CROWN ? 1.0 : -1.0;
    lw_status status = lw_values_make(&edit->cut, NULL, 0, &j.before, problem);
    if (status != LW_OK) {
        return status;
    }
    j.after = j.before;
    try_setting(&j);
    for (int i = 0; i < edit->cut.step_count; i++) {
        lw_step *step = &edit->steps[i];
        const lw_tier *tier = &job->stone->tiers[i];
        if (step->kind != LW_STEP_FACETS || step->side != change->side || tier->count == 0) {
            continue;
        }
        fit_angle(&j, &step->angle);
        fit_angle(&j, &step->angle_near);
        for (int r = 0; r < step->rule_count; r++) {
            fit_rule(&j, tier, &step->rules[r]);
        }
    }
    return LW_OK;
}
