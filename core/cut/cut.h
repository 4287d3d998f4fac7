/* A cut: the steps of a faceted stone in the order in which they are cut, as its text states them.
 *
 * This is what the reader makes of a text, what the writer turns back into one, and what the solver
 * works from. It holds no geometry: expressions stay expressions, names stay names. The language is
 * described in docs/cut-language.md; the words below are its words.
 *
 * Everything hangs on the cut's arena and dies with it. Text is UTF-8, NUL-terminated.
 */
#ifndef LW_CUT_CUT_H
#define LW_CUT_CUT_H

#include "base/arena.h"
#include "base/problem.h"

#include <stdbool.h>

/* Limits that keep a stranger's text within bounded time and memory. */
enum {
    LW_CUT_MOST_BYTES = 1 << 20, /* of a text */
    LW_CUT_MOST_LINE = 2000,     /* bytes of a line */
    LW_CUT_MOST_STEPS = 500,     /* step lines, actions included */
    LW_CUT_MOST_FACETS = 2000,   /* facets of all steps, temporary ones included */
    LW_CUT_MOST_SETTINGS = 100,  /* settings and lets together */
    LW_CUT_MOST_TEETH = 1440,    /* of a wheel */
    LW_CUT_MOST_NAME = 40,       /* bytes of a name */
    LW_CUT_MOST_DEPTH = 64,      /* nesting of an expression or of a point */
    LW_CUT_MOST_RULES = 3,       /* depth rules of a step */
    LW_CUT_MOST_MEET = 16        /* facets named in one meet */
};

typedef struct lw_place {
    int line, column; /* from 1 */
} lw_place;

/* ---- numbers ------------------------------------------------------------ */

typedef enum lw_unit {
    LW_UNIT_NUMBER,  /* bare */
    LW_UNIT_PERCENT, /* 53 %: 0.53; of a length: that share of the width */
    LW_UNIT_DEG,     /* degrees */
    LW_UNIT_MM       /* a length in millimetres: asks for a size */
} lw_unit;

typedef enum lw_expr_kind {
    LW_EXPR_NUMBER, /* value as written, with unit */
    LW_EXPR_NAME,   /* a setting or a let */
    LW_EXPR_NEGATE, /* left */
    LW_EXPR_ADD,
    LW_EXPR_SUBTRACT,
    LW_EXPR_MULTIPLY,
    LW_EXPR_DIVIDE,
    LW_EXPR_POWER, /* left ^ right */
    LW_EXPR_CALL,  /* name(left) or name(left, right) */
    LW_EXPR_GROUP  /* (left): kept, so that writing gives back what was read */
} lw_expr_kind;

typedef struct lw_expr lw_expr;
struct lw_expr {
    lw_expr_kind kind;
    lw_place place;
    double value;     /* LW_EXPR_NUMBER: the figure as written, 53 for 53 % */
    lw_unit unit;     /* LW_EXPR_NUMBER */
    const char *name; /* LW_EXPR_NAME and LW_EXPR_CALL */
    const lw_expr *left, *right;
};

/* ---- facets and points -------------------------------------------------- */

typedef enum lw_side {
    LW_SIDE_PAVILION,
    LW_SIDE_CROWN,
    LW_SIDE_GIRDLE, /* what 90 degrees gives, from either side; never written in a text */
    LW_SIDE_NONE    /* not said */
} lw_side;

typedef enum lw_relation {
    LW_RELATION_ONLY,     /* no word: the only facet of that name, else ambiguous */
    LW_RELATION_OWN,      /* at the tooth being cut */
    LW_RELATION_LEFT,     /* count-th toward lower teeth, own not counted */
    LW_RELATION_RIGHT,    /* count-th toward higher teeth, own not counted */
    LW_RELATION_OPPOSITE, /* half a turn away */
    LW_RELATION_NEXT,     /* nearest but own, on either side; ambiguous when both are as near */
    LW_RELATION_TOOTH     /* name@tooth: at a tooth of the wheel */
} lw_relation;

/* A facet named from the tooth being cut: [count] [relation] [side] name [@tooth]. */
typedef struct lw_facet_ref {
    lw_place place;
    lw_relation relation;
    int count;    /* 1, or n for "2nd left", "3rd right" … */
    lw_side side; /* LW_SIDE_NONE: the side being cut, else the other */
    const char *name;
    double tooth; /* LW_RELATION_TOOTH */
} lw_facet_ref;

typedef enum lw_point_kind {
    LW_POINT_MEET, /* meet F, F[, F…]: where these facets come together */
    LW_POINT_LINE, /* line F, F: of a level line its point nearest the axis; of an upright one (two
                      girdle facets) its point at the girdle line; of any other where it crosses
                      the upright plane through axis and own tooth */
    LW_POINT_APEX, /* apex: the point on the axis, on the side being cut */
    LW_POINT_SHARE /* share E from P towards P: between two points */
} lw_point_kind;

typedef struct lw_point lw_point;
struct lw_point {
    lw_point_kind kind;
    lw_place place;
    const lw_facet_ref *facets; /* MEET: 2..LW_CUT_MOST_MEET; LINE: 2 */
    int facet_count;
    const lw_expr *share; /* SHARE */
    const lw_point *from, *towards;
};

/* An edge of the facet being cut with another (second NULL), or between two others. */
typedef struct lw_edge {
    lw_place place;
    const lw_facet_ref *first;
    const lw_facet_ref *second;
} lw_edge;

/* ---- how deep ----------------------------------------------------------- */

typedef enum lw_rule_kind {
    LW_RULE_SIZE,    /* size [E]: width across; half of it is the facet's distance. Default 100 % */
    LW_RULE_POINT,   /* [temporary] point [E]: to a point on the axis, E from the girdle line */
    LW_RULE_THROUGH, /* a point: meet, line, apex or share */
    LW_RULE_SHARE_ON, /* share E from P towards P on F: at that level on a facet */
    LW_RULE_LEVEL,    /* level on F [by P]: a level line on F, at the girdle line or at P's level */
    LW_RULE_GIRDLE,   /* girdle E: to a girdle E thick where this facet comes to it */
    LW_RULE_HEIGHT,   /* height E: a level facet E from the girdle line */
    LW_RULE_TABLE,    /* table E across F: the table's width over the stone's, across F */
    LW_RULE_REACH,    /* reach E along F, F: the point of their common line E from the axis */
    LW_RULE_EDGE,     /* edge with F E: until that edge is E long */
    LW_RULE_WIDTH,    /* width E: until the facet is E wide along its own level */
    LW_RULE_EQUAL,    /* equal EDGE as EDGE: until two edges are equal */
    LW_RULE_CULET,    /* culet E: a level facet E across */
    LW_RULE_MATCH,    /* match F: as deep as F */
    LW_RULE_DISTANCE  /* distance E[, E…]: from the frame's origin; one for all, or one a tooth */
} lw_rule_kind;

typedef struct lw_rule {
    lw_rule_kind kind;
    lw_place place;
    const lw_expr *value;         /* NULL where it may be left out and was */
    const lw_expr *const *values; /* DISTANCE with one a tooth: value_count of them */
    int value_count;
    bool temporary;             /* POINT: the point will be cut away again */
    const lw_point *point;      /* THROUGH, SHARE_ON (a share), LEVEL (by, or NULL) */
    const lw_facet_ref *facets; /* what is named after on / across / of / with / match */
    int facet_count;
    lw_edge edges[2]; /* EQUAL */
} lw_rule;

/* ---- steps -------------------------------------------------------------- */

typedef enum lw_step_kind {
    LW_STEP_FACETS,
    LW_STEP_DOP,      /* dop pavilion|crown: held by that side */
    LW_STEP_TRANSFER, /* to a dop on the other side */
    LW_STEP_REDOP,    /* a new dop on the same side */
    LW_STEP_ADAPTER   /* into the 45 degree adapter, until the next dop, transfer or redop; or
                         "adapter off" */
} lw_step_kind;

typedef struct lw_step {
    lw_step_kind kind;
    lw_place place;
    lw_side side;   /* FACETS: pavilion or crown, the section it stands in; DOP: the held side */
    bool off;       /* ADAPTER off */
    bool temporary; /* its facets must be gone at the end */
    bool each;      /* to each …: every tooth has a depth of its own */
    const char *name;
    const lw_expr *angle;      /* NULL when free */
    const lw_expr *angle_near; /* free near E, or NULL */
    bool tooth_free;           /* on free near T: one facet, teeth[0] is where to look */
    const double *teeth;       /* as written: a list, or one start */
    int tooth_count;
    bool listed;       /* teeth are a list, or "only": no symmetry is applied */
    int fold;          /* of this step: its own (x8), else the cut's */
    bool mirror;       /* of this step: its own, else the cut's */
    bool own_symmetry; /* x… , mirror or plain was written */
    lw_rule rules[LW_CUT_MOST_RULES];
    int rule_count;
    const char *remark; /* a word to the cutter, or NULL */
} lw_step;

typedef struct lw_setting {
    lw_place place;
    bool is_let; /* a let cannot be set from outside and has no limits */
    const char *name;
    const lw_expr *value;
    const lw_expr *lowest, *highest; /* NULL for a let */
    const char *meaning;             /* or NULL */
} lw_setting;

/* ---- the whole ---------------------------------------------------------- */

/* The text's lines in their order, so that it can be written back with its comments. */
typedef enum lw_line_kind {
    LW_LINE_BLANK,
    LW_LINE_COMMENT, /* a comment alone */
    LW_LINE_TITLE,
    LW_LINE_MAKER,
    LW_LINE_NOTE,
    LW_LINE_SUITS,
    LW_LINE_WHEEL,
    LW_LINE_FOLD,
    LW_LINE_HAND,
    LW_LINE_SETTING, /* index into settings (let included) */
    LW_LINE_SIDE,    /* pavilion or crown: a heading; side */
    LW_LINE_STEP     /* index into steps */
} lw_line_kind;

typedef struct lw_line {
    lw_line_kind kind;
    int index;           /* SETTING, STEP, NOTE (into notes) */
    lw_side side;        /* SIDE */
    const char *comment; /* without its '#' and the blank behind it; NULL when there is none */
} lw_line;

typedef struct lw_cut {
    lw_arena arena;
    const char *title; /* "" when absent */
    const char *maker; /* NULL when absent */
    const char *const *notes;
    int note_count;
    const char *const *suits; /* material keys, as written */
    int suit_count;
    int wheel; /* teeth; always stated */
    int fold;  /* 1: none */
    bool mirror;
    bool left_handed; /* hand left: the stone is the mirror image of what the teeth say */
    const lw_setting *settings;
    int setting_count;
    const lw_step *steps;
    int step_count;
    const lw_line *lines;
    int line_count;
} lw_cut;

void lw_cut_destroy(lw_cut *cut);

#endif
