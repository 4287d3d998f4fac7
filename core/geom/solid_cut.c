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

/* On the plane means: wherever the plane would cut one of its edges is the same point. An edge that
 * all but lies in the plane may be cut far away, and then the corner must not stand for that place:
 * a corner out of its place along nearly parallel planes is far above other planes. */
static lw_corner_side close_side(const lw_solid *solid, lw_plane plane, int corner)
{
    lw_vec3 at = solid->corners[corner].at;
    double height = solid->corners[corner].height;
    int first = solid->corners[corner].edge, h = first;
    do {
        lw_vec3 along = lw_vec3_sub(solid->corners[lw_edge_to(solid, h)].at, at);
        double fall = -lw_vec3_dot(plane.normal, along);
        double share = height / fall;
        double most = solid->same_point * solid->same_point;
        if (share > 0.0 && share < 1.0 && share * share * lw_vec3_dot(along, along) > most) {
            return height > 0.0 ? LW_SIDE_OUT : LW_SIDE_IN;
        }
        h = solid->edges[h ^ 1].next;
    } while (h != first);
    return LW_SIDE_ON;
}

lw_corner_side lw_corner_see_close(lw_solid *solid, lw_sweep *sweep, int corner)
{
    double height = solid->corners[corner].height;
    lw_corner_side side = LW_SIDE_ON;
    if (fabs(height) > solid->rounding) {
        sweep->vague = true;
        side =
            fabs(height) > solid->same_point ? LW_SIDE_IN : close_side(solid, sweep->plane, corner);
    }
    sweep->inside |= height < -solid->same_point;
    sweep->on += side == LW_SIDE_ON;
    sweep->near += side == LW_SIDE_IN;
    solid->queue[sweep->queued++] = corner;
    lw_corner_set_side(solid, corner, side);
    return side;
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

/* Where the face twin touches a corner that the plane, which is to have its number, does not. */
static void drop_far_touches(lw_solid *solid, int twin, lw_plane plane)
{
    for (int i = 0; i < solid->corner_used && solid->touch_count > 0; i++) {
        if (solid->corners[i].edge != LW_NONE &&
            fabs(lw_plane_height(plane, solid->corners[i].at)) > solid->same_point) {
            lw_solid_drop_touch(solid, i, twin);
        }
    }
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
    if (label < other) {
        solid->face_label[twin] = label;
        solid->face_label[face] = other;
        drop_far_touches(solid, twin, solid->face_plane[face]);
    }
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
        solid->stamp += LW_SIDE_COUNT; /* all is unseen again */
        *sweep =
            (lw_sweep){.plane = sweep->plane, .hint = sweep->hint, .fine_hint = sweep->fine_hint};
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

lw_status lw_solid_insert(lw_solid *solid, const lw_plane *plane, int label, lw_cut_effect *effect)
{
    int face = solid->face_count;
    solid->face_plane[face] = *plane;
    solid->face_edge[face] = LW_NONE;
    solid->face_label[face] = label;
    solid->face_stamp[face] = solid->stamp;
    solid->same_as[label] = label;
    solid->stamp += LW_SIDE_COUNT;
    lw_sweep sweep = {.plane = *plane};
    double height = 0.0;
    int top = lw_solid_climb(solid, &sweep, &height);
    lw_status status = height > solid->same_point ? take_away(solid, &sweep, top, face, effect)
                                                  : settle_outside(solid, &sweep, face, effect);
    if (status == LW_OK) {
        solid->face_count++;
        if (solid->face_edge[face] != LW_NONE) {
            *sweep.hint = *sweep.fine_hint = face;
        }
    }
    return status;
}
