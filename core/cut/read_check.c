/* A step against itself: as many rules as unknowns, and rules that go with the angle. */
#include "cut/read_parts.h"

#include "cut/value_parts.h"
#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>

/* What a step's angle is known to be when it is read. */
typedef struct step_lean {
    bool free, level, vertical;
} step_lean;

static lw_status fail(lw_reader *r, lw_place place, const char *found, const char *expected,
                      const char *hint)
{
    return lw_read_fail_as(r, LW_BAD_INPUT, place, found, expected, hint);
}

static lw_status find_lean(lw_reader *r, const lw_step *step, step_lean *out)
{
    double angle = 0.0;
    lw_status status = LW_OK;
    if (step->angle_near != NULL) {
        status = lw_read_check_value(r, step->angle_near, LW_WANT_ANGLE, NULL);
    }
    if (step->angle != NULL) {
        status = lw_read_check_value(r, step->angle, LW_WANT_ANGLE, &angle);
    }
    out->free = step->angle == NULL;
    out->level = !out->free && angle < LW_SAME_ANGLE_DEG;
    out->vertical = !out->free && angle > 90.0 - LW_SAME_ANGLE_DEG;
    return status;
}

static lw_status check_tooth(lw_reader *r, lw_step *step, step_lean lean)
{
    if (lean.level && step->tooth_count > 0) {
        return fail(r, r->teeth_place, "a tooth for a level facet", "no 'on' at 0 degrees",
                    "a level facet looks the same from every tooth");
    }
    if (lean.level) {
        step->fold = 1;
        step->mirror = false;
    } else if (step->tooth_count == 0) {
        return fail(r, step->rules[0].place, "no tooth", "'on' and a tooth before 'to'",
                    "only a level facet has no tooth");
    }
    if (step->tooth_free && !lean.free) {
        return fail(r, r->teeth_place, "a free tooth with a stated angle",
                    "'at free' where the tooth is free",
                    "three points give angle, tooth and depth");
    }
    return LW_OK;
}

static lw_status check_count(lw_reader *r, const lw_step *step, step_lean lean)
{
    static const char *const expected[] = {"one rule, for the depth",
                                           "two rules, for the depth and the free angle",
                                           "three rules, for the depth, the angle and the tooth"};
    static const char *const found[] = {"no rule", "one rule", "two rules", "three rules"};
    int unknowns = lean.free + step->tooth_free;
    if (step->rule_count == unknowns + 1) {
        return LW_OK;
    }
    int last = step->rule_count <= unknowns ? step->rule_count - 1 : unknowns + 1;
    const char *hint = step->rule_count > 1 && !lean.free ? "at free lets the angle come out" : "";
    return fail(r, step->rules[last].place, found[step->rule_count], expected[unknowns], hint);
}

/* Is there a line of two facets in the point? It is taken at the own tooth, which must be known. */
static bool has_line(const lw_point *point)
{
    if (point->kind == LW_POINT_SHARE) {
        return has_line(point->from) || has_line(point->towards);
    }
    return point->kind == LW_POINT_LINE;
}

static lw_status check_free(lw_reader *r, const lw_step *step, const lw_rule *rule)
{
    bool point = rule->kind == LW_RULE_THROUGH || rule->kind == LW_RULE_SHARE_ON;
    bool pins = point || rule->kind == LW_RULE_LEVEL || rule->kind == LW_RULE_POINT ||
                rule->kind == LW_RULE_REACH || rule->kind == LW_RULE_GIRDLE ||
                rule->kind == LW_RULE_TABLE;
    if (!pins) {
        return fail(
            r, rule->place, "a rule that gives no point",
            "a point for a free angle: meet, line, apex, share, level, point, reach, girdle "
            "or table",
            "");
    }
    if (step->tooth_free && (rule->kind != LW_RULE_THROUGH || has_line(rule->point))) {
        return fail(r, rule->place, "a rule that needs the tooth",
                    "meet, apex or a share between them for a free tooth", "");
    }
    return LW_OK;
}

static lw_status check_lean(lw_reader *r, const lw_rule *rule, step_lean lean)
{
    switch (rule->kind) {
    case LW_RULE_SIZE:
        return lean.vertical ? LW_OK
                             : fail(r, rule->place, "'size' for a facet that is not vertical",
                                    "'at 90' with size", "");
    case LW_RULE_HEIGHT:
    case LW_RULE_CULET:
        return lean.level
                   ? LW_OK
                   : fail(r, rule->place,
                          rule->kind == LW_RULE_HEIGHT ? "'height' for a facet that is not level"
                                                       : "'culet' for a facet that is not level",
                          "'at 0' with height or culet", "");
    case LW_RULE_TABLE:
        return lean.level || lean.free
                   ? LW_OK
                   : fail(r, rule->place, "'table' for a facet that is not level",
                          "'at 0' with table", "");
    case LW_RULE_GIRDLE:
        return !lean.level && !lean.vertical
                   ? LW_OK
                   : fail(r, rule->place, "a girdle thickness at 0 or 90 degrees",
                          "a facet that slopes to the girdle", "");
    case LW_RULE_POINT:
        return !lean.vertical ? LW_OK
                              : fail(r, rule->place, "a point on the axis at 90 degrees",
                                     "a facet that slopes to the axis", "");
    default:
        return LW_OK;
    }
}

static lw_status check_distances(lw_reader *r, const lw_step *step, const lw_rule *rule)
{
    char found[LW_PROBLEM_TEXT], expected[LW_PROBLEM_TEXT];
    if (rule->value_count == 0 || (step->listed && rule->value_count == step->tooth_count)) {
        return LW_OK;
    }
    snprintf(found, sizeof found, "%d distances", rule->value_count);
    if (!step->listed) {
        return fail(r, rule->place, found, "one distance for a step with symmetry",
                    "name the teeth one by one: on 3, 9, 15");
    }
    snprintf(expected, sizeof expected, "one distance, or one for each of the %d teeth",
             step->tooth_count);
    return fail(r, rule->place, found, expected, "");
}

lw_status lw_read_check_step(lw_reader *r, lw_step *step)
{
    step_lean lean = {false, false, false};
    lw_status status = find_lean(r, step, &lean);
    if (status == LW_OK) {
        status = check_tooth(r, step, lean);
    }
    if (status == LW_OK) {
        status = check_count(r, step, lean);
    }
    for (int i = 0; status == LW_OK && i < step->rule_count; i++) {
        status = check_lean(r, &step->rules[i], lean);
        if (status == LW_OK && lean.free) {
            status = check_free(r, step, &step->rules[i]);
        }
        if (status == LW_OK) {
            status = check_distances(r, step, &step->rules[i]);
        }
    }
    return status;
}
