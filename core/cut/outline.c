#include "cut/outline.h"

#include <math.h>

enum { MOST_CORNERS = 2 * LW_SOLID_MOST_PLANES };

static double plan_cross(lw_vec3 a, lw_vec3 b, lw_vec3 p)
{
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static double plan_distance(lw_vec3 a, lw_vec3 b)
{
    double dx = b.x - a.x;
    double dy = b.y - a.y;
    return sqrt(dx * dx + dy * dy);
}

/* The next corner of the hull after a, counter-clockwise: the point that has all others on its
 * left (R. A. Jarvis, "On the identification of the convex hull of a finite set of points in the
 * plane", Information Processing Letters 2, 1973). Points that repeat a are passed over. */
static int next_corner(const lw_vec3 *points, int count, int a)
{
    int next = -1;
    for (int i = 0; i < count; i++) {
        if (plan_distance(points[a], points[i]) == 0.0) {
            continue;
        }
        double side = next < 0 ? -1.0 : plan_cross(points[a], points[next], points[i]);
        bool farther = next >= 0 && side == 0.0 &&
                       plan_distance(points[a], points[i]) > plan_distance(points[a], points[next]);
        if (side < 0.0 || farther) {
            next = i;
        }
    }
    return next;
}

static int leftmost(const lw_vec3 *points, int count)
{
    int best = 0;
    for (int i = 1; i < count; i++) {
        bool lefter = points[i].x < points[best].x;
        bool lower = points[i].x == points[best].x && points[i].y < points[best].y;
        best = lefter || lower ? i : best;
    }
    return best;
}

/* The jaw lies along the side a..b: how far the farthest point is from it. */
static double width_from_side(const lw_vec3 *points, int count, int a, int b)
{
    double length = plan_distance(points[a], points[b]);
    double farthest = 0.0;
    for (int i = 0; i < count; i++) {
        farthest = fmax(farthest, plan_cross(points[a], points[b], points[i]) / length);
    }
    return farthest;
}

void lw_plan_widths(const lw_vec3 *points, int count, double *least, double *greatest)
{
    *least = 0.0;
    *greatest = 0.0;
    int start = count > 0 ? leftmost(points, count) : -1;
    int at = start;
    double narrowest = (double)INFINITY;
    for (int sides = 0; at >= 0 && sides < count; sides++) {
        int next = next_corner(points, count, at);
        if (next < 0) {
            return;
        }
        narrowest = fmin(narrowest, width_from_side(points, count, at, next));
        for (int i = 0; i < count; i++) {
            *greatest = fmax(*greatest, plan_distance(points[at], points[i]));
        }
        at = plan_distance(points[next], points[start]) == 0.0 ? -1 : next;
    }
    *least = narrowest < (double)INFINITY ? narrowest : 0.0;
}

static int face_points(const lw_polyhedron *polyhedron, int plane, lw_vec3 *points)
{
    int count = 0;
    for (int k = polyhedron->face_start[plane]; k < polyhedron->face_start[plane + 1]; k++) {
        if (count < MOST_CORNERS) {
            points[count++] = polyhedron->vertices[polyhedron->face_vertex[k]];
        }
    }
    return count;
}

double lw_face_least_width(const lw_polyhedron *polyhedron, int plane)
{
    lw_vec3 points[MOST_CORNERS];
    double least = 0.0;
    double greatest = 0.0;
    lw_plan_widths(points, face_points(polyhedron, plane, points), &least, &greatest);
    return least;
}

double lw_face_greatest_width(const lw_polyhedron *polyhedron, int plane)
{
    lw_vec3 points[MOST_CORNERS];
    double least = 0.0;
    double greatest = 0.0;
    lw_plan_widths(points, face_points(polyhedron, plane, points), &least, &greatest);
    return greatest;
}
