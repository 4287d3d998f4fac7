#include "povray/cases.h"

#include "geom/angle.h"

/* Indices: handbook means at 589.3 nm. Absorption: a length of the unit, which is the width. */
const light_case light_cases[] = {
    {"round-brilliant", "diamond", 2.417, 0.0, CASE_EVEN, 0.0, 10.0, false},
    {"round-brilliant", "diamond", 2.417, 0.0, CASE_EVEN, 13.0, 10.0, true},
    {"round-brilliant", "corundum", 1.77, 0.0, CASE_GRADIENT, 25.0, 100.0, false},
    {"classic-quartz-round", "quartz", 1.544, 0.0, CASE_EVEN, 0.0, 10.0, false},
    {"classic-quartz-round", "quartz", 1.544, 0.0, CASE_LAMP, 13.0, 40.0, true},
    {"step-octagon", "topaz", 1.62, 0.0, CASE_WINDOW, 13.0, 75.0, true},
    {"step-octagon", "corundum", 1.77, 0.6, CASE_EVEN, 25.0, 20.0, false},
    {"marquise-brilliant", "quartz", 1.544, 0.0, CASE_GRADIENT, 25.0, 10.0, true},
    {"marquise-brilliant", "corundum", 1.77, 0.0, CASE_EVEN, 13.0, 200.0, false},
    {"pinwheel", "cubic zirconia", 2.16, 0.0, CASE_EVEN, 0.0, 10.0, false},
    {"pinwheel", "quartz", 1.544, 0.0, CASE_LAMP, 25.0, 300.0, false},
    {"oval-brilliant", "corundum", 1.77, 0.0, CASE_GRADIENT, 0.0, 10.0, false},
    {"pear-brilliant", "topaz", 1.62, 0.0, CASE_WINDOW, 25.0, 33.0, false},
    {"triangle-brilliant", "cubic zirconia", 2.16, 0.0, CASE_LAMP, 13.0, 10.0, false},
    {"square-cushion", "quartz", 1.544, 0.4, CASE_EVEN, 13.0, 30.0, false},
    {"single-cut", "diamond", 2.417, 0.0, CASE_WINDOW, 25.0, 10.0, false},
};
const int light_case_count = sizeof light_cases / sizeof light_cases[0];

static lw_patch cone(lw_vec3 toward, double half_deg, double even, double slope)
{
    return (lw_patch){.shape = LW_PATCH_CONE,
                      .toward = toward,
                      .least_cos = half_deg < 180.0 ? lw_sincos_deg(half_deg).cos : -2.0,
                      .even = even,
                      .slope = slope};
}

/* Stands north of the stone, wider than high, its sill above the stone. */
static lw_patch window(void)
{
    return (lw_patch){.shape = LW_PATCH_PANE,
                      .toward = {0.0, 1.0, 0.0},
                      .right = {1.0, 0.0, 0.0},
                      .above = {0.0, -0.7, 1.0},
                      .tan_width = 0.9,
                      .tan_tall = 0.55,
                      .even = 1.0};
}

lw_light_place case_place(case_sky sky)
{
    const lw_vec3 zenith = {0.0, 0.0, 1.0}, lamp = lw_eye_direction(38.0, 65.0);
    lw_light_place place = lw_light_place_even_sky();
    place.with_stone = sky == CASE_EVEN;
    switch (sky) {
    case CASE_LAMP:
        place.head_deg = 12.0;
        place.head_radiance = 0.2;
        place.patch_count = 2;
        place.patches[0] = cone(zenith, 90.0, 0.5, 0.0);
        place.patches[1] = cone(lamp, 22.0, 5.0, 0.0);
        break;
    case CASE_WINDOW:
        place.eye = lw_eye_direction(30.0, 80.0);
        place.patch_count = 2;
        place.patches[0] = cone(zenith, 180.0, 0.05, 0.0);
        place.patches[1] = window();
        break;
    case CASE_GRADIENT:
        place.head_deg = 0.0;
        place.patch_count = 2;
        place.patches[0] = cone(zenith, 180.0, 0.1, 0.0);
        place.patches[1] = cone(zenith, 90.0, 0.25, 0.75);
        break;
    case CASE_EVEN:
    case CASE_SKIES:
        break;
    }
    return place;
}

const char *case_sky_text(case_sky sky)
{
    static const char *const texts[CASE_SKIES] = {"even sky", "lamp", "window", "gradient"};
    return texts[sky];
}
