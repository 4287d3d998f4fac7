/* Sixteen lanes. See lanes.h. */
#ifndef LW_LIGHT_WIDE_LANES_AVX512_H
#define LW_LIGHT_WIDE_LANES_AVX512_H

#include <immintrin.h>

typedef __m512 wide;
typedef __mmask16 wide_mask;

enum { LANES = 16, LANES_ROWS = 4, LANES_ALIGNED = 64 };

static inline wide wide_all(float a)
{
    return _mm512_set1_ps(a);
}

static inline wide wide_load(const float *from)
{
    return _mm512_load_ps(from);
}

static inline void wide_store(float *to, wide a)
{
    _mm512_store_ps(to, a);
}

static inline wide wide_load_any(const float *from)
{
    return _mm512_loadu_ps(from);
}

static inline void wide_store_any(float *to, wide a)
{
    _mm512_storeu_ps(to, a);
}

static inline void wide_store_whole(int *to, wide a)
{
    _mm512_storeu_si512(to, _mm512_castps_si512(a));
}

static inline wide wide_add(wide a, wide b)
{
    return _mm512_add_ps(a, b);
}

static inline wide wide_sub(wide a, wide b)
{
    return _mm512_sub_ps(a, b);
}

static inline wide wide_mul(wide a, wide b)
{
    return _mm512_mul_ps(a, b);
}

static inline wide wide_div(wide a, wide b)
{
    return _mm512_div_ps(a, b);
}

static inline wide wide_min(wide a, wide b)
{
    return _mm512_min_ps(a, b);
}

static inline wide wide_max(wide a, wide b)
{
    return _mm512_max_ps(a, b);
}

static inline wide wide_sqrt(wide a)
{
    return _mm512_sqrt_ps(a);
}

static inline wide wide_abs(wide a)
{
    return _mm512_abs_ps(a);
}

static inline wide wide_add_mul(wide a, wide b, wide c)
{
    return _mm512_fmadd_ps(a, b, c);
}

static inline wide wide_sub_mul(wide a, wide b, wide c)
{
    return _mm512_fnmadd_ps(a, b, c);
}

static inline wide wide_flip(wide a, wide b)
{
    return _mm512_xor_ps(a, _mm512_and_ps(b, _mm512_set1_ps(-0.0f)));
}

static inline wide wide_power_of_2(wide a)
{
    return _mm512_castsi512_ps(
        _mm512_slli_epi32(_mm512_add_epi32(_mm512_cvtps_epi32(a), _mm512_set1_epi32(127)), 23));
}

static inline wide_mask wide_less(wide a, wide b)
{
    return _mm512_cmp_ps_mask(a, b, _CMP_LT_OQ);
}

static inline wide_mask wide_both(wide_mask m, wide_mask n)
{
    return (wide_mask)(m & n);
}

static inline wide_mask wide_either(wide_mask m, wide_mask n)
{
    return (wide_mask)(m | n);
}

static inline wide_mask wide_but(wide_mask m, wide_mask n)
{
    return (wide_mask)(m & ~n);
}

static inline unsigned wide_bits(wide_mask m)
{
    return m;
}

static inline wide wide_select(wide_mask m, wide a, wide b)
{
    return _mm512_mask_blend_ps(m, b, a);
}

static inline wide wide_keep(wide_mask m, wide a)
{
    return _mm512_maskz_mov_ps(m, a);
}

static inline wide wide_whole(unsigned a)
{
    return _mm512_castsi512_ps(_mm512_set1_epi32((int)a));
}

static inline wide wide_and(wide a, wide b)
{
    return _mm512_and_ps(a, b);
}

static inline wide wide_or(wide a, wide b)
{
    return _mm512_or_ps(a, b);
}

static inline wide wide_look_up(const float *table, wide a)
{
    return _mm512_i32gather_ps(_mm512_castps_si512(a), table, 4);
}

static inline wide wide_look_up_low(const float *table, wide a, int bits)
{
    __m512i at = _mm512_castps_si512(a);
    if (bits > 5)
        return wide_look_up(table, wide_and(a, wide_whole(~(~0u << bits))));
    __m512 low = _mm512_load_ps(table);
    if (bits < 5)
        return _mm512_permutexvar_ps(at, low);
    return _mm512_permutex2var_ps(low, at, _mm512_load_ps(table + 16));
}

static inline wide wide_about_inverse(wide a)
{
    return _mm512_rcp14_ps(a);
}

static inline wide wide_half_bits(wide a)
{
    return _mm512_castsi512_ps(_mm512_srli_epi32(_mm512_castps_si512(a), 1));
}

static inline wide wide_fold_index(wide a, int shift, int low)
{
    __m512i bits = _mm512_castps_si512(a), mask = _mm512_set1_epi32(low);
    __m512i high = _mm512_andnot_si512(mask, _mm512_srl_epi32(bits, _mm_cvtsi32_si128(shift)));
    return _mm512_castsi512_ps(_mm512_or_si512(high, _mm512_and_si512(bits, mask)));
}

static inline wide wide_div_about(wide a, wide b)
{
    wide inverse = _mm512_rcp14_ps(b);
    wide right =
        _mm512_fnmadd_ps(b, inverse, _mm512_set1_ps(2.0f)); /* one step of Newton's method */
    return _mm512_mul_ps(a, _mm512_mul_ps(inverse, right));
}

#endif
