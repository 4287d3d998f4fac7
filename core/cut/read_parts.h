/* What the reader's files share. Internal to core/cut.
 *
 * A line is lexed whole; the parts below take its tokens from left to right. All of them return
 * LW_OK or fail with the problem filled.
 */
#ifndef LW_CUT_READ_PARTS_H
#define LW_CUT_READ_PARTS_H

#include "base/nearest.h"
#include "cut/cut.h"
#include "cut/lex.h"
#include "cut/value.h"

/* A growing list of items of one size; what it holds goes to the arena at the end. */
typedef struct lw_list {
    void *items;
    size_t capacity;
    int count;
} lw_list;

typedef struct lw_reader {
    lw_memory memory;
    lw_problem *problem; /* may be NULL */
    lw_cut cut;          /* what is known so far; settings can be looked up in it */
    lw_values values;    /* of the settings so far, at their defaults */
    lw_setting *settings;
    lw_list steps, lines, notes;
    lw_list teeth, facets, values_list; /* scratch of one step */
    lw_list line_numbers;               /* of lines: where each stood in the text */
    lw_lexer lexer;
    int line;             /* from 1 */
    int at;               /* the next token */
    unsigned headers;     /* bits of the header lines seen */
    lw_side side;         /* the heading in force */
    int facet_total;      /* facets of all steps so far */
    int facet_step_count; /* facets of the step being read */
    lw_place teeth_place; /* of its teeth */
} lw_reader;

/* ---- tokens and failing: read_token.c ---- */
const lw_token *lw_read_token(const lw_reader *r);             /* the next one */
const lw_token *lw_read_ahead(const lw_reader *r, int offset); /* or the end */
bool lw_token_is(const lw_token *token, const char *word);
bool lw_token_is_sign(const lw_token *token, int sign);
bool lw_read_take(lw_reader *r, const char *word); /* takes the word when it stands there */
bool lw_read_take_sign(lw_reader *r, int sign);
lw_status lw_read_want(lw_reader *r, const char *word, const char *expected);
lw_status lw_read_want_end(lw_reader *r, const char *expected);
lw_place lw_read_place(const lw_reader *r);
lw_status lw_read_no_memory(lw_reader *r);
/* Fails at a token, which is what was found. */
lw_status lw_read_fail(lw_reader *r, const lw_token *token, const char *expected, const char *hint);
lw_status lw_read_fail_as(lw_reader *r, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint);
/* The token's text on the arena. */
lw_status lw_read_text(lw_reader *r, const lw_token *token, const char **out);
lw_status lw_read_add(lw_reader *r, lw_list *list, const void *item, size_t size);
/* A copy of a list on the arena; NULL for an empty one. */
lw_status lw_read_keep(lw_reader *r, const lw_list *list, size_t size, const void **out);

/* ---- words: read_words.c ---- */
/* "did you mean 'X'?", or empty. hint holds LW_PROBLEM_TEXT bytes. */
void lw_nearest_hint(const lw_token *token, const char *const *words, int count, char *hint);
/* A word that stands between the parts of a rule and can be no name. */
bool lw_word_is_reserved(const lw_token *token);
/* Concave and cylindrical facets, which are refused. */
bool lw_word_is_concave(const lw_token *token);
/* Fails at the first word with a capital letter. */
lw_status lw_read_check_capitals(lw_reader *r);
/* A name that a setting or let may have (is_step false) or a step. */
lw_status lw_read_check_name(lw_reader *r, const lw_token *token, bool is_step);

/* ---- lines ---- */
/* Header lines and settings: read_head.c. *done tells whether the line was one. */
lw_status lw_read_header(lw_reader *r, lw_line *line, bool *done);
lw_status lw_read_setting(lw_reader *r, lw_line *line);
lw_status lw_read_step(lw_reader *r, lw_line *line);
lw_status lw_read_action(lw_reader *r, lw_line *line, bool *done);
/* Whole number from lowest to highest. */
lw_status lw_read_whole(lw_reader *r, int lowest, int highest, const char *expected, int *out);

/* ---- parts of a step ---- */
lw_status lw_read_expr(lw_reader *r, const lw_expr **out);
bool lw_read_expr_ahead(const lw_reader *r); /* could an expression begin here? */
lw_status lw_read_teeth(lw_reader *r, lw_step *step);
/* A place on the wheel. */
lw_status lw_read_tooth(lw_reader *r, double *out);
/* Appends one facet to the scratch list. */
lw_status lw_read_facet(lw_reader *r);
/* most facets parted by commas, at least two, on the arena. */
lw_status lw_read_facets(lw_reader *r, int most, const lw_facet_ref **out, int *count);
lw_status lw_read_one_facet(lw_reader *r, const lw_facet_ref **out);
bool lw_read_point_ahead(const lw_reader *r);
lw_status lw_read_point(lw_reader *r, const lw_point **out);
lw_status lw_read_rule(lw_reader *r, lw_rule *out);

/* ---- checks ---- */
typedef enum lw_want {
    LW_WANT_ANGLE,  /* 0 to 90 degrees */
    LW_WANT_LENGTH, /* above 0, a share of the width up to 10, or mm */
    LW_WANT_SMALL,  /* a length that is no share above 1 */
    LW_WANT_RATIO,  /* above 0 up to 1, not mm */
    LW_WANT_SHARE,  /* 0 to 1, not mm */
    LW_WANT_RADIUS  /* a length from 0 */
} lw_want;

/* The value of an expression at the defaults: its kind and range. */
lw_status lw_read_check_value(lw_reader *r, const lw_expr *expr, lw_want want, double *out);
/* A step against itself: values, rules against what is unknown and against the angle. */
lw_status lw_read_check_step(lw_reader *r, lw_step *step);
/* Names of facets against the steps, once all of them are there. */
lw_status lw_read_check_names(lw_reader *r);
/* Is the canonical text within the limits of a text? */
lw_status lw_read_check_written(lw_reader *r);

#endif
