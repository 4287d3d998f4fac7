/* The eye's curves, daylight, glows, bands and sRGB. */
#include "light/near.h"

#include "light/spectrum.h"

#include <string.h>

/* published: ISO/CIE 11664-1 (the sum of y over 380..780 nm in steps of 5), ISO/CIE 11664-2 and CIE
 * 15 (chromaticity of D65, to five digits). */
static void test_tables(void **state)
{
    (void)state;
    double sum = 0.0;
    for (int nm = 380; nm <= 780; nm += 5)
        sum += lw_observer_at(nm).y;
    assert_near(sum, 21.371328, 5e-7);
    assert_near(lw_observer_at(555.0).y, 1.0, 0.0); /* published: the peak */
    assert_near(lw_daylight_at(560.0), 100.0, 0.0); /* published: how D65 is scaled */
    lw_xyz white = lw_glow_colour(LW_GLOW_DAYLIGHT, 0.0);
    double all = white.x + white.y + white.z;
    assert_near(white.x / all, 0.31272, 5e-6);
    assert_near(white.y / all, 0.32903, 5e-6);
    assert_near(white.y, 1.0, 1e-15);
}

static void test_between_rows(void **state)
{
    (void)state;
    /* worked: a quarter of the way from one row to the next */
    double expected = 0.75 * lw_observer_at(500.0).x + 0.25 * lw_observer_at(505.0).x;
    assert_near(lw_observer_at(501.25).x, expected, 1e-15);
    assert_near(lw_daylight_at(780.0), 63.3828, 0.0); /* published: D65, the last row */
    assert_near(lw_daylight_at(780.1), 0.0, 0.0);
    assert_near(lw_daylight_at(379.9), 0.0, 0.0);
    assert_near(lw_observer_at(NAN).y, 0.0, 0.0);
}

/* published: CIE 15, illuminant A: x .44757 y .40745, and its table at 400 and 700 nm, 14.71 and
 * 198.26 where 560 nm is 100. It is defined by 2848 K and a second constant of 1.435e-2 m K, which
 * is 2855.5 K ("2856 K") by today's. */
static void test_black_body(void **state)
{
    (void)state;
    double kelvin = 2848.0 * 1.438776877 / 1.435;
    lw_xyz lamp = lw_glow_colour(LW_GLOW_BLACKBODY, kelvin);
    double all = lamp.x + lamp.y + lamp.z;
    assert_near(lamp.x / all, 0.44757, 1e-5);
    assert_near(lamp.y / all, 0.40745, 1e-5);
    assert_near(lw_glow_at(LW_GLOW_BLACKBODY, kelvin, 560.0), 1.0, 1e-15);
    assert_near(lw_glow_at(LW_GLOW_BLACKBODY, kelvin, 400.0), 0.1471, 5e-5);
    assert_near(lw_glow_at(LW_GLOW_BLACKBODY, kelvin, 700.0), 1.9826, 5e-5);
    /* worked: very hot, Planck's law goes over into Rayleigh's and Jeans's, 1 / nm^4. */
    assert_near(lw_glow_at(LW_GLOW_BLACKBODY, 1e12, 400.0), pow(1.4, 4.0), 1e-6);
}

/* published: CIE 15, equal energy lies at x = y = 1/3 (to the five digits of the tables). */
static void test_even_glow(void **state)
{
    (void)state;
    lw_xyz even = lw_glow_colour(LW_GLOW_EVEN, 0.0);
    double all = even.x + even.y + even.z;
    assert_near(even.x / all, 1.0 / 3.0, 1e-5);
    assert_near(even.y / all, 1.0 / 3.0, 1e-5);
}

/* ---- bands -------------------------------------------------------------- */

static lw_xyz sum_of(const lw_bands *bands, double (*radiance)(double nm, double p, double q),
                     double p, double q)
{
    lw_xyz sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < bands->count; i++) {
        double r = radiance(bands->nm[i], p, q);
        sum.x += r * bands->weight[i].x;
        sum.y += r * bands->weight[i].y;
        sum.z += r * bands->weight[i].z;
    }
    return sum;
}

static double straight(double nm, double p, double q)
{
    return p + q * nm;
}

/* A dip of depth 1 at p nm, as wide as q. */
static double dip(double nm, double p, double q)
{
    double d = (nm - p) / q;
    return 1.0 - exp(-0.5 * d * d);
}

static double worst_of(lw_xyz a, lw_xyz b)
{
    return fmax(fmax(fabs(a.x - b.x), fabs(a.y - b.y)), fabs(a.z - b.z) / 1.0888);
}

static void test_bands_add_to_white(void **state)
{
    (void)state;
    lw_xyz white = lw_glow_colour(LW_GLOW_DAYLIGHT, 0.0);
    for (int count = 1; count <= LW_SPECTRUM_MOST_BANDS; count++) {
        lw_bands bands = lw_bands_make(count);
        lw_xyz sum = sum_of(&bands, straight, 1.0, 0.0);
        assert_int_equal(bands.count, count);
        assert_near(worst_of(sum, white), 0.0, 1e-14);
        for (int i = 0; i < count; i++) {
            assert_true(bands.nm[i] >= 380.0 && bands.nm[i] <= 780.0);
            assert_true(i == 0 || bands.nm[i] > bands.nm[i - 1]);
        }
    }
}

static void test_one_band_is_yellow_green(void **state)
{
    (void)state;
    lw_bands one = lw_bands_make(1);
    assert_near(one.nm[0], 555.0,
                5.0); /* worked: half of daylight's luminance lies on either side */
}

/* worked: the tables times one another, over the sum of y x D65. */
static void test_full_bands_are_the_tables(void **state)
{
    (void)state;
    lw_bands full = lw_bands_make(LW_SPECTRUM_MOST_BANDS);
    double white = 0.0;
    for (int i = 0; i < full.count; i++)
        white += lw_observer_at(380.0 + 5.0 * i).y * lw_daylight_at(380.0 + 5.0 * i);
    for (int i = 0; i < full.count; i++) {
        lw_xyz at = lw_observer_at(380.0 + 5.0 * i);
        assert_near(full.nm[i], 380.0 + 5.0 * i, 0.0);
        double power = lw_daylight_at(full.nm[i]);
        assert_near(full.weight[i].x, at.x * power / white, 1e-15);
    }
}

/* Colours of smooth spectra (dips of 20 to 60 nm anywhere: narrower than gems' absorptions) by few
 * bands, against all 81. The errors stand in docs/colour.md; each more than halves with twice as
 * many bands. */
static double worst_dip(int count)
{
    lw_bands few = lw_bands_make(count), full = lw_bands_make(LW_SPECTRUM_MOST_BANDS);
    double worst = 0.0;
    for (double p = 400.0; p <= 700.0; p += 5.0) {
        for (double q = 20.0; q <= 60.0; q += 10.0)
            worst = fmax(worst, worst_of(sum_of(&few, dip, p, q), sum_of(&full, dip, p, q)));
    }
    return worst;
}

static void test_few_bands(void **state)
{
    (void)state;
    double by_8 = worst_dip(8), by_16 = worst_dip(16), by_32 = worst_dip(32);
    print_message("worst error of a component: 8 bands %.4f, 16 %.4f, 32 %.4f\n", by_8, by_16,
                  by_32);
    assert_true(by_8 < 0.027 && by_16 < 0.0061 && by_32 < 0.0017);
}

static double glow_error(int count, double kelvin)
{
    lw_bands few = lw_bands_make(count);
    double glow[LW_SPECTRUM_MOST_BANDS];
    lw_xyz sum = {0.0, 0.0, 0.0}, exact = lw_glow_colour(LW_GLOW_BLACKBODY, kelvin);
    lw_bands_glow(&few, LW_GLOW_BLACKBODY, kelvin, glow);
    for (int i = 0; i < count; i++) {
        sum.x += glow[i] * few.weight[i].x;
        sum.y += glow[i] * few.weight[i].y;
        sum.z += glow[i] * few.weight[i].z;
    }
    return worst_of(sum, exact) / exact.y;
}

static void test_glow_by_bands(void **state)
{
    (void)state;
    double out[LW_SPECTRUM_MOST_BANDS];
    lw_bands bands = lw_bands_make(12);
    lw_bands_glow(&bands, LW_GLOW_DAYLIGHT, 0.0, out);
    for (int i = 0; i < 12; i++)
        assert_near(out[i], 1.0, 1e-15);
    for (double kelvin = 1900.0; kelvin < 10000.0; kelvin += 500.0) {
        assert_true(glow_error(8, kelvin) < 0.024);
        assert_true(glow_error(16, kelvin) < 0.0062);
        assert_true(glow_error(32, kelvin) < 0.0016);
        assert_true(glow_error(81, kelvin) < 1e-14);
    }
}

/* ---- sRGB --------------------------------------------------------------- */

/* published: IEC 61966-2-1, matrices to four digits; ours are worked out from the same primaries
 * and a white of five digits, so that they differ by no more than 3e-4. */
static void test_matrices(void **state)
{
    (void)state;
    lw_rgb x = lw_rgb_from_xyz((lw_xyz){1, 0, 0}), y = lw_rgb_from_xyz((lw_xyz){0, 1, 0}),
           z = lw_rgb_from_xyz((lw_xyz){0, 0, 1});
    double got[9] = {x.red, y.red, z.red, x.green, y.green, z.green, x.blue, y.blue, z.blue};
    static const double printed[9] = {3.2406, -1.5372, -0.4986, -0.9689, 1.8758,
                                      0.0415, 0.0557,  -0.2040, 1.0570};
    for (int i = 0; i < 9; i++)
        assert_near(got[i], printed[i], 4e-4);
}

/* published: IEC 61966-2-1, table 1. */
static void test_primaries(void **state)
{
    (void)state;
    static const double xy[3][2] = {{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}};
    const lw_rgb pure[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    for (int i = 0; i < 3; i++) {
        lw_xyz c = lw_xyz_from_rgb(pure[i]);
        assert_near(c.x / (c.x + c.y + c.z), xy[i][0], 1e-14);
        assert_near(c.y / (c.x + c.y + c.z), xy[i][1], 1e-14);
    }
    lw_rgb white = lw_rgb_from_xyz(lw_glow_colour(LW_GLOW_DAYLIGHT, 0.0));
    assert_near(white.red, 1.0, 1e-14);
    assert_near(white.green, 1.0, 1e-14);
    assert_near(white.blue, 1.0, 1e-14);
}

static void test_round_trips(void **state)
{
    (void)state;
    lw_rgb c = {0.25, 1.5, -0.125};
    lw_rgb back = lw_rgb_from_xyz(lw_xyz_from_rgb(c));
    assert_near(back.red, c.red, 1e-14);
    assert_near(back.green, c.green, 1e-14);
    assert_near(back.blue, c.blue, 1e-14);
    for (int i = 0; i <= 255; i++) {
        uint8_t bytes[3];
        double linear = lw_srgb_decode(i / 255.0);
        assert_near(lw_srgb_encode(linear), i / 255.0,
                    1e-7); /* the standard's own joint is off so much */
        lw_srgb_bytes((lw_rgb){linear, linear, linear}, bytes);
        assert_int_equal(bytes[0], i);
        assert_int_equal(bytes[1], i);
        assert_int_equal(bytes[2], i);
    }
}

/* worked, from IEC 61966-2-1, 5.2: 12.92 x below .0031308, else 1.055 x^(1/2.4) - .055. */
static void test_transfer(void **state)
{
    (void)state;
    assert_near(lw_srgb_encode(0.002), 0.02584, 1e-15);
    assert_near(lw_srgb_encode(0.18), 0.46135612950044, 1e-13);
    assert_near(lw_srgb_decode(0.5), 0.21404114048223, 1e-13);
    assert_near(lw_srgb_encode(7.0), 1.0, 0.0);
    assert_near(lw_srgb_encode(-7.0), 0.0, 0.0);
    assert_near(lw_srgb_encode(NAN), 0.0, 0.0);
}

static void test_out_of_gamut(void **state)
{
    (void)state;
    uint8_t bytes[3];
    /* A green outside sRGB keeps its luminance (within what 8 bits tell) and gives up saturation.
     */
    lw_rgb green = {-0.2, 0.6, 0.1};
    lw_srgb_bytes(green, bytes);
    assert_int_equal(bytes[0], 0);
    lw_rgb shown = {lw_srgb_decode(bytes[0] / 255.0), lw_srgb_decode(bytes[1] / 255.0),
                    lw_srgb_decode(bytes[2] / 255.0)};
    assert_near(lw_xyz_from_rgb(shown).y, lw_xyz_from_rgb(green).y, 0.004);
    lw_srgb_bytes((lw_rgb){3.0, 2.0, 2.5}, bytes); /* brighter than white is white */
    assert_memory_equal(bytes, ((uint8_t[]){255, 255, 255}), 3);
    lw_srgb_bytes((lw_rgb){-1.0, -1.0, -1.0}, bytes);
    assert_memory_equal(bytes, ((uint8_t[]){0, 0, 0}), 3);
    lw_srgb_bytes((lw_rgb){1.0, 0.0, 0.0}, bytes); /* the corners of the gamut are within it */
    assert_memory_equal(bytes, ((uint8_t[]){255, 0, 0}), 3);
    lw_srgb_bytes((lw_rgb){INFINITY, 0.0, 0.0}, bytes);
    assert_int_equal(bytes[0], 255);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tables),
        cmocka_unit_test(test_between_rows),
        cmocka_unit_test(test_black_body),
        cmocka_unit_test(test_even_glow),
        cmocka_unit_test(test_bands_add_to_white),
        cmocka_unit_test(test_one_band_is_yellow_green),
        cmocka_unit_test(test_full_bands_are_the_tables),
        cmocka_unit_test(test_few_bands),
        cmocka_unit_test(test_glow_by_bands),
        cmocka_unit_test(test_matrices),
        cmocka_unit_test(test_primaries),
        cmocka_unit_test(test_round_trips),
        cmocka_unit_test(test_transfer),
        cmocka_unit_test(test_out_of_gamut),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
