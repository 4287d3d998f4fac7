/* What the files of adapt share: a cut that can be changed, and stones made from facets. Private to
 * core/cut. */
#ifndef LW_CUT_ADAPT_PARTS_H
#define LW_CUT_ADAPT_PARTS_H

#include "cut/adapt.h"

/* ---- a cut that can be changed (adapt_edit.c) ---- */

/* A copy whose arrays can be written to; expressions, points and names are shared within it and
 * replaced, never changed. Memory that runs out is remembered, and told at the end. */
typedef struct lw_edit {
    lw_cut cut;
    lw_setting *settings;            /* cut.settings */
    lw_step *steps;                  /* cut.steps */
    lw_line *lines;                  /* cut.lines */
    bool used[LW_CUT_MOST_SETTINGS]; /* at the start: some step or setting names it */
    bool noted;                      /* the last note is ours */
    bool out_of_memory;
} lw_edit;

lw_status lw_edit_begin(const lw_memory *memory, const lw_cut *cut, lw_edit *out,
                        lw_problem *problem);
void lw_edit_destroy(lw_edit *edit);

/* count zeroed items in the edit's arena, or NULL and out_of_memory. */
void *lw_edit_new(lw_edit *edit, size_t count, size_t item_size);

/* A number as an expression. NULL when memory is out. */
const lw_expr *lw_edit_number(lw_edit *edit, double value, lw_unit unit);
/* The expression times a factor: a figure becomes another figure, anything else gets "* factor". */
const lw_expr *lw_edit_scaled(lw_edit *edit, const lw_expr *expr, double factor);

/* Puts a note behind those that are there. */
void lw_edit_note(lw_edit *edit, const char *text);
/* Puts a line of that kind behind the header's last line of another kind, unless there is one. */
void lw_edit_need_line(lw_edit *edit, lw_line_kind kind, lw_line_kind behind);

/* Other steps in place of the present ones: steps[i] stands where the step of[i] stood (ascending).
 * The lines follow. */
void lw_edit_replace_steps(lw_edit *edit, const lw_step *steps, const int *of, int count);

/* Whether the expression names this setting. */
bool lw_expr_names(const lw_expr *expr, const char *name);
/* Takes out settings and lets that were used at the start and are not now. */
void lw_edit_drop_unused(lw_edit *edit);

/* Writes, reads and solves the changed cut, with the size of the stone that it came from. expected,
 * where it is not NULL, are the facets that it should have, in its order: deviation is how far they
 * are off; INFINITY where their number differs. exact is left false. Fails as the solver. */
lw_status lw_edit_finish(lw_edit *edit, const lw_stone *source, const lw_facet *expected,
                         int expected_count, lw_adapted *out, lw_problem *problem);

/* How far facet i of a stone is from where it should be, a face or not; 0 for a temporary one that
 * is gone. */
double lw_facet_off(const lw_stone *stone, const lw_facet *expected, int i);

/* ---- what a step names (adapt_refs.c) ---- */

/* Called with a copy of each facet reference in a step's rules, to change it. */
typedef void lw_ref_change(const void *context, lw_facet_ref *ref);

/* Gives the step rules of its own with every reference changed. */
void lw_edit_change_refs(lw_edit *edit, lw_step *step, lw_ref_change *change, const void *context);
/* Left for right and the other way about. */
void lw_ref_swap(const void *context, lw_facet_ref *ref);

/* ---- steps in figures (adapt_explicit.c) ---- */

/* As a text writes a tooth: the highest for 0. */
double lw_written_tooth(double tooth, int wheel);
/* The step's depth as a distance, or one a tooth; facets are those of its tier, in their order. */
void lw_edit_explicit_distance(lw_edit *edit, lw_step *step, const lw_facet *facets, int count);
/* A free tooth becomes the one that it came to. */
void lw_edit_explicit_tooth(lw_edit *edit, lw_step *step, const lw_facet *facet);
/* Angle, tooth and depth. */
void lw_edit_explicit_step(lw_edit *edit, lw_step *step, const lw_facet *facets, int count);

/* ---- the girdle (adapt_girdle.c) ---- */

typedef struct lw_girdle_levels {
    bool all_round;             /* a vertical girdle parts crown and pavilion everywhere */
    double line_low, line_high; /* from which points and heights of a side count: nearest to
                                   mid-girdle */
    double anchor_low,
        anchor_high; /* its ends where it keeps its thickness when a side is scaled */
} lw_girdle_levels;

/* Lines and all_round; the anchors are put at the lines. All 0 without a girdle. */
void lw_girdle_lines(const lw_polyhedron *solid, lw_girdle_levels *out);

/* The anchors too: at the place where the cut's own rule says how thick the girdle is, so that it
 * still is; without such a rule at the thickest place. */
void lw_girdle_anchor(const lw_cut *cut, const lw_stone *stone, lw_girdle_levels *out);

/* ---- stones from facets (adapt_stone.c) ---- */

/* The stone of these facets, cut one by one, z = 0 put at mid-girdle; tiers and size as in like.
 * LW_NOT_CLOSED, LW_EMPTY, LW_NO_MEMORY. */
lw_status lw_stone_from_facets(const lw_memory *memory, const lw_facet *facets, int count,
                               const lw_stone *like, lw_stone *out);

/* Scales a side's facets along the axis from a level: +1 crown, -1 pavilion; others stay. */
void lw_facets_scale_side(lw_facet *facets, int count, double sign, double ratio, double level);

/* The angle whose tangent is ratio times as large. 0 and 90 stay. */
double lw_scaled_angle_deg(double angle_deg, double ratio);

/* Multiplies x and y of a facet: plane, angle, tooth. */
void lw_facet_stretch(lw_facet *facet, int wheel, double x_ratio, double y_ratio);

/* A copy of a stone's facets; free with lw_memory_free. */
lw_status lw_facets_copy(const lw_memory *memory, const lw_stone *stone, lw_facet **out);

/* ---- notes (adapt_note.c) ---- */

/* Figures for a note, rounded to four places, the same whatever the locale. */
enum { LW_NOTE_TEXT = 400 };
typedef struct lw_note {
    char text[LW_NOTE_TEXT];
    size_t length;
} lw_note;

void lw_note_words(lw_note *note, const char *words);
void lw_note_number(lw_note *note, double value);

#endif
