/* What the writer's files share. Internal to core/cut. */
#ifndef LW_CUT_WRITE_PARTS_H
#define LW_CUT_WRITE_PARTS_H

#include "cut/write.h"

/* Where text goes: a buffer that may be too small, or none, while the length is counted. */
typedef struct lw_out {
    char *text;
    size_t capacity;
    size_t length;       /* bytes so far, whether they fitted or not */
    size_t line_start;   /* of the line being written */
    size_t longest_line; /* bytes, of the lines ended so far */
    int longest_index;   /* its number, from 0 */
    int line_count;
} lw_out;

/* The widths of a cut's columns: the widest entry, unless it is too wide to align with. */
typedef struct lw_layout {
    size_t name, angle, teeth;          /* of steps */
    size_t setting_name, value, limits; /* of settings */
} lw_layout;

/* ---- write_out.c ---- */
lw_out lw_out_make(char *text, size_t capacity);
/* Ends the text with a NUL, within the capacity. */
size_t lw_out_end(lw_out *out);
void lw_out_text(lw_out *out, const char *text);
void lw_out_number(lw_out *out, double number);
void lw_out_whole(lw_out *out, int number);
void lw_out_quoted(lw_out *out, const char *text);
/* Blanks up to width bytes since start, and one more blank at least. */
void lw_out_pad(lw_out *out, size_t start, size_t width);
void lw_out_line_end(lw_out *out);

/* ---- pieces ---- */
void lw_out_expr(lw_out *out, const lw_expr *expr);
void lw_out_facet(lw_out *out, const lw_facet_ref *facet);
void lw_out_point(lw_out *out, const lw_point *point);
void lw_out_rule(lw_out *out, const lw_rule *rule);
void lw_out_angle(lw_out *out, const lw_step *step);
void lw_out_teeth(lw_out *out, const lw_cut *cut, const lw_step *step);
void lw_out_step(lw_out *out, const lw_cut *cut, const lw_layout *layout, const lw_step *step);
void lw_out_setting(lw_out *out, const lw_layout *layout, const lw_setting *setting);
lw_layout lw_layout_make(const lw_cut *cut);
/* The whole cut. */
void lw_out_cut(lw_out *out, const lw_cut *cut);

#endif
