/* One lane, for machines without any. See lanes.h. */
#ifndef LW_LIGHT_WIDE_LANES_SCALAR_H
#define LW_LIGHT_WIDE_LANES_SCALAR_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

typedef float wide;
typedef bool wide_mask;

enum { LANES = 1, LANES_ROWS = 2, LANES_ALIGNED = 4 };

static inline wide wide_all(float a)
{
    return a;
}

static inline wide wide_load(const float *from)
{
    return *from;
}

static inline void wide_store(float *to, wide a)
{
    *to = a;
}

static inline wide wide_load_any(const float *from)
{
    return *from;
}

static inline void wide_store_any(float *to, wide a)
{
    *to = a;
}

static inline void wide_store_whole(int *to, wide a)
{
    memcpy(to, &a, sizeof *to);
}

static inline wide wide_add(wide a, wide b)
{
    return a + b;
}

static inline wide wide_sub(wide a, wide b)
{
    return a - b;
}

static inline wide wide_mul(wide a, wide b)
{
    return a * b;
}

static inline wide wide_div(wide a, wide b)
{
    return a / b;
}

static inline wide wide_min(wide a, wide b)
{
    return a < b ? a : b;
}

static inline wide wide_max(wide a, wide b)
{
    return a > b ? a : b;
}

static inline wide wide_sqrt(wide a)
{
    return sqrtf(a);
}

static inline wide wide_abs(wide a)
{
    return fabsf(a);
}

static inline wide wide_add_mul(wide a, wide b, wide c)
{
    return a * b + c;
}

static inline wide wide_sub_mul(wide a, wide b, wide c)
{
    return c - a * b;
}

static inline wide wide_flip(wide a, wide b)
{
    uint32_t bits, sign;
    memcpy(&bits, &a, sizeof bits);
    memcpy(&sign, &b, sizeof sign);
    bits ^= sign & 0x80000000u;
    memcpy(&a, &bits, sizeof a);
    return a;
}

static inline wide wide_power_of_2(wide a)
{
    uint32_t bits = (uint32_t)((int32_t)a + 127) << 23;
    memcpy(&a, &bits, sizeof a);
    return a;
}

static inline wide_mask wide_less(wide a, wide b)
{
    return a < b;
}

static inline wide_mask wide_both(wide_mask m, wide_mask n)
{
    return m && n;
}

static inline wide_mask wide_either(wide_mask m, wide_mask n)
{
    return m || n;
}

static inline wide_mask wide_but(wide_mask m, wide_mask n)
{
    return m && !n;
}

static inline unsigned wide_bits(wide_mask m)
{
    return m;
}

static inline wide wide_select(wide_mask m, wide a, wide b)
{
    return m ? a : b;
}

static inline wide wide_keep(wide_mask m, wide a)
{
    return m ? a : 0.0f;
}

static inline wide wide_whole(unsigned a)
{
    uint32_t bits = a;
    wide made;
    memcpy(&made, &bits, sizeof made);
    return made;
}

static inline uint32_t wide_whole_in(wide a)
{
    uint32_t bits;
    memcpy(&bits, &a, sizeof bits);
    return bits;
}

static inline wide wide_and(wide a, wide b)
{
    return wide_whole(wide_whole_in(a) & wide_whole_in(b));
}

static inline wide wide_or(wide a, wide b)
{
    return wide_whole(wide_whole_in(a) | wide_whole_in(b));
}

static inline wide wide_look_up(const float *table, wide a)
{
    return table[wide_whole_in(a)];
}

static inline wide wide_look_up_low(const float *table, wide a, int bits)
{
    return wide_look_up(table, wide_and(a, wide_whole(~(~0u << bits))));
}

static inline wide wide_about_inverse(wide a)
{
    return 1.0f / a;
}

static inline wide wide_half_bits(wide a)
{
    return wide_whole(wide_whole_in(a) >> 1);
}

static inline wide wide_fold_index(wide a, int shift, int low)
{
    unsigned bits = wide_whole_in(a), mask = (unsigned)low;
    return wide_whole((bits >> shift & ~mask) | (bits & mask));
}

static inline wide wide_div_about(wide a, wide b)
{
    return wide_div(a, b);
}

#endif
