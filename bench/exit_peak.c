#include "exit_peak.h"

#include "measure.h"

#include <immintrin.h>

enum { CHAINS = 12, TURNS = 200000, RUNS = 9 };

/* CHAINS sums at once, each waiting only for itself; kept within bounds by a factor below 1. */
#define PEAK(name, sort, lanes, all, step, store, instructions)                                    \
    __attribute__((target(instructions))) static float name(void)                                  \
    {                                                                                              \
        sort a[CHAINS], x = all(0.999f), y = all(1e-3f);                                           \
        float out[lanes];                                                                          \
        for (int i = 0; i < CHAINS; i++)                                                           \
            a[i] = all(0.5f + 0.01f * (float)i);                                                   \
        for (int turn = 0; turn < TURNS; turn++) {                                                 \
            _Pragma("GCC unroll 12") for (int i = 0; i < CHAINS; i++) a[i] = step(a[i], x, y);     \
        }                                                                                          \
        sort sum = a[0];                                                                           \
        for (int i = 1; i < CHAINS; i++)                                                           \
            sum = step(sum, x, a[i]);                                                              \
        store(out, sum);                                                                           \
        return out[0];                                                                             \
    }

#define FOUR_STEP(a, x, y) _mm_add_ps(_mm_mul_ps(a, x), y)

PEAK(peak_sse2, __m128, 4, _mm_set1_ps, FOUR_STEP, _mm_storeu_ps, "sse2")
PEAK(peak_avx2, __m256, 8, _mm256_set1_ps, _mm256_fmadd_ps, _mm256_storeu_ps, "avx2,fma")
PEAK(peak_avx512, __m512, 16, _mm512_set1_ps, _mm512_fmadd_ps, _mm512_storeu_ps, "avx512f")

double exit_peak(lw_lanes lanes)
{
    float (*run)(void) = lanes == LW_LANES_SSE2     ? peak_sse2
                         : lanes == LW_LANES_AVX2   ? peak_avx2
                         : lanes == LW_LANES_AVX512 ? peak_avx512
                                                    : NULL;
    if (run == NULL || !lw_lanes_usable(lanes))
        return 0.0;
    int width = lanes == LW_LANES_SSE2 ? 4 : lanes == LW_LANES_AVX2 ? 8 : 16;
    double best = 0.0;
    volatile float sink = 0.0f;
    for (int i = 0; i < RUNS; i++) {
        double begin = bench_now();
        sink = sink + run();
        double rate = (double)width * CHAINS * TURNS / (bench_now() - begin);
        best = rate > best ? rate : best;
    }
    return best;
}
