/* The inside of the workshop: shared by the files of solid, used by nobody else.
 *
 * The polyhedron is a half-edge structure: half-edge h runs from corner from[h] along the border of
 * its face, counter-clockwise seen from outside; h ^ 1 is its other direction, which borders the
 * neighbouring face. Corners may have any degree from three up.
 *
 * Always true between cuts (and kept by construction, whatever rounding does to the coordinates):
 * the structure is a planar graph of one piece on the sphere, each corner has three faces or more,
 * each face three sides or more, and two faces share one edge at most. With them V <= 2F - 4 and
 * E <= 3F - 6, which is where the pools get their sizes.
 */
#ifndef LW_GEOM_SOLID_PARTS_H
#define LW_GEOM_SOLID_PARTS_H

#include "geom/solid.h"
#include "geom/tolerance.h"

#include <stdint.h>

enum { LW_NONE = -1, LW_CUBE_FACES = 6 };

/* Directions are put in cells: fine ones, squares of a cube's sides; and coarse ones, by the signs
 * of the three parts of the normal and which of them are larger. The fine ones take longer to tell,
 * and serve from LW_MANY_FACES on. */
enum {
    LW_MANY_FACES = 128,
    LW_FINE_ROW = 12,
    LW_FINE_CELLS = 6 * LW_FINE_ROW * LW_FINE_ROW,
    LW_COARSE_CELLS = 64
};

/* Where a corner is with respect to the plane that is being cut. */
typedef enum lw_corner_side {
    LW_SIDE_UNSEEN,
    LW_SIDE_IN,
    LW_SIDE_ON,
    LW_SIDE_OUT,
    LW_SIDE_RING, /* on the plane, and already a corner of the new face */
    LW_SIDE_COUNT
} lw_corner_side;

/* One line of cache. */
typedef struct lw_corner {
    _Alignas(64) lw_vec3 at;
    double height; /* above the plane that is being cut, once it has a side */
    int edge;      /* one half-edge that starts here; LW_NONE when the corner is free */
    int touch;     /* first of the planes that only touch here; next free corner, when free */
    int ill_set;   /* 1 when its planes, as it was made, were so nearly parallel that it can be far
                      from where other planes would put it */
    int mark;      /* stamp of the cut + side; of an older cut: unseen */
} lw_corner;

typedef struct lw_half_edge {
    int next, prev; /* along the face's border; next free pair, when free */
    int from;       /* corner */
    int face;
} lw_half_edge;

typedef struct lw_touch {
    int face;
    int next;
} lw_touch;

struct lw_solid {
    lw_memory memory;
    void *block; /* all arrays below */
    size_t block_bytes;
    int max_planes;
    double half_extent;
    double same_point, rounding, near_depth; /* tolerances, as lengths */

    int plane_count; /* planes cut so far, in the user's numbers */
    int face_count;  /* faces begun: the cube's, then one for each plane that came */
    int stamp;       /* of the cut in hand; grows by LW_SIDE_COUNT */
    int last;        /* a corner close to the last change */
    int cube_left;   /* faces of the cube that still have an area */
    int corner_used, corner_free, edge_used, edge_free, touch_used, touch_free, touch_count;

    int corner_room, edge_room, touch_room; /* half-edges, not pairs */
    lw_plane *planes;                       /* by the user's number */
    int *same_as;                           /* by the user's number */
    lw_plane *face_plane;
    int *face_edge;  /* a half-edge of its border; LW_NONE when it has no area */
    int *face_label; /* the user's number; the cube's are LW_NONE - 1 .. */
    int *face_stamp;
    lw_corner *corners;
    lw_half_edge *edges;
    lw_touch *touches;

    /* By direction: the face cut last whose normal is in this cell (LW_NONE, or by now without an
     * area). Where to start climbing. */
    int fine_hint[LW_FINE_CELLS], coarse_hint[LW_COARSE_CELLS];

    /* Scratch of one cut. */
    int *queue;      /* corners seen that are not plainly inside */
    int *lost_edges; /* even half-edges with both ends outside */
    int *crossing;   /* half-edges that leave the outside, in the order of the border */
    int *label_face; /* extract: the face of each label */

    /* What extract gives out. */
    lw_vec3 *out_vertices;
    int *out_face_start, *out_face_vertex, *out_face_across;
    int *out_vertex_start, *out_vertex_plane;
    int *corner_number, *cursor;
};

/* The cut in hand. */
typedef struct lw_sweep {
    lw_plane plane;
    int *hint;      /* of the plane's direction */
    int *fine_hint; /* the same, or the finer one of a solid with many faces */
    int queued;     /* corners in the queue */
    int outside;    /* how many of them are outside */
    int on;         /* how many are on the plane */
    int near;       /* how many are inside, but so little that the search must not stop at them */
    int lost;       /* edges in lost_edges */
    int crossed;    /* half-edges that leave the outside */
    int start;      /* one of them */
    int steps;      /* of the border's walk */
    int vanished;   /* faces that keep only a point or an edge */
    bool inside;    /* a corner plainly inside was seen */
    bool vague;     /* a corner was seen that is close to the plane, but further than rounding */
} lw_sweep;

static inline int lw_edge_to(const lw_solid *solid, int half_edge)
{
    return solid->edges[half_edge ^ 1].from;
}

static inline lw_corner_side lw_corner_side_of(const lw_solid *solid, int corner)
{
    int side = solid->corners[corner].mark - solid->stamp;
    return side > 0 ? (lw_corner_side)side : LW_SIDE_UNSEEN;
}

static inline void lw_corner_set_side(lw_solid *solid, int corner, lw_corner_side side)
{
    solid->corners[corner].mark = solid->stamp + (int)side;
}

/* The side of a corner close to the plane; queues it. */
lw_corner_side lw_corner_see_close(lw_solid *solid, lw_sweep *sweep, int corner);

/* The side of a corner, found on first sight; those not plainly inside are queued then. */
static inline lw_corner_side lw_corner_see(lw_solid *solid, lw_sweep *sweep, int corner)
{
    lw_corner *c = &solid->corners[corner];
    int unseen = solid->stamp;
    if (c->mark > unseen) {
        return (lw_corner_side)(c->mark - unseen);
    }
    double height = lw_plane_height(sweep->plane, c->at);
    c->height = height;
    if (height < -solid->near_depth) {
        sweep->inside = true;
        c->mark = unseen + LW_SIDE_IN;
        return LW_SIDE_IN;
    }
    if (height <= solid->same_point) {
        return lw_corner_see_close(solid, sweep, corner);
    }
    solid->queue[sweep->queued++] = corner;
    c->mark = unseen + LW_SIDE_OUT;
    return LW_SIDE_OUT;
}

/* Cuts with a plane that will carry this label. LW_TOO_LARGE, nothing changed, when there is no
 * room to remember what touches where. */
lw_status lw_solid_insert(lw_solid *solid, const lw_plane *plane, int label, lw_cut_effect *effect);

/* The fine cell of a direction, which need not have length 1. */
int lw_fine_cell(const lw_vec3 *direction);

/* A corner above the sweep's plane, and its height: one well outside, else the highest. When that
 * is not outside, the queue holds all corners that hang together with it at about its height. */
int lw_solid_climb(lw_solid *solid, lw_sweep *sweep, double *height);

/* A corner whose planes were ill set has gained a plane: puts it where that plane and the two that
 * stand best to it meet, if that place lies on all its planes. A fan of facets through one point
 * so finds the point, which its first three neighbours alone leave open. */
void lw_solid_settle_corner(lw_solid *solid, int corner, lw_plane newest);

/* How far along a half-edge that leaves the outside the plane cuts it, when the three planes there
 * span so little (det) that the share by the heights of its ends is not good enough. */
double lw_solid_refined_share(const lw_solid *solid, const lw_plane *plane, int half_edge,
                              double share, double det);

/* Takes away what the sweep found outside. */
void lw_solid_trim(lw_solid *solid, lw_sweep *sweep, int face);

/* The planes that touch a corner without having a side there. */
void lw_solid_add_touch(lw_solid *solid, int corner, int face);
void lw_solid_drop_touches(lw_solid *solid, int corner);
void lw_solid_drop_touch(lw_solid *solid, int corner, int face);

/* Goes round the outside corners that hang together with top, gathering as it goes. False when they
 * are more than a tree, or when rounding has made the border anything but a simple ring; the sweep
 * must then begin again. */
bool lw_solid_contour(lw_solid *solid, lw_sweep *sweep, int top);

/* A way through the sweep when rounding has made its border inconsistent; false when nothing would
 * be left. */
bool lw_solid_resweep(lw_solid *solid, lw_sweep *sweep);

/* Follows the border between outside and the rest; false unless it is one ring that passes each
 * face and each corner once. */
bool lw_solid_walk(lw_solid *solid, lw_sweep *sweep);

#endif
