/* What the tests of matter share. */
#ifndef LW_TESTS_MATTER_NEAR_H
#define LW_TESTS_MATTER_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>

/* Fails, naming both, unless a and b differ by at most within. */
#define assert_near(a, b, within)                                                                  \
    do {                                                                                           \
        double near_a = (a), near_b = (b);                                                         \
        if (!(fabs(near_a - near_b) <= (within))) {                                                \
            fail_msg("%s = %.9g, expected %.9g within %.3g", #a, near_a, near_b,                   \
                     (double)(within));                                                            \
        }                                                                                          \
    } while (0)

#endif
