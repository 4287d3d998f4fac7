#include "light/symmetry.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

/* Images of horizontal directions; z stays. */
static lw_vec3 turned(lw_vec3 v, lw_sincos by)
{
    return (lw_vec3){by.cos * v.x - by.sin * v.y, by.sin * v.x + by.cos * v.y, v.z};
}

static lw_vec3 mirrored_in(lw_vec3 v, lw_vec3 mirror)
{
    double along = 2.0 * (v.x * mirror.x + v.y * mirror.y);
    return (lw_vec3){along * mirror.x - v.x, along * mirror.y - v.y, v.z};
}

/* The facet with this normal at this distance, or -1. */
static int facet_like(const lw_optic_solid *solid, lw_vec3 normal, double distance)
{
    double near = LW_SAME_SHAPE * solid->half_extent;
    for (int i = 0; i < solid->facet_count; i++) {
        if (fabs(solid->distance[i] - distance) >= near ||
            fabs(solid->z[i] - normal.z) >= LW_SAME_SHAPE)
            continue;
        lw_vec3 apart = lw_vec3_sub(lw_optic_solid_normal(solid, i), normal);
        if (lw_vec3_dot(apart, apart) < LW_SAME_SHAPE * LW_SAME_SHAPE)
            return i;
    }
    return -1;
}

static bool is_turned(const lw_optic_solid *solid, int turns)
{
    lw_sincos by = lw_sincos_share(1.0, turns);
    for (int i = 0; i < solid->facet_count; i++) {
        if (facet_like(solid, turned(lw_optic_solid_normal(solid, i), by), solid->distance[i]) < 0)
            return false;
    }
    return true;
}

static bool is_mirrored(const lw_optic_solid *solid, lw_vec3 mirror)
{
    for (int i = 0; i < solid->facet_count; i++) {
        lw_vec3 image = mirrored_in(lw_optic_solid_normal(solid, i), mirror);
        if (facet_like(solid, image, solid->distance[i]) < 0)
            return false;
    }
    return true;
}

static bool is_upright(lw_vec3 direction)
{
    return direction.x * direction.x + direction.y * direction.y < LW_SAME_SHAPE * LW_SAME_SHAPE;
}

/* A slanting facet whose likes, by height of its normal and distance, are fewest: its images are
 * among them. -1 when all facets are level, which no closed solid's are. */
static int rarest_facet(const lw_optic_solid *solid, int *likes)
{
    int best = -1;
    for (int i = 0; i < solid->facet_count; i++) {
        if (is_upright(lw_optic_solid_normal(solid, i)))
            continue;
        int count = 0;
        for (int k = 0; k < solid->facet_count; k++)
            count +=
                fabs(solid->z[k] - solid->z[i]) < LW_SAME_SHAPE &&
                fabs(solid->distance[k] - solid->distance[i]) < LW_SAME_SHAPE * solid->half_extent;
        if (best < 0 || count < *likes) {
            best = i;
            *likes = count;
        }
    }
    return best;
}

/* A mirror plane carries the rarest facet to one of its likes, so it halves the angle between the
 * two (or stands across that half). */
static bool find_mirror(const lw_optic_solid *solid, int rare, lw_vec3 *out)
{
    lw_vec3 from = lw_optic_solid_normal(solid, rare);
    for (int k = 0; k < solid->facet_count; k++) {
        lw_vec3 to = lw_optic_solid_normal(solid, k);
        if (fabs(to.z - from.z) >= LW_SAME_SHAPE)
            continue;
        lw_vec3 half = {from.x + to.x, from.y + to.y, 0.0};
        if (lw_vec3_length(half) < LW_SAME_SHAPE)
            half = (lw_vec3){-from.y, from.x, 0.0};
        half = lw_vec3_scale(half, 1.0 / lw_vec3_length(half));
        if (is_mirrored(solid, half)) {
            *out = half;
            return true;
        }
    }
    return false;
}

lw_symmetry lw_symmetry_of_solid(const lw_optic_solid *solid)
{
    lw_symmetry found = {.turns = 1};
    int likes = 0;
    int rare = rarest_facet(solid, &likes);
    if (rare < 0)
        return found;
    for (int turns = likes; turns > 1; turns--) {
        if (likes % turns == 0 && is_turned(solid, turns)) {
            found.turns = turns;
            break;
        }
    }
    found.mirrored = find_mirror(solid, rare, &found.mirror);
    return found;
}

/* ---- as it is seen ------------------------------------------------------- */

static bool patch_turns(const lw_patch *patch)
{
    return patch->shape == LW_PATCH_CONE && (patch->least_cos <= -1.0 || is_upright(patch->toward));
}

static bool is_own_image(lw_vec3 v, lw_vec3 mirror)
{
    return lw_vec3_length(lw_vec3_sub(mirrored_in(v, mirror), v)) < LW_SAME_SHAPE;
}

/* A pane's axes may change their sign. */
static bool is_own_axis(lw_vec3 v, lw_vec3 mirror)
{
    lw_vec3 image = mirrored_in(v, mirror);
    return lw_vec3_length(lw_vec3_cross(image, v)) < LW_SAME_SHAPE;
}

static bool patch_mirrors(const lw_patch *patch, lw_vec3 mirror)
{
    if (patch->shape == LW_PATCH_CONE)
        return patch->least_cos <= -1.0 || is_own_image(patch->toward, mirror);
    return is_own_image(patch->toward, mirror) && is_own_axis(patch->right, mirror) &&
           is_own_axis(patch->above, mirror);
}

static bool surroundings_turn(const lw_surroundings *surroundings)
{
    if (!is_upright(surroundings->eye))
        return false;
    for (int i = 0; i < surroundings->patch_count; i++) {
        const lw_patch *patch = &surroundings->patches[i];
        if (!patch_turns(patch) || (patch->slope != 0.0 && !is_upright(surroundings->zenith)))
            return false;
    }
    return true;
}

static bool surroundings_mirror(const lw_surroundings *surroundings, lw_vec3 mirror)
{
    if (!is_own_image(surroundings->eye, mirror))
        return false;
    for (int i = 0; i < surroundings->patch_count; i++) {
        const lw_patch *patch = &surroundings->patches[i];
        if (!patch_mirrors(patch, mirror) ||
            (patch->slope != 0.0 && !is_own_image(surroundings->zenith, mirror)))
            return false;
    }
    return true;
}

lw_symmetry lw_symmetry_seen(const lw_symmetry *stone, const lw_surroundings *surroundings)
{
    if (surroundings_turn(surroundings))
        return *stone;
    lw_symmetry seen = {.turns = 1};
    for (int k = 0; stone->mirrored && k < stone->turns; k++) {
        lw_vec3 mirror = turned(stone->mirror, lw_sincos_share(0.5 * k, stone->turns));
        if (surroundings_mirror(surroundings, mirror)) {
            seen.mirrored = true;
            seen.mirror = mirror;
            break;
        }
    }
    return seen;
}

/* ---- the part that stands for the whole ---------------------------------- */

static lw_vec3 left_of(lw_vec3 v)
{
    return (lw_vec3){-v.y, v.x, 0.0};
}

lw_wedge lw_wedge_of(const lw_symmetry *symmetry)
{
    lw_vec3 first = symmetry->mirrored ? symmetry->mirror : (lw_vec3){1.0, 0.0, 0.0};
    int copies = symmetry->turns * (symmetry->mirrored ? 2 : 1);
    lw_wedge wedge = {.copies = copies};
    if (copies == 1)
        return wedge;
    lw_vec3 last = turned(first, lw_sincos_share(1.0, copies));
    wedge.side_count = copies == 2 ? 1 : 2;
    wedge.sides[0] = left_of(first);
    wedge.sides[1] = lw_vec3_scale(left_of(last), -1.0);
    return wedge;
}

static int image_of(const lw_optic_solid *solid, const lw_symmetry *symmetry, int facet, int copy)
{
    lw_vec3 normal = lw_optic_solid_normal(solid, facet);
    if (copy >= symmetry->turns)
        normal = mirrored_in(normal, symmetry->mirror);
    normal = turned(normal, lw_sincos_share(copy % symmetry->turns, symmetry->turns));
    return facet_like(solid, normal, solid->distance[facet]);
}

void lw_symmetry_orbits(const lw_optic_solid *solid, const lw_symmetry *symmetry, int of[])
{
    int copies = symmetry->turns * (symmetry->mirrored ? 2 : 1);
    for (int i = 0; i < solid->facet_count; i++) {
        of[i] = i;
        for (int copy = 1; copy < copies; copy++) {
            int image = image_of(solid, symmetry, i, copy);
            if (image >= 0 && image < of[i])
                of[i] = image;
        }
    }
}
