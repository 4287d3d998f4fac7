#include "light/surroundings.h"

#include "geom/angle.h"

#include <assert.h>

lw_vec3 lw_eye_direction(double tilt_deg, double turn_deg)
{
    lw_sincos tilt = lw_sincos_deg(tilt_deg);
    lw_sincos turn = lw_sincos_deg(turn_deg);
    return (lw_vec3){tilt.sin * turn.cos, tilt.sin * turn.sin, tilt.cos};
}

lw_surroundings lw_surroundings_even_sky(lw_vec3 eye, double head_deg)
{
    assert(head_deg >= 0.0 && head_deg <= 90.0);
    double none = 2.0; /* a cosine that no direction passes */
    return (lw_surroundings){eye, head_deg > 0.0 ? lw_sincos_deg(head_deg).cos : none};
}

bool lw_surroundings_is_head(const lw_surroundings *surroundings, lw_vec3 direction)
{
    return lw_vec3_dot(surroundings->eye, direction) > surroundings->cos_head;
}

double lw_surroundings_radiance(const lw_surroundings *surroundings, lw_vec3 direction)
{
    return direction.z > 0.0 && !lw_surroundings_is_head(surroundings, direction) ? 1.0 : 0.0;
}
