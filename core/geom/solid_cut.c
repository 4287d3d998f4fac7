/* Finding what a plane takes away.
 *
 * The corners outside the plane form one connected part of the graph of edges (a convex solid cut
 * by a plane). So: climb from the last place to the highest corner; if it is outside, gather all
 * that hang together with it; follow the border of that part. Topology decides, coordinates only
 * propose: the part that is removed is connected by construction, and the border is walked to the
 * end before anything is changed. Where rounding has made it anything but one simple ring, the
 * sweep is done again by a slower rule that cannot fail (lw_solid_resweep).
 *
 * The approach follows K. Sugihara and M. Iri, "Construction of the Voronoi diagram for 'one
 * million' generators in single-precision arithmetic", Proc. IEEE 80(9), 1992: keep the structure
 * consistent first. Ours besides: corners that lie on the plane, and any degree at a corner.
 */
#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <math.h>

/* Steepest ascent along the edges. */
static int climb(lw_solid *solid, lw_plane plane, int start)
{
    int best = start, at = LW_NONE;
    double height = lw_corner_height(solid, plane, start);
    while (best != at) {
        at = best;
        int first = solid->corners[at].edge, h = first;
        do {
            int to = lw_edge_to(solid, h);
            double other = lw_corner_height(solid, plane, to);
            if (other > height) {
                height = other;
                best = to;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
    return best;
}

/* Gathers in the queue all that hang together with top and are no more than depth below it. Gives
 * a corner higher than top, if there is one. */
static int gather_plateau(lw_solid *solid, lw_sweep *sweep, int top, double depth)
{
    int higher = top;
    double least = solid->corners[top].height - depth;
    sweep->queued = 0;
    solid->queue[sweep->queued++] = top;
    solid->corners[top].side = LW_SIDE_ON;
    for (int i = 0; i < sweep->queued; i++) {
        int first = solid->corners[solid->queue[i]].edge, h = first;
        do {
            int to = lw_edge_to(solid, h);
            double height = lw_corner_height(solid, sweep->plane, to);
            if (height >= least && solid->corners[to].side == LW_SIDE_UNSEEN) {
                solid->corners[to].side = LW_SIDE_ON;
                solid->queue[sweep->queued++] = to;
                if (height > solid->corners[higher].height) {
                    higher = to;
                }
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
    return higher;
}

/* The highest corner. Where a climb ends on a plateau that rounding could have made, all of the
 * plateau is looked at; the queue then holds it. */
static int find_top(lw_solid *solid, lw_sweep *sweep)
{
    int top = solid->last;
    for (;;) {
        top = climb(solid, sweep->plane, top);
        if (solid->corners[top].height > solid->same_point) {
            return top;
        }
        int higher = gather_plateau(solid, sweep, top, LW_PLATEAU * solid->same_point);
        if (higher == top) {
            return top;
        }
        for (int i = 0; i < sweep->queued; i++) {
            solid->corners[solid->queue[i]].side = LW_SIDE_UNSEEN;
        }
        top = higher;
    }
}

static lw_corner_side side_of(double height, double same_point)
{
    return height > same_point ? LW_SIDE_OUT : height >= -same_point ? LW_SIDE_ON : LW_SIDE_IN;
}

/* Notes a corner's side on first sight; those not plainly inside are queued. */
static lw_corner_side see(lw_solid *solid, lw_sweep *sweep, int corner)
{
    double height = lw_corner_height(solid, sweep->plane, corner);
    lw_corner *c = &solid->corners[corner];
    if (c->side == LW_SIDE_UNSEEN) {
        c->side = side_of(height, solid->same_point);
        if (height >= -LW_PLATEAU * solid->same_point) {
            solid->queue[sweep->queued++] = corner;
        }
        sweep->outside += c->side == LW_SIDE_OUT;
        sweep->on += c->side == LW_SIDE_ON;
        sweep->inside |= c->side == LW_SIDE_IN;
    }
    return c->side;
}

/* From top through all corners outside, on, or nearly on the plane. */
static void gather_outside(lw_solid *solid, lw_sweep *sweep, int top)
{
    see(solid, sweep, top);
    for (int i = 0; i < sweep->queued; i++) {
        int corner = solid->queue[i];
        bool outside = solid->corners[corner].side == LW_SIDE_OUT;
        int first = solid->corners[corner].edge, h = first;
        do {
            lw_corner_side side = see(solid, sweep, lw_edge_to(solid, h));
            if (outside && side != LW_SIDE_OUT) {
                sweep->crossed++;
                sweep->start = h;
            } else if (outside && (h & 1) == 0) {
                solid->lost_edges[sweep->lost++] = h;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
}

/* Whether a live face has all its corners within reach of the plane and the same direction. */
static bool lies_on(lw_solid *solid, const lw_sweep *sweep, int face)
{
    lw_vec3 turn = lw_vec3_sub(solid->face_plane[face].normal, sweep->plane.normal);
    if (lw_vec3_dot(turn, turn) > LW_SAME_DIRECTION * LW_SAME_DIRECTION) {
        return false;
    }
    int first = solid->face_edge[face], h = first;
    do {
        double height = lw_corner_height(solid, sweep->plane, solid->edges[h].from);
        if (fabs(height) > solid->same_point) {
            return false;
        }
        h = solid->edges[h].next;
    } while (h != first);
    return true;
}

static int face_that_plane_lies_on(lw_solid *solid, const lw_sweep *sweep)
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
    gather_outside(solid, sweep, top);
    if (!sweep->inside) {
        *effect = LW_CUT_EMPTIED;
        return LW_OK;
    }
    if (!lw_solid_walk(solid, sweep) && !lw_solid_resweep(solid, sweep)) {
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
    int top = find_top(solid, &sweep);
    lw_status status = solid->corners[top].height > solid->same_point
                           ? take_away(solid, &sweep, top, face, effect)
                           : settle_outside(solid, &sweep, face, effect);
    if (status == LW_OK) {
        solid->face_count++;
    }
    return status;
}
