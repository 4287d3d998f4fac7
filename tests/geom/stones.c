#include "geom/stones.h"

#include "geom/angle.h"

#include <math.h>

uint64_t random_bits(stone_random *random)
{
    uint64_t z = random->state += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double random_share(stone_random *random)
{
    return (double)(random_bits(random) >> 11) * 0x1p-53;
}

int random_below(stone_random *random, int count)
{
    return (int)(random_bits(random) % (uint64_t)count);
}

lw_vec3 random_direction(stone_random *random)
{
    for (;;) {
        lw_vec3 v = {2.0 * random_share(random) - 1.0, 2.0 * random_share(random) - 1.0,
                     2.0 * random_share(random) - 1.0};
        double length = lw_vec3_length(v);
        if (length > 0.01 && length <= 1.0) {
            return lw_vec3_scale(v, 1.0 / length);
        }
    }
}

lw_plane stone_facet(double tooth, double wheel, double angle_deg, double side, double radius,
                     double height)
{
    lw_sincos turn = lw_sincos_share(tooth, wheel), tip = lw_sincos_deg(angle_deg);
    lw_vec3 normal = {tip.sin * turn.cos, tip.sin * turn.sin, side * tip.cos};
    return (lw_plane){normal, tip.sin * radius + normal.z * height};
}

static int tier(lw_plane *planes, int at, int count, double first, lw_plane like)
{
    double size = sqrt(like.normal.x * like.normal.x + like.normal.y * like.normal.y);
    for (int i = 0; i < count; i++) {
        lw_sincos turn = lw_sincos_share(first + 96.0 * i / count, 96.0);
        planes[at + i] = like;
        planes[at + i].normal.x = size * turn.cos;
        planes[at + i].normal.y = size * turn.sin;
    }
    return at + count;
}

void stone_brilliant(lw_plane planes[STONE_BRILLIANT_FACETS])
{
    const double crown = 34.5, pavilion = 40.75, table = 0.53, star = 0.5, lower = 0.8;
    const double girdle = 0.02;
    double c = lw_sincos_share(1.0, 16.0).cos, k = lw_sincos_share(1.0, 32.0).cos;
    /* r: where the star's tip is, in plan on the main's azimuth half way between two mains. */
    double r = table * c + star * (1.0 - table * c);
    double rise = lw_tan_deg(crown), fall = lw_tan_deg(pavilion);
    double upper_deg = lw_atan2_deg(rise * (1.0 - r * c), (1.0 - r) * k);
    double star_deg = lw_atan2_deg(rise * (r * c - table), star * (1.0 - table * c));
    double lower_deg = lw_atan2_deg(fall * (1.0 - (1.0 - lower) * c), lower * k);
    double top = girdle + (1.0 - table) * rise;
    int at = 0;
    planes[at++] = (lw_plane){{0.0, 0.0, 1.0}, top};
    at = tier(planes, at, 8, 6.0, stone_facet(0.0, 96.0, star_deg, 1.0, table * c, top));
    at = tier(planes, at, 8, 0.0, stone_facet(0.0, 96.0, crown, 1.0, 1.0, girdle));
    at = tier(planes, at, 16, 3.0, stone_facet(0.0, 96.0, upper_deg, 1.0, k, girdle));
    at = tier(planes, at, 16, 3.0, stone_facet(0.0, 96.0, 90.0, 1.0, k, 0.0));
    at = tier(planes, at, 16, 3.0, stone_facet(0.0, 96.0, lower_deg, -1.0, k, -girdle));
    tier(planes, at, 8, 0.0, stone_facet(0.0, 96.0, pavilion, -1.0, 1.0, -girdle));
}

void stone_rough_ball(stone_random *random, int count, double roughness, lw_plane *planes)
{
    for (int i = 0; i < count; i++) {
        double sign = i % 2 == 0 ? 1.0 : -1.0;
        lw_vec3 axis = {i / 2 == 0 ? sign : 0.0, i / 2 == 1 ? sign : 0.0, i / 2 == 2 ? sign : 0.0};
        planes[i].normal = i < 6 ? axis : random_direction(random);
        planes[i].distance = 1.0 + roughness * (2.0 * random_share(random) - 1.0);
    }
}

void stone_jitter(stone_random *random, int count, double amount, lw_plane *planes)
{
    for (int i = 0; i < count; i++) {
        lw_vec3 shift = lw_vec3_scale(random_direction(random), amount);
        lw_vec3 normal = lw_vec3_add(planes[i].normal, shift);
        planes[i].normal = lw_vec3_scale(normal, 1.0 / lw_vec3_length(normal));
        planes[i].distance += amount * (2.0 * random_share(random) - 1.0);
    }
}

void stone_shuffle(stone_random *random, int count, lw_plane *planes)
{
    for (int i = count - 1; i > 0; i--) {
        int j = random_below(random, i + 1);
        lw_plane other = planes[i];
        planes[i] = planes[j];
        planes[j] = other;
    }
}
