/* The border of what a plane takes away, followed before anything is changed. */
#include "geom/solid_parts.h"

/* What becomes of the face that a step of the border passes through. */
typedef enum leftover {
    KEEPS_AREA,
    KEEPS_EDGE, /* only an edge between two corners on the plane */
    KEEPS_POINT /* only a corner on the plane */
} leftover;

/* Step i passes from crossing[i] to the next one, through the face on the far side of the first. */
static leftover leftover_of(const lw_solid *solid, int enter, int leave)
{
    int a = lw_edge_to(solid, enter), b = lw_edge_to(solid, leave);
    if (lw_corner_side_of(solid, a) == LW_SIDE_IN || lw_corner_side_of(solid, b) == LW_SIDE_IN) {
        return KEEPS_AREA;
    }
    if (a == b) {
        return KEEPS_POINT;
    }
    return lw_edge_to(solid, solid->edges[leave].next) == a ? KEEPS_EDGE : KEEPS_AREA;
}

/* Round the outside part, face by face along the removed side; counts must match in the end. */
static bool follow(lw_solid *solid, lw_sweep *sweep)
{
    int h = sweep->start;
    sweep->steps = 0;
    do {
        int face = solid->edges[h ^ 1].face;
        if (solid->face_stamp[face] == solid->stamp || sweep->steps == sweep->crossed) {
            return false;
        }
        solid->face_stamp[face] = solid->stamp;
        solid->crossing[sweep->steps++] = h;
        h = solid->edges[h ^ 1].next;
        while (lw_corner_side_of(solid, lw_edge_to(solid, h)) == LW_SIDE_OUT) {
            h = solid->edges[h].next;
        }
    } while (h != sweep->start);
    solid->crossing[sweep->steps] = h;
    return sweep->steps == sweep->crossed;
}

/* Each corner on the plane is passed once, and no face meets the new one along two edges. */
static bool is_simple(lw_solid *solid, lw_sweep *sweep)
{
    int sides = 0;
    sweep->vanished = 0;
    for (int i = 0; i < sweep->steps; i++) {
        int enter = solid->crossing[i], leave = solid->crossing[i + 1];
        leftover kept = leftover_of(solid, enter, leave);
        sweep->vanished += kept != KEEPS_AREA;
        if (kept == KEEPS_POINT) {
            continue;
        }
        sides++;
        int a = lw_edge_to(solid, enter);
        if (lw_corner_side_of(solid, a) == LW_SIDE_RING) {
            return false;
        }
        if (lw_corner_side_of(solid, a) == LW_SIDE_ON) {
            lw_corner_set_side(solid, a, LW_SIDE_RING);
        }
        if (kept == KEEPS_EDGE) {
            int beyond = solid->edges[solid->edges[leave].next ^ 1].face;
            if (solid->face_stamp[beyond] == solid->stamp) {
                return false;
            }
            solid->face_stamp[beyond] = solid->stamp;
        }
    }
    return sides >= 3;
}

/* From an outside corner's half-edge to the next one round the outside: along the face when it
 * leads to another outside corner, else round the corner. Starting anywhere this comes back, as it
 * is one to one. A tree, and only a tree, has each of its edges passed once in each direction. */
static bool go_round(lw_solid *solid, lw_sweep *sweep, int top)
{
    const lw_half_edge *edges = solid->edges;
    int start = solid->corners[top].edge, h = start, passed = 0, steps = 0;
    do {
        if (lw_corner_see(solid, sweep, edges[h ^ 1].from) == LW_SIDE_OUT) {
            solid->lost_edges[sweep->lost] = h;
            sweep->lost += (h & 1) == 0;
            passed++;
            h = edges[h].next;
            continue;
        }
        int face = edges[h ^ 1].face;
        if (solid->face_stamp[face] == solid->stamp) {
            return false;
        }
        solid->face_stamp[face] = solid->stamp;
        solid->crossing[steps++] = h;
        h = edges[h ^ 1].next;
    } while (h != start);
    sweep->steps = sweep->crossed = steps;
    solid->crossing[steps] = solid->crossing[0];
    return passed == 2 * (sweep->queued - sweep->on - sweep->near - 1);
}

/* Sees all around the corners that are queued but not outside. False when something outside, which
 * the round has not passed, comes to sight. */
static bool nothing_beyond(lw_solid *solid, lw_sweep *sweep)
{
    const lw_half_edge *edges = solid->edges;
    for (int i = 0; i < sweep->queued; i++) {
        int first = solid->corners[solid->queue[i]].edge, h = first;
        if (lw_corner_side_of(solid, solid->queue[i]) == LW_SIDE_OUT) {
            continue;
        }
        do {
            lw_corner_see(solid, sweep, edges[h ^ 1].from);
            h = edges[h ^ 1].next;
        } while (h != first);
    }
    return sweep->outside == sweep->queued - sweep->on - sweep->near;
}

/* Corners on the plane but for rounding have nothing outside beyond them: the solid is convex. */
bool lw_solid_contour(lw_solid *solid, lw_sweep *sweep, int top)
{
    lw_corner_see(solid, sweep, top);
    if (!go_round(solid, sweep, top)) {
        return false;
    }
    sweep->outside = sweep->queued - sweep->on - sweep->near;
    if ((sweep->vague || !sweep->inside) && !nothing_beyond(solid, sweep)) {
        return false;
    }
    return sweep->steps >= 3 && (sweep->on == 0 || is_simple(solid, sweep));
}

bool lw_solid_walk(lw_solid *solid, lw_sweep *sweep)
{
    return sweep->crossed >= 3 && follow(solid, sweep) &&
           (sweep->on == 0 || is_simple(solid, sweep));
}
