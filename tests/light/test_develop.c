/* Exposure, and what a picture is traced with: light/picture/develop.h and optics.h. */
#include "light/picture/develop.h"
#include "light/picture/optics.h"

#include "light/near.h"
#include "matter/refraction.h"

#include <math.h>
#include <string.h>

static lw_xyz colour_of(lw_glow glow, double kelvin, double radiance)
{
    lw_xyz c = lw_glow_colour(glow, kelvin);
    return (lw_xyz){c.x * radiance, c.y * radiance, c.z * radiance};
}

static void bytes(const lw_develop *develop, lw_xyz c, uint8_t rgb[3])
{
    lw_srgb_bytes(lw_develop_seen(develop, (double[]){c.x, c.y, c.z}), rgb);
}

static lw_rgb developed(const lw_develop *develop, lw_xyz c)
{
    return lw_develop_linear(develop, (double[]){c.x, c.y, c.z});
}

/* worked: used to its light, the eye sees the card grey, at the level asked for, whatever glows. */
static void card_is_grey_at_its_level(void **state)
{
    (void)state;
    for (double kelvin = 1800.0; kelvin < 12000.0; kelvin += 1700.0) {
        lw_xyz card = colour_of(LW_GLOW_BLACKBODY, kelvin, 0.37);
        lw_develop d = lw_develop_make(card, 0.8, 1.0);
        lw_rgb rgb = developed(&d, card);
        assert_near(rgb.red, 0.8, 1e-12);
        assert_near(rgb.green, 0.8, 1e-12);
        assert_near(rgb.blue, 0.8, 1e-12);
    }
}

/* worked: an eye that is not used to it sees its own colour, as bright. */
static void unused_eye_sees_the_light(void **state)
{
    (void)state;
    lw_xyz card = colour_of(LW_GLOW_BLACKBODY, 1900.0, 2.0);
    lw_develop d = lw_develop_make(card, 0.8, 0.0);
    lw_rgb rgb = developed(&d, card);
    double scale = 0.8 / card.y;
    lw_rgb expected = lw_rgb_from_xyz((lw_xyz){card.x * scale, card.y * scale, card.z * scale});
    assert_near(rgb.red, expected.red, 1e-12);
    assert_near(rgb.green, expected.green, 1e-12);
    assert_near(rgb.blue, expected.blue, 1e-12);
    assert_true(rgb.red > 1.5 * rgb.green && rgb.green > 3.0 * rgb.blue); /* candlelight */
}

/* published: Bradford from CIE A (XYZ 1.09850 1 0.35585) to D65 (0.95047 1 1.08883), as the ICC's
 * and other tables print it to 7 digits; the same here but for the white of our own tables. */
static void matches_the_published_matrix(void **state)
{
    (void)state;
    const double published[3][3] = {{0.8446965, -0.1179225, 0.3948108},
                                    {-0.1366303, 1.1041226, 0.1291718},
                                    {0.0798489, -0.1348999, 3.1924009}};
    lw_develop d = lw_develop_make((lw_xyz){1.09850, 1.0, 0.35585}, 1.0, 1.0);
    for (int k = 0; k < 3; k++) {
        lw_xyz unit = {k == 0, k == 1, k == 2};
        lw_xyz made = lw_xyz_from_rgb(developed(&d, unit));
        assert_near(made.x, published[0][k], 2e-3);
        assert_near(made.y, published[1][k], 2e-3);
        assert_near(made.z, published[2][k], 4e-3);
    }
}

/* worked: itself below the knee, then smooth, rising, below 1; the slope at the knee is 1. */
static void shoulder_is_smooth(void **state)
{
    (void)state;
    double knee = LW_DEVELOP_KNEE, before = 0.0;
    for (double y = 0.0; y < 1e4; y = 1.1 * y + 0.001) {
        double out = lw_develop_shoulder(knee, y);
        assert_true(out < 1.0 && (y == 0.0 || out > before));
        if (y <= knee)
            assert_near(out, y, 0.0);
        before = out;
    }
    assert_near(lw_develop_shoulder(knee, knee + 1e-6) - knee, 1e-6, 1e-10);
}

/* worked: 0.8 linear is 231 of 255 in sRGB (IEC 61966-2-1: 1.055 x 0.8^(1/2.4) - 0.055 = 0.9063);
 * light brighter than a card keeps its hue as it nears white. */
static void bytes_are_srgb(void **state)
{
    (void)state;
    lw_xyz white = colour_of(LW_GLOW_DAYLIGHT, 0.0, 1.0);
    lw_develop d = lw_develop_make(white, 0.8, 1.0);
    uint8_t rgb[3];
    bytes(&d, white, rgb);
    assert_int_equal(rgb[0], 231);
    assert_int_equal(rgb[1], 231);
    assert_int_equal(rgb[2], 231);
    bytes(&d, (lw_xyz){0.0, 0.0, 0.0}, rgb);
    assert_int_equal(rgb[0] + rgb[1] + rgb[2], 0);
    bytes(&d, (lw_xyz){1.6, 1.4, 1.0}, rgb);
    assert_true(rgb[0] > rgb[1] && rgb[1] > rgb[2] && rgb[2] > 200);
}

/* ---- bands -------------------------------------------------------------- */

static lw_surroundings two_lights(void)
{
    lw_surroundings s = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    s.patches[s.patch_count++] = (lw_patch){.shape = LW_PATCH_CONE,
                                            .toward = {0.0, 0.0, 1.0},
                                            .least_cos = 0.8,
                                            .even = 5.0,
                                            .glow = LW_GLOW_BLACKBODY,
                                            .kelvin = 2700.0};
    return s;
}

/* worked: the lamp's cone has the cosine-weighted share 1 - 0.8^2 = 0.36 of the half space, so the
 * card has 0.64 of daylight and 0.36 x 5 of the lamp's glow; and the one lamp without the sky. */
static void card_adds_up_its_lights(void **state)
{
    (void)state;
    lw_surroundings s = two_lights();
    lw_picture_stone stone = {.index = 1.5};
    lw_picture_optics optics;
    assert_int_equal(lw_picture_optics_make(&stone, &s, 81, &optics), LW_OK);
    lw_xyz card = lw_picture_card(&optics);
    lw_xyz day = colour_of(LW_GLOW_DAYLIGHT, 0.0, 0.64);
    lw_xyz lamp = colour_of(LW_GLOW_BLACKBODY, 2700.0, 1.8);
    assert_near(card.x, day.x + lamp.x, 2e-3);
    assert_near(card.y, day.y + lamp.y, 2e-3);
    assert_near(card.z, day.z + lamp.z, 2e-3);
}

static void knows_where_there_is_colour(void **state)
{
    (void)state;
    lw_surroundings sky = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_surroundings lamps = two_lights();
    lw_picture_stone clear = {.index = 1.5}, diamond = {.material = lw_material_by_key("diamond")},
                     blue = clear;
    assert_int_equal(lw_absorption_from_colour((lw_rgb){0.1, 0.1, 0.5}, 5.0, &blue.absorption),
                     LW_OK);
    blue.mm = 8.0;
    assert_false(lw_picture_has_colour(&clear, &sky));
    assert_true(lw_picture_has_colour(&clear, &lamps));
    assert_true(lw_picture_has_colour(&diamond, &sky));
    assert_true(lw_picture_has_colour(&blue, &sky));
}

/* worked: absorption by length is that by millimetre times the millimetres of a length; indices are
 * the material's own at each band. */
static void bands_have_the_stones_own(void **state)
{
    (void)state;
    lw_surroundings sky = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_picture_stone stone = {.material = lw_material_by_key("corundum"), .mm = 8.0};
    assert_int_equal(lw_absorption_from_colour((lw_rgb){0.1, 0.1, 0.5}, 5.0, &stone.absorption),
                     LW_OK);
    lw_picture_optics optics;
    assert_int_equal(lw_picture_optics_make(&stone, &sky, 16, &optics), LW_OK);
    for (int i = 0; i < 16; i++) {
        double nm = optics.bands.nm[i], n = 0.0;
        assert_int_equal(lw_material_mean_index(stone.material, nm / 1000.0, &n), LW_OK);
        assert_near(optics.index[i], n, 0.0);
        assert_near(optics.absorption[i], 8.0 * lw_absorption_at(&stone.absorption, nm), 1e-12);
        assert_near(optics.card[i], 1.0, 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(card_is_grey_at_its_level),
        cmocka_unit_test(unused_eye_sees_the_light),
        cmocka_unit_test(matches_the_published_matrix),
        cmocka_unit_test(shoulder_is_smooth),
        cmocka_unit_test(bytes_are_srgb),
        cmocka_unit_test(card_adds_up_its_lights),
        cmocka_unit_test(knows_where_there_is_colour),
        cmocka_unit_test(bands_have_the_stones_own),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
