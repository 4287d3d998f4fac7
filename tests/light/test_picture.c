/* Traced pictures: light/picture/. */
#include "light/gallery.h"
#include "light/near.h"
#include "light/sampled.h"

#include "geom/angle.h"

#include <stdlib.h>
#include <string.h>

static shape round_stone(void)
{
    return shape_round(40.8, 33.2, 0.56, 0.5, 0.78);
}

/* All around the same, the light as bright on every side. */
static lw_light_place even_all_round(double radiance)
{
    lw_light_place place = lw_light_place_even_sky();
    place.head_deg = 0.0;
    place.patches[0].least_cos = -2.0;
    place.patches[0].even = radiance;
    return place;
}

/* ---- the same however it is cut up -------------------------------------- */

static void tiles_leave_no_trace(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 75);
    g.picture.samples = 4;
    g.picture.most_samples = 64;
    g.pose = (lw_picture_pose){13.0, 250.0, 0.0};
    g.picture.with_ground = true;
    g.picture.ground = 0.18;
    gallery_trace(&g, 32);
    size_t bytes = 75 * 75 * LW_PICTURE_NUMBERS * sizeof(float);
    float *kept = malloc(bytes);
    memcpy(kept, g.numbers, bytes);
    static const int tiles[] = {1, 7, 16, 31};
    for (size_t i = 0; i < sizeof tiles / sizeof *tiles; i++) {
        gallery_trace(&g, tiles[i]);
        assert_memory_equal(kept, g.numbers, bytes);
    }
    free(kept);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* ---- against one ray at a time in double precision ---------------------- */

static double reference(const gallery *g, const lw_light_options *options, int x, int y)
{
    const lw_picture *p = &g->scene.picture;
    lw_vec3 from = lw_vec3_add(g->scene.corner, lw_vec3_scale(p->right, (x + 0.5) * p->pixel));
    from = lw_vec3_sub(from, lw_vec3_scale(g->scene.up, (y + 0.5) * p->pixel));
    lw_ray_light light;
    if (!lw_light_of_ray(&g->stone->optic, options, &g->around, from,
                         lw_vec3_scale(g->around.eye, -1.0), &light))
        return g->scene.background.y;
    return light.brightness + light.glare;
}

/* How much of a picture is off by more than within, and the mean of it. */
typedef struct differing {
    double share, mean;
} differing;

static differing against_doubles(gallery *g, const lw_light_options *options, double within)
{
    int size = g->picture.width, off = 0;
    double sum = 0.0;
    gallery_trace(g, 32);
    for (int y = 0; y < size; y++) {
        for (int x = 0; x < size; x++) {
            double gap = (double)gallery_pixel(g, x, y)[1] - reference(g, options, x, y);
            off += fabs(gap) > within;
            sum += gap;
        }
    }
    return (differing){off / (double)(size * size), sum / (size * size)};
}

/* A pixel whose ray passes within single precision's rounding of an edge, on any of its bounces,
 * may see another facet; hundreds of bounces in diamond make that more frequent. Away from such
 * edges the two agree to 1e-3, and their means to 2e-4. The paths are followed to the same end. */
static void agrees_with_double_precision(void **state)
{
    (void)state;
    shape stone = round_stone();
    const double indices[] = {1.544, 1.77, 2.417};
    const double off[] = {0.001, 0.002, 0.01};
    for (int i = 0; i < 6; i++) {
        gallery g = gallery_of(&stone, 100);
        g.made_of.index = indices[i % 3];
        g.picture.least_energy = 1e-7;
        g.picture.unpolarised = i >= 3;
        g.pose.tilt_deg = i >= 3 ? 17.0 : 0.0;
        g.pose.turn_deg = 33.0;
        lw_light_options options = lw_light_defaults(g.made_of.index);
        options.unpolarised = g.picture.unpolarised;
        differing d = against_doubles(&g, &options, 1e-3);
        assert_near(d.share, 0.0, off[i % 3]);
        assert_near(d.mean, 0.0, 2e-4);
        gallery_destroy(&g);
    }
    shape_destroy(&stone);
}

/* Lanes differ in rounding alone: the same of each against the plainest. */
static void all_lanes_agree(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery plain = gallery_of(&stone, 120);
    plain.made_of.index = 2.417;
    plain.picture.lanes = LW_LANES_SCALAR;
    plain.pose = (lw_picture_pose){11.0, 70.0, 0.0};
    gallery_trace(&plain, 32);
    for (int lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        if (!lw_lanes_usable((lw_lanes)lanes))
            continue;
        gallery g = plain;
        g.scene = (lw_picture_scene){0};
        g.numbers = NULL;
        g.picture.lanes = (lw_lanes)lanes;
        gallery_trace(&g, 32);
        int off = 0;
        double sum = 0.0;
        for (int i = 0; i < 120 * 120; i++) {
            double gap = (double)g.numbers[LW_PICTURE_NUMBERS * i + 1] -
                         (double)plain.numbers[LW_PICTURE_NUMBERS * i + 1];
            off += fabs(gap) > 1e-3;
            sum += gap;
        }
        assert_near(off / 14400.0, 0.0, 0.01);
        assert_near(sum / 14400.0, 0.0, 2e-4);
        gallery_destroy(&g);
    }
    gallery_destroy(&plain);
    shape_destroy(&stone);
}

/* The mean over the stone is what the exact beams have measured. */
static void mean_is_brightness_and_glare(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 160);
    g.picture.samples = g.picture.most_samples = 16;
    g.pose = (lw_picture_pose){13.0, 20.0, 0.0};
    gallery_trace(&g, 32);
    double light = 0.0, cover = 0.0;
    for (int i = 0; i < 160 * 160; i++) {
        light += (double)g.numbers[LW_PICTURE_NUMBERS * i + 1];
        cover += (double)g.numbers[LW_PICTURE_NUMBERS * i + LW_PICTURE_COVER];
    }
    lw_light_options options = lw_light_defaults(1.77);
    options.tilt_deg = 13.0;
    options.turn_deg = 20.0;
    lw_light_measures m;
    assert_int_equal(lw_light_measure(&stone.memory, &stone.solid, &options, &m), LW_OK);
    assert_near(light / cover, m.brightness + m.glare, 5e-4);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* ---- what must be seen -------------------------------------------------- */

/* worked: with the same index as what is around it, a stone bends and returns nothing; all of the
 * picture is the surroundings. */
static void index_of_one_cannot_be_seen(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 64);
    g.made_of.index = 1.0;
    g.place = even_all_round(0.7);
    g.picture.samples = 4;
    g.picture.most_samples = 16;
    gallery_trace(&g, 32);
    int hits = 0;
    for (int i = 0; i < 64 * 64; i++) {
        hits += g.numbers[LW_PICTURE_NUMBERS * i + LW_PICTURE_COVER] > 0.5f;
        assert_near((double)g.numbers[LW_PICTURE_NUMBERS * i + 1], 0.7, 1e-5);
    }
    assert_true(hits > 2000); /* the stone is there */
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* worked: in a furnace, where it is as bright on every side, a clear stone of any index looks the
 * same as what is around it, but for the light that is given up. */
static void furnace_hides_any_clear_stone(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 64);
    g.made_of.index = 2.417;
    g.place = even_all_round(1.0);
    g.picture.least_energy = 1e-6;
    g.pose.tilt_deg = 20.0;
    gallery_trace(&g, 32);
    for (int i = 0; i < 64 * 64; i++)
        assert_near((double)g.numbers[LW_PICTURE_NUMBERS * i + 1], 1.0, 1e-4);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* worked: a ground that sends back a fifth of the light, under an even sky, is 0.2 bright; and a
 * stone of index 1 shows it too. */
static void ground_lies_behind(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 48);
    g.made_of.index = 1.0;
    g.picture.with_ground = true;
    g.picture.ground = 0.2;
    gallery_trace(&g, 32);
    for (int i = 0; i < 48 * 48; i++)
        assert_near((double)g.numbers[LW_PICTURE_NUMBERS * i + 1], 0.2, 1e-5);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* worked: a box 2a x 2b x 2c tilted by t toward +x shows 2b x (2a cos t + 2c sin t). */
static void silhouette_has_its_area(void **state)
{
    (void)state;
    const double a = 0.5, b = 0.3, c = 0.2;
    shape box = shape_box(a, b, c);
    for (double tilt = 0.0; tilt < 80.0; tilt += 19.0) {
        gallery g = gallery_of(&box, 90);
        g.picture.samples = 16;
        g.picture.most_samples = 64;
        g.pose.tilt_deg = tilt;
        gallery_trace(&g, 32);
        double cover = 0.0;
        for (int i = 0; i < 90 * 90; i++)
            cover += (double)g.numbers[LW_PICTURE_NUMBERS * i + LW_PICTURE_COVER];
        lw_sincos t = lw_sincos_deg(tilt);
        double width = 2.0 * a * t.cos + 2.0 * c * t.sin;
        double pixel = g.scene.picture.pixel;
        assert_near(cover * pixel * pixel, 2.0 * b * width, 2e-3 * 2.0 * b * width);
        assert_near(pixel * 90 * 0.9, fmax(width, 2.0 * b), 1e-12);
        gallery_destroy(&g);
    }
    shape_destroy(&box);
}

/* worked: tooth 0 (+x) lies to the right; a box that is longer that way is wider than tall. */
static void x_lies_to_the_right(void **state)
{
    (void)state;
    /* a roof whose high side is +x: seen from above its middle of area lies to the right */
    lw_plane planes[] = {
        {{0, 0, -1}, 0.1}, {{1, 0, 0}, 1.0},  {{-1, 0, 0}, 0.2},
        {{0, 1, 0}, 0.3},  {{0, -1, 0}, 0.6}, {{0, 0, 1}, 0.1},
    };
    shape stone = shape_of(planes, 6);
    gallery g = gallery_of(&stone, 40);
    gallery_trace(&g, 32);
    /* the origin lies 0.2 of 1.2 from the left end, 0.3 of 0.9 from the upper */
    lw_vec3 left_top = lw_vec3_add(g.scene.corner, lw_vec3_scale(g.scene.up, 0.0));
    double pixel = g.scene.picture.pixel;
    assert_near(-left_top.x / pixel, 20.0 + (0.2 - 0.6) / pixel, 1e-9);
    assert_near(left_top.y / pixel, 20.0 + (0.3 - 0.45) / pixel, 1e-9);
    assert_true(gallery_pixel(&g, 20, 20)[LW_PICTURE_COVER] == 1.0f);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

/* ---- turning and mirroring ---------------------------------------------- */

/* Number of pixels where one picture, its places carried over, differs from another. */
static int count_differing(const gallery *one, const gallery *other, int (*place)(int, int, int))
{
    int size = one->picture.width, off = 0;
    for (int y = 0; y < size; y++) {
        for (int x = 0; x < size; x++) {
            int there = place(x, y, size);
            double gap = (double)gallery_pixel(one, x, y)[1] -
                         (double)other->numbers[LW_PICTURE_NUMBERS * there + 1];
            off += fabs(gap) > 1e-3;
        }
    }
    return off;
}

/* Where a pixel goes that is turned a quarter, counter-clockwise. */
static int quarter_turned(int x, int y, int size)
{
    return (size - 1 - x) * size + y;
}

static int mirrored(int x, int y, int size)
{
    return y * size + size - 1 - x;
}

/* A stone without any symmetry, spun a quarter turn under a sky that is even all round it. Its
 * facets meet pixels' middles at other roundings: a few at edges may differ. */
static void spun_stone_gives_a_turned_picture(void **state)
{
    (void)state;
    lw_plane planes[] = {
        {{0, 0, 1}, 0.15},          facet(40, 10, true, 0.40),   facet(42, 100, true, 0.42),
        facet(39, 190, true, 0.38), facet(41, 280, true, 0.41),  facet(30, 40, false, 0.33),
        facet(35, 150, false, 0.4), facet(33, 260, false, 0.36), facet(90, 5, true, 0.5),
        facet(90, 95, true, 0.46),  facet(90, 185, true, 0.52),  facet(90, 275, true, 0.44),
    };
    shape stone = shape_of(planes, 12);
    gallery one = gallery_of(&stone, 101), other = one;
    gallery_trace(&one, 32);
    other.pose.spin_deg = 90.0;
    gallery_trace(&other, 32);
    assert_near(other.scene.picture.pixel, one.scene.picture.pixel, 1e-12);
    assert_in_range(count_differing(&one, &other, quarter_turned), 0, 10);
    assert_true(count_differing(&one, &other, mirrored) > 500); /* it is another picture */
    gallery_destroy(&one);
    gallery_destroy(&other);
    shape_destroy(&stone);
}

/* The round's mirror plane through x = 0: tilted to the right and to the left. */
static void rocked_to_both_sides_is_mirrored(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery right = gallery_of(&stone, 100), left = right;
    right.pose.tilt_deg = 15.0;
    left.pose.tilt_deg = -15.0;
    gallery_trace(&right, 32);
    gallery_trace(&left, 32);
    assert_in_range(count_differing(&right, &left, mirrored), 0, 30);
    gallery_destroy(&right);
    gallery_destroy(&left);
    shape_destroy(&stone);
}

/* worked: a whole turn in four is spun by quarters; a rock begins in the middle and comes to both
 * ends; across in even steps with both ends. */
static void moves_as_told(void **state)
{
    (void)state;
    lw_picture_pose pose = {5.0, 30.0, 10.0};
    assert_near(lw_picture_turntable(&pose, 1, 4).spin_deg, 100.0, 1e-12);
    assert_near(lw_picture_turntable(&pose, 3, 4).tilt_deg, 5.0, 0.0);
    const double rocked[] = {5.0, 25.0, 5.0, -15.0};
    const double across[] = {-15.0, -5.0, 5.0, 15.0, 25.0};
    for (int i = 0; i < 4; i++)
        assert_near(lw_picture_rocked(&pose, 20.0, false, i, 4).tilt_deg, rocked[i], 1e-12);
    for (int i = 0; i < 5; i++)
        assert_near(lw_picture_rocked(&pose, 20.0, true, i, 5).tilt_deg, across[i], 1e-12);
}

/* The eye stays square to right, and the stone's near side is the one asked for. */
static void pose_is_square(void **state)
{
    (void)state;
    lw_light_place place = lw_light_place_even_sky();
    for (int i = 0; i < 200; i++) {
        lw_picture_pose pose = {-80.0 + i % 160, 7.3 * i, 11.1 * i};
        lw_vec3 right;
        lw_surroundings around = lw_picture_posed(&place, &pose, -1.0, &right);
        assert_near(lw_vec3_length(right), 1.0, 1e-14);
        assert_near(lw_vec3_dot(right, around.eye), 0.0, 1e-14);
        lw_sincos azimuth = lw_sincos_deg(pose.turn_deg - pose.spin_deg);
        double toward = around.eye.x * azimuth.cos + around.eye.y * azimuth.sin;
        assert_near(toward, lw_sincos_deg(pose.tilt_deg).sin, 1e-12);
    }
}

/* ---- samples ------------------------------------------------------------ */

/* What is settled early is as good as what is not: against 256 rays in every pixel. */
static void samples_go_where_they_matter(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery few = gallery_of(&stone, 80), many = few;
    few.picture.samples = 4;
    few.picture.most_samples = 64;
    many.picture.samples = many.picture.most_samples = 256;
    gallery_trace(&few, 32);
    gallery_trace(&many, 32);
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < 80 * 80; i++) {
        double gap = (double)few.numbers[LW_PICTURE_NUMBERS * i + 1] -
                     (double)many.numbers[LW_PICTURE_NUMBERS * i + 1];
        sum += gap;
        squares += gap * gap;
    }
    assert_near(sum / 6400.0, 0.0, 1e-3);
    assert_near(sqrt(squares / 6400.0), 0.0, 0.012);
    gallery_destroy(&few);
    gallery_destroy(&many);
    shape_destroy(&stone);
}

/* ---- what is refused ---------------------------------------------------- */

static lw_status try_scene(const gallery *g, const lw_picture *picture)
{
    static lw_picture_scene scene;
    lw_status status = lw_picture_scene_make(&g->stone->memory, &g->stone->optic, picture,
                                             &g->scene.optics, &g->around, &scene);
    if (status == LW_OK)
        lw_picture_scene_destroy(&g->stone->memory, &scene);
    return status;
}

static void refuses_what_is_out_of_range(void **state)
{
    (void)state;
    shape stone = round_stone();
    gallery g = gallery_of(&stone, 16);
    gallery_trace(&g, 32);
    lw_picture good = g.scene.picture;
    assert_int_equal(try_scene(&g, &good), LW_OK);
    for (int i = 0; i < 10; i++) {
        lw_picture bad = good;
        bad.width = i == 0 ? 0 : bad.width;
        bad.height = i == 1 ? LW_PICTURE_MOST_SIDE + 1 : bad.height;
        bad.pixel = i == 2 ? (double)NAN : bad.pixel;
        bad.samples = i == 3 ? 0 : bad.samples;
        bad.most_samples = i == 4 ? 0 : i == 5 ? LW_PICTURE_MOST_SAMPLES + 1 : bad.most_samples;
        bad.right.x = i == 6 ? 1.1 : bad.right.x;
        bad.ground = i == 7 ? -0.1 : bad.ground;
        bad.least_energy = i == 8 ? 0.0 : bad.least_energy;
        bad.most_surfaces = i == 9 ? 0 : bad.most_surfaces;
        assert_int_equal(try_scene(&g, &bad), LW_BAD_INPUT);
    }
    good.with_ground = true;
    g.around.patch_count = LW_LIGHT_MOST_PATCHES;
    assert_int_equal(try_scene(&g, &good), LW_TOO_LARGE);
    gallery_destroy(&g);
    shape_destroy(&stone);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tiles_leave_no_trace),
        cmocka_unit_test(agrees_with_double_precision),
        cmocka_unit_test(all_lanes_agree),
        cmocka_unit_test(mean_is_brightness_and_glare),
        cmocka_unit_test(index_of_one_cannot_be_seen),
        cmocka_unit_test(furnace_hides_any_clear_stone),
        cmocka_unit_test(ground_lies_behind),
        cmocka_unit_test(silhouette_has_its_area),
        cmocka_unit_test(x_lies_to_the_right),
        cmocka_unit_test(spun_stone_gives_a_turned_picture),
        cmocka_unit_test(rocked_to_both_sides_is_mirrored),
        cmocka_unit_test(moves_as_told),
        cmocka_unit_test(pose_is_square),
        cmocka_unit_test(samples_go_where_they_matter),
        cmocka_unit_test(refuses_what_is_out_of_range),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
