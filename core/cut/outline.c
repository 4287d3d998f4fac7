#include "cut/outline.h"

#include "geom/tolerance.h"

#include <math.h>

typedef struct cloud {
    const lw_vec3 *points;
    const int *numbers;
    int count;
    double same; /* points closer than this are one */
} cloud;

static lw_vec3 at(const cloud *c, int i)
{
    return c->points[c->numbers != NULL ? c->numbers[i] : i];
}

static double plan_cross(lw_vec3 a, lw_vec3 b, lw_vec3 p)
{
    return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
}

static double plan_dot(lw_vec3 a, lw_vec3 b, lw_vec3 p)
{
    return (b.x - a.x) * (p.x - a.x) + (b.y - a.y) * (p.y - a.y);
}

static double squared(lw_vec3 a, lw_vec3 b)
{
    return plan_dot(a, b, b);
}

/* The next corner of the hull after a, counter-clockwise: the point that has all others on its
 * left (R. A. Jarvis, "On the identification of the convex hull of a finite set of points in the
 * plane", Information Processing Letters 2, 1973). Points that repeat a are passed over; -1 when
 * all do. */
static int next_corner(const cloud *c, int a)
{
    int next = -1;
    lw_vec3 from = at(c, a);
    for (int i = 0; i < c->count; i++) {
        double away = squared(from, at(c, i));
        if (away <= c->same * c->same) {
            continue;
        }
        double side = next < 0 ? -1.0 : plan_cross(from, at(c, next), at(c, i));
        if (side < 0.0 || (side == 0.0 && away > squared(from, at(c, next)))) {
            next = i;
        }
    }
    return next;
}

static int leftmost(const cloud *c)
{
    int best = 0;
    for (int i = 1; i < c->count; i++) {
        lw_vec3 p = at(c, i);
        lw_vec3 q = at(c, best);
        best = p.x < q.x || (p.x == q.x && p.y < q.y) ? i : best;
    }
    return best;
}

static double span(const cloud *c, lw_vec3 from)
{
    double largest = 0.0;
    for (int i = 0; i < c->count; i++) {
        largest = fmax(largest, squared(from, at(c, i)));
    }
    return sqrt(largest);
}

/* One jaw lies along the side a..b. */
static void measure_side(const cloud *c, int a, int b, lw_widths *widths)
{
    lw_vec3 from = at(c, a);
    lw_vec3 to = at(c, b);
    double length = sqrt(squared(from, to));
    double farthest = 0.0;
    double low = 0.0;
    double high = 0.0;
    for (int i = 0; i < c->count; i++) {
        lw_vec3 p = at(c, i);
        double aside = plan_cross(from, to, p);
        double along = plan_dot(from, to, p);
        double away = squared(from, p);
        farthest = aside > farthest ? aside : farthest;
        low = along < low ? along : low;
        high = along > high ? along : high;
        widths->greatest = away > widths->greatest ? away : widths->greatest;
    }
    double width = farthest / length;
    double across = (high - low) / length;
    bool as_narrow = width < widths->least + c->same;
    bool narrower = width < widths->least - c->same;
    if (narrower || (as_narrow && across > widths->across)) {
        widths->across = across;
    }
    widths->least = fmin(widths->least, width);
}

lw_widths lw_widths_of(const lw_vec3 *points, const int *numbers, int count)
{
    lw_widths widths = {.least = (double)INFINITY};
    cloud c = {points, numbers, count, 0.0};
    if (count == 0) {
        return (lw_widths){0};
    }
    int start = leftmost(&c);
    c.same = LW_SAME_POINT * span(&c, at(&c, start));
    int corner = start;
    for (int sides = 0; sides < count; sides++) {
        int next = next_corner(&c, corner);
        if (next < 0) {
            return (lw_widths){0};
        }
        measure_side(&c, corner, next, &widths);
        corner = next;
        if (squared(at(&c, next), at(&c, start)) <= c.same * c.same) {
            break;
        }
    }
    widths.greatest = sqrt(widths.greatest);
    return widths;
}

lw_widths lw_face_widths(const lw_polyhedron *polyhedron, int plane)
{
    int first = polyhedron->face_start[plane];
    return lw_widths_of(polyhedron->vertices, polyhedron->face_vertex + first,
                        polyhedron->face_start[plane + 1] - first);
}

void lw_plan_widths(const lw_vec3 *points, int count, double *least, double *greatest)
{
    lw_widths widths = lw_widths_of(points, NULL, count);
    *least = widths.least;
    *greatest = widths.greatest;
}
