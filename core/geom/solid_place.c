/* Where a new corner stands when its planes are ill set. */
#include "geom/solid_parts.h"
#include "geom/tolerance.h"

#include <math.h>

/* a b = result + what is returned, exactly (T. J. Dekker, Numerische Mathematik 18, 1971). */
static double product_rest(double a, double b, double product)
{
    double ta = 134217729.0 * a, tb = 134217729.0 * b;
    double ah = ta - (ta - a), al = a - ah, bh = tb - (tb - b), bl = b - bh;
    return ((ah * bh - product) + ah * bl + al * bh) + al * bl;
}

/* normal . p - distance in about twice the usual precision, rounded once. */
static double exact_height(lw_plane plane, lw_vec3 p)
{
    const double terms[4][2] = {{plane.normal.x, p.x},
                                {plane.normal.y, p.y},
                                {plane.normal.z, p.z},
                                {-1.0, plane.distance}};
    double sum = 0.0, rest = 0.0;
    for (int i = 0; i < 4; i++) {
        double product = terms[i][0] * terms[i][1];
        double total = sum + product, shadow = total - sum;
        rest += (sum - (total - shadow)) + (product - shadow);
        rest += product_rest(terms[i][0], terms[i][1], product);
        sum = total;
    }
    return sum + rest;
}

/* Where three planes meet, from a point close by: each step leaves 1e-16 / |det| of the error. The
 * heights are exact, so that what is left in the end is the rounding of the point itself. */
static lw_vec3 meet_refined(const lw_plane planes[3], lw_vec3 point, double det)
{
    lw_vec3 a = lw_vec3_cross(planes[1].normal, planes[2].normal);
    lw_vec3 b = lw_vec3_cross(planes[2].normal, planes[0].normal);
    lw_vec3 c = lw_vec3_cross(planes[0].normal, planes[1].normal);
    for (int i = 0; i < 4; i++) {
        lw_vec3 step = lw_vec3_scale(a, exact_height(planes[0], point));
        step = lw_vec3_add(step, lw_vec3_scale(b, exact_height(planes[1], point)));
        step = lw_vec3_add(step, lw_vec3_scale(c, exact_height(planes[2], point)));
        point = lw_vec3_sub(point, lw_vec3_scale(step, 1.0 / det));
    }
    return point;
}

/* The edge's ends are as good as double precision can hold them, and so is what lies across the
 * edge; but an edge that all but lies in the plane leaves open where along it the two meet. That
 * place, and it alone, is taken from the exact meet of the three planes: so that a corner never
 * leaves its edge, and what is below a plane stays below it. Where the meet is not on the edge, the
 * ends are corners that lie on their planes merely within the tolerance, and the edge knows better.
 */
double lw_solid_refined_share(const lw_solid *solid, const lw_plane *plane, int half_edge,
                              double share, double det)
{
    const lw_half_edge *h = &solid->edges[half_edge], *back = &solid->edges[half_edge ^ 1];
    const lw_plane planes[3] = {solid->face_plane[h->face], solid->face_plane[back->face], *plane};
    lw_vec3 out = solid->corners[h->from].at;
    lw_vec3 along = lw_vec3_sub(solid->corners[back->from].at, out);
    lw_vec3 start = lw_vec3_add(out, lw_vec3_scale(along, share));
    lw_vec3 reach = lw_vec3_sub(meet_refined(planes, start, det), out);
    double refined = lw_vec3_dot(reach, along) / lw_vec3_dot(along, along);
    lw_vec3 aside = lw_vec3_sub(reach, lw_vec3_scale(along, refined));
    double most = solid->rounding * solid->rounding;
    bool on_edge = refined >= 0.0 && refined <= 1.0 && lw_vec3_dot(aside, aside) <= most;
    return on_edge ? refined : share;
}

/* The planes around a corner, those that only touch there left out: at most so many are looked at.
 */
enum { MOST_AROUND = 64 };

static int planes_around(const lw_solid *solid, int corner, lw_plane planes[MOST_AROUND])
{
    int first = solid->corners[corner].edge, h = first, count = 0;
    do {
        planes[count++] = solid->face_plane[solid->edges[h].face];
        h = solid->edges[h ^ 1].next;
    } while (h != first && count < MOST_AROUND);
    return h == first ? count : 0;
}

/* The two of the planes that stand best to the newest; the volume that the three normals span. */
static double best_two(const lw_plane *planes, int count, lw_plane newest, lw_plane three[3])
{
    double best = 0.0;
    for (int i = 0; i < count; i++) {
        lw_vec3 line = lw_vec3_cross(newest.normal, planes[i].normal);
        for (int j = 0; j < i; j++) {
            double det = lw_vec3_dot(planes[j].normal, line);
            if (fabs(det) > fabs(best)) {
                best = det;
                three[0] = planes[j];
                three[1] = newest;
                three[2] = planes[i];
            }
        }
    }
    return best;
}

/* Whether a place is on all planes, as far as rounding tells. */
static bool on_all(const lw_plane *planes, int count, lw_vec3 at, double rounding)
{
    for (int i = 0; i < count; i++) {
        if (fabs(lw_plane_height(planes[i], at)) > rounding) {
            return false;
        }
    }
    return true;
}

void lw_solid_settle_corner(lw_solid *solid, int corner, lw_plane newest)
{
    lw_corner *c = &solid->corners[corner];
    lw_plane planes[MOST_AROUND], three[3];
    int count = planes_around(solid, corner, planes);
    double det = best_two(planes, count, newest, three);
    if (fabs(det) <= LW_TOO_ILL_SET) {
        return;
    }
    lw_vec3 at = meet_refined(three, c->at, det);
    lw_vec3 move = lw_vec3_sub(at, c->at);
    double most = LW_SETTLES * solid->same_point;
    if (lw_vec3_dot(move, move) < most * most && on_all(planes, count, at, solid->rounding) &&
        on_all(&newest, 1, at, solid->rounding)) {
        c->at = at;
        c->ill_set = fabs(det) < LW_ILL_SET;
    }
}
