/* The search of our own: points spread evenly, then a compass. */
#include "climb.h"

#include <assert.h>
#include <math.h>
#include <string.h>

typedef struct pattern {
    lw_memory memory;
    lw_climb climb;
    int asked;
    /* of the compass */
    double here[LW_CLIMB_MOST], best[LW_CLIMB_MOST];
    double here_score, best_score;
    double reach;
    int way; /* 0..2 count - 1: the next to try from here; -1: here itself */
} pattern;

static lw_status begin(const lw_memory *memory, const lw_climb *climb, void **state)
{
    assert(climb->count >= 1 && climb->count <= LW_CLIMB_MOST && climb->most >= 1);
    void *block = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof(pattern), &block);
    if (status != LW_OK) {
        return status;
    }
    pattern *p = block;
    *p = (pattern){.memory = *memory, .climb = *climb, .reach = climb->first_step, .way = -1};
    memcpy(p->here, climb->start, sizeof p->here);
    *state = p;
    return LW_OK;
}

static void end(void *state)
{
    pattern *p = state;
    if (p != NULL) {
        lw_memory memory = p->memory;
        lw_memory_free(&memory, p, 1, sizeof *p);
    }
}

/* ---- everywhere ---- */

/* The digits of i in that base, mirrored at the point. */
static double mirrored(int i, int base)
{
    double value = 0.0, place = 1.0 / base;
    for (; i > 0; i /= base) {
        value += place * (i % base);
        place /= base;
    }
    return value;
}

/* A shift for each unknown, from 0 to 1: a step of a linear congruential generator (D. E. Knuth's
 * MMIX) for each, the upper half of its bits. */
static double shift_of(unsigned seed, int unknown)
{
    unsigned long long bits = seed;
    for (int i = 0; i <= unknown + 3; i++) {
        bits = bits * 6364136223846793005ULL + 1442695040888963407ULL;
    }
    return (double)(bits >> 32) / 4294967296.0;
}

static void spread_point(const pattern *p, double place[LW_CLIMB_MOST])
{
    static const int primes[LW_CLIMB_MOST] = {2,  3,  5,  7,  11, 13, 17, 19,
                                              23, 29, 31, 37, 41, 43, 47, 53};
    for (int i = 0; i < p->climb.count; i++) {
        double at = mirrored(p->asked + 1, primes[i]) + shift_of(p->climb.seed, i);
        place[i] = at - floor(at);
    }
}

/* ---- the compass ---- */

static bool way_point(const pattern *p, double place[LW_CLIMB_MOST])
{
    memcpy(place, p->here, sizeof p->here);
    if (p->way < 0) {
        return true;
    }
    int unknown = p->way / 2;
    double to = place[unknown] + (p->way % 2 == 0 ? p->reach : -p->reach);
    place[unknown] = fmin(fmax(to, 0.0), 1.0);
    return place[unknown] != p->here[unknown];
}

/* When all ways from here have been tried: go the best of them, or reach less far. */
static void turn(pattern *p)
{
    if (p->best_score > p->here_score) {
        memcpy(p->here, p->best, sizeof p->here);
        p->here_score = p->best_score;
    } else {
        p->reach *= 0.5;
    }
    p->way = 0;
}

static void take(pattern *p, const double place[LW_CLIMB_MOST], double score)
{
    if (p->way < 0) {
        p->here_score = p->best_score = score;
    } else if (score > p->best_score) {
        memcpy(p->best, place, sizeof p->best);
        p->best_score = score;
    }
}

static void compass(pattern *p, lw_climb_score score, void *context)
{
    double place[LW_CLIMB_MOST];
    if (way_point(p, place)) {
        take(p, place, score(context, place));
        p->asked++;
    }
    p->way++;
    if (p->way == 2 * p->climb.count) {
        turn(p);
    }
}

static bool is_done(const pattern *p)
{
    return p->asked >= p->climb.most ||
           (p->climb.kind == LW_CLIMB_FROM_START && p->reach < p->climb.tolerance);
}

static lw_status step(void *state, int budget, lw_climb_score score, void *context, bool *done)
{
    pattern *p = state;
    int until = p->asked + budget;
    while (!is_done(p) && p->asked < until) {
        if (p->climb.kind == LW_CLIMB_FROM_START) {
            compass(p, score, context);
        } else {
            double place[LW_CLIMB_MOST];
            spread_point(p, place);
            (void)score(context, place);
            p->asked++;
        }
    }
    *done = is_done(p);
    return LW_OK;
}

const lw_climber lw_climber_pattern = {
    .name = "pattern search", .begin = begin, .step = step, .end = end};
