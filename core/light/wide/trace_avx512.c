/* Sixteen lanes; built with -mavx512f -mavx512dq -mavx512vl. */
#define LANES_AVX512
#define LANES_KERNELS lw_wide_avx512
#include "light/wide/trace_lanes.h"
