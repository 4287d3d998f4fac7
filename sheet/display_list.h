/* A display list: what stands on the pages of a sheet, before anybody paints it.
 *
 * Paths, filled polygons and runs of text on pages, in the order in which they are painted. Points
 * (1/72 inch), x to the right, y down, the origin at the page's upper left corner. No painter is
 * known here: cairo turns the list into files, and anything else that can fill a polygon and set a
 * line of text may do the same.
 *
 * Failure is sticky: when memory is out or a limit is passed, status says so and every later call
 * does nothing, so that drawing code reads as drawing and asks once, at its end.
 */
#ifndef LW_SHEET_DISPLAY_LIST_H
#define LW_SHEET_DISPLAY_LIST_H

#include "base/memory.h"

#include <stdbool.h>
#include <stddef.h>

/* Bounds on what a list may hold: some hundred megabytes at the very most. */
enum { LW_LIST_MOST_MARKS = 1 << 21, LW_LIST_MOST_PAGES = 2000 };

/* Red, green and blue, 0..1, opaque. */
typedef struct lw_ink {
    double red, green, blue;
} lw_ink;

static inline lw_ink lw_grey(double level)
{
    return (lw_ink){level, level, level};
}

typedef enum lw_face { LW_FACE_PLAIN, LW_FACE_BOLD, LW_FACE_SLANTED, LW_FACE_COUNT } lw_face;

/* Where (x, y) stands in a run of text; y is the baseline. */
typedef enum lw_align { LW_ALIGN_LEFT, LW_ALIGN_MIDDLE, LW_ALIGN_RIGHT } lw_align;

/* How a run of text looks; size is that of the letters' em, in points. */
typedef struct lw_type {
    lw_face face;
    double size;
    lw_ink ink;
} lw_type;

/* How a path looks. line_width 0: no line. dash 0: a whole line; else dashes and gaps that long. */
typedef struct lw_style {
    bool filled;
    lw_ink fill;
    double line_width;
    lw_ink line;
    double dash;
} lw_style;

typedef struct lw_spot {
    double x, y;
} lw_spot;

typedef enum lw_path_op {
    LW_PATH_MOVE,
    LW_PATH_LINE,
    LW_PATH_CURVE, /* a cubic: this spot and the next are its handles, the one after its end */
    LW_PATH_CLOSE  /* back to the last MOVE; its spot is not used */
} lw_path_op;

typedef struct lw_path_spot {
    lw_path_op op;
    lw_spot at;
} lw_path_spot;

typedef enum lw_mark_kind { LW_MARK_PATH, LW_MARK_TEXT } lw_mark_kind;

typedef struct lw_mark {
    lw_mark_kind kind;
    int page;
    size_t first, count; /* PATH: in spots; TEXT: bytes in text, a NUL behind them */
    lw_style style;      /* PATH */
    lw_type type;        /* TEXT */
    lw_align align;      /* TEXT */
    lw_spot at;          /* TEXT */
} lw_mark;

typedef struct lw_page {
    double width, height;
} lw_page;

typedef struct lw_display_list {
    lw_memory memory;
    lw_status status; /* the first failure */
    int page;         /* the one drawn on; -1 before the first */
    lw_page *pages;
    size_t page_count, page_room;
    lw_mark *marks;
    size_t mark_count, mark_room;
    lw_path_spot *spots;
    size_t spot_count, spot_room;
    char *text;
    size_t text_count, text_room;
} lw_display_list;

/* How large a run of text comes out, in points. Pango answers natively; tests may use any other. */
typedef struct lw_text_size {
    double width, ascent, descent; /* both upward and downward from the baseline, positive */
} lw_text_size;

typedef struct lw_metrics {
    lw_text_size (*measure)(void *context, const lw_type *type, const char *text, size_t length);
    void *context;
} lw_metrics;

void lw_list_init(lw_display_list *list, const lw_memory *memory);
/* Takes a zeroed one, and twice. */
void lw_list_destroy(lw_display_list *list);
/* Forgets all pages and marks, and the failure; keeps the room. */
void lw_list_clear(lw_display_list *list);

/* A new page at the end, which is drawn on from now on. */
void lw_list_page(lw_display_list *list, double width, double height);
/* Goes back to a page that is there. */
void lw_list_turn_to(lw_display_list *list, int page);

void lw_list_path(lw_display_list *list, const lw_path_spot *spots, size_t count,
                  const lw_style *style);
void lw_list_polygon(lw_display_list *list, const lw_spot *spots, size_t count,
                     const lw_style *style);
void lw_list_line(lw_display_list *list, lw_spot from, lw_spot to, const lw_style *style);
/* Adds a line to the path that was put in last, on the same page, so that a drawing of many lines
 * is one mark. */
void lw_list_extend(lw_display_list *list, lw_spot from, lw_spot to);
void lw_list_circle(lw_display_list *list, lw_spot middle, double radius, const lw_style *style);
void lw_list_rectangle(lw_display_list *list, lw_spot corner, double width, double height,
                       const lw_style *style);
/* One run of UTF-8 on one line; nothing for no bytes. */
void lw_list_text(lw_display_list *list, lw_spot at, lw_align align, const lw_type *type,
                  const char *text, size_t length);

/* Puts the marks of another list's first page onto the page in hand, moved by dx, dy. */
void lw_list_append(lw_display_list *list, const lw_display_list *from, double dx, double dy);

/* The box around everything on a page, lines at half their width beyond their path and handles of
 * curves included. An empty page gives an empty box (left > right). */
typedef struct lw_extent {
    double left, top, right, bottom;
} lw_extent;

lw_extent lw_list_extent(const lw_display_list *list, int page, const lw_metrics *metrics);
/* Of one mark; a run of text as its metrics say. */
lw_extent lw_mark_extent(const lw_display_list *list, const lw_mark *mark,
                         const lw_metrics *metrics);

#endif
