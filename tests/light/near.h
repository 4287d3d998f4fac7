/* cmocka with what it needs, and numbers that must be near one another. */
#ifndef LW_TESTS_LIGHT_NEAR_H
#define LW_TESTS_LIGHT_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* False for NaN on either side. */
#define assert_near(value, expected, within)                                                       \
    near_at((value), (expected), (within), #value, __FILE__, __LINE__)

static inline void near_at(double value, double expected, double within, const char *text,
                           const char *file, int line)
{
    if (fabs(value - expected) <= within)
        return;
    print_error("%s is %.17g, expected %.17g within %g\n", text, value, expected, within);
    _fail(file, line);
}

#endif
