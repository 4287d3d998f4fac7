/* The facet that each of many rays leaves by, in a stone that is folded along its mirror planes.
 * Built once an instruction set.
 *
 * Height above the stone, max over its facets of n . p - d, is convex along a ray: from a point
 * beyond it, Newton's method comes back to the exit without ever passing it, and after as many
 * steps as there are ever higher facets on the way, two or three. A point folded into the wedge has
 * as the highest facet one of the wedge's (J. Humphreys, Reflection Groups and Coxeter Groups,
 * 1990, 1.12: of all images of a vector, none has a larger product with a vector of the chamber
 * than the one that lies in the chamber too), so that a round brilliant has 7 to look at instead
 * of 73.
 *
 * Which facet is highest is kept in the last bits of its height: one operation instead of three.
 */
#ifndef LW_LIGHT_WIDE_FOLD_LANES_H
#define LW_LIGHT_WIDE_FOLD_LANES_H

#include "geom/tolerance.h"
#include "light/wide/nearest_lanes.h"

/* wide_about_inverse is right to 12 bits: what it says, lengthened by this, is no less. */
#define WIDE_AT_LEAST 1.0005f

/* How far Newton's method has come. */
typedef struct wide_search {
    wide_ray ray; /* the first mirror plane at y = 0 */
    wide along;   /* the ray, at or beyond the exit */
    wide speed;   /* at which it runs at the facet */
    wide facet;   /* a whole: which folds turned the place over, and the facet's kind */
} wide_search;

/* Turned so that the first mirror plane lies at y = 0, and out to where it leaves a box around the
 * stone. */
LANES_INLINE wide_search wide_search_from(const lw_wide_fold *fold, const wide_ray *ray)
{
    wide c = wide_all(fold->turn_cos), s = wide_all(fold->turn_sin);
    wide_search search = {.ray = *ray};
    if (fold->turn_sin != 0.0f || fold->turn_cos != 1.0f) {
        search.ray.at.x = wide_add_mul(s, ray->at.y, wide_mul(c, ray->at.x));
        search.ray.at.y = wide_sub_mul(s, ray->at.x, wide_mul(c, ray->at.y));
        search.ray.to.x = wide_add_mul(s, ray->to.y, wide_mul(c, ray->to.x));
        search.ray.to.y = wide_sub_mul(s, ray->to.x, wide_mul(c, ray->to.y));
    }
    const wide_vec *at = &search.ray.at, *to = &search.ray.to;
    wide x = wide_sub(wide_flip(wide_all(fold->box[0]), to->x), at->x);
    wide y = wide_sub(wide_flip(wide_all(fold->box[1]), to->y), at->y);
    wide z = wide_sub(wide_flip(wide_all(fold->box[2]), to->z), at->z);
    x = wide_mul(x, wide_about_inverse(to->x));
    y = wide_mul(y, wide_about_inverse(to->y));
    z = wide_mul(z, wide_about_inverse(to->z));
    search.along = wide_mul(wide_min(wide_min(x, y), z), wide_all(WIDE_AT_LEAST));
    search.speed = wide_all(1.0f);
    search.facet = wide_whole(0);
    return search;
}

/* A point and a direction, folded; bits tells which folds turned them over. */
typedef struct wide_folded {
    wide_vec at, to;
    wide bits;
} wide_folded;

LANES_INLINE void wide_fold_over(const lw_wide_crease *crease, wide_folded f[LANES_ROWS])
{
    wide a = wide_all(crease->across), b = wide_all(crease->up), bit = wide_all(crease->bit);
    wide a_twice = wide_all(crease->across_twice), b_twice = wide_all(crease->up_twice);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
    {
        wide beyond = wide_add_mul(b, f[r].at.y, wide_mul(a, f[r].at.x));
        wide speed = wide_add_mul(b, f[r].to.y, wide_mul(a, f[r].to.x));
        wide_mask over = wide_less(wide_all(0.0f), beyond);
        beyond = wide_max(beyond, wide_all(0.0f));
        speed = wide_keep(over, speed);
        f[r].at.x = wide_sub_mul(a_twice, beyond, f[r].at.x);
        f[r].at.y = wide_sub_mul(b_twice, beyond, f[r].at.y);
        f[r].to.x = wide_sub_mul(a_twice, speed, f[r].to.x);
        f[r].to.y = wide_sub_mul(b_twice, speed, f[r].to.y);
        f[r].bits = wide_or(f[r].bits, wide_keep(over, bit));
    }
}

/* The folds along y = 0, x = 0 and y = x cost next to nothing. */
LANES_INLINE void wide_fold_straight(const lw_wide_fold *fold, wide_folded *f)
{
    wide sign = wide_all(-0.0f);
    f->bits = wide_and(f->at.y, sign);
    f->to.y = wide_flip(f->to.y, f->at.y);
    f->at.y = wide_abs(f->at.y);
    if (fold->straight < 2)
        return;
    f->bits = wide_or(f->bits, wide_half_bits(wide_and(f->at.x, sign)));
    f->to.x = wide_flip(f->to.x, f->at.x);
    f->at.x = wide_abs(f->at.x);
    if (fold->straight < 3)
        return;
    wide_mask over = wide_less(f->at.x, f->at.y);
    wide x = f->at.x, to_x = f->to.x;
    f->at.x = wide_max(f->at.y, x);
    f->at.y = wide_min(f->at.y, x);
    f->to.x = wide_select(over, f->to.y, to_x);
    f->to.y = wide_select(over, to_x, f->to.y);
    f->bits = wide_or(f->bits, wide_keep(over, wide_all(fold->creases[2].bit)));
}

LANES_INLINE void wide_fold_up(const lw_wide_fold *fold, wide_folded f[LANES_ROWS])
{
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) wide_fold_straight(fold, &f[r]);
    for (int k = fold->straight; k < fold->folds; k++)
        wide_fold_over(&fold->creases[k], f);
}

LANES_INLINE wide_vec wide_on_ray(const wide_ray *ray, wide along)
{
    return (wide_vec){wide_add_mul(along, ray->to.x, ray->at.x),
                      wide_add_mul(along, ray->to.y, ray->at.y),
                      wide_add_mul(along, ray->to.z, ray->at.z)};
}

LANES_INLINE void wide_consider_kind(wide height, wide room, wide kind, wide *highest)
{
    *highest = wide_max(*highest, wide_or(wide_and(height, room), kind));
}

/* The greatest height, its last bits the number of the facet's kind. Kinds that lie level come
 * first, then those that are their own images in the first mirror plane. */
LANES_INLINE void wide_highest(const lw_wide_fold *fold, const wide_folded f[LANES_ROWS],
                               wide highest[LANES_ROWS])
{
    const float *number = fold->numbers;
    int apart = fold->kinds_padded, i = 0;
    wide room = wide_whole(~0u << fold->kind_bits);
    LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) highest[r] = wide_all(-1e30f);
    for (; i < fold->level; i++, number++) {
        wide z = wide_all(number[2 * apart]);
        wide minus_d = wide_all(number[3 * apart]), kind = wide_all(number[4 * apart]);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
            wide_consider_kind(wide_add_mul(z, f[r].at.z, minus_d), room, kind, &highest[r]);
    }
    for (; i < fold->level_or_own; i++, number++) {
        wide x = wide_all(number[0]), z = wide_all(number[2 * apart]);
        wide minus_d = wide_all(number[3 * apart]), kind = wide_all(number[4 * apart]);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
        {
            wide height = wide_add_mul(x, f[r].at.x, minus_d);
            wide_consider_kind(wide_add_mul(z, f[r].at.z, height), room, kind, &highest[r]);
        }
    }
    for (; i < fold->kinds; i++, number++) {
        wide x = wide_all(number[0]), y = wide_all(number[apart]), z = wide_all(number[2 * apart]);
        wide minus_d = wide_all(number[3 * apart]), kind = wide_all(number[4 * apart]);
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
        {
            wide height = wide_add_mul(x, f[r].at.x, minus_d);
            height = wide_add_mul(y, f[r].at.y, height);
            wide_consider_kind(wide_add_mul(z, f[r].at.z, height), room, kind, &highest[r]);
        }
    }
}

/* The facet's normal, and the height made good again where many kinds took many bits of it. */
LANES_INLINE wide_vec wide_kind_normal(const lw_wide_fold *fold, const wide_folded *f, wide highest,
                                       wide *height)
{
    const float *x = fold->numbers, *y = x + fold->kinds_padded, *z = y + fold->kinds_padded,
                *minus_d = z + fold->kinds_padded;
    int bits = fold->kind_bits;
    wide_vec normal = {wide_look_up_low(x, highest, bits), wide_look_up_low(y, highest, bits),
                       wide_look_up_low(z, highest, bits)};
    *height = highest;
    if (bits > LW_WIDE_FEW_BITS)
        *height = wide_add(wide_dot(normal, f->at), wide_look_up_low(minus_d, highest, bits));
    return normal;
}

/* One step back, for the rays that are not yet at their exits. */
LANES_INLINE wide_mask wide_come_back(const lw_wide_fold *fold, float near_enough,
                                      const wide_folded *f, wide highest, wide_search *search)
{
    wide kind = wide_and(highest, wide_whole(~(~0u << fold->kind_bits)));
    wide height;
    wide_vec normal = wide_kind_normal(fold, f, highest, &height);
    wide speed = wide_dot(normal, f->to);
    wide_mask going = wide_both(wide_less(wide_all(near_enough), height),
                                wide_less(wide_all((float)LW_WIDE_FLATTEST), speed));
    wide back = wide_sub(search->along, wide_div_about(height, speed));
    search->along = wide_select(going, back, search->along);
    search->speed = wide_select(going, speed, search->speed);
    search->facet = wide_select(going, wide_or(f->bits, kind), search->facet);
    return going;
}

/* All but a few lanes of them. Going on with a whole register for the sake of few lanes would be
 * waste, so those are given back: bit r LANES + i of late is lane i of row r. */
LANES_INLINE unsigned long wide_search_on(const lw_wide_solid *solid, int most_late,
                                          wide_search search[LANES_ROWS])
{
    const lw_wide_fold *fold = &solid->fold;
    float near_enough = 0.5f * solid->skin;
    unsigned long late = 0;
    for (int step = 0; step < solid->facet_count; step++) {
        wide_folded f[LANES_ROWS];
        wide highest[LANES_ROWS];
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++)
        {
            f[r].at = wide_on_ray(&search[r].ray, search[r].along);
            f[r].to = search[r].ray.to;
        }
        wide_fold_up(fold, f);
        wide_highest(fold, f, highest);
        late = 0;
        LANES_UNROLL for (int r = 0; r < LANES_ROWS; r++) late |=
            (unsigned long)wide_bits(
                wide_come_back(fold, near_enough, &f[r], highest[r], &search[r]))
            << (r * LANES);
        unsigned long more = late;
        for (int k = 0; k < most_late; k++)
            more &= more - 1;
        if (more == 0)
            break;
    }
    return late;
}

LANES_INLINE wide_nearest wide_found(const lw_wide_solid *solid, const wide_search *search)
{
    const lw_wide_fold *fold = &solid->fold;
    int shift = 32 - fold->folds - fold->kind_bits;
    wide at = wide_fold_index(search->facet, shift, (1 << fold->kind_bits) - 1);
    wide skin = wide_mul(wide_all(solid->skin), wide_about_inverse(search->speed));
    return (wide_nearest){wide_look_up(fold->facet, at), search->speed,
                          wide_max(wide_sub(search->along, skin), wide_all(0.0f))};
}

#endif
