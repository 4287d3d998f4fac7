/* What a picture is traced with, wavelength by wavelength: the stone's index and absorption, and
 * how bright a white card looks.
 *
 * One band serves for a picture in which nothing has a colour; else each band is traced by itself.
 * Lengths are the solid's. Pure; safe from any thread.
 */
#ifndef LW_LIGHT_PICTURE_OPTICS_H
#define LW_LIGHT_PICTURE_OPTICS_H

#include "light/absorption.h"
#include "light/spectrum.h"
#include "light/surroundings.h"
#include "matter/material.h"

typedef struct lw_picture_optics {
    lw_bands bands;
    double index[LW_SPECTRUM_MOST_BANDS];      /* >= 1 */
    double absorption[LW_SPECTRUM_MOST_BANDS]; /* a length, >= 0 */
    double card[LW_SPECTRUM_MOST_BANDS];       /* radiance of a white card at this band */
} lw_picture_optics;

/* What the stone is made of. */
typedef struct lw_picture_stone {
    const lw_material
        *material; /* the mean over its rays counts; NULL: the same index throughout */
    double index;  /* without a material; >= 1, asserted */
    lw_absorption absorption;
    double mm; /* of a length of the solid; > 0 where it has a colour, asserted */
} lw_picture_stone;

/* Whether anything differs between wavelengths: the index, the absorption or what glows. */
bool lw_picture_has_colour(const lw_picture_stone *stone, const lw_surroundings *surroundings);

/* bands: 1..LW_SPECTRUM_MOST_BANDS. The card lies square to the eye in the surroundings given (they
 * should be those of the stone untilted, so that a stone that is rocked does not change the
 * exposure). LW_BAD_INPUT when the material has no index at some wavelength. */
lw_status lw_picture_optics_make(const lw_picture_stone *stone, const lw_surroundings *surroundings,
                                 int bands, lw_picture_optics *out);

/* The card as the eye sees it; the white of daylight, with Y = 1, where no light falls on it. */
lw_xyz lw_picture_card(const lw_picture_optics *optics);

/* What the radiance of each patch, and last the head's, is multiplied by at one band. */
typedef struct lw_picture_scale {
    double of[LW_LIGHT_MOST_PATCHES + 1];
} lw_picture_scale;

/* scale: [bands->count]. */
void lw_picture_glows(const lw_surroundings *surroundings, const lw_bands *bands,
                      lw_picture_scale scale[]);

#endif
