/* Expressions. Each part gives back the height of its tree, so that a chain of a thousand signs is
 * as bounded as a thousand brackets. */
#include "cut/read_parts.h"

#include "cut/value_parts.h"

#include <stdio.h>
#include <string.h>

/* What a part comes to. */
typedef struct branch {
    const lw_expr *expr;
    int height;
} branch;

static lw_status read_sum(lw_reader *r, int depth, branch *out);

static lw_status too_deep(lw_reader *r, lw_place place)
{
    return lw_read_fail_as(r, LW_TOO_LARGE, place, "an expression that is nested too deep",
                           "at most 64 signs and brackets within one another",
                           "give a part of it a name with let");
}

static int taller(const branch *left, const branch *right)
{
    int right_height = right == NULL ? 0 : right->height;
    return 1 + (left->height > right_height ? left->height : right_height);
}

/* A node over one or two parts. */
static lw_status join(lw_reader *r, lw_expr node, const branch *left, const branch *right,
                      branch *out)
{
    int height = taller(left, right);
    if (height > LW_CUT_MOST_DEPTH) {
        return too_deep(r, node.place);
    }
    node.left = left->expr;
    node.right = right == NULL ? NULL : right->expr;
    lw_expr *kept = lw_arena_new(&r->cut.arena, 1, sizeof *kept);
    if (kept == NULL) {
        return lw_read_no_memory(r);
    }
    *kept = node;
    *out = (branch){kept, height};
    return LW_OK;
}

static lw_status leaf(lw_reader *r, lw_expr node, branch *out)
{
    return join(r, node, &(branch){NULL, 0}, NULL, out);
}

static lw_unit take_unit(lw_reader *r)
{
    if (lw_read_take_sign(r, '%')) {
        return LW_UNIT_PERCENT;
    }
    if (lw_read_take_sign(r, LW_SIGN_DEGREE) || lw_read_take(r, "deg")) {
        return LW_UNIT_DEG;
    }
    return lw_read_take(r, "mm") ? LW_UNIT_MM : LW_UNIT_NUMBER;
}

static lw_status read_number(lw_reader *r, branch *out)
{
    lw_expr node = {.kind = LW_EXPR_NUMBER, .place = lw_read_place(r)};
    node.value = lw_read_token(r)->value;
    r->at++;
    node.unit = take_unit(r);
    return leaf(r, node, out);
}

/* Settings that a misspelt name may mean, and functions. */
static lw_status unknown_name(lw_reader *r, const lw_token *token, bool call)
{
    const char *words[LW_CUT_MOST_SETTINGS + 16];
    char hint[LW_PROBLEM_TEXT];
    int count = 0;
    const char *const *functions = lw_function_names(&count);
    if (call) {
        lw_nearest_hint(token, functions, count, hint);
        return lw_read_fail(
            r, token, "a function: sin, cos, tan, asin, acos, atan, sqrt, abs, min or max", hint);
    }
    for (int i = 0; i < r->cut.setting_count; i++) {
        words[i] = r->cut.settings[i].name;
    }
    lw_nearest_hint(token, words, r->cut.setting_count, hint);
    const char *minus = memchr(token->text, '-', (size_t)token->length);
    for (int i = 0; minus != NULL && i < r->cut.setting_count; i++) {
        size_t length = (size_t)(minus - token->text);
        if (strlen(words[i]) == length && memcmp(words[i], token->text, length) == 0) {
            snprintf(hint, sizeof hint, "to subtract, put blanks around the -");
        }
    }
    return lw_read_fail(r, token, "a number, or a setting or let that is given above", hint);
}

static lw_status wrong_arguments(lw_reader *r, const lw_token *name, int wanted)
{
    char found[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "%s for '%.*s'", wanted == 1 ? "a second value" : "one value",
             name->length, name->text);
    return lw_read_fail_as(r, LW_BAD_INPUT, lw_read_place(r), found,
                           wanted == 1 ? "one value in brackets" : "two values with a comma", "");
}

static lw_status want_sign(lw_reader *r, int sign, const char *expected)
{
    return lw_read_take_sign(r, sign) ? LW_OK : lw_read_fail(r, lw_read_token(r), expected, "");
}

static lw_status read_call(lw_reader *r, int depth, branch *out)
{
    lw_expr node = {.kind = LW_EXPR_CALL, .place = lw_read_place(r)};
    const lw_token *token = lw_read_token(r);
    branch left, right = {NULL, 0};
    lw_status status = lw_read_text(r, token, &node.name);
    if (status != LW_OK) {
        return status;
    }
    int wanted = lw_function_arguments(node.name);
    if (wanted == 0) {
        return unknown_name(r, token, true);
    }
    r->at++;
    status = want_sign(r, '(', "'(' behind a function");
    if (status == LW_OK) {
        status = read_sum(r, depth + 1, &left);
    }
    if (status != LW_OK) {
        return status;
    }
    bool comma = lw_token_is_sign(lw_read_token(r), ',');
    if (comma != (wanted == 2)) {
        bool end = lw_token_is_sign(lw_read_token(r), ')');
        return comma || end ? wrong_arguments(r, token, wanted)
                            : lw_read_fail(r, lw_read_token(r), wanted == 1 ? "')'" : "','", "");
    }
    if (comma) {
        r->at++;
        status = read_sum(r, depth + 1, &right);
    }
    if (status == LW_OK && wanted == 2 && lw_token_is_sign(lw_read_token(r), ',')) {
        return lw_read_fail(r, lw_read_token(r), "')'", "min and max take two values");
    }
    if (status == LW_OK) {
        status = want_sign(r, ')', "')'");
    }
    return status == LW_OK ? join(r, node, &left, comma ? &right : NULL, out) : status;
}

static lw_status read_name(lw_reader *r, branch *out)
{
    lw_expr node = {.kind = LW_EXPR_NAME, .place = lw_read_place(r)};
    const lw_token *token = lw_read_token(r);
    for (int i = 0; i < r->cut.setting_count; i++) {
        if (lw_token_is(token, r->cut.settings[i].name)) {
            node.name = r->cut.settings[i].name;
            r->at++;
            return leaf(r, node, out);
        }
    }
    return unknown_name(r, token, false);
}

static lw_status read_group(lw_reader *r, int depth, branch *out)
{
    lw_expr node = {.kind = LW_EXPR_GROUP, .place = lw_read_place(r)};
    branch inner;
    r->at++;
    lw_status status = read_sum(r, depth + 1, &inner);
    if (status == LW_OK) {
        status = want_sign(r, ')', "')'");
    }
    return status == LW_OK ? join(r, node, &inner, NULL, out) : status;
}

static bool is_function(const lw_token *token)
{
    int count = 0;
    const char *const *functions = lw_function_names(&count);
    for (int i = 0; i < count; i++) {
        if (lw_token_is(token, functions[i])) {
            return true;
        }
    }
    return false;
}

static lw_status read_atom(lw_reader *r, int depth, branch *out)
{
    const lw_token *token = lw_read_token(r);
    if (depth > LW_CUT_MOST_DEPTH) {
        return too_deep(r, lw_read_place(r));
    }
    if (token->kind == LW_TOKEN_NUMBER) {
        return read_number(r, out);
    }
    if (lw_token_is_sign(token, '(')) {
        return read_group(r, depth, out);
    }
    if (token->kind != LW_TOKEN_WORD || lw_word_is_reserved(token)) {
        return lw_read_fail(r, token, "a number, the name of a setting, a function or '('", "");
    }
    bool bracket = lw_token_is_sign(lw_read_ahead(r, 1), '(');
    return bracket || is_function(token) ? read_call(r, depth, out) : read_name(r, out);
}

/* factor = "-" factor | atom [ "^" factor ] */
static lw_status read_factor(lw_reader *r, int depth, branch *out)
{
    lw_expr node = {.kind = LW_EXPR_NEGATE, .place = lw_read_place(r)};
    branch left, right;
    if (depth > LW_CUT_MOST_DEPTH) {
        return too_deep(r, node.place);
    }
    if (lw_read_take_sign(r, '-')) {
        lw_status status = read_factor(r, depth + 1, &right);
        return status == LW_OK ? join(r, node, &right, NULL, out) : status;
    }
    lw_status status = read_atom(r, depth, &left);
    if (status != LW_OK || !lw_token_is_sign(lw_read_token(r), '^')) {
        *out = status == LW_OK ? left : (branch){NULL, 0};
        return status;
    }
    node.kind = LW_EXPR_POWER;
    node.place = lw_read_place(r);
    r->at++;
    status = read_factor(r, depth + 1, &right);
    return status == LW_OK ? join(r, node, &left, &right, out) : status;
}

typedef lw_status (*read_part)(lw_reader *r, int depth, branch *out);

/* part { sign part }, from left to right. */
static lw_status read_chain(lw_reader *r, int depth, const lw_expr_kind kinds[2],
                            const char signs[2], read_part part, branch *out)
{
    branch left, right;
    lw_status status = part(r, depth, &left);
    while (status == LW_OK) {
        bool second = lw_token_is_sign(lw_read_token(r), signs[1]);
        if (!second && !lw_token_is_sign(lw_read_token(r), signs[0])) {
            *out = left;
            return LW_OK;
        }
        lw_expr node = {.kind = kinds[second], .place = lw_read_place(r)};
        r->at++;
        status = part(r, depth, &right);
        if (status == LW_OK) {
            status = join(r, node, &left, &right, &left);
        }
    }
    return status;
}

static lw_status read_product(lw_reader *r, int depth, branch *out)
{
    static const lw_expr_kind kinds[2] = {LW_EXPR_MULTIPLY, LW_EXPR_DIVIDE};
    return read_chain(r, depth, kinds, "*/", read_factor, out);
}

static lw_status read_sum(lw_reader *r, int depth, branch *out)
{
    static const lw_expr_kind kinds[2] = {LW_EXPR_ADD, LW_EXPR_SUBTRACT};
    return read_chain(r, depth, kinds, "+-", read_product, out);
}

bool lw_read_expr_ahead(const lw_reader *r)
{
    const lw_token *token = lw_read_token(r);
    return token->kind == LW_TOKEN_NUMBER || lw_token_is_sign(token, '(') ||
           lw_token_is_sign(token, '-') ||
           (token->kind == LW_TOKEN_WORD && !lw_word_is_reserved(token));
}

lw_status lw_read_expr(lw_reader *r, const lw_expr **out)
{
    branch whole = {NULL, 0};
    lw_status status = read_sum(r, 0, &whole);
    if (status == LW_OK) {
        *out = whole.expr;
    }
    return status;
}
