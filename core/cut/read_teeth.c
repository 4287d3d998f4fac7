/* Where on the wheel: "on" and what follows it. */
#include "cut/read_parts.h"

#include "geom/tolerance.h"

#include <math.h>
#include <stdio.h>

lw_status lw_read_tooth(lw_reader *r, double *out)
{
    const lw_token *token = lw_read_token(r);
    char expected[LW_PROBLEM_TEXT];
    snprintf(expected, sizeof expected, "a tooth from 0 to %d", r->cut.wheel);
    if (token->kind != LW_TOKEN_NUMBER) {
        return lw_read_fail(r, token, expected, "");
    }
    if (token->value > r->cut.wheel) {
        return lw_read_fail(r, token, expected, "the wheel is stated at the top");
    }
    *out = token->value;
    r->at++;
    return LW_OK;
}

/* Tooth N of a wheel of N is tooth 0. */
static bool same_tooth(double a, double b, int wheel)
{
    double apart = fabs(a - b);
    return apart < LW_SAME_TOOTH || wheel - apart < LW_SAME_TOOTH;
}

static lw_status add_tooth(lw_reader *r)
{
    double tooth = 0.0;
    const lw_token *token = lw_read_token(r);
    lw_status status = lw_read_tooth(r, &tooth);
    const double *before = r->teeth.items;
    for (int i = 0; status == LW_OK && i < r->teeth.count; i++) {
        if (same_tooth(before[i], tooth, r->cut.wheel)) {
            return lw_read_fail(r, token, "a tooth that is not in the list yet", "");
        }
    }
    return status == LW_OK ? lw_read_add(r, &r->teeth, &tooth, sizeof tooth) : status;
}

/* How many facets one tooth gives under a fold and a mirror: a tooth on a plane of the mirror has
 * itself for its image. */
static int images(double tooth, int wheel, int fold, bool mirror)
{
    if (!mirror) {
        return fold;
    }
    double turn = 2.0 * tooth * fold / wheel;
    bool on_plane = fabs(turn - round(turn)) * wheel < 2.0 * fold * LW_SAME_TOOTH;
    return on_plane ? fold : 2 * fold;
}

/* The number behind x, in one word (x8) or two (x 8). */
static lw_status take_fold(lw_reader *r, lw_step *step, bool *there)
{
    const lw_token *token = lw_read_token(r);
    *there = false;
    if (token->kind != LW_TOKEN_WORD || token->text[0] != 'x') {
        return LW_OK;
    }
    int fold = 0;
    for (int i = 1; i < token->length; i++) {
        char c = token->text[i];
        if (c < '0' || c > '9') {
            return LW_OK;
        }
        fold = fold > LW_CUT_MOST_TEETH ? fold : fold * 10 + (c - '0');
    }
    *there = true;
    if (token->length == 1) {
        r->at++;
        return lw_read_whole(r, 1, LW_CUT_MOST_TEETH, "a whole number from 1 to 1440 behind x",
                             &step->fold);
    }
    if (fold < 1 || fold > LW_CUT_MOST_TEETH) {
        return lw_read_fail(r, token, "x1 to x1440", "");
    }
    step->fold = fold;
    r->at++;
    return LW_OK;
}

static lw_status take_symmetry(lw_reader *r, lw_step *step)
{
    bool folded = false;
    lw_status status = take_fold(r, step, &folded);
    if (status != LW_OK) {
        return status;
    }
    bool mirror = lw_read_take(r, "mirror");
    bool plain = !mirror && lw_read_take(r, "plain");
    step->own_symmetry = folded || mirror || plain;
    if (step->own_symmetry) {
        step->mirror = mirror;
    }
    if (lw_token_is(lw_read_token(r), "only") && step->own_symmetry) {
        return lw_read_fail(r, lw_read_token(r), "'to' and how deep",
                            "only is for a tooth without symmetry");
    }
    return LW_OK;
}

/* No symmetry is applied to these. */
static void make_listed(lw_step *step, bool listed)
{
    step->listed = listed;
    step->fold = 1;
    step->mirror = false;
}

static lw_status take_list(lw_reader *r, lw_step *step)
{
    lw_status status = add_tooth(r);
    while (status == LW_OK && lw_read_take_sign(r, ',')) {
        status = add_tooth(r);
        if (r->teeth.count > LW_CUT_MOST_FACETS) {
            return lw_read_fail(r, lw_read_token(r), "at most 2000 teeth", "");
        }
    }
    if (status != LW_OK) {
        return status;
    }
    if (r->teeth.count > 1) {
        make_listed(step, true);
        return LW_OK;
    }
    if (lw_read_take(r, "only")) {
        make_listed(step, true);
        return LW_OK;
    }
    return take_symmetry(r, step);
}

static lw_status take_free(lw_reader *r, lw_step *step)
{
    lw_status status = lw_read_want(r, "near", "'near' and a tooth");
    if (status == LW_OK) {
        status = add_tooth(r);
    }
    if (status == LW_OK) {
        step->tooth_free = true;
        make_listed(step, false);
    }
    return status;
}

lw_status lw_read_teeth(lw_reader *r, lw_step *step)
{
    const void *kept = NULL;
    lw_place place = lw_read_place(r);
    r->teeth.count = 0;
    lw_status status = lw_read_take(r, "free") ? take_free(r, step) : take_list(r, step);
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->teeth, sizeof(double), &kept);
    }
    if (status != LW_OK) {
        return status;
    }
    r->teeth_place = place;
    step->teeth = kept;
    step->tooth_count = r->teeth.count;
    r->facet_step_count = step->listed || step->tooth_free
                              ? step->tooth_count
                              : images(step->teeth[0], r->cut.wheel, step->fold, step->mirror);
    if (r->facet_total + r->facet_step_count > LW_CUT_MOST_FACETS) {
        return lw_read_fail_as(r, LW_TOO_LARGE, place, "more than 2000 facets in all",
                               "a cut of at most 2000 facets", "");
    }
    return LW_OK;
}
