/* Places from texts: what each line comes to, and the shipped ones. */
#include "light/near.h"

#include "cut/text_file.h"
#include "geom/angle.h"
#include "light/place.h"
#include "light/spectrum.h"

#include "builtin_place.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define HEADS "title \"T\"\nbright 100 cd/m2\neye overhead\nhead none\n"

static lw_light_place place_of(const char *lines)
{
    char text[4000];
    lw_problem problem = {0};
    lw_light_place place;
    snprintf(text, sizeof text, HEADS "%s\n", lines);
    if (lw_light_place_read(text, strlen(text), &place, &problem) != LW_OK)
        fail_msg("%d:%d: found %s; expected %s", problem.line, problem.column, problem.found,
                 problem.expected);
    return place;
}

/* What stands in the direction of a point in the place's frame: x right, y ahead, z up. */
static int patch_at(const lw_light_place *place, double x, double y, double z)
{
    lw_surroundings s = lw_surroundings_pose(place, 0.0, 0.0, -1.0);
    lw_vec3 w = {x, y, z};
    return lw_surroundings_patch(&s, lw_vec3_scale(w, 1.0 / lw_vec3_length(w)));
}

/* That what is at `inside` is seen and what is at each of the others is not. */
static void assert_edges(const char *lines, const double inside[][3], int inside_count,
                         const double outside[][3], int outside_count)
{
    lw_light_place place = place_of(lines);
    for (int i = 0; i < inside_count; i++)
        assert_int_equal(patch_at(&place, inside[i][0], inside[i][1], inside[i][2]), 0);
    for (int i = 0; i < outside_count; i++)
        assert_int_equal(patch_at(&place, outside[i][0], outside[i][1], outside[i][2]), LW_ON_DARK);
}

/* ---- panes: corners in metres, worked ----------------------------------- */

static void test_window(void **state)
{
    (void)state;
    /* 0.9 m ahead, from -0.35 to 0.45 across, from -0.1 to 1.1 high */
    const double in[4][3] = {
        {-0.349, 0.9, -0.099}, {0.449, 0.9, -0.099}, {0.449, 0.9, 1.099}, {-0.349, 0.9, 1.099}};
    const double out[5][3] = {{-0.351, 0.9, 0.5},
                              {0.451, 0.9, 0.5},
                              {0.0, 0.9, -0.101},
                              {0.0, 0.9, 1.101},
                              {0.0, -0.9, -0.5}};
    assert_edges("window ahead, 80 cm wide, 1.2 m tall, 900 mm away, sill 10 cm down, 5 cm right, "
                 "1 cd/m2, even",
                 in, 4, out, 5);
}

static void test_window_to_the_left(void **state)
{
    (void)state;
    /* Who faces left has what is ahead to his right: 10 cm right of the middle is 10 cm ahead. */
    const double in[2][3] = {{-1.0, 0.599, 0.201}, {-1.0, -0.399, 1.199}};
    const double out[3][3] = {{-1.0, 0.601, 0.5}, {-1.0, -0.401, 0.5}, {1.0, 0.1, 0.5}};
    assert_edges(
        "bar left, 1 m wide, 1 m tall, 1 m away, sill 20 cm up, 10 cm right, 1 cd/m2, even", in, 2,
        out, 3);
}

static void test_panel_overhead(void **state)
{
    (void)state;
    const double in[4][3] = {
        {-0.899, -0.699, 2.0}, {0.099, -0.699, 2.0}, {-0.899, 1.299, 2.0}, {0.099, 1.299, 2.0}};
    const double out[5][3] = {{-0.901, 0.0, 2.0},
                              {0.101, 0.0, 2.0},
                              {0.0, 1.301, 2.0},
                              {0.0, -0.701, 2.0},
                              {0.0, 0.0, -2.0}};
    assert_edges(
        "panel overhead, 1 m wide, 2 m long, 2 m away, 30 cm ahead, 40 cm left, 1 cd/m2, even", in,
        4, out, 5);
    const double under[1][3] = {{0.14, -0.09, -0.1}};
    const double not_under[2][3] = {{0.16, 0.0, -0.1}, {0.0, 0.0, 0.1}};
    assert_edges("panel beneath, 30 cm wide, 20 cm long, 10 cm away, 1 cd/m2, even", under, 1,
                 not_under, 2);
}

/* A card at 30 degrees up, straight ahead: its middle at distance 1, its plane square to that. */
static void test_facing(void **state)
{
    (void)state;
    lw_sincos e = lw_sincos_deg(30.0);
    double in[2][3], out[2][3];
    for (int i = 0; i < 2; i++) {
        double inside = 0.099 - 0.198 * i, outside = 0.101 - 0.202 * i;
        const double a[3] = {0.149, e.cos - inside * e.sin, e.sin + inside * e.cos};
        const double b[3] = {0.149, e.cos - outside * e.sin, e.sin + outside * e.cos};
        memcpy(in[i], a, sizeof a);
        memcpy(out[i], b, sizeof b);
    }
    assert_edges("card ahead, 30 deg up, 30 cm wide, 20 cm tall, 1 m away, 1 cd/m2, even",
                 (const double(*)[3])in, 2, (const double(*)[3])out, 2);
    const double wide[2][3] = {{0.999, 1.0, 0.0}, {-0.999, 1.0, 0.267}};
    const double not_wide[2][3] = {{1.001, 1.0, 0.0}, {0.0, 1.0, 0.269}}; /* tan 15 deg = 0.2679 */
    assert_edges("window ahead, 0 deg up, 90 deg wide, 30 deg tall, 1 cd/m2, even", wide, 2,
                 not_wide, 2);
}

/* ---- discs -------------------------------------------------------------- */

static void test_discs(void **state)
{
    (void)state;
    lw_light_place place =
        place_of("lamp overhead, 20 cm across, 50 cm away, 1 cd/m2, even\n"
                 "lamp left 30 deg ahead, 20 deg down, 8 deg across, 1 cd/m2, even\n"
                 "sun behind 10° right, 40 deg up, 0.53 deg across, 1 cd/m2, even");
    assert_near(lw_acos_deg(place.patches[0].least_cos), lw_atan2_deg(0.1, 0.5), 1e-12);
    assert_near(place.patches[0].toward.z, 1.0, 0.0);
    assert_near(lw_acos_deg(place.patches[1].least_cos), 4.0, 1e-12);
    /* left is 270 degrees clockwise from ahead; 30 on toward ahead: 300 */
    lw_sincos a = lw_sincos_deg(300.0), e = lw_sincos_deg(-20.0);
    lw_vec3 expected = {a.sin * e.cos, a.cos * e.cos, e.sin};
    assert_near(lw_vec3_length(lw_vec3_sub(place.patches[1].toward, expected)), 0.0, 1e-15);
    a = lw_sincos_deg(170.0);
    e = lw_sincos_deg(40.0);
    expected = (lw_vec3){a.sin * e.cos, a.cos * e.cos, e.sin};
    assert_near(lw_vec3_length(lw_vec3_sub(place.patches[2].toward, expected)), 0.0, 1e-15);
}

static void assert_lamp(const lw_patch *patch, double x, double y, double z, double across)
{
    double away = sqrt(x * x + y * y + z * z);
    assert_near(patch->toward.x, x / away, 1e-14);
    assert_near(patch->toward.y, y / away, 1e-14);
    assert_near(patch->toward.z, z / away, 1e-14);
    assert_near(lw_acos_deg(patch->least_cos), lw_atan2_deg(0.5 * across, away), 1e-10);
}

static void test_row_and_ring(void **state)
{
    (void)state;
    lw_light_place place =
        place_of("row of 3 lamps, ahead, 2 m up, 50 cm out, 60 cm apart, 6 cm across, 10 cm left, "
                 "1 cd/m2, even\n"
                 "row of 2 lamps, right, 2 m up, 1 m out, 60 cm apart, 6 cm across, 1 cd/m2, even\n"
                 "ring of 4 lamps, right, 30 cm up, 8 cm out, 1 cm across, 1 cd/m2, even");
    assert_int_equal(place.patch_count, 9);
    for (int i = 0; i < 3; i++)
        assert_lamp(&place.patches[i], -0.7 + 0.6 * i, 0.5, 2.0, 0.06);
    assert_lamp(&place.patches[3], 1.0, 0.3, 2.0, 0.06); /* who faces right has ahead to his left */
    assert_lamp(&place.patches[4], 1.0, -0.3, 2.0, 0.06);
    const double around[4][2] = {{0.08, 0.0}, {0.0, -0.08}, {-0.08, 0.0}, {0.0, 0.08}};
    for (int i = 0; i < 4; i++)
        assert_lamp(&place.patches[5 + i], around[i][0], around[i][1], 0.3, 0.01);
}

/* ---- skies and floors --------------------------------------------------- */

static void test_halves(void **state)
{
    (void)state;
    const double above[1][3] = {{1.0, 0.0, 0.177}}, not_above[1][3] = {{1.0, 0.0, 0.175}};
    assert_edges("sky 1 cd/m2, even, from 10 deg up", above, 1, not_above, 1); /* tan 10 = .17633 */
    const double low[1][3] = {{1.0, 0.0, -0.175}}, not_low[1][3] = {{1.0, 0.0, -0.177}};
    assert_edges("ceiling 1 cd/m2, even, from 10 deg down", low, 1, not_low, 1);
    const double under[1][3] = {{0.0, 1.0, 0.03}}, not_under[1][3] = {{0.0, 1.0, 0.04}};
    assert_edges("bench 1 cd/m2, even, from 2 deg up", under, 1, not_under, 1); /* tan 2 = .0349 */
    const double all[3][3] = {{0, 0, 1}, {0, 0, -1}, {1, 0, 0}};
    assert_edges("room 1 cd/m2, even", all, 3, NULL, 0);
}

/* worked: 6000 overhead and 2000 at the horizon, over a bright of 100, are 60 and 20; half way (30
 * degrees up, by the sine) 40. */
static void test_gradient(void **state)
{
    (void)state;
    lw_light_place place = place_of("sky overhead 6000 cd/m2, level 2000 cd/m2, daylight");
    lw_surroundings s = lw_surroundings_pose(&place, 0.0, 0.0, -1.0);
    assert_near(lw_surroundings_radiance(&s, (lw_vec3){0.0, 0.0, 1.0}), 60.0, 1e-12);
    assert_near(lw_surroundings_radiance(&s, (lw_vec3){sqrt(0.75), 0.0, 0.5}), 40.0, 1e-12);
    assert_near(lw_surroundings_white_card(&s), 20.0 + 40.0 * 2.0 / 3.0, 1e-12);
}

/* A patch's luminance is what was told, whatever its spectrum: radiance x (Y of the glow). */
static void test_luminance(void **state)
{
    (void)state;
    lw_light_place place =
        place_of("room 250 cd/m2, 1900 K\nsky 250 cd/m2, even\nbench 250 cd/m2, daylight");
    const lw_glow glows[3] = {LW_GLOW_BLACKBODY, LW_GLOW_EVEN, LW_GLOW_DAYLIGHT};
    for (int i = 0; i < 3; i++) {
        const lw_patch *patch = &place.patches[i];
        assert_int_equal(patch->glow, glows[i]);
        assert_near(patch->even * lw_glow_colour(patch->glow, patch->kelvin).y, 2.5, 1e-14);
    }
    assert_near(place.patches[0].kelvin, 1900.0, 0.0);
    assert_true(fabs(place.patches[0].even - 2.5) > 0.1); /* 560 nm alone would not do */
}

/* ---- who looks ---------------------------------------------------------- */

static lw_light_place whole(const char *text)
{
    lw_problem problem = {0};
    lw_light_place place;
    if (lw_light_place_read(text, strlen(text), &place, &problem) != LW_OK)
        fail_msg("%d:%d: found %s; expected %s", problem.line, problem.column, problem.found,
                 problem.expected);
    return place;
}

/* The default place has a text: the same place but for its name. */
static void test_even_sky(void **state)
{
    (void)state;
    lw_light_place place = whole("title \"even sky\"\r\nbright 800 cd/m2\r\ntilting the eye\r\n"
                                 "eye overhead\r\nhead 20 deg across, 0 cd/m2, daylight\r\n"
                                 "sky 800 cd/m2, daylight\r\n");
    lw_light_place expected = lw_light_place_even_sky();
    place.patches[0].least_cos += 0.0; /* 0, whatever its sign */
    assert_near(place.patches[0].even, 1.0, 1e-15);
    place.patches[0].even = 1.0;
    assert_memory_equal(&place, &expected, sizeof place);
}

static void test_eye_and_head(void **state)
{
    (void)state;
    lw_light_place place =
        whole("\xEF\xBB\xBFtitle \"É\" # a comment\nbright 100 cd/m\xC2\xB2\n"
              "eye 50\xC2\xB0 up\nhead 18 cm across, 50 cm away, 20 cd/m2, 3000 K\n"
              "\n# a comment\nsky 1 cd/m2, even");
    lw_sincos e = lw_sincos_deg(50.0);
    assert_string_equal(place.name, "É");
    assert_near(place.eye.x, 0.0, 0.0);
    assert_near(place.eye.y, -e.cos, 0.0);
    assert_near(place.eye.z, e.sin, 0.0);
    assert_near(place.head_deg, lw_atan2_deg(9.0, 50.0), 1e-13);
    assert_near(place.head_radiance * lw_glow_colour(LW_GLOW_BLACKBODY, 3000.0).y, 0.2, 1e-15);
    assert_false(place.with_stone);
}

/* ---- shipped, and every line -------------------------------------------- */

static double card_facing(const lw_light_place *place, lw_vec3 normal)
{
    lw_light_place other = *place;
    other.eye = normal;
    lw_surroundings s = lw_surroundings_pose(&other, 0.0, 0.0, -1.0);
    return lw_surroundings_white_card(&s);
}

static const lw_patch *level_below(const lw_light_place *place)
{
    for (int i = 0; i < place->patch_count; i++) {
        const lw_patch *patch = &place->patches[i];
        if (patch->shape == LW_PATCH_CONE && patch->toward.z == -1.0)
            return patch;
    }
    return NULL;
}

/* What makes a place one that could be: what is called bright is a white card that lies there; what
 * lies below throws back 15 to 35 % of the light on it, the face 25 to 45 % (common practice: wood
 * and cloth, skin). */
static void test_shipped(void **state)
{
    (void)state;
    static const char *const names[] = {"bench-lamp", "candlelight", "north-window", "shop-counter",
                                        "under-cloud"};
    assert_int_equal(lw_builtin_place_count(), 5);
    for (int i = 0; i < 5; i++) {
        const lw_builtin_place *builtin = lw_builtin_place_find(names[i]);
        assert_non_null(builtin);
        assert_ptr_equal(builtin, lw_builtin_place_at(i));
        lw_light_place place = whole(builtin->text);
        double level = card_facing(&place, (lw_vec3){0.0, 0.0, 1.0});
        assert_near(level, 1.0, 0.01);
        const lw_patch *below = level_below(&place);
        assert_non_null(below);
        double thrown_back = below->even * lw_glow_colour(below->glow, below->kelvin).y / level;
        assert_true(thrown_back > 0.15 && thrown_back < 0.35);
        double on_face = card_facing(&place, (lw_vec3){0.0, -place.eye.y, -place.eye.z});
        double face = place.head_radiance / on_face;
        assert_true(face > 0.25 && face < 0.45);
        assert_near(place.head_deg, 10.0, 0.0);
    }
    assert_null(lw_builtin_place_find("even-sky"));
}

static void test_every_line(void **state)
{
    (void)state;
    size_t length = 0;
    lw_light_place place;
    char *text = text_of_file("fuzz/seeds/place/every-line.place", &length);
    assert_non_null(text);
    assert_int_equal(lw_light_place_read(text, length, &place, NULL), LW_OK);
    assert_int_equal(place.patch_count, 29);
    free(text);
}

/* The blocks of docs/places.md that are whole places; the first is the built-in one. */
static void test_documented(void **state)
{
    (void)state;
    size_t length = 0;
    char *page = text_of_file("docs/places.md", &length);
    assert_non_null(page);
    int count = 0;
    for (char *at = page; (at = strstr(at, "```\ntitle")) != NULL; count++) {
        at += 4;
        char *end = strstr(at, "```");
        assert_non_null(end);
        *end = '\0';
        whole(at);
        if (count == 0)
            assert_string_equal(at, lw_builtin_place_find("north-window")->text);
        at = end + 1;
    }
    assert_true(count >= 2);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_window),         cmocka_unit_test(test_window_to_the_left),
        cmocka_unit_test(test_panel_overhead), cmocka_unit_test(test_facing),
        cmocka_unit_test(test_discs),          cmocka_unit_test(test_row_and_ring),
        cmocka_unit_test(test_halves),         cmocka_unit_test(test_gradient),
        cmocka_unit_test(test_luminance),      cmocka_unit_test(test_even_sky),
        cmocka_unit_test(test_eye_and_head),   cmocka_unit_test(test_shipped),
        cmocka_unit_test(test_every_line),     cmocka_unit_test(test_documented),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
