/* Stones at the edge of what double precision can tell: exact meets shaken by 1e-6 .. 1e-16,
 * bundles of nearly parallel planes, planes through points that are there already, small whole
 * numbers. Whatever comes of them must be sound and closed, in any order. */
#include "geom/workshop.h"

enum { STONES = 3000 };

static void assert_sound_in_both_ways(stone_random *random, lw_plane *planes, int count)
{
    if (random_below(random, 3) > 0) {
        stone_shuffle(random, count, planes);
    }
    workshop_cut(2.5, planes, count);
    workshop_build(2.5, planes, count);
}

static double small_amount(stone_random *random)
{
    return pow(10.0, -6.0 - 10.0 * random_share(random));
}

static void shaken_brilliants(void **state)
{
    (void)state;
    stone_random random = {41};
    lw_plane planes[STONE_BRILLIANT_FACETS];
    for (int i = 0; i < STONES; i++) {
        stone_brilliant(planes);
        stone_jitter(&random, STONE_BRILLIANT_FACETS, small_amount(&random), planes);
        assert_sound_in_both_ways(&random, planes, STONE_BRILLIANT_FACETS);
    }
}

/* Three pavilions through one point, none of them quite. */
static void shaken_points(void **state)
{
    (void)state;
    stone_random random = {42};
    lw_plane planes[WORKSHOP_PLANES];
    for (int i = 0; i < STONES / 3; i++) {
        int n = 5 + random_below(&random, 60), count = 0;
        for (int tier = 0; tier < 3; tier++) {
            double angle = 20.0 + 50.0 * random_share(&random);
            for (int k = 0; k < n; k++) {
                planes[count++] = stone_facet(k, n, angle, -1.0, 0.0, -1.0);
            }
        }
        for (int k = 0; k < n; k++) {
            planes[count++] = stone_facet(k, n, 70.0, 1.0, 1.0, 0.0);
        }
        planes[count++] = (lw_plane){{0.0, 0.0, 1.0}, 0.5};
        stone_jitter(&random, count, small_amount(&random), planes);
        assert_sound_in_both_ways(&random, planes, count);
    }
}

/* Normals and distances of small whole numbers: everything meets everything. */
static void shaken_lattices(void **state)
{
    (void)state;
    stone_random random = {43};
    lw_plane planes[WORKSHOP_PLANES];
    for (int i = 0; i < STONES; i++) {
        int count = 10 + random_below(&random, 100);
        stone_rough_ball(&random, 6, 0.0, planes);
        for (int k = 6; k < count; k++) {
            lw_vec3 v = {random_below(&random, 5) - 2, random_below(&random, 5) - 2,
                         random_below(&random, 5) - 2};
            double length = lw_vec3_length(v);
            if (length == 0.0) {
                planes[k] = planes[0];
                continue;
            }
            double distance = 0.5 * (1 + random_below(&random, 3)) / length;
            planes[k] = (lw_plane){lw_vec3_scale(v, 1.0 / length), distance};
        }
        double amount = random_below(&random, 3) == 0 ? 0.0 : small_amount(&random);
        stone_jitter(&random, count, amount, planes);
        assert_sound_in_both_ways(&random, planes, count);
    }
}

/* Planes through three vertices that are there, or all but through them. */
static void planes_through_points(void **state)
{
    (void)state;
    stone_random random = {44};
    lw_plane planes[WORKSHOP_PLANES];
    for (int i = 0; i < STONES / 3; i++) {
        int count = 20 + random_below(&random, 60);
        stone_rough_ball(&random, count, 0.1 * random_share(&random), planes);
        lw_polyhedron p = workshop_build(2.5, planes, count);
        double amount = random_below(&random, 3) == 0 ? 0.0 : small_amount(&random);
        for (int k = 0; k < 40; k++) {
            lw_vec3 a = p.vertices[random_below(&random, p.vertex_count)];
            lw_vec3 b = p.vertices[random_below(&random, p.vertex_count)];
            lw_vec3 c = p.vertices[random_below(&random, p.vertex_count)];
            lw_vec3 n = lw_vec3_cross(lw_vec3_sub(b, a), lw_vec3_sub(c, a));
            double length = lw_vec3_length(n);
            if (length > 1e-6) {
                n = lw_vec3_scale(n, (lw_vec3_dot(n, a) < 0.0 ? -1.0 : 1.0) / length);
                double shift = amount * (2.0 * random_share(&random) - 1.0);
                planes[count++] = (lw_plane){n, lw_vec3_dot(n, a) + shift};
            }
        }
        assert_sound_in_both_ways(&random, planes, count);
    }
}

/* Up to twenty planes about each of a few directions, tipped by 0.1 .. 1e-13 of a radian. */
static void bundles_of_nearly_parallel_planes(void **state)
{
    (void)state;
    stone_random random = {45};
    lw_plane planes[WORKSHOP_PLANES];
    for (int i = 0; i < STONES; i++) {
        int count = 6, bundles = 4 + random_below(&random, 10);
        stone_rough_ball(&random, 6, 0.0, planes);
        for (int b = 0; b < bundles; b++) {
            lw_vec3 direction = random_direction(&random);
            double tip = pow(10.0, -1.0 - 12.0 * random_share(&random));
            double shift = small_amount(&random);
            for (int k = random_below(&random, 20); k >= 0; k--) {
                planes[count] = (lw_plane){direction, 1.0};
                stone_jitter(&random, 1, tip, &planes[count]);
                planes[count++].distance = 1.0 + shift * random_below(&random, 3);
            }
        }
        assert_sound_in_both_ways(&random, planes, count);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shaken_brilliants),
        cmocka_unit_test(shaken_points),
        cmocka_unit_test(shaken_lattices),
        cmocka_unit_test(planes_through_points),
        cmocka_unit_test(bundles_of_nearly_parallel_planes),
    };
    return cmocka_run_group_tests(tests, workshop_open, workshop_close);
}
