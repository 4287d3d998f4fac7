#include "light/surroundings.h"

#include "geom/angle.h"

#include <assert.h>

lw_light_place lw_light_place_even_sky(void)
{
    return (lw_light_place){
        .name = "even sky",
        .with_stone = true,
        .eye = {0.0, 0.0, 1.0},
        .head_deg = 10.0,
        .patch_count = 1,
        .patches = {{.shape = LW_PATCH_CONE, .toward = {0.0, 0.0, 1.0}, .even = 1.0}}};
}

lw_vec3 lw_eye_direction(double tilt_deg, double turn_deg)
{
    lw_sincos tilt = lw_sincos_deg(tilt_deg);
    lw_sincos turn = lw_sincos_deg(turn_deg);
    return (lw_vec3){tilt.sin * turn.cos, tilt.sin * turn.sin, tilt.cos};
}

/* A cosine that no direction passes: no head. */
static double head_cosine(double head_deg)
{
    assert(head_deg >= 0.0 && head_deg <= 90.0);
    return head_deg > 0.0 ? lw_sincos_deg(head_deg).cos : 2.0;
}

lw_surroundings lw_surroundings_even_sky(lw_vec3 eye, double head_deg)
{
    lw_light_place place = lw_light_place_even_sky();
    return (lw_surroundings){.eye = eye,
                             .zenith = {0.0, 0.0, 1.0},
                             .cos_head = head_cosine(head_deg),
                             .patch_count = 1,
                             .patches = {place.patches[0]}};
}

/* ---- posing ------------------------------------------------------------- */

/* The stone's axes in the place's frame, as rows. */
typedef struct axes {
    lw_vec3 x, y, z;
} axes;

static lw_vec3 seen_in(const axes *stone, lw_vec3 w)
{
    return (lw_vec3){lw_vec3_dot(stone->x, w), lw_vec3_dot(stone->y, w), lw_vec3_dot(stone->z, w)};
}

/* Table to the eye, x to the viewer's right: (what he looks along) x (up) = zenith x eye. */
static axes facing(lw_vec3 eye)
{
    lw_vec3 right = {-eye.y, eye.x, 0.0};
    double length = lw_vec3_length(right);
    right = length > 0.0 ? lw_vec3_scale(right, 1.0 / length) : (lw_vec3){1.0, 0.0, 0.0};
    return (axes){right, lw_vec3_cross(eye, right), eye};
}

/* The stone turned so that its eye comes to stand tilt off its z, toward the azimuth turn: in its
 * frame all else turns about the axis at turn + 90 degrees. Rows of (that turn) x facing. */
static axes tilted(axes from, double tilt_deg, double turn_deg)
{
    lw_sincos tilt = lw_sincos_deg(tilt_deg);
    lw_sincos turn = lw_sincos_deg(turn_deg);
    lw_vec3 toward = lw_vec3_add(lw_vec3_scale(from.x, turn.cos), lw_vec3_scale(from.y, turn.sin));
    lw_vec3 across = lw_vec3_sub(lw_vec3_scale(from.y, turn.cos), lw_vec3_scale(from.x, turn.sin));
    lw_vec3 out = lw_vec3_add(lw_vec3_scale(toward, tilt.cos), lw_vec3_scale(from.z, tilt.sin));
    lw_vec3 up = lw_vec3_sub(lw_vec3_scale(from.z, tilt.cos), lw_vec3_scale(toward, tilt.sin));
    lw_vec3 x = lw_vec3_sub(lw_vec3_scale(out, turn.cos), lw_vec3_scale(across, turn.sin));
    lw_vec3 y = lw_vec3_add(lw_vec3_scale(out, turn.sin), lw_vec3_scale(across, turn.cos));
    return (axes){x, y, up};
}

static lw_patch turned_patch(const axes *stone, lw_patch patch)
{
    patch.toward = seen_in(stone, patch.toward);
    patch.right = seen_in(stone, patch.right);
    patch.above = seen_in(stone, patch.above);
    return patch;
}

lw_surroundings lw_surroundings_pose(const lw_light_place *place, double tilt_deg, double turn_deg,
                                     double head_deg)
{
    assert(place->patch_count >= 0 && place->patch_count <= LW_LIGHT_MOST_PATCHES);
    lw_surroundings posed = {.eye = lw_eye_direction(tilt_deg, turn_deg),
                             .zenith = {0.0, 0.0, 1.0},
                             .cos_head = head_cosine(head_deg < 0.0 ? place->head_deg : head_deg),
                             .head_radiance = place->head_radiance,
                             .head_glow = place->head_glow,
                             .head_kelvin = place->head_kelvin,
                             .patch_count = place->patch_count};
    axes stone = {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}};
    if (!place->with_stone) {
        stone = tilted(facing(place->eye), tilt_deg, turn_deg);
        posed.zenith = seen_in(&stone, posed.zenith);
    }
    for (int i = 0; i < place->patch_count; i++)
        posed.patches[i] =
            place->with_stone ? place->patches[i] : turned_patch(&stone, place->patches[i]);
    return posed;
}

/* ---- looking ------------------------------------------------------------ */

bool lw_surroundings_is_head(const lw_surroundings *surroundings, lw_vec3 direction)
{
    return lw_vec3_dot(surroundings->eye, direction) > surroundings->cos_head;
}

static bool covers(const lw_patch *patch, lw_vec3 direction)
{
    double along = lw_vec3_dot(patch->toward, direction);
    if (patch->shape == LW_PATCH_CONE)
        return along > patch->least_cos;
    return along > 0.0 && fabs(lw_vec3_dot(patch->right, direction)) <= patch->tan_width * along &&
           fabs(lw_vec3_dot(patch->above, direction)) <= patch->tan_tall * along;
}

int lw_surroundings_patch(const lw_surroundings *surroundings, lw_vec3 direction)
{
    if (lw_surroundings_is_head(surroundings, direction))
        return LW_ON_HEAD;
    for (int i = surroundings->patch_count - 1; i >= 0; i--) {
        if (covers(&surroundings->patches[i], direction))
            return i;
    }
    return LW_ON_DARK;
}

double lw_surroundings_radiance(const lw_surroundings *surroundings, lw_vec3 direction)
{
    int on = lw_surroundings_patch(surroundings, direction);
    if (on == LW_ON_HEAD)
        return surroundings->head_radiance;
    if (on == LW_ON_DARK)
        return 0.0;
    const lw_patch *patch = &surroundings->patches[on];
    double level = patch->even + patch->slope * lw_vec3_dot(surroundings->zenith, direction);
    return level > 0.0 ? level : 0.0;
}
