#include "light/picture/picture.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <assert.h>

lw_picture lw_picture_defaults(int width, int height)
{
    return (lw_picture){.width = width,
                        .height = height,
                        .right = {1.0, 0.0, 0.0},
                        .samples = 4,
                        .level = LW_DEVELOP_LEVEL,
                        .used_to = 1.0,
                        .most_samples = 64,
                        .least_energy = 1e-4,
                        .most_surfaces = 1000,
                        .lanes = lw_lanes_best()};
}

/* ---- framing ------------------------------------------------------------ */

/* Rodrigues' formula: x turned about the axis (-sin turn, cos turn, 0) by tilt. */
lw_vec3 lw_picture_right(double tilt_deg, double turn_deg)
{
    lw_sincos tilt = lw_sincos_deg(tilt_deg);
    lw_sincos turn = lw_sincos_deg(turn_deg);
    lw_vec3 axis = {-turn.sin, turn.cos, 0.0};
    lw_vec3 x = {1.0, 0.0, 0.0};
    lw_vec3 made = lw_vec3_scale(x, tilt.cos);
    made = lw_vec3_add(made, lw_vec3_scale(lw_vec3_cross(axis, x), tilt.sin));
    return lw_vec3_add(made, lw_vec3_scale(axis, lw_vec3_dot(axis, x) * (1.0 - tilt.cos)));
}

lw_picture_extent lw_picture_extent_of(const lw_optic_solid *solid, lw_vec3 eye, lw_vec3 right)
{
    lw_vec3 up = lw_vec3_cross(eye, right);
    lw_picture_extent out = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < solid->corner_count; i++) {
        double across = lw_vec3_dot(solid->corners[i], right);
        double along = lw_vec3_dot(solid->corners[i], up);
        out.left = fmin(out.left, across);
        out.right = fmax(out.right, across);
        out.below = fmin(out.below, along);
        out.above = fmax(out.above, along);
    }
    return out;
}

void lw_picture_frame(lw_picture *picture, lw_vec3 eye, const lw_picture_extent *extent,
                      double fill)
{
    assert(fill > 0.0);
    lw_vec3 up = lw_vec3_cross(eye, picture->right);
    lw_vec3 across = lw_vec3_scale(picture->right, 0.5 * (extent->left + extent->right));
    lw_vec3 along = lw_vec3_scale(up, 0.5 * (extent->below + extent->above));
    picture->centre = lw_vec3_add(across, along);
    double by_width = (extent->right - extent->left) / picture->width;
    double by_height = (extent->above - extent->below) / picture->height;
    picture->pixel = fmax(by_width, by_height) / fill;
}

/* ---- the scene ---------------------------------------------------------- */

static bool is_within(double value, double low, double high)
{
    return value >= low && value <= high; /* false for NaN */
}

static bool is_sound(const lw_picture *picture, const lw_surroundings *surroundings)
{
    lw_vec3 c = picture->centre;
    return is_within(picture->width, 1, LW_PICTURE_MOST_SIDE) &&
           is_within(picture->height, 1, LW_PICTURE_MOST_SIDE) &&
           is_within(picture->pixel, 1e-9, 1e9) && is_within(lw_vec3_dot(c, c), 0.0, 1e18) &&
           picture->samples >= 1 && picture->most_samples >= picture->samples &&
           picture->most_samples <= LW_PICTURE_MOST_SAMPLES &&
           is_within(picture->ground, 0.0, 1.0) && is_within(picture->level, 1e-9, 1e9) &&
           is_within(picture->used_to, 0.0, 1.0) && is_within(picture->least_energy, 1e-30, 1.0) &&
           picture->most_surfaces > 0 &&
           is_within(lw_vec3_length(picture->right), 1.0 - LW_SQUARE_TO, 1.0 + LW_SQUARE_TO) &&
           is_within(lw_vec3_dot(picture->right, surroundings->eye), -LW_SQUARE_TO, LW_SQUARE_TO);
}

/* A half space below the horizon, before all other patches. */
static lw_status add_ground(lw_surroundings *surroundings)
{
    if (surroundings->patch_count == LW_LIGHT_MOST_PATCHES)
        return LW_TOO_LARGE;
    surroundings->patches[surroundings->patch_count++] = (lw_patch){
        .shape = LW_PATCH_CONE, .toward = lw_vec3_scale(surroundings->zenith, -1.0), .even = 1.0};
    return LW_OK;
}

/* The ground has the card's light; so its radiance by band is a share of the card's. */
static void fill_scale(lw_picture_scene *scene)
{
    int ground = scene->surroundings.patch_count - 1;
    lw_picture_glows(&scene->surroundings, &scene->optics.bands, scene->scale);
    for (int i = 0; scene->picture.with_ground && i < scene->optics.bands.count; i++)
        scene->scale[i].of[ground] = scene->picture.ground * scene->optics.card[i];
}

static void look_behind(lw_picture_scene *scene)
{
    lw_vec3 behind = lw_vec3_scale(scene->surroundings.eye, -1.0);
    int on = lw_surroundings_patch(&scene->surroundings, behind);
    double radiance = lw_surroundings_radiance(&scene->surroundings, behind);
    scene->background = (lw_xyz){0};
    for (int i = 0; on != LW_ON_DARK && i < scene->optics.bands.count; i++) {
        int patch = on == LW_ON_HEAD ? scene->surroundings.patch_count : on;
        double here = radiance * scene->scale[i].of[patch];
        scene->background.x += here * scene->optics.bands.weight[i].x;
        scene->background.y += here * scene->optics.bands.weight[i].y;
        scene->background.z += here * scene->optics.bands.weight[i].z;
    }
}

static void place_screen(const lw_optic_solid *solid, lw_picture_scene *scene)
{
    const lw_picture *picture = &scene->picture;
    lw_vec3 eye = scene->surroundings.eye;
    scene->up = lw_vec3_cross(eye, picture->right);
    double before = lw_vec3_dot(solid->middle, eye) + 2.0 * solid->half_extent;
    lw_vec3 at = lw_vec3_add(picture->centre,
                             lw_vec3_scale(eye, before - lw_vec3_dot(picture->centre, eye)));
    at = lw_vec3_sub(at, lw_vec3_scale(picture->right, 0.5 * picture->width * picture->pixel));
    scene->corner =
        lw_vec3_add(at, lw_vec3_scale(scene->up, 0.5 * picture->height * picture->pixel));
}

/* The most that any direction can be. */
static double brightest(const lw_surroundings *surroundings)
{
    double most = surroundings->head_radiance;
    for (int i = 0; i < surroundings->patch_count; i++)
        most = fmax(most, surroundings->patches[i].even + fabs(surroundings->patches[i].slope));
    return most;
}

static double least_energy_of(const lw_picture_scene *scene)
{
    double white = lw_picture_card(&scene->optics).y;
    double most = brightest(&scene->surroundings);
    return scene->picture.least_energy * (most > white ? white / most : 1.0);
}

lw_status lw_picture_scene_make(const lw_memory *memory, const lw_optic_solid *solid,
                                const lw_picture *picture, const lw_picture_optics *optics,
                                const lw_surroundings *surroundings, lw_picture_scene *out)
{
    assert(lw_lanes_usable(picture->lanes));
    if (!is_sound(picture, surroundings))
        return LW_BAD_INPUT;
    lw_surroundings around = *surroundings;
    lw_status status = picture->with_ground ? add_ground(&around) : LW_OK;
    lw_symmetry symmetry = lw_symmetry_of_solid(solid);
    lw_wide_solid wide;
    if (status == LW_OK)
        status = lw_wide_solid_make(memory, solid, &symmetry, &wide);
    if (status != LW_OK)
        return status;
    out->picture = *picture;
    out->optics = *optics;
    out->surroundings = around;
    out->solid = wide;
    out->develop = lw_develop_make(lw_picture_card(optics), picture->level, picture->used_to);
    out->least_energy = least_energy_of(out);
    fill_scale(out);
    look_behind(out);
    place_screen(solid, out);
    return LW_OK;
}

void lw_picture_scene_destroy(const lw_memory *memory, lw_picture_scene *scene)
{
    lw_wide_solid_destroy(memory, &scene->solid);
}
