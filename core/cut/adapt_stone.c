/* Stones mapped whole: their facets moved by an exact map, and the solid built again from them. */
#include "cut/adapt_parts.h"

#include "cut/teeth.h"
#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* The rough from which a stone is built again, in units: stretched ones are longer than one. */
static const double rough_half_extent = 4.0;

/* ---- from facets to a stone ---- */

static lw_status cut_all(lw_solid *solid, const lw_facet *facets, int count, lw_polyhedron *shape)
{
    lw_solid_start(solid, rough_half_extent);
    for (int i = 0; i < count; i++) {
        lw_cut_effect effect = LW_CUT_MISSED;
        lw_status status = lw_solid_cut(solid, facets[i].plane, &effect);
        if (status != LW_OK || effect == LW_CUT_EMPTIED) {
            return status != LW_OK ? status : LW_EMPTY;
        }
    }
    if (!lw_solid_is_closed(solid)) {
        return LW_NOT_CLOSED;
    }
    lw_solid_extract(solid, shape);
    return LW_OK;
}

/* Puts z = 0 half way between the girdle's lines, as the solver does. */
static void centre(lw_facet *facets, int count, const lw_polyhedron *shape)
{
    lw_girdle_levels levels;
    lw_girdle_lines(shape, &levels);
    double middle = 0.5 * (levels.line_low + levels.line_high);
    for (int i = 0; i < count; i++) {
        facets[i].plane.distance -= facets[i].plane.normal.z * middle;
    }
}

/* Room for a stone's arrays; the facets are filled in. */
static lw_status stone_arrays(const lw_memory *memory, const lw_facet *facets, int count,
                              const lw_stone *like, lw_stone *out)
{
    lw_stone stone = {.memory = *memory, .unit_mm = like->unit_mm};
    void *block = NULL;
    lw_status status = lw_memory_new(memory, (size_t)count, sizeof *stone.facets, &block);
    if (status != LW_OK) {
        return status;
    }
    stone.facets = block;
    stone.facet_count = count;
    memcpy(stone.facets, facets, (size_t)count * sizeof *facets);
    status = lw_memory_new(memory, (size_t)like->tier_count, sizeof *stone.tiers, &block);
    if (status != LW_OK) {
        lw_stone_destroy(&stone);
        return status;
    }
    stone.tiers = block;
    stone.tier_count = like->tier_count;
    for (int i = 0; i < like->tier_count; i++) {
        stone.tiers[i] = like->tiers[i];
        if (stone.tiers[i].count > 0) {
            stone.tiers[i].angle_deg = facets[stone.tiers[i].first].angle_deg;
        }
    }
    *out = stone;
    return LW_OK;
}

static lw_status build(lw_solid *solid, lw_stone *stone)
{
    lw_polyhedron shape;
    lw_status status = cut_all(solid, stone->facets, stone->facet_count, &shape);
    if (status != LW_OK) {
        return status;
    }
    centre(stone->facets, stone->facet_count, &shape);
    status = cut_all(solid, stone->facets, stone->facet_count, &shape);
    if (status == LW_OK) {
        status = lw_polyhedron_copy(&stone->memory, &shape, &stone->solid);
    }
    return status;
}

lw_status lw_stone_from_facets(const lw_memory *memory, const lw_facet *facets, int count,
                               const lw_stone *like, lw_stone *out)
{
    lw_solid *solid = NULL;
    lw_stone stone;
    lw_status status = stone_arrays(memory, facets, count, like, &stone);
    if (status != LW_OK) {
        return status;
    }
    status = lw_solid_new(memory, count > 0 ? count : 1, &solid);
    if (status == LW_OK) {
        status = build(solid, &stone);
    }
    lw_solid_destroy(solid);
    if (status != LW_OK) {
        lw_stone_destroy(&stone);
        return status;
    }
    lw_stone_measure(stone.facets, &stone.solid, &stone.measures);
    *out = stone;
    return LW_OK;
}

lw_status lw_facets_copy(const lw_memory *memory, const lw_stone *stone, lw_facet **out)
{
    void *block = NULL;
    size_t count = (size_t)stone->facet_count;
    lw_status status = lw_memory_new(memory, count, sizeof **out, &block);
    if (status == LW_OK) {
        memcpy(block, stone->facets, count * sizeof **out);
        *out = block;
    }
    return status;
}

/* ---- along the axis ---- */

double lw_scaled_angle_deg(double angle_deg, double ratio)
{
    if (angle_deg <= LW_SAME_ANGLE_DEG || angle_deg >= 90.0 - LW_SAME_ANGLE_DEG) {
        return angle_deg;
    }
    lw_sincos angle = lw_sincos_deg(angle_deg);
    return lw_atan2_deg(ratio * angle.sin, angle.cos);
}

/* The plane's image under z -> level + ratio (z - level). */
static lw_plane scaled_plane(lw_plane plane, double ratio, double level)
{
    lw_vec3 n = {plane.normal.x, plane.normal.y, plane.normal.z / ratio};
    double length = lw_vec3_length(n);
    double distance = plane.distance - (plane.normal.z - n.z) * level;
    return (lw_plane){lw_vec3_scale(n, 1.0 / length), distance / length};
}

void lw_facets_scale_side(lw_facet *facets, int count, double sign, double ratio, double level)
{
    for (int i = 0; i < count && ratio != 1.0; i++) {
        lw_facet *f = &facets[i];
        if (f->plane.normal.z * sign > 0.0) {
            f->angle_deg = lw_scaled_angle_deg(f->angle_deg, ratio);
            f->plane = scaled_plane(f->plane, ratio, level);
        }
    }
}

/* Whether every vertex of the old solid is, moved along the axis alone, a vertex of the new. */
static bool keeps_plan(const lw_stone *old, const lw_stone *fresh)
{
    const lw_polyhedron *a = &old->solid;
    const lw_polyhedron *b = &fresh->solid;
    if (a->vertex_count != b->vertex_count ||
        a->face_start[a->plane_count] != b->face_start[b->plane_count]) {
        return false;
    }
    for (int i = 0; i < a->vertex_count; i++) {
        bool found = false;
        for (int k = 0; k < b->vertex_count && !found; k++) {
            lw_vec3 move = lw_vec3_sub(b->vertices[k], a->vertices[i]);
            found = fabs(move.x) < LW_MEET_HOLDS && fabs(move.y) < LW_MEET_HOLDS;
        }
        if (!found) {
            return false;
        }
    }
    return true;
}

lw_status lw_stone_scale_sides(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                               double pavilion_ratio, double crown_ratio, lw_stone *out)
{
    assert(pavilion_ratio > 0.0 && crown_ratio > 0.0);
    lw_girdle_levels levels;
    lw_facet *facets = NULL;
    lw_stone scaled;
    lw_girdle_anchor(cut, stone, &levels);
    if (!levels.all_round) {
        return LW_UNSUPPORTED;
    }
    lw_status status = lw_facets_copy(memory, stone, &facets);
    if (status != LW_OK) {
        return status;
    }
    int count = stone->facet_count;
    lw_facets_scale_side(facets, count, -1.0, pavilion_ratio, levels.anchor_low);
    lw_facets_scale_side(facets, count, 1.0, crown_ratio, levels.anchor_high);
    status = lw_stone_from_facets(memory, facets, count, stone, &scaled);
    lw_memory_free(memory, facets, (size_t)count, sizeof *facets);
    if (status != LW_OK) {
        return status == LW_NO_MEMORY ? status : LW_UNSUPPORTED;
    }
    if (!keeps_plan(stone, &scaled)) {
        lw_stone_destroy(&scaled);
        return LW_UNSUPPORTED;
    }
    *out = scaled;
    return LW_OK;
}

/* ---- in plan ---- */

void lw_facet_stretch(lw_facet *facet, int wheel, double x_ratio, double y_ratio)
{
    lw_vec3 n = facet->plane.normal;
    if (n.x == 0.0 && n.y == 0.0) {
        return;
    }
    n = (lw_vec3){n.x / x_ratio, n.y / y_ratio, n.z};
    double length = lw_vec3_length(n);
    facet->plane = (lw_plane){lw_vec3_scale(n, 1.0 / length), facet->plane.distance / length};
    if (n.z != 0.0) {
        facet->angle_deg = lw_atan2_deg(sqrt(n.x * n.x + n.y * n.y), fabs(n.z));
    }
    double tooth = lw_atan2_deg(n.y, n.x) * (double)wheel / 360.0;
    double whole = floor(tooth + 0.5);
    facet->tooth = lw_tooth_wrap(fabs(tooth - whole) <= LW_SAME_TOOTH ? whole : tooth, wheel);
}

static void facet_mirror(lw_facet *facet, int wheel)
{
    facet->plane.normal.y = 0.0 - facet->plane.normal.y;
    facet->tooth = lw_tooth_wrap(-facet->tooth, wheel);
}

lw_status lw_stone_stretch(const lw_memory *memory, const lw_stone *stone, int wheel,
                           double x_ratio, double y_ratio, lw_stone *out)
{
    assert(x_ratio > 0.0 && y_ratio > 0.0);
    lw_facet *facets = NULL;
    lw_status status = lw_facets_copy(memory, stone, &facets);
    if (status != LW_OK) {
        return status;
    }
    for (int i = 0; i < stone->facet_count; i++) {
        lw_facet_stretch(&facets[i], wheel, x_ratio, y_ratio);
    }
    status = lw_stone_from_facets(memory, facets, stone->facet_count, stone, out);
    lw_memory_free(memory, facets, (size_t)stone->facet_count, sizeof *facets);
    return status;
}

lw_status lw_stone_mirror(const lw_memory *memory, const lw_stone *stone, int wheel, lw_stone *out)
{
    lw_facet *facets = NULL;
    lw_status status = lw_facets_copy(memory, stone, &facets);
    if (status != LW_OK) {
        return status;
    }
    for (int i = 0; i < stone->facet_count; i++) {
        facet_mirror(&facets[i], wheel);
    }
    status = lw_stone_from_facets(memory, facets, stone->facet_count, stone, out);
    lw_memory_free(memory, facets, (size_t)stone->facet_count, sizeof *facets);
    return status;
}
