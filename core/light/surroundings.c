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

lw_surroundings lw_surroundings_even_sky(lw_vec3 eye, double head_deg)
{
    assert(head_deg >= 0.0 && head_deg <= 90.0);
    double none = 2.0; /* a cosine that no direction passes */
    lw_light_place place = lw_light_place_even_sky();
    return (lw_surroundings){.eye = eye,
                             .zenith = {0.0, 0.0, 1.0},
                             .cos_head = head_deg > 0.0 ? lw_sincos_deg(head_deg).cos : none,
                             .patch_count = 1,
                             .patches = {place.patches[0]}};
}

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
