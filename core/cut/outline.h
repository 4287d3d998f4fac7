/* Widths of flat convex outlines, as parallel jaws read them. */
#ifndef LW_CUT_OUTLINE_H
#define LW_CUT_OUTLINE_H

#include "geom/solid.h"

typedef struct lw_widths {
    double least;    /* the least distance between parallel vertical jaws */
    double greatest; /* the greatest */
    double across;   /* between jaws at right angles to those of least; the greatest of these when
                        several directions give least */
} lw_widths;

/* The widths in plan of count points (their z is not looked at): points[numbers[i]], or points[i]
 * with numbers NULL. All 0 for points in one place. Time: points times corners of the outline. */
lw_widths lw_widths_of(const lw_vec3 *points, const int *numbers, int count);

/* The same of one level face of a polyhedron; all 0 without a face. */
lw_widths lw_face_widths(const lw_polyhedron *polyhedron, int plane);

/* least and greatest alone. */
void lw_plan_widths(const lw_vec3 *points, int count, double *least, double *greatest);

#endif
