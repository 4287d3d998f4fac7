/* Lines and crossed lines over a polygon: a second sign beside its ink.
 *
 * Lines lie on a lattice of the page, so that they run through from one polygon to the next. The
 * polygon is convex.
 */
#ifndef LW_SHEET_HATCH_H
#define LW_SHEET_HATCH_H

#include "sheet/display_list.h"

typedef enum lw_hatch { LW_HATCH_SLANTED, LW_HATCH_CROSSED } lw_hatch;

/* Lines apart (points) from one another. One mark, or none when no line falls on the polygon. */
void lw_hatch_draw(lw_display_list *list, const lw_spot *corners, size_t count, lw_hatch hatch,
                   double apart, double line_width, lw_ink ink);

#endif
