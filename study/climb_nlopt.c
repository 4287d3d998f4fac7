#include "climb_nlopt.h"

#include <assert.h>
#include <nlopt.h>

typedef struct climbing {
    lw_memory memory;
    lw_climb climb;
    nlopt_opt nlopt;
    double *log; /* [climb.most] scores in the order asked for */
    int known;
    /* of the run in hand */
    int at, left;
    lw_climb_score score;
    void *context;
} climbing;

static void end(void *state)
{
    climbing *c = state;
    if (c != NULL) {
        lw_memory memory = c->memory;
        nlopt_destroy(c->nlopt);
        lw_memory_free(&memory, c->log, (size_t)c->climb.most, sizeof *c->log);
        lw_memory_free(&memory, c, 1, sizeof *c);
    }
}

static double ask(unsigned count, const double *place, double *gradient, void *context)
{
    climbing *c = context;
    assert((int)count == c->climb.count && gradient == NULL);
    (void)count;
    (void)gradient;
    if (c->at < c->known) {
        return c->log[c->at++];
    }
    if (c->left == 0 || c->known == c->climb.most) {
        nlopt_force_stop(c->nlopt);
        return 0.0;
    }
    c->left--;
    c->at++;
    c->log[c->known] = c->score(c->context, place);
    return c->log[c->known++];
}

/* Everything that NLopt is told; false when it has no memory. */
static bool set_up(climbing *c)
{
    const lw_climb *climb = &c->climb;
    bool local = climb->kind == LW_CLIMB_FROM_START;
    unsigned count = (unsigned)climb->count;
    c->nlopt = nlopt_create(local ? NLOPT_LN_SBPLX : NLOPT_GN_DIRECT_L_RAND, count);
    bool good = c->nlopt != NULL && nlopt_set_lower_bounds1(c->nlopt, 0.0) > 0 &&
                nlopt_set_upper_bounds1(c->nlopt, 1.0) > 0 &&
                nlopt_set_max_objective(c->nlopt, ask, c) > 0 &&
                nlopt_set_maxeval(c->nlopt, climb->most) > 0;
    if (good && local) {
        good = nlopt_set_xtol_abs1(c->nlopt, climb->tolerance) > 0 &&
               nlopt_set_initial_step1(c->nlopt, climb->first_step) > 0;
    }
    return good;
}

static lw_status begin(const lw_memory *memory, const lw_climb *climb, void **state)
{
    assert(climb->count >= 1 && climb->count <= LW_CLIMB_MOST && climb->most >= 1);
    void *block = NULL, *log = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof(climbing), &block);
    if (status != LW_OK) {
        return status;
    }
    climbing *c = block;
    *c = (climbing){.memory = *memory, .climb = *climb};
    status = lw_memory_new(memory, (size_t)climb->most, sizeof *c->log, &log);
    c->log = log;
    if (status == LW_OK && !set_up(c)) {
        status = LW_NO_MEMORY;
    }
    if (status != LW_OK) {
        end(c);
        return status;
    }
    *state = c;
    return LW_OK;
}

static lw_status step(void *state, int budget, lw_climb_score score, void *context, bool *done)
{
    climbing *c = state;
    double place[LW_CLIMB_MOST] = {0};
    double highest = 0.0;
    for (int i = 0; i < c->climb.count; i++) {
        place[i] = c->climb.kind == LW_CLIMB_FROM_START ? c->climb.start[i] : 0.5;
    }
    c->at = 0;
    c->left = budget;
    c->score = score;
    c->context = context;
    nlopt_srand(c->climb.seed);
    nlopt_result result = nlopt_optimize(c->nlopt, place, &highest);
    if (result == NLOPT_OUT_OF_MEMORY) {
        return LW_NO_MEMORY;
    }
    *done = result != NLOPT_FORCED_STOP || c->known == c->climb.most;
    return LW_OK;
}

const lw_climber lw_climber_nlopt = {.name = "NLopt", .begin = begin, .step = step, .end = end};
