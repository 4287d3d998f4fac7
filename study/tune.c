#include "tune.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Reached out to from the best place, as a share of each range: first and last. The last is 0.0024
 * degrees of a range of 12. */
static const double first_step = 0.08;
static const double last_step = 2e-4;

/* Settings that are no angles come out in whole steps of this, in their own unit. */
static const double whole_other = 0.1;

/* Whole steps that cost more than this share of the score are not taken. */
static const double rounding_costs = 0.5 * LW_TUNE_FLAT;

/* A step that goes into one a whole number of times within this. */
static const double whole_slack = 1e-12;

/* The first stride away from the top; each is twice the one before. */
static const double first_stride = 0.05;

typedef enum phase { START, EVERYWHERE, FROM_BEST, ROUND, FLAT, DONE } phase;

/* Walking away from the top along one handle, then closing in on where it has fallen. */
typedef struct walk {
    int handle;
    bool up;
    bool closing;
    double stride;
    double inside, outside; /* still within; beyond */
    lw_flat_end why;
} walk;

struct lw_tune {
    lw_memory memory;
    lw_tune_request request;
    lw_handle handles[LW_VARY_MOST];
    phase phase;
    void *climbing;   /* the climber's state in EVERYWHERE and FROM_BEST */
    lw_status status; /* the first failure, which stays */
    lw_try start, best;
    int rounding; /* ROUND: twice the handle in hand, and one for its upper neighbour */
    lw_try rounded;
    walk walk;
    lw_flat flats[LW_VARY_MOST];
    int tries;
    double progress;
};

/* ---- one try ---- */

/* What the climber is told: above 0 for places that keep the limits, -1 for no stone. */
static double worth(const lw_try *t)
{
    if (!t->there) {
        return -1.0;
    }
    return t->excess > 0.0 ? -t->excess / (1.0 + t->excess) : t->score;
}

static bool keeps_limits(const lw_try *t)
{
    return t->there && t->excess == 0.0;
}

static lw_status judge(lw_tune *tune, lw_try *t)
{
    tune->tries++;
    return tune->request.judge.judge(tune->request.judge.context, t);
}

static lw_try place_of(const lw_tune *tune, const double *place)
{
    lw_try t = {.there = false};
    for (int i = 0; i < tune->request.handle_count; i++) {
        const lw_handle *h = &tune->handles[i];
        t.values[i] = h->lowest + place[i] * (h->highest - h->lowest);
    }
    return t;
}

/* The climber's scorer. A failure is kept; the climber is not called again. */
static double score(void *context, const double *place)
{
    lw_tune *tune = context;
    lw_try t = place_of(tune, place);
    if (tune->status != LW_OK) {
        return -1.0;
    }
    tune->status = judge(tune, &t);
    if (tune->status != LW_OK) {
        return -1.0;
    }
    if (worth(&t) > worth(&tune->best)) {
        tune->best = t;
    }
    return worth(&t);
}

/* ---- climbing ---- */

static lw_status begin_climb(lw_tune *tune, lw_climb_kind kind)
{
    const lw_tune_request *r = &tune->request;
    lw_climb climb = {.kind = kind,
                      .count = r->handle_count,
                      .first_step = first_step,
                      .tolerance = last_step,
                      .most = kind == LW_CLIMB_EVERYWHERE ? r->most_everywhere : r->most_from_best,
                      .seed = r->seed};
    for (int i = 0; i < r->handle_count; i++) {
        const lw_handle *h = &tune->handles[i];
        double at = (tune->best.values[i] - h->lowest) / (h->highest - h->lowest);
        climb.start[i] = fmin(fmax(at, 0.0), 1.0);
    }
    return r->climber->begin(&tune->memory, &climb, &tune->climbing);
}

static lw_status climb(lw_tune *tune, int budget)
{
    bool done = false;
    lw_status status = tune->request.climber->step(tune->climbing, budget, score, tune, &done);
    if (status == LW_OK) {
        status = tune->status;
    }
    if (status != LW_OK || !done) {
        return status;
    }
    tune->request.climber->end(tune->climbing);
    tune->climbing = NULL;
    if (tune->phase == EVERYWHERE) {
        tune->phase = FROM_BEST;
        return begin_climb(tune, LW_CLIMB_FROM_START);
    }
    tune->phase = ROUND;
    return LW_OK;
}

static lw_status start(lw_tune *tune)
{
    lw_try t = {.there = false};
    for (int i = 0; i < tune->request.handle_count; i++) {
        t.values[i] = tune->handles[i].start;
    }
    lw_status status = judge(tune, &t);
    if (status == LW_OK) {
        status = begin_climb(tune, LW_CLIMB_EVERYWHERE);
    }
    if (status == LW_OK) {
        tune->start = tune->best = t;
        tune->phase = EVERYWHERE;
    }
    return status;
}

static void begin_walk(lw_tune *tune, int handle, bool up)
{
    tune->walk = (walk){.handle = handle,
                        .up = up,
                        .stride = first_stride,
                        .inside = tune->best.values[handle],
                        .why = LW_FLAT_RANGE};
}

/* ---- figures that can be dialled ---- */

/* The value's neighbour in whole steps below or above it; the value itself where that lies outside
 * of the range. */
static double whole_step(const lw_tune *tune, int i, double value, bool up)
{
    const lw_handle *h = &tune->handles[i];
    double step = h->unit == LW_UNIT_DEG ? tune->request.whole_deg : whole_other;
    double whole = up ? ceil(value / step) : floor(value / step);
    /* A division by the steps that make one: 41.35, not 41.350000000000001. */
    double inverse = floor(1.0 / step + 0.5);
    double made = fabs(inverse * step - 1.0) < whole_slack ? whole / inverse : whole * step;
    return made >= h->lowest && made <= h->highest ? made : value;
}

/* One handle after the other goes to the better of its two neighbours that keeps the limits, a
 * neighbour a try; one that has none, or none that is not too dear, stays as it is. */
static lw_status round_off(lw_tune *tune)
{
    if (!(tune->request.whole_deg > 0.0) || !keeps_limits(&tune->best) ||
        tune->rounding == 2 * tune->request.handle_count) {
        begin_walk(tune, 0, false);
        tune->phase = keeps_limits(&tune->best) ? FLAT : DONE;
        return LW_OK;
    }
    int i = tune->rounding / 2;
    bool up = tune->rounding % 2 == 1;
    lw_try t = tune->best;
    t.values[i] = whole_step(tune, i, tune->best.values[i], up);
    lw_status status = judge(tune, &t);
    if (status != LW_OK) {
        return status;
    }
    if (!up) {
        tune->rounded = (lw_try){.there = false};
    }
    if (keeps_limits(&t) && t.score >= (1.0 - rounding_costs) * tune->best.score &&
        (!tune->rounded.there || t.score > tune->rounded.score)) {
        tune->rounded = t;
    }
    if (up && tune->rounded.there) {
        tune->best = tune->rounded;
    }
    tune->rounding++;
    return LW_OK;
}

/* ---- how flat the top is ---- */

static void end_walk(lw_tune *tune)
{
    walk *w = &tune->walk;
    lw_flat *flat = &tune->flats[w->handle];
    if (!w->up) {
        flat->low = w->inside;
        flat->low_end = w->why;
        begin_walk(tune, w->handle, true);
        return;
    }
    flat->high = w->inside;
    flat->high_end = w->why;
    if (w->handle + 1 == tune->request.handle_count) {
        tune->phase = DONE;
    } else {
        begin_walk(tune, w->handle + 1, false);
    }
}

/* Where to look next; false when the walk has come to its end. */
static bool next_place(const lw_tune *tune, double *value)
{
    const walk *w = &tune->walk;
    const lw_handle *h = &tune->handles[w->handle];
    double last = w->up ? h->highest : h->lowest;
    if (w->closing) {
        *value = 0.5 * (w->inside + w->outside);
        return fabs(w->outside - w->inside) > LW_TUNE_FLAT_DEG;
    }
    double to = w->inside + (w->up ? w->stride : -w->stride);
    *value = w->up ? fmin(to, last) : fmax(to, last);
    return *value != w->inside;
}

static lw_status walk_on(lw_tune *tune)
{
    walk *w = &tune->walk;
    lw_try t = tune->best;
    double value = 0.0;
    if (!next_place(tune, &value)) {
        end_walk(tune);
        return LW_OK;
    }
    t.values[w->handle] = value;
    lw_status status = judge(tune, &t);
    if (status != LW_OK) {
        return status;
    }
    if (keeps_limits(&t) && t.score >= (1.0 - LW_TUNE_FLAT) * tune->best.score) {
        w->inside = value;
        w->stride *= 2.0;
    } else {
        w->outside = value;
        w->closing = true;
        w->why = keeps_limits(&t) ? LW_FLAT_FALLS : LW_FLAT_LIMIT;
    }
    return LW_OK;
}

/* ---- the whole ---- */

lw_status lw_tune_new(const lw_memory *memory, const lw_tune_request *request, lw_tune **out)
{
    int count = request->handle_count;
    assert(count >= 1 && count <= LW_VARY_MOST);
    void *block = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof(lw_tune), &block);
    if (status != LW_OK) {
        return status;
    }
    lw_tune *tune = block;
    *tune = (lw_tune){.memory = *memory, .request = *request};
    memcpy(tune->handles, request->handles, (size_t)count * sizeof *tune->handles);
    tune->request.handles = tune->handles;
    if (request->most_everywhere <= 0) {
        tune->request.most_everywhere = LW_TUNE_EVERYWHERE * (count + 1);
    }
    if (request->most_from_best <= 0) {
        tune->request.most_from_best = LW_TUNE_FROM_BEST * (count + 1);
    }
    *out = tune;
    return LW_OK;
}

void lw_tune_destroy(lw_tune *tune)
{
    if (tune == NULL) {
        return;
    }
    lw_memory memory = tune->memory;
    if (tune->climbing != NULL) {
        tune->request.climber->end(tune->climbing);
    }
    lw_memory_free(&memory, tune, 1, sizeof *tune);
}

/* Phases count by what they may take at most, so that progress never falls. */
static double progress_now(const lw_tune *tune)
{
    double everywhere = tune->request.most_everywhere, from_best = tune->request.most_from_best;
    double flat = 20.0 * tune->request.handle_count;
    double whole = everywhere + from_best + flat;
    double at = fmin((double)tune->tries, everywhere + from_best);
    if (tune->phase >= FLAT) {
        at = everywhere + from_best +
             flat * (tune->walk.handle + (tune->walk.up ? 0.5 : 0.0)) / tune->request.handle_count;
    }
    return tune->phase == DONE ? 1.0 : at / whole;
}

lw_status lw_tune_step(lw_tune *tune, int budget)
{
    assert(budget >= 1);
    int until = tune->tries + budget;
    lw_status status = tune->status;
    while (status == LW_OK && tune->phase != DONE && tune->tries < until) {
        switch (tune->phase) {
        case START:
            status = start(tune);
            break;
        case EVERYWHERE:
        case FROM_BEST:
            status = climb(tune, until - tune->tries);
            break;
        case ROUND:
            status = round_off(tune);
            break;
        default:
            status = walk_on(tune);
        }
    }
    tune->status = status;
    tune->progress = fmax(tune->progress, progress_now(tune));
    return status;
}

bool lw_tune_is_done(const lw_tune *tune)
{
    return tune->phase == DONE;
}

double lw_tune_progress(const lw_tune *tune)
{
    return tune->progress;
}

const lw_try *lw_tune_start(const lw_tune *tune)
{
    return &tune->start;
}

const lw_try *lw_tune_best(const lw_tune *tune)
{
    return &tune->best;
}

const lw_flat *lw_tune_flat(const lw_tune *tune, int i)
{
    assert(tune->phase == DONE && i >= 0 && i < tune->request.handle_count);
    return &tune->flats[i];
}

int lw_tune_tries(const lw_tune *tune)
{
    return tune->tries;
}
