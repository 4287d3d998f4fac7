#include "cut/read_parts.h"

#include <stdio.h>
#include <string.h>

const lw_token *lw_read_ahead(const lw_reader *r, int offset)
{
    int at = r->at + offset;
    return &r->lexer.tokens[at < r->lexer.count ? at : r->lexer.count];
}

const lw_token *lw_read_token(const lw_reader *r)
{
    return lw_read_ahead(r, 0);
}

bool lw_token_is(const lw_token *token, const char *word)
{
    size_t length = strlen(word);
    return token->kind == LW_TOKEN_WORD && (size_t)token->length == length &&
           memcmp(token->text, word, length) == 0;
}

bool lw_token_is_sign(const lw_token *token, int sign)
{
    return token->kind == LW_TOKEN_SIGN && token->sign == sign;
}

bool lw_read_take(lw_reader *r, const char *word)
{
    bool there = lw_token_is(lw_read_token(r), word);
    r->at += there;
    return there;
}

bool lw_read_take_sign(lw_reader *r, int sign)
{
    bool there = lw_token_is_sign(lw_read_token(r), sign);
    r->at += there;
    return there;
}

lw_place lw_read_place(const lw_reader *r)
{
    return (lw_place){r->line, lw_read_token(r)->column};
}

/* The token as a message shows it. */
static void show(const lw_token *token, char found[LW_PROBLEM_TEXT])
{
    if (token->kind == LW_TOKEN_END) {
        snprintf(found, LW_PROBLEM_TEXT, "the end of the line");
    } else if (token->kind == LW_TOKEN_TEXT) {
        bool is_long = token->length > 40;
        snprintf(found, LW_PROBLEM_TEXT, is_long ? "a quoted text" : "\"%.*s\"", token->length,
                 token->text);
    } else {
        snprintf(found, LW_PROBLEM_TEXT, "'%.*s'", token->length, token->text);
    }
}

lw_status lw_read_fail_as(lw_reader *r, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint)
{
    return lw_problem_set(r->problem, status, place.line, place.column, found, expected, hint);
}

/* 43,5 where 43.5 was meant. */
static bool is_decimal_comma(const lw_reader *r, const lw_token *token)
{
    if (!lw_token_is_sign(token, ',') || token == r->lexer.tokens) {
        return false;
    }
    const lw_token *before = token - 1;
    const lw_token *behind = token + 1;
    return before->kind == LW_TOKEN_NUMBER && behind->kind == LW_TOKEN_NUMBER &&
           before->column + before->length == token->column && token->column + 1 == behind->column;
}

lw_status lw_read_fail(lw_reader *r, const lw_token *token, const char *expected, const char *hint)
{
    char found[LW_PROBLEM_TEXT];
    show(token, found);
    lw_place place = {r->line, token->column};
    if (hint[0] == '\0' && is_decimal_comma(r, token)) {
        hint = "the decimal sign is a point";
    }
    return lw_read_fail_as(r, LW_BAD_INPUT, place, found, expected, hint);
}

lw_status lw_read_no_memory(lw_reader *r)
{
    return lw_problem_set(r->problem, LW_NO_MEMORY, r->line, 0, NULL, NULL, NULL);
}

lw_status lw_read_want(lw_reader *r, const char *word, const char *expected)
{
    if (lw_read_take(r, word)) {
        return LW_OK;
    }
    char hint[LW_PROBLEM_TEXT];
    lw_nearest_hint(lw_read_token(r), &word, 1, hint);
    return lw_read_fail(r, lw_read_token(r), expected, hint);
}

lw_status lw_read_want_end(lw_reader *r, const char *expected)
{
    const lw_token *token = lw_read_token(r);
    if (token->kind == LW_TOKEN_END) {
        return LW_OK;
    }
    return lw_read_fail(r, token, expected, "");
}

lw_status lw_read_text(lw_reader *r, const lw_token *token, const char **out)
{
    const char *copy = lw_arena_text(&r->cut.arena, token->text, (size_t)token->length);
    if (copy == NULL) {
        return lw_read_no_memory(r);
    }
    *out = copy;
    return LW_OK;
}

lw_status lw_read_add(lw_reader *r, lw_list *list, const void *item, size_t size)
{
    size_t place = (size_t)list->count;
    if (lw_memory_reserve(&r->memory, &list->items, &list->capacity, place + 1, size) != LW_OK) {
        return lw_read_no_memory(r);
    }
    memcpy((char *)list->items + place * size, item, size);
    list->count++;
    return LW_OK;
}

lw_status lw_read_keep(lw_reader *r, const lw_list *list, size_t size, const void **out)
{
    if (list->count == 0) {
        *out = NULL;
        return LW_OK;
    }
    void *copy = lw_arena_new(&r->cut.arena, (size_t)list->count, size);
    if (copy == NULL) {
        return lw_read_no_memory(r);
    }
    memcpy(copy, list->items, (size_t)list->count * size);
    *out = copy;
    return LW_OK;
}
