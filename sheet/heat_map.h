/* A grid of numbers as a picture: squares in one hue by strength, lines of equal value over them,
 * marked places, a scale, and a few sentences below.
 *
 * Points on the page as everywhere in a display list. The picture's own x runs to the right and y
 * upward, in whatever units the axes are in.
 */
#ifndef LW_SHEET_HEAT_MAP_H
#define LW_SHEET_HEAT_MAP_H

#include "sheet/display_list.h"

enum {
    LW_HEAT_MOST_SIDE = 401,
    LW_HEAT_MOST_LINES = 64,
    LW_HEAT_MOST_LINE_SPOTS = 20000, /* of one line */
    LW_HEAT_MOST_MARKS = 8,
    LW_HEAT_MOST_NOTES = 8
};

typedef struct lw_heat_axis {
    const char *title; /* "pavilion main, degrees" */
    double low, high;  /* of the first and the last value; low < high */
    int count;         /* 2..LW_HEAT_MOST_SIDE */
} lw_heat_axis;

typedef struct lw_heat_line {
    const char *label; /* beside its longest piece; NULL: none */
    bool dashed;
    bool ticked; /* with short ticks toward its left as one follows it: that side is meant */
    const lw_spot *spots; /* in the axes' units */
    int count;
} lw_heat_line;

typedef struct lw_heat_mark {
    const char *label;
    double x, y;
    bool filled; /* a full spot; else a ring */
} lw_heat_mark;

/* All borrowed. */
typedef struct lw_heat_map {
    const char *heading; /* one or a few sentences */
    lw_heat_axis x, y;
    const double *values;    /* [y.count * x.count], rows of x; not a number: hatched */
    const char *value_title; /* "brightness, %" */
    const lw_heat_line *lines;
    int line_count;
    const lw_heat_mark *marks;
    int mark_count;
    const char *const *notes; /* sentences below */
    int note_count;
} lw_heat_map;

/* Adds the page. LW_BAD_INPUT when no value is a number; errors of the list. */
lw_status lw_heat_map_compose(const lw_heat_map *map, const lw_metrics *metrics,
                              lw_display_list *list);

/* Round figures for an axis from low to high (low < high): the first at or above low, how far they
 * are apart, how many; and the decimals that tell them apart. At most most (>= 2) of them. */
typedef struct lw_ticks {
    double first, apart;
    int count, decimals;
} lw_ticks;
lw_ticks lw_ticks_for(double low, double high, int most);

#endif
