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

static lw_vec3 plan_from(lw_vec3 a, lw_vec3 b)
{
    return (lw_vec3){b.x - a.x, b.y - a.y, 0.0};
}

static double plan_cross(lw_vec3 a, lw_vec3 b)
{
    return a.x * b.y - a.y * b.x;
}

static double plan_dot(lw_vec3 a, lw_vec3 b)
{
    return a.x * b.x + a.y * b.y;
}

static double plan_length(lw_vec3 a)
{
    return sqrt(plan_dot(a, a));
}

/* Whether the direction to one point turns less than to another, so that the other lies to its
 * left; of two points on one line the farther one goes first. */
static bool turns_less(lw_vec3 to, lw_vec3 other, double same)
{
    double apart = plan_cross(other, to);
    double far = plan_dot(other, other);
    if (apart * apart > same * same * far) {
        return apart < 0.0;
    }
    return plan_dot(to, to) > far;
}

/* The next corner of the hull after a, counter-clockwise, when it was come to along a direction:
 * the point that has all others on its left (R. A. Jarvis, "On the identification of the convex
 * hull of a finite set of points in the plane", Information Processing Letters 2, 1973). Facets put
 * many points on one side; rounding must not tell them from corners, so points on one line, up to
 * what is one point, count as that, and those on the line that lies behind are passed over. -1 when
 * all points are in one place. */
static int next_corner(const cloud *c, int a, lw_vec3 along)
{
    int next = -1;
    lw_vec3 from = at(c, a);
    lw_vec3 to_next = {0.0, 0.0, 0.0};
    for (int i = 0; i < c->count; i++) {
        lw_vec3 to = plan_from(from, at(c, i));
        bool repeats = plan_dot(to, to) <= c->same * c->same;
        bool behind = plan_dot(along, to) < 0.0 && plan_cross(along, to) <= c->same;
        if (!repeats && !behind && (next < 0 || turns_less(to, to_next, c->same))) {
            next = i;
            to_next = to;
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
        largest = fmax(largest, plan_length(plan_from(from, at(c, i))));
    }
    return largest;
}

/* One jaw lies along a side of the hull, given by its start and its unit direction. */
static void measure_side(const cloud *c, lw_vec3 from, lw_vec3 along, lw_widths *widths)
{
    double width = 0.0;
    double low = 0.0;
    double high = 0.0;
    for (int i = 0; i < c->count; i++) {
        lw_vec3 to = plan_from(from, at(c, i));
        double aside = plan_cross(along, to);
        double t = plan_dot(along, to);
        double away = plan_dot(to, to);
        width = aside > width ? aside : width;
        low = t < low ? t : low;
        high = t > high ? t : high;
        widths->greatest = away > widths->greatest ? away : widths->greatest;
    }
    bool as_narrow = width < widths->least + c->same;
    bool narrower = width < widths->least - c->same;
    if (narrower || (as_narrow && high - low > widths->across)) {
        widths->across = high - low;
    }
    widths->least = fmin(widths->least, width);
}

/* From one corner to the next: its unit direction in along. At the end of an outline that is no
 * more than a line it turns back; -1 when all points are in one place. */
static int go_round(const cloud *c, int corner, lw_vec3 *along)
{
    int next = next_corner(c, corner, *along);
    if (next < 0) {
        next = next_corner(c, corner, (lw_vec3){-along->x, -along->y, 0.0});
    }
    if (next >= 0) {
        lw_vec3 side = plan_from(at(c, corner), at(c, next));
        double length = plan_length(side);
        *along = (lw_vec3){side.x / length, side.y / length, 0.0};
    }
    return next;
}

lw_widths lw_widths_of(const lw_vec3 *points, const int *numbers, int count)
{
    lw_widths widths = {.least = (double)INFINITY};
    lw_vec3 along = {0.0, -1.0, 0.0};
    cloud c = {points, numbers, count, 0.0};
    if (count == 0) {
        return (lw_widths){0};
    }
    /* The leftmost point may lie on a side; the end of that side, or of the next, is a corner. */
    int left = leftmost(&c);
    c.same = LW_SAME_POINT * span(&c, at(&c, left));
    int first = go_round(&c, left, &along);
    int corner = first;
    for (int sides = 0; corner >= 0 && sides < count; sides++) {
        lw_vec3 from = at(&c, corner);
        int next = go_round(&c, corner, &along);
        measure_side(&c, from, along, &widths);
        corner = plan_length(plan_from(at(&c, first), at(&c, next))) <= c.same ? -1 : next;
    }
    widths.greatest = sqrt(widths.greatest);
    return first < 0 ? (lw_widths){0} : widths;
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
