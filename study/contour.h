/* Lines of equal value through a grid of numbers, by marching squares.
 *
 * Values stand at the corners of the squares and run straight between them; where a square's
 * corners lie across from one another (a saddle) its middle, the mean of the four, decides. A
 * square with a corner that is not a number has no line in it, and lines end there. Positions are
 * in steps of the grid: (0, 0) is the first value, x runs along a row.
 *
 * Source: W. E. Lorensen and H. E. Cline, Marching cubes, Computer Graphics 21(4), 1987, in two
 * dimensions.
 */
#ifndef LW_STUDY_CONTOUR_H
#define LW_STUDY_CONTOUR_H

#include "base/memory.h"

#include <stdbool.h>

typedef struct lw_contour_spot {
    double x, y;
} lw_contour_spot;

typedef struct lw_contour_line {
    int first, count; /* spots[first .. first + count - 1]; a closed one ends where it began */
    bool closed;
} lw_contour_line;

typedef struct lw_contour {
    lw_memory memory;
    int line_count, spot_count;
    int line_room, spot_room;
    lw_contour_line *lines;
    lw_contour_spot *spots;
} lw_contour;

/* columns and rows >= 2, at most LW_CONTOUR_MOST (asserted). LW_NO_MEMORY. Destroy takes a zeroed
 * one, and twice. */
enum { LW_CONTOUR_MOST = 2000 };
lw_status lw_contour_trace(const lw_memory *memory, const double *values, int columns, int rows,
                           double level, lw_contour *out);
void lw_contour_destroy(lw_contour *contour);

#endif
