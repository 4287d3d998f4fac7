#include "tune_judge.h"

#include "parallel.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char *const lw_aim_names[LW_AIM_COUNT] = {
    [LW_AIM_BRIGHTNESS] = "brightness",
    [LW_AIM_FIRE] = "fire",
    [LW_AIM_CONTRAST] = "contrast",
    [LW_AIM_WEIGHT] = "weight",
};

/* ---- one stone ---- */

static void measure_shape(const lw_stone_judge *j, const lw_stone *stone, lw_try *t)
{
    const lw_measures *m = &stone->measures;
    t->weight = m->mass.volume / j->asked.vary->stone.measures.mass.volume;
    t->table = m->table / m->width;
    t->crown = m->crown / m->width;
    t->pavilion = m->pavilion / m->width;
    t->depth = m->depth / m->width;
    t->flattest_deg = lw_flattest_pavilion_deg(stone);
}

static double beyond(double amount)
{
    return amount > 0.0 ? amount : 0.0;
}

/* Limits of shape, in degrees and in hundredths of the width, added up. */
static double shape_excess(const lw_tune_limits *l, const lw_try *t)
{
    double excess = 100.0 * beyond(l->crown_least - t->crown);
    if (l->pavilion_least_deg > 0.0) {
        excess += beyond(l->pavilion_least_deg - t->flattest_deg);
    }
    if (l->crown_most > 0.0) {
        excess += 100.0 * beyond(t->crown - l->crown_most);
    }
    if (l->depth_most > 0.0) {
        excess += 100.0 * beyond(t->depth - l->depth_most);
    }
    return excess;
}

static lw_status look_for_windows(const lw_stone_judge *j, const lw_polyhedron *solid, lw_try *t)
{
    const lw_look *look = &j->asked.look;
    double tilt = j->asked.limits.window_tilt_deg, straight = t->seen.window, tilted = 0.0;
    int fold = j->asked.vary->cut.fold;
    lw_status status = LW_OK;
    if (tilt < 0.0) {
        return LW_OK;
    }
    if (look->rock_deg > 0.0 || look->tilt_deg > 0.0) {
        status = lw_look_for_window(&j->memory, solid, fold, look, 0.0, &straight);
    }
    if (status == LW_OK && tilt > 0.0) {
        status = lw_look_for_window(&j->memory, solid, fold, look, tilt, &tilted);
    }
    if (status == LW_OK) {
        t->tilted_window = fmax(straight, tilted);
    }
    return status;
}

static lw_status look(const lw_stone_judge *j, const lw_stone *stone, lw_try *t)
{
    int fold = j->asked.vary->cut.fold;
    lw_status status = lw_look_at(&j->memory, &stone->solid, fold, &j->asked.look, &t->seen);
    return status == LW_OK ? look_for_windows(j, &stone->solid, t) : status;
}

/* Makes the stone at place->values, and looks at it or not. LW_NO_SOLUTION when there is none. */
static lw_status see(const lw_stone_judge *j, bool light, lw_try *place)
{
    lw_try t = {.there = true};
    lw_stone stone;
    memcpy(t.values, place->values, sizeof t.values);
    lw_status status = lw_vary_stone(j->asked.vary, &j->memory, j->asked.handles, t.values,
                                     j->asked.handle_count, &stone);
    if (status != LW_OK) {
        return status;
    }
    measure_shape(j, &stone, &t);
    t.excess = shape_excess(&j->asked.limits, &t);
    if (light) {
        status = look(j, &stone, &t);
    }
    lw_stone_destroy(&stone);
    if (status == LW_OK) {
        *place = t;
    }
    return status;
}

/* ---- angles that are off ---- */

/* The stone as stated, and those with one angle off by hold_deg. */
enum { MOST_CLUSTER = 1 + 2 * LW_VARY_MOST };

typedef struct cluster {
    const lw_stone_judge *judge;
    int count;
    lw_try tries[MOST_CLUSTER];
} cluster;

static lw_status see_one(void *context, int piece, int worker)
{
    cluster *c = context;
    (void)worker;
    return see(c->judge, true, &c->tries[piece]);
}

static lw_status see_cluster(const lw_stone_judge *j, const lw_try *middle, cluster *out)
{
    double hold = j->asked.hold_deg;
    *out = (cluster){.judge = j, .count = 1, .tries = {*middle}};
    for (int i = 0; i < 2 * j->asked.handle_count && hold > 0.0; i++) {
        if (j->asked.handles[i / 2].unit == LW_UNIT_DEG) {
            out->tries[out->count] = *middle;
            out->tries[out->count++].values[i / 2] += i % 2 == 0 ? hold : -hold;
        }
    }
    lw_parallel how = {.threads = j->asked.threads};
    return lw_parallel_do(&how, out->count, see_one, out);
}

static void mean_aims(const cluster *c, double out[LW_AIM_COUNT])
{
    double sums[LW_AIM_COUNT] = {0.0};
    for (int i = 0; i < c->count; i++) {
        sums[LW_AIM_BRIGHTNESS] += c->tries[i].seen.brightness;
        sums[LW_AIM_FIRE] += c->tries[i].seen.fire_deg;
        sums[LW_AIM_CONTRAST] += c->tries[i].seen.contrast;
        sums[LW_AIM_WEIGHT] += c->tries[i].weight;
    }
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        out[i] = sums[i] / c->count;
    }
}

static double largest_window(const cluster *c)
{
    double largest = 0.0;
    for (int i = 0; i < c->count; i++) {
        largest = fmax(largest, c->tries[i].tilted_window);
    }
    return largest;
}

/* ---- the score ---- */

static double score_of(const lw_stone_judge *j, const double aims[LW_AIM_COUNT])
{
    double score = 0.0;
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (j->asked.shares[i] > 0.0) {
            score += j->asked.shares[i] * aims[i] / j->first[i];
        }
    }
    return score;
}

static lw_status judge_place(const lw_stone_judge *j, lw_try *t)
{
    cluster c;
    double aims[LW_AIM_COUNT];
    lw_status status = see(j, false, t);
    if (status != LW_OK || t->excess > 0.0) {
        return status;
    }
    status = see_cluster(j, t, &c);
    if (status == LW_OK) {
        *t = c.tries[0];
        mean_aims(&c, aims);
        t->score = score_of(j, aims);
        if (j->asked.limits.window_tilt_deg >= 0.0) {
            t->excess = 100.0 * beyond(largest_window(&c) - LW_WINDOW_OPENS);
        }
    }
    return status;
}

static lw_status judge(void *context, lw_try *place)
{
    lw_try t = *place;
    lw_status status = judge_place(context, &t);
    if (status == LW_NO_MEMORY) {
        return status;
    }
    t.there = status == LW_OK;
    *place = t;
    return LW_OK;
}

lw_judge lw_stone_judge_use(lw_stone_judge *j)
{
    return (lw_judge){.judge = judge, .context = j};
}

/* ---- the start ---- */

static lw_status look_at_start(lw_stone_judge *j, lw_aim *lacking)
{
    cluster c;
    lw_try before = {.there = false};
    for (int i = 0; i < j->asked.handle_count; i++) {
        before.values[i] = j->asked.handles[i].start;
    }
    lw_status status = see_cluster(j, &before, &c);
    if (status != LW_OK) {
        return status;
    }
    j->before = c.tries[0];
    j->before.score = 1.0;
    mean_aims(&c, j->first);
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (j->asked.shares[i] > 0.0 && !(j->first[i] > 0.0)) {
            *lacking = (lw_aim)i;
            return LW_NO_SOLUTION;
        }
    }
    return LW_OK;
}

lw_status lw_stone_judge_make(const lw_memory *memory, const lw_judge_request *request,
                              lw_stone_judge *out, lw_aim *lacking)
{
    lw_stone_judge j = {.memory = *memory, .asked = *request};
    double sum = 0.0;
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        assert(request->shares[i] >= 0.0);
        sum += request->shares[i];
    }
    assert(sum > 0.0 && request->hold_deg >= 0.0);
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        j.asked.shares[i] = request->shares[i] / sum;
    }
    *lacking = LW_AIM_COUNT;
    lw_status status = look_at_start(&j, lacking);
    if (status == LW_OK) {
        *out = j;
    }
    return status;
}
