/* What directions end on, many at once: light/surroundings.c in lanes. Built once an instruction
 * set. */
#ifndef LW_LIGHT_WIDE_SKY_LANES_H
#define LW_LIGHT_WIDE_SKY_LANES_H

#include "light/wide/physics_lanes.h"

static inline wide_vec wide_vec_of(const float a[3])
{
    return (wide_vec){wide_all(a[0]), wide_all(a[1]), wide_all(a[2])};
}

static inline wide_mask wide_within(const lw_wide_cone *cone, wide_vec to)
{
    wide_vec axis = {wide_all(cone->x), wide_all(cone->y), wide_all(cone->z)};
    if (!cone->narrow)
        return wide_less(wide_all(cone->bound), wide_dot(axis, to));
    wide_vec apart = wide_along(to, wide_all(-1.0f), axis);
    return wide_less(wide_dot(apart, apart), wide_all(cone->bound));
}

/* As seen through a window whose middle is the axis. */
static inline wide_mask wide_covers(const lw_wide_patch *patch, wide_vec to)
{
    if (!patch->pane)
        return wide_within(&patch->cone, to);
    wide_vec axis = {wide_all(patch->cone.x), wide_all(patch->cone.y), wide_all(patch->cone.z)};
    wide along = wide_dot(axis, to);
    wide across = wide_abs(wide_dot(wide_vec_of(patch->right), to));
    wide up = wide_abs(wide_dot(wide_vec_of(patch->above), to));
    wide_mask outside = wide_either(wide_less(wide_mul(along, wide_all(patch->tan_width)), across),
                                    wide_less(wide_mul(along, wide_all(patch->tan_tall)), up));
    return wide_but(wide_less(wide_all(0.0f), along), outside);
}

/* Radiance; *head where the direction ends on the head. */
static inline wide wide_radiance(const lw_wide_sky *sky, wide_vec to, wide_mask *head)
{
    wide radiance = wide_all(0.0f);
    wide height = wide_dot(wide_vec_of(sky->zenith), to);
    for (int i = 0; i < sky->patch_count; i++) {
        const lw_wide_patch *patch = &sky->patches[i];
        wide level = wide_add_mul(wide_all(patch->slope), height, wide_all(patch->even));
        level = wide_max(level, wide_all(0.0f));
        radiance = wide_select(wide_covers(patch, to), level, radiance);
    }
    *head = wide_within(&sky->head, to);
    return wide_select(*head, wide_all(sky->head_radiance), radiance);
}

#endif
