/* Colours by thickness. */
#include "light/near.h"

#include "geom/tolerance.h"
#include "light/absorption.h"

#include <string.h>

static lw_rgb rgb_of_bytes(int red, int green, int blue)
{
    return (lw_rgb){lw_srgb_decode(red / 255.0), lw_srgb_decode(green / 255.0),
                    lw_srgb_decode(blue / 255.0)};
}

static double apart(lw_rgb a, lw_rgb b)
{
    return fmax(fmax(fabs(a.red - b.red), fabs(a.green - b.green)), fabs(a.blue - b.blue));
}

/* Every colour of sRGB but black: all corners, edges and faces, close to white and to black.
 * worked: a filter of D65 looks as it was asked to, by the full sum of the tables. */
static void test_whole_cube(void **state)
{
    (void)state;
    static const int levels[] = {0,   1,   2,   5,   17,  33,  64,  96, 128,
                                 160, 192, 224, 240, 250, 253, 254, 255};
    enum { COUNT = sizeof levels / sizeof levels[0] };
    for (int i = 1; i < COUNT * COUNT * COUNT; i++) { /* 0 is black */
        lw_rgb wanted =
            rgb_of_bytes(levels[i / COUNT / COUNT], levels[i / COUNT % COUNT], levels[i % COUNT]);
        lw_absorption made = {0};
        assert_int_equal(lw_absorption_from_colour(wanted, 5.0, &made), LW_OK);
        lw_rgb got = lw_rgb_from_xyz(lw_absorption_colour(&made, 5.0));
        assert_near(apart(got, wanted), 0.0, 2.0 * LW_SAME_COLOUR);
        for (int nm = 380; nm <= 780; nm += 20)
            assert_true(lw_absorption_at(&made, nm) >= 0.0 && lw_absorption_at(&made, nm) < 10.0);
    }
}

static void test_clear_and_black(void **state)
{
    (void)state;
    lw_absorption clear = {.coloured = true, .a = 1.0};
    assert_int_equal(lw_absorption_from_colour((lw_rgb){1, 1, 1}, 8.0, &clear), LW_OK);
    assert_false(clear.coloured);
    assert_near(lw_absorption_at(&clear, 500.0), 0.0, 0.0);
    assert_near(lw_absorption_colour(&clear, 100.0).y, 1.0, 1e-14);
    lw_absorption kept = {.a = 3.0}, before = kept;
    assert_int_equal(lw_absorption_from_colour((lw_rgb){0, 0, 0}, 8.0, &kept), LW_NO_SOLUTION);
    assert_memory_equal(&kept, &before, sizeof kept);
}

/* worked: a grey filter takes the same from every wavelength: -ln(0.5) / 4 mm. */
static void test_grey(void **state)
{
    (void)state;
    lw_absorption grey;
    assert_int_equal(lw_absorption_from_colour((lw_rgb){0.5, 0.5, 0.5}, 4.0, &grey), LW_OK);
    for (int nm = 380; nm <= 780; nm += 50)
        assert_near(lw_absorption_at(&grey, nm), log(2.0) / 4.0, 1e-12);
    assert_near(lw_absorption_colour(&grey, 12.0).y, 0.125, 1e-12);
}

/* Lambert's law: two lengths one after the other are one of both; none is clear; more is darker. */
static void test_lengths(void **state)
{
    (void)state;
    lw_absorption ruby;
    assert_int_equal(lw_absorption_from_colour(rgb_of_bytes(190, 20, 60), 6.0, &ruby), LW_OK);
    assert_near(lw_absorption_colour(&ruby, 0.0).y, 1.0, 1e-14);
    double darker = 1.0;
    for (double mm = 1.0; mm < 20.0; mm += 1.0) {
        double y = lw_absorption_colour(&ruby, mm).y;
        assert_true(y < darker);
        darker = y;
    }
    /* The stated thickness is only where the colour is known: twice as thick with half the light.
     */
    lw_absorption same;
    assert_int_equal(lw_absorption_from_colour(rgb_of_bytes(190, 20, 60), 12.0, &same), LW_OK);
    assert_near(lw_absorption_at(&same, 520.0), 0.5 * lw_absorption_at(&ruby, 520.0), 1e-13);
    /* A thinner piece is paler: nearer to white in each component. */
    lw_rgb thin = lw_rgb_from_xyz(lw_absorption_colour(&ruby, 1.0));
    lw_rgb thick = rgb_of_bytes(190, 20, 60);
    assert_true(thin.red > thick.red && thin.green > thick.green && thin.blue > thick.blue);
}

/* A colour's components by few bands, less those by all. */
static double few_bands_off(const lw_bands *bands, const lw_absorption *absorption, lw_rgb wanted)
{
    lw_xyz sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < bands->count; i++) {
        double passed = exp(-absorption->thickness_mm * lw_absorption_at(absorption, bands->nm[i]));
        sum.x += passed * bands->weight[i].x;
        sum.y += passed * bands->weight[i].y;
        sum.z += passed * bands->weight[i].z;
    }
    return apart(lw_rgb_from_xyz(sum), wanted);
}

/* What docs/colour.md says of 8, 16 and 32 bands, over the whole of sRGB: worst and mean. */
static void test_few_bands(void **state)
{
    (void)state;
    static const struct {
        int count;
        double worst, mean;
    } told[] = {{8, 0.074, 0.014}, {16, 0.022, 0.0036}, {32, 0.0075, 0.0009}};
    for (int k = 0; k < 3; k++) {
        lw_bands bands = lw_bands_make(told[k].count);
        double worst = 0.0, sum = 0.0;
        int count = 0;
        for (int i = 1; i < 18 * 18 * 18; i++, count++) {
            lw_rgb wanted = rgb_of_bytes(i / 324 * 15, i / 18 % 18 * 15, i % 18 * 15);
            lw_absorption made = {0};
            assert_int_equal(lw_absorption_from_colour(wanted, 3.0, &made), LW_OK);
            double off = made.coloured ? few_bands_off(&bands, &made, wanted) : 0.0;
            worst = fmax(worst, off);
            sum += off;
        }
        print_message("%d bands: worst %.4f, mean %.5f\n", told[k].count, worst, sum / count);
        assert_true(worst < told[k].worst && sum / count < told[k].mean);
        assert_true(worst > 0.5 * told[k].worst); /* the page does not overstate it */
    }
}

static void test_refused(void **state)
{
    (void)state;
    const lw_rgb bad[] = {
        {-0.01, 0.5, 0.5}, {0.5, 1.01, 0.5}, {0.5, 0.5, NAN}, {INFINITY, 0.5, 0.5}};
    lw_absorption kept = {.coloured = true, .a = 1.0}, before = kept;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(lw_absorption_from_colour(bad[i], 5.0, &kept), LW_BAD_INPUT);
    const double lengths[] = {0.0, -1.0, NAN, INFINITY};
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) {
        lw_status status = lw_absorption_from_colour((lw_rgb){0.5, 0.5, 0.4}, lengths[i], &kept);
        assert_int_equal(status, LW_BAD_INPUT);
    }
    assert_memory_equal(&kept, &before, sizeof kept);
}

static void test_read(void **state)
{
    (void)state;
    lw_rgb c;
    assert_int_equal(lw_colour_read("8040fF", &c), LW_OK);
    assert_near(apart(c, rgb_of_bytes(128, 64, 255)), 0.0, 1e-15);
    assert_int_equal(lw_colour_read("#000001", &c), LW_OK);
    assert_near(c.blue, 1.0 / 255.0 / 12.92, 1e-15);
    lw_rgb before = c;
    static const char *const bad[] = {"",        "#",      "12345",   "1234567",
                                      "##12345", "12345g", " 123456", "+12345"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(lw_colour_read(bad[i], &c), LW_BAD_INPUT);
    assert_memory_equal(&c, &before, sizeof c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_whole_cube), cmocka_unit_test(test_clear_and_black),
        cmocka_unit_test(test_grey),       cmocka_unit_test(test_lengths),
        cmocka_unit_test(test_few_bands),  cmocka_unit_test(test_refused),
        cmocka_unit_test(test_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
