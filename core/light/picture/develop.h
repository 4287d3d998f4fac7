/* From radiance to what a screen shows: exposure, white, and how bright light fades into white.
 *
 * A white card comes out at a stated level, so that a picture tells how bright a stone is beside
 * it. The eye gets used to the colour of its surroundings: the card's colour is carried toward the
 * screen's white by the Bradford transform (K. M. Lam, 1985; ICC.1:2022, annex E), all the way or a
 * share of it. Light above the knee is pressed together smoothly, so that sparks keep their colour
 * and shape in place of a flat white: below it nothing changes. Pure.
 */
#ifndef LW_LIGHT_PICTURE_DEVELOP_H
#define LW_LIGHT_PICTURE_DEVELOP_H

#include "light/spectrum.h"

typedef struct lw_develop {
    double rgb_from_xyz[3][3]; /* exposure and white in one: linear sRGB */
    double knee;               /* 0..1, linear */
} lw_develop;

/* card: its colour, Y > 0. level: the linear luminance it is to have, > 0. used_to: 0..1. */
lw_develop lw_develop_make(lw_xyz card, double level, double used_to);

/* Linear sRGB as exposed, before the knee. */
lw_rgb lw_develop_linear(const lw_develop *develop, const double xyz[3]);

/* The same with its luminance pressed together above the knee: what a screen is to show. */
lw_rgb lw_develop_seen(const lw_develop *develop, const double xyz[3]);

/* Of a luminance: itself up to the knee; above it never quite 1, with the same slope at the knee.
 */
double lw_develop_shoulder(double knee, double luminance);

#define LW_DEVELOP_KNEE 0.8

/* Where a card comes out: 231 of 255 in sRGB, as paper does in a picture that is well exposed, with
 * room above it for sparks. */
#define LW_DEVELOP_LEVEL 0.8

#endif
