/* The face in patches: light/beam_map.h. */
#include "light/beam_map.h"

#include "geom/angle.h"
#include "light/near.h"
#include "light/shape.h"

static double area_of(const lw_beam_map *map, const lw_beam_patch *patch)
{
    double twice = 0.0;
    const lw_spot2 *c = map->corners + patch->first;
    for (int i = 0; i < patch->count; i++) {
        lw_spot2 p = c[i], q = c[(i + 1) % patch->count];
        twice += p.a * q.b - p.b * q.a;
    }
    return 0.5 * fabs(twice);
}

/* worked: patches cover the face once, and what they show adds up to the brightness. */
static void patches_make_up_the_face(void **state)
{
    (void)state;
    shape round = shape_round(41.5, 34.0, 0.56, 0.5, 0.78);
    const double indices[] = {1.544, 1.77, 2.417};
    for (int i = 0; i < 6; i++) {
        lw_light_options options = lw_light_defaults(indices[i % 3]);
        options.bound = 1e-5;
        options.tilt_deg = i < 3 ? 0.0 : 17.0;
        options.turn_deg = 20.0;
        options.absorption = i % 2 ? 0.4 : 0.0;
        lw_beam_map map;
        lw_light_measures m;
        assert_int_equal(lw_beam_map_make(&round.memory, &round.solid, &options, &map), LW_OK);
        options.whole = true;
        assert_int_equal(lw_light_measure(&round.memory, &round.solid, &options, &m), LW_OK);
        double area = 0.0, bright = 0.0, face = 0.0;
        assert_true(map.patch_count > 30);
        for (size_t k = 0; k < map.patch_count; k++) {
            const lw_beam_patch *patch = &map.patches[k];
            area += patch->area;
            bright += patch->area * patch->brightness;
            face += area_of(&map, patch);
            assert_true(patch->brightness >= 0.0 && patch->brightness < 1.0);
            assert_true(patch->strongest >= 0.0 && patch->strongest <= 1.0);
            assert_true(patch->exit < 0 || patch->surfaces >= 1);
        }
        for (size_t k = 0; k < map.patch_count; k++)
            assert_near(area_of(&map, &map.patches[k]) / face, map.patches[k].area, 1e-12);
        assert_near(area, 1.0, 1e-9);
        assert_near(bright, m.brightness, 1e-9);
        lw_beam_map_destroy(&map);
        lw_beam_map_destroy(&map);
    }
    shape_destroy(&round);
}

/* worked: in a trough of P each half of the table is one patch where both sides reflect totally (43
 * degrees in quartz), and its light comes from asin(n sin(180 - 4 P)) off the axis, over the other
 * side; it meets two sides and the table. */
static void a_trough_has_two_patches(void **state)
{
    (void)state;
    shape trough = shape_trough(43.0);
    lw_light_options options = lw_light_defaults(1.544);
    options.bound = 1e-3;
    lw_beam_map map;
    assert_int_equal(lw_beam_map_make(&trough.memory, &trough.solid, &options, &map), LW_OK);
    double sine = 1.544 * lw_sincos_deg(8.0).sin, halves[2] = {0.0, 0.0};
    for (size_t k = 0; k < map.patch_count; k++) {
        const lw_beam_patch *patch = &map.patches[k];
        assert_int_equal(patch->entry, 0);
        if (patch->exit != 0 || patch->surfaces != 3)
            continue; /* next to the knife edges */
        assert_near(fabs(patch->way.x), sine, 1e-12);
        assert_near(patch->way.z, sqrt(1.0 - sine * sine), 1e-12);
        halves[patch->way.x > 0.0] += patch->area;
    }
    assert_near(halves[0], halves[1], 1e-12);
    assert_true(halves[0] > 0.4);
    lw_beam_map_destroy(&map);
    shape_destroy(&trough);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(patches_make_up_the_face),
        cmocka_unit_test(a_trough_has_two_patches),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
