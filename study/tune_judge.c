#include "tune_judge.h"

#include <assert.h>
#include <math.h>

const char *const lw_aim_names[LW_AIM_COUNT] = {
    [LW_AIM_BRIGHTNESS] = "brightness",
    [LW_AIM_FIRE] = "fire",
    [LW_AIM_CONTRAST] = "contrast",
    [LW_AIM_WEIGHT] = "weight",
};

static void measure_shape(const lw_stone_judge *j, const lw_stone *stone, lw_try *t)
{
    const lw_measures *m = &stone->measures;
    t->weight = m->mass.volume / j->vary->stone.measures.mass.volume;
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
    double tilt = j->limits.window_tilt_deg, straight = 0.0, tilted = 0.0;
    int fold = j->vary->cut.fold;
    if (tilt < 0.0) {
        return LW_OK;
    }
    lw_status status = LW_OK;
    straight = t->seen.window;
    if (j->look.rock_deg > 0.0 || j->look.tilt_deg > 0.0) {
        status = lw_look_for_window(&j->memory, solid, fold, &j->look, 0.0, &straight);
    }
    if (status == LW_OK && tilt > 0.0) {
        status = lw_look_for_window(&j->memory, solid, fold, &j->look, tilt, &tilted);
    }
    if (status == LW_OK) {
        t->tilted_window = fmax(straight, tilted);
        t->excess += 100.0 * beyond(t->tilted_window - LW_WINDOW_OPENS);
    }
    return status;
}

static void aims_of(const lw_try *t, double out[LW_AIM_COUNT])
{
    out[LW_AIM_BRIGHTNESS] = t->seen.brightness;
    out[LW_AIM_FIRE] = t->seen.fire_deg;
    out[LW_AIM_CONTRAST] = t->seen.contrast;
    out[LW_AIM_WEIGHT] = t->weight;
}

static lw_status look(const lw_stone_judge *j, const lw_stone *stone, lw_try *t)
{
    lw_status status = lw_look_at(&j->memory, &stone->solid, j->vary->cut.fold, &j->look, &t->seen);
    return status == LW_OK ? look_for_windows(j, &stone->solid, t) : status;
}

static void add_up(const lw_stone_judge *j, lw_try *t)
{
    double aims[LW_AIM_COUNT];
    aims_of(t, aims);
    t->score = 0.0;
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (j->shares[i] > 0.0) {
            t->score += j->shares[i] * aims[i] / j->first[i];
        }
    }
}

static lw_status judge_stone(const lw_stone_judge *j, const lw_stone *stone, lw_try *t)
{
    measure_shape(j, stone, t);
    t->there = true;
    t->score = 0.0;
    t->seen = (lw_seen){0};
    t->tilted_window = 0.0;
    t->excess = shape_excess(&j->limits, t);
    if (t->excess > 0.0) {
        return LW_OK;
    }
    lw_status status = look(j, stone, t);
    if (status == LW_OK) {
        add_up(j, t);
    }
    return status;
}

static lw_status judge(void *context, lw_try *place)
{
    const lw_stone_judge *j = context;
    lw_try t = *place;
    lw_stone stone;
    t.there = false;
    lw_status status =
        lw_vary_stone(j->vary, &j->memory, j->handles, t.values, j->handle_count, &stone);
    if (status == LW_OK) {
        status = judge_stone(j, &stone, &t);
        lw_stone_destroy(&stone);
    }
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

lw_status lw_stone_judge_make(const lw_memory *memory, const lw_vary *vary,
                              const lw_handle *handles, int handle_count, const lw_look *look_with,
                              const double shares[LW_AIM_COUNT], const lw_tune_limits *limits,
                              lw_stone_judge *out, lw_aim *lacking)
{
    lw_stone_judge j = {.memory = *memory,
                        .vary = vary,
                        .handles = handles,
                        .handle_count = handle_count,
                        .look = *look_with,
                        .limits = *limits};
    double sum = 0.0;
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        assert(shares[i] >= 0.0);
        sum += shares[i];
    }
    assert(sum > 0.0);
    j.before.there = true;
    measure_shape(&j, &vary->stone, &j.before);
    j.before.excess = shape_excess(limits, &j.before);
    lw_status status = look(&j, &vary->stone, &j.before);
    if (status != LW_OK) {
        return status;
    }
    aims_of(&j.before, j.first);
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        j.shares[i] = shares[i] / sum;
        if (shares[i] > 0.0 && !(j.first[i] > 0.0)) {
            *lacking = (lw_aim)i;
            return LW_NO_SOLUTION;
        }
    }
    j.before.score = 1.0;
    for (int i = 0; i < handle_count; i++) {
        j.before.values[i] = handles[i].start;
    }
    *out = j;
    return LW_OK;
}
