/* Steps that hang on one another, solved together.
 *
 * The unknowns are the depths, the free angles and the free teeth of a ring of steps that wait for
 * one another, and of what these hang on besides; each rule is one equation. With given angles the
 * points of meets are linear in the depths, so one step of Newton's method is exact; with free
 * angles it is repeated, from several starts. Derivatives are central differences. A singular
 * system with a consistent right side has more than one solution, with an inconsistent one none. */
#include "cut/linear.h"

#include "cut/solver.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MOST_SLOW = 6, START_COUNT = 6 };

/* Where every depth starts from: inside most stones, outside none. */
static const double start_depth = 0.4;

typedef enum unknown_kind { UNKNOWN_DEPTH, UNKNOWN_ANGLE, UNKNOWN_TOOTH } unknown_kind;

typedef struct unknown {
    unknown_kind kind;
    int step;
    int facet; /* UNKNOWN_DEPTH of one tooth; -1 for the whole tier */
} unknown;

struct lw_joint {
    bool *waits;    /* a step is among those solved here */
    int first_step; /* the first that waits */
    unknown unknowns[LW_JOINT_MOST];
    double x[LW_JOINT_MOST], start[LW_JOINT_MOST];
    lw_linear linear;
    bool curved; /* an angle or a tooth is unknown, or a length on the stone is asked for */
};

/* The solver and its room for this. */
typedef struct joint {
    lw_solver *solver;
    struct lw_joint *room;
    int count; /* of unknowns, and of equations */
} joint;

lw_joint *lw_joint_new(lw_arena *arena, const lw_cut *cut)
{
    lw_joint *room = lw_arena_new(arena, 1, sizeof *room);
    bool *waits = lw_arena_new(arena, (size_t)cut->step_count, sizeof *waits);
    if (room != NULL) {
        room->waits = waits;
    }
    return waits != NULL ? room : NULL;
}

static bool add_unknown(joint *j, unknown u, double start)
{
    if (j->count == LW_JOINT_MOST) {
        return false;
    }
    j->room->unknowns[j->count] = u;
    j->room->start[j->count] = start;
    j->count++;
    return true;
}

static bool asks_for_length(const lw_step *step)
{
    for (int r = 0; r < step->rule_count; r++) {
        lw_rule_kind kind = step->rules[r].kind;
        if (kind == LW_RULE_EDGE || kind == LW_RULE_WIDTH || kind == LW_RULE_EQUAL ||
            kind == LW_RULE_CULET) {
            return true;
        }
    }
    return false;
}

static bool add_step(joint *j, int at)
{
    const lw_solver *solver = j->solver;
    const lw_step *step = &solver->cut->steps[at];
    const lw_tier *tier = &solver->tiers[at];
    bool own_depths = lw_step_has_own_depths(step);
    bool room = true;
    for (int i = 0; i < (own_depths ? tier->count : 1); i++) {
        int facet = own_depths ? tier->first + i : -1;
        room = room && add_unknown(j, (unknown){UNKNOWN_DEPTH, at, facet}, start_depth);
    }
    if (step->angle == NULL) {
        room = room && add_unknown(j, (unknown){UNKNOWN_ANGLE, at, -1}, tier->angle_deg);
    }
    if (step->tooth_free) {
        double tooth = solver->text_teeth[tier->first];
        room = room && add_unknown(j, (unknown){UNKNOWN_TOOTH, at, -1}, tooth);
    }
    j->room->curved = j->room->curved || step->angle == NULL || asks_for_length(step);
    return room;
}

/* Takes a step in: from now on it counts as known, by guesses. */
static lw_outcome take_in(joint *j, int at)
{
    bool room = add_step(j, at);
    j->room->waits[at] = true;
    j->room->first_step = at < j->room->first_step ? at : j->room->first_step;
    lw_solver_set_known(j->solver, at, true);
    if (room) {
        return LW_GOT;
    }
    return lw_solver_fail(j->solver, LW_TOO_LARGE, j->solver->cut->steps[at].place,
                          "too many steps that hang on one another", "at most 48 unknowns together",
                          "");
}

/* Every step that waits hangs on one that waits, so that following them leads into a ring. */
static lw_outcome take_ring(joint *j)
{
    const lw_solver *solver = j->solver;
    int at = solver->first_waiting;
    for (int i = 0; i < solver->cut->step_count; i++) {
        at = solver->hangs[at];
    }
    while (!j->room->waits[at]) {
        if (take_in(j, at) != LW_GOT) {
            return LW_FAILED;
        }
        at = solver->hangs[at];
    }
    return LW_GOT;
}

/* Puts the unknowns into the facets. */
static void apply(const joint *j, const double *x)
{
    for (int i = 0; i < j->count; i++) {
        const unknown *u = &j->room->unknowns[i];
        if (u->kind == UNKNOWN_ANGLE) {
            lw_sincos angle = lw_sincos_deg(x[i]);
            lw_solver_set_angle(j->solver, u->step, angle.sin, angle.cos);
        } else if (u->kind == UNKNOWN_TOOTH) {
            lw_solver_set_tooth(j->solver, u->step, x[i]);
        } else if (u->facet >= 0) {
            lw_solver_set_depth(j->solver, u->facet, x[i]);
        } else {
            lw_solver_set_distance(j->solver, u->step, x[i]);
        }
    }
}

/* The equations of one step: a rule each, for every tooth with a depth of its own. */
static lw_outcome step_residuals(joint *j, int at, double *out, int *count)
{
    const lw_step *step = &j->solver->cut->steps[at];
    const lw_tier *tier = &j->solver->tiers[at];
    int facets = lw_step_has_own_depths(step) ? tier->count : 1;
    lw_solver_stand_before(j->solver, at);
    for (int f = 0; f < facets; f++) {
        for (int r = 0; r < step->rule_count; r++) {
            lw_cutting now = {.step = at, .facet = tier->first + f};
            lw_outcome outcome = lw_solver_rule_miss(j->solver, now, &step->rules[r], &out[*count]);
            if (outcome != LW_GOT) {
                return outcome;
            }
            (*count)++;
        }
    }
    return LW_GOT;
}

/* How far each rule is from true with the unknowns at x. A depth has one rule, a free angle and a
 * free tooth one more each: as many as unknowns. */
static lw_outcome residuals(joint *j, const double *x, double *out)
{
    int count = 0;
    apply(j, x);
    for (int i = j->room->first_step; i < j->solver->cut->step_count; i++) {
        lw_outcome outcome = j->room->waits[i] ? step_residuals(j, i, out, &count) : LW_GOT;
        if (outcome != LW_GOT) {
            return outcome;
        }
    }
    return LW_GOT;
}

static lw_outcome fill_matrix(joint *j)
{
    double above[LW_JOINT_MOST];
    double below[LW_JOINT_MOST];
    double *x = j->room->x;
    for (int c = 0; c < j->count; c++) {
        double kept = x[c];
        x[c] = kept + LW_DIFFERENCE;
        lw_outcome outcome = residuals(j, x, above);
        x[c] = kept - LW_DIFFERENCE;
        if (outcome == LW_GOT) {
            outcome = residuals(j, x, below);
        }
        x[c] = kept;
        if (outcome != LW_GOT) {
            return outcome;
        }
        for (int r = 0; r < j->count; r++) {
            j->room->linear.matrix[r][c] = (above[r] - below[r]) / (2.0 * LW_DIFFERENCE);
        }
    }
    return LW_GOT;
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

/* Goes as far along the step as lessens the misses, which are those at x. */
static bool take_step(joint *j, const double *step, double *misses)
{
    double *x = j->room->x;
    double before = largest_of(misses, j->count);
    double kept[LW_JOINT_MOST];
    memcpy(kept, x, sizeof kept);
    for (double part = 1.0; part > LW_SHORTEST_STEP; part *= 0.5) {
        for (int i = 0; i < j->count; i++) {
            x[i] = kept[i] + part * step[i];
        }
        if (residuals(j, x, misses) == LW_GOT && largest_of(misses, j->count) < before) {
            return true;
        }
    }
    memcpy(x, kept, sizeof kept);
    return false;
}

/* From x on; leaves x at the solution. Near one the misses fall fast; a run in which they do not,
 * round after round, leads nowhere. */
static run_end newton_from(joint *j)
{
    lw_linear *linear = &j->room->linear;
    double misses[LW_JOINT_MOST];
    double step[LW_JOINT_MOST];
    if (residuals(j, j->room->x, misses) != LW_GOT) {
        return RUN_LOST;
    }
    for (int slow = 0; slow < MOST_SLOW;) {
        bool consistent = false;
        double before = largest_of(misses, j->count);
        if (fill_matrix(j) != LW_GOT) {
            return RUN_LOST;
        }
        memcpy(linear->right, misses, sizeof misses);
        if (lw_linear_solve(linear, j->count, step, &consistent) < j->count) {
            return consistent ? RUN_OPEN : RUN_LOST;
        }
        if (before < LW_SOLVED || !take_step(j, step, misses)) {
            break;
        }
        slow += largest_of(misses, j->count) > 0.5 * before;
    }
    bool holds =
        residuals(j, j->room->x, misses) == LW_GOT && largest_of(misses, j->count) < LW_MEET_HOLDS;
    return holds ? RUN_SOLVED : RUN_LOST;
}

/* What a guess stumbles over is no message for the user. */
static run_end newton(joint *j)
{
    lw_problem scratch;
    lw_problem *problem = j->solver->problem;
    j->solver->problem = &scratch;
    run_end end = newton_from(j);
    j->solver->problem = problem;
    return end;
}

/* Whether every free angle came out within its quadrant. */
static bool sensible(const joint *j)
{
    for (int i = 0; i < j->count; i++) {
        double x = j->room->x[i];
        if (j->room->unknowns[i].kind == UNKNOWN_ANGLE &&
            !(x > 0.0 && x <= 90.0 + LW_SAME_ANGLE_DEG)) {
            return false;
        }
    }
    return true;
}

/* A free angle starts near what the text says; without that, each run from another. */
static void start_from(joint *j, int run)
{
    static const double angles[START_COUNT] = {45.0, 30.0, 60.0, 15.0, 75.0, 38.0};
    for (int i = 0; i < j->count; i++) {
        const unknown *u = &j->room->unknowns[i];
        bool said = j->solver->cut->steps[u->step].angle_near != NULL;
        j->room->x[i] = u->kind == UNKNOWN_ANGLE && !said ? angles[run] : j->room->start[i];
    }
}

static lw_outcome together(joint *j, lw_status status, const char *found, const char *expected)
{
    const lw_cut *cut = j->solver->cut;
    char hint[LW_PROBLEM_TEXT] = "solved together: lines";
    size_t used = strlen(hint);
    for (int i = j->room->first_step; i < cut->step_count && used < sizeof hint - 12; i++) {
        if (j->room->waits[i]) {
            used +=
                (size_t)snprintf(hint + used, sizeof hint - used, " %d", cut->steps[i].place.line);
        }
    }
    lw_place place = cut->steps[j->room->first_step].place;
    return lw_solver_fail(j->solver, status, place, found, expected, hint);
}

/* Whether a solution differs from the one that was found before. */
static bool another(const joint *j, const double *before)
{
    double difference = 0.0;
    for (int i = 0; i < j->count; i++) {
        difference = fmax(difference, fabs(j->room->x[i] - before[i]));
    }
    return difference > LW_OTHER_SOLUTION;
}

static lw_outcome not_found(joint *j, bool open)
{
    if (lw_solver_is_spent(j->solver)) {
        return together(j, LW_TOO_LARGE, "steps that are too much work to solve together",
                        "fewer facets that hang on one another");
    }
    if (open) {
        return together(j, LW_MANY_SOLUTIONS, "steps with more than one solution",
                        "rules that fix every depth");
    }
    return together(j, LW_NO_SOLUTION, "steps without a solution",
                    "rules that can be met together");
}

static lw_outcome search(joint *j)
{
    double best[LW_JOINT_MOST] = {0};
    bool found = false;
    bool open = false;
    for (int run = 0; run < (j->room->curved ? START_COUNT : 1); run++) {
        start_from(j, run);
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
            memcpy(best, j->room->x, sizeof best);
        }
        found = true;
    }
    if (!found) {
        return not_found(j, open);
    }
    apply(j, best);
    return LW_GOT;
}

/* Takes in what the steps of the ring hang on besides, until their equations stand by themselves.
 * What a guess stumbles over is told as it stands where no other guess could do better. */
static lw_outcome take_rest(joint *j)
{
    double misses[LW_JOINT_MOST];
    lw_problem scratch = {0};
    lw_solver *solver = j->solver;
    lw_problem *problem = solver->problem;
    for (int run = 0; run < START_COUNT; run++) {
        start_from(j, run);
        solver->problem = &scratch;
        lw_outcome outcome = residuals(j, j->room->x, misses);
        solver->problem = problem;
        if (outcome == LW_WAITS && !solver->known[solver->waits_for]) {
            if (take_in(j, solver->waits_for) != LW_GOT) {
                return LW_FAILED;
            }
            run = -1;
        } else if (outcome == LW_FAILED && !j->room->curved) {
            (void)lw_problem_set(problem, scratch.status, scratch.line, scratch.column,
                                 scratch.found, scratch.expected, scratch.hint);
            return LW_FAILED;
        } else if (outcome != LW_FAILED) {
            break;
        }
    }
    return LW_GOT;
}

lw_outcome lw_solver_joint(lw_solver *solver)
{
    joint j = {.solver = solver, .room = solver->joint};
    j.room->curved = false;
    j.room->first_step = solver->cut->step_count;
    for (int i = 0; i < solver->cut->step_count; i++) {
        j.room->waits[i] = false;
    }
    solver->tentative = true;
    lw_outcome outcome = take_ring(&j);
    if (outcome == LW_GOT) {
        outcome = take_rest(&j);
    }
    if (outcome == LW_GOT) {
        outcome = search(&j);
    }
    solver->tentative = false;
    return outcome;
}
