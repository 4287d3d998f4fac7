/* One line of a cut's text into words, numbers, signs and quoted texts. Part of the reader.
 *
 * Columns count characters, not bytes, from 1. Tokens point into the line.
 */
#ifndef LW_CUT_LEX_H
#define LW_CUT_LEX_H

#include "base/memory.h"
#include "base/problem.h"

#include <stdbool.h>

/* The degree sign, as a token's sign. */
enum { LW_SIGN_DEGREE = 0xB0 };

typedef enum lw_token_kind {
    LW_TOKEN_END,     /* behind the last token of the line */
    LW_TOKEN_WORD,    /* a name or a word of the language */
    LW_TOKEN_NUMBER,  /* unsigned */
    LW_TOKEN_ORDINAL, /* 2nd, 3rd … */
    LW_TOKEN_TEXT,    /* in quotes; text is what stands between them */
    LW_TOKEN_SIGN     /* = , ( ) + - * / ^ % @ and the degree sign */
} lw_token_kind;

typedef struct lw_token {
    lw_token_kind kind;
    const char *text;
    int length; /* bytes */
    int column;
    int sign;     /* SIGN */
    double value; /* NUMBER, ORDINAL */
    bool digits;  /* NUMBER: written with digits alone */
    bool capital; /* WORD: has a capital letter, which no word of a cut may have */
} lw_token;

/* The tokens of one line; a lexer is used for one line after the other. */
typedef struct lw_lexer {
    lw_memory memory;
    lw_problem *problem; /* may be NULL */
    lw_token *tokens;    /* count of them and an LW_TOKEN_END behind */
    size_t capacity;
    int count;
    const char *comment; /* behind the '#' and one blank, without blanks at its end; NULL: none */
    int comment_length;
} lw_lexer;

/* Splits a line that lw_line_bytes found good. LW_BAD_INPUT, LW_TOO_LARGE (a name, a number),
 * LW_NO_MEMORY. */
lw_status lw_lex_line(lw_lexer *lexer, const char *line, size_t length, int number);
/* "nd" of 2nd. */
const char *lw_ordinal_ending(int count);
void lw_lexer_destroy(lw_lexer *lexer);

#endif
