/* Header lines, settings and lets. */
#include "cut/read_parts.h"

#include "cut/value_parts.h"

#include <stdio.h>
#include <string.h>

lw_status lw_read_whole(lw_reader *r, int lowest, int highest, const char *expected, int *out)
{
    const lw_token *token = lw_read_token(r);
    if (token->kind != LW_TOKEN_NUMBER || !token->digits || token->value < lowest ||
        token->value > highest) {
        return lw_read_fail(r, token, expected, "");
    }
    *out = (int)token->value;
    r->at++;
    return LW_OK;
}

static lw_status take_quoted(lw_reader *r, const char **out)
{
    const lw_token *token = lw_read_token(r);
    if (token->kind != LW_TOKEN_TEXT) {
        return lw_read_fail(r, token, "a text in quotes", "");
    }
    r->at++;
    return lw_read_text(r, token, out);
}

static lw_status head_title(lw_reader *r, lw_line *line)
{
    (void)line;
    return take_quoted(r, &r->cut.title);
}

static lw_status head_maker(lw_reader *r, lw_line *line)
{
    (void)line;
    return take_quoted(r, &r->cut.maker);
}

static lw_status head_note(lw_reader *r, lw_line *line)
{
    const char *note = NULL;
    lw_status status = take_quoted(r, &note);
    line->index = r->notes.count;
    return status == LW_OK ? lw_read_add(r, &r->notes, &note, sizeof note) : status;
}

static lw_status head_suits(lw_reader *r, lw_line *line)
{
    (void)line;
    const void *kept = NULL;
    lw_status status = LW_OK;
    r->values_list.count = 0;
    do {
        const lw_token *token = lw_read_token(r);
        const char *name = NULL;
        if (token->kind != LW_TOKEN_WORD) {
            return lw_read_fail(r, token, "the name of a material", "");
        }
        const char *const *before = r->values_list.items;
        for (int i = 0; i < r->values_list.count; i++) {
            if (lw_token_is(token, before[i])) {
                return lw_read_fail(r, token, "a material that is not named yet", "");
            }
        }
        r->at++;
        status = lw_read_text(r, token, &name);
        if (status == LW_OK) {
            status = lw_read_add(r, &r->values_list, &name, sizeof name);
        }
    } while (status == LW_OK && lw_read_take_sign(r, ','));
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->values_list, sizeof(const char *), &kept);
    }
    if (status == LW_OK) {
        r->cut.suits = kept;
        r->cut.suit_count = r->values_list.count;
    }
    return status;
}

static lw_status head_wheel(lw_reader *r, lw_line *line)
{
    (void)line;
    return lw_read_whole(r, 3, LW_CUT_MOST_TEETH,
                         "the wheel's teeth, a whole number from 3 to 1440", &r->cut.wheel);
}

static lw_status head_fold(lw_reader *r, lw_line *line)
{
    (void)line;
    if (r->steps.count > 0) {
        return lw_read_fail(r, lw_read_ahead(r, -1), "the fold before the first step", "");
    }
    if (lw_read_take(r, "none")) {
        return LW_OK;
    }
    if (!lw_token_is(lw_read_token(r), "mirror")) {
        lw_status status =
            lw_read_whole(r, 1, LW_CUT_MOST_TEETH, "none, mirror, or a whole number from 1 to 1440",
                          &r->cut.fold);
        if (status != LW_OK) {
            return status;
        }
    }
    r->cut.mirror = lw_read_take(r, "mirror");
    return LW_OK;
}

static lw_status head_hand(lw_reader *r, lw_line *line)
{
    (void)line;
    r->cut.left_handed = lw_token_is(lw_read_token(r), "left");
    return lw_read_take(r, "left") || lw_read_take(r, "right")
               ? LW_OK
               : lw_read_fail(r, lw_read_token(r), "right or left", "");
}

static const struct {
    const char *word;
    lw_line_kind kind;
    lw_status (*body)(lw_reader *r, lw_line *line);
    const char *ending;
} headers[] = {
    {"title", LW_LINE_TITLE, head_title, "the end of the line"},
    {"maker", LW_LINE_MAKER, head_maker, "the end of the line"},
    {"note", LW_LINE_NOTE, head_note, "the end of the line"},
    {"suits", LW_LINE_SUITS, head_suits, "',' or the end of the line"},
    {"wheel", LW_LINE_WHEEL, head_wheel, "the end of the line"},
    {"fold", LW_LINE_FOLD, head_fold, "'mirror' or the end of the line"},
    {"hand", LW_LINE_HAND, head_hand, "the end of the line"},
};

lw_status lw_read_header(lw_reader *r, lw_line *line, bool *done)
{
    *done = false;
    for (size_t i = 0; i < sizeof headers / sizeof headers[0]; i++) {
        const lw_token *token = lw_read_token(r);
        if (!lw_read_take(r, headers[i].word)) {
            continue;
        }
        *done = true;
        line->kind = headers[i].kind;
        if ((r->headers & (1u << i)) != 0 && headers[i].kind != LW_LINE_NOTE) {
            char expected[LW_PROBLEM_TEXT];
            snprintf(expected, sizeof expected, "one line '%s' in a cut", headers[i].word);
            return lw_read_fail(r, token, expected, "it stands further up already");
        }
        r->headers |= 1u << i;
        lw_status status = headers[i].body(r, line);
        return status == LW_OK ? lw_read_want_end(r, headers[i].ending) : status;
    }
    return LW_OK;
}

/* The name and "=". */
static lw_status take_new_name(lw_reader *r, lw_setting *setting)
{
    const lw_token *token = lw_read_token(r);
    setting->place = lw_read_place(r);
    lw_status status = lw_read_check_name(r, token, false);
    if (status != LW_OK) {
        return status;
    }
    for (int i = 0; i < r->cut.setting_count; i++) {
        if (lw_token_is(token, r->settings[i].name)) {
            char expected[LW_PROBLEM_TEXT];
            snprintf(expected, sizeof expected, "a name that is not given yet (line %d has it)",
                     r->settings[i].place.line);
            return lw_read_fail(r, token, expected, "");
        }
    }
    r->at++;
    if (!lw_read_take_sign(r, '=')) {
        return lw_read_fail(r, lw_read_token(r), "'='", "");
    }
    return lw_read_text(r, token, &setting->name);
}

/* from expr to expr [ quoted ] */
static lw_status take_limits(lw_reader *r, lw_setting *setting)
{
    lw_status status = lw_read_want(r, "from", "'from' and the lower limit");
    if (status == LW_OK) {
        status = lw_read_expr(r, &setting->lowest);
    }
    if (status == LW_OK) {
        status = lw_read_want(r, "to", "'to' and the upper limit");
    }
    if (status == LW_OK) {
        status = lw_read_expr(r, &setting->highest);
    }
    if (status == LW_OK && lw_read_token(r)->kind == LW_TOKEN_TEXT) {
        status = take_quoted(r, &setting->meaning);
    }
    return status;
}

static lw_status room_for_settings(lw_reader *r)
{
    if (r->cut.setting_count == LW_CUT_MOST_SETTINGS) {
        return lw_read_fail_as(r, LW_TOO_LARGE, lw_read_place(r), "more than 100 settings and lets",
                               "at most 100 settings and lets", "");
    }
    if (r->settings == NULL) {
        r->settings = lw_arena_new(&r->cut.arena, LW_CUT_MOST_SETTINGS, sizeof *r->settings);
        r->cut.settings = r->settings;
    }
    return r->settings == NULL ? lw_read_no_memory(r) : LW_OK;
}

lw_status lw_read_setting(lw_reader *r, lw_line *line)
{
    lw_setting setting = {.is_let = lw_token_is(lw_read_token(r), "let")};
    lw_status status = room_for_settings(r);
    r->at++;
    if (status == LW_OK) {
        status = take_new_name(r, &setting);
    }
    if (status == LW_OK) {
        status = lw_read_expr(r, &setting.value);
    }
    if (status == LW_OK && !setting.is_let) {
        status = take_limits(r, &setting);
    }
    if (status == LW_OK) {
        const char *tail = setting.is_let || setting.meaning != NULL
                               ? "the end of the line"
                               : "what the setting means, in quotes, or the end of the line";
        status = lw_read_want_end(r, tail);
    }
    if (status != LW_OK) {
        return status;
    }
    line->kind = LW_LINE_SETTING;
    line->index = r->cut.setting_count;
    r->settings[r->cut.setting_count++] = setting;
    return lw_values_add(&r->cut, NULL, &r->values, r->problem);
}
