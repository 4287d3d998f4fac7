#include "cut/solver.h"

#include "base/number.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* How many facets the steps have in all, and the most of one step; both at most one more than a cut
 * may have. */
static void count_facets(const lw_cut *cut, int *facets, int *most)
{
    *facets = 0;
    *most = 1;
    for (int i = 0; i < cut->step_count && *facets <= LW_CUT_MOST_FACETS; i++) {
        if (cut->steps[i].kind == LW_STEP_FACETS) {
            int count = lw_step_teeth(cut, &cut->steps[i], NULL, 0);
            count = count <= LW_CUT_MOST_FACETS ? count : LW_CUT_MOST_FACETS + 1;
            *most = count > *most ? count : *most;
            *facets += count;
        }
    }
    *facets = *facets <= LW_CUT_MOST_FACETS ? *facets : LW_CUT_MOST_FACETS + 1;
}

static bool make_arrays(lw_solver *solver, int facets, int most_teeth)
{
    size_t n = (size_t)facets;
    size_t m = (size_t)solver->cut->step_count;
    /* A face begins with four sides; each facet and each side of the rough may add one. */
    size_t corners = n + 10;
    lw_arena *arena = &solver->arena;
    lw_standing *standing = &solver->standing;
    lw_outline *outline = &solver->outline;
    solver->facets = lw_arena_new(arena, n, sizeof *solver->facets);
    solver->text_teeth = lw_arena_new(arena, n, sizeof *solver->text_teeth);
    solver->mirrored = lw_arena_new(arena, n, sizeof *solver->mirrored);
    solver->tiers = lw_arena_new(arena, m, sizeof *solver->tiers);
    solver->known = lw_arena_new(arena, m, sizeof *solver->known);
    solver->hangs = lw_arena_new(arena, m, sizeof *solver->hangs);
    solver->images = lw_arena_new(arena, (size_t)most_teeth, sizeof *solver->images);
    solver->joint = lw_joint_new(arena, solver->cut);
    standing->first_plane = lw_arena_new(arena, m, sizeof *standing->first_plane);
    standing->facet_of = lw_arena_new(arena, n, sizeof *standing->facet_of);
    outline->points = lw_arena_new(arena, corners, sizeof *outline->points);
    outline->clipped = lw_arena_new(arena, corners, sizeof *outline->clipped);
    outline->capacity = (int)corners;
    return solver->facets && solver->text_teeth && solver->mirrored && solver->tiers &&
           solver->known && solver->hangs && solver->images && solver->joint &&
           standing->first_plane && standing->facet_of && outline->points && outline->clipped &&
           lw_names_make(&solver->names, arena, solver->cut, facets);
}

lw_status lw_solver_init(lw_solver *solver, const lw_memory *memory, const lw_cut *cut,
                         const lw_values *values, lw_problem *problem)
{
    int facets = 0;
    int most_teeth = 0;
    *solver = (lw_solver){.cut = cut, .problem = problem, .arena = lw_arena_make(memory)};
    solver->values = *values;
    count_facets(cut, &facets, &most_teeth);
    if (!make_arrays(solver, facets, most_teeth)) {
        return LW_NO_MEMORY;
    }
    lw_status status = lw_solid_new(memory, facets > 0 ? facets : 1, &solver->standing.solid);
    if (status == LW_OK && lw_solver_expand(solver) != LW_GOT) {
        status = solver->status;
    }
    return status;
}

void lw_solver_destroy(lw_solver *solver)
{
    lw_solid_destroy(solver->standing.solid);
    solver->standing.solid = NULL;
    lw_arena_destroy(&solver->arena);
}

lw_outcome lw_solver_fail(lw_solver *solver, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint)
{
    solver->status = status;
    (void)lw_problem_set(solver->problem, status, place.line, place.column, found, expected, hint);
    return LW_FAILED;
}

void lw_solver_spend(lw_solver *solver, double work)
{
    solver->work += work;
}

bool lw_solver_is_spent(const lw_solver *solver)
{
    return solver->work > LW_SOLVER_MOST_WORK;
}

/* ---- what is known ------------------------------------------------------ */

void lw_solver_set_known(lw_solver *solver, int step, bool known)
{
    if (solver->known[step] == known) {
        return;
    }
    solver->known[step] = known;
    lw_solver_changed(solver, step);
    if (!known) {
        solver->first_waiting = step < solver->first_waiting ? step : solver->first_waiting;
        return;
    }
    while (solver->first_waiting < solver->cut->step_count &&
           solver->known[solver->first_waiting]) {
        solver->first_waiting++;
    }
}

lw_outcome lw_solver_wait_for(lw_solver *solver, int step)
{
    solver->waits_for = step;
    return LW_WAITS;
}

/* ---- facets ------------------------------------------------------------- */

double lw_solver_sign(const lw_solver *solver, int step)
{
    return solver->cut->steps[step].side == LW_SIDE_CROWN ? 1.0 : -1.0;
}

lw_vec3 lw_solver_normal(const lw_solver *solver, int step, double sin_angle, double cos_angle,
                         double text_tooth)
{
    lw_sincos azimuth = lw_tooth_sincos(text_tooth, solver->cut->wheel);
    double turn = solver->cut->left_handed ? -1.0 : 1.0;
    return (lw_vec3){sin_angle * azimuth.cos, turn * sin_angle * azimuth.sin,
                     lw_solver_sign(solver, step) * cos_angle};
}

lw_vec3 lw_solver_outward(const lw_solver *solver, int facet)
{
    int step = solver->facets[facet].step;
    return lw_solver_normal(solver, step, 1.0, 0.0, solver->text_teeth[facet]);
}

void lw_solver_set_depth(lw_solver *solver, int facet, double distance)
{
    solver->facets[facet].plane.distance = distance;
    lw_solver_changed(solver, solver->facets[facet].step);
}

void lw_solver_set_distance(lw_solver *solver, int step, double distance)
{
    const lw_tier *tier = &solver->tiers[step];
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        solver->facets[i].plane.distance = distance;
    }
    lw_solver_changed(solver, step);
}

/* ---- values ------------------------------------------------------------- */

static lw_outcome value_of(lw_solver *solver, const lw_expr *expr, lw_value *value)
{
    lw_status status = lw_value_of(solver->cut, &solver->values, expr, value, solver->problem);
    if (status != LW_OK) {
        solver->status = status;
        return LW_FAILED;
    }
    return LW_GOT;
}

static lw_outcome wrong_kind(lw_solver *solver, const lw_expr *expr, const lw_value *value,
                             const char *expected)
{
    static const char *const kinds[] = {[LW_UNIT_NUMBER] = "a bare number",
                                        [LW_UNIT_PERCENT] = "a percentage",
                                        [LW_UNIT_DEG] = "an angle",
                                        [LW_UNIT_MM] = "a length in mm"};
    return lw_solver_fail(solver, LW_BAD_INPUT, expr->place, kinds[value->unit], expected, "");
}

lw_outcome lw_solver_angle(lw_solver *solver, const lw_expr *expr, double *degrees)
{
    lw_value value;
    if (value_of(solver, expr, &value) != LW_GOT) {
        return LW_FAILED;
    }
    if (value.unit == LW_UNIT_MM) {
        return wrong_kind(solver, expr, &value, "an angle in degrees");
    }
    *degrees = value.value;
    return LW_GOT;
}

lw_outcome lw_solver_length(lw_solver *solver, const lw_expr *expr, double *length)
{
    lw_value value;
    if (value_of(solver, expr, &value) != LW_GOT) {
        return LW_FAILED;
    }
    if (value.unit == LW_UNIT_DEG) {
        return wrong_kind(solver, expr, &value, "a share of the width, or mm");
    }
    if (value.unit == LW_UNIT_MM && !(solver->unit_mm > 0.0)) {
        return lw_solver_fail(solver, LW_BAD_INPUT, expr->place, "a rule in mm",
                              "a size for the stone",
                              "with mm the shape depends on the size: give a width or a weight");
    }
    *length = value.unit == LW_UNIT_MM ? value.value / solver->unit_mm : value.value;
    return LW_GOT;
}

lw_outcome lw_solver_bare(lw_solver *solver, const lw_expr *expr, double *number)
{
    lw_value value;
    if (value_of(solver, expr, &value) != LW_GOT) {
        return LW_FAILED;
    }
    if (value.unit != LW_UNIT_NUMBER) {
        return wrong_kind(solver, expr, &value, "a bare number or a percentage");
    }
    *number = value.value;
    return LW_GOT;
}

const char *lw_solver_figure(double value, int figures, char text[LW_SOLVER_FIGURE])
{
    char rounded[LW_SOLVER_FIGURE];
    assert(figures >= 1 && figures <= 17);
    if (!isfinite(value)) {
        return strcpy(text, "nothing");
    }
    /* What printf writes with the locale's own sign, strtod reads. */
    snprintf(rounded, sizeof rounded, "%.*e", figures - 1, value);
    lw_number_write(strtod(rounded, NULL), text);
    return text;
}
