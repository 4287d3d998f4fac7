#include "light/polarisation.h"

#include "geom/tolerance.h"

lw_vec3 lw_polarisation_axis(lw_vec3 direction, lw_vec3 normal, lw_vec3 fallback)
{
    lw_vec3 s = lw_vec3_cross(direction, normal);
    double length = lw_vec3_length(s);
    if (length < LW_SQUARE_ON)
        return fallback;
    return lw_vec3_scale(s, 1.0 / length);
}
