/* Lengths that only show once a tier is cut: edges, widths, culets. */
#include "cut/solver.h"

#include "cut/outline.h"

#include <math.h>

/* The plane of a facet in the trial solid: its own, or one of the tier just tried. */
static int trial_plane(const lw_solver *solver, lw_cutting now, int facet)
{
    const lw_step *step = &solver->cut->steps[now.step];
    const lw_tier *tier = &solver->tiers[now.step];
    bool of_tier = facet >= tier->first && facet < tier->first + tier->count;
    if (!of_tier) {
        return solver->plane_of[facet];
    }
    if (step->each) {
        return facet == now.facet ? solver->plane_count : -1;
    }
    return solver->plane_count + facet - tier->first;
}

/* Cuts the tier (with "each" the facet alone) from a copy of the solid. */
static void try_tier(lw_solver *solver, lw_cutting now, lw_polyhedron *shape)
{
    const lw_tier *tier = &solver->tiers[now.step];
    bool each = solver->cut->steps[now.step].each;
    int first = each ? now.facet : tier->first;
    int count = each ? 1 : tier->count;
    lw_solid_copy(solver->trial, solver->solid);
    for (int i = first; i < first + count; i++) {
        (void)lw_solid_cut(solver->trial, solver->facets[i].plane, NULL);
    }
    lw_solid_extract(solver->trial, shape);
}

/* The trial plane that a reference names; LW_WAITS when its step is still to come. */
static lw_outcome named_plane(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref,
                              int *plane)
{
    int facet = 0;
    lw_outcome outcome = lw_solver_find(solver, now, ref, &facet);
    bool of_tier = outcome != LW_FAILED && solver->facets[facet].step == now.step;
    if (outcome == LW_WAITS && !of_tier) {
        return LW_WAITS;
    }
    if (outcome == LW_FAILED) {
        return LW_FAILED;
    }
    *plane = trial_plane(solver, now, facet);
    return *plane < 0 ? LW_WAITS : LW_GOT;
}

static lw_outcome edge_length(lw_solver *solver, lw_cutting now, const lw_polyhedron *shape,
                              const lw_facet_ref *first, const lw_facet_ref *second, double *length)
{
    int a = trial_plane(solver, now, now.facet);
    int b = 0;
    lw_outcome outcome = named_plane(solver, now, first, &b);
    if (outcome == LW_GOT && second != NULL) {
        a = b;
        outcome = named_plane(solver, now, second, &b);
    }
    if (outcome == LW_GOT) {
        *length = lw_shape_edge(shape, a, b);
    }
    return outcome;
}

static lw_outcome equal_miss(lw_solver *solver, lw_cutting now, const lw_polyhedron *shape,
                             const lw_rule *rule, double *miss)
{
    double lengths[2] = {0.0, 0.0};
    for (int i = 0; i < 2; i++) {
        lw_outcome outcome = edge_length(solver, now, shape, rule->edges[i].first,
                                         rule->edges[i].second, &lengths[i]);
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    *miss = lengths[0] - lengths[1];
    return LW_GOT;
}

lw_outcome lw_solver_shape_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                                double *miss)
{
    lw_polyhedron shape;
    double wanted = 0.0;
    double length = 0.0;
    try_tier(solver, now, &shape);
    if (rule->kind == LW_RULE_EQUAL) {
        return equal_miss(solver, now, &shape, rule, miss);
    }
    lw_outcome outcome = lw_solver_length(solver, rule->value, &wanted);
    if (outcome != LW_GOT) {
        return outcome;
    }
    int own = trial_plane(solver, now, now.facet);
    lw_vec3 u = lw_solver_outward(solver, now.facet);
    if (rule->kind == LW_RULE_EDGE) {
        outcome = edge_length(solver, now, &shape, &rule->facets[0], NULL, &length);
    } else if (rule->kind == LW_RULE_WIDTH) {
        length = lw_shape_extent(&shape, own, (lw_vec3){-u.y, u.x, 0.0});
    } else {
        length = lw_face_least_width(&shape, own);
    }
    *miss = length - wanted;
    return outcome;
}
