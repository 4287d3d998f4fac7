/* Four lanes of WebAssembly. See lanes.h. */
#ifndef LW_LIGHT_WIDE_LANES_SIMD128_H
#define LW_LIGHT_WIDE_LANES_SIMD128_H

#include <wasm_simd128.h>

typedef v128_t wide;
typedef v128_t wide_mask;

enum { LANES = 4, LANES_ROWS = 5, LANES_ALIGNED = 16 };

static inline wide wide_all(float a)
{
    return wasm_f32x4_splat(a);
}

static inline wide wide_load(const float *from)
{
    return wasm_v128_load(from);
}

static inline void wide_store(float *to, wide a)
{
    wasm_v128_store(to, a);
}

static inline wide wide_load_any(const float *from)
{
    return wasm_v128_load(from);
}

static inline void wide_store_any(float *to, wide a)
{
    wasm_v128_store(to, a);
}

static inline void wide_store_whole(int *to, wide a)
{
    wasm_v128_store(to, a);
}

static inline wide wide_add(wide a, wide b)
{
    return wasm_f32x4_add(a, b);
}

static inline wide wide_sub(wide a, wide b)
{
    return wasm_f32x4_sub(a, b);
}

static inline wide wide_mul(wide a, wide b)
{
    return wasm_f32x4_mul(a, b);
}

static inline wide wide_div(wide a, wide b)
{
    return wasm_f32x4_div(a, b);
}

static inline wide wide_min(wide a, wide b)
{
    return wasm_f32x4_pmin(b, a);
}

static inline wide wide_max(wide a, wide b)
{
    return wasm_f32x4_pmax(b, a);
}

static inline wide wide_sqrt(wide a)
{
    return wasm_f32x4_sqrt(a);
}

static inline wide wide_abs(wide a)
{
    return wasm_f32x4_abs(a);
}

static inline wide wide_add_mul(wide a, wide b, wide c)
{
    return wasm_f32x4_add(wasm_f32x4_mul(a, b), c);
}

static inline wide wide_sub_mul(wide a, wide b, wide c)
{
    return wasm_f32x4_sub(c, wasm_f32x4_mul(a, b));
}

static inline wide wide_flip(wide a, wide b)
{
    return wasm_v128_xor(a, wasm_v128_and(b, wasm_f32x4_splat(-0.0f)));
}

static inline wide wide_power_of_2(wide a)
{
    return wasm_i32x4_shl(wasm_i32x4_add(wasm_i32x4_trunc_sat_f32x4(a), wasm_i32x4_splat(127)), 23);
}

static inline wide_mask wide_less(wide a, wide b)
{
    return wasm_f32x4_lt(a, b);
}

static inline wide_mask wide_both(wide_mask m, wide_mask n)
{
    return wasm_v128_and(m, n);
}

static inline wide_mask wide_either(wide_mask m, wide_mask n)
{
    return wasm_v128_or(m, n);
}

static inline wide_mask wide_but(wide_mask m, wide_mask n)
{
    return wasm_v128_andnot(m, n);
}

static inline unsigned wide_bits(wide_mask m)
{
    return (unsigned)wasm_i32x4_bitmask(m);
}

static inline wide wide_select(wide_mask m, wide a, wide b)
{
    return wasm_v128_bitselect(a, b, m);
}

static inline wide wide_keep(wide_mask m, wide a)
{
    return wasm_v128_and(m, a);
}

static inline wide wide_whole(unsigned a)
{
    return wasm_u32x4_splat(a);
}

static inline wide wide_and(wide a, wide b)
{
    return wasm_v128_and(a, b);
}

static inline wide wide_or(wide a, wide b)
{
    return wasm_v128_or(a, b);
}

static inline wide wide_look_up(const float *table, wide a)
{
    v128_t r = wasm_v128_load32_zero(&table[wasm_u32x4_extract_lane(a, 0)]);
    r = wasm_v128_load32_lane(&table[wasm_u32x4_extract_lane(a, 1)], r, 1);
    r = wasm_v128_load32_lane(&table[wasm_u32x4_extract_lane(a, 2)], r, 2);
    return wasm_v128_load32_lane(&table[wasm_u32x4_extract_lane(a, 3)], r, 3);
}

static inline wide wide_look_up_low(const float *table, wide a, int bits)
{
    return wide_look_up(table, wide_and(a, wide_whole(~(~0u << bits))));
}

static inline wide wide_about_inverse(wide a)
{
    return wasm_f32x4_div(wasm_f32x4_splat(1.0f), a);
}

static inline wide wide_half_bits(wide a)
{
    return wasm_u32x4_shr(a, 1);
}

static inline wide wide_fold_index(wide a, int shift, int low)
{
    v128_t mask = wasm_i32x4_splat(low);
    return wasm_v128_bitselect(a, wasm_u32x4_shr(a, (uint32_t)shift), mask);
}

static inline wide wide_div_about(wide a, wide b)
{
    return wide_div(a, b);
}

#endif
