#include "cut/read_parts.h"

#include "cut/value_parts.h"

#include <stdio.h>
#include <string.h>

/* The words that join the parts of a step; a name that is one of them could not be told from it. */
static const char *const joining[] = {
    "at",     "on",    "to",    "and",  "each",     "free",    "near", "from",  "towards",
    "across", "along", "with",  "as",   "by",       "between", "only", "plain", "temporary",
    "own",    "left",  "right", "next", "opposite", "mirror",  "none", "off"};
static const char *const units[] = {"deg", "mm"};
static const char *const concave[] = {"concave", "cylinder", "cylindrical", "groove",
                                      "grooved", "flute",    "fluted"};

static bool is_one_of(const lw_token *token, const char *const *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (lw_token_is(token, words[i])) {
            return true;
        }
    }
    return false;
}

bool lw_word_is_reserved(const lw_token *token)
{
    return is_one_of(token, joining, sizeof joining / sizeof joining[0]);
}

bool lw_word_is_concave(const lw_token *token)
{
    return is_one_of(token, concave, sizeof concave / sizeof concave[0]);
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

/* Letters to add, drop, change or swap with their neighbour (optimal string alignment: V.
 * Levenshtein 1966 and F. Damerau 1964, three rows of the table kept). Both at most
 * LW_CUT_MOST_NAME long. */
static int distance(const char *a, int a_length, const char *b, int b_length)
{
    int rows[3][LW_CUT_MOST_NAME + 1];
    for (int j = 0; j <= b_length; j++) {
        rows[0][j] = j;
    }
    for (int i = 1; i <= a_length; i++) {
        int *now = rows[i % 3];
        const int *last = rows[(i + 2) % 3];
        const int *before = rows[(i + 1) % 3];
        now[0] = i;
        for (int j = 1; j <= b_length; j++) {
            int change = last[j - 1] + (a[i - 1] != b[j - 1]);
            now[j] = least(change, least(last[j], now[j - 1]) + 1);
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                now[j] = least(now[j], before[j - 2] + 1);
            }
        }
    }
    return rows[a_length % 3][b_length];
}

const char *lw_nearest(const char *text, size_t length, const char *const *words, int count)
{
    const char *best = NULL;
    int best_distance = length <= 3 ? 2 : length <= 7 ? 3 : 4; /* must be below */
    for (int i = 0; i < count && length <= LW_CUT_MOST_NAME; i++) {
        size_t size = strlen(words[i]);
        if (size > LW_CUT_MOST_NAME) {
            continue;
        }
        int away = distance(text, (int)length, words[i], (int)size);
        if (away < best_distance && (size_t)away < size) {
            best = words[i];
            best_distance = away;
        }
    }
    return best;
}

void lw_nearest_hint(const lw_token *token, const char *const *words, int count, char *hint)
{
    hint[0] = '\0';
    if (token->kind != LW_TOKEN_WORD || lw_word_is_reserved(token)) {
        return; /* a word of the language is not misspelt, it is in the wrong place */
    }
    const char *best = lw_nearest(token->text, (size_t)token->length, words, count);
    if (best != NULL) {
        snprintf(hint, LW_PROBLEM_TEXT, "did you mean '%s'?", best);
    }
}

static lw_status capital_word(lw_reader *r, const lw_token *token)
{
    char lower[LW_CUT_MOST_NAME + 1], hint[LW_PROBLEM_TEXT];
    for (int i = 0; i < token->length; i++) {
        char c = token->text[i];
        lower[i] = c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
    }
    lower[token->length] = '\0';
    snprintf(hint, sizeof hint, "did you mean '%s'?", lower);
    return lw_read_fail(r, token, "words in lower case", hint);
}

lw_status lw_read_check_capitals(lw_reader *r)
{
    for (int i = 0; i < r->lexer.count; i++) {
        if (r->lexer.tokens[i].capital) {
            return capital_word(r, &r->lexer.tokens[i]);
        }
    }
    return LW_OK;
}

lw_status lw_read_check_name(lw_reader *r, const lw_token *token, bool is_step)
{
    const char *expected = is_step ? "a step's name" : "the name of a setting or let";
    if (token->kind != LW_TOKEN_WORD) {
        return lw_read_fail(r, token, expected, "a name begins with a letter");
    }
    if (lw_word_is_reserved(token)) {
        return lw_read_fail(r, token, expected, "this word joins the parts of a step");
    }
    if (is_step && (lw_token_is(token, "pavilion") || lw_token_is(token, "crown"))) {
        return lw_read_fail(r, token, expected,
                            "this word names a side; call it main, for example");
    }
    int function_count = 0;
    const char *const *functions = lw_function_names(&function_count);
    if (!is_step && (is_one_of(token, functions, (size_t)function_count) ||
                     is_one_of(token, units, sizeof units / sizeof units[0]))) {
        return lw_read_fail(r, token, expected, "this word is part of an expression");
    }
    return LW_OK;
}
