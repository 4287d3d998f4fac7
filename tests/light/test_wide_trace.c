/* Many rays to their ends at once, on every kind of lanes that this machine has, against the same
 * in double precision one by one (worked: light/path.c, which has tests of its own against a
 * complex field and Mueller matrices). */
#include "geom/stones.h"
#include "geom/tolerance.h"
#include "light/near.h"
#include "light/wide_double.h"
#include "light/wide_stones.h"

enum { RAYS = 2000 };

static wide_stone stones[WIDE_STONES];

static int set_up(void **state)
{
    (void)state;
    wide_stones_make(stones);
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    wide_stones_destroy(stones);
    return 0;
}

static lw_vec3 unit(lw_vec3 v)
{
    return lw_vec3_scale(v, 1.0 / lw_vec3_length(v));
}

/* A place with every shape of patch, one before another, narrow and wide, sloping, with a face. */
static lw_surroundings busy_place(lw_vec3 eye)
{
    lw_surroundings place = lw_surroundings_even_sky(eye, 12.0);
    place.zenith = unit((lw_vec3){0.5, -0.3, 1.0});
    place.head_radiance = 0.15;
    place.patches[0].even = 0.05; /* darker than nothing near the horizon: nothing */
    place.patches[0].slope = 1.0;
    place.patches[1] = (lw_patch){.shape = LW_PATCH_PANE,
                                  .toward = {0.6, 0.0, 0.8},
                                  .right = {0.0, 1.0, 0.0},
                                  .above = {-0.8, 0.0, 0.6},
                                  .tan_width = 0.8,
                                  .tan_tall = 0.5,
                                  .even = 3.0};
    place.patches[2] =
        (lw_patch){.toward = unit((lw_vec3){-0.5, 0.6, 0.4}), .least_cos = 0.97, .even = 9.0};
    place.patches[3] = (lw_patch){.toward = {0.0, 0.0, -1.0}, .least_cos = 0.3, .even = 0.1};
    place.patch_count = 4;
    return place;
}

static lw_wide_job job_for(const wide_stone *stone, const lw_surroundings *place, double index)
{
    return (lw_wide_job){.solid = &stone->wide,
                         .index = index,
                         .surroundings = place,
                         .least_energy = 1e-6,
                         .most_surfaces = 1000};
}

typedef struct view {
    lw_vec3 eye, across, up;
    double reach;
} view;

static view view_of(const wide_stone *stone, lw_vec3 eye)
{
    lw_vec3 across = unit(lw_vec3_cross((lw_vec3){0.3, 1.0, 0.2}, eye));
    return (view){eye, across, lw_vec3_cross(eye, across), stone->shape.optic.half_extent};
}

static lw_vec3 place_in(const view *v, const wide_stone *stone, double x, double y)
{
    lw_vec3 at = lw_vec3_add(stone->shape.optic.middle, lw_vec3_scale(v->eye, 3.0 * v->reach));
    at = lw_vec3_add(at, lw_vec3_scale(v->across, x * v->reach));
    return lw_vec3_add(at, lw_vec3_scale(v->up, y * v->reach));
}

/* Whether rays to either side of this one, by a hundred times what rounding shifts it in ten
 * surfaces, end like it; and no surface is near its critical angle, where the share that passes
 * grows like a root. */
static bool is_clear(const lw_wide_job *job, const wide_stone *stone, const view *v, lw_vec3 from,
                     const wide_double *light)
{
    if (light->critical < 3e-3)
        return false;
    for (int k = 0; k < 4; k++) {
        double shift = 2e-4 * v->reach;
        lw_vec3 beside = lw_vec3_add(
            from, lw_vec3_scale(k < 2 ? v->across : v->up, k % 2 == 0 ? shift : -shift));
        wide_double other;
        if (!wide_double_look(job, &stone->shape.optic, beside, lw_vec3_scale(v->eye, -1.0),
                              &other) ||
            other.trail != light->trail)
            return false;
    }
    return true;
}

/* Rays from the eye, what becomes of them, and which of them are clear. */
typedef struct gaze {
    lw_vec3 from[RAYS], direction;
    bool hit[RAYS], clear[RAYS];
    wide_double right[RAYS];
    int clear_count;
    double brightness; /* mean */
} gaze;

static void look_in_double(const lw_wide_job *job, const wide_stone *stone, lw_vec3 eye, gaze *out)
{
    view v = view_of(stone, eye);
    stone_random random = {3};
    out->direction = lw_vec3_scale(eye, -1.0);
    out->clear_count = 0;
    out->brightness = 0.0;
    for (int i = 0; i < RAYS; i++) {
        double x = random_share(&random), y = random_share(&random);
        out->from[i] = place_in(&v, stone, 2.0 * x - 1.0, 2.0 * y - 1.0);
        out->hit[i] = wide_double_look(job, &stone->shape.optic, out->from[i], out->direction,
                                       &out->right[i]);
        out->clear[i] = out->hit[i] && is_clear(job, stone, &v, out->from[i], &out->right[i]);
        out->clear_count += out->clear[i];
        out->brightness += out->right[i].brightness / RAYS;
    }
}

/* Gives the mean of brightness. */
static double compare_looks(const lw_wide_job *job, lw_lanes lanes, const gaze *g)
{
    static lw_wide_light light[RAYS];
    static bool hit[RAYS];
    double brightness = 0.0;
    lw_wide_look(lanes, job, g->direction, RAYS, g->from, light, hit);
    for (int i = 0; i < RAYS; i++) {
        brightness += (double)light[i].brightness / RAYS;
        if (hit[i])
            assert_near(wide_sum(&light[i]), 1.0, LW_WIDE_SUMS);
        else
            assert_near(wide_sum(&light[i]), 0.0, 0.0);
        if (!g->clear[i])
            continue;
        assert_true(hit[i]);
        assert_near(wide_double_apart(&g->right[i], &light[i]), 0.0, LW_WIDE_AGREES);
    }
    return brightness;
}

/* Every stone: quartz, diamond and next to nothing; polarised and not; clear and coloured; the
 * default place and a busy one; face up and tilted. */
static void looks_agree(void **state)
{
    (void)state;
    static const double scale[] = {0.5, 1.5, 0.25, 2.0, 3.0};
    static gaze g;
    for (int k = 0; k < WIDE_STONES; k++) {
        lw_vec3 eye = lw_eye_direction(k % 2 == 0 ? 0.0 : 17.0, 31.0);
        lw_surroundings place = k % 3 == 0 ? lw_surroundings_even_sky(eye, 10.0) : busy_place(eye);
        static const double indices[] = {1.5442, 2.4175, 1.02};
        lw_wide_job job = job_for(&stones[k], &place, indices[k % 3]);
        job.unpolarised = k % 4 == 3;
        job.absorption = k % 3 == 1 ? 0.8 : 0.0;
        job.patch_scale = k % 3 == 2 ? scale : NULL;
        look_in_double(&job, &stones[k], eye, &g);
        assert_true(g.clear_count >= RAYS / 10);
        for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
            if (lw_lanes_usable(lanes))
                compare_looks(&job, lanes, &g);
        }
    }
}

/* In the mean rays that an edge or a critical angle sends elsewhere count, too. */
static void means_agree(void **state)
{
    (void)state;
    static gaze g;
    for (int k = 0; k < 3; k++) {
        lw_vec3 eye = lw_eye_direction(5.0 * k, 11.0);
        lw_surroundings place = lw_surroundings_even_sky(eye, 10.0);
        lw_wide_job job = job_for(&stones[WIDE_ROUND], &place, k == 1 ? 1.5442 : 2.4175);
        look_in_double(&job, &stones[WIDE_ROUND], eye, &g);
        for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
            if (lw_lanes_usable(lanes))
                assert_near(compare_looks(&job, lanes, &g), g.brightness, LW_WIDE_AGREES);
        }
    }
}

/* ---- rays that are inside ------------------------------------------------ */

/* Where light from the eye comes in, and in what state, some surfaces later. */
static int make_inside(const wide_stone *stone, double index, lw_wide_inside rays[], int most)
{
    stone_random random = {9};
    lw_optics optics = {.index = index};
    int count = 0;
    while (count < most) {
        lw_vec3 eye = random_direction(&random);
        view v = view_of(stone, eye);
        double x = random_share(&random) - 0.5, y = random_share(&random) - 0.5;
        lw_path path;
        lw_leaving part;
        if (!lw_path_enter(&stone->shape.optic, &optics, place_in(&v, stone, x, y),
                           lw_vec3_scale(eye, -1.0), &path, &part))
            continue;
        for (int n = count % 5; n > 0; n--)
            lw_path_next(&stone->shape.optic, &optics, &path, &part);
        float weight = 0.1f + (float)random_share(&random);
        rays[count++] = (lw_wide_inside){path.at,
                                         path.direction,
                                         path.s,
                                         weight,
                                         weight * (float)(path.state.q / path.state.i),
                                         weight * (float)(path.state.u / path.state.i),
                                         weight * (float)(path.state.v / path.state.i),
                                         path.surfaces == 0};
    }
    return count;
}

static bool is_clear_inside(const lw_wide_job *job, const wide_stone *stone,
                            const lw_wide_inside *ray, const wide_double *light)
{
    if (light->critical < 3e-3)
        return false;
    for (int k = 0; k < 4; k++) {
        lw_wide_inside other = *ray;
        lw_vec3 p = lw_vec3_cross(ray->direction, ray->s);
        double shift = (k % 2 == 0 ? 2e-4 : -2e-4) * stone->shape.optic.half_extent;
        other.at = lw_vec3_add(ray->at, lw_vec3_scale(k < 2 ? ray->s : p, shift));
        wide_double beside;
        wide_double_finish(job, &stone->shape.optic, &other, &beside);
        if (beside.trail != light->trail)
            return false;
    }
    return true;
}

static void finish_and_compare(const lw_wide_job *job, const lw_wide_inside rays[RAYS],
                               const wide_double right[RAYS], const bool clear[RAYS])
{
    static lw_wide_light light[RAYS];
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        if (!lw_lanes_usable(lanes))
            continue;
        lw_wide_finish(lanes, job, RAYS, rays, light);
        for (int i = 0; i < RAYS; i++) {
            assert_near(wide_sum(&light[i]), 1.0, LW_WIDE_SUMS);
            assert_near((double)light[i].glare, 0.0, 0.0);
            if (clear[i])
                assert_near(wide_double_apart(&right[i], &light[i]), 0.0, LW_WIDE_AGREES);
        }
    }
}

static void finishes_agree(void **state)
{
    (void)state;
    static lw_wide_inside rays[RAYS];
    static wide_double right[RAYS];
    static bool clear[RAYS];
    for (int k = 0; k < WIDE_STONES; k++) {
        lw_vec3 eye = lw_eye_direction(8.0, 70.0);
        lw_surroundings place = k % 2 == 0 ? lw_surroundings_even_sky(eye, 10.0) : busy_place(eye);
        lw_wide_job job = job_for(&stones[k], &place, k % 2 == 0 ? 2.4175 : 1.762);
        job.absorption = k % 3 == 1 ? 0.5 : 0.0;
        job.unpolarised = k == 6;
        make_inside(&stones[k], job.index, rays, RAYS);
        int clear_count = 0;
        for (int i = 0; i < RAYS; i++) {
            if (job.unpolarised)
                rays[i].q = rays[i].u = rays[i].v = 0.0f;
            wide_double_finish(&job, &stones[k].shape.optic, &rays[i], &right[i]);
            clear[i] = is_clear_inside(&job, &stones[k], &rays[i], &right[i]);
            clear_count += clear[i];
        }
        assert_true(clear_count >= RAYS / 20);
        finish_and_compare(&job, rays, right, clear);
    }
}

/* The same bits whether a ray is alone or among others, and as the last of any number of them. */
static void places_in_the_queue_do_not_matter(void **state)
{
    (void)state;
    enum { FEW = 301 };
    static lw_wide_inside rays[FEW];
    static lw_wide_light all[FEW], part[FEW];
    lw_surroundings place = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_wide_job job = job_for(&stones[WIDE_ROUND], &place, 2.4175);
    make_inside(&stones[WIDE_ROUND], job.index, rays, FEW);
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        if (!lw_lanes_usable(lanes))
            continue;
        lw_wide_finish(lanes, &job, FEW, rays, all);
        for (int count = 0; count < FEW; count += count < 70 ? 1 : 77) {
            lw_wide_finish(lanes, &job, count, rays + FEW - count, part);
            assert_memory_equal(part, all + FEW - count, (size_t)count * sizeof part[0]);
        }
    }
}

/* worked: a ray that has less than the least energy, or may meet no surface, is given up whole; one
 * surface is met with most_surfaces 1. */
static void limits_hold(void **state)
{
    (void)state;
    lw_surroundings place = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_wide_inside ray = {.at = {0.1, 0.05, 0.0},
                          .direction = {0.0, 0.0, -1.0},
                          .s = {1.0, 0.0, 0.0},
                          .i = 1.0f,
                          .first = true};
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        if (!lw_lanes_usable(lanes))
            continue;
        lw_wide_light light;
        lw_wide_job job = job_for(&stones[1], &place, 1.5);
        job.least_energy = 2.0;
        lw_wide_finish(lanes, &job, 1, &ray, &light);
        assert_near((double)light.given_up, 1.0, 0.0);
        job.least_energy = 1e-6;
        job.most_surfaces = 0;
        lw_wide_finish(lanes, &job, 1, &ray, &light);
        assert_near((double)light.given_up, 1.0, 0.0);
        job.most_surfaces = 1;
        lw_wide_finish(lanes, &job, 1, &ray, &light);
        /* worked: squarely through n = 1.5, ((n - 1) / (n + 1))^2 = 0.04 returns */
        assert_near((double)light.given_up, 0.04, LW_WIDE_SUMS);
        assert_near((double)light.window, 0.96, LW_WIDE_SUMS);
        assert_near((double)light.leak, 0.96, LW_WIDE_SUMS);
        assert_near((double)light.brightness, 0.0, 0.0);
    }
}

/* worked: with index 1 nothing is returned, and what a cube's thickness d absorbs is 1 - exp(-a d).
 */
static void index_1_is_a_window(void **state)
{
    (void)state;
    lw_surroundings place = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_vec3 from[3] = {{0.1, 0.05, 3.0}, {-0.3, 0.2, 3.0}, {0.5, 0.0, 3.0}};
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        for (double a = 0.0; a < 60.0 && lw_lanes_usable(lanes); a = 3.0 * a + 0.1) {
            lw_wide_job job = job_for(&stones[1], &place, 1.0);
            job.absorption = a;
            lw_wide_light light[3];
            bool hit[3];
            lw_wide_look(lanes, &job, (lw_vec3){0.0, 0.0, -1.0}, 3, from, light, hit);
            assert_true(hit[0] && hit[1] && !hit[2]);
            for (int i = 0; i < 2; i++) {
                assert_near((double)light[i].window, exp(-a * 0.8), LW_WIDE_SUMS);
                assert_near((double)light[i].absorbed, 1.0 - exp(-a * 0.8), LW_WIDE_SUMS);
                assert_near((double)light[i].reflected, 0.0, 0.0);
            }
            assert_near(wide_sum(&light[2]), 0.0, 0.0);
        }
    }
}

static void scalar_and_four_lanes_agree_to_the_bit(void **state)
{
    (void)state;
    static lw_wide_inside rays[RAYS];
    static lw_wide_light one[RAYS], four[RAYS];
    if (!lw_lanes_usable(LW_LANES_SSE2))
        skip();
    lw_surroundings place = busy_place(lw_eye_direction(8.0, 70.0));
    for (int k = 0; k < WIDE_STONES; k++) {
        lw_wide_job job = job_for(&stones[k], &place, 2.4175);
        job.absorption = 0.1;
        make_inside(&stones[k], job.index, rays, RAYS);
        lw_wide_finish(LW_LANES_SCALAR, &job, RAYS, rays, one);
        lw_wide_finish(LW_LANES_SSE2, &job, RAYS, rays, four);
        assert_memory_equal(one, four, sizeof one);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(looks_agree),
        cmocka_unit_test(means_agree),
        cmocka_unit_test(finishes_agree),
        cmocka_unit_test(places_in_the_queue_do_not_matter),
        cmocka_unit_test(limits_hold),
        cmocka_unit_test(index_1_is_a_window),
        cmocka_unit_test(scalar_and_four_lanes_agree_to_the_bit),
    };
    return cmocka_run_group_tests_name("wide trace", tests, set_up, tear_down);
}
