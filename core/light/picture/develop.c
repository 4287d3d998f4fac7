#include "light/picture/develop.h"

#include <assert.h>
#include <math.h>

/* What the eye's three receptors take, sharpened so that each can be scaled by itself. */
static const double bradford[3][3] = {
    {0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}};

static void apply(const double m[3][3], const double v[3], double out[3])
{
    for (int i = 0; i < 3; i++)
        out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
}

/* By cofactors. */
static void invert(const double m[3][3], double out[3][3])
{
    double cofactor[3][3];
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 3; k++) {
            int i1 = (i + 1) % 3, i2 = (i + 2) % 3, k1 = (k + 1) % 3, k2 = (k + 2) % 3;
            cofactor[i][k] = m[i1][k1] * m[i2][k2] - m[i1][k2] * m[i2][k1];
        }
    }
    double volume = m[0][0] * cofactor[0][0] + m[0][1] * cofactor[0][1] + m[0][2] * cofactor[0][2];
    for (int i = 0; i < 3; i++) {
        for (int k = 0; k < 3; k++)
            out[i][k] = cofactor[k][i] / volume;
    }
}

/* Scales for the three receptors: the exposure, and toward the white that daylight has. A card
 * without one of them (a place lit in deep red) stays as it is there. */
static void gains(lw_xyz card, double level, double used_to, double out[3])
{
    lw_xyz white = lw_xyz_from_rgb((lw_rgb){1.0, 1.0, 1.0});
    double of_card[3], of_white[3];
    apply(bradford, (double[]){card.x / card.y, 1.0, card.z / card.y}, of_card);
    apply(bradford, (double[]){white.x, white.y, white.z}, of_white);
    for (int i = 0; i < 3; i++) {
        double full = of_card[i] > 0.01 ? of_white[i] / of_card[i] : 1.0;
        out[i] = level / card.y * (1.0 + used_to * (full - 1.0));
    }
}

lw_develop lw_develop_make(lw_xyz card, double level, double used_to)
{
    assert(card.y > 0.0 && level > 0.0 && used_to >= 0.0 && used_to <= 1.0);
    double gain[3], back[3][3];
    gains(card, level, used_to, gain);
    invert(bradford, back);
    lw_develop made = {.knee = LW_DEVELOP_KNEE};
    for (int k = 0; k < 3; k++) {
        /* where the k-th of X, Y and Z goes */
        double scaled[3], xyz[3];
        for (int i = 0; i < 3; i++)
            scaled[i] = gain[i] * bradford[i][k];
        apply(back, scaled, xyz);
        lw_rgb rgb = lw_rgb_from_xyz((lw_xyz){xyz[0], xyz[1], xyz[2]});
        made.rgb_from_xyz[0][k] = rgb.red;
        made.rgb_from_xyz[1][k] = rgb.green;
        made.rgb_from_xyz[2][k] = rgb.blue;
    }
    return made;
}

lw_rgb lw_develop_linear(const lw_develop *develop, const double xyz[3])
{
    double out[3];
    apply(develop->rgb_from_xyz, xyz, out);
    return (lw_rgb){out[0], out[1], out[2]};
}

double lw_develop_shoulder(double knee, double luminance)
{
    if (luminance <= knee)
        return luminance;
    double room = 1.0 - knee;
    double above = luminance - knee;
    return knee + room * above / (room + above);
}

lw_rgb lw_develop_seen(const lw_develop *develop, const double xyz[3])
{
    lw_rgb linear = lw_develop_linear(develop, xyz);
    double luminance = lw_xyz_from_rgb(linear).y;
    if (luminance <= develop->knee)
        return linear;
    double scale = lw_develop_shoulder(develop->knee, luminance) / luminance;
    return (lw_rgb){linear.red * scale, linear.green * scale, linear.blue * scale};
}
