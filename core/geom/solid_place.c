/* Where a new corner stands. */
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

/* Where three planes meet, from a point close by: each step leaves 1e-16 / |det| of the error. */
static lw_vec3 meet_refined(const lw_plane planes[3], lw_vec3 point, double det)
{
    lw_vec3 a = lw_vec3_cross(planes[1].normal, planes[2].normal);
    lw_vec3 b = lw_vec3_cross(planes[2].normal, planes[0].normal);
    lw_vec3 c = lw_vec3_cross(planes[0].normal, planes[1].normal);
    for (int i = 0; i < 3; i++) {
        lw_vec3 step = lw_vec3_scale(a, exact_height(planes[0], point));
        step = lw_vec3_add(step, lw_vec3_scale(b, exact_height(planes[1], point)));
        step = lw_vec3_add(step, lw_vec3_scale(c, exact_height(planes[2], point)));
        point = lw_vec3_sub(point, lw_vec3_scale(step, 1.0 / det));
    }
    return point;
}

/* Nearly parallel planes magnify the rounding of the ends. The exact meet takes over only when it
 * is no further from the edge than that explains: the ends may be corners that lie on a plane
 * merely within the tolerance, and then the edge is the better witness. */
static lw_vec3 refine(const lw_solid *solid, lw_plane plane, int half_edge, lw_vec3 start,
                      double det)
{
    double reach = LW_ROUNDING * solid->half_extent / fabs(det);
    if (!(reach < LW_REFINE_REACH * solid->half_extent)) {
        return start;
    }
    const lw_plane planes[3] = {solid->face_plane[solid->edges[half_edge].face],
                                solid->face_plane[solid->edges[half_edge ^ 1].face], plane};
    lw_vec3 point = meet_refined(planes, start, det);
    lw_vec3 step = lw_vec3_sub(point, start);
    return lw_vec3_dot(step, step) <= reach * reach ? point : start;
}

lw_vec3 lw_solid_place(const lw_solid *solid, lw_plane plane, int half_edge)
{
    const lw_half_edge *h = &solid->edges[half_edge], *back = &solid->edges[half_edge ^ 1];
    const lw_corner *out = &solid->corners[h->from], *in = &solid->corners[back->from];
    double share = out->height / (out->height - in->height);
    if (!(in->height < 0.0) || !(out->height > 0.0)) {
        share = in->height < 0.0 ? 0.0 : 1.0;
    }
    lw_vec3 point = {out->at.x + share * (in->at.x - out->at.x),
                     out->at.y + share * (in->at.y - out->at.y),
                     out->at.z + share * (in->at.z - out->at.z)};
    lw_vec3 along =
        lw_vec3_cross(solid->face_plane[h->face].normal, solid->face_plane[back->face].normal);
    double det = lw_vec3_dot(along, plane.normal);
    return fabs(det) < LW_ILL_SET ? refine(solid, plane, half_edge, point, det) : point;
}
