/* Four lanes of WebAssembly. */
#define LANES_SIMD128
#define LANES_KERNELS lw_wide_simd128
#include "light/wide/trace_lanes.h"
