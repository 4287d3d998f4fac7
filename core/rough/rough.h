/* A piece of rough: the convex solid that a stone is looked for in.
 *
 * Frame: right-handed, millimetres, the origin at the middle of the three readings, x along the
 * first, y along the second, z along the third.
 *
 * The solid is an inner one: it claims no material that the piece may not have. What the piece as a
 * whole is likely to hold is kept beside it, so that a yield is not flattered.
 */
#ifndef LW_ROUGH_ROUGH_H
#define LW_ROUGH_ROUGH_H

#include "geom/mass.h"
#include "geom/solid.h"

enum { LW_ROUGH_MOST_FACES = 4096 };

/* One face of a rough, before it is made. */
typedef struct lw_rough_face {
    lw_plane plane;   /* mm, outward */
    const char *what; /* "a prism face": what a cutter would call it; lives as long as the rough */
} lw_rough_face;

typedef struct lw_rough {
    lw_memory memory;
    int face_count;
    lw_rough_face *faces;
    lw_polyhedron solid; /* mm; plane i is faces[i] */
    double span_mm;      /* the greatest distance of a vertex from the origin, doubled */
    double volume_mm3;   /* of the inner solid */
    double whole_mm3;    /* what the piece is likely to hold; volume_mm3 unless someone knows */
    bool has_c;          /* whether the way of the crystal's c axis is known */
    lw_vec3 c_axis;      /* length 1 */
} lw_rough;

/* Makes a rough of count half-spaces. Faces without an area may be among them; they are kept, and
 * harmless. Normals have length 1 within 1e-12: asserted. LW_TOO_LARGE, LW_NO_MEMORY, LW_EMPTY,
 * LW_NOT_CLOSED. Destroy takes a zeroed one, and twice. */
lw_status lw_rough_make(const lw_memory *memory, const lw_rough_face *faces, int count,
                        lw_rough *out);
void lw_rough_destroy(lw_rough *rough);

/* Carats of the whole piece at this specific gravity. */
double lw_rough_weight_ct(const lw_rough *rough, double specific_gravity);

#endif
