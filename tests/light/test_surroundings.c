/* Places as a posed stone sees them, and the light that falls on a card. */
#include "light/near.h"

#include "geom/angle.h"
#include "light/surroundings.h"

#include <string.h>

static const lw_vec3 up = {0.0, 0.0, 1.0};

static void assert_direction(lw_vec3 got, lw_vec3 expected)
{
    assert_near(lw_vec3_length(lw_vec3_sub(got, expected)), 0.0, 1e-14);
}

/* ---- poses -------------------------------------------------------------- */

/* The default place is the measures' own: the same to the last bit whatever way it is asked for. */
static void test_default_place(void **state)
{
    (void)state;
    lw_light_place place = lw_light_place_even_sky();
    for (double tilt = 0.0; tilt < 90.0; tilt += 7.5) {
        for (double turn = 0.0; turn < 360.0; turn += 33.0) {
            lw_surroundings a = lw_surroundings_pose(&place, tilt, turn, -1.0);
            lw_surroundings b = lw_surroundings_even_sky(lw_eye_direction(tilt, turn), 10.0);
            assert_memory_equal(&a, &b, sizeof a);
        }
    }
    lw_surroundings none = lw_surroundings_pose(&place, 20.0, 0.0, 0.0);
    assert_false(lw_surroundings_is_head(&none, none.eye));
    assert_near(lw_surroundings_radiance(&none, none.eye), 1.0, 0.0);
}

/* A room with a lamp ahead (y), one to the right (x) and one overhead; the viewer sits at -y. */
static lw_light_place room(lw_vec3 eye)
{
    lw_light_place place = {.eye = eye, .head_deg = 8.0, .patch_count = 3};
    const lw_vec3 lamps[3] = {{0, 1, 0}, {1, 0, 0}, {0, 0, 1}};
    for (int i = 0; i < 3; i++) {
        place.patches[i] =
            (lw_patch){.toward = lamps[i], .least_cos = lw_sincos_deg(5.0).cos, .even = 1.0};
    }
    return place;
}

/* worked: the eye half way up behind the stone, the table to the eye. In the stone's frame x is to
 * the right, y up along the table, away from the viewer: ahead is between y and -z, the zenith
 * between y and z. */
static void test_table_faces_eye(void **state)
{
    (void)state;
    double half = sqrt(0.5);
    lw_light_place place = room((lw_vec3){0.0, -half, half});
    lw_surroundings s = lw_surroundings_pose(&place, 0.0, 0.0, -1.0);
    assert_direction(s.eye, up);
    assert_direction(s.zenith, (lw_vec3){0.0, half, half});
    assert_direction(s.patches[0].toward, (lw_vec3){0.0, half, -half});
    assert_direction(s.patches[1].toward, (lw_vec3){1.0, 0.0, 0.0});
    assert_direction(s.patches[2].toward, s.zenith);
    assert_near(s.cos_head, lw_sincos_deg(8.0).cos, 0.0);
}

/* worked: an eye at the zenith keeps the place's axes; tilted 30 degrees with the eye at the
 * stone's +x, the zenith moves as the eye does, and what was to the right sinks under the girdle.
 */
static void test_tilt_from_above(void **state)
{
    (void)state;
    lw_light_place place = room(up);
    lw_surroundings level = lw_surroundings_pose(&place, 0.0, 0.0, -1.0);
    assert_direction(level.patches[1].toward, (lw_vec3){1.0, 0.0, 0.0});
    lw_sincos t = lw_sincos_deg(30.0);
    lw_surroundings s = lw_surroundings_pose(&place, 30.0, 0.0, -1.0);
    assert_direction(s.eye, (lw_vec3){t.sin, 0.0, t.cos});
    assert_direction(s.zenith, s.eye);
    assert_direction(s.patches[1].toward, (lw_vec3){t.cos, 0.0, -t.sin});
    assert_direction(s.patches[0].toward, (lw_vec3){0.0, 1.0, 0.0});
    /* toward +y: the same a quarter round */
    s = lw_surroundings_pose(&place, 30.0, 90.0, -1.0);
    assert_direction(s.eye, (lw_vec3){0.0, t.sin, t.cos});
    assert_direction(s.patches[0].toward, (lw_vec3){0.0, t.cos, -t.sin});
    assert_direction(s.patches[1].toward, (lw_vec3){1.0, 0.0, 0.0});
}

/* However it is turned, a place is rigid and keeps its eye; the eye stands where the stone is told.
 */
static void test_poses_are_turns(void **state)
{
    (void)state;
    lw_light_place place = room((lw_vec3){0.48, -0.64, 0.6});
    for (double tilt = 0.0; tilt < 80.0; tilt += 13.0) {
        for (double turn = -180.0; turn < 180.0; turn += 41.0) {
            lw_surroundings s = lw_surroundings_pose(&place, tilt, turn, -1.0);
            lw_vec3 ahead = s.patches[0].toward, right = s.patches[1].toward;
            assert_direction(lw_vec3_cross(right, ahead), s.zenith);
            lw_vec3 eye =
                lw_vec3_add(lw_vec3_scale(right, 0.48),
                            lw_vec3_add(lw_vec3_scale(ahead, -0.64), lw_vec3_scale(s.zenith, 0.6)));
            assert_direction(eye, s.eye);
            assert_direction(s.eye, lw_eye_direction(tilt, turn));
        }
    }
}

static void test_leaning_pane(void **state)
{
    (void)state;
    /* A window in the wall ahead whose middle lies half a wall's distance above the stone: right -
     * shift toward. Its lower edge at 0.25, its upper at 0.75. */
    lw_surroundings s = {.eye = up, .zenith = up, .cos_head = 2.0, .patch_count = 1};
    s.patches[0] = (lw_patch){.shape = LW_PATCH_PANE,
                              .toward = {0, 1, 0},
                              .right = {1, 0, 0},
                              .above = {0, -0.5, 1},
                              .tan_width = 1.0,
                              .tan_tall = 0.25,
                              .even = 1.0};
    const double heights[4] = {0.24, 0.26, 0.74, 0.76};
    for (int i = 0; i < 4; i++) {
        lw_vec3 w = {0.9, 1.0, heights[i]};
        w = lw_vec3_scale(w, 1.0 / lw_vec3_length(w));
        assert_int_equal(lw_surroundings_patch(&s, w), i == 1 || i == 2 ? 0 : LW_ON_DARK);
        assert_int_equal(lw_surroundings_patch(&s, lw_vec3_scale(w, -1.0)), LW_ON_DARK);
    }
}

/* ---- the white card ----------------------------------------------------- */

static lw_surroundings open_sky(void)
{
    return (lw_surroundings){.eye = up, .zenith = up, .cos_head = 2.0};
}

static lw_patch cone(lw_vec3 toward, double half_deg, double even)
{
    return (lw_patch){.toward = toward, .least_cos = lw_sincos_deg(half_deg).cos, .even = even};
}

static lw_patch pane(lw_vec3 toward, lw_vec3 right, double tan_width, double tan_tall, double even)
{
    return (lw_patch){.shape = LW_PATCH_PANE,
                      .toward = toward,
                      .right = right,
                      .above = lw_vec3_cross(right, toward),
                      .tan_width = tan_width,
                      .tan_tall = tan_tall,
                      .even = even};
}

/* worked, Lambert: a cone of half-angle a straight above gives sin^2 a; the even sky 1; at the
 * side, while it does not dip below the card's plane, sin^2 a times the cosine of its middle. */
static void test_cones(void **state)
{
    (void)state;
    for (double a = 1.0; a < 180.0; a += 7.0) {
        lw_surroundings s = open_sky();
        s.patches[s.patch_count++] = cone(up, a, 1.0);
        double sine = lw_sincos_deg(a < 90.0 ? a : 90.0).sin;
        assert_near(lw_surroundings_white_card(&s), sine * sine, 1e-14);
        s.patches[0] = cone(lw_eye_direction(60.0, 25.0), a, 1.0);
        if (a < 30.0)
            assert_near(lw_surroundings_white_card(&s), 0.5 * sine * sine, 1e-14);
    }
    lw_surroundings sky = lw_surroundings_even_sky(lw_eye_direction(40.0, 10.0), 10.0);
    assert_near(lw_surroundings_white_card(&sky), 1.0, 1e-14);
    sky = open_sky();
    assert_near(lw_surroundings_white_card(&sky), 0.0, 0.0);
    sky.patches[sky.patch_count++] = (lw_patch){.toward = up, .least_cos = -2.0, .even = 0.7};
    assert_near(lw_surroundings_white_card(&sky), 0.7, 1e-14);
}

/* worked: half of an even sky at right angles to the card's plane lights it half; a sky tilted by t
 * leaves (1 + cos t) / 2 (published as the sky's view factor of a sloping roof: Liu and Jordan
 * 1963). */
static void test_half_spaces(void **state)
{
    (void)state;
    for (double t = 0.0; t <= 180.0; t += 7.5) {
        lw_surroundings s = open_sky();
        s.patches[s.patch_count++] = (lw_patch){.toward = lw_eye_direction(t, 70.0), .even = 1.0};
        assert_near(lw_surroundings_white_card(&s), 0.5 * (1.0 + lw_sincos_deg(t).cos), 1e-14);
    }
}

/* published: P. Moon and D. Spencer 1942, the overcast sky, (1 + 2 sin h) / 3 of its zenith.
 * worked: on the level that gives 7/9; on the upright, which sees half of it, 1/3 x 1/2 + 2/(3 pi)
 * x 2/3. */
static void test_overcast(void **state)
{
    (void)state;
    lw_surroundings s = open_sky();
    s.patches[s.patch_count++] = (lw_patch){.toward = up, .even = 1.0 / 3.0, .slope = 2.0 / 3.0};
    assert_near(lw_surroundings_white_card(&s), 7.0 / 9.0, 1e-14);
    s.zenith = s.patches[0].toward = (lw_vec3){1.0, 0.0, 0.0};
    assert_near(lw_surroundings_white_card(&s), 1.0 / 6.0 + 4.0 / (9.0 * LW_PI), 1e-14);
}

/* worked: a sky whose slope takes it below nothing at 60 degrees off the zenith: the integral of
 * (2 cos t - 1) over the cone of 60 degrees, x 2 sin t cos t, is 4/3 (1 - 1/8) - 3/4 = 5/12. */
static void test_fading_sky(void **state)
{
    (void)state;
    lw_surroundings s = open_sky();
    s.patches[s.patch_count++] =
        (lw_patch){.toward = up, .least_cos = -2.0, .even = -1.0, .slope = 2.0};
    assert_near(lw_surroundings_white_card(&s), 5.0 / 12.0, 1e-14);
    s.patches[0].even = -2.5; /* nowhere above 0 */
    assert_near(lw_surroundings_white_card(&s), 0.0, 0.0);
}

/* published: view factor from a small plate to a parallel rectangle with a corner straight above it
 * (R. Siegel and J. Howell, Thermal Radiation Heat Transfer, the standard catalogues' first case):
 * 1/(2 pi) (a/sqrt(1+a^2) atan(b/sqrt(1+a^2)) + b/sqrt(1+b^2) atan(a/sqrt(1+b^2))). */
static double corner_factor(double a, double b)
{
    double p = sqrt(1.0 + a * a), q = sqrt(1.0 + b * b);
    return (a / p * lw_atan2(b, p) + b / q * lw_atan2(a, q)) / (2.0 * LW_PI);
}

static void test_panes(void **state)
{
    (void)state;
    lw_surroundings s = open_sky();
    s.patches[s.patch_count++] = pane(up, (lw_vec3){0.6, 0.8, 0.0}, 0.7, 1.9, 3.0);
    assert_near(lw_surroundings_white_card(&s), 3.0 * 4.0 * corner_factor(0.7, 1.9), 1e-13);
    /* Off its middle: from one corner at 0.5, 0.5 to the other at 1.5, 2.5. */
    s.patches[0] = pane(up, (lw_vec3){1.0, 0.0, 0.0}, 0.5, 1.0, 1.0);
    s.patches[0].right.z -= 1.0;
    s.patches[0].above.z -= s.patches[0].above.y * 1.5;
    double expected = corner_factor(1.5, 2.5) - corner_factor(0.5, 2.5) - corner_factor(1.5, 0.5) +
                      corner_factor(0.5, 0.5);
    assert_near(lw_surroundings_white_card(&s), expected, 1e-13);
}

/* Painter's order: what is hidden does not count, whole or in part. worked. */
static void test_hiding(void **state)
{
    (void)state;
    double low = pow(lw_sincos_deg(20.0).sin, 2.0), high = pow(lw_sincos_deg(50.0).sin, 2.0);
    lw_surroundings s = open_sky();
    s.patches[s.patch_count++] = cone(up, 50.0, 2.0);
    s.patches[s.patch_count++] = cone(up, 20.0, 5.0);
    assert_near(lw_surroundings_white_card(&s), 2.0 * (high - low) + 5.0 * low, 1e-13);
    lw_patch first = s.patches[0];
    s.patches[0] = s.patches[1];
    s.patches[1] = first;
    assert_near(lw_surroundings_white_card(&s), 2.0 * high, 1e-13);
    /* The same edge twice, three times, and from its other side. */
    s.patches[s.patch_count++] = cone(up, 50.0, 3.0);
    s.patches[s.patch_count++] =
        (lw_patch){.toward = {0.0, 0.0, -1.0}, .least_cos = -lw_sincos_deg(50.0).cos, .even = 1.0};
    assert_near(lw_surroundings_white_card(&s), 3.0 * high + 1.0 * (1.0 - high), 1e-13);
    /* The head hides nothing. */
    s.cos_head = 0.5;
    s.head_radiance = 100.0;
    assert_near(lw_surroundings_white_card(&s), 3.0 * high + 1.0 * (1.0 - high), 1e-13);
}

/* ---- against the plain way ---------------------------------------------- */

static double uniform(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005u + 1442695040888963407u;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static lw_vec3 any_direction(uint64_t *seed)
{
    double z = 2.0 * uniform(seed) - 1.0;
    lw_sincos turn = lw_sincos_turns(uniform(seed));
    double r = sqrt(1.0 - z * z);
    return (lw_vec3){r * turn.cos, r * turn.sin, z};
}

static lw_patch any_patch(uint64_t *seed)
{
    lw_vec3 toward = any_direction(seed);
    lw_vec3 right = lw_vec3_cross(toward, any_direction(seed));
    right = lw_vec3_scale(right, 1.0 / lw_vec3_length(right));
    lw_patch patch = uniform(seed) < 0.5
                         ? cone(toward, 10.0 + 100.0 * uniform(seed), 1.0)
                         : pane(toward, right, 0.1 + uniform(seed), 0.1 + uniform(seed), 1.0);
    if (uniform(seed) < 0.5)
        patch.right = lw_vec3_sub(right, lw_vec3_scale(toward, uniform(seed)));
    patch.even = 2.0 * uniform(seed) - 0.3;
    patch.slope = uniform(seed) < 0.5 ? 0.0 : 3.0 * uniform(seed) - 1.0;
    return patch;
}

/* Over the disk that the half space is, seen from above: each direction counts alike. */
static double by_sampling(const lw_surroundings *s, int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        for (int k = 0; k < n; k++) {
            double square = (i + 0.5) / n;
            lw_sincos turn = lw_sincos_turns((k + 0.5) / n);
            double r = sqrt(square);
            sum += lw_surroundings_radiance(
                s, (lw_vec3){r * turn.cos, r * turn.sin, sqrt(1.0 - square)});
        }
    }
    return sum / n / n;
}

static void test_random_places(void **state)
{
    (void)state;
    uint64_t seed = 7;
    double worst = 0.0;
    for (int i = 0; i < 60; i++) {
        lw_surroundings s = open_sky();
        s.zenith = any_direction(&seed);
        int count = 1 + (int)(LW_LIGHT_MOST_PATCHES * uniform(&seed));
        while (s.patch_count < count)
            s.patches[s.patch_count++] = any_patch(&seed);
        worst = fmax(worst, fabs(lw_surroundings_white_card(&s) - by_sampling(&s, 400)));
    }
    print_message("160,000 directions differ by %.1e at most\n", worst);
    assert_true(worst <
                2e-3); /* an edge is off by a cell's width, 1/400 of 1, in part of its cells */
}

/* A place turned about the card's normal lights it as before, to the last digits. */
static void test_turned_places(void **state)
{
    (void)state;
    uint64_t seed = 11;
    lw_light_place place = {.eye = up, .patch_count = LW_LIGHT_MOST_PATCHES};
    for (int i = 0; i < place.patch_count; i++)
        place.patches[i] = any_patch(&seed);
    lw_surroundings s = lw_surroundings_pose(&place, 0.0, 0.0, 0.0);
    double first = lw_surroundings_white_card(&s);
    for (int i = 0; i < 40; i++) {
        lw_sincos turn = lw_sincos_turns(uniform(&seed));
        lw_light_place turned = place;
        for (int k = 0; k < place.patch_count; k++) {
            lw_vec3 *vectors[3] = {&turned.patches[k].toward, &turned.patches[k].right,
                                   &turned.patches[k].above};
            for (int j = 0; j < 3; j++) {
                lw_vec3 w = *vectors[j];
                *vectors[j] = (lw_vec3){turn.cos * w.x - turn.sin * w.y,
                                        turn.sin * w.x + turn.cos * w.y, w.z};
            }
        }
        s = lw_surroundings_pose(&turned, 0.0, 0.0, 0.0);
        assert_near(lw_surroundings_white_card(&s), first, 1e-12);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_default_place),   cmocka_unit_test(test_table_faces_eye),
        cmocka_unit_test(test_tilt_from_above), cmocka_unit_test(test_poses_are_turns),
        cmocka_unit_test(test_leaning_pane),    cmocka_unit_test(test_cones),
        cmocka_unit_test(test_half_spaces),     cmocka_unit_test(test_overcast),
        cmocka_unit_test(test_fading_sky),      cmocka_unit_test(test_panes),
        cmocka_unit_test(test_hiding),          cmocka_unit_test(test_random_places),
        cmocka_unit_test(test_turned_places),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
