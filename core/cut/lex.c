#include "cut/lex.h"

#include "base/number.h"
#include "cut/cut.h"

#include <stdio.h>
#include <string.h>

/* The line being split. */
typedef struct scan {
    lw_lexer *lexer;
    const char *line;
    size_t length, at;
    int number, column;
    int last_column; /* behind the last token */
} scan;

static bool is_small(char c)
{
    return c >= 'a' && c <= 'z';
}

static bool is_letter(char c)
{
    return is_small(c) || (c >= 'A' && c <= 'Z');
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_name(char c)
{
    return is_letter(c) || is_digit(c) || c == '-' || c == '_';
}

static lw_status fail(const scan *s, lw_status status, const char *found, const char *expected,
                      const char *hint)
{
    return lw_problem_set(s->lexer->problem, status, s->number, s->column, found, expected, hint);
}

/* The token's text is ASCII but for quoted ones and the degree sign; columns counts characters. */
static lw_status add(scan *s, lw_token token, size_t bytes, int columns)
{
    lw_lexer *lexer = s->lexer;
    size_t needed = (size_t)lexer->count + 1;
    void *items = lexer->tokens;
    lw_status status =
        lw_memory_reserve(&lexer->memory, &items, &lexer->capacity, needed, sizeof(lw_token));
    lexer->tokens = items;
    if (status != LW_OK) {
        return lw_problem_set(lexer->problem, status, s->number, 0, NULL, NULL, NULL);
    }
    token.column = s->column;
    lexer->tokens[lexer->count] = token;
    lexer->count += token.kind != LW_TOKEN_END;
    s->at += bytes;
    s->column += columns;
    s->last_column = s->column;
    return LW_OK;
}

static lw_status scan_word(scan *s)
{
    size_t end = s->at;
    bool capital = false;
    while (end < s->length && is_name(s->line[end])) {
        capital = capital || (is_letter(s->line[end]) && !is_small(s->line[end]));
        end++;
    }
    size_t length = end - s->at;
    if (length > LW_CUT_MOST_NAME) {
        char found[LW_PROBLEM_TEXT];
        snprintf(found, sizeof found, "a word of %zu letters", length);
        return fail(s, LW_TOO_LARGE, found, "words of at most 40 letters", "");
    }
    lw_token token = {
        .kind = LW_TOKEN_WORD, .text = s->line + s->at, .length = (int)length, .capital = capital};
    return add(s, token, length, (int)length);
}

const char *lw_ordinal_ending(int count)
{
    int last = count % 10;
    int two = count % 100;
    if (two >= 11 && two <= 13) {
        return "th";
    }
    return last == 1 ? "st" : last == 2 ? "nd" : last == 3 ? "rd" : "th";
}

/* st, nd, rd, th right behind the digits, and no letter behind them. */
static bool ordinal_ending(const scan *s, size_t end)
{
    static const char *const endings[] = {"st", "nd", "rd", "th"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        bool same = end + 2 <= s->length && memcmp(s->line + end, endings[i], 2) == 0;
        if (same && (end + 2 == s->length || !is_name(s->line[end + 2]))) {
            return true;
        }
    }
    return false;
}

static lw_status add_ordinal(scan *s, lw_token token)
{
    char found[LW_PROBLEM_TEXT], hint[LW_PROBLEM_TEXT] = "";
    token.kind = LW_TOKEN_ORDINAL;
    token.length += 2;
    snprintf(found, sizeof found, "'%.*s'", token.length, token.text);
    if (token.value < 1.0 || token.value > LW_CUT_MOST_FACETS) {
        return fail(s, LW_TOO_LARGE, found, "an ordinal from 1st to 2000th", "");
    }
    const char *ending = lw_ordinal_ending((int)token.value);
    if (memcmp(token.text + token.length - 2, ending, 2) != 0) {
        snprintf(hint, sizeof hint, "did you mean '%d%s'?", (int)token.value, ending);
        return fail(s, LW_BAD_INPUT, found, "an ordinal such as 2nd, 3rd or 4th", hint);
    }
    return add(s, token, (size_t)token.length, token.length);
}

static lw_status scan_number(scan *s)
{
    lw_token token = {.kind = LW_TOKEN_NUMBER, .text = s->line + s->at};
    size_t used = 0;
    if (!lw_number_read(s->line + s->at, s->length - s->at, &token.value, &used)) {
        if (s->line[s->at] == '.' && (s->at + 1 == s->length || !is_digit(s->line[s->at + 1]))) {
            return fail(s, LW_BAD_INPUT, "'.'", "a word or a number", "");
        }
        return fail(s, LW_TOO_LARGE, "a number that is too long or too large",
                    "a number of at most 64 digits and below 1e308", "");
    }
    token.length = (int)used;
    token.digits = true;
    for (size_t i = 0; i < used; i++) {
        token.digits = token.digits && is_digit(token.text[i]);
    }
    if (token.digits && ordinal_ending(s, s->at + used)) {
        return add_ordinal(s, token);
    }
    return add(s, token, used, (int)used);
}

static lw_status scan_text(scan *s)
{
    size_t start = s->at + 1;
    size_t end = start;
    int columns = 2;
    while (end < s->length && s->line[end] != '"') {
        columns += ((unsigned char)s->line[end] & 0xC0) != 0x80;
        end++;
    }
    if (end == s->length) {
        return fail(s, LW_BAD_INPUT, "a quoted text without an end",
                    "a closing \" on the same line", "inside the text use ' for a quote");
    }
    lw_token token = {.kind = LW_TOKEN_TEXT, .text = s->line + start, .length = (int)(end - start)};
    return add(s, token, end + 1 - s->at, columns);
}

/* Signs that come out of other programs in place of the plain ones, with what was meant. */
static const char *const look_alikes[][2] = {
    {"\xE2\x80\x9C", "quotes are plain: \""},           /* left double quote */
    {"\xE2\x80\x9D", "quotes are plain: \""},           /* right double quote */
    {"\xE2\x80\x9E", "quotes are plain: \""},           /* low double quote */
    {"\xC2\xAB", "quotes are plain: \""},               /* guillemet */
    {"\xE2\x88\x92", "the minus sign is a plain -"},    /* minus */
    {"\xE2\x80\x93", "the minus sign is a plain -"},    /* en dash */
    {"\xC3\x97", "times is *, and a fold is x8"},       /* multiplication sign */
    {"\xC2\xB7", "times is *"},                         /* middle dot */
    {"\xC3\xB7", "divided by is /"},                    /* division sign */
    {"\xC2\xA0", "this blank is no plain one"},         /* no-break space */
    {"\xC2\xBA", "degrees are deg"},                    /* ordinal indicator */
    {"'", "quotes are plain: \""},                      /* single quote */
    {"[", "brackets are ( and )"},                      /* */
    {"{", "brackets are ( and )"},                      /* */
    {";", "one step a line; lists are parted by ,"},    /* */
    {":", "a step reads: name at angle on tooth to …"}, /* */
    {"<", "limits are from … to …"},                    /* */
};

static lw_status strange_sign(const scan *s)
{
    char found[LW_PROBLEM_TEXT];
    size_t end = s->at + 1;
    while (end < s->length && ((unsigned char)s->line[end] & 0xC0) == 0x80) {
        end++;
    }
    size_t size = end - s->at;
    const char *hint = "";
    for (size_t i = 0; i < sizeof look_alikes / sizeof look_alikes[0]; i++) {
        if (strlen(look_alikes[i][0]) == size &&
            memcmp(look_alikes[i][0], s->line + s->at, size) == 0) {
            hint = look_alikes[i][1];
        }
    }
    snprintf(found, sizeof found, "'%.*s'", (int)size, s->line + s->at);
    return fail(s, LW_BAD_INPUT, found, "a word, a number, a quoted text or one of = , ( ) + - * /",
                hint);
}

static lw_status scan_sign(scan *s)
{
    lw_token token = {.kind = LW_TOKEN_SIGN, .text = s->line + s->at, .length = 1};
    if (strchr("=,()+-*/^%@", s->line[s->at]) != NULL) {
        token.sign = s->line[s->at];
        return add(s, token, 1, 1);
    }
    if (s->length - s->at >= 2 && memcmp(s->line + s->at, "\xC2\xB0", 2) == 0) {
        token.sign = LW_SIGN_DEGREE;
        token.length = 2;
        return add(s, token, 2, 1);
    }
    return strange_sign(s);
}

static void take_comment(const scan *s)
{
    size_t start = s->at + 1;
    size_t end = s->length;
    if (start < end && s->line[start] == ' ') {
        start++;
    }
    while (end > start && (s->line[end - 1] == ' ' || s->line[end - 1] == '\t')) {
        end--;
    }
    s->lexer->comment = s->line + start;
    s->lexer->comment_length = (int)(end - start);
}

static lw_status scan_token(scan *s)
{
    char c = s->line[s->at];
    if (is_letter(c)) {
        return scan_word(s);
    }
    if (is_digit(c) || c == '.') {
        return scan_number(s);
    }
    return c == '"' ? scan_text(s) : scan_sign(s);
}

lw_status lw_lex_line(lw_lexer *lexer, const char *line, size_t length, int number)
{
    scan s = {.lexer = lexer,
              .line = line,
              .length = length,
              .number = number,
              .column = 1,
              .last_column = 1};
    lexer->count = 0;
    lexer->comment = NULL;
    lexer->comment_length = 0;
    while (s.at < length && line[s.at] != '#') {
        if (line[s.at] == ' ' || line[s.at] == '\t') {
            s.at++;
            s.column++;
            continue;
        }
        lw_status status = scan_token(&s);
        if (status != LW_OK) {
            return status;
        }
    }
    if (s.at < length) {
        take_comment(&s);
    }
    s.column = s.last_column;
    return add(&s, (lw_token){.kind = LW_TOKEN_END, .text = line + s.at}, 0, 0);
}

void lw_lexer_destroy(lw_lexer *lexer)
{
    lw_memory_free(&lexer->memory, lexer->tokens, lexer->capacity, sizeof(lw_token));
    lexer->tokens = NULL;
    lexer->capacity = 0;
    lexer->count = 0;
}
