/* Step lines and the actions between them. */
#include "cut/read_parts.h"

#include <stddef.h>

static lw_status finish(lw_reader *r, const lw_step *step, lw_line *line)
{
    if (r->steps.count == LW_CUT_MOST_STEPS) {
        return lw_read_fail_as(r, LW_TOO_LARGE, step->place, "more than 500 steps",
                               "a cut of at most 500 steps", "");
    }
    line->kind = LW_LINE_STEP;
    line->index = r->steps.count;
    return lw_read_add(r, &r->steps, step, sizeof *step);
}

lw_status lw_read_action(lw_reader *r, lw_line *line, bool *done)
{
    lw_step step = {.place = lw_read_place(r), .side = LW_SIDE_NONE, .fold = 1};
    lw_status status = LW_OK;
    *done = true;
    if (lw_read_take(r, "dop")) {
        step.kind = LW_STEP_DOP;
        step.side = lw_token_is(lw_read_token(r), "crown") ? LW_SIDE_CROWN : LW_SIDE_PAVILION;
        if (!lw_read_take(r, "crown") && !lw_read_take(r, "pavilion")) {
            return lw_read_fail(r, lw_read_token(r), "pavilion or crown, the side that is held",
                                "");
        }
    } else if (lw_read_take(r, "transfer")) {
        step.kind = LW_STEP_TRANSFER;
    } else if (lw_read_take(r, "redop")) {
        step.kind = LW_STEP_REDOP;
    } else if (lw_read_take(r, "adapter")) {
        step.kind = LW_STEP_ADAPTER;
        step.off = lw_read_take(r, "off");
    } else {
        *done = false;
        return LW_OK;
    }
    status = lw_read_want_end(r, step.kind == LW_STEP_ADAPTER ? "'off' or the end of the line"
                                                              : "the end of the line");
    return status == LW_OK ? finish(r, &step, line) : status;
}

static lw_status read_angle(lw_reader *r, lw_step *step)
{
    if (!lw_read_take(r, "free")) {
        return lw_read_expr(r, &step->angle);
    }
    return lw_read_take(r, "near") ? lw_read_expr(r, &step->angle_near) : LW_OK;
}

static lw_status want_to(lw_reader *r, const lw_step *step)
{
    if (lw_read_take(r, "to")) {
        return LW_OK;
    }
    const char *expected =
        step->tooth_count > 0 ? "'to' and how deep" : "'on' and a tooth, or 'to' and how deep";
    bool dash = step->tooth_count > 0 && lw_token_is_sign(lw_read_token(r), '-');
    return lw_read_fail(r, lw_read_token(r), expected,
                        dash ? "teeth in a list are parted by commas" : "");
}

static lw_status read_rules(lw_reader *r, lw_step *step)
{
    lw_status status = want_to(r, step);
    if (status != LW_OK) {
        return status;
    }
    step->each = lw_read_take(r, "each");
    do {
        if (step->rule_count == LW_CUT_MOST_RULES) {
            return lw_read_fail(r, lw_read_ahead(r, -1), "at most three rules a step", "");
        }
        status = lw_read_rule(r, &step->rules[step->rule_count++]);
    } while (status == LW_OK && lw_read_take(r, "and"));
    return status;
}

static lw_status read_remark(lw_reader *r, lw_step *step)
{
    const lw_token *token = lw_read_token(r);
    lw_status status = LW_OK;
    if (token->kind == LW_TOKEN_TEXT) {
        r->at++;
        status = lw_read_text(r, token, &step->remark);
    }
    if (status != LW_OK) {
        return status;
    }
    return lw_read_want_end(r, step->remark == NULL
                                   ? "'and', a remark in quotes or the end of the line"
                                   : "the end of the line");
}

static lw_status read_body(lw_reader *r, lw_step *step)
{
    lw_status status = read_angle(r, step);
    if (status == LW_OK && lw_read_take(r, "on")) {
        status = lw_read_teeth(r, step);
    }
    if (status == LW_OK) {
        status = read_rules(r, step);
    }
    return status == LW_OK ? read_remark(r, step) : status;
}

/* What must stand above the first step. */
static lw_status check_above(lw_reader *r)
{
    if (r->cut.wheel == 0) {
        return lw_read_fail(r, lw_read_token(r), "a line 'wheel N' before the first step",
                            "for example: wheel 96");
    }
    if (r->side == LW_SIDE_NONE) {
        return lw_read_fail(r, lw_read_token(r),
                            "a line 'pavilion' or 'crown' before the first step", "");
    }
    return LW_OK;
}

lw_status lw_read_step(lw_reader *r, lw_line *line)
{
    lw_step step = {.kind = LW_STEP_FACETS,
                    .place = lw_read_place(r),
                    .side = r->side,
                    .fold = r->cut.fold,
                    .mirror = r->cut.mirror};
    lw_status status = check_above(r);
    step.temporary = lw_read_take(r, "temporary");
    const lw_token *name = lw_read_token(r);
    if (status == LW_OK) {
        status = lw_read_check_name(r, name, true);
    }
    if (status == LW_OK) {
        status = lw_read_text(r, name, &step.name);
    }
    if (status != LW_OK) {
        return status;
    }
    r->at += 2; /* the name and "at" */
    r->facet_step_count = 1;
    status = read_body(r, &step);
    if (status == LW_OK) {
        status = lw_read_check_step(r, &step);
    }
    if (status == LW_OK) {
        r->facet_total += r->facet_step_count;
        status = finish(r, &step, line);
    }
    return status;
}
