/* Which handles a cut has. */
#include "vary.h"

#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* How far a handle is moved to see whether it is free: of the range it may have. */
static const double trial_share = 0.02;

/* Between tiers that keep their order. */
static const double neighbour_room_deg = 0.5;

static const char *side_word(lw_side side)
{
    return side == LW_SIDE_CROWN ? "crown" : "pavilion";
}

/* ---- settings ---- */

/* A setting's figure in the unit in which it is written: 53 for 0.53 that is stated in percent. */
static double as_written(lw_value value, lw_unit unit)
{
    return unit == LW_UNIT_PERCENT ? 100.0 * value.value : value.value;
}

static bool setting_range(const lw_vary *vary, int setting, lw_handle *out)
{
    const lw_setting *s = &vary->cut.settings[setting];
    const lw_values *values = &vary->stone.values;
    lw_value lowest, highest;
    if (s->is_let || lw_setting_limits(&vary->cut, values, setting, &lowest, &highest) != LW_OK) {
        return false;
    }
    *out = (lw_handle){.kind = LW_HANDLE_SETTING, .which = setting};
    out->unit = lw_setting_unit(&vary->cut, values, setting);
    out->start = as_written(values->values[setting], out->unit);
    out->lowest = as_written(lowest, out->unit);
    out->highest = as_written(highest, out->unit);
    snprintf(out->name, sizeof out->name, "%s", s->name);
    return out->highest > out->lowest;
}

static int setting_called(const lw_cut *cut, const char *name)
{
    for (int i = 0; i < cut->setting_count; i++) {
        if (strcmp(cut->settings[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* Whether an expression names a setting, or a let that does. */
static bool names(const lw_cut *cut, const lw_expr *expr, int setting)
{
    if (expr == NULL) {
        return false;
    }
    if (expr->kind == LW_EXPR_NAME) {
        int at = setting_called(cut, expr->name);
        /* A let names only what stands above it, so this comes to an end. */
        return at == setting || (at >= 0 && cut->settings[at].is_let &&
                                 names(cut, cut->settings[at].value, setting));
    }
    return names(cut, expr->left, setting) || names(cut, expr->right, setting);
}

/* The setting that is a step's whole angle; -1 for none. */
static int driver_of(const lw_vary *vary, int step)
{
    const lw_expr *angle = step < 0 ? NULL : vary->cut.steps[step].angle;
    if (angle == NULL || angle->kind != LW_EXPR_NAME) {
        return -1;
    }
    int at = setting_called(&vary->cut, angle->name);
    return at >= 0 && !vary->cut.settings[at].is_let ? at : -1;
}

/* ---- sides ---- */

lw_status lw_vary_side(const lw_vary *vary, lw_side side, lw_handle *out)
{
    int step = lw_main_step(&vary->cut, &vary->stone, side);
    if (step < 0) {
        return LW_NOT_FOUND;
    }
    bool crown = side == LW_SIDE_CROWN;
    double reach = crown ? LW_VARY_CROWN_DEG : LW_VARY_PAVILION_DEG;
    double start = vary->stone.tiers[step].angle_deg;
    lw_handle made = {.kind = crown ? LW_HANDLE_CROWN : LW_HANDLE_PAVILION,
                      .which = step,
                      .unit = LW_UNIT_DEG,
                      .start = start,
                      .lowest = fmax(start - reach, 5.0),
                      .highest = fmin(start + reach, 80.0)};
    lw_handle limits;
    int driver = driver_of(vary, step);
    if (driver >= 0 && setting_range(vary, driver, &limits)) {
        made.lowest = fmax(made.lowest, limits.lowest);
        made.highest = fmin(made.highest, limits.highest);
    }
    snprintf(made.name, sizeof made.name, "%s %s", side_word(side), vary->cut.steps[step].name);
    *out = made;
    return LW_OK;
}

/* ---- what else is free ---- */

/* Outline and girdle as they were: its facets where they stood, and its thickness the same at one
 * of its two places at least (where facets of other angles meet it, its waves grow or shrink). */
static bool keeps_girdle(const lw_stone *was, const lw_stone *is)
{
    if (was->facet_count != is->facet_count) {
        return false;
    }
    for (int i = 0; i < was->facet_count; i++) {
        const lw_facet *a = &was->facets[i], *b = &is->facets[i];
        if (a->side == LW_SIDE_GIRDLE &&
            (b->side != LW_SIDE_GIRDLE || fabs(a->tooth - b->tooth) > LW_SAME_TOOTH ||
             fabs(a->plane.distance - b->plane.distance) > LW_MEET_HOLDS)) {
            return false;
        }
    }
    double thick = fabs(was->measures.girdle_thick - is->measures.girdle_thick);
    double thin = fabs(was->measures.girdle_thin - is->measures.girdle_thin);
    return fmin(thick, thin) <= LW_MEET_HOLDS;
}

static bool moves_freely(const lw_vary *vary, const lw_handle *handle, double value, bool *no_room,
                         bool *changes)
{
    lw_stone stone;
    if (!(value > handle->lowest && value < handle->highest)) {
        return false;
    }
    lw_status status = lw_vary_stone(vary, &vary->memory, handle, &value, 1, &stone);
    if (status != LW_OK) {
        *no_room = *no_room || status == LW_NO_MEMORY;
        return false;
    }
    bool free = keeps_girdle(&vary->stone, &stone);
    *changes = *changes ||
               fabs(stone.measures.mass.volume - vary->stone.measures.mass.volume) > LW_MEET_HOLDS;
    lw_stone_destroy(&stone);
    return free;
}

/* Moves it a little either way: one free way is enough, for a setting may stand at its limit. */
static bool is_free(const lw_vary *vary, const lw_handle *handle, bool *no_room)
{
    double move = trial_share * (handle->highest - handle->lowest);
    bool changes = false;
    bool up = moves_freely(vary, handle, handle->start + move, no_room, &changes);
    bool down = moves_freely(vary, handle, handle->start - move, no_room, &changes);
    return (up || down) && changes;
}

static bool is_driver(const lw_vary *vary, int setting)
{
    return setting == driver_of(vary, lw_main_step(&vary->cut, &vary->stone, LW_SIDE_PAVILION)) ||
           setting == driver_of(vary, lw_main_step(&vary->cut, &vary->stone, LW_SIDE_CROWN));
}

/* Narrows a step's range so that it stays between its neighbours: tiers keep their order. */
static void between_neighbours(const lw_vary *vary, int step, lw_handle *h)
{
    for (int i = 0; i < vary->cut.step_count; i++) {
        const lw_step *other = &vary->cut.steps[i];
        double angle = vary->stone.tiers[i].angle_deg;
        if (i == step || other->kind != LW_STEP_FACETS || other->temporary ||
            other->side != vary->cut.steps[step].side || angle <= LW_SAME_ANGLE_DEG) {
            continue;
        }
        if (angle < h->start - LW_SAME_ANGLE_DEG) {
            h->lowest = fmax(h->lowest, fmin(angle + neighbour_room_deg, h->start));
        } else if (angle > h->start + LW_SAME_ANGLE_DEG) {
            h->highest = fmin(h->highest, fmax(angle - neighbour_room_deg, h->start));
        }
    }
}

/* A step whose angle is stated, is not a side's main one, and follows from no free setting. */
static bool step_handle(const lw_vary *vary, int step, const lw_handle *found, int count,
                        lw_handle *out)
{
    const lw_step *s = &vary->cut.steps[step];
    const lw_tier *tier = &vary->stone.tiers[step];
    if (s->kind != LW_STEP_FACETS || s->angle == NULL || s->temporary || tier->count == 0 ||
        tier->angle_deg <= LW_SAME_ANGLE_DEG || tier->angle_deg >= 90.0 - LW_SAME_ANGLE_DEG ||
        step == lw_main_step(&vary->cut, &vary->stone, s->side)) {
        return false;
    }
    for (int i = 0; i < count; i++) {
        if (found[i].kind == LW_HANDLE_SETTING && names(&vary->cut, s->angle, found[i].which)) {
            return false;
        }
    }
    *out = (lw_handle){.kind = LW_HANDLE_STEP,
                       .which = step,
                       .unit = LW_UNIT_DEG,
                       .start = tier->angle_deg,
                       .lowest = fmax(tier->angle_deg - LW_VARY_STEP_DEG, 1.0),
                       .highest = fmin(tier->angle_deg + LW_VARY_STEP_DEG, 89.0)};
    between_neighbours(vary, step, out);
    snprintf(out->name, sizeof out->name, "step %d (%s %s)", step + 1, side_word(s->side), s->name);
    return out->lowest < out->highest;
}

lw_status lw_vary_free(const lw_vary *vary, lw_handle out[LW_VARY_MOST], int *count)
{
    int found = 0;
    bool no_room = false;
    lw_handle h;
    for (int i = 0; i < vary->cut.setting_count && found < LW_VARY_MOST; i++) {
        if (!is_driver(vary, i) && setting_range(vary, i, &h) && is_free(vary, &h, &no_room)) {
            out[found++] = h;
        }
    }
    for (int i = 0; i < vary->cut.step_count && found < LW_VARY_MOST; i++) {
        if (step_handle(vary, i, out, found, &h) && is_free(vary, &h, &no_room)) {
            out[found++] = h;
        }
    }
    if (no_room) {
        return LW_NO_MEMORY;
    }
    *count = found;
    return LW_OK;
}
