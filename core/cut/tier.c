/* One step: its angle, its tooth and its depths, from rules whose facets are all known. */
#include "cut/solver.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>

bool lw_step_has_own_depths(const lw_step *step)
{
    return step->each || step->rules[0].value_count > 1;
}

static lw_outcome no_solution(lw_solver *solver, const lw_rule *rule, const char *found)
{
    return lw_solver_fail(solver, LW_NO_SOLUTION, rule->place, found, "a rule that can be met",
                          "no depth or angle on this stone gives it");
}

/* ---- a length on the stone as a function of the depth ------------------- */

/* The facet whose depth is looked for, and whether its whole tier goes with it. */
typedef struct descent {
    lw_solver *solver;
    lw_cutting now;
    const lw_rule *rule;
    bool whole_tier;
} descent;

static void go_to(const descent *d, double distance)
{
    if (d->whole_tier) {
        lw_solver_set_distance(d->solver, d->now.step, distance);
    } else {
        lw_solver_set_depth(d->solver, d->now.facet, distance);
    }
}

static lw_outcome miss_at(const descent *d, double distance, double *miss)
{
    go_to(d, distance);
    return lw_solver_rule_miss(d->solver, d->now, d->rule, miss);
}

/* Halves from..to, whose ends differ in sign, to the last bit. */
static lw_outcome close_in(const descent *d, double from, double to, double at_from, double *root)
{
    double middle = 0.5 * (from + to);
    while (middle != from && middle != to) {
        double miss = 0.0;
        lw_outcome outcome = miss_at(d, middle, &miss);
        if (outcome != LW_GOT) {
            return outcome;
        }
        if ((miss < 0.0) == (at_from < 0.0)) {
            from = middle;
        } else {
            to = middle;
        }
        middle = 0.5 * (from + to);
    }
    *root = to;
    return LW_GOT;
}

/* A change of sign between two depths may be a root, or the jump of an edge that appears at full
 * length. */
static lw_outcome is_root(const descent *d, double from, double to, double at_from, bool *found)
{
    double root = 0.0;
    double left = 0.0;
    lw_outcome outcome = close_in(d, from, to, at_from, &root);
    if (outcome == LW_GOT) {
        outcome = miss_at(d, root, &left);
    }
    *found = outcome == LW_GOT && fabs(left) < LW_MEET_HOLDS;
    return outcome;
}

/* The depth at which a length on the stone is what the rule says: the first that is reached when
 * cutting inward. Leaves the facets there. */
static lw_outcome depth_by_shape(const descent *d)
{
    enum { TRIES = 180 };
    lw_vec3 n = d->solver->facets[d->now.facet].plane.normal;
    const lw_polyhedron *shape = lw_solver_shape(d->solver);
    double outside = lw_polyhedron_support(shape, n, NULL);
    double inside = -lw_polyhedron_support(shape, lw_vec3_scale(n, -1.0), NULL);
    double last = 0.0;
    double last_depth = outside;
    bool found = false;
    for (int i = 0; i <= TRIES; i++) {
        double depth = outside + (inside - outside) * (double)i / TRIES;
        double miss = 0.0;
        lw_outcome outcome = miss_at(d, depth, &miss);
        if (outcome == LW_GOT && last * miss < 0.0) {
            outcome = is_root(d, last_depth, depth, last, &found);
        }
        if (outcome != LW_GOT || found) {
            return outcome;
        }
        if (miss != 0.0) {
            last = miss;
            last_depth = depth;
        }
    }
    return no_solution(d->solver, d->rule, "a length that this facet never has");
}

/* ---- stated angles ------------------------------------------------------ */

static lw_outcome one_depth(const descent *d)
{
    lw_demand demand;
    lw_vec3 normal = d->solver->facets[d->now.facet].plane.normal;
    lw_outcome outcome = lw_solver_demand(d->solver, d->now, d->rule, &demand);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (demand.kind == LW_DEMAND_SHAPE) {
        return depth_by_shape(d);
    }
    go_to(d, demand.kind == LW_DEMAND_POINT ? lw_vec3_dot(normal, demand.point) : demand.distance);
    return LW_GOT;
}

static lw_outcome depths(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    const lw_tier *tier = &solver->tiers[step];
    bool own_depths = lw_step_has_own_depths(s);
    int count = own_depths ? tier->count : 1;
    for (int i = 0; i < count; i++) {
        descent d = {solver, {step, tier->first + i}, &s->rules[0], !own_depths};
        lw_outcome outcome = one_depth(&d);
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    return LW_GOT;
}

/* ---- a free angle, a free tooth ----------------------------------------- */

static lw_outcome loose(lw_solver *solver, const lw_rule *rule, const char *found)
{
    return lw_solver_fail(solver, LW_MANY_SOLUTIONS, rule->place, found,
                          "points that fix the facet", "choose points that lie farther apart");
}

/* The points that all rules of a step ask its first facet to pass. */
static lw_outcome points_of(lw_solver *solver, int step, lw_vec3 points[LW_CUT_MOST_RULES])
{
    const lw_step *s = &solver->cut->steps[step];
    lw_cutting now = {.step = step, .facet = solver->tiers[step].first};
    for (int i = 0; i < s->rule_count; i++) {
        lw_demand demand;
        lw_outcome outcome = lw_solver_demand(solver, now, &s->rules[i], &demand);
        if (outcome != LW_GOT) {
            return outcome;
        }
        if (demand.kind != LW_DEMAND_POINT) {
            return lw_solver_fail(solver, LW_BAD_INPUT, s->rules[i].place,
                                  "a free angle with a rule that gives no point",
                                  "rules that are points", "such as: to meet … and …");
        }
        points[i] = demand.point;
    }
    return LW_GOT;
}

/* The angle of a facet through two points at its tooth's azimuth. */
static lw_outcome free_angle(lw_solver *solver, int step)
{
    lw_vec3 points[LW_CUT_MOST_RULES];
    const lw_rule *rule = &solver->cut->steps[step].rules[1];
    int facet = solver->tiers[step].first;
    lw_outcome outcome = points_of(solver, step, points);
    if (outcome != LW_GOT) {
        return outcome;
    }
    lw_vec3 along = lw_vec3_sub(points[0], points[1]);
    double run = lw_vec3_dot(lw_solver_outward(solver, facet), along);
    double rise = -lw_solver_sign(solver, step) * along.z;
    double length = sqrt(run * run + rise * rise);
    if (length < LW_MEET_HOLDS) {
        return loose(solver, rule, "two points on one line across this facet");
    }
    /* A direction of the facet's line; rising inward it has a facet that faces outward. */
    double level = lw_rad_from_deg(LW_SAME_ANGLE_DEG) * length;
    bool upright = fabs(run) < level;
    bool turn = upright ? rise < 0.0 : run < 0.0;
    double sine = turn ? -rise : rise;
    double cosine = turn ? -run : run;
    if (sine < -level) {
        return no_solution(solver, rule, "two points that ask for a facet facing inward");
    }
    lw_solver_set_angle(solver, step, fmax(sine, 0.0) / length, fmax(cosine, 0.0) / length);
    lw_solver_set_distance(solver, step,
                           lw_vec3_dot(solver->facets[facet].plane.normal, points[0]));
    return LW_GOT;
}

/* The facet through three points, outward on the step's side. */
static lw_outcome free_tooth(lw_solver *solver, int step)
{
    lw_vec3 p[LW_CUT_MOST_RULES];
    const lw_rule *rule = &solver->cut->steps[step].rules[2];
    int facet = solver->tiers[step].first;
    lw_outcome outcome = points_of(solver, step, p);
    if (outcome != LW_GOT) {
        return outcome;
    }
    lw_vec3 sides[3] = {lw_vec3_sub(p[1], p[0]), lw_vec3_sub(p[2], p[0]), lw_vec3_sub(p[2], p[1])};
    lw_vec3 n = lw_vec3_cross(sides[0], sides[1]);
    double area = lw_vec3_length(n);
    double longest =
        fmax(lw_vec3_length(sides[0]), fmax(lw_vec3_length(sides[1]), lw_vec3_length(sides[2])));
    if (area < LW_MEET_HOLDS * longest) {
        return loose(solver, rule, "three points on one line");
    }
    n = lw_vec3_scale(n, 1.0 / area);
    double steep = lw_rad_from_deg(LW_SAME_ANGLE_DEG);
    double out = fabs(n.z) < steep ? lw_vec3_dot(n, p[0]) : lw_solver_sign(solver, step) * n.z;
    n = lw_vec3_scale(n, out < 0.0 ? -1.0 : 1.0);
    double flat = sqrt(n.x * n.x + n.y * n.y);
    lw_solver_set_angle(solver, step, flat, fabs(n.z));
    if (flat > steep) {
        double turn = solver->cut->left_handed ? -1.0 : 1.0;
        double degrees = lw_atan2_deg(turn * n.y, n.x);
        lw_solver_set_tooth(solver, step, degrees / 360.0 * (double)solver->cut->wheel);
    }
    lw_solver_set_distance(solver, step, lw_vec3_dot(solver->facets[facet].plane.normal, p[0]));
    return LW_GOT;
}

lw_outcome lw_solver_tier(lw_solver *solver, int step)
{
    const lw_step *s = &solver->cut->steps[step];
    assert(s->kind == LW_STEP_FACETS && s->rule_count == 1 + (s->angle == NULL) + s->tooth_free);
    if (s->tooth_free) {
        return free_tooth(solver, step);
    }
    return s->angle == NULL ? free_angle(solver, step) : depths(solver, step);
}
