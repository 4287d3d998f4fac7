#include "cut/solver.h"

#include "cut/teeth.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The rough before the first facet, in widths: larger than any stone, small enough for the
 * tolerance that hangs on it. */
static const double rough_half_extent = 4.0;

static bool arena_arrays(lw_solver *solver, int facets, int steps)
{
    size_t n = (size_t)facets;
    size_t m = (size_t)steps;
    lw_arena *arena = &solver->arena;
    solver->facets = lw_arena_new(arena, n, sizeof *solver->facets);
    solver->mirrored = lw_arena_new(arena, n, sizeof *solver->mirrored);
    solver->plane_of = lw_arena_new(arena, n, sizeof *solver->plane_of);
    solver->facet_of = lw_arena_new(arena, n, sizeof *solver->facet_of);
    solver->tiers = lw_arena_new(arena, m, sizeof *solver->tiers);
    solver->known = lw_arena_new(arena, m, sizeof *solver->known);
    return solver->facets && solver->mirrored && solver->plane_of && solver->facet_of &&
           solver->tiers && solver->known;
}

static lw_outcome given_angle(lw_solver *solver, const lw_step *step, double *degrees)
{
    const lw_expr *expr = step->angle != NULL ? step->angle : step->angle_near;
    *degrees = 45.0;
    if (expr == NULL) {
        return LW_GOT;
    }
    lw_outcome outcome = lw_solver_angle(solver, expr, degrees);
    if (outcome == LW_GOT && !(*degrees >= 0.0 && *degrees <= 90.0)) {
        char found[64];
        snprintf(found, sizeof found, "an angle of %.6g degrees", *degrees);
        return lw_solver_fail(solver, LW_BAD_INPUT, expr->place, found, "0 to 90 degrees",
                              "0 is the table, 90 the girdle");
    }
    return outcome;
}

/* Whether the angle is a right one, so that the facet belongs to the girdle. */
static bool is_vertical(double degrees)
{
    return fabs(degrees - 90.0) < LW_SAME_ANGLE_DEG;
}

static lw_outcome expand_step(lw_solver *solver, int at)
{
    const lw_step *step = &solver->cut->steps[at];
    lw_tier *tier = &solver->tiers[at];
    tier->first = solver->facet_count;
    if (step->kind != LW_STEP_FACETS) {
        solver->known[at] = true;
        return LW_GOT;
    }
    if (given_angle(solver, step, &tier->angle_deg) != LW_GOT) {
        return LW_FAILED;
    }
    lw_tooth_image images[LW_CUT_MOST_TEETH * 2];
    if (is_vertical(tier->angle_deg)) {
        tier->angle_deg = 90.0;
    }
    tier->count = lw_step_teeth(solver->cut, step, images, LW_CUT_MOST_TEETH * 2);
    if (solver->facet_count + tier->count > LW_CUT_MOST_FACETS) {
        return lw_solver_fail(solver, LW_TOO_LARGE, step->place, "more than 2,000 facets",
                              "2,000 at most", "");
    }
    lw_sincos angle = lw_sincos_deg(tier->angle_deg);
    for (int i = 0; i < tier->count; i++) {
        lw_facet *facet = &solver->facets[tier->first + i];
        facet->step = at;
        facet->side = is_vertical(tier->angle_deg) && step->angle ? LW_SIDE_GIRDLE : step->side;
        facet->tooth = solver->cut->left_handed
                           ? lw_tooth_wrap(-images[i].tooth, solver->cut->wheel)
                           : images[i].tooth;
        facet->angle_deg = tier->angle_deg;
        facet->temporary = step->temporary;
        facet->plane.normal = lw_solver_normal(solver, at, angle.sin, angle.cos, images[i].tooth);
        solver->mirrored[tier->first + i] = images[i].mirrored;
    }
    solver->facet_count += tier->count;
    return LW_GOT;
}

static int count_facets(const lw_cut *cut)
{
    int count = 0;
    for (int i = 0; i < cut->step_count; i++) {
        if (cut->steps[i].kind == LW_STEP_FACETS) {
            lw_tooth_image images[LW_CUT_MOST_TEETH * 2];
            count += lw_step_teeth(cut, &cut->steps[i], images, LW_CUT_MOST_TEETH * 2);
        }
        if (count > LW_CUT_MOST_FACETS) {
            return LW_CUT_MOST_FACETS;
        }
    }
    return count;
}

lw_status lw_solver_init(lw_solver *solver, const lw_memory *memory, const lw_cut *cut,
                         const lw_values *values, lw_problem *problem)
{
    *solver = (lw_solver){.cut = cut, .problem = problem, .arena = lw_arena_make(memory)};
    solver->values = *values;
    int facets = count_facets(cut);
    if (!arena_arrays(solver, facets, cut->step_count)) {
        return LW_NO_MEMORY;
    }
    for (int i = 0; i < cut->step_count; i++) {
        if (expand_step(solver, i) != LW_GOT) {
            return solver->status;
        }
    }
    int planes = facets > 0 ? facets : 1;
    lw_status status = lw_solid_new(memory, planes, &solver->solid);
    if (status == LW_OK) {
        status = lw_solid_new(memory, planes, &solver->trial);
    }
    if (status == LW_OK) {
        lw_solver_shape_before(solver, 0);
    }
    return status;
}

void lw_solver_destroy(lw_solver *solver)
{
    lw_solid_destroy(solver->solid);
    lw_solid_destroy(solver->trial);
    lw_arena_destroy(&solver->arena);
    solver->solid = NULL;
    solver->trial = NULL;
}

lw_outcome lw_solver_fail(lw_solver *solver, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint)
{
    solver->status = status;
    (void)lw_problem_set(solver->problem, status, place.line, place.column, found, expected, hint);
    return LW_FAILED;
}

/* Cuts a step's facets from the solid; false when that would leave nothing. */
static bool cut_step(lw_solver *solver, int step)
{
    const lw_tier *tier = &solver->tiers[step];
    bool leaves_something = true;
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_cut_effect effect = LW_CUT_MISSED;
        lw_status status = lw_solid_cut(solver->solid, solver->facets[i].plane, &effect);
        assert(status == LW_OK);
        (void)status;
        solver->plane_of[i] = solver->plane_count;
        solver->facet_of[solver->plane_count] = i;
        solver->plane_count++;
        leaves_something = leaves_something && effect != LW_CUT_EMPTIED;
    }
    return leaves_something;
}

void lw_solver_shape_before(lw_solver *solver, int step)
{
    lw_solid_start(solver->solid, rough_half_extent);
    solver->plane_count = 0;
    for (int i = 0; i < solver->facet_count; i++) {
        solver->plane_of[i] = -1;
    }
    for (int i = 0; i < step; i++) {
        if (solver->known[i]) {
            (void)cut_step(solver, i);
        }
    }
    lw_solid_extract(solver->solid, &solver->shape);
}

lw_outcome lw_solver_add_step(lw_solver *solver, int step)
{
    bool leaves_something = cut_step(solver, step);
    lw_solid_extract(solver->solid, &solver->shape);
    if (leaves_something) {
        return LW_GOT;
    }
    return lw_solver_fail(solver, LW_EMPTY, solver->cut->steps[step].place,
                          "a step that cuts the whole stone away", "some stone left", "");
}

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
    return lw_solver_normal(solver, step, 1.0, 0.0, lw_solver_text_tooth(solver, facet));
}

double lw_solver_text_tooth(const lw_solver *solver, int facet)
{
    double tooth = solver->facets[facet].tooth;
    return solver->cut->left_handed ? lw_tooth_wrap(-tooth, solver->cut->wheel) : tooth;
}

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
