/* The slow way through a cut that rounding has made inconsistent, which cannot fail. */
#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>

/* The heights, in LW_SAME_POINT, at which a split is tried: the plane itself, then further and
 * further from it. */
static const double levels[] = {0.0, 1.0, -1.0, 4.0, -4.0, 16.0, -16.0, 64.0, -64.0};

/* Gives the side to all corners that hang together with start through corners of side via. */
static void spread(lw_solid *solid, int start, lw_corner_side via, lw_corner_side side)
{
    int queued = 0;
    solid->queue[queued++] = start;
    lw_corner_set_side(solid, start, side);
    for (int i = 0; i < queued; i++) {
        int first = solid->corners[solid->queue[i]].edge, h = first;
        do {
            int to = lw_edge_to(solid, h);
            if (lw_corner_side_of(solid, to) == via) {
                lw_corner_set_side(solid, to, side);
                solid->queue[queued++] = to;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
}

/* Heights of all corners; the highest and the lowest. */
static void measure_all(lw_solid *solid, lw_plane plane, int *highest, int *lowest)
{
    *highest = *lowest = LW_NONE;
    for (int i = 0; i < solid->corner_used; i++) {
        lw_corner *c = &solid->corners[i];
        if (c->edge == LW_NONE) {
            continue;
        }
        c->height = lw_plane_height(plane, c->at);
        if (*highest == LW_NONE || c->height > solid->corners[*highest].height) {
            *highest = i;
        }
        if (*lowest == LW_NONE || c->height < solid->corners[*lowest].height) {
            *lowest = i;
        }
    }
}

/* How far a corner is on the wrong side of the plane. */
static double misplaced(const lw_solid *solid, int corner)
{
    double height = solid->corners[corner].height;
    return lw_corner_side_of(solid, corner) == LW_SIDE_OUT ? -height : height;
}

/* Splits the corners into two connected parts: what hangs together with the lowest through corners
 * below the level is kept, and of the rest what hangs together with the highest is removed. Gives
 * how far a corner is misplaced at most. */
static double split(lw_solid *solid, int highest, int lowest, double level)
{
    double worst = 0.0;
    for (int i = 0; i < solid->corner_used; i++) {
        bool above = solid->corners[i].height > level;
        lw_corner_set_side(solid, i, above ? LW_SIDE_OUT : LW_SIDE_IN);
    }
    spread(solid, lowest, LW_SIDE_IN, LW_SIDE_ON); /* ON stands for: surely kept */
    for (int i = 0; i < solid->corner_used; i++) {
        if (lw_corner_side_of(solid, i) == LW_SIDE_IN) {
            lw_corner_set_side(solid, i, LW_SIDE_OUT);
        }
    }
    spread(solid, highest, LW_SIDE_OUT, LW_SIDE_RING); /* RING stands for: surely removed */
    for (int i = 0; i < solid->corner_used; i++) {
        bool removed = lw_corner_side_of(solid, i) == LW_SIDE_RING;
        lw_corner_set_side(solid, i, removed ? LW_SIDE_OUT : LW_SIDE_IN);
        if (solid->corners[i].edge != LW_NONE) {
            worst = fmax(worst, misplaced(solid, i));
        }
    }
    return worst;
}

/* The split that misplaces least; the first that is within the tolerance will do. */
static void split_best(lw_solid *solid, int highest, int lowest)
{
    double best = HUGE_VAL, best_level = 0.0, level = 0.0;
    for (size_t i = 0; i < sizeof levels / sizeof levels[0] && best > solid->same_point; i++) {
        level = levels[i] * solid->same_point;
        if (level < solid->corners[highest].height && level > solid->corners[lowest].height) {
            double worst = split(solid, highest, lowest, level);
            best_level = worst < best ? level : best_level;
            best = fmin(best, worst);
        }
    }
    if (level != best_level) {
        split(solid, highest, lowest, best_level);
    }
}

/* Fills the sweep anew from the sides of all corners. */
static void gather_all(lw_solid *solid, lw_sweep *sweep)
{
    sweep->queued = sweep->outside = sweep->on = sweep->lost = sweep->crossed = sweep->vanished = 0;
    for (int i = 0; i < solid->corner_used; i++) {
        if (solid->corners[i].edge == LW_NONE || lw_corner_side_of(solid, i) != LW_SIDE_OUT) {
            continue;
        }
        solid->queue[sweep->queued++] = i;
        sweep->outside++;
        int first = solid->corners[i].edge, h = first;
        do {
            if (lw_corner_side_of(solid, lw_edge_to(solid, h)) != LW_SIDE_OUT) {
                sweep->crossed++;
                sweep->start = h;
            } else if ((h & 1) == 0) {
                solid->lost_edges[sweep->lost++] = h;
            }
            h = solid->edges[h ^ 1].next;
        } while (h != first);
    }
}

/* In a planar graph of which any three edges must be cut to part it, the edges between two
 * connected parts are a ring that passes each face at most once (a bond is a circuit of the dual),
 * so the walk cannot fail. Corners within rounding of the plane may end on the wrong side of it;
 * that is what rounding had made undecidable. */
bool lw_solid_resweep(lw_solid *solid, lw_sweep *sweep)
{
    int highest = LW_NONE, lowest = LW_NONE;
    solid->stamp += LW_SIDE_COUNT; /* what the failed walk has marked is unseen again */
    measure_all(solid, sweep->plane, &highest, &lowest);
    if (solid->corners[lowest].height >= -solid->same_point) {
        return false;
    }
    split_best(solid, highest, lowest);
    gather_all(solid, sweep);
    bool sound = lw_solid_walk(solid, sweep);
    assert(sound);
    return sound;
}
