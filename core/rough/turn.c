#include "rough/turn.h"

#include "geom/angle.h"

#include <assert.h>

static lw_turn unit(lw_turn q)
{
    double length = sqrt(q.w * q.w + q.x * q.x + q.y * q.y + q.z * q.z);
    return (lw_turn){q.w / length, q.x / length, q.y / length, q.z / length};
}

lw_turn lw_turn_by(lw_vec3 v)
{
    double angle = lw_vec3_length(v);
    if (angle == 0.0) {
        return (lw_turn){1, 0, 0, 0};
    }
    lw_sincos half = lw_sincos_rad(0.5 * angle);
    double share = half.sin / angle;
    return unit((lw_turn){half.cos, share * v.x, share * v.y, share * v.z});
}

lw_turn lw_turn_after(lw_turn a, lw_turn b)
{
    return unit((lw_turn){a.w * b.w - a.x * b.x - a.y * b.y - a.z * b.z,
                          a.w * b.x + a.x * b.w + a.y * b.z - a.z * b.y,
                          a.w * b.y - a.x * b.z + a.y * b.w + a.z * b.x,
                          a.w * b.z + a.x * b.y - a.y * b.x + a.z * b.w});
}

void lw_turn_matrix(lw_turn q, double r[9])
{
    double xx = q.x * q.x, yy = q.y * q.y, zz = q.z * q.z, ww = q.w * q.w;
    double xy = q.x * q.y, xz = q.x * q.z, yz = q.y * q.z;
    double wx = q.w * q.x, wy = q.w * q.y, wz = q.w * q.z;
    r[0] = ww + xx - yy - zz;
    r[1] = 2.0 * (xy - wz);
    r[2] = 2.0 * (xz + wy);
    r[3] = 2.0 * (xy + wz);
    r[4] = ww - xx + yy - zz;
    r[5] = 2.0 * (yz - wx);
    r[6] = 2.0 * (xz - wy);
    r[7] = 2.0 * (yz + wx);
    r[8] = ww - xx - yy + zz;
}

lw_turn lw_turn_axis(int i)
{
    assert(i >= 0 && i < LW_TURN_AXIS_COUNT);
    /* half turns and quarter turns that take z to z, -z, x, -x, y, -y */
    double s = sqrt(0.5);
    const lw_turn ways[6] = {{1, 0, 0, 0},  {0, 1, 0, 0},  {s, 0, s, 0},
                             {s, 0, -s, 0}, {s, -s, 0, 0}, {s, s, 0, 0}};
    lw_sincos half = lw_sincos_turns((i % 8) / 16.0);
    return lw_turn_after(ways[i / 8], (lw_turn){half.cos, 0, 0, half.sin});
}

lw_turn lw_turn_spread(int i, int count)
{
    assert(i >= 0 && i < count);
    const double phi = sqrt(2.0), psi = 1.533751168755204288118041;
    double t = (i + 0.5) / count, s = i + 0.5;
    double r = sqrt(t), big_r = sqrt(1.0 - t);
    lw_sincos alpha = lw_sincos_turns(s / phi), beta = lw_sincos_turns(s / psi);
    return unit((lw_turn){r * alpha.sin, r * alpha.cos, big_r * beta.sin, big_r * beta.cos});
}
