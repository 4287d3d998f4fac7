/* Widths of flat convex outlines, as parallel jaws read them. */
#ifndef LW_CUT_OUTLINE_H
#define LW_CUT_OUTLINE_H

#include "geom/solid.h"

/* Least and greatest distance between parallel vertical jaws around these points in plan (their z
 * is not looked at). Both 0 for fewer than two points. */
void lw_plan_widths(const lw_vec3 *points, int count, double *least, double *greatest);

/* The same for one level face of a polyhedron: least width, 0 without a face. */
double lw_face_least_width(const lw_polyhedron *polyhedron, int plane);
double lw_face_greatest_width(const lw_polyhedron *polyhedron, int plane);

#endif
