/* Numbers that look random and are the same each time: splitmix64 (G. Steele, D. Lea, C. Flood,
 * OOPSLA 2014). */
#ifndef LW_TEST_ROUGH_RANDOM_H
#define LW_TEST_ROUGH_RANDOM_H

#include <stdint.h>

typedef struct test_random {
    uint64_t state;
} test_random;

static inline uint64_t test_bits(test_random *random)
{
    random->state += 0x9E3779B97F4A7C15u;
    uint64_t z = random->state;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* low <= result < high */
static inline double test_between(test_random *random, double low, double high)
{
    return low + (high - low) * (double)(test_bits(random) >> 11) / 9007199254740992.0;
}

static inline int test_whole(test_random *random, int count)
{
    return (int)(test_bits(random) % (uint64_t)count);
}

#endif
