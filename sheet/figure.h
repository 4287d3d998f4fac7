/* Drawings of a stone: any convex solid seen from far away, hidden lines left out.
 *
 * The solid is in the stone's frame and unit; the drawing is in points on the page in hand of a
 * display list. A convex solid hides nothing but faces turned away, so a face is drawn exactly when
 * its normal leans toward the eye.
 */
#ifndef LW_SHEET_FIGURE_H
#define LW_SHEET_FIGURE_H

#include "cut/cut.h"
#include "geom/solid.h"
#include "sheet/display_list.h"

/* How one looks: unit vectors at right angles to one another, right x up = toward. */
typedef struct lw_view {
    lw_vec3 right, up, toward; /* toward points at the eye */
} lw_view;

/* The side turned up to the eye (PAVILION or CROWN: asserted), tooth 0 at the top of the drawing.
 * The pavilion is seen from below, so what stood on the left of the crown stands on its right. */
lw_view lw_view_of_side(lw_side side);

/* That side turned up, then tipped away from the eye by tilt (0..90 degrees) so that azimuth_deg of
 * the stone faces the reader; at 90 the girdle is seen edge on, that side upward. */
lw_view lw_view_tipped(lw_side side, double azimuth_deg, double tilt_deg);

/* Which planes of the solid are what. */
typedef struct lw_figure {
    const lw_polyhedron *solid;
    int preform;                  /* planes 0 .. preform - 1 are not facets but the preform */
    int fresh_first, fresh_count; /* planes that the step has just cut: tinted */
    bool covers;                  /* white faces are filled too, over what lies behind */
    bool shaded; /* every face in a grey of its own, as if lit from the upper left */
    lw_view view;
    double scale;   /* points a unit */
    lw_spot middle; /* where the origin of the frame falls on the page */
} lw_figure;

lw_spot lw_figure_project(const lw_figure *figure, lw_vec3 p);
/* The box that the solid takes on the page. */
lw_extent lw_figure_extent(const lw_figure *figure);
/* Sets scale and middle so that the solid fills a box, middle to middle. */
void lw_figure_fit(lw_figure *figure, double left, double top, double width, double height);

void lw_figure_draw(const lw_figure *figure, lw_display_list *list);
/* A ring around a point of the stone; dashed where it lies on the far side. */
void lw_figure_ring(const lw_figure *figure, lw_display_list *list, lw_vec3 point, bool hidden);

#endif
