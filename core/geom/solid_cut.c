/* Finding what a plane takes away.
 *
 * The corners outside the plane form one connected part of the graph of edges (a convex solid cut
 * by a plane). So: climb from a likely place to the highest corner; if it is outside, go round the
 * part that hangs together with it (lw_solid_contour: all that is needed unless whole faces go);
 * else gather that part and follow its border. Topology decides, coordinates only propose: the part
 * that is removed is connected by construction, and its border is known to be one simple ring
 * before anything is changed. Where rounding has made it anything else, the sweep is done again by
 * a slower rule that cannot fail (lw_solid_resweep).
 *
 * The approach follows K. Sugihara and M. Iri, "Construction of the Voronoi diagram for 'one
 * million' generators in single-precision arithmetic", Proc. IEEE 80(9), 1992: keep the structure
 * consistent first. Ours besides: corners that lie on the plane, and any degree at a corner.
 */
#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <math.h>

/* The cell of a direction, as side of the cube, row and column. */
typedef struct cell {
    int fine, coarse;
} cell;

static cell cell_of(lw_vec3 v)
{
    double x = fabs(v.x), y = fabs(v.y), z = fabs(v.z);
    double major = v.z, a = v.x, b = v.y;
    int side = 4;
    if (x >= y && x >= z) {
        major = v.x, a = v.y, b = v.z, side = 0;
    } else if (y >= z) {
        major = v.y, a = v.z, b = v.x, side = 2;
    }
    side += major < 0.0;
    double scale = 0.4999 * LW_FINE_ROW / fabs(major), middle = 0.5 * LW_FINE_ROW;
    int row = (int)(a * scale + middle), column = (int)(b * scale + middle);
    return (cell){(side * LW_FINE_ROW + row) * LW_FINE_ROW + column,
                  (side * LW_COARSE_ROW + row / 4) * LW_COARSE_ROW + column / 4};
}

/* A corner of a face with a similar direction, else one near the last change. */
static int start_for(const lw_solid *solid, cell at)
{
    int face = solid->fine_hint[at.fine];
    if (face == LW_NONE || solid->face_edge[face] == LW_NONE) {
        face = solid->coarse_hint[at.coarse];
    }
    if (face == LW_NONE || solid->face_edge[face] == LW_NONE) {
        return solid->last;
    }
    return solid->edges[solid->face_edge[face]].from;
}

/* Steepest ascent along the edges. */
static int climb(const lw_solid *solid, lw_plane plane, int start, double *height)
{
    int best = start, at = LW_NONE;
    *height = lw_plane_height(plane, solid->corners[start].at);
    while (best != at) {
        at = best;
        int first = solid->corners[at].edge, h = first;
        do {
            int to = lw_edge_to(solid, h);
            double other = lw_plane_height(plane, solid->corners[to].at);
            if (other > *height) {
                *height = other;
                best = to;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
    return best;
}

static void enqueue(lw_solid *solid, lw_sweep *sweep, int corner, double height,
                    lw_corner_side side)
{
    solid->corners[corner].height = height;
    lw_corner_set_side(solid, corner, side);
    solid->queue[sweep->queued++] = corner;
}

/* Gathers in the queue all that hang together with top and are no more than depth below it. Gives
 * a corner higher than top, if there is one. */
static int gather_plateau(lw_solid *solid, lw_sweep *sweep, int top, double top_height,
                          double depth)
{
    int higher = top;
    double highest = top_height;
    sweep->queued = 0;
    enqueue(solid, sweep, top, top_height, LW_SIDE_ON);
    for (int i = 0; i < sweep->queued; i++) {
        int first = solid->corners[solid->queue[i]].edge, h = first;
        do {
            int to = lw_edge_to(solid, h);
            double height = lw_plane_height(sweep->plane, solid->corners[to].at);
            if (height >= top_height - depth && lw_corner_side_of(solid, to) == LW_SIDE_UNSEEN) {
                enqueue(solid, sweep, to, height, LW_SIDE_ON);
                higher = height > highest ? to : higher;
                highest = height > highest ? height : highest;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
    return higher;
}

/* The highest corner and its height. Where a climb ends on a plateau that rounding could have made,
 * all of the plateau is looked at; the queue then holds it. */
static int find_top(lw_solid *solid, lw_sweep *sweep, int start, double *height)
{
    for (;;) {
        int top = climb(solid, sweep->plane, start, height);
        if (*height > solid->same_point) {
            return top;
        }
        start = gather_plateau(solid, sweep, top, *height, LW_PLATEAU * solid->same_point);
        if (start == top) {
            return top;
        }
        solid->stamp++; /* what was gathered is unseen again */
    }
}

/* Sees all around a corner outside; notes the edges there. */
static inline void look_around_outside(lw_solid *solid, lw_sweep *sweep, int corner)
{
    const lw_half_edge *edges = solid->edges;
    int first = solid->corners[corner].edge, h = first;
    sweep->outside++;
    do {
        if (lw_corner_see(solid, sweep, edges[h ^ 1].from) != LW_SIDE_OUT) {
            sweep->crossed++;
            sweep->start = h;
        } else if ((h & 1) == 0) {
            solid->lost_edges[sweep->lost++] = h;
        }
        h = edges[h ^ 1].next;
    } while (h != first);
}

/* From top through all corners outside, on, or nearly on the plane. */
static void gather_outside(lw_solid *solid, lw_sweep *sweep, int top)
{
    const lw_half_edge *edges = solid->edges;
    lw_corner_see(solid, sweep, top);
    for (int i = 0; i < sweep->queued; i++) {
        int corner = solid->queue[i];
        if (lw_corner_side_of(solid, corner) == LW_SIDE_OUT) {
            look_around_outside(solid, sweep, corner);
            continue;
        }
        int first = solid->corners[corner].edge, h = first;
        do {
            lw_corner_see(solid, sweep, edges[h ^ 1].from);
            h = edges[h ^ 1].next;
        } while (h != first);
    }
}

/* Whether a live face has all its corners within reach of the plane and the same direction. */
static bool lies_on(const lw_solid *solid, const lw_sweep *sweep, int face)
{
    lw_vec3 turn = lw_vec3_sub(solid->face_plane[face].normal, sweep->plane.normal);
    if (lw_vec3_dot(turn, turn) > LW_SAME_DIRECTION * LW_SAME_DIRECTION) {
        return false;
    }
    int first = solid->face_edge[face], h = first;
    do {
        lw_vec3 at = solid->corners[solid->edges[h].from].at;
        double height = lw_plane_height(sweep->plane, at);
        if (fabs(height) > solid->same_point) {
            return false;
        }
        h = solid->edges[h].next;
    } while (h != first);
    return true;
}

static int face_that_plane_lies_on(const lw_solid *solid, const lw_sweep *sweep)
{
    for (int i = 0; i < sweep->queued; i++) {
        int first = solid->corners[solid->queue[i]].edge, h = first;
        do {
            if (lies_on(solid, sweep, solid->edges[h].face)) {
                return solid->edges[h].face;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
    return LW_NONE;
}

/* The plane of a face without an area lies on the face twin. Of two numbers the lower one keeps the
 * face, in whatever order they came; a face of the start cube gives way to any. */
static lw_cut_effect share_face(lw_solid *solid, int twin, int face)
{
    int label = solid->face_label[face], other = solid->face_label[twin];
    if (other < 0) {
        solid->face_label[twin] = label;
        solid->face_label[face] = other;
        solid->face_plane[twin] = solid->face_plane[face];
        solid->cube_left--;
        return LW_CUT_REMOVED;
    }
    solid->face_label[twin] = label < other ? label : other;
    solid->face_label[face] = label < other ? other : label;
    solid->same_as[solid->face_label[face]] = solid->face_label[twin];
    return LW_CUT_COINCIDES;
}

/* A plane that removes nothing; the queue holds the plateau at its highest corner. */
static lw_status settle_outside(lw_solid *solid, lw_sweep *sweep, int face, lw_cut_effect *effect)
{
    if (solid->corners[solid->queue[0]].height < -solid->same_point) {
        *effect = LW_CUT_MISSED;
        return LW_OK;
    }
    int twin = face_that_plane_lies_on(solid, sweep);
    if (twin != LW_NONE) {
        *effect = share_face(solid, twin, face);
        return LW_OK;
    }
    int touching = 0;
    for (int i = 0; i < sweep->queued; i++) {
        touching += solid->corners[solid->queue[i]].height >= -solid->same_point;
    }
    if (touching > solid->touch_room - solid->touch_count) {
        return LW_TOO_LARGE;
    }
    for (int i = 0; i < sweep->queued; i++) {
        if (solid->corners[solid->queue[i]].height >= -solid->same_point) {
            lw_solid_add_touch(solid, solid->queue[i], face);
        }
    }
    *effect = LW_CUT_TOUCHED;
    return LW_OK;
}

/* Room for everything that the trim may come to remember. */
static bool has_touch_room(const lw_solid *solid, const lw_sweep *sweep)
{
    int needed = sweep->on + 2 * sweep->vanished;
    for (int i = 0; solid->touch_count > 0 && i < sweep->steps; i++) {
        int h = solid->crossing[i];
        int from = solid->corners[solid->edges[h].from].touch;
        int to = solid->corners[lw_edge_to(solid, h)].touch;
        for (; from != LW_NONE && to != LW_NONE; to = solid->touches[to].next) {
            needed++;
        }
    }
    return needed <= solid->touch_room - solid->touch_count;
}

/* A plane with something outside; top is its highest corner. */
static lw_status take_away(lw_solid *solid, lw_sweep *sweep, int top, int face,
                           lw_cut_effect *effect)
{
    sweep->queued = 0;
    bool simple = lw_solid_contour(solid, sweep, top);
    if (!simple) {
        solid->stamp++; /* all is unseen again */
        *sweep = (lw_sweep){.plane = sweep->plane};
        gather_outside(solid, sweep, top);
        simple = lw_solid_walk(solid, sweep);
    }
    if (!sweep->inside || (!simple && !lw_solid_resweep(solid, sweep))) {
        *effect = LW_CUT_EMPTIED;
        return LW_OK;
    }
    if (!has_touch_room(solid, sweep)) {
        return LW_TOO_LARGE;
    }
    lw_solid_trim(solid, sweep, face);
    *effect = LW_CUT_REMOVED;
    return LW_OK;
}

lw_status lw_solid_insert(lw_solid *solid, lw_plane plane, int label, lw_cut_effect *effect)
{
    int face = solid->face_count;
    solid->face_plane[face] = plane;
    solid->face_edge[face] = LW_NONE;
    solid->face_label[face] = label;
    solid->face_stamp[face] = solid->stamp;
    solid->same_as[label] = label;
    solid->stamp++;
    lw_sweep sweep = {.plane = plane};
    cell at = cell_of(plane.normal);
    double height = 0.0;
    int top = find_top(solid, &sweep, start_for(solid, at), &height);
    lw_status status = height > solid->same_point ? take_away(solid, &sweep, top, face, effect)
                                                  : settle_outside(solid, &sweep, face, effect);
    if (status == LW_OK) {
        solid->face_count++;
        if (solid->face_edge[face] != LW_NONE) {
            solid->fine_hint[at.fine] = solid->coarse_hint[at.coarse] = face;
        }
    }
    return status;
}
