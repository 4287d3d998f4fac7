#include "geom/mass.h"

#include <assert.h>
#include <string.h>

/* Twice the area vector of the triangle a, b, c, through its two shorter sides: two long ones that
 * all but run alike would lose a needle's width to the rounding of their length squared. */
static lw_vec3 triangle(lw_vec3 a, lw_vec3 b, lw_vec3 c)
{
    lw_vec3 ab = lw_vec3_sub(b, a), bc = lw_vec3_sub(c, b), ca = lw_vec3_sub(a, c);
    double to_b = lw_vec3_dot(ab, ab), to_c = lw_vec3_dot(bc, bc), to_a = lw_vec3_dot(ca, ca);
    if (to_a >= to_b && to_a >= to_c) {
        return lw_vec3_cross(ab, bc);
    }
    return to_b >= to_c ? lw_vec3_cross(bc, ca) : lw_vec3_cross(ca, ab);
}

double lw_polyhedron_face_area(const lw_polyhedron *polyhedron, int plane)
{
    assert(plane >= 0 && plane < polyhedron->plane_count);
    int start = polyhedron->face_start[plane], end = polyhedron->face_start[plane + 1];
    lw_vec3 sum = {0.0, 0.0, 0.0};
    for (int i = start + 1; i + 1 < end; i++) {
        sum = lw_vec3_add(sum, triangle(polyhedron->vertices[polyhedron->face_vertex[start]],
                                        polyhedron->vertices[polyhedron->face_vertex[i]],
                                        polyhedron->vertices[polyhedron->face_vertex[i + 1]]));
    }
    return 0.5 * lw_vec3_length(sum);
}

/* Moments about the middle point: six times the volume, 24 times the first, 120 times the second
 * (xx, yy, zz, xy, yz, zx). */
typedef struct moments {
    double volume;
    lw_vec3 first;
    double second[6];
} moments;

static void products(lw_vec3 a, double out[6])
{
    out[0] += a.x * a.x;
    out[1] += a.y * a.y;
    out[2] += a.z * a.z;
    out[3] += a.x * a.y;
    out[4] += a.y * a.z;
    out[5] += a.z * a.x;
}

/* The tetrahedron of the middle point and a triangle of the surface. The second moments of a
 * tetrahedron 0, a, b, c are V/20 (aa + bb + cc + ss) with s = a + b + c. The volume goes through
 * the triangle's own sides: a (b x c) would lose a needle's volume to the rounding of its length
 * cubed. */
static void add_tetrahedron(moments *m, lw_vec3 a, lw_vec3 b, lw_vec3 c)
{
    double volume = lw_vec3_dot(a, triangle(a, b, c));
    lw_vec3 sum = lw_vec3_add(a, lw_vec3_add(b, c));
    double second[6] = {0};
    products(a, second);
    products(b, second);
    products(c, second);
    products(sum, second);
    m->volume += volume;
    m->first = lw_vec3_add(m->first, lw_vec3_scale(sum, volume));
    for (int i = 0; i < 6; i++) {
        m->second[i] += volume * second[i];
    }
}

static lw_vec3 middle_of(const lw_polyhedron *p)
{
    lw_vec3 sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < p->vertex_count; i++) {
        sum = lw_vec3_add(sum, p->vertices[i]);
    }
    return lw_vec3_scale(sum, 1.0 / p->vertex_count);
}

static moments moments_about(const lw_polyhedron *p, lw_vec3 middle, double *area)
{
    moments m = {.volume = 0.0};
    *area = 0.0;
    for (int face = 0; face < p->plane_count; face++) {
        int start = p->face_start[face], end = p->face_start[face + 1];
        for (int i = start + 1; i + 1 < end; i++) {
            assert(p->face_across[i] < p->plane_count);
            add_tetrahedron(&m, lw_vec3_sub(p->vertices[p->face_vertex[start]], middle),
                            lw_vec3_sub(p->vertices[p->face_vertex[i]], middle),
                            lw_vec3_sub(p->vertices[p->face_vertex[i + 1]], middle));
        }
        *area += lw_polyhedron_face_area(p, face);
    }
    return m;
}

/* From second moments about the middle to the inertia about the centroid (Steiner). */
static void fill_inertia(const moments *m, double volume, lw_vec3 shift, double inertia[3][3])
{
    double about[6] = {0};
    products(shift, about);
    for (int i = 0; i < 6; i++) {
        about[i] = m->second[i] / 120.0 - volume * about[i];
    }
    inertia[0][0] = about[1] + about[2];
    inertia[1][1] = about[2] + about[0];
    inertia[2][2] = about[0] + about[1];
    inertia[0][1] = inertia[1][0] = -about[3];
    inertia[1][2] = inertia[2][1] = -about[4];
    inertia[2][0] = inertia[0][2] = -about[5];
}

void lw_polyhedron_mass(const lw_polyhedron *polyhedron, lw_mass *out)
{
    assert(polyhedron->vertex_count >= 4);
    lw_vec3 middle = middle_of(polyhedron);
    moments m = moments_about(polyhedron, middle, &out->area);
    out->volume = m.volume / 6.0;
    lw_vec3 shift = lw_vec3_scale(m.first, 1.0 / (4.0 * m.volume));
    out->centroid = lw_vec3_add(middle, shift);
    fill_inertia(&m, out->volume, shift, out->inertia);
}

double lw_polyhedron_support(const lw_polyhedron *polyhedron, lw_vec3 direction, int *at)
{
    assert(polyhedron->vertex_count > 0);
    int best = 0;
    double height = lw_vec3_dot(direction, polyhedron->vertices[0]);
    for (int i = 1; i < polyhedron->vertex_count; i++) {
        double other = lw_vec3_dot(direction, polyhedron->vertices[i]);
        if (other > height) {
            height = other;
            best = i;
        }
    }
    if (at != NULL) {
        *at = best;
    }
    return height;
}
