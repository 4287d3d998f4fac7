/* The convex solid: an intersection of half-spaces, cut one plane at a time.
 *
 * lw_solid is the workshop: a polyhedron that planes are cut from, one by one, in the order they
 * come. lw_polyhedron is what comes out: compact arrays that the rest of the project reads.
 *
 * Eight facets meeting in a point is the normal case: a vertex that lies on a new plane (within
 * LW_SAME_POINT of the half extent, and the plane cuts none of its edges further away than that)
 * stays where it is and gains the plane, so each vertex knows all its facets, and a facet that only
 * touches in a point or along a line is known to have no area.
 *
 * Once set up, cutting and extracting allocate nothing.
 */
#ifndef LW_GEOM_SOLID_H
#define LW_GEOM_SOLID_H

#include "base/memory.h"
#include "base/status.h"
#include "geom/vec.h"

#include <stdbool.h>

/* The most planes of one solid: a stone of 2,000 facets and room for what is cut away again. */
enum { LW_SOLID_MOST_PLANES = 8192 };

typedef struct lw_solid lw_solid;

/* What a cut did to the solid. */
typedef enum lw_cut_effect {
    LW_CUT_REMOVED,   /* it took material away and left a face, or took over a start face */
    LW_CUT_TOUCHED,   /* it passes through a vertex or along an edge: no area, nothing removed */
    LW_CUT_COINCIDES, /* it lies on a face that is already there */
    LW_CUT_MISSED,    /* it lies wholly outside: nothing changed */
    LW_CUT_EMPTIED    /* nothing with a volume would be left: nothing changed, and the solid stands
                         above this plane */
} lw_cut_effect;

/* Makes a workshop that can hold max_planes planes besides its start (1..LW_SOLID_MOST_PLANES).
 * LW_NO_MEMORY, LW_TOO_LARGE. Destroy with lw_solid_destroy, which takes NULL too. */
lw_status lw_solid_new(const lw_memory *memory, int max_planes, lw_solid **out);
void lw_solid_destroy(lw_solid *solid);

/* Begins again with a cube |x|,|y|,|z| <= half_extent (> 0), whose six faces have no number.
 * Lengths are compared against half_extent: choose it no larger than a few times the stone. */
void lw_solid_start(lw_solid *solid, double half_extent);

/* Makes to the same as from; both must have been made for the same max_planes. */
void lw_solid_copy(lw_solid *to, const lw_solid *from);

/* Cuts with the next plane; planes are numbered from 0 in the order they come, whatever their
 * effect. plane.normal must have length 1 within 1e-12, its numbers be finite: asserted.
 * LW_TOO_LARGE, and nothing changed, when the workshop is full: it has max_planes planes, or planes
 * touch vertices without an area there more than 16 max_planes times. effect may be NULL. */
lw_status lw_solid_cut(lw_solid *solid, lw_plane plane, lw_cut_effect *effect);

/* Starts and cuts with all planes at once, in an inner order chosen for speed; numbers are their
 * places in planes[]. Gives the same solid as cutting one by one, not necessarily to the last bit.
 * LW_TOO_LARGE, LW_EMPTY when nothing is left; either way the solid is then as just started. */
lw_status lw_solid_build(lw_solid *solid, double half_extent, const lw_plane *planes, int count);

/* Whether nothing of the start cube is left. */
bool lw_solid_is_closed(const lw_solid *solid);

/* The largest height above the plane that any vertex has (its support in that direction). */
double lw_solid_height_above(const lw_solid *solid, lw_plane plane);

/* A polyhedron: compact, read by all. Plane i is the i-th that was cut; a plane without a face has
 * an empty ring. Faces of the start cube, if any are left, have the numbers plane_count + 0..5 in
 * across[] and in vertex_plane[], and no ring. */
typedef struct lw_polyhedron {
    int plane_count;
    int vertex_count;
    double same_point; /* points closer than this were taken as one */
    const lw_plane *planes;
    const int *same_as; /* [plane_count] a plane that coincides with an earlier one names it here,
                           has no ring, and is listed at no vertex; any other names itself */
    const lw_vec3 *vertices;
    const int *face_start;   /* [plane_count + 1] into face_vertex and face_across */
    const int *face_vertex;  /* vertices of each face, counter-clockwise seen from outside */
    const int *face_across;  /* for each side, from its vertex to the next: the plane beyond it */
    const int *vertex_start; /* [vertex_count + 1] into vertex_plane */
    const int *vertex_plane; /* every plane through each vertex, ascending, those that only touch
                                there included (a start face only where it has an area) */
} lw_polyhedron;

/* The solid as it is now. The arrays belong to the workshop and last until it is next changed or
 * extracted. Vertices are numbered by first appearance, walking the faces in order. */
void lw_solid_extract(lw_solid *solid, lw_polyhedron *out);

/* A copy with a life of its own. Destroy takes a zeroed one and twice. */
lw_status lw_polyhedron_copy(const lw_memory *memory, const lw_polyhedron *from,
                             lw_polyhedron *out);
void lw_polyhedron_destroy(const lw_memory *memory, lw_polyhedron *polyhedron);

/* Checks the whole structure (rings close, neighbours agree, Euler's formula, vertices on their
 * planes, convexity). For tests and debug builds. NULL when sound, else what is wrong. */
const char *lw_polyhedron_fault(const lw_polyhedron *polyhedron);

#endif
