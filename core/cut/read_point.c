/* Facets as a rule names them, and points. */
#include "cut/read_parts.h"

#include <stdio.h>
#include <string.h>

static const char facet_expected[] = "a facet: a step's name, with own, left, right … in front";

static const struct {
    const char *word;
    lw_relation relation;
} relations[] = {{"own", LW_RELATION_OWN},
                 {"left", LW_RELATION_LEFT},
                 {"right", LW_RELATION_RIGHT},
                 {"opposite", LW_RELATION_OPPOSITE},
                 {"next", LW_RELATION_NEXT}};

static lw_relation take_relation(lw_reader *r)
{
    for (size_t i = 0; i < sizeof relations / sizeof relations[0]; i++) {
        if (lw_read_take(r, relations[i].word)) {
            return relations[i].relation;
        }
    }
    return LW_RELATION_ONLY;
}

static lw_status take_count(lw_reader *r, lw_facet_ref *facet)
{
    const lw_token *token = lw_read_token(r);
    if (token->kind == LW_TOKEN_ORDINAL) {
        facet->count = (int)token->value;
        r->at++;
    }
    const lw_token *word = lw_read_token(r);
    facet->relation = take_relation(r);
    bool counted = facet->relation == LW_RELATION_LEFT || facet->relation == LW_RELATION_RIGHT;
    if (token->kind == LW_TOKEN_ORDINAL && !counted) {
        return lw_read_fail(r, word, "left or right behind an ordinal", "");
    }
    return LW_OK;
}

static lw_status take_name(lw_reader *r, lw_facet_ref *facet)
{
    facet->side = lw_read_take(r, "pavilion") ? LW_SIDE_PAVILION
                  : lw_read_take(r, "crown")  ? LW_SIDE_CROWN
                                              : LW_SIDE_NONE;
    const lw_token *token = lw_read_token(r);
    if (token->kind != LW_TOKEN_WORD || lw_word_is_reserved(token)) {
        const char *hint =
            facet->side == LW_SIDE_NONE ? "" : "pavilion and crown name a side, not a facet";
        return lw_read_fail(r, token, facet_expected, hint);
    }
    r->at++;
    return lw_read_text(r, token, &facet->name);
}

static lw_status take_place(lw_reader *r, lw_facet_ref *facet)
{
    const lw_token *sign = lw_read_token(r);
    if (!lw_read_take_sign(r, '@')) {
        return LW_OK;
    }
    if (facet->relation != LW_RELATION_ONLY) {
        return lw_read_fail(r, sign, "either a word such as own or left, or a tooth", "");
    }
    facet->relation = LW_RELATION_TOOTH;
    return lw_read_tooth(r, &facet->tooth);
}

static bool same_facet(const lw_facet_ref *a, const lw_facet_ref *b)
{
    return a->relation == b->relation && a->count == b->count && a->side == b->side &&
           a->tooth == b->tooth && strcmp(a->name, b->name) == 0;
}

static lw_status parse_facet(lw_reader *r, lw_facet_ref *facet)
{
    *facet = (lw_facet_ref){.place = lw_read_place(r), .count = 1, .side = LW_SIDE_NONE};
    lw_status status = take_count(r, facet);
    if (status == LW_OK) {
        status = take_name(r, facet);
    }
    return status == LW_OK ? take_place(r, facet) : status;
}

lw_status lw_read_facet(lw_reader *r)
{
    lw_facet_ref facet;
    const lw_token *token = lw_read_token(r);
    lw_status status = parse_facet(r, &facet);
    if (status != LW_OK) {
        return status;
    }
    const lw_facet_ref *before = r->facets.items;
    for (int i = 0; i < r->facets.count; i++) {
        if (same_facet(&before[i], &facet)) {
            return lw_read_fail_as(r, LW_BAD_INPUT, (lw_place){r->line, token->column},
                                   "the same facet twice", "facets that differ", "");
        }
    }
    return lw_read_add(r, &r->facets, &facet, sizeof facet);
}

lw_status lw_read_facets(lw_reader *r, int most, const lw_facet_ref **out, int *count)
{
    const void *kept = NULL;
    r->facets.count = 0;
    lw_status status = lw_read_facet(r);
    while (status == LW_OK && lw_token_is_sign(lw_read_token(r), ',')) {
        if (r->facets.count == most) {
            char expected[LW_PROBLEM_TEXT];
            snprintf(expected, sizeof expected, "at most %d facets here", most);
            return lw_read_fail(r, lw_read_token(r), expected, "");
        }
        r->at++;
        status = lw_read_facet(r);
    }
    if (status == LW_OK && r->facets.count < 2) {
        status = lw_read_fail(r, lw_read_token(r), "',' and another facet", "");
    }
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->facets, sizeof(lw_facet_ref), &kept);
    }
    if (status == LW_OK) {
        *out = kept;
        *count = r->facets.count;
    }
    return status;
}

lw_status lw_read_one_facet(lw_reader *r, const lw_facet_ref **out)
{
    const void *kept = NULL;
    r->facets.count = 0;
    lw_status status = lw_read_facet(r);
    if (status == LW_OK) {
        status = lw_read_keep(r, &r->facets, sizeof(lw_facet_ref), &kept);
    }
    if (status == LW_OK) {
        *out = kept;
    }
    return status;
}

bool lw_read_point_ahead(const lw_reader *r)
{
    const lw_token *token = lw_read_token(r);
    return lw_token_is(token, "meet") || lw_token_is(token, "line") || lw_token_is(token, "apex") ||
           lw_token_is(token, "share") || lw_token_is_sign(token, '(');
}

static lw_status read_point(lw_reader *r, int depth, const lw_point **out);

/* share expr from point towards point */
static lw_status read_share(lw_reader *r, int depth, lw_point *point)
{
    lw_status status = lw_read_expr(r, &point->share);
    if (status == LW_OK) {
        status = lw_read_check_value(r, point->share, LW_WANT_SHARE, NULL);
    }
    if (status == LW_OK) {
        status = lw_read_want(r, "from", "'from' and a point");
    }
    if (status == LW_OK) {
        status = read_point(r, depth + 1, &point->from);
    }
    if (status == LW_OK) {
        status = lw_read_want(r, "towards", "'towards' and a point");
    }
    return status == LW_OK ? read_point(r, depth + 1, &point->towards) : status;
}

static lw_status read_bracket(lw_reader *r, int depth, const lw_point **out)
{
    r->at++;
    const lw_point *inner = NULL;
    lw_status status = read_point(r, depth + 1, &inner);
    if (status == LW_OK && !lw_read_take_sign(r, ')')) {
        status = lw_read_fail(r, lw_read_token(r), "')'", "");
    }
    if (status == LW_OK) {
        *out = inner;
    }
    return status;
}

static lw_status read_kind(lw_reader *r, int depth, lw_point *point)
{
    if (lw_read_take(r, "meet")) {
        point->kind = LW_POINT_MEET;
        return lw_read_facets(r, LW_CUT_MOST_MEET, &point->facets, &point->facet_count);
    }
    if (lw_read_take(r, "line")) {
        point->kind = LW_POINT_LINE;
        return lw_read_facets(r, 2, &point->facets, &point->facet_count);
    }
    if (lw_read_take(r, "apex")) {
        point->kind = LW_POINT_APEX;
        return LW_OK;
    }
    if (lw_read_take(r, "share")) {
        point->kind = LW_POINT_SHARE;
        return read_share(r, depth, point);
    }
    static const char *const words[] = {"meet", "line", "apex", "share"};
    char hint[LW_PROBLEM_TEXT];
    lw_nearest_hint(lw_read_token(r), words, 4, hint);
    return lw_read_fail(r, lw_read_token(r), "a point: meet, line, apex or share", hint);
}

/* Recursion is bounded by LW_CUT_MOST_DEPTH. */
static lw_status read_point(lw_reader *r, int depth, const lw_point **out)
{
    lw_point point = {.place = lw_read_place(r)};
    if (depth > LW_CUT_MOST_DEPTH) {
        return lw_read_fail_as(r, LW_TOO_LARGE, point.place, "a point that is nested too deep",
                               "at most 64 points within one another", "");
    }
    if (lw_token_is_sign(lw_read_token(r), '(')) {
        return read_bracket(r, depth, out);
    }
    lw_status status = read_kind(r, depth, &point);
    if (status != LW_OK) {
        return status;
    }
    lw_point *kept = lw_arena_new(&r->cut.arena, 1, sizeof *kept);
    if (kept == NULL) {
        return lw_read_no_memory(r);
    }
    *kept = point;
    *out = kept;
    return LW_OK;
}

lw_status lw_read_point(lw_reader *r, const lw_point **out)
{
    return read_point(r, 0, out);
}
