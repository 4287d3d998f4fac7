/* Four lanes. */
#define LANES_SSE2
#define LANES_KERNELS lw_wide_sse2
#include "light/wide/trace_lanes.h"
