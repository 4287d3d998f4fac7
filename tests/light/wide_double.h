/* What becomes of a ray, in double precision and one at a time: light/path.h, booked as
 * light/wide/trace.h says. */
#ifndef LW_TESTS_LIGHT_WIDE_DOUBLE_H
#define LW_TESTS_LIGHT_WIDE_DOUBLE_H

#include "light/path.h"
#include "light/wide/trace.h"

#include <stdint.h>

typedef struct wide_double {
    double brightness, glare, window, leak, extinction, reflected, sent, absorbed, given_up;
    uint64_t trail;  /* of facets and of what the parts that left ended on, while they matter */
    double critical; /* the least |1 - sin^2| beyond a surface, likewise */
    int surfaces;
} wide_double;

/* solid: the job's, in double precision. False when the ray misses. */
bool wide_double_look(const lw_wide_job *job, const lw_optic_solid *solid, lw_vec3 from,
                      lw_vec3 direction, wide_double *out);
void wide_double_finish(const lw_wide_job *job, const lw_optic_solid *solid,
                        const lw_wide_inside *ray, wide_double *out);

/* The greatest difference between any two shares. */
double wide_double_apart(const wide_double *a, const lw_wide_light *b);
/* Brightness and glare left out: 1 but for rounding. */
double wide_sum(const lw_wide_light *light);

#endif
