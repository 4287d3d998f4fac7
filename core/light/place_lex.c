#include "light/place_parts.h"

#include "base/nearest.h"
#include "base/number.h"

#include <stdio.h>
#include <string.h>

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Bytes of one character; the line is known to be UTF-8. */
static size_t character(const char *text, size_t left)
{
    size_t size = 1;
    while (size < left && ((unsigned char)text[size] & 0xC0) == 0x80)
        size++;
    return size;
}

static bool starts(const char *text, size_t left, const char *with)
{
    size_t size = strlen(with);
    return left >= size && memcmp(text, with, size) == 0;
}

/* The line being split. */
typedef struct scan {
    lw_place_reader *r;
    const char *text;
    size_t left;
    int column;
} scan;

static void add(scan *s, lw_place_token token, size_t bytes, int columns)
{
    token.column = s->column;
    s->r->tokens[s->r->count] = token;
    s->r->count += token.kind != LW_PLACE_END;
    s->text += bytes;
    s->left -= bytes;
    s->column += columns;
}

static lw_status fail(const scan *s, const char *found, const char *expected, const char *hint)
{
    return lw_problem_set(s->r->problem, LW_BAD_INPUT, s->r->line, s->column, found, expected,
                          hint);
}

/* Letters, then also digits, '-', '/' and a square: cd/m2. */
static lw_status scan_word(scan *s)
{
    size_t end = 1;
    int columns = 1;
    for (; end < s->left; columns++) {
        char c = s->text[end];
        if (is_letter(c) || is_digit(c) || c == '-' || c == '/')
            end++;
        else if (starts(s->text + end, s->left - end, "\xC2\xB2"))
            end += 2;
        else
            break;
    }
    add(s, (lw_place_token){.kind = LW_PLACE_WORD, .text = s->text, .length = (int)end}, end,
        columns);
    return LW_OK;
}

static lw_status scan_number(scan *s)
{
    lw_place_token token = {.kind = LW_PLACE_NUMBER, .text = s->text};
    size_t used = 0;
    if (!lw_number_read(s->text, s->left, &token.value, &used)) {
        bool point = s->text[0] == '.' && (s->left == 1 || !is_digit(s->text[1]));
        return point ? fail(s, "'.'", "a word or a number", "")
                     : fail(s, "a number that is too long or too large",
                            "a number of at most 64 digits and below 1e308", "");
    }
    token.length = (int)used;
    add(s, token, used, (int)used);
    return LW_OK;
}

static lw_status scan_text(scan *s)
{
    size_t end = 1;
    int columns = 2;
    while (end < s->left && s->text[end] != '"') {
        end += character(s->text + end, s->left - end);
        columns++;
    }
    if (end >= s->left)
        return fail(s, "a quoted text without an end", "a closing \" on the same line",
                    "inside the text use ' for a quote");
    lw_place_token token = {.kind = LW_PLACE_TEXT, .text = s->text + 1, .length = (int)end - 1};
    add(s, token, end + 1, columns);
    return LW_OK;
}

static lw_status scan_sign(scan *s)
{
    size_t size = character(s->text, s->left);
    if (s->text[0] == ',') {
        add(s, (lw_place_token){.kind = LW_PLACE_COMMA, .text = s->text, .length = 1}, 1, 1);
        return LW_OK;
    }
    if (starts(s->text, s->left, "\xC2\xB0")) { /* the degree sign stands for deg */
        add(s, (lw_place_token){.kind = LW_PLACE_WORD, .text = "deg", .length = 3}, 2, 1);
        return LW_OK;
    }
    char found[LW_PROBLEM_TEXT];
    const char *hint = "";
    if (s->text[0] == '-' || starts(s->text, s->left, "\xE2\x88\x92"))
        hint = "what lies the other way is told in words: down, left, behind";
    else if (starts(s->text, s->left, "\xE2\x80\x9C") || starts(s->text, s->left, "\xE2\x80\x9E"))
        hint = "quotes are plain: \"";
    snprintf(found, sizeof found, "'%.*s'", (int)size, s->text);
    return fail(s, found, "a word, a number, a quoted text or a comma", hint);
}

static lw_status scan_token(scan *s)
{
    char c = s->text[0];
    if (is_letter(c))
        return scan_word(s);
    if (is_digit(c) || c == '.')
        return scan_number(s);
    return c == '"' ? scan_text(s) : scan_sign(s);
}

lw_status lw_place_lex(lw_place_reader *r, const char *line, size_t length)
{
    scan s = {.r = r, .text = line, .left = length, .column = 1};
    int end_column = 1;
    r->count = 0;
    r->at = 0;
    while (s.left > 0 && s.text[0] != '#') {
        if (s.text[0] == ' ' || s.text[0] == '\t') {
            s.text++;
            s.left--;
            s.column++;
            continue;
        }
        lw_status status = scan_token(&s);
        if (status != LW_OK)
            return status;
        end_column = s.column;
    }
    s.column = end_column;
    add(&s, (lw_place_token){.kind = LW_PLACE_END, .text = s.text}, 0, 0);
    return LW_OK;
}

/* ---- tokens to those who read them -------------------------------------- */

const lw_place_token *lw_place_next(const lw_place_reader *r)
{
    return &r->tokens[r->at < r->count ? r->at : r->count];
}

bool lw_place_is(const lw_place_token *token, const char *word)
{
    size_t length = strlen(word);
    return token->kind == LW_PLACE_WORD && (size_t)token->length == length &&
           memcmp(token->text, word, length) == 0;
}

/* The token as a message shows it. */
static void show(const lw_place_token *token, char found[LW_PROBLEM_TEXT])
{
    bool quoted = token->kind == LW_PLACE_TEXT;
    if (token->kind == LW_PLACE_END)
        snprintf(found, LW_PROBLEM_TEXT, "the end of the line");
    else if (token->length > 40)
        snprintf(found, LW_PROBLEM_TEXT, quoted ? "a quoted text" : "a very long word");
    else if (quoted)
        snprintf(found, LW_PROBLEM_TEXT, "\"%.*s\"", token->length, token->text);
    else
        snprintf(found, LW_PROBLEM_TEXT, "'%.*s'", token->length, token->text);
}

/* 43,5 where 43.5 was meant. */
static bool is_decimal_comma(const lw_place_reader *r, const lw_place_token *token)
{
    if (token->kind != LW_PLACE_COMMA || token == r->tokens)
        return false;
    const lw_place_token *before = token - 1, *behind = token + 1;
    return before->kind == LW_PLACE_NUMBER && behind->kind == LW_PLACE_NUMBER &&
           before->column + before->length == token->column && token->column + 1 == behind->column;
}

lw_status lw_place_fail(lw_place_reader *r, const lw_place_token *token, const char *expected,
                        const char *hint)
{
    char found[LW_PROBLEM_TEXT];
    show(token, found);
    if (is_decimal_comma(r, token))
        hint = "the decimal sign is a point";
    return lw_problem_set(r->problem, LW_BAD_INPUT, r->line, token->column, found, expected, hint);
}

lw_status lw_place_fail_range(lw_place_reader *r, const lw_place_token *token, const char *expected)
{
    char found[LW_PROBLEM_TEXT];
    bool unit = token[1].kind == LW_PLACE_WORD && token[1].length <= 8;
    snprintf(found, sizeof found, "'%.*s%s%.*s'", token->length, token->text, unit ? " " : "",
             unit ? token[1].length : 0, token[1].text);
    return lw_problem_set(r->problem, LW_BAD_INPUT, r->line, token->column, found, expected, "");
}

lw_status lw_place_fail_clause(lw_place_reader *r, const lw_place_token *first,
                               const char *expected, const char *hint)
{
    char found[LW_PROBLEM_TEXT];
    int used = 0;
    for (const lw_place_token *t = first; t->kind == LW_PLACE_WORD || t->kind == LW_PLACE_NUMBER;
         t++) {
        if (used + t->length > 80)
            return lw_place_fail(r, first, expected, hint);
        used += snprintf(found + used, sizeof found - (size_t)used, "%s%.*s",
                         t == first ? "'" : " ", t->length, t->text);
    }
    snprintf(found + used, sizeof found - (size_t)used, "'");
    return lw_problem_set(r->problem, LW_BAD_INPUT, r->line, first->column, found, expected, hint);
}

void lw_place_hint(const lw_place_token *token, const char *const *words, int count, char *hint)
{
    hint[0] = '\0';
    if (token->kind != LW_PLACE_WORD)
        return;
    const char *best = lw_nearest(token->text, (size_t)token->length, words, count);
    if (best != NULL)
        snprintf(hint, LW_PROBLEM_TEXT, "did you mean '%s'?", best);
}
