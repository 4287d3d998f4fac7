/* The girdle of a finished stone: where it ends, and where it keeps its thickness. */
#include "cut/adapt_parts.h"

#include "geom/tolerance.h"

#include <math.h>

static bool has_face(const lw_polyhedron *solid, int plane)
{
    return solid->face_start[plane + 1] > solid->face_start[plane];
}

/* What comes together in a vertex, facets with a face alone. */
typedef struct sides_there {
    bool crown, pavilion, girdle;
} sides_there;

static sides_there sides_at(const lw_polyhedron *solid, int vertex)
{
    sides_there there = {false, false, false};
    for (int k = solid->vertex_start[vertex]; k < solid->vertex_start[vertex + 1]; k++) {
        int plane = solid->vertex_plane[k];
        if (plane < solid->plane_count && has_face(solid, plane)) {
            double nz = solid->planes[plane].normal.z;
            there.crown = there.crown || nz > 0.0;
            there.pavilion = there.pavilion || nz < 0.0;
            there.girdle = there.girdle || nz == 0.0;
        }
    }
    return there;
}

void lw_girdle_lines(const lw_polyhedron *solid, lw_girdle_levels *out)
{
    lw_girdle_levels levels = {.all_round = true};
    bool low = false;
    bool high = false;
    for (int v = 0; v < solid->vertex_count; v++) {
        sides_there there = sides_at(solid, v);
        double z = solid->vertices[v].z;
        levels.all_round = levels.all_round && !(there.crown && there.pavilion);
        if (there.girdle && there.crown) {
            levels.line_high = high ? fmin(levels.line_high, z) : z;
            high = true;
        }
        if (there.girdle && there.pavilion) {
            levels.line_low = low ? fmax(levels.line_low, z) : z;
            low = true;
        }
    }
    levels.all_round = levels.all_round && low && high;
    levels.anchor_low = levels.line_low;
    levels.anchor_high = levels.line_high;
    *out = levels;
}

/* The thickest place of the girdle: over each corner of its lower line, the upper line's height. */
static void thickest_place(const lw_polyhedron *solid, lw_girdle_levels *levels)
{
    double thickest = -1.0;
    for (int low = 0; low < solid->vertex_count; low++) {
        sides_there under = sides_at(solid, low);
        if (!under.girdle || !under.pavilion) {
            continue;
        }
        for (int high = 0; high < solid->vertex_count; high++) {
            lw_vec3 up = lw_vec3_sub(solid->vertices[high], solid->vertices[low]);
            /* The first of equals: rounding must not choose. */
            if (fabs(up.x) > LW_MEET_HOLDS || fabs(up.y) > LW_MEET_HOLDS ||
                up.z <= thickest + LW_LEVEL_LINE) {
                continue;
            }
            sides_there over = sides_at(solid, high);
            if (over.girdle && over.crown) {
                thickest = up.z;
                levels->anchor_low = solid->vertices[low].z;
                levels->anchor_high = solid->vertices[high].z;
            }
        }
    }
}

/* The facet whose rule says how thick the girdle is; -1 when none does. */
static int girdle_facet(const lw_cut *cut, const lw_stone *stone)
{
    for (int i = 0; i < cut->step_count; i++) {
        const lw_step *step = &cut->steps[i];
        for (int r = 0; r < step->rule_count; r++) {
            if (step->rules[r].kind == LW_RULE_GIRDLE && stone->tiers[i].count > 0) {
                return stone->tiers[i].first;
            }
        }
    }
    return -1;
}

/* Where a facet comes to the outline: among the corners farthest out in its direction, the other
 * side's end of the girdle nearest to it. */
static bool place_of(const lw_stone *stone, const lw_plane *plane, lw_vec3 *place)
{
    const lw_polyhedron *solid = &stone->solid;
    double sign = plane->normal.z > 0.0 ? 1.0 : -1.0;
    lw_vec3 outward = {plane->normal.x, plane->normal.y, 0.0};
    double wide = lw_vec3_length(outward);
    bool found = false;
    if (wide == 0.0) {
        return false;
    }
    outward = lw_vec3_scale(outward, 1.0 / wide);
    double reach = lw_polyhedron_support(solid, outward, NULL);
    for (int v = 0; v < solid->vertex_count; v++) {
        lw_vec3 p = solid->vertices[v];
        sides_there there = sides_at(solid, v);
        bool other = there.girdle && (sign > 0.0 ? there.pavilion : there.crown);
        if (other && lw_vec3_dot(outward, p) > reach - LW_MEET_HOLDS &&
            (!found || sign * p.z > sign * place->z)) {
            *place = p;
            found = true;
        }
    }
    return found;
}

void lw_girdle_anchor(const lw_cut *cut, const lw_stone *stone, lw_girdle_levels *out)
{
    lw_girdle_levels levels;
    lw_vec3 place = {0.0, 0.0, 0.0};
    lw_girdle_lines(&stone->solid, &levels);
    int facet = girdle_facet(cut, stone);
    const lw_plane *plane = facet >= 0 ? &stone->facets[facet].plane : NULL;
    if (plane == NULL || plane->normal.z == 0.0 || !place_of(stone, plane, &place)) {
        thickest_place(&stone->solid, &levels);
        *out = levels;
        return;
    }
    lw_vec3 n = plane->normal;
    double z = (plane->distance - n.x * place.x - n.y * place.y) / n.z;
    levels.anchor_low = n.z > 0.0 ? place.z : z;
    levels.anchor_high = n.z > 0.0 ? z : place.z;
    *out = levels;
}
