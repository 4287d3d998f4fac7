#include "geom/solid_parts.h"

#include <assert.h>
#include <math.h>

lw_status lw_solid_build(lw_solid *solid, double half_extent, const lw_plane *planes, int count)
{
    if (count > solid->max_planes) {
        return LW_TOO_LARGE;
    }
    lw_solid_start(solid, half_extent);
    for (int i = 0; i < count; i++) {
        lw_cut_effect effect = LW_CUT_MISSED;
        lw_status status = lw_solid_cut(solid, planes[i], &effect);
        if (status != LW_OK) {
            return status;
        }
        if (effect == LW_CUT_EMPTIED) {
            return LW_EMPTY;
        }
    }
    return LW_OK;
}
