#include "cut/solve.h"

#include "cut/solver.h"
#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* How often the size is put right: a rule in mm changes the shape, the shape the size. */
enum { MOST_SIZINGS = 60 };

static lw_place step_place(const lw_solver *solver, int step)
{
    return solver->cut->steps[step].place;
}

static lw_outcome try_step(lw_solver *solver, int step)
{
    lw_outcome outcome = lw_solver_tier(solver, step);
    if (outcome == LW_GOT) {
        solver->known[step] = true;
        outcome = lw_solver_add_step(solver, step);
    }
    return outcome;
}

/* Looks again at the steps above that waited; true when one could be solved. */
static bool revisit(lw_solver *solver, int before, lw_outcome *outcome)
{
    bool progress = false;
    solver->any_waiting = false;
    for (int i = 0; i < before && *outcome != LW_FAILED; i++) {
        if (solver->known[i]) {
            continue;
        }
        lw_solver_shape_before(solver, i);
        *outcome = lw_solver_tier(solver, i);
        if (*outcome == LW_GOT) {
            solver->known[i] = true;
            progress = true;
        } else {
            solver->any_waiting = true;
        }
    }
    lw_solver_shape_before(solver, before);
    return progress;
}

/* Takes the steps in order; those that hang on later ones wait, and are looked at again whenever
 * something new is known. What still waits at the end is solved together. */
static lw_outcome all_steps(lw_solver *solver)
{
    for (int i = 0; i < solver->cut->step_count; i++) {
        if (solver->known[i]) {
            continue;
        }
        lw_outcome outcome = try_step(solver, i);
        if (outcome == LW_FAILED) {
            return LW_FAILED;
        }
        if (outcome == LW_WAITS) {
            solver->any_waiting = true;
        }
        while (solver->any_waiting && outcome != LW_FAILED && revisit(solver, i + 1, &outcome)) {
        }
        if (outcome == LW_FAILED) {
            return LW_FAILED;
        }
    }
    lw_outcome outcome = solver->any_waiting ? lw_solver_joint(solver) : LW_GOT;
    lw_solver_shape_before(solver, solver->cut->step_count);
    return outcome;
}

/* The height to become z = 0: half way between the girdle lines; without a girdle, half way between
 * the highest and the lowest point of the edge where the sides meet. */
static double mid_girdle(const lw_solver *solver)
{
    double upper = 0.0;
    double lower = 0.0;
    const lw_polyhedron *shape = &solver->shape;
    if (lw_solver_girdle_line(solver, 1.0, &upper) && lw_solver_girdle_line(solver, -1.0, &lower)) {
        return 0.5 * (upper + lower);
    }
    double highest = -INFINITY;
    double lowest = INFINITY;
    for (int v = 0; v < shape->vertex_count; v++) {
        bool crown = false;
        bool pavilion = false;
        for (int k = shape->vertex_start[v]; k < shape->vertex_start[v + 1]; k++) {
            double nz = shape->planes[shape->vertex_plane[k]].normal.z;
            crown = crown || nz > 0.0;
            pavilion = pavilion || nz < 0.0;
        }
        if (crown && pavilion) {
            highest = fmax(highest, shape->vertices[v].z);
            lowest = fmin(lowest, shape->vertices[v].z);
        }
    }
    return highest >= lowest ? 0.5 * (highest + lowest) : 0.0;
}

/* Moves the stone along z so that mid-girdle is at 0. Gives the way it was moved. */
static double centre(lw_solver *solver)
{
    double middle = mid_girdle(solver);
    for (int i = 0; i < solver->facet_count; i++) {
        lw_plane *plane = &solver->facets[i].plane;
        plane->distance -= plane->normal.z * middle;
    }
    lw_solver_shape_before(solver, solver->cut->step_count);
    return -middle;
}

static lw_status not_closed(lw_solver *solver)
{
    int last = solver->cut->step_count - 1;
    (void)lw_solver_fail(solver, LW_NOT_CLOSED, step_place(solver, last),
                         "a stone that is still open after its last step",
                         "facets all round, above and below", "some side of the rough is uncut");
    return LW_NOT_CLOSED;
}

static lw_status copy_out(const lw_memory *memory, const lw_solver *solver, lw_stone *out)
{
    lw_stone stone = {.memory = *memory, .unit_mm = solver->unit_mm};
    void *facets = NULL;
    void *tiers = NULL;
    size_t facet_count = (size_t)solver->facet_count;
    size_t tier_count = (size_t)solver->cut->step_count;
    lw_status status = lw_memory_new(memory, facet_count, sizeof *stone.facets, &facets);
    if (status == LW_OK) {
        stone.facets = facets;
        stone.facet_count = solver->facet_count;
        status = lw_memory_new(memory, tier_count, sizeof *stone.tiers, &tiers);
    }
    if (status == LW_OK) {
        stone.tiers = tiers;
        stone.tier_count = solver->cut->step_count;
        status = lw_polyhedron_copy(memory, &solver->shape, &stone.solid);
    }
    if (status != LW_OK) {
        lw_stone_destroy(&stone);
        return status;
    }
    memcpy(stone.facets, solver->facets, facet_count * sizeof *stone.facets);
    memcpy(stone.tiers, solver->tiers, tier_count * sizeof *stone.tiers);
    stone.values = solver->values;
    lw_stone_measure(stone.facets, &stone.solid, &stone.measures);
    *out = stone;
    return LW_OK;
}

/* One solution with millimetres counted as unit_mm says. */
static lw_status solve_once(const lw_memory *memory, const lw_cut *cut, const lw_values *values,
                            double unit_mm, lw_stone *out, lw_problem *problem)
{
    lw_solver solver;
    lw_status status = lw_solver_init(&solver, memory, cut, values, problem);
    solver.unit_mm = unit_mm;
    if (status == LW_OK && all_steps(&solver) != LW_GOT) {
        status = solver.status;
    }
    if (status == LW_OK && !lw_solid_is_closed(solver.solid)) {
        status = not_closed(&solver);
    }
    if (status == LW_OK) {
        double raised = centre(&solver);
        status = copy_out(memory, &solver, out);
        if (status == LW_OK) {
            out->raised = raised;
        }
    }
    lw_solver_destroy(&solver);
    return status;
}

/* The cube root of a positive number, by Newton's method from above: the same bits everywhere,
 * which libm does not promise. */
static double cube_root(double a)
{
    double x = a > 1.0 ? a : 1.0;
    for (;;) {
        double next = x - (x - a / (x * x)) / 3.0;
        if (!(next < x)) {
            return x;
        }
        x = next;
    }
}

/* Millimetres a unit that give a stone of these measures the size asked for. */
static double unit_for(const lw_measures *m, const lw_solve_options *options)
{
    switch (options->size_kind) {
    case LW_SIZE_WIDTH_MM:
        return options->size / m->width;
    case LW_SIZE_LENGTH_MM:
        return options->size / m->length;
    case LW_SIZE_DIAMETER_MM:
        return options->size / m->diameter;
    case LW_SIZE_WEIGHT_CT:
        return cube_root(options->size * 200.0 / (options->specific_gravity * m->mass.volume));
    default:
        return 0.0;
    }
}

static bool uses_mm(const lw_expr *expr)
{
    return expr != NULL && ((expr->kind == LW_EXPR_NUMBER && expr->unit == LW_UNIT_MM) ||
                            uses_mm(expr->left) || uses_mm(expr->right));
}

/* Whether any rule may hang on the size: a length in mm anywhere, in the text or from outside. */
static bool size_matters(const lw_cut *cut, const lw_solve_options *options)
{
    for (int i = 0; i < options->override_count; i++) {
        if (options->overrides[i].unit == LW_UNIT_MM) {
            return true;
        }
    }
    for (int i = 0; i < cut->setting_count; i++) {
        if (uses_mm(cut->settings[i].value)) {
            return true;
        }
    }
    for (int i = 0; i < cut->step_count; i++) {
        for (int r = 0; r < cut->steps[i].rule_count; r++) {
            const lw_rule *rule = &cut->steps[i].rules[r];
            bool any = uses_mm(rule->value);
            for (int k = 0; k < rule->value_count; k++) {
                any = any || uses_mm(rule->values[k]);
            }
            if (any) {
                return true;
            }
        }
    }
    return false;
}

static lw_status no_size_found(const lw_cut *cut, lw_problem *problem)
{
    return lw_problem_set(problem, LW_NO_SOLUTION, cut->steps[0].place.line,
                          cut->steps[0].place.column, "a size that its own rules in mm contradict",
                          "a size that the stone can have", "");
}

lw_status lw_cut_solve(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_stone *out, lw_problem *problem)
{
    static const lw_solve_options none = {0};
    const lw_solve_options *wish = options != NULL ? options : &none;
    lw_values values;
    lw_status status = lw_values_make(cut, wish->overrides, wish->override_count, &values, problem);
    if (status != LW_OK) {
        return status;
    }
    bool sized = wish->size_kind != LW_SIZE_NONE;
    bool matters = size_matters(cut, wish);
    double unit_mm = sized ? (wish->size_kind == LW_SIZE_WEIGHT_CT ? 6.0 : wish->size) : 0.0;
    lw_stone stone;
    for (int i = 0; i < MOST_SIZINGS; i++) {
        status = solve_once(memory, cut, &values, unit_mm, &stone, problem);
        if (status != LW_OK || !sized) {
            break;
        }
        double wanted = unit_for(&stone.measures, wish);
        bool settled = !matters || fabs(wanted - unit_mm) <= 1e-14 * wanted;
        unit_mm = wanted;
        stone.unit_mm = wanted;
        if (settled) {
            break;
        }
        lw_stone_destroy(&stone);
        status = i + 1 == MOST_SIZINGS ? no_size_found(cut, problem) : status;
    }
    if (status == LW_OK) {
        *out = stone;
    }
    return status;
}
