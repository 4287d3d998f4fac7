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
