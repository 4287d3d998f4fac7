/* Steps and settings in columns. */
#include "cut/write_parts.h"

#include <string.h>

enum {
    LEAST_NAME = 7, /* "setting", the longest first word of a header */
    MOST_NAME = 16,
    MOST_ANGLE = 20,
    MOST_TEETH = 16,
    MOST_SETTING_NAME = 20,
    MOST_VALUE = 16,
    MOST_LIMITS = 24
};

void lw_out_angle(lw_out *out, const lw_step *step)
{
    if (step->angle != NULL) {
        lw_out_expr(out, step->angle);
        return;
    }
    lw_out_text(out, "free");
    if (step->angle_near != NULL) {
        lw_out_text(out, " near ");
        lw_out_expr(out, step->angle_near);
    }
}

static void symmetry(lw_out *out, const lw_cut *cut, const lw_step *step)
{
    if (!step->own_symmetry) {
        return;
    }
    if (step->fold == cut->fold) {
        lw_out_text(out, step->mirror ? " mirror" : " plain");
        return;
    }
    lw_out_text(out, " x");
    lw_out_whole(out, step->fold);
    lw_out_text(out, step->mirror ? " mirror" : "");
}

void lw_out_teeth(lw_out *out, const lw_cut *cut, const lw_step *step)
{
    lw_out_text(out, step->tooth_free ? "free near " : "");
    for (int i = 0; i < step->tooth_count; i++) {
        lw_out_text(out, i > 0 ? ", " : "");
        lw_out_number(out, step->teeth[i]);
    }
    if (step->listed) {
        lw_out_text(out, step->tooth_count == 1 ? " only" : "");
    } else if (!step->tooth_free) {
        symmetry(out, cut, step);
    }
}

/* How wide an entry is, up to where it still takes part in the columns. */
static void widen(size_t *width, size_t entry, size_t most)
{
    if (entry <= most && entry > *width) {
        *width = entry;
    }
}

static void measure_step(lw_layout *layout, const lw_cut *cut, const lw_step *step)
{
    if (step->kind != LW_STEP_FACETS) {
        return;
    }
    size_t name = strlen(step->name) + (step->temporary ? strlen("temporary ") : 0);
    lw_out angle = lw_out_make(NULL, 0);
    lw_out teeth = lw_out_make(NULL, 0);
    lw_out_angle(&angle, step);
    lw_out_teeth(&teeth, cut, step);
    widen(&layout->name, name, MOST_NAME);
    widen(&layout->angle, angle.length, MOST_ANGLE);
    widen(&layout->teeth, teeth.length, MOST_TEETH);
}

static void limits(lw_out *out, const lw_setting *setting)
{
    lw_out_text(out, "from ");
    lw_out_expr(out, setting->lowest);
    lw_out_text(out, " to ");
    lw_out_expr(out, setting->highest);
}

static void measure_setting(lw_layout *layout, const lw_setting *setting)
{
    widen(&layout->setting_name, strlen(setting->name), MOST_SETTING_NAME);
    if (setting->is_let) {
        return;
    }
    lw_out bounds = lw_out_make(NULL, 0);
    limits(&bounds, setting);
    widen(&layout->value, lw_expr_write(setting->value, NULL, 0), MOST_VALUE);
    widen(&layout->limits, bounds.length, MOST_LIMITS);
}

lw_layout lw_layout_make(const lw_cut *cut)
{
    lw_layout layout = {.name = LEAST_NAME};
    for (int i = 0; i < cut->step_count; i++) {
        measure_step(&layout, cut, &cut->steps[i]);
    }
    for (int i = 0; i < cut->setting_count; i++) {
        measure_setting(&layout, &cut->settings[i]);
    }
    return layout;
}

void lw_out_setting(lw_out *out, const lw_layout *layout, const lw_setting *setting)
{
    lw_out_text(out, setting->is_let ? "let      " : "setting  ");
    size_t start = out->length;
    lw_out_text(out, setting->name);
    lw_out_pad(out, start, layout->setting_name + 1);
    lw_out_text(out, "= ");
    start = out->length;
    lw_out_expr(out, setting->value);
    if (setting->is_let) {
        return;
    }
    lw_out_pad(out, start, layout->value + 2);
    start = out->length;
    limits(out, setting);
    if (setting->meaning != NULL) {
        lw_out_pad(out, start, layout->limits + 2);
        lw_out_quoted(out, setting->meaning);
    }
}

static void action(lw_out *out, const lw_layout *layout, const lw_step *step)
{
    size_t start = out->length;
    switch (step->kind) {
    case LW_STEP_DOP:
        lw_out_text(out, "dop");
        lw_out_pad(out, start, layout->name + 2);
        lw_out_text(out, step->side == LW_SIDE_CROWN ? "crown" : "pavilion");
        break;
    case LW_STEP_TRANSFER:
        lw_out_text(out, "transfer");
        break;
    case LW_STEP_REDOP:
        lw_out_text(out, "redop");
        break;
    default:
        lw_out_text(out, "adapter");
        if (step->off) {
            lw_out_pad(out, start, layout->name + 2);
            lw_out_text(out, "off");
        }
        break;
    }
}

static void rules(lw_out *out, const lw_step *step)
{
    lw_out_text(out, step->each ? "to each " : "to ");
    for (int i = 0; i < step->rule_count; i++) {
        lw_out_text(out, i > 0 ? " and " : "");
        lw_out_rule(out, &step->rules[i]);
    }
    if (step->remark != NULL) {
        lw_out_text(out, "  ");
        lw_out_quoted(out, step->remark);
    }
}

void lw_out_step(lw_out *out, const lw_cut *cut, const lw_layout *layout, const lw_step *step)
{
    if (step->kind != LW_STEP_FACETS) {
        action(out, layout, step);
        return;
    }
    size_t start = out->length;
    lw_out_text(out, step->temporary ? "temporary " : "");
    lw_out_text(out, step->name);
    lw_out_pad(out, start, layout->name + 2);
    start = out->length;
    lw_out_text(out, "at ");
    lw_out_angle(out, step);
    lw_out_pad(out, start, strlen("at ") + layout->angle + 1);
    start = out->length;
    if (step->tooth_count > 0) {
        lw_out_text(out, "on ");
        lw_out_teeth(out, cut, step);
    }
    if (step->tooth_count > 0 || layout->teeth > 0) {
        lw_out_pad(out, start, strlen("on ") + layout->teeth + 1);
    }
    rules(out, step);
}
