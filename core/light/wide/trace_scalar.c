/* One lane. */
#define LANES_SCALAR
#define LANES_KERNELS lw_wide_scalar
#include "light/wide/trace_lanes.h"
