#include "light/wide_stones.h"

#include "geom/stones.h"
#include "light/near.h"

/* Crown and pavilion of tiers of `times` facets, mirrored in the planes at turn_deg + k 180 / times
 * degrees; off: how far from there the tiers stand, or, without mirror, the crown alone. */
static shape ring(int times, double turn_deg, double off_deg, bool mirrored)
{
    lw_plane planes[128];
    int n = 0;
    planes[n++] = (lw_plane){{0, 0, 1}, 0.3};
    for (int i = 0; i < times; i++) {
        double at = turn_deg + 360.0 * i / times;
        planes[n++] = facet(41.0, at, true, 0.36);
        planes[n++] = facet(35.0, at + off_deg, false, 0.39);
        planes[n++] = facet(90.0, at, false, 0.5);
        if (mirrored) {
            planes[n++] = facet(43.0, at + off_deg, true, 0.365);
            planes[n++] = facet(43.0, at - off_deg, true, 0.365);
            planes[n++] = facet(35.0, at - off_deg, false, 0.39);
            planes[n++] = facet(90.0, at + off_deg, false, 0.5);
            planes[n++] = facet(90.0, at - off_deg, false, 0.5);
            planes[n++] = facet(46.0, at + 0.5 * off_deg, false, 0.455);
            planes[n++] = facet(46.0, at - 0.5 * off_deg, false, 0.455);
        }
    }
    return shape_of(planes, n);
}

/* Longer to one side, like a pear; its mirror plane stands at turn_deg. */
static shape one_sided(double turn_deg)
{
    lw_plane planes[64];
    int n = 0;
    planes[n++] = (lw_plane){{0, 0, 1}, 0.3};
    for (int i = -5; i <= 5; i++) {
        double at = turn_deg + 28.0 * i, far = 0.012 * (i * i);
        planes[n++] = facet(41.0, at, true, 0.36 + far);
        planes[n++] = facet(36.0, at, false, 0.40 + far);
        planes[n++] = facet(90.0, at, false, 0.5 + far);
    }
    planes[n++] = facet(41.0, turn_deg + 180.0, true, 0.5);
    planes[n++] = facet(90.0, turn_deg + 180.0, false, 0.7);
    return shape_of(planes, n);
}

static shape ball(void)
{
    lw_plane planes[60];
    stone_random random = {5};
    stone_rough_ball(&random, 60, 0.1, planes);
    return shape_of(planes, 60);
}

void wide_stones_make(wide_stone stones[WIDE_STONES])
{
    wide_stone made[WIDE_STONES] = {
        {.name = "round", .folds = 4, .shape = shape_round(40.75, 34.5, 0.55, 0.5, 0.77)},
        {.name = "cube", .folds = 0, .shape = shape_box(0.4, 0.4, 0.4)},
        {.name = "oval", .folds = 2, .shape = ring(2, 33.0, 60.0, true)},
        {.name = "trough", .folds = 0, .shape = shape_trough(45.0)},
        {.name = "pear", .folds = 1, .shape = one_sided(77.0)},
        {.name = "triangle", .folds = 3, .shape = ring(3, 20.0, 17.0, true)},
        {.name = "cushion", .folds = 3, .shape = ring(4, 45.0, 30.0, true)},
        {.name = "pentagon", .folds = 4, .shape = ring(5, -11.0, 10.0, true)},
        {.name = "hexagon", .folds = 4, .shape = ring(6, 5.0, 9.0, true)},
        {.name = "propeller", .folds = 0, .shape = ring(7, 3.0, 8.0, false)},
        {.name = "ball", .folds = 0, .shape = ball()},
    };
    for (int i = 0; i < WIDE_STONES; i++) {
        stones[i] = made[i];
        lw_memory memory = lw_memory_standard();
        const lw_optic_solid *optic = &stones[i].shape.optic;
        lw_symmetry symmetry = lw_symmetry_of_solid(optic);
        assert_int_equal(lw_wide_solid_make(&memory, optic, &symmetry, &stones[i].wide), LW_OK);
    }
}

void wide_stones_destroy(wide_stone stones[WIDE_STONES])
{
    lw_memory memory = lw_memory_standard();
    for (int i = 0; i < WIDE_STONES; i++) {
        lw_wide_solid_destroy(&memory, &stones[i].wide);
        shape_destroy(&stones[i].shape);
    }
}
