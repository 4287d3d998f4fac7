/* Four lanes that every 64-bit PC has. See lanes.h. */
#ifndef LW_LIGHT_WIDE_LANES_SSE2_H
#define LW_LIGHT_WIDE_LANES_SSE2_H

#include <emmintrin.h>
#include <stdalign.h>

typedef __m128 wide;
typedef __m128 wide_mask;

enum { LANES = 4, LANES_ROWS = 4, LANES_ALIGNED = 16 };

static inline wide wide_all(float a)
{
    return _mm_set1_ps(a);
}

static inline wide wide_load(const float *from)
{
    return _mm_load_ps(from);
}

static inline void wide_store(float *to, wide a)
{
    _mm_store_ps(to, a);
}

static inline wide wide_load_any(const float *from)
{
    return _mm_loadu_ps(from);
}

static inline void wide_store_any(float *to, wide a)
{
    _mm_storeu_ps(to, a);
}

static inline void wide_store_whole(int *to, wide a)
{
    _mm_storeu_si128((__m128i *)(void *)to, _mm_castps_si128(a));
}

static inline wide wide_add(wide a, wide b)
{
    return _mm_add_ps(a, b);
}

static inline wide wide_sub(wide a, wide b)
{
    return _mm_sub_ps(a, b);
}

static inline wide wide_mul(wide a, wide b)
{
    return _mm_mul_ps(a, b);
}

static inline wide wide_div(wide a, wide b)
{
    return _mm_div_ps(a, b);
}

static inline wide wide_min(wide a, wide b)
{
    return _mm_min_ps(a, b);
}

static inline wide wide_max(wide a, wide b)
{
    return _mm_max_ps(a, b);
}

static inline wide wide_sqrt(wide a)
{
    return _mm_sqrt_ps(a);
}

static inline wide wide_abs(wide a)
{
    return _mm_andnot_ps(_mm_set1_ps(-0.0f), a);
}

static inline wide wide_add_mul(wide a, wide b, wide c)
{
    return _mm_add_ps(_mm_mul_ps(a, b), c);
}

static inline wide wide_sub_mul(wide a, wide b, wide c)
{
    return _mm_sub_ps(c, _mm_mul_ps(a, b));
}

static inline wide wide_flip(wide a, wide b)
{
    return _mm_xor_ps(a, _mm_and_ps(b, _mm_set1_ps(-0.0f)));
}

static inline wide wide_power_of_2(wide a)
{
    return _mm_castsi128_ps(
        _mm_slli_epi32(_mm_add_epi32(_mm_cvtps_epi32(a), _mm_set1_epi32(127)), 23));
}

static inline wide_mask wide_less(wide a, wide b)
{
    return _mm_cmplt_ps(a, b);
}

static inline wide_mask wide_both(wide_mask m, wide_mask n)
{
    return _mm_and_ps(m, n);
}

static inline wide_mask wide_either(wide_mask m, wide_mask n)
{
    return _mm_or_ps(m, n);
}

static inline wide_mask wide_but(wide_mask m, wide_mask n)
{
    return _mm_andnot_ps(n, m);
}

static inline unsigned wide_bits(wide_mask m)
{
    return (unsigned)_mm_movemask_ps(m);
}

static inline wide wide_select(wide_mask m, wide a, wide b)
{
    return _mm_or_ps(_mm_and_ps(m, a), _mm_andnot_ps(m, b));
}

static inline wide wide_keep(wide_mask m, wide a)
{
    return _mm_and_ps(m, a);
}

static inline wide wide_whole(unsigned a)
{
    return _mm_castsi128_ps(_mm_set1_epi32((int)a));
}

static inline wide wide_and(wide a, wide b)
{
    return _mm_and_ps(a, b);
}

static inline wide wide_or(wide a, wide b)
{
    return _mm_or_ps(a, b);
}

static inline wide wide_look_up(const float *table, wide a)
{
    alignas(16) unsigned at[4];
    _mm_store_si128((__m128i *)(void *)at, _mm_castps_si128(a));
    return _mm_setr_ps(table[at[0]], table[at[1]], table[at[2]], table[at[3]]);
}

static inline wide wide_look_up_low(const float *table, wide a, int bits)
{
    return wide_look_up(table, wide_and(a, wide_whole(~(~0u << bits))));
}

static inline wide wide_about_inverse(wide a)
{
    return _mm_div_ps(_mm_set1_ps(1.0f), a);
}

static inline wide wide_half_bits(wide a)
{
    return _mm_castsi128_ps(_mm_srli_epi32(_mm_castps_si128(a), 1));
}

static inline wide wide_fold_index(wide a, int shift, int low)
{
    __m128i bits = _mm_castps_si128(a), mask = _mm_set1_epi32(low);
    __m128i high = _mm_andnot_si128(mask, _mm_srl_epi32(bits, _mm_cvtsi32_si128(shift)));
    return _mm_castsi128_ps(_mm_or_si128(high, _mm_and_si128(bits, mask)));
}

static inline wide wide_div_about(wide a, wide b)
{
    return wide_div(a, b);
}

#endif
