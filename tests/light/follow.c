#include "light/follow.h"

#include "geom/angle.h"
#include "light/near.h"

lw_beam_totals follow_from(const lw_optic_solid *solid, const lw_light_options *options,
                           lw_vec3 eye, const lw_beam_watch *watch)
{
    lw_memory memory = lw_memory_standard();
    lw_surroundings surroundings = lw_light_surroundings(options);
    lw_symmetry symmetry = lw_symmetry_of_solid(solid);
    lw_beam_job job = {.solid = solid,
                       .symmetry = &symmetry,
                       .screen = lw_screen_for(eye, lw_atan2_deg(eye.y, eye.x)),
                       .surroundings = &surroundings,
                       .index = options->index,
                       .absorption = options->absorption,
                       .unpolarised = options->unpolarised,
                       .bound = options->bound,
                       .most_surfaces = options->most_surfaces};
    lw_beam_totals totals;
    assert_int_equal(lw_beams_follow(&memory, &job, watch, &totals), LW_OK);
    return totals;
}

lw_beam_totals follow(const lw_optic_solid *solid, const lw_light_options *options,
                      const lw_beam_watch *watch)
{
    return follow_from(solid, options, lw_eye_direction(options->tilt_deg, options->turn_deg),
                       watch);
}

static lw_vec3 corner_of(const lw_optic_solid *solid, int i)
{
    return solid->corners[solid->corner[i]];
}

double outline_area(const lw_optic_solid *solid, lw_vec3 eye)
{
    double twice = 0.0;
    for (int facet = 0; facet < solid->facet_count; facet++) {
        if (lw_vec3_dot(lw_optic_solid_normal(solid, facet), eye) <= 0.0)
            continue;
        lw_vec3 first = corner_of(solid, solid->ring_start[facet]);
        for (int i = solid->ring_start[facet] + 2; i < solid->ring_start[facet + 1]; i++) {
            lw_vec3 p = lw_vec3_sub(corner_of(solid, i - 1), first);
            lw_vec3 q = lw_vec3_sub(corner_of(solid, i), first);
            twice += lw_vec3_dot(lw_vec3_cross(p, q), eye);
        }
    }
    return 0.5 * twice;
}
