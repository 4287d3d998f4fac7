/* Eight lanes; built with -mavx2 -mfma. */
#define LANES_AVX2
#define LANES_KERNELS lw_wide_avx2
#include "light/wide/trace_lanes.h"
