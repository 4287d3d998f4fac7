/* Convex polygons on the eye's screen. */
#include "light/beam_parts.h"

#include "geom/tolerance.h"

bool lw_ring_grow(const lw_memory *memory, lw_ring *ring, size_t count)
{
    void *corners = ring->corners;
    bool got =
        lw_memory_reserve(memory, &corners, &ring->capacity, count, sizeof *ring->corners) == LW_OK;
    ring->corners = corners;
    return got;
}

static bool reaches_over(const lw_ring *ring, lw_slope line, double sliver)
{
    for (size_t i = 0; i < ring->count; i++) {
        if (lw_slope_at(line, ring->corners[i]) > sliver)
            return true;
    }
    return false;
}

/* I. E. Sutherland and G. W. Hodgman, Reentrant Polygon Clipping, Comm. ACM 17(1), 1974. */
bool lw_ring_clip(const lw_ring *from, lw_slope line, double sliver, lw_ring *to)
{
    if (!reaches_over(from, line, sliver))
        return false;
    to->count = 0;
    lw_spot2 last = from->corners[from->count - 1];
    double last_over = lw_slope_at(line, last);
    for (size_t i = 0; i < from->count; i++) {
        lw_spot2 here = from->corners[i];
        double over = lw_slope_at(line, here);
        if ((over > 0.0) != (last_over > 0.0)) {
            double t = last_over / (last_over - over);
            to->corners[to->count++] =
                (lw_spot2){last.a + t * (here.a - last.a), last.b + t * (here.b - last.b)};
        }
        if (over <= 0.0)
            to->corners[to->count++] = here;
        last = here;
        last_over = over;
    }
    return true;
}

static double cross(lw_spot2 from, lw_spot2 p, lw_spot2 q)
{
    return (p.a - from.a) * (q.b - from.b) - (p.b - from.b) * (q.a - from.a);
}

/* Seen from its first corner, so that a small polygon far from the middle loses nothing. */
double lw_ring_area(const lw_ring *ring)
{
    double twice = 0.0;
    for (size_t i = 2; i < ring->count; i++)
        twice += cross(ring->corners[0], ring->corners[i - 1], ring->corners[i]);
    return 0.5 * fabs(twice);
}

lw_spot2 lw_corners_mean(const lw_spot2 *corners, size_t count)
{
    lw_spot2 sum = {0.0, 0.0};
    for (size_t i = 0; i < count; i++) {
        sum.a += corners[i].a;
        sum.b += corners[i].b;
    }
    double share = 1.0 / (double)count;
    return (lw_spot2){sum.a * share, sum.b * share};
}

/* The area of a sliver is what rounding left of it, and what is divided by that lies anywhere: the
 * mean of its corners does, which is within. */
lw_spot2 lw_ring_middle(const lw_ring *ring, double area)
{
    lw_spot2 first = ring->corners[0];
    double a = 0.0, b = 0.0, sum = 0.0, reach = 0.0;
    for (size_t i = 2; i < ring->count; i++) {
        lw_spot2 p = ring->corners[i - 1], q = ring->corners[i];
        double twice = cross(first, p, q);
        double pa = p.a - first.a, pb = p.b - first.b, qa = q.a - first.a, qb = q.b - first.b;
        a += twice * (pa + qa);
        b += twice * (pb + qb);
        sum += twice;
        reach = fmax(reach, fmax(pa * pa + pb * pb, qa * qa + qb * qb));
    }
    if (area <= LW_TOO_THIN * reach || sum == 0.0)
        return lw_corners_mean(ring->corners, ring->count);
    return (lw_spot2){first.a + a / (3.0 * sum), first.b + b / (3.0 * sum)};
}

/* Over a triangle, with u the values at its corners less their mean: exp(-mean) times the sum of
 * (-1)^k 2 h_k(u) / (k + 2)!, h_k the complete symmetric polynomials (the moments of a linear
 * function over a simplex; h_k = -e2 h_{k-2} + e3 h_{k-3} because e1 = 0). A steep triangle is
 * quartered first, so that the sum's terms stay small. */
static double triangle_mean_exp(double f0, double f1, double f2)
{
    const double steep = 2.0;
    double mean = (f0 + f1 + f2) / 3.0;
    double u0 = f0 - mean, u1 = f1 - mean, u2 = f2 - mean;
    double most = fmax(fabs(u0), fmax(fabs(u1), fabs(u2)));
    if (most > steep && mean < 700.0) {
        double m01 = 0.5 * (f0 + f1), m12 = 0.5 * (f1 + f2), m20 = 0.5 * (f2 + f0);
        return 0.25 * (triangle_mean_exp(f0, m01, m20) + triangle_mean_exp(m01, f1, m12) +
                       triangle_mean_exp(m20, m12, f2) + triangle_mean_exp(m01, m12, m20));
    }
    double e2 = u0 * u1 + u1 * u2 + u2 * u0, e3 = u0 * u1 * u2;
    double h[3] = {0.0, 0.0, 1.0}; /* h_{k-3}, h_{k-2}, h_{k-1} for k = 1; h_0 = 1 */
    double sum = 1.0, factor = 1.0;
    enum { TERMS = 24 }; /* 2^24 / 24! < 3e-17 */
    for (int k = 1; k <= TERMS; k++) {
        double next = -e2 * h[1] + e3 * h[0];
        factor *= -1.0 / (k + 2);
        sum += factor * next;
        h[0] = h[1];
        h[1] = h[2];
        h[2] = next;
    }
    return exp(-mean) * sum;
}

double lw_ring_mean_exp(const lw_ring *ring, lw_slope f)
{
    lw_spot2 first = ring->corners[0];
    double sum = 0.0, whole = 0.0;
    for (size_t i = 2; i < ring->count; i++) {
        lw_spot2 p = ring->corners[i - 1], q = ring->corners[i];
        double area = fabs(cross(first, p, q));
        sum +=
            area * triangle_mean_exp(lw_slope_at(f, first), lw_slope_at(f, p), lw_slope_at(f, q));
        whole += area;
    }
    return whole > 0.0 ? sum / whole : exp(-lw_slope_at(f, first));
}
