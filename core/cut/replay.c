/* A cut replayed at the lap. */
#include "cut/check_parts.h"

#include "cut/sight.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

/* The bench as the steps leave it. */
typedef struct bench {
    lw_side held; /* by the dop */
    bool adapter;
} bench;

typedef struct replay {
    lw_check_work *work;
    lw_solver solver;
    const lw_cut *cut;
    bench bench;
} replay;

static lw_side other_side(lw_side side)
{
    return side == LW_SIDE_CROWN ? LW_SIDE_PAVILION : LW_SIDE_CROWN;
}

/* Before the text says how the stone is dopped, it is held by the side that is not cut first. */
static lw_side held_at_first(const lw_cut *cut)
{
    for (int i = 0; i < cut->step_count; i++) {
        if (cut->steps[i].kind == LW_STEP_FACETS) {
            return other_side(cut->steps[i].side);
        }
        if (cut->steps[i].kind == LW_STEP_DOP) {
            return cut->steps[i].side;
        }
    }
    return LW_SIDE_NONE;
}

static void act(bench *now, const lw_step *step)
{
    switch (step->kind) {
    case LW_STEP_DOP:
        now->held = step->side;
        now->adapter = false;
        break;
    case LW_STEP_TRANSFER:
        now->held = other_side(now->held);
        now->adapter = false;
        break;
    case LW_STEP_REDOP:
        now->adapter = false;
        break;
    case LW_STEP_ADAPTER:
        now->adapter = !step->off;
        break;
    case LW_STEP_FACETS:
        break;
    }
}

/* Whether the machine can bring this step to the lap. */
static lw_status reachable(replay *r, int at)
{
    const lw_tier *tier = &r->solver.tiers[at];
    const lw_facet *first = &r->solver.facets[tier->first];
    lw_finding finding = {.fault = true, .step = at, .facet = tier->first, .other = -1};
    lw_status status = LW_OK;
    if (first->side != LW_SIDE_GIRDLE && first->side == r->bench.held) {
        finding.kind = LW_FINDING_DOPPED_SIDE;
        r->work->check.cuttable = false;
        status = lw_check_add(r->work, finding);
    }
    if (status == LW_OK && first->angle_deg == 0.0 && !r->bench.adapter) {
        finding.kind = LW_FINDING_NO_ADAPTER;
        r->work->check.cuttable = false;
        status = lw_check_add(r->work, finding);
    }
    return status;
}

/* How far a rule is from true at one facet; not a number when what it names is not there. */
static double rule_miss(replay *r, lw_cutting now, const lw_rule *rule)
{
    double miss = 0.0;
    return lw_solver_rule_miss(&r->solver, now, rule, &miss) == LW_GOT ? fabs(miss) : (double)NAN;
}

static lw_status meets_hold(replay *r, int at)
{
    const lw_step *step = &r->cut->steps[at];
    const lw_tier *tier = &r->solver.tiers[at];
    lw_status status = LW_OK;
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_cutting now = {.step = at, .facet = i};
        for (int k = 0; k < step->rule_count && status == LW_OK; k++) {
            double miss = rule_miss(r, now, &step->rules[k]);
            if (!(miss <= LW_MEET_HOLDS)) {
                lw_finding finding = {.kind = LW_FINDING_MEET_MISSED,
                                      .fault = true,
                                      .step = at,
                                      .facet = i,
                                      .other = -1,
                                      .amount = miss};
                r->work->check.every_meet = false;
                status = lw_check_add(r->work, finding);
            }
        }
    }
    return status;
}

static lw_status seen_or_blind(replay *r, int at)
{
    int facet = 0;
    lw_sight sight = lw_step_sight(&r->solver, at, &facet);
    r->work->check.sights[at] = sight;
    if (sight != LW_SIGHT_BLIND) {
        return LW_OK;
    }
    r->work->check.cuttable = false;
    lw_finding finding = {
        .kind = LW_FINDING_BLIND, .fault = true, .step = at, .facet = facet, .other = -1};
    return lw_check_add(r->work, finding);
}

static lw_status replay_step(replay *r, int at)
{
    const lw_step *step = &r->cut->steps[at];
    act(&r->bench, step);
    if (step->kind != LW_STEP_FACETS) {
        return LW_OK;
    }
    lw_solver_stand_before(&r->solver, at);
    lw_status status = reachable(r, at);
    if (status == LW_OK) {
        status = seen_or_blind(r, at);
    }
    return status == LW_OK ? meets_hold(r, at) : status;
}

/* Whether the point (or the keel) that a facet makes on the axis is on the stone. */
static bool axis_point_there(lw_solver *solver, const lw_plane *plane)
{
    int cut_by = 0;
    lw_vec3 point = {0.0, 0.0, plane->distance / plane->normal.z};
    return plane->normal.z != 0.0 && lw_solver_holds(solver, point, &cut_by);
}

static lw_status point_at_end(replay *r, int at, const lw_rule *rule)
{
    const lw_step *step = &r->cut->steps[at];
    int first = r->solver.tiers[at].first;
    bool there = axis_point_there(&r->solver, &r->solver.facets[first].plane);
    if (rule->kind != LW_RULE_POINT || there == !(rule->temporary || step->temporary)) {
        return LW_OK;
    }
    lw_finding finding = {
        .kind = LW_FINDING_POINT_STAYS, .fault = true, .step = at, .facet = first, .other = -1};
    r->work->check.cuttable = false;
    return lw_check_add(r->work, finding);
}

/* A temporary point must be gone, a final one there. */
static lw_status points_at_end(replay *r)
{
    lw_status status = LW_OK;
    lw_solver_stand_before(&r->solver, r->cut->step_count);
    for (int i = 0; i < r->cut->step_count && status == LW_OK; i++) {
        for (int k = 0; k < r->cut->steps[i].rule_count && status == LW_OK; k++) {
            status = point_at_end(r, i, &r->cut->steps[i].rules[k]);
        }
    }
    return status;
}

/* Puts the finished stone's planes into a solver, in the frame that its rules speak of. */
static void take_planes(lw_solver *solver, const lw_stone *stone)
{
    for (int i = 0; i < stone->facet_count; i++) {
        solver->facets[i] = stone->facets[i];
        lw_plane *plane = &solver->facets[i].plane;
        plane->distance -= plane->normal.z * stone->raised;
        solver->text_teeth[i] = solver->cut->left_handed
                                    ? lw_tooth_wrap(-stone->facets[i].tooth, solver->cut->wheel)
                                    : stone->facets[i].tooth;
    }
    for (int i = 0; i < stone->tier_count; i++) {
        solver->tiers[i] = stone->tiers[i];
        lw_solver_set_known(solver, i, true);
    }
    lw_names_sort(solver);
    solver->unit_mm = stone->unit_mm;
}

lw_status lw_check_replay(lw_check_work *work, const lw_memory *memory, const lw_cut *cut,
                          const lw_stone *stone)
{
    replay r = {.work = work, .cut = cut, .bench = {.held = held_at_first(cut)}};
    lw_status status = lw_solver_init(&r.solver, memory, cut, &stone->values, NULL);
    if (status == LW_OK) {
        take_planes(&r.solver, stone);
    }
    for (int i = 0; i < cut->step_count && status == LW_OK; i++) {
        status = replay_step(&r, i);
    }
    if (status == LW_OK) {
        status = points_at_end(&r);
    }
    if (status == LW_OK && lw_solver_is_spent(&r.solver)) {
        status = LW_TOO_LARGE;
    }
    lw_solver_destroy(&r.solver);
    return status;
}
