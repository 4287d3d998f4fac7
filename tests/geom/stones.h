/* Stones for tests and benchmarks of the solid. */
#ifndef LW_TESTS_GEOM_STONES_H
#define LW_TESTS_GEOM_STONES_H

#include "geom/solid.h"

#include <stdint.h>

/* A small generator of our own needs (G. Steele, D. Lea, C. Flood, "Fast Splittable Pseudorandom
 * Number Generators", OOPSLA 2014), so that every machine tests the same stones. */
typedef struct stone_random {
    uint64_t state;
} stone_random;

uint64_t random_bits(stone_random *random);
/* 0 <= value < 1. */
double random_share(stone_random *random);
/* 0 <= value < count. */
int random_below(stone_random *random, int count);
/* Even over the sphere. */
lw_vec3 random_direction(stone_random *random);

/* A facet at this tooth of a wheel, this angle, on the crown (side 1) or pavilion (side -1),
 * through the point at radius on the facet's own azimuth and at height. */
lw_plane stone_facet(double tooth, double wheel, double angle_deg, double side, double radius,
                     double height);

/* The round brilliant with its girdle of 16 flats, 73 facets on the unit circle through the
 * girdle's corners: table 1, stars 8, mains 8, upper halves 16, girdle 16, lower halves 16,
 * pavilion mains 8, in this order. Crown 34.5 degrees, table 53 %, pavilion 40.75 degrees (M.
 * Tolkowsky, Diamond Design, 1919), stars 50 %, lower halves 80 %; the angles of stars and halves
 * follow from those lengths by similar triangles in plan. Every meet is exact but for rounding. */
enum { STONE_BRILLIANT_FACETS = 73 };
void stone_brilliant(lw_plane planes[STONE_BRILLIANT_FACETS]);

/* Facets that touch a sphere of radius 1 (roughness 0) or stand up to this share further in or
 * out; the first six are the axes', so that it closes. count >= 8. */
void stone_rough_ball(stone_random *random, int count, double roughness, lw_plane *planes);

/* Moves each plane and tips each normal by up to amount, at random. */
void stone_jitter(stone_random *random, int count, double amount, lw_plane *planes);

void stone_shuffle(stone_random *random, int count, lw_plane *planes);

#endif
