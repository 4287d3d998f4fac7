/* What tilting does to a stone, as a polar map on one page: how far the eye leans from the table's
 * normal outward, toward which tooth around; brightness in one hue by strength, and the line beyond
 * which a window shows.
 */
#ifndef LW_SHEET_TILT_PICTURE_H
#define LW_SHEET_TILT_PICTURE_H

#include "sheet/display_list.h"

/* All borrowed. Values are ring by ring; spoke s stands at the azimuth 360 s / spokes degrees, and
 * all spokes of ring 0 are the same. */
typedef struct lw_tilt_picture {
    int rings, spokes;        /* >= 2, >= 3 */
    const double *tilt_deg;   /* [rings], rising from 0 */
    const double *brightness; /* [rings * spokes], 0..1 */
    const double *window;     /* [rings * spokes]: share of the face */
    double window_shows;      /* share from which on one is said to be open */
    double
        settled; /* a mean is told where those of every other spoke and of the rest are as near */
    int wheel;
    double index;         /* refractive */
    const char *heading;  /* one line, UTF-8 */
    const char *sentence; /* what tilting does, in words */
    const char *place;    /* its name; NULL for the even sky */
} lw_tilt_picture;

/* Adds the page. Errors of the list. */
lw_status lw_tilt_picture_compose(const lw_tilt_picture *picture, const lw_metrics *metrics,
                                  lw_display_list *list);

#endif
