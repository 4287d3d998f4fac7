/* Steps that hang on one another, solved together.
 *
 * The unknowns are the depths, the free angles and the free teeth of all steps that wait; each rule
 * is one equation. With given angles the points of meets are linear in the depths, so one step of
 * Newton's method is exact; with free angles it is repeated, from several starts. Derivatives are
 * central differences. A singular system with a consistent right side has more than one solution,
 * with an inconsistent one none. */
#include "cut/solver.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MOST_UNKNOWNS = 48, MOST_ROUNDS = 60, START_COUNT = 6 };

/* A pivot this much smaller than the first leaves its unknown open. */
#define SINGULAR 1e-9
/* Steps of the differences: an angle in degrees, a tooth, a depth. */
#define DIFFERENCE 1e-5
/* Every equation holds this well, in widths. */
#define SOLVED 1e-13

typedef enum unknown_kind { UNKNOWN_DEPTH, UNKNOWN_ANGLE, UNKNOWN_TOOTH } unknown_kind;

typedef struct unknown {
    unknown_kind kind;
    int step;
    int facet; /* UNKNOWN_DEPTH of one tooth; -1 for the whole tier */
} unknown;

typedef struct joint {
    lw_solver *solver;
    bool waits[LW_CUT_MOST_STEPS];
    int first_step; /* the first that waits */
    int count;
    unknown unknowns[MOST_UNKNOWNS];
    double x[MOST_UNKNOWNS];
    double residual[MOST_UNKNOWNS];
    double matrix[MOST_UNKNOWNS][MOST_UNKNOWNS + 1];
    bool curved; /* an angle or a tooth is unknown, or a length on the stone is asked for */
} joint;

static bool depth_a_tooth(const lw_step *step)
{
    return step->each || step->rules[0].value_count > 1;
}

static bool add_unknown(joint *j, unknown u, double start)
{
    if (j->count == MOST_UNKNOWNS) {
        return false;
    }
    j->unknowns[j->count] = u;
    j->x[j->count] = start;
    j->count++;
    return true;
}

static bool add_step(joint *j, int at)
{
    const lw_solver *solver = j->solver;
    const lw_step *step = &solver->cut->steps[at];
    const lw_tier *tier = &solver->tiers[at];
    bool room = true;
    for (int i = 0; i < (depth_a_tooth(step) ? tier->count : 1); i++) {
        int facet = depth_a_tooth(step) ? tier->first + i : -1;
        room = room && add_unknown(j, (unknown){UNKNOWN_DEPTH, at, facet}, 0.4);
    }
    if (step->angle == NULL) {
        room = room && add_unknown(j, (unknown){UNKNOWN_ANGLE, at, -1}, tier->angle_deg);
    }
    if (step->tooth_free) {
        double tooth = lw_solver_text_tooth(solver, tier->first);
        room = room && add_unknown(j, (unknown){UNKNOWN_TOOTH, at, -1}, tooth);
    }
    for (int r = 0; r < step->rule_count; r++) {
        lw_rule_kind kind = step->rules[r].kind;
        j->curved = j->curved || kind == LW_RULE_EDGE || kind == LW_RULE_WIDTH ||
                    kind == LW_RULE_EQUAL || kind == LW_RULE_CULET;
    }
    j->curved = j->curved || step->angle == NULL || step->tooth_free;
    return room;
}

static lw_outcome gather(joint *j)
{
    lw_solver *solver = j->solver;
    j->first_step = -1;
    for (int i = 0; i < solver->cut->step_count; i++) {
        j->waits[i] = !solver->known[i];
        if (!j->waits[i]) {
            continue;
        }
        j->first_step = j->first_step < 0 ? i : j->first_step;
        if (!add_step(j, i)) {
            return lw_solver_fail(solver, LW_TOO_LARGE, solver->cut->steps[i].place,
                                  "too many steps that hang on one another",
                                  "at most 48 unknowns together", "");
        }
    }
    return LW_GOT;
}

/* Puts the unknowns into the facets. */
static void apply(const joint *j, const double *x)
{
    for (int i = 0; i < j->count; i++) {
        const unknown *u = &j->unknowns[i];
        if (u->kind == UNKNOWN_ANGLE) {
            lw_sincos angle = lw_sincos_deg(x[i]);
            lw_solver_set_angle(j->solver, u->step, angle.sin, angle.cos);
        } else if (u->kind == UNKNOWN_TOOTH) {
            lw_solver_set_tooth(j->solver, u->step, x[i]);
        } else if (u->facet >= 0) {
            j->solver->facets[u->facet].plane.distance = x[i];
        } else {
            lw_solver_set_distance(j->solver, u->step, x[i]);
        }
    }
}

static lw_outcome rule_residual(joint *j, lw_cutting now, const lw_rule *rule, double *residual)
{
    lw_demand demand;
    const lw_plane *plane = &j->solver->facets[now.facet].plane;
    lw_outcome outcome = lw_solver_demand(j->solver, now, rule, &demand);
    if (outcome != LW_GOT) {
        return outcome;
    }
    if (demand.kind == LW_DEMAND_SHAPE) {
        return lw_solver_shape_miss(j->solver, now, rule, residual);
    }
    *residual = demand.kind == LW_DEMAND_POINT ? lw_plane_height(*plane, demand.point)
                                               : plane->distance - demand.distance;
    return LW_GOT;
}

/* How far each rule is from true with the unknowns at x. */
static lw_outcome residuals(joint *j, const double *x, double *out)
{
    int count = 0;
    apply(j, x);
    for (int i = j->first_step; i < j->solver->cut->step_count; i++) {
        if (!j->waits[i]) {
            continue;
        }
        const lw_step *step = &j->solver->cut->steps[i];
        const lw_tier *tier = &j->solver->tiers[i];
        lw_solver_shape_before(j->solver, i);
        int facets = depth_a_tooth(step) ? tier->count : 1;
        for (int f = 0; f < facets; f++) {
            lw_cutting now = {.step = i, .facet = tier->first + f};
            for (int r = 0; r < step->rule_count && count < j->count; r++) {
                lw_outcome outcome = rule_residual(j, now, &step->rules[r], &out[count]);
                if (outcome != LW_GOT) {
                    return outcome;
                }
                count++;
            }
        }
    }
    while (count < j->count) {
        out[count++] = 0.0;
    }
    return LW_GOT;
}

static lw_outcome fill_matrix(joint *j)
{
    double above[MOST_UNKNOWNS];
    double below[MOST_UNKNOWNS];
    for (int c = 0; c < j->count; c++) {
        double kept = j->x[c];
        j->x[c] = kept + DIFFERENCE;
        lw_outcome outcome = residuals(j, j->x, above);
        j->x[c] = kept - DIFFERENCE;
        if (outcome == LW_GOT) {
            outcome = residuals(j, j->x, below);
        }
        j->x[c] = kept;
        if (outcome != LW_GOT) {
            return outcome;
        }
        for (int r = 0; r < j->count; r++) {
            j->matrix[r][c] = (above[r] - below[r]) / (2.0 * DIFFERENCE);
        }
    }
    return LW_GOT;
}

static void swap_columns(joint *j, int a, int b, int *order)
{
    for (int r = 0; r < j->count; r++) {
        double kept = j->matrix[r][a];
        j->matrix[r][a] = j->matrix[r][b];
        j->matrix[r][b] = kept;
    }
    int kept = order[a];
    order[a] = order[b];
    order[b] = kept;
}

static void swap_rows(joint *j, int a, int b)
{
    double kept[MOST_UNKNOWNS + 1];
    memcpy(kept, j->matrix[a], sizeof kept);
    memcpy(j->matrix[a], j->matrix[b], sizeof kept);
    memcpy(j->matrix[b], kept, sizeof kept);
}

static double find_pivot(const joint *j, int from, int *row, int *column)
{
    double largest = 0.0;
    for (int r = from; r < j->count; r++) {
        for (int c = from; c < j->count; c++) {
            if (fabs(j->matrix[r][c]) > largest) {
                largest = fabs(j->matrix[r][c]);
                *row = r;
                *column = c;
            }
        }
    }
    return largest;
}

/* Gaussian elimination with full pivoting of matrix . step = -residual. Gives the rank; where it is
 * short, the open unknowns get step 0, and *consistent tells whether the rest still holds. */
static int eliminate(joint *j, double *step, bool *consistent)
{
    int n = j->count;
    int order[MOST_UNKNOWNS];
    double first = 0.0;
    int rank = 0;
    for (int i = 0; i < n; i++) {
        order[i] = i;
        j->matrix[i][MOST_UNKNOWNS] = -j->residual[i];
    }
    for (; rank < n; rank++) {
        int row = rank;
        int column = rank;
        double pivot = find_pivot(j, rank, &row, &column);
        first = rank == 0 ? pivot : first;
        if (pivot <= SINGULAR * first) {
            break;
        }
        swap_rows(j, rank, row);
        swap_columns(j, rank, column, order);
        for (int r = rank + 1; r < n; r++) {
            double factor = j->matrix[r][rank] / j->matrix[rank][rank];
            for (int c = rank; c < n; c++) {
                j->matrix[r][c] -= factor * j->matrix[rank][c];
            }
            j->matrix[r][MOST_UNKNOWNS] -= factor * j->matrix[rank][MOST_UNKNOWNS];
        }
    }
    *consistent = true;
    for (int r = rank; r < n; r++) {
        *consistent = *consistent && fabs(j->matrix[r][MOST_UNKNOWNS]) < LW_MEET_HOLDS;
    }
    double solved[MOST_UNKNOWNS] = {0};
    for (int r = rank - 1; r >= 0; r--) {
        double sum = j->matrix[r][MOST_UNKNOWNS];
        for (int c = r + 1; c < rank; c++) {
            sum -= j->matrix[r][c] * solved[c];
        }
        solved[r] = sum / j->matrix[r][r];
    }
    for (int i = 0; i < n; i++) {
        step[order[i]] = solved[i];
    }
    return rank;
}

static double largest_of(const double *values, int count)
{
    double largest = 0.0;
    for (int i = 0; i < count; i++) {
        largest = fmax(largest, fabs(values[i]));
    }
    return largest;
}

/* How a run of Newton's method ended. */
typedef enum run_end {
    RUN_SOLVED,
    RUN_OPEN, /* more than one solution */
    RUN_LOST
} run_end;

/* Goes as far along the step as lessens the misses. */
static bool take_step(joint *j, const double *step)
{
    double before = largest_of(j->residual, j->count);
    double kept[MOST_UNKNOWNS];
    memcpy(kept, j->x, sizeof kept);
    for (double part = 1.0; part > 1e-3; part *= 0.5) {
        for (int i = 0; i < j->count; i++) {
            j->x[i] = kept[i] + part * step[i];
        }
        lw_outcome outcome = residuals(j, j->x, j->residual);
        if (outcome == LW_GOT && largest_of(j->residual, j->count) < before) {
            return true;
        }
    }
    memcpy(j->x, kept, sizeof kept);
    return residuals(j, j->x, j->residual) == LW_GOT && before < LW_MEET_HOLDS;
}

static run_end newton(joint *j)
{
    if (residuals(j, j->x, j->residual) != LW_GOT) {
        return RUN_LOST;
    }
    for (int round = 0; round < MOST_ROUNDS; round++) {
        double step[MOST_UNKNOWNS] = {0};
        bool consistent = false;
        if (fill_matrix(j) != LW_GOT) {
            return RUN_LOST;
        }
        int rank = eliminate(j, step, &consistent);
        if (rank < j->count) {
            return consistent ? RUN_OPEN : RUN_LOST;
        }
        bool small = largest_of(j->residual, j->count) < SOLVED;
        if (small || !take_step(j, step)) {
            break;
        }
    }
    return largest_of(j->residual, j->count) < LW_MEET_HOLDS ? RUN_SOLVED : RUN_LOST;
}

/* Whether every free angle came out within its quadrant. */
static bool sensible(const joint *j)
{
    for (int i = 0; i < j->count; i++) {
        if (j->unknowns[i].kind == UNKNOWN_ANGLE && !(j->x[i] > 0.0 && j->x[i] <= 90.0)) {
            return false;
        }
    }
    return true;
}

static void start_from(joint *j, int start)
{
    static const double angles[START_COUNT] = {45.0, 30.0, 60.0, 15.0, 75.0, 38.0};
    for (int i = 0; i < j->count; i++) {
        const unknown *u = &j->unknowns[i];
        const lw_step *step = &j->solver->cut->steps[u->step];
        if (u->kind == UNKNOWN_ANGLE && step->angle_near == NULL) {
            j->x[i] = angles[start];
        } else if (u->kind == UNKNOWN_DEPTH) {
            j->x[i] = 0.4;
        }
    }
}

static lw_outcome together(joint *j, lw_status status, const char *found, const char *expected)
{
    const lw_step *step = &j->solver->cut->steps[j->first_step];
    char hint[LW_PROBLEM_TEXT] = "solved together: lines";
    size_t used = strlen(hint);
    for (int i = j->first_step; i < j->solver->cut->step_count && used < sizeof hint - 12; i++) {
        if (j->waits[i]) {
            used += (size_t)snprintf(hint + used, sizeof hint - used, " %d",
                                     j->solver->cut->steps[i].place.line);
        }
    }
    return lw_solver_fail(j->solver, status, step->place, found, expected, hint);
}

/* Whether a solution differs from the one that was found before. */
static bool another(const joint *j, const double *before)
{
    double difference = 0.0;
    for (int i = 0; i < j->count; i++) {
        difference = fmax(difference, fabs(j->x[i] - before[i]));
    }
    return difference > 1e3 * LW_MEET_HOLDS;
}

static lw_outcome search(joint *j)
{
    double best[MOST_UNKNOWNS] = {0};
    bool found = false;
    bool open = false;
    for (int start = 0; start < (j->curved ? START_COUNT : 1); start++) {
        start_from(j, start);
        run_end end = newton(j);
        open = open || end == RUN_OPEN;
        if (end != RUN_SOLVED || !sensible(j)) {
            continue;
        }
        if (found && another(j, best)) {
            return together(j, LW_MANY_SOLUTIONS, "steps with more than one solution",
                            "rules that leave one (free near an angle)");
        }
        if (!found) {
            memcpy(best, j->x, sizeof best);
        }
        found = true;
    }
    if (!found) {
        return open ? together(j, LW_MANY_SOLUTIONS, "steps with more than one solution",
                               "rules that fix every depth")
                    : together(j, LW_NO_SOLUTION, "steps without a solution",
                               "rules that can be met together");
    }
    apply(j, best);
    return LW_GOT;
}

lw_outcome lw_solver_joint(lw_solver *solver)
{
    joint *j = lw_arena_new(&solver->arena, 1, sizeof *j);
    if (j == NULL) {
        solver->status = LW_NO_MEMORY;
        return LW_FAILED;
    }
    j->solver = solver;
    if (gather(j) != LW_GOT) {
        return LW_FAILED;
    }
    lw_problem *problem = solver->problem;
    for (int i = 0; i < solver->cut->step_count; i++) {
        solver->known[i] = true;
    }
    solver->any_waiting = false;
    solver->tentative = true;
    /* What a guess stumbles over is no message for the user. */
    lw_problem scratch;
    solver->problem = &scratch;
    lw_outcome outcome = residuals(j, j->x, j->residual);
    lw_status status = solver->status;
    solver->problem = problem;
    if (outcome == LW_FAILED && !j->curved) {
        solver->status = status;
        if (problem != NULL) {
            *problem = scratch;
        }
        solver->tentative = false;
        return LW_FAILED;
    }
    outcome = search(j);
    solver->tentative = false;
    return outcome;
}
