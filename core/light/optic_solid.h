/* A convex stone laid out for light: the facets that have an area, their outlines and neighbours.
 *
 * Lengths are the solid's, directions have length 1. Nothing allocates but lw_optic_solid_make; a
 * solid may be read by many threads.
 */
#ifndef LW_LIGHT_OPTIC_SOLID_H
#define LW_LIGHT_OPTIC_SOLID_H

#include "base/arena.h"
#include "geom/solid.h"

typedef struct lw_optic_solid {
    lw_arena arena;
    int facet_count;
    int *plane;        /* [facet_count] number in the polyhedron */
    double *x, *y, *z; /* [facet_count] outward normals */
    double *distance;  /* [facet_count] */
    int *ring_start;   /* [facet_count + 1] into corner and across */
    int *corner;       /* corners of each facet, counter-clockwise seen from outside */
    int *across;       /* for each side, from its corner to the next: the facet beyond it */
    int corner_count;
    lw_vec3 *corners;   /* [corner_count] */
    lw_vec3 middle;     /* of the corners' bounding box */
    double half_extent; /* every corner lies within this of the middle */
} lw_optic_solid;

/* LW_NOT_CLOSED when a face of the start cube is left or there are fewer than four faces;
 * LW_NO_MEMORY. Destroy takes a zeroed one, and twice. */
lw_status lw_optic_solid_make(const lw_memory *memory, const lw_polyhedron *polyhedron,
                              lw_optic_solid *out);
void lw_optic_solid_destroy(lw_optic_solid *solid);

/* Where a ray from inside (or from the surface) leaves: the facet whose plane it reaches first
 * among those it runs towards. A start that lies a rounding error outside leaves at once. */
int lw_optic_solid_exit(const lw_optic_solid *solid, lw_vec3 from, lw_vec3 direction,
                        double *length);

/* Where a ray from outside enters; false when it misses. */
bool lw_optic_solid_entry(const lw_optic_solid *solid, lw_vec3 from, lw_vec3 direction, int *facet,
                          double *length);

/* The outward normal of a facet. */
static inline lw_vec3 lw_optic_solid_normal(const lw_optic_solid *solid, int facet)
{
    return (lw_vec3){solid->x[facet], solid->y[facet], solid->z[facet]};
}

#endif
