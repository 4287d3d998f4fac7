/* Directions around the stone on a page, as seen from the table: tooth 0 at the top, azimuth rising
 * counter-clockwise. And places on a dial of the sky over it.
 */
#ifndef LW_SHEET_COMPASS_H
#define LW_SHEET_COMPASS_H

#include "geom/vec.h"
#include "sheet/display_list.h"

/* radius points from the middle toward that azimuth. */
lw_spot lw_compass_spot(lw_spot middle, double radius, double azimuth_deg);

/* Where a direction (length 1) above the girdle plane falls on a dial of that radius, straight up
 * in its middle: equal parts of the sky take equal areas (Lambert's azimuthal projection). One
 * below the plane falls outside. */
lw_spot lw_compass_sky(lw_spot middle, double radius, lw_vec3 direction);

/* The level direction (length 1) of that azimuth, in the stone's frame. */
lw_vec3 lw_compass_level(double azimuth_deg);

/* One line of text with its middle at a place; halo: on a white ground of its own. Gives the box it
 * takes. */
lw_extent lw_compass_label(lw_display_list *list, const lw_metrics *metrics, lw_spot at,
                           const lw_type *type, const char *text, bool halo);

/* A tick and a number at each quarter of a wheel and half way between, outside of a circle; the
 * numbers' middles stand apart points further out. The highest tooth stands for 0. */
void lw_compass_teeth(lw_display_list *list, const lw_metrics *metrics, lw_spot middle,
                      double radius, double apart, int wheel);

/* The tooth nearest to an eighth of the wheel, number 0..7, and where it lies. */
int lw_compass_tooth(int wheel, int eighth, double *azimuth_deg);

#endif
