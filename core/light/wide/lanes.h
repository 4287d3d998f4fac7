/* One wide type: as many floats side by side as the instruction set has lanes.
 *
 * The source that includes this says which one by defining one of LANES_SCALAR, LANES_SSE2,
 * LANES_AVX2, LANES_AVX512 and LANES_SIMD128. Everything that is written with what stands below
 * does the same in all of them, lane by lane, up to rounding: only some multiply and add with one
 * rounding. Sources built with instructions of their own must call nothing that other sources share
 * but through a pointer.
 *
 * An instruction set is added by a header that gives, for LANES lanes,
 *
 *   wide         the type;  wide_mask  one truth value a lane
 *   wide_all(a)  a in every lane
 *   wide_load(from), wide_store(to, a)   LANES floats, aligned to LANES_ALIGNED bytes
 *   wide_load_any(from), wide_store_any(to, a)   the same, wherever they lie
 *   wide_add, wide_sub, wide_mul, wide_div, wide_min, wide_max (a, b)
 *   wide_sqrt(a), wide_abs(a)
 *   wide_add_mul(a, b, c)    a b + c;   wide_sub_mul(a, b, c)  c - a b
 *   wide_flip(a, b)          a, with its sign turned where b's is negative
 *   wide_power_of_2(a)       2^a, a whole, -126..127
 *   wide_less(a, b)          a < b;  wide_both, wide_either (m, n); wide_but(m, n)  m and not n
 *   wide_bits(m)             bit i = lane i
 *   wide_select(m, a, b)     m ? a : b;   wide_keep(m, a)  m ? a : 0
 *   wide_about_inverse(a)    1 / a within 12 bits;  wide_div_about(a, b)  a / b within some 22;
 *                            their last bits may differ between makers of one instruction set
 *
 * Wholes are kept as the bits of a wide, and only looked at as bits:
 *
 *   wide_whole(a)            an unsigned in every lane;  wide_store_whole(to, a)  wherever they lie
 *   wide_and, wide_or (a, b);  wide_half_bits(a)  shifted right by one
 *   wide_look_up(table, a)   table[a];  wide_look_up_low(table, a, bits)  by the low bits of a
 * alone; table is aligned, and with 3 bits holds its eight twice wide_fold_index(a, shift, low)  (a
 * >> shift where low has no bits) | (a where it has)
 *
 * and LANES_ROWS, how many registers of rays the innermost loop takes at once. NEON needs just
 * that: float32x4_t, uint32x4_t for the mask, vfmaq_f32, vbslq_f32; vsqrtq_f32 and vdivq_f32 exist
 * on 64-bit Arm; wide_bits by a shift and vaddvq_u32; wide_look_up by four loads, as lanes_sse2.h
 * does it. Then trace_neon.c like trace_sse2.c, and its line in trace.c.
 */
#ifndef LW_LIGHT_WIDE_LANES_H
#define LW_LIGHT_WIDE_LANES_H

/* Before a loop over LANES_ROWS, whose rows then stay in registers. */
#ifdef __clang__
#define LANES_UNROLL _Pragma("unroll")
#else
#define LANES_UNROLL _Pragma("GCC unroll 8")
#endif

/* For what must be in one piece with the loop around it, for its rows to stay in registers. */
#define LANES_INLINE static inline __attribute__((always_inline))

#if defined(LANES_AVX512)
#include "light/wide/lanes_avx512.h"
#elif defined(LANES_AVX2)
#include "light/wide/lanes_avx2.h"
#elif defined(LANES_SSE2)
#include "light/wide/lanes_sse2.h"
#elif defined(LANES_SIMD128)
#include "light/wide/lanes_simd128.h"
#elif defined(LANES_SCALAR)
#include "light/wide/lanes_scalar.h"
#else
#error "no instruction set was named"
#endif

#endif
