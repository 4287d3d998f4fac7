/* One step: its angle, its tooth and its depths, from rules whose facets are all known. */
#include "cut/solver.h"

#include "cut/teeth.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

void lw_solver_set_angle(lw_solver *solver, int step, double sin_angle, double cos_angle)
{
    lw_tier *tier = &solver->tiers[step];
    tier->angle_deg = lw_atan2_deg(sin_angle, cos_angle);
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_facet *facet = &solver->facets[i];
        facet->angle_deg = tier->angle_deg;
        facet->side = cos_angle == 0.0 ? LW_SIDE_GIRDLE : solver->cut->steps[step].side;
        facet->plane.normal =
            lw_solver_normal(solver, step, sin_angle, cos_angle, lw_solver_text_tooth(solver, i));
    }
}

void lw_solver_set_tooth(lw_solver *solver, int step, double text_tooth)
{
    lw_facet *facet = &solver->facets[solver->tiers[step].first];
    int wheel = solver->cut->wheel;
    facet->tooth = lw_tooth_wrap(solver->cut->left_handed ? -text_tooth : text_tooth, wheel);
    lw_sincos angle = lw_sincos_deg(facet->angle_deg);
    facet->plane.normal = lw_solver_normal(solver, step, angle.sin, angle.cos,
                                           lw_solver_text_tooth(solver, solver->tiers[step].first));
}

void lw_solver_set_distance(lw_solver *solver, int step, double distance)
{
    const lw_tier *tier = &solver->tiers[step];
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        solver->facets[i].plane.distance = distance;
    }
}

/* ---- a length on the stone as a function of one number --------------------------------------- */

/* A tier that hangs on one number: its depth, or its angle about a fixed point. */
typedef struct swing {
    lw_solver *solver;
    lw_cutting now;
    const lw_rule *rule;
    bool by_angle;
    lw_vec3 pivot;
} swing;

static void swing_to(const swing *s, double x)
{
    lw_facet *facet = &s->solver->facets[s->now.facet];
    if (s->by_angle) {
        lw_sincos angle = lw_sincos_deg(x);
        lw_solver_set_angle(s->solver, s->now.step, angle.sin, angle.cos);
        x = lw_vec3_dot(facet->plane.normal, s->pivot);
    }
    if (s->solver->cut->steps[s->now.step].each) {
        facet->plane.distance = x;
    } else {
        lw_solver_set_distance(s->solver, s->now.step, x);
    }
}

/* How far the rule is from true at x. */
static lw_outcome miss_at(const swing *s, double x, double *miss)
{
    lw_demand demand;
    const lw_plane *plane = &s->solver->facets[s->now.facet].plane;
    swing_to(s, x);
    lw_outcome outcome = lw_solver_demand(s->solver, s->now, s->rule, &demand);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (demand.kind == LW_DEMAND_SHAPE) {
        return lw_solver_shape_miss(s->solver, s->now, s->rule, miss);
    }
    *miss = demand.kind == LW_DEMAND_POINT ? lw_plane_height(*plane, demand.point)
                                           : plane->distance - demand.distance;
    return LW_GOT;
}

/* Halves low..high, whose ends differ in sign, to the last bit; leaves the tier there. */
static lw_outcome close_in(const swing *s, double low, double high, double at_low, double *x)
{
    for (int i = 0; i < 200; i++) {
        double middle = 0.5 * (low + high);
        double miss = 0.0;
        if (middle == low || middle == high) {
            break;
        }
        lw_outcome outcome = miss_at(s, middle, &miss);
        if (outcome != LW_GOT) {
            return outcome;
        }
        if ((miss < 0.0) == (at_low < 0.0)) {
            low = middle;
        } else {
            high = middle;
        }
    }
    *x = high;
    swing_to(s, high);
    return LW_GOT;
}

enum { SCAN_STEPS = 180, MOST_ROOTS = 4 };

/* All changes of sign between from and to, the first MOST_ROOTS of them. A jump (an edge that
 * appears at full length) is no root. */
static lw_outcome roots_between(const swing *s, double from, double to, double roots[MOST_ROOTS],
                                int *count)
{
    double last = 0.0;
    double last_x = from;
    *count = 0;
    for (int i = 0; i <= SCAN_STEPS; i++) {
        double x = from + (to - from) * (double)i / SCAN_STEPS;
        double miss = 0.0;
        double root = 0.0;
        double left = 0.0;
        lw_outcome outcome = miss_at(s, x, &miss);
        if (outcome == LW_GOT && last * miss < 0.0 && *count < MOST_ROOTS) {
            outcome = close_in(s, last_x, x, last, &root);
            if (outcome == LW_GOT) {
                outcome = miss_at(s, root, &left);
            }
            if (outcome == LW_GOT && fabs(left) < LW_MEET_HOLDS) {
                roots[(*count)++] = root;
            }
        }
        if (outcome != LW_GOT) {
            return outcome;
        }
        if (miss != 0.0) {
            last = miss;
            last_x = x;
        }
    }
    return LW_GOT;
}

static lw_outcome no_solution(lw_solver *solver, const lw_rule *rule, const char *found)
{
    return lw_solver_fail(solver, LW_NO_SOLUTION, rule->place, found, "a rule that can be met",
                          "no depth or angle on this stone gives it");
}

/* The depth at which a length on the stone is what the rule says: the first that is reached when
 * cutting inward. */
static lw_outcome depth_by_shape(lw_solver *solver, lw_cutting now, const lw_rule *rule)
{
    swing s = {.solver = solver, .now = now, .rule = rule};
    lw_vec3 n = solver->facets[now.facet].plane.normal;
    double roots[MOST_ROOTS];
    int count = 0;
    double outside = lw_polyhedron_support(&solver->shape, n, NULL);
    double inside = -lw_polyhedron_support(&solver->shape, lw_vec3_scale(n, -1.0), NULL);
    lw_outcome outcome = roots_between(&s, outside, inside, roots, &count);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (count == 0) {
        return no_solution(solver, rule, "a length that this facet never has");
    }
    swing_to(&s, roots[0]);
    return LW_GOT;
}

static lw_outcome one_depth(lw_solver *solver, lw_cutting now, const lw_rule *rule, bool whole_tier)
{
    lw_demand demand;
    lw_facet *facet = &solver->facets[now.facet];
    lw_outcome outcome = lw_solver_demand(solver, now, rule, &demand);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (demand.kind == LW_DEMAND_SHAPE) {
        return depth_by_shape(solver, now, rule);
    }
    double distance = demand.kind == LW_DEMAND_POINT
                          ? lw_vec3_dot(facet->plane.normal, demand.point)
                          : demand.distance;
    if (whole_tier) {
        lw_solver_set_distance(solver, now.step, distance);
    } else {
        facet->plane.distance = distance;
    }
    return LW_GOT;
}

static lw_outcome depths(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    const lw_tier *tier = &solver->tiers[step];
    bool one_a_tooth = s->each || s->rules[0].value_count > 1;
    int count = one_a_tooth ? tier->count : 1;
    for (int i = 0; i < count; i++) {
        lw_cutting now = {.step = step, .facet = tier->first + i};
        lw_outcome outcome = one_depth(solver, now, &s->rules[0], !one_a_tooth);
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    return LW_GOT;
}

/* ---- a free angle, a free tooth ---------------------------------------------------------------
 */

static lw_outcome loose(lw_solver *solver, const lw_rule *rule, const char *found)
{
    return lw_solver_fail(solver, LW_MANY_SOLUTIONS, rule->place, found,
                          "points that fix the facet", "choose points that lie farther apart");
}

/* The angle of a facet through two points at its tooth's azimuth. */
static lw_outcome angle_by_points(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_vec3 p,
                                  lw_vec3 q)
{
    lw_vec3 u = lw_solver_outward(solver, now.facet);
    lw_vec3 along = lw_vec3_sub(p, q);
    double run = lw_vec3_dot(u, along);
    double rise = -lw_solver_sign(solver, now.step) * along.z;
    double length = sqrt(run * run + rise * rise);
    if (length < LW_MEET_HOLDS) {
        return loose(solver, rule, "two points on one line across this facet");
    }
    double turn = run < 0.0 || (run == 0.0 && rise < 0.0) ? -1.0 : 1.0;
    double sine = turn * rise / length;
    double cosine = turn * run / length;
    if (sine < 0.0) {
        return no_solution(solver, rule, "two points that ask for a facet facing inward");
    }
    lw_solver_set_angle(solver, now.step, sine, cosine);
    lw_solver_set_distance(solver, now.step,
                           lw_vec3_dot(solver->facets[now.facet].plane.normal, p));
    return LW_GOT;
}

/* The root nearest to where the text says to look; without that, the only one. */
static lw_outcome choose_root(lw_solver *solver, const lw_step *step, const lw_rule *rule,
                              const double *roots, int count, double *root)
{
    double near = 0.0;
    if (count == 0) {
        return no_solution(solver, rule, "a rule that no angle meets");
    }
    if (step->angle_near != NULL && lw_solver_angle(solver, step->angle_near, &near) != LW_GOT) {
        return LW_FAILED;
    }
    if (step->angle_near == NULL && count > 1) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "more than one angle: %.4f and %.4f degrees", roots[0],
                 roots[1]);
        return lw_solver_fail(solver, LW_MANY_SOLUTIONS, step->place, found, "one angle",
                              "say which: free near an angle");
    }
    *root = roots[0];
    for (int i = 1; i < count; i++) {
        if (fabs(roots[i] - near) < fabs(*root - near)) {
            *root = roots[i];
        }
    }
    return LW_GOT;
}

/* The angle of a facet through a point that meets another rule too. */
static lw_outcome angle_about_point(lw_solver *solver, lw_cutting now, lw_vec3 pivot,
                                    const lw_rule *rule)
{
    swing s = {.solver = solver, .now = now, .rule = rule, .by_angle = true, .pivot = pivot};
    const lw_step *step = &solver->cut->steps[now.step];
    double roots[MOST_ROOTS];
    double root = 0.0;
    int count = 0;
    lw_outcome outcome = roots_between(&s, 0.25, 89.75, roots, &count);
    if (outcome == LW_GOT) {
        outcome = choose_root(solver, step, rule, roots, count, &root);
    }
    if (outcome == LW_GOT) {
        swing_to(&s, root);
    }
    return outcome;
}

static lw_outcome free_angle(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    lw_cutting now = {.step = step, .facet = solver->tiers[step].first};
    lw_demand demands[2];
    for (int i = 0; i < 2; i++) {
        lw_outcome outcome = lw_solver_demand(solver, now, &s->rules[i], &demands[i]);
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    if (demands[0].kind == LW_DEMAND_POINT && demands[1].kind == LW_DEMAND_POINT) {
        return angle_by_points(solver, now, &s->rules[1], demands[0].point, demands[1].point);
    }
    for (int i = 0; i < 2; i++) {
        if (demands[i].kind == LW_DEMAND_POINT) {
            return angle_about_point(solver, now, demands[i].point, &s->rules[1 - i]);
        }
    }
    return lw_solver_fail(solver, LW_BAD_INPUT, s->rules[0].place,
                          "a free angle with no rule that is a point", "a point to pivot about",
                          "such as: to meet … and …");
}

/* The plane through three points, its normal outward on the step's side. */
static lw_outcome plane_by_points(lw_solver *solver, int step, const lw_vec3 *p)
{
    const lw_rule *rule = &solver->cut->steps[step].rules[2];
    lw_vec3 n = lw_vec3_cross(lw_vec3_sub(p[1], p[0]), lw_vec3_sub(p[2], p[0]));
    double length = lw_vec3_length(n);
    if (length < LW_MEET_HOLDS) {
        return loose(solver, rule, "three points on one line");
    }
    double out = lw_solver_sign(solver, step) * n.z;
    bool flip = out < 0.0 || (out == 0.0 && lw_vec3_dot(n, p[0]) < 0.0);
    n = lw_vec3_scale(n, (flip ? -1.0 : 1.0) / length);
    double flat = sqrt(n.x * n.x + n.y * n.y);
    if (flat > 0.0) {
        double turn = solver->cut->left_handed ? -1.0 : 1.0;
        double degrees = lw_atan2_deg(turn * n.y, n.x);
        lw_solver_set_tooth(solver, step, degrees / 360.0 * (double)solver->cut->wheel);
    }
    lw_solver_set_angle(solver, step, flat, fabs(n.z));
    lw_facet *facet = &solver->facets[solver->tiers[step].first];
    facet->plane.normal = n;
    facet->plane.distance = lw_vec3_dot(n, p[0]);
    return LW_GOT;
}

static lw_outcome free_tooth(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    lw_cutting now = {.step = step, .facet = solver->tiers[step].first};
    lw_vec3 points[3];
    for (int i = 0; i < 3; i++) {
        lw_demand demand;
        lw_outcome outcome = lw_solver_demand(solver, now, &s->rules[i], &demand);
        if (outcome != LW_GOT) {
            return outcome;
        }
        if (demand.kind != LW_DEMAND_POINT) {
            return lw_solver_fail(solver, LW_BAD_INPUT, s->rules[i].place,
                                  "a free tooth with a rule that is no point", "three points", "");
        }
        points[i] = demand.point;
    }
    return plane_by_points(solver, step, points);
}

lw_outcome lw_solver_tier(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    assert(s->kind == LW_STEP_FACETS && s->rule_count > 0);
    if (s->tooth_free) {
        return s->rule_count == 3 ? free_tooth(solver, step) : LW_WAITS;
    }
    return s->angle == NULL ? free_angle(solver, step) : depths(solver, step);
}
