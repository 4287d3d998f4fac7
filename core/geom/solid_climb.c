/* Finding the corner that stands highest above a plane. */
#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

int lw_fine_cell(const lw_vec3 *direction)
{
    lw_vec3 v = *direction;
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
    return (side * LW_FINE_ROW + row) * LW_FINE_ROW + column;
}

static int coarse_cell(const lw_vec3 *v)
{
    double x = fabs(v->x), y = fabs(v->y), z = fabs(v->z);
    return (v->x < 0.0) | (v->y < 0.0) << 1 | (v->z < 0.0) << 2 | (x < y) << 3 | (y < z) << 4 |
           (z < x) << 5;
}

/* A corner of a face with a similar direction, else one near the last change. */
static int start_for(lw_solid *solid, lw_sweep *sweep)
{
    const lw_vec3 *normal = &sweep->plane.normal;
    sweep->hint = sweep->fine_hint = &solid->coarse_hint[coarse_cell(normal)];
    if (solid->face_count == LW_MANY_FACES) {
        memset(solid->fine_hint, 0xFF, sizeof solid->fine_hint); /* LW_NONE */
    }
    if (solid->face_count >= LW_MANY_FACES) {
        sweep->fine_hint = &solid->fine_hint[lw_fine_cell(normal)];
    }
    int face = *sweep->fine_hint;
    if (face == LW_NONE || solid->face_edge[face] == LW_NONE) {
        face = *sweep->hint;
    }
    if (face == LW_NONE || solid->face_edge[face] == LW_NONE) {
        return solid->last;
    }
    return solid->edges[solid->face_edge[face]].from;
}

/* Steepest ascent along the edges. Doubtful when a corner around the summit is ill set: edges
 * between such corners can point anywhere. */
static int climb(const lw_solid *solid, const lw_plane *cut, int start, double *height,
                 bool *doubtful)
{
    const lw_half_edge *edges = solid->edges;
    const lw_corner *corners = solid->corners;
    lw_plane plane = *cut;
    int best = start, at = LW_NONE;
    *height = lw_plane_height(plane, corners[start].at);
    if (*height > solid->near_depth) {
        return best;
    }
    while (best != at) {
        at = best;
        int first = corners[at].edge, h = first, ill = corners[at].ill_set;
        do {
            int to = edges[h ^ 1].from;
            double other = lw_plane_height(plane, corners[to].at);
            if (other > solid->near_depth) {
                *height = other;
                return to;
            }
            if (other > *height) {
                *height = other;
                best = to;
            }
            ill |= corners[to].ill_set;
            h = edges[h ^ 1].next;
        } while (h != first);
        *doubtful = ill != 0;
    }
    return best;
}

/* Whether the direction is a sum of three normals, none taken less than no times nor all together
 * more than LW_STEEPEST times: then no corner can be higher than the three planes' meet by more
 * than as many times what corners stray from their planes. */
static bool is_sum_of(const lw_plane *planes[3], lw_vec3 direction, double slack)
{
    lw_vec3 a = planes[0]->normal, b = planes[1]->normal, c = planes[2]->normal;
    lw_vec3 bc = lw_vec3_cross(b, c), ca = lw_vec3_cross(c, a), ab = lw_vec3_cross(a, b);
    double det = lw_vec3_dot(a, bc);
    double x = lw_vec3_dot(direction, bc) / det, y = lw_vec3_dot(direction, ca) / det;
    double z = lw_vec3_dot(direction, ab) / det;
    if (!(x >= 0.0 && y >= 0.0 && z >= 0.0 && x + y + z <= LW_STEEPEST)) {
        return false;
    }
    lw_vec3 sum = lw_vec3_add(lw_vec3_scale(a, x), lw_vec3_scale(b, y));
    lw_vec3 rest = lw_vec3_sub(direction, lw_vec3_add(sum, lw_vec3_scale(c, z)));
    return lw_vec3_dot(rest, rest) <= slack * slack;
}

/* Whether the planes at a corner, not the edges, prove that nothing is higher. */
static bool is_summit(const lw_solid *solid, lw_plane plane, int corner)
{
    int start = solid->corners[corner].edge, second = solid->edges[start ^ 1].next;
    const lw_plane *planes[3] = {&solid->face_plane[solid->edges[start].face]};
    for (int h = second;; h = second) {
        second = solid->edges[h ^ 1].next;
        if (second == start) {
            return false;
        }
        planes[1] = &solid->face_plane[solid->edges[h].face];
        planes[2] = &solid->face_plane[solid->edges[second].face];
        if (is_sum_of(planes, plane.normal, LW_SAME_POINT)) {
            return true;
        }
    }
}

static int highest_of_all(const lw_solid *solid, lw_plane plane, double *height)
{
    int best = LW_NONE;
    for (int i = 0; i < solid->corner_used; i++) {
        double other = lw_plane_height(plane, solid->corners[i].at);
        if (solid->corners[i].edge != LW_NONE && (best == LW_NONE || other > *height)) {
            *height = other;
            best = i;
        }
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

/* A corner well outside will do, wherever it is. Where a climb ends on a plateau that rounding
 * could have made, all of the plateau is looked at first; when the top is not outside, the queue
 * then holds it. */
int lw_solid_climb(lw_solid *solid, lw_sweep *sweep, double *height)
{
    int start = start_for(solid, sweep);
    for (;;) {
        bool doubtful = false;
        int top = climb(solid, &sweep->plane, start, height, &doubtful);
        if (doubtful && !is_summit(solid, sweep->plane, top)) {
            top = highest_of_all(solid, sweep->plane, height);
        }
        if (*height > solid->near_depth) {
            return top;
        }
        start = gather_plateau(solid, sweep, top, *height, solid->near_depth);
        bool found = start == top;
        if (found && *height <= solid->same_point) {
            return top;
        }
        solid->stamp += LW_SIDE_COUNT; /* what was gathered is unseen again */
        if (found) {
            return top;
        }
    }
}
