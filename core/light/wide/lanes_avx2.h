/* Eight lanes, with fused multiply-add. See lanes.h. */
#ifndef LW_LIGHT_WIDE_LANES_AVX2_H
#define LW_LIGHT_WIDE_LANES_AVX2_H

#include <immintrin.h>

typedef __m256 wide;
typedef __m256 wide_mask;

enum { LANES = 8, LANES_ROWS = 4, LANES_ALIGNED = 32 };

static inline wide wide_all(float a)
{
    return _mm256_set1_ps(a);
}

static inline wide wide_load(const float *from)
{
    return _mm256_load_ps(from);
}

static inline void wide_store(float *to, wide a)
{
    _mm256_store_ps(to, a);
}

static inline wide wide_load_any(const float *from)
{
    return _mm256_loadu_ps(from);
}

static inline void wide_store_any(float *to, wide a)
{
    _mm256_storeu_ps(to, a);
}

static inline void wide_store_whole(int *to, wide a)
{
    _mm256_storeu_si256((__m256i *)(void *)to, _mm256_castps_si256(a));
}

static inline wide wide_add(wide a, wide b)
{
    return _mm256_add_ps(a, b);
}

static inline wide wide_sub(wide a, wide b)
{
    return _mm256_sub_ps(a, b);
}

static inline wide wide_mul(wide a, wide b)
{
    return _mm256_mul_ps(a, b);
}

static inline wide wide_div(wide a, wide b)
{
    return _mm256_div_ps(a, b);
}

static inline wide wide_min(wide a, wide b)
{
    return _mm256_min_ps(a, b);
}

static inline wide wide_max(wide a, wide b)
{
    return _mm256_max_ps(a, b);
}

static inline wide wide_sqrt(wide a)
{
    return _mm256_sqrt_ps(a);
}

static inline wide wide_abs(wide a)
{
    return _mm256_andnot_ps(_mm256_set1_ps(-0.0f), a);
}

static inline wide wide_add_mul(wide a, wide b, wide c)
{
    return _mm256_fmadd_ps(a, b, c);
}

static inline wide wide_sub_mul(wide a, wide b, wide c)
{
    return _mm256_fnmadd_ps(a, b, c);
}

static inline wide wide_flip(wide a, wide b)
{
    return _mm256_xor_ps(a, _mm256_and_ps(b, _mm256_set1_ps(-0.0f)));
}

static inline wide wide_power_of_2(wide a)
{
    return _mm256_castsi256_ps(
        _mm256_slli_epi32(_mm256_add_epi32(_mm256_cvtps_epi32(a), _mm256_set1_epi32(127)), 23));
}

static inline wide_mask wide_less(wide a, wide b)
{
    return _mm256_cmp_ps(a, b, _CMP_LT_OQ);
}

static inline wide_mask wide_both(wide_mask m, wide_mask n)
{
    return _mm256_and_ps(m, n);
}

static inline wide_mask wide_either(wide_mask m, wide_mask n)
{
    return _mm256_or_ps(m, n);
}

static inline wide_mask wide_but(wide_mask m, wide_mask n)
{
    return _mm256_andnot_ps(n, m);
}

static inline unsigned wide_bits(wide_mask m)
{
    return (unsigned)_mm256_movemask_ps(m);
}

static inline wide wide_select(wide_mask m, wide a, wide b)
{
    return _mm256_blendv_ps(b, a, m);
}

static inline wide wide_keep(wide_mask m, wide a)
{
    return _mm256_and_ps(m, a);
}

static inline wide wide_whole(unsigned a)
{
    return _mm256_castsi256_ps(_mm256_set1_epi32((int)a));
}

static inline wide wide_and(wide a, wide b)
{
    return _mm256_and_ps(a, b);
}

static inline wide wide_or(wide a, wide b)
{
    return _mm256_or_ps(a, b);
}

static inline wide wide_look_up(const float *table, wide a)
{
    return _mm256_i32gather_ps(table, _mm256_castps_si256(a), 4);
}

static inline wide wide_look_up_low(const float *table, wide a, int bits)
{
    __m256i at = _mm256_castps_si256(a);
    if (bits > 4)
        return wide_look_up(table, wide_and(a, wide_whole(~(~0u << bits))));
    __m256 low = _mm256_permutevar8x32_ps(_mm256_load_ps(table), at);
    if (bits < 4)
        return low;
    __m256 high = _mm256_permutevar8x32_ps(_mm256_load_ps(table + 8), at);
    return _mm256_blendv_ps(low, high, _mm256_castsi256_ps(_mm256_slli_epi32(at, 28)));
}

static inline wide wide_about_inverse(wide a)
{
    return _mm256_rcp_ps(a);
}

static inline wide wide_half_bits(wide a)
{
    return _mm256_castsi256_ps(_mm256_srli_epi32(_mm256_castps_si256(a), 1));
}

static inline wide wide_fold_index(wide a, int shift, int low)
{
    __m256i bits = _mm256_castps_si256(a), mask = _mm256_set1_epi32(low);
    __m256i high = _mm256_andnot_si256(mask, _mm256_srl_epi32(bits, _mm_cvtsi32_si128(shift)));
    return _mm256_castsi256_ps(_mm256_or_si256(high, _mm256_and_si256(bits, mask)));
}

static inline wide wide_div_about(wide a, wide b)
{
    wide inverse = _mm256_rcp_ps(b);
    wide right =
        _mm256_fnmadd_ps(b, inverse, _mm256_set1_ps(2.0f)); /* one step of Newton's method */
    return _mm256_mul_ps(a, _mm256_mul_ps(inverse, right));
}

#endif
