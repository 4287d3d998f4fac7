#include "cut/solve.h"

#include "cut/solver.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* How often the size is put right: a rule in mm changes the shape, the shape the size. The secant
 * method takes four or five rounds. */
enum { MOST_SIZINGS = 40 };

/* A first guess at the millimetres a unit for a stone of a stated weight. */
static const double first_unit_mm = 6.0;

/* A step that can be solved now becomes known; one that cannot notes what it hangs on. */
static lw_outcome try_step(lw_solver *solver, int step)
{
    lw_solver_stand_before(solver, step);
    lw_outcome outcome = lw_solver_tier(solver, step);
    if (outcome == LW_GOT) {
        lw_solver_set_known(solver, step, true);
    } else if (outcome == LW_WAITS) {
        assert(!solver->known[solver->waits_for]);
        solver->hangs[step] = solver->waits_for;
    }
    return outcome;
}

/* Looks again at the steps above whose reason to wait is gone, until none is left. */
static lw_outcome revisit(lw_solver *solver, int before)
{
    bool progress = true;
    while (progress && solver->first_waiting < before) {
        progress = false;
        for (int i = solver->first_waiting; i < before; i++) {
            if (solver->known[i] || !solver->known[solver->hangs[i]]) {
                continue;
            }
            lw_outcome outcome = try_step(solver, i);
            if (outcome == LW_FAILED) {
                return LW_FAILED;
            }
            progress = true;
        }
    }
    return LW_GOT;
}

/* Takes the steps in order; those that hang on later ones wait, and are looked at again when what
 * they wait for is known. What waits for one another at the end is solved together. */
static lw_outcome all_steps(lw_solver *solver)
{
    int count = solver->cut->step_count;
    for (int i = 0; i < count; i++) {
        lw_outcome outcome = solver->known[i] ? LW_GOT : try_step(solver, i);
        if (outcome == LW_GOT && !lw_solver_lacks(solver)) {
            lw_solver_stand_before(solver, i + 1);
            outcome = lw_solver_cut_up(solver);
        }
        if (outcome == LW_FAILED || revisit(solver, i + 1) == LW_FAILED) {
            return LW_FAILED;
        }
    }
    while (solver->first_waiting < count) {
        if (lw_solver_joint(solver) != LW_GOT || revisit(solver, count) != LW_GOT) {
            return LW_FAILED;
        }
    }
    lw_solver_stand_before(solver, count);
    return lw_solver_cut_up(solver);
}

/* The height to become z = 0: half way between the girdle lines; without a girdle, the level of the
 * edge where the sides meet. */
static double mid_girdle(lw_solver *solver)
{
    double upper = 0.0;
    double lower = 0.0;
    if (lw_solver_girdle_line(solver, 1.0, &upper) && lw_solver_girdle_line(solver, -1.0, &lower)) {
        return 0.5 * (upper + lower);
    }
    return lw_stone_edge_level(lw_solver_shape(solver));
}

static lw_outcome not_closed(lw_solver *solver)
{
    int last = solver->cut->step_count - 1;
    return lw_solver_fail(solver, LW_NOT_CLOSED, solver->cut->steps[last].place,
                          "a stone that is still open after its last step",
                          "facets all round, above and below", "some side of the rough is uncut");
}

lw_outcome lw_solver_run(lw_solver *solver, double unit_mm, double *raised, lw_measures *measures)
{
    solver->unit_mm = unit_mm;
    if (all_steps(solver) != LW_GOT) {
        return LW_FAILED;
    }
    if (!lw_solid_is_closed(solver->standing.solid)) {
        return not_closed(solver);
    }
    *raised = -mid_girdle(solver);
    lw_stone_measure(solver->facets, lw_solver_shape(solver), measures);
    return LW_GOT;
}

static lw_status copy_arrays(const lw_memory *memory, lw_solver *solver, lw_stone *stone)
{
    void *facets = NULL;
    void *tiers = NULL;
    size_t facet_count = (size_t)solver->facet_count;
    size_t tier_count = (size_t)solver->cut->step_count;
    lw_status status = lw_memory_new(memory, facet_count, sizeof *stone->facets, &facets);
    if (status == LW_OK) {
        stone->facets = facets;
        stone->facet_count = solver->facet_count;
        status = lw_memory_new(memory, tier_count, sizeof *stone->tiers, &tiers);
    }
    if (status == LW_OK) {
        stone->tiers = tiers;
        stone->tier_count = solver->cut->step_count;
        memcpy(stone->facets, solver->facets, facet_count * sizeof *stone->facets);
        memcpy(stone->tiers, solver->tiers, tier_count * sizeof *stone->tiers);
        status = lw_polyhedron_copy(memory, lw_solver_shape(solver), &stone->solid);
    }
    return status;
}

/* Moves the stone along z, so that mid-girdle is at 0. */
static void raise_stone(lw_stone *stone, double way)
{
    /* The copy is ours; its arrays are const for those who come after. */
    lw_vec3 *vertices = (lw_vec3 *)stone->solid.vertices;
    lw_plane *planes = (lw_plane *)stone->solid.planes;
    for (int v = 0; v < stone->solid.vertex_count; v++) {
        vertices[v].z += way;
    }
    for (int i = 0; i < stone->facet_count; i++) {
        stone->facets[i].plane.distance += stone->facets[i].plane.normal.z * way;
        planes[i] = stone->facets[i].plane;
    }
    stone->measures.mass.centroid.z += way;
    stone->raised = way;
}

/* The solver's stone in made, with all its parts, in its own frame. */
static lw_status copy_out(const lw_memory *memory, lw_solver *solver, const lw_stone *made,
                          lw_stone *out)
{
    lw_stone stone = {.memory = *memory,
                      .values = solver->values,
                      .measures = made->measures,
                      .unit_mm = made->unit_mm};
    lw_status status = copy_arrays(memory, solver, &stone);
    if (status != LW_OK) {
        lw_stone_destroy(&stone);
        return status;
    }
    raise_stone(&stone, made->raised);
    *out = stone;
    return LW_OK;
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

static lw_outcome no_size_found(lw_solver *solver)
{
    return lw_solver_fail(solver, LW_NO_SOLUTION, solver->cut->steps[0].place,
                          "a size that its own rules in mm contradict",
                          "a size that the stone can have", "");
}

/* The size as it is put right: what was taken for it, and how far that was off. */
typedef struct sizing {
    double unit_mm, off;
    double last_unit_mm, last_off;
    bool begun;
} sizing;

/* The next millimetres a unit, when a stone made with the present ones wants others: by the secant
 * method on their difference; where that leads nowhere, as wanted. */
static void put_right(sizing *s, double wanted)
{
    double taken = s->unit_mm;
    s->off = wanted - taken;
    double slope = (s->off - s->last_off) / (taken - s->last_unit_mm);
    double next = taken - s->off / slope;
    bool sound = s->begun && next > 0.5 * wanted && next < 2.0 * wanted;
    s->last_unit_mm = taken;
    s->last_off = s->off;
    s->begun = true;
    s->unit_mm = sound ? next : wanted;
}

/* Solves, again and again where the shape hangs on the size. */
static lw_outcome solve_to_size(lw_solver *solver, const lw_solve_options *wish, lw_stone *stone)
{
    bool sized = wish->size_kind != LW_SIZE_NONE;
    bool settled = !sized;
    bool matters = sized && size_matters(solver->cut, wish);
    sizing s = {.unit_mm = wish->size_kind == LW_SIZE_WEIGHT_CT ? first_unit_mm
                           : sized                              ? wish->size
                                                                : 0.0};
    for (int i = 0; i == 0 || !settled; i++) {
        if (i == MOST_SIZINGS) {
            return no_size_found(solver);
        }
        if (i > 0 && lw_solver_expand(solver) != LW_GOT) {
            return LW_FAILED;
        }
        if (lw_solver_run(solver, s.unit_mm, &stone->raised, &stone->measures) != LW_GOT) {
            return LW_FAILED;
        }
        if (sized) {
            double wanted = unit_for(&stone->measures, wish);
            settled = !matters || fabs(wanted - s.unit_mm) <= LW_SAME_FIGURE * wanted;
            stone->unit_mm = wanted;
            put_right(&s, wanted);
        }
    }
    return LW_GOT;
}

lw_status lw_cut_solve(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_stone *out, lw_problem *problem)
{
    static const lw_solve_options none = {0};
    const lw_solve_options *wish = options != NULL ? options : &none;
    lw_values values;
    lw_stone made = {0};
    lw_solver solver;
    lw_status status = lw_values_make(cut, wish->overrides, wish->override_count, &values, problem);
    if (status != LW_OK) {
        return status;
    }
    status = lw_solver_init(&solver, memory, cut, &values, problem);
    if (status == LW_OK && solve_to_size(&solver, wish, &made) != LW_GOT) {
        status = solver.status;
    }
    if (status == LW_OK) {
        status = copy_out(memory, &solver, &made, out);
    }
    lw_solver_destroy(&solver);
    return status;
}
