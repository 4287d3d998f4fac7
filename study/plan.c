#include "plan_parts.h"

#include <assert.h>

/* What a phase counts for beside one placement, in placements: measured, roughly. */
enum { COST_PREPARE = 200, COST_SIZE = 20, COST_LIGHT = 2000, COST_BENCH = 5 };

/* ---- setting up --------------------------------------------------------- */

/* The likely case first, so that a complaint is about the readings as given; about the others it
 * says that the caliper's error is in them. */
static lw_status make_roughs(lw_plan *plan, lw_problem *problem)
{
    static const lw_case order[LW_CASE_COUNT] = {LW_CASE_LIKELY, LW_CASE_LEAST, LW_CASE_MOST};
    const lw_plan_request *asked = &plan->request;
    for (int i = 0; i < LW_CASE_COUNT; i++) {
        lw_case which = order[i];
        lw_readings readings = lw_allowance_readings(&asked->allowances, &asked->readings, which);
        lw_problem found = {0};
        lw_status status =
            lw_habit_rough(&plan->memory, asked->habit, &readings, &plan->roughs[which], &found);
        if (status != LW_OK) {
            bool shifted = which != LW_CASE_LIKELY && asked->allowances.caliper_mm > 0.0;
            return lw_problem_set(problem, status, 0, 0, found.found, found.expected,
                                  shifted ? "the caliper's error is counted in" : found.hint);
        }
        plan->margins_mm[which] = lw_allowance_margin_mm(&asked->allowances, which);
    }
    return LW_OK;
}

static lw_status check_request(const lw_plan_request *request, lw_problem *problem)
{
    const lw_allowances *allowances = &request->allowances;
    bool sound = allowances->caliper_mm >= 0.0 && allowances->wanted_mm >= 0.0 &&
                 allowances->caliper_mm <= LW_ALLOWANCE_MOST_MM &&
                 allowances->wanted_mm <= LW_ALLOWANCE_MOST_MM;
    if (!sound) {
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, "an error or a margin of no use",
                              "0 to 20 mm", "");
    }
    if (request->cut_count > LW_PLAN_MOST_CUTS) {
        return lw_problem_set(problem, LW_TOO_LARGE, 0, 0, "more cuts than a plan takes",
                              "200 at most", "");
    }
    return lw_kit_check(&request->kit, problem);
}

static void start_entries(lw_plan *plan)
{
    for (int i = 0; i < plan->request.cut_count; i++) {
        plan->entries[i] = (lw_plan_entry){.name = plan->request.cuts[i].name,
                                           .given = plan->request.cuts[i].cut,
                                           .state = LW_PLAN_WAITING};
    }
}

static lw_status set_up(lw_plan *plan, lw_problem *problem)
{
    void *entries = NULL;
    lw_status status = lw_memory_new(&plan->memory, (size_t)plan->request.cut_count,
                                     sizeof(lw_plan_entry), &entries);
    if (status != LW_OK) {
        return lw_problem_set(problem, status, 0, 0, "", "", "");
    }
    plan->entries = entries;
    start_entries(plan);
    status = make_roughs(plan, problem);
    if (status != LW_OK) {
        return status;
    }
    plan->rough_ct =
        plan->request.rough_ct > 0.0
            ? plan->request.rough_ct
            : lw_rough_weight_ct(&plan->roughs[LW_CASE_LIKELY], plan->request.material->sg);
    plan->done = plan->request.cut_count == 0;
    return LW_OK;
}

lw_status lw_plan_new(const lw_memory *memory, const lw_plan_request *request, lw_plan **out,
                      lw_problem *problem)
{
    lw_status status = check_request(request, problem);
    if (status != LW_OK) {
        return status;
    }
    void *made = NULL;
    status = lw_memory_new(memory, 1, sizeof(lw_plan), &made);
    if (status != LW_OK) {
        return lw_problem_set(problem, status, 0, 0, "", "", "");
    }
    lw_plan *plan = made;
    plan->memory = *memory;
    plan->request = *request;
    status = set_up(plan, problem);
    if (status != LW_OK) {
        lw_plan_destroy(plan);
        return status;
    }
    *out = plan;
    return LW_OK;
}

void lw_plan_destroy(lw_plan *plan)
{
    if (plan == NULL) {
        return;
    }
    lw_memory memory = plan->memory;
    lw_fitter_destroy(plan->fitter);
    for (int i = 0; plan->entries != NULL && i < plan->request.cut_count; i++) {
        lw_adapted_destroy(&plan->entries[i].adapted);
    }
    for (int i = 0; i < LW_CASE_COUNT; i++) {
        lw_rough_destroy(&plan->roughs[i]);
    }
    lw_memory_free(&memory, plan->entries, (size_t)plan->request.cut_count, sizeof(lw_plan_entry));
    lw_memory_free(&memory, plan, 1, sizeof *plan);
}

/* ---- one phase after another -------------------------------------------- */

static void leave_entry(lw_plan *plan)
{
    lw_fitter_destroy(plan->fitter);
    plan->fitter = NULL;
    plan->phase = PLAN_NEXT;
}

/* A cut that fails stays in the plan with its reason; only want of memory ends the plan. */
static lw_status give_up(lw_plan *plan, lw_plan_entry *entry, lw_status status)
{
    if (status == LW_NO_MEMORY) {
        return status;
    }
    entry->state = LW_PLAN_FAILED;
    entry->status = status;
    if (entry->problem.status == LW_OK) {
        lw_problem_set(&entry->problem, status, 0, 0, "", "", "");
    }
    leave_entry(plan);
    return LW_OK;
}

static lw_status do_prepare(lw_plan *plan, lw_plan_entry *entry)
{
    lw_status status = lw_plan_prepare_stone(&plan->memory, &plan->request, entry);
    if (status != LW_OK) {
        return give_up(plan, entry, status);
    }
    plan->shape = lw_plan_shape(&entry->adapted.stone);
    status = lw_fitter_new(&plan->memory, &plan->roughs[LW_CASE_LIKELY], &plan->shape,
                           plan->margins_mm[LW_CASE_LIKELY], &plan->fitter);
    if (status != LW_OK) {
        return give_up(plan, entry, status);
    }
    lw_search_effort effort = lw_search_effort_usual();
    lw_search_start(&plan->search, plan->fitter, &effort);
    plan->phase = PLAN_SEARCH;
    return LW_OK;
}

static lw_status do_search(lw_plan *plan, lw_plan_entry *entry, int budget, int *used)
{
    int before = plan->search.tried;
    lw_status status = lw_search_step(&plan->search, budget);
    *used = plan->search.tried - before + 1;
    if (status != LW_OK) {
        return give_up(plan, entry, status);
    }
    if (plan->search.done) {
        entry->placement = plan->search.best;
        entry->tried = plan->search.tried;
        plan->phase = PLAN_SIZE;
    }
    return LW_OK;
}

static lw_status do_size(lw_plan *plan, lw_plan_entry *entry)
{
    lw_fitter_destroy(plan->fitter);
    plan->fitter = NULL;
    if (entry->placement.scale_mm <= 0.0) {
        entry->state = LW_PLAN_NO_ROOM;
        plan->phase = PLAN_NEXT;
        return LW_OK;
    }
    lw_status status = lw_plan_size(plan, entry);
    if (status != LW_OK) {
        return give_up(plan, entry, status);
    }
    plan->phase = PLAN_LIGHT;
    return LW_OK;
}

static lw_status do_light(lw_plan *plan, lw_plan_entry *entry)
{
    lw_status status = lw_plan_light(&plan->memory, &plan->request, entry);
    if (status != LW_OK) {
        return give_up(plan, entry, status);
    }
    plan->phase = PLAN_BENCH;
    return LW_OK;
}

static void do_bench(lw_plan *plan, lw_plan_entry *entry)
{
    lw_plan_bench(&plan->request, entry);
    plan->phase = PLAN_NEXT;
}

static void do_next(lw_plan *plan)
{
    plan->at++;
    plan->phase = PLAN_PREPARE;
    if (plan->at == plan->request.cut_count) {
        lw_plan_score_all(&plan->request, plan->entries, plan->at);
        lw_plan_order_all(plan->entries, plan->at);
        plan->done = true;
    }
}

/* One phase, or as much of a search as the budget allows; *used is what it cost. */
static lw_status step_once(lw_plan *plan, int budget, int *used)
{
    lw_plan_entry *entry = &plan->entries[plan->at];
    switch (plan->phase) {
    case PLAN_PREPARE:
        *used = COST_PREPARE;
        return do_prepare(plan, entry);
    case PLAN_SEARCH:
        return do_search(plan, entry, budget, used);
    case PLAN_SIZE:
        *used = COST_SIZE;
        return do_size(plan, entry);
    case PLAN_LIGHT:
        *used = COST_LIGHT;
        return do_light(plan, entry);
    case PLAN_BENCH:
        *used = COST_BENCH;
        do_bench(plan, entry);
        return LW_OK;
    case PLAN_NEXT:
        *used = 1;
        do_next(plan);
        return LW_OK;
    }
    return LW_OK;
}

static double phase_share(const lw_plan *plan)
{
    switch (plan->phase) {
    case PLAN_PREPARE:
        return 0.0;
    case PLAN_SEARCH:
        return 0.1 + 0.5 * lw_search_progress(&plan->search);
    case PLAN_SIZE:
        return 0.6;
    case PLAN_LIGHT:
        return 0.65;
    case PLAN_BENCH:
    case PLAN_NEXT:
        return 0.95;
    }
    return 0.0;
}

lw_status lw_plan_step(lw_plan *plan, int budget)
{
    while (budget > 0 && !plan->done) {
        int used = 1;
        lw_status status = step_once(plan, budget, &used);
        if (status != LW_OK) {
            return status;
        }
        budget -= used;
    }
    double share = plan->done ? 1.0 : (plan->at + phase_share(plan)) / plan->request.cut_count;
    plan->progress = share > plan->progress ? share : plan->progress;
    return LW_OK;
}

/* ---- looking at it ------------------------------------------------------ */

bool lw_plan_is_done(const lw_plan *plan)
{
    return plan->done;
}

double lw_plan_progress(const lw_plan *plan)
{
    return plan->done ? 1.0 : plan->progress;
}

int lw_plan_count(const lw_plan *plan)
{
    return plan->request.cut_count;
}

const lw_plan_entry *lw_plan_at(const lw_plan *plan, int i)
{
    assert(i >= 0 && i < plan->request.cut_count);
    return &plan->entries[i];
}

/* Before the scores are there the heaviest stands for the best. */
static double rank_of(const lw_plan *plan, const lw_plan_entry *entry)
{
    return plan->done ? entry->score.total : entry->weight_ct.value[LW_CASE_LIKELY];
}

const lw_plan_entry *lw_plan_best(const lw_plan *plan)
{
    const lw_plan_entry *best = NULL;
    for (int i = 0; i < plan->request.cut_count; i++) {
        const lw_plan_entry *entry = &plan->entries[i];
        if (entry->state == LW_PLAN_GOOD &&
            (best == NULL || rank_of(plan, entry) > rank_of(plan, best))) {
            best = entry;
        }
    }
    return best;
}

const lw_plan_request *lw_plan_asked(const lw_plan *plan)
{
    return &plan->request;
}

const lw_rough *lw_plan_rough(const lw_plan *plan)
{
    return &plan->roughs[LW_CASE_LIKELY];
}

double lw_plan_rough_ct(const lw_plan *plan)
{
    return plan->rough_ct;
}
