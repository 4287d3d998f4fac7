/* The multiply-adds that this processor can do. */
#ifndef LW_BENCH_EXIT_PEAK_H
#define LW_BENCH_EXIT_PEAK_H

#include "light/wide/trace.h"

/* Multiply-adds of single precision a second in one thread, registers only: the best of several
 * runs. Multiplications and additions by themselves, a pair counted as one, where the set of
 * instructions has none fused. 0 for a kind that cannot be measured here. */
double exit_peak(lw_lanes lanes);

#endif
