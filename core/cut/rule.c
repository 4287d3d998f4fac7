/* What each rule asks of the facet being cut. */
#include "cut/solver.h"

#include "cut/outline.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

static lw_demand through(lw_vec3 point)
{
    return (lw_demand){.kind = LW_DEMAND_POINT, .point = point};
}

static lw_demand at_distance(double distance)
{
    return (lw_demand){.kind = LW_DEMAND_DISTANCE, .distance = distance};
}

static lw_outcome misplaced(lw_solver *solver, const lw_rule *rule, const char *found,
                            const char *expected, const char *hint)
{
    return lw_solver_fail(solver, LW_BAD_INPUT, rule->place, found, expected, hint);
}

/* The rule's length, or what it is when left out. */
static lw_outcome length_or(lw_solver *solver, const lw_rule *rule, double otherwise,
                            double *length)
{
    *length = otherwise;
    return rule->value == NULL ? LW_GOT : lw_solver_length(solver, rule->value, length);
}

/* The level from which heights of a side count: its girdle line, or the frame's zero before there
 * is one. */
static double side_level(lw_solver *solver, double sign)
{
    double z = 0.0;
    (void)lw_solver_girdle_line(solver, sign, &z);
    return z;
}

static lw_outcome size(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double across = 0.0;
    if (length_or(solver, rule, 1.0, &across) != LW_GOT) {
        return LW_FAILED;
    }
    if (solver->facets[now.facet].plane.normal.z != 0.0) {
        return misplaced(solver, rule, "a size for a facet that is not at 90 degrees",
                         "a girdle facet", "slanting facets go to a point, a meet or a distance");
    }
    *out = at_distance(across / 2.0);
    return LW_GOT;
}

/* Where a tier comes to a point when no value is given: at the point that is there; or, with
 * nothing on the stone to measure from, so that its facets stand half a width out at z = 0. */
static lw_outcome free_point(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double sign = lw_solver_sign(solver, now.step);
    lw_vec3 there;
    if (lw_solver_apex(solver, sign, &there)) {
        *out = through(there);
        return LW_GOT;
    }
    if (lw_solver_begun(solver)) {
        return misplaced(solver, rule, "a point without a depth on a stone already begun",
                         "how far the point is from the girdle line", "such as: to point 45 %");
    }
    *out = through(lw_vec3_scale(lw_solver_outward(solver, now.facet), 0.5));
    return LW_GOT;
}

static lw_outcome centre_point(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                               lw_demand *out)
{
    if (rule->value == NULL) {
        return free_point(solver, now, rule, out);
    }
    double deep = 0.0;
    if (lw_solver_length(solver, rule->value, &deep) != LW_GOT) {
        return LW_FAILED;
    }
    double sign = lw_solver_sign(solver, now.step);
    *out = through((lw_vec3){0.0, 0.0, side_level(solver, sign) + sign * deep});
    return LW_GOT;
}

/* The point of a facet at a level, in the own tooth's direction. */
static lw_outcome on_facet(lw_solver *solver, lw_cutting now, const lw_rule *rule, int facet,
                           double z, lw_demand *out)
{
    const lw_plane *plane = &solver->facets[facet].plane;
    lw_vec3 u = lw_solver_outward(solver, now.facet);
    double along = lw_vec3_dot(plane->normal, u);
    if (fabs(along) < LW_RUNS_ALIKE) {
        return misplaced(solver, rule, "a level on a facet that runs along this tooth's direction",
                         "a facet that faces this tooth", "");
    }
    double r = (plane->distance - plane->normal.z * z) / along;
    *out = through((lw_vec3){r * u.x, r * u.y, z});
    return LW_GOT;
}

static lw_outcome level(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    int facet = 0;
    lw_vec3 by = {0.0, 0.0, 0.0};
    lw_outcome outcome = lw_solver_find(solver, now, &rule->facets[0], &facet);
    if (outcome == LW_GOT && rule->point != NULL) {
        outcome = lw_solver_point(solver, now, rule->point, &by);
    } else if (outcome == LW_GOT) {
        outcome = lw_solver_level(solver, now, rule->place, &by.z);
    }
    return outcome == LW_GOT ? on_facet(solver, now, rule, facet, by.z, out) : outcome;
}

static lw_outcome share_on(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    int facet = 0;
    lw_vec3 point = {0.0, 0.0, 0.0};
    lw_outcome outcome = lw_solver_find(solver, now, &rule->facets[0], &facet);
    if (outcome == LW_GOT) {
        outcome = lw_solver_point(solver, now, rule->point, &point);
    }
    return outcome == LW_GOT ? on_facet(solver, now, rule, facet, point.z, out) : outcome;
}

/* Whether a vertex lies on a girdle facet and on one of the side that is not being cut. */
static bool ends_girdle(const lw_polyhedron *shape, int vertex, double sign)
{
    bool other_side = false;
    bool girdle = false;
    for (int k = shape->vertex_start[vertex]; k < shape->vertex_start[vertex + 1]; k++) {
        int plane = shape->vertex_plane[k];
        if (plane < shape->plane_count) {
            double nz = shape->planes[plane].normal.z;
            other_side = other_side || nz * sign < 0.0;
            girdle = girdle || nz == 0.0;
        }
    }
    return girdle && other_side;
}

/* Where a facet comes to the outline: the corner (or flat) farthest out in its direction, at the
 * other side's end of the girdle there; of a flat whose end is not level, where the girdle comes
 * out thinnest. */
static bool girdle_place(lw_solver *solver, lw_vec3 outward, double sign, lw_vec3 *place)
{
    const lw_polyhedron *shape = lw_solver_shape(solver);
    double reach = 0.0;
    bool found = false;
    if (!lw_solver_outline(solver, outward, &reach)) {
        return false;
    }
    lw_solver_spend(solver, shape->vertex_count / 64.0);
    for (int v = 0; v < shape->vertex_count; v++) {
        lw_vec3 p = shape->vertices[v];
        bool farthest = lw_vec3_dot(outward, p) > reach - LW_MEET_HOLDS;
        if (farthest && ends_girdle(shape, v, sign) && (!found || sign * p.z > sign * place->z)) {
            *place = p;
            found = true;
        }
    }
    return found;
}

static lw_outcome girdle(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double thickness = 0.0;
    lw_vec3 place = {0.0, 0.0, 0.0};
    if (lw_solver_length(solver, rule->value, &thickness) != LW_GOT) {
        return LW_FAILED;
    }
    double sign = lw_solver_sign(solver, now.step);
    if (!girdle_place(solver, lw_solver_outward(solver, now.facet), sign, &place)) {
        return misplaced(solver, rule, "no girdle with the other side's facets under it",
                         "a girdle and the other side cut before", "");
    }
    place.z += sign * thickness;
    *out = through(place);
    return LW_GOT;
}

static lw_outcome must_be_level(lw_solver *solver, lw_cutting now, const lw_rule *rule)
{
    if (solver->facets[now.facet].angle_deg != 0.0) {
        return misplaced(solver, rule, "this rule for a slanting facet", "a level facet (at 0)",
                         "");
    }
    return LW_GOT;
}

static lw_outcome height(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double up = 0.0;
    if (must_be_level(solver, now, rule) != LW_GOT ||
        lw_solver_length(solver, rule->value, &up) != LW_GOT) {
        return LW_FAILED;
    }
    double sign = lw_solver_sign(solver, now.step);
    *out = through((lw_vec3){0.0, 0.0, side_level(solver, sign) + sign * up});
    return LW_GOT;
}

static lw_outcome table(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double part = 0.0;
    double reach = 0.0;
    int facet = 0;
    /* With a free angle it is a point on that facet, as good as any. */
    bool free = solver->cut->steps[now.step].angle == NULL;
    lw_outcome outcome = free ? LW_GOT : must_be_level(solver, now, rule);
    if (outcome == LW_GOT) {
        outcome = lw_solver_bare(solver, rule->value, &part);
    }
    if (outcome == LW_GOT) {
        outcome = lw_solver_find(solver, now, &rule->facets[0], &facet);
    }
    if (outcome != LW_GOT) {
        return outcome;
    }
    lw_vec3 u = lw_solver_outward(solver, facet);
    const lw_plane *plane = &solver->facets[facet].plane;
    if (fabs(plane->normal.z) < LW_RUNS_ALIKE || !lw_solver_outline(solver, u, &reach)) {
        return misplaced(solver, rule, "a table across a facet that it cannot cross",
                         "a slanting facet under the table, and an outline", "");
    }
    double r = part * reach;
    double z = (plane->distance - r * lw_vec3_dot(plane->normal, u)) / plane->normal.z;
    *out = through((lw_vec3){r * u.x, r * u.y, z});
    return LW_GOT;
}

static lw_outcome reach_along(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                              lw_demand *out)
{
    double away = 0.0;
    int facets[2] = {0, 0};
    lw_outcome outcome = lw_solver_length(solver, rule->value, &away);
    for (int i = 0; i < 2 && outcome == LW_GOT; i++) {
        outcome = lw_solver_find(solver, now, &rule->facets[i], &facets[i]);
    }
    if (outcome != LW_GOT) {
        return outcome;
    }
    const lw_plane *a = &solver->facets[facets[0]].plane;
    const lw_plane *b = &solver->facets[facets[1]].plane;
    lw_vec3 u = lw_solver_outward(solver, now.facet);
    lw_vec3 along = lw_vec3_cross(a->normal, b->normal);
    double det = lw_vec3_dot(u, along);
    if (fabs(det) < LW_RUNS_ALIKE * lw_vec3_length(along)) {
        return misplaced(solver, rule, "facets whose line does not run toward this tooth",
                         "the two facets of a keel", "");
    }
    lw_vec3 p = lw_vec3_scale(along, away);
    p = lw_vec3_add(p, lw_vec3_scale(lw_vec3_cross(b->normal, u), a->distance));
    p = lw_vec3_add(p, lw_vec3_scale(lw_vec3_cross(u, a->normal), b->distance));
    *out = through(lw_vec3_scale(p, 1.0 / det));
    return LW_GOT;
}

static lw_outcome match(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    int facet = 0;
    lw_outcome outcome = lw_solver_find(solver, now, &rule->facets[0], &facet);
    if (outcome != LW_GOT) {
        return outcome;
    }
    const lw_facet *twin = &solver->facets[facet];
    if (twin->side != solver->facets[now.facet].side) {
        return misplaced(solver, rule, "a twin of another side", "a facet of the side being cut",
                         "depths of two sides cannot be compared at the lap");
    }
    *out = at_distance(twin->plane.distance);
    return LW_GOT;
}

static lw_outcome distance(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    int nth = now.facet - solver->tiers[now.step].first;
    bool listed = rule->value_count > 1;
    if (listed && nth >= rule->value_count) {
        return misplaced(solver, rule, "fewer distances than teeth", "one for all, or one a tooth",
                         "");
    }
    const lw_expr *expr = listed ? rule->values[nth] : rule->value;
    double away = 0.0;
    if (lw_solver_length(solver, expr, &away) != LW_GOT) {
        return LW_FAILED;
    }
    *out = at_distance(away);
    return LW_GOT;
}

static lw_outcome through_point(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                                lw_demand *out)
{
    lw_vec3 point = {0.0, 0.0, 0.0};
    lw_outcome outcome = lw_solver_point(solver, now, rule->point, &point);
    if (outcome == LW_GOT) {
        *out = through(point);
    }
    return outcome;
}

static lw_outcome by_shape(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    double miss = 0.0;
    out->kind = LW_DEMAND_SHAPE;
    return lw_solver_shape_miss(solver, now, rule, &miss);
}

/* How a rule is read, and whether it looks at the stone as a whole: then no step above may wait. */
typedef struct reader {
    lw_outcome (*read)(lw_solver *, lw_cutting, const lw_rule *, lw_demand *);
    bool whole;
} reader;

lw_outcome lw_solver_demand(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out)
{
    static const reader readers[] = {
        [LW_RULE_SIZE] = {size, false},
        [LW_RULE_POINT] = {centre_point, true},
        [LW_RULE_THROUGH] = {through_point, false},
        [LW_RULE_SHARE_ON] = {share_on, false},
        [LW_RULE_LEVEL] = {level, false},
        [LW_RULE_GIRDLE] = {girdle, true},
        [LW_RULE_HEIGHT] = {height, true},
        [LW_RULE_TABLE] = {table, true},
        [LW_RULE_REACH] = {reach_along, false},
        [LW_RULE_EDGE] = {by_shape, true},
        [LW_RULE_WIDTH] = {by_shape, true},
        [LW_RULE_EQUAL] = {by_shape, true},
        [LW_RULE_CULET] = {by_shape, true},
        [LW_RULE_MATCH] = {match, false},
        [LW_RULE_DISTANCE] = {distance, false},
    };
    assert((size_t)rule->kind < sizeof readers / sizeof readers[0]);
    if (lw_solver_is_spent(solver)) {
        return lw_solver_fail(solver, LW_TOO_LARGE, rule->place,
                              "more work in this cut's rules than any stone needs",
                              "fewer facets that hang on one another", "");
    }
    lw_outcome outcome = readers[rule->kind].whole ? lw_solver_whole(solver) : LW_GOT;
    return outcome == LW_GOT ? readers[rule->kind].read(solver, now, rule, out) : outcome;
}

lw_outcome lw_solver_rule_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule, double *miss)
{
    lw_demand demand;
    const lw_plane *plane = &solver->facets[now.facet].plane;
    lw_outcome outcome = lw_solver_demand(solver, now, rule, &demand);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (demand.kind == LW_DEMAND_SHAPE) {
        return lw_solver_shape_miss(solver, now, rule, miss);
    }
    *miss = demand.kind == LW_DEMAND_POINT ? lw_plane_height(*plane, demand.point)
                                           : plane->distance - demand.distance;
    return LW_GOT;
}
