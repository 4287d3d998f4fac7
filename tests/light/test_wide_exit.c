/* Many rays' exits at once, on every kind of lanes that this machine has, against the same in
 * double precision one by one (worked: lw_optic_solid_exit, which has its own tests). */
#include "geom/stones.h"
#include "geom/tolerance.h"
#include "light/near.h"
#include "light/wide_stones.h"
#include "meter.h"

enum { RAYS = 1003 };

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

typedef struct bundle {
    lw_vec3 from[RAYS], to[RAYS]; /* as rounded to single precision */
    float x[6][RAYS];
} bundle;

static lw_wide_rays rays_of(const bundle *b, int first, int count)
{
    return (lw_wide_rays){count,           b->x[0] + first, b->x[1] + first, b->x[2] + first,
                          b->x[3] + first, b->x[4] + first, b->x[5] + first};
}

static void put(const wide_stone *stone, int i, lw_vec3 from, lw_vec3 to, bundle *b)
{
    lw_vec3 at = lw_vec3_sub(from, stone->wide.middle);
    b->x[0][i] = (float)at.x, b->x[1][i] = (float)at.y, b->x[2][i] = (float)at.z;
    b->x[3][i] = (float)to.x, b->x[4][i] = (float)to.y, b->x[5][i] = (float)to.z;
    at = (lw_vec3){(double)b->x[0][i], (double)b->x[1][i], (double)b->x[2][i]};
    b->from[i] = lw_vec3_add(at, stone->wide.middle);
    b->to[i] = (lw_vec3){(double)b->x[3][i], (double)b->x[4][i], (double)b->x[5][i]};
}

/* A corner, the middle of an edge, or a point on a facet, by i. */
static lw_vec3 start_on(const lw_optic_solid *solid, int i, stone_random *random)
{
    int facet = random_below(random, solid->facet_count);
    int first = solid->ring_start[facet], sides = solid->ring_start[facet + 1] - first;
    int side = random_below(random, sides);
    lw_vec3 a = solid->corners[solid->corner[first + side]];
    if (i % 3 == 0)
        return a;
    lw_vec3 b = solid->corners[solid->corner[first + (side + 1) % sides]];
    lw_vec3 edge = lw_vec3_mix(a, b, random_share(random));
    if (i % 3 == 1)
        return edge;
    lw_vec3 c = solid->corners[solid->corner[first + (side + 2) % sides]];
    return lw_vec3_mix(edge, c, random_share(random));
}

static void fill(const wide_stone *stone, bool on_surface, uint64_t seed, bundle *b)
{
    stone_random random = {seed};
    const lw_optic_solid *solid = &stone->shape.optic;
    for (int i = 0; i < RAYS; i++) {
        lw_vec3 from = start_on(solid, i, &random);
        if (!on_surface)
            from = lw_vec3_mix(from, solid->middle, 0.05 + 0.95 * random_share(&random));
        put(stone, i, from, random_direction(&random), b);
    }
}

static double height(const lw_optic_solid *solid, int facet, lw_vec3 at)
{
    return lw_vec3_dot(lw_optic_solid_normal(solid, facet), at) - solid->distance[facet];
}

static double greatest_height(const lw_optic_solid *solid, lw_vec3 at)
{
    double most = -HUGE_VAL;
    for (int i = 0; i < solid->facet_count; i++)
        most = fmax(most, height(solid, i, at));
    return most;
}

static double speed(const lw_optic_solid *solid, int facet, lw_vec3 to)
{
    return lw_vec3_dot(lw_optic_solid_normal(solid, facet), to);
}

/* The same facet, or one that the true exit lies on within the skin: then an edge is there. */
static void check_exit(const wide_stone *stone, const bundle *b, int i, int facet, float length,
                       int *others)
{
    const lw_optic_solid *solid = &stone->shape.optic;
    double skin = LW_WIDE_SKIN * solid->half_extent;
    double expected;
    int right = lw_optic_solid_exit(solid, b->from[i], b->to[i], &expected);
    assert_in_range(facet, 0, solid->facet_count - 1);
    assert_true(length >= 0.0f);
    if (facet != right) {
        (*others)++;
        lw_vec3 at = lw_vec3_add(b->from[i], lw_vec3_scale(b->to[i], expected));
        assert_near(height(solid, facet, at), 0.0, 2.0 * skin);
    } else {
        assert_near((double)length, expected, skin / speed(solid, facet, b->to[i]));
    }
}

static void exits_agree(void **state)
{
    (void)state;
    static bundle b;
    int facet[RAYS];
    float length[RAYS];
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        for (int k = 0; k < WIDE_STONES && lw_lanes_usable(lanes); k++) {
            fill(&stones[k], false, 7, &b);
            lw_wide_rays rays = rays_of(&b, 0, RAYS);
            lw_wide_exit(lanes, &stones[k].wide, &rays, facet, length);
            int others = 0;
            for (int i = 0; i < RAYS; i++)
                check_exit(&stones[k], &b, i, facet[i], length[i], &others);
            assert_true(others <= 2);
        }
    }
}

/* Where a ray from a facet, an edge or a corner ends, too, is within the stone. */
static void starts_on_edges_stay_inside(void **state)
{
    (void)state;
    static bundle b;
    int facet[RAYS];
    float length[RAYS];
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        for (int k = 0; k < WIDE_STONES && lw_lanes_usable(lanes); k++) {
            const lw_optic_solid *solid = &stones[k].shape.optic;
            fill(&stones[k], true, 11, &b);
            lw_wide_rays rays = rays_of(&b, 0, RAYS);
            lw_wide_exit(lanes, &stones[k].wide, &rays, facet, length);
            for (int i = 0; i < RAYS; i++) {
                lw_vec3 end = lw_vec3_add(b.from[i], lw_vec3_scale(b.to[i], (double)length[i]));
                assert_true(greatest_height(solid, end) < 3.0 * LW_WIDE_SKIN * solid->half_extent);
                assert_true(length[i] >= 0.0f);
            }
        }
    }
}

/* The same bits whether a ray is alone, among others, or elsewhere among them. */
static void places_in_the_queue_do_not_matter(void **state)
{
    (void)state;
    static bundle b;
    int facet[RAYS], again[RAYS];
    float length[RAYS], once_more[RAYS];
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT; lanes++) {
        for (int k = 0; k < WIDE_STONES && lw_lanes_usable(lanes); k++) {
            fill(&stones[k], false, 13, &b);
            lw_wide_rays rays = rays_of(&b, 0, RAYS);
            lw_wide_exit(lanes, &stones[k].wide, &rays, facet, length);
            static const int counts[] = {0, 1, 3, 64, 65, 130};
            for (int c = 0, first = 0; c < 6; first += counts[c++]) {
                lw_wide_rays few = rays_of(&b, first, counts[c]);
                lw_wide_exit(lanes, &stones[k].wide, &few, again, once_more);
                assert_memory_equal(again, facet + first, sizeof(int) * (size_t)counts[c]);
                assert_memory_equal(once_more, length + first, sizeof(float) * (size_t)counts[c]);
            }
        }
    }
}

/* No fused multiply-add in either, and true division: one lane and four agree to the bit. */
static void scalar_and_four_lanes_agree_to_the_bit(void **state)
{
    (void)state;
    static bundle b;
    int facet[RAYS], other[RAYS];
    float length[RAYS], other_length[RAYS];
    if (!lw_lanes_usable(LW_LANES_SSE2))
        skip();
    for (int k = 0; k < WIDE_STONES; k++) {
        fill(&stones[k], true, 17, &b);
        lw_wide_rays rays = rays_of(&b, 0, RAYS);
        lw_wide_exit(LW_LANES_SCALAR, &stones[k].wide, &rays, facet, length);
        lw_wide_exit(LW_LANES_SSE2, &stones[k].wide, &rays, other, other_length);
        assert_memory_equal(facet, other, sizeof facet);
        assert_memory_equal(length, other_length, sizeof length);
    }
}

static void mirrored_stones_fold(void **state)
{
    (void)state;
    for (int k = 0; k < WIDE_STONES; k++)
        assert_int_equal(stones[k].wide.fold.folds, stones[k].folds);
    /* worked: table, star, crown main, upper and lower half, girdle, pavilion main */
    assert_int_equal(stones[WIDE_ROUND].wide.fold.kinds, 7);
    assert_int_equal(stones[WIDE_ROUND].wide.facet_count, 73);
}

static void lanes_have_names(void **state)
{
    (void)state;
    assert_true(lw_lanes_usable(LW_LANES_SCALAR));
    assert_true(lw_lanes_usable(lw_lanes_best()));
    assert_string_equal(lw_lanes_text(LW_LANES_AVX2), "avx2");
    assert_string_equal(lw_lanes_text(LW_LANES_SCALAR), "scalar");
}

static void refused_memory_leaves_nothing_behind(void **state)
{
    (void)state;
    for (int k = 0; k < WIDE_STONES; k++) {
        const lw_optic_solid *optic = &stones[k].shape.optic;
        lw_symmetry symmetry = lw_symmetry_of_solid(optic);
        meter m = {0};
        lw_memory memory = meter_memory(&m);
        lw_status status = LW_NO_MEMORY;
        for (long n = 1; status != LW_OK; n++) {
            m = (meter){.refuse_at = n};
            lw_wide_solid made = {.facet_count = -7};
            status = lw_wide_solid_make(&memory, optic, &symmetry, &made);
            if (status == LW_OK) {
                lw_wide_solid_destroy(&memory, &made);
                lw_wide_solid_destroy(&memory, &made);
            } else {
                assert_int_equal(status, LW_NO_MEMORY);
                assert_int_equal(made.facet_count, -7);
            }
            assert_int_equal(m.held, 0);
        }
        assert_true(m.asked >= 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exits_agree),
        cmocka_unit_test(starts_on_edges_stay_inside),
        cmocka_unit_test(places_in_the_queue_do_not_matter),
        cmocka_unit_test(scalar_and_four_lanes_agree_to_the_bit),
        cmocka_unit_test(mirrored_stones_fold),
        cmocka_unit_test(lanes_have_names),
        cmocka_unit_test(refused_memory_leaves_nothing_behind),
    };
    return cmocka_run_group_tests_name("wide exit", tests, set_up, tear_down);
}
