/* A round brilliant of which only depth and table are known.
 *
 * Crown angle, pavilion angle and girdle are drawn together by
 *     crown + girdle + pavilion = depth,   crown = (100 - table) / 2 tan C, pavilion = 50 tan P,
 * and stay free otherwise. The prior says what they are likely to be before the depth is known;
 * what is taken is the likeliest set that gives the depth. It was stated before the data was looked
 * at and is not fitted to it: laboratories' usual ranges for rounds, from memory.
 *
 * Lengths: diameter of the girdle's circle = 1.
 */
#ifndef LW_TESTS_DATA_ROUND_PRIOR_H
#define LW_TESTS_DATA_ROUND_PRIOR_H

#include "geom/mass.h"

#include <stdbool.h>

typedef struct round_prior {
    double crown_deg, crown_spread; /* mean and standard deviation */
    double pavilion_deg, pavilion_spread;
    double girdle, girdle_spread; /* at the 16 thick places, share of the diameter */
    double star, lower;           /* lengths as laboratories refer them, shares */
    int girdle_facets;            /* around; 16 is faceted level, more is a smooth girdle */
} round_prior;

/* 34.5 +- 1.5 and 40.8 +- 0.6 degrees, 3.5 +- 1.0 % of girdle, star 50 %, lower halves 77 %, a
 * girdle of 96 facets with a circle's area. */
extern const round_prior round_prior_stated;

typedef struct round_shape {
    double crown_deg, pavilion_deg, girdle, table, star, lower;
    int girdle_facets;
} round_shape;

/* The likeliest round with that depth and table, shares of the diameter. */
round_shape round_likeliest(const round_prior *prior, double depth, double table);

/* Whether stars of that length leave the mains anything between table and breaks: with stars of 50
 * % no table above 80.6 % does. */
bool round_can_be(const round_shape *shape);

enum { ROUND_MOST_PLANES = 256 };

/* Its planes; returns how many. The girdle's facets stand around a circle of diameter 1 with that
 * circle's area (16: through the corners of the breaks, corners on the circle). */
int round_planes(const round_shape *shape, lw_plane planes[ROUND_MOST_PLANES]);

/* The volume, built with the workshop given (room for ROUND_MOST_PLANES); negative when the planes
 * do not close. */
double round_volume(lw_solid *workshop, const round_shape *shape);

#endif
