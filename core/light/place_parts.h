/* What the files that read places share. Internal to core/light.
 *
 * A line is a word for what stands there and clauses parted by commas, in any order:
 *
 *     window ahead, 80 cm wide, 1 m tall, 60 cm away, sill 10 cm up, 3000 cd/m2, daylight
 *
 * It is split into tokens (place_lex.c), its clauses are taken (place_clause.c), the form that they
 * make up is found (place_form.c) and its lights are put into the place (place_shape.c).
 */
#ifndef LW_LIGHT_PLACE_PARTS_H
#define LW_LIGHT_PLACE_PARTS_H

#include "light/place.h"

/* ---- tokens: place_lex.c ---- */

typedef enum lw_place_token_kind {
    LW_PLACE_END, /* behind the last one of the line */
    LW_PLACE_WORD,
    LW_PLACE_NUMBER,
    LW_PLACE_TEXT, /* in quotes; text is what stands between them */
    LW_PLACE_COMMA
} lw_place_token_kind;

typedef struct lw_place_token {
    lw_place_token_kind kind;
    const char *text; /* into the line */
    int length;       /* bytes */
    int column;       /* from 1, in characters */
    double value;     /* NUMBER */
} lw_place_token;

enum { LW_PLACE_MOST_TOKENS = LW_PLACE_MOST_LINE + 1 };

typedef struct lw_place_reader {
    lw_problem *problem;  /* may be NULL */
    lw_light_place place; /* so far; lights in cd/m2 */
    double bright;        /* cd/m2 that count as 1; 0: not yet given */
    unsigned seen;        /* bits of lines that stand once */
    int line;             /* from 1 */
    int at;               /* the next token */
    int count;
    lw_place_token tokens[LW_PLACE_MOST_TOKENS];
} lw_place_reader;

/* Splits a line of at most LW_PLACE_MOST_LINE bytes that lw_line_bytes found good. */
lw_status lw_place_lex(lw_place_reader *r, const char *line, size_t length);

const lw_place_token *lw_place_next(const lw_place_reader *r);
bool lw_place_is(const lw_place_token *token, const char *word);
/* Fails at a token, which is what was found. */
lw_status lw_place_fail(lw_place_reader *r, const lw_place_token *token, const char *expected,
                        const char *hint);
/* The same for a number out of its range. */
lw_status lw_place_fail_range(lw_place_reader *r, const lw_place_token *token,
                              const char *expected);
/* The same for the whole clause that begins there. */
lw_status lw_place_fail_clause(lw_place_reader *r, const lw_place_token *first,
                               const char *expected, const char *hint);
/* "did you mean 'X'?", or empty. hint holds LW_PROBLEM_TEXT bytes. */
void lw_place_hint(const lw_place_token *token, const char *const *words, int count, char *hint);

/* ---- clauses: place_clause.c ---- */

typedef enum lw_place_clause {
    LW_CLAUSE_SIDE,        /* degrees clockwise from ahead, seen from above */
    LW_CLAUSE_VERTICAL,    /* 1 overhead, -1 beneath */
    LW_CLAUSE_UP_DEG,      /* down is negative, here and below */
    LW_CLAUSE_FROM_DEG,    /* where a sky or a floor begins */
    LW_CLAUSE_ACROSS_DEG,  /* a disc */
    LW_CLAUSE_WIDE_DEG,    /* a pane */
    LW_CLAUSE_TALL_DEG,    /* */
    LW_CLAUSE_UP,          /* lengths: metres */
    LW_CLAUSE_SILL,        /* lower edge */
    LW_CLAUSE_ACROSS,      /* */
    LW_CLAUSE_WIDE,        /* */
    LW_CLAUSE_TALL,        /* */
    LW_CLAUSE_LONG,        /* of a pane overhead: away from the viewer */
    LW_CLAUSE_AWAY,        /* straight to it */
    LW_CLAUSE_OUT,         /* along the level */
    LW_CLAUSE_APART,       /* from lamp to lamp */
    LW_CLAUSE_ASIDE,       /* to the right; left is negative */
    LW_CLAUSE_FORTH,       /* ahead; behind is negative */
    LW_CLAUSE_LIGHT,       /* cd/m2 */
    LW_CLAUSE_LIGHT_HIGH,  /* overhead */
    LW_CLAUSE_LIGHT_LEVEL, /* at the horizon */
    LW_CLAUSE_GLOW,        /* kelvin, or -1 daylight, -2 even */
    LW_CLAUSE_NONE,        /* no head */
    LW_CLAUSE_COUNT
} lw_place_clause;

#define LW_GLOW_IS_DAYLIGHT (-1.0)
#define LW_GLOW_IS_EVEN (-2.0)

typedef struct lw_place_line {
    const lw_place_token *kind;
    int lamps;    /* of a row or ring */
    unsigned has; /* bits of lw_place_clause */
    double value[LW_CLAUSE_COUNT];
    const lw_place_token *at[LW_CLAUSE_COUNT]; /* where each begins */
} lw_place_line;

/* All that is behind the line's first word. */
lw_status lw_place_clauses(lw_place_reader *r, lw_place_line *line);
/* How a clause reads: "… cm away". */
const char *lw_place_clause_text(lw_place_clause clause);

/* ---- forms: place_form.c ---- */

/* Reads the line by its first word. */
lw_status lw_place_read_form(lw_place_reader *r);

/* ---- shapes: place_shape.c ---- */

typedef enum lw_place_shape {
    LW_SHAPE_ROOM,   /* all round */
    LW_SHAPE_SKY,    /* above the horizon, or from an angle on */
    LW_SHAPE_FLOOR,  /* below */
    LW_SHAPE_WALL,   /* a pane in an upright wall */
    LW_SHAPE_FACING, /* a pane that faces the stone */
    LW_SHAPE_LEVEL,  /* a pane overhead or beneath */
    LW_SHAPE_DISC,   /* a disc that faces it */
    LW_SHAPE_ROW,    /* such discs */
    LW_SHAPE_RING,
    LW_SHAPE_EYE,
    LW_SHAPE_HEAD,
    LW_SHAPE_BRIGHT
} lw_place_shape;

/* Puts what a line says into the place. The line has the clauses of its form. */
lw_status lw_place_add(lw_place_reader *r, lw_place_shape shape, const lw_place_line *line);

#endif
