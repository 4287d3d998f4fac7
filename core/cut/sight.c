#include "cut/sight.h"

#include "geom/tolerance.h"

#include <math.h>

/* The worse of two: blind, measured, matched, makes itself, seen. */
static lw_sight worse(lw_sight a, lw_sight b)
{
    static const int rank[] = {[LW_SIGHT_SEEN] = 0,
                               [LW_SIGHT_ITSELF] = 1,
                               [LW_SIGHT_MATCHED] = 2,
                               [LW_SIGHT_MEASURED] = 3,
                               [LW_SIGHT_BLIND] = 4};
    return rank[a] >= rank[b] ? a : b;
}

/* Facets that are on the stone are seen, those of the tier in hand make themselves; later ones, and
 * those that were cut away again, cannot be seen. */
static lw_sight facet_sight(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref)
{
    int facet = 0;
    if (lw_solver_find(solver, now, ref, &facet) == LW_FAILED) {
        return LW_SIGHT_BLIND;
    }
    int step = solver->facets[facet].step;
    if (step == now.step) {
        return LW_SIGHT_ITSELF;
    }
    return lw_solver_has_face(solver, facet) ? LW_SIGHT_SEEN : LW_SIGHT_BLIND;
}

static lw_sight facets_sight(lw_solver *solver, lw_cutting now, const lw_facet_ref *refs, int count)
{
    lw_sight sight = LW_SIGHT_SEEN;
    for (int i = 0; i < count; i++) {
        sight = worse(sight, facet_sight(solver, now, &refs[i]));
    }
    return sight;
}

/* Whether two facets share an edge that runs level: then the whole of it is at the level of its
 * point, which itself may lie beyond the edge's end. */
static bool is_level_edge(lw_solver *solver, lw_cutting now, const lw_point *point)
{
    int facets[2] = {0, 0};
    int planes[2] = {0, 0};
    const lw_polyhedron *shape = lw_solver_shape(solver);
    if (point->kind != LW_POINT_LINE) {
        return false;
    }
    for (int i = 0; i < 2; i++) {
        if (lw_solver_find(solver, now, &point->facets[i], &facets[i]) != LW_GOT) {
            return false;
        }
        planes[i] = shape->same_as[lw_solver_plane(solver, facets[i])];
    }
    return lw_solver_line_is_level(solver->facets[facets[0]].plane.normal,
                                   solver->facets[facets[1]].plane.normal) &&
           lw_shape_edge(shape, planes[0], planes[1]) > 0.0;
}

static lw_sight point_sight(lw_solver *solver, lw_cutting now, const lw_point *point)
{
    if (point->kind == LW_POINT_SHARE) {
        lw_sight ends =
            worse(point_sight(solver, now, point->from), point_sight(solver, now, point->towards));
        return worse(ends, LW_SIGHT_MEASURED);
    }
    lw_sight sight = facets_sight(solver, now, point->facets, point->facet_count);
    lw_vec3 p = {0.0, 0.0, 0.0};
    int cut_by = 0;
    if (sight != LW_SIGHT_SEEN || is_level_edge(solver, now, point)) {
        return sight;
    }
    bool there =
        lw_solver_point(solver, now, point, &p) == LW_GOT && lw_solver_holds(solver, p, &cut_by);
    return there ? LW_SIGHT_SEEN : LW_SIGHT_BLIND;
}

/* A centre point makes itself; on a stone already begun, one at a stated depth is measured. */
static lw_sight centre_sight(lw_solver *solver, const lw_rule *rule)
{
    return rule->value != NULL && lw_solver_begun(solver) ? LW_SIGHT_MEASURED : LW_SIGHT_ITSELF;
}

/* A girdle facet's distance is half a caliper reading. A slanting facet's is measured by height,
 * against a tier of its own side; the very first tier of a stone may lie anywhere. */
static lw_sight distance_sight(lw_solver *solver, lw_cutting now)
{
    if (solver->facets[now.facet].plane.normal.z == 0.0 ||
        lw_solver_side_begun(solver, lw_solver_sign(solver, now.step))) {
        return LW_SIGHT_MEASURED;
    }
    return lw_solver_begun(solver) ? LW_SIGHT_BLIND : LW_SIGHT_ITSELF;
}

/* A level line to come to is seen; the first line on a bare girdle makes itself. */
static lw_sight level_sight(lw_solver *solver, lw_cutting now, const lw_rule *rule)
{
    lw_sight on = facets_sight(solver, now, rule->facets, rule->facet_count);
    if (rule->point != NULL) {
        return worse(on, point_sight(solver, now, rule->point));
    }
    return lw_solver_begun(solver) ? on : worse(on, LW_SIGHT_ITSELF);
}

/* Two edges, of facets that are there. */
static lw_sight equal_sight(lw_solver *solver, lw_cutting now, const lw_rule *rule)
{
    lw_sight sight = LW_SIGHT_MATCHED;
    for (int i = 0; i < 2; i++) {
        sight = worse(sight, facet_sight(solver, now, rule->edges[i].first));
        if (rule->edges[i].second != NULL) {
            sight = worse(sight, facet_sight(solver, now, rule->edges[i].second));
        }
    }
    return sight;
}

static lw_sight rule_sight(lw_solver *solver, lw_cutting now, const lw_rule *rule)
{
    switch (rule->kind) {
    case LW_RULE_POINT:
        return centre_sight(solver, rule);
    case LW_RULE_THROUGH:
        return point_sight(solver, now, rule->point);
    case LW_RULE_LEVEL:
        return level_sight(solver, now, rule);
    case LW_RULE_SHARE_ON:
        return worse(facets_sight(solver, now, rule->facets, rule->facet_count),
                     point_sight(solver, now, rule->point));
    case LW_RULE_EQUAL:
        return equal_sight(solver, now, rule);
    case LW_RULE_MATCH:
        return worse(LW_SIGHT_MATCHED, facets_sight(solver, now, rule->facets, rule->facet_count));
    case LW_RULE_DISTANCE:
        return distance_sight(solver, now);
    default:
        return worse(LW_SIGHT_MEASURED, facets_sight(solver, now, rule->facets, rule->facet_count));
    }
}

lw_sight lw_step_sight(lw_solver *solver, int step, int *facet)
{
    const lw_step *s = &solver->cut->steps[step];
    const lw_tier *tier = &solver->tiers[step];
    lw_sight sight = LW_SIGHT_SEEN;
    *facet = tier->first;
    for (int f = tier->first; f < tier->first + (s->each ? tier->count : 1); f++) {
        lw_cutting now = {.step = step, .facet = f};
        for (int i = 0; i < s->rule_count; i++) {
            lw_sight here = rule_sight(solver, now, &s->rules[i]);
            *facet = worse(sight, here) != sight ? f : *facet;
            sight = worse(sight, here);
        }
    }
    return sight;
}
