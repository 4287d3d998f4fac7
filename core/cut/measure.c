/* The measures of a finished stone. */
#include "cut/stone.h"

#include "cut/outline.h"
#include "geom/tolerance.h"

#include <math.h>

static bool has_face(const lw_polyhedron *solid, int plane)
{
    return solid->face_start[plane + 1] > solid->face_start[plane];
}

static void count_facets(const lw_facet *facets, const lw_polyhedron *solid, lw_measures *out)
{
    double least = LW_NO_AREA * out->width * out->width;
    for (int i = 0; i < solid->plane_count; i++) {
        if (!has_face(solid, i) || lw_polyhedron_face_area(solid, i) < least) {
            continue;
        }
        if (facets[i].side == LW_SIDE_GIRDLE) {
            out->girdle_facet_count++;
        } else {
            out->facet_count++;
        }
    }
}

/* The band of the girdle at one place of the outline. */
typedef struct band {
    double low, high;
} band;

/* The extent along the axis of a vertical face at the place of one of its corners. */
static band band_at(const lw_polyhedron *solid, int plane, lw_vec3 corner)
{
    lw_vec3 n = solid->planes[plane].normal;
    double t = -n.y * corner.x + n.x * corner.y;
    band b = {INFINITY, -INFINITY};
    int first = solid->face_start[plane];
    int end = solid->face_start[plane + 1];
    for (int k = first; k < end; k++) {
        lw_vec3 p = solid->vertices[solid->face_vertex[k]];
        lw_vec3 q = solid->vertices[solid->face_vertex[k + 1 < end ? k + 1 : first]];
        double tp = -n.y * p.x + n.x * p.y - t;
        double tq = -n.y * q.x + n.x * q.y - t;
        if (fabs(tp) < LW_MEET_HOLDS) {
            b.low = fmin(b.low, p.z);
            b.high = fmax(b.high, p.z);
        }
        if (tp * tq < 0.0) {
            double z = p.z + (q.z - p.z) * tp / (tp - tq);
            b.low = fmin(b.low, z);
            b.high = fmax(b.high, z);
        }
    }
    return b;
}

/* Thickest and thinnest place of the girdle, at the corners of its faces; false without one. */
static bool girdle_bands(const lw_facet *facets, const lw_polyhedron *solid, band *thick,
                         band *thin)
{
    bool found = false;
    for (int i = 0; i < solid->plane_count; i++) {
        if (facets[i].side != LW_SIDE_GIRDLE) {
            continue;
        }
        for (int k = solid->face_start[i]; k < solid->face_start[i + 1]; k++) {
            band b = band_at(solid, i, solid->vertices[solid->face_vertex[k]]);
            double height = b.high - b.low;
            *thick = found && thick->high - thick->low >= height ? *thick : b;
            *thin = found && thin->high - thin->low <= height ? *thin : b;
            found = true;
        }
    }
    return found;
}

/* Whether some plane through a vertex belongs to the pavilion, and some to the crown. */
static bool on_both_sides(const lw_polyhedron *solid, int vertex)
{
    bool crown = false;
    bool pavilion = false;
    for (int k = solid->vertex_start[vertex]; k < solid->vertex_start[vertex + 1]; k++) {
        double nz = solid->planes[solid->vertex_plane[k]].normal.z;
        crown = crown || nz > 0.0;
        pavilion = pavilion || nz < 0.0;
    }
    return crown && pavilion;
}

double lw_stone_edge_level(const lw_polyhedron *solid)
{
    double highest = -INFINITY;
    double lowest = INFINITY;
    for (int v = 0; v < solid->vertex_count; v++) {
        if (on_both_sides(solid, v)) {
            highest = fmax(highest, solid->vertices[v].z);
            lowest = fmin(lowest, solid->vertices[v].z);
        }
    }
    return highest >= lowest ? 0.5 * (highest + lowest) : 0.0;
}

static void heights(const lw_facet *facets, const lw_polyhedron *solid, lw_measures *out)
{
    band thick = {0.0, 0.0};
    band thin = {0.0, 0.0};
    if (!girdle_bands(facets, solid, &thick, &thin)) {
        thick.low = thick.high = lw_stone_edge_level(solid);
    }
    double top = lw_polyhedron_support(solid, (lw_vec3){0.0, 0.0, 1.0}, NULL);
    double bottom = -lw_polyhedron_support(solid, (lw_vec3){0.0, 0.0, -1.0}, NULL);
    out->depth = top - bottom;
    out->crown = top - thick.high;
    out->pavilion = thick.low - bottom;
    out->girdle_thick = thick.high - thick.low;
    out->girdle_thin = thin.high - thin.low;
}

/* The level facet on that side with the largest area; -1 when there is none. */
static int level_facet(const lw_facet *facets, const lw_polyhedron *solid, double sign)
{
    int best = -1;
    double area = LW_NO_AREA;
    for (int i = 0; i < solid->plane_count; i++) {
        bool level = facets[i].angle_deg == 0.0 && solid->planes[i].normal.z * sign > 0.0;
        if (level && has_face(solid, i)) {
            double here = lw_polyhedron_face_area(solid, i);
            best = here > area ? i : best;
            area = fmax(area, here);
        }
    }
    return best;
}

void lw_stone_measure(const lw_facet *facets, const lw_polyhedron *solid, lw_measures *out)
{
    *out = (lw_measures){0};
    lw_widths plan = lw_widths_of(solid->vertices, NULL, solid->vertex_count);
    out->width = plan.least;
    out->length = plan.greatest;
    out->length_across = plan.across;
    lw_polyhedron_mass(solid, &out->mass);
    count_facets(facets, solid, out);
    heights(facets, solid, out);
    for (int v = 0; v < solid->vertex_count; v++) {
        lw_vec3 p = solid->vertices[v];
        out->diameter = fmax(out->diameter, 2.0 * sqrt(p.x * p.x + p.y * p.y));
    }
    int table = level_facet(facets, solid, 1.0);
    int culet = level_facet(facets, solid, -1.0);
    if (table >= 0) {
        lw_widths widths = lw_face_widths(solid, table);
        out->table = widths.least;
        out->table_corner = widths.greatest;
    }
    if (culet >= 0) {
        out->culet = lw_face_widths(solid, culet).greatest;
    }
}
