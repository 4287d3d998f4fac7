/* The colour of a stone by its thickness.
 *
 * A cutter knows a material by the colour that a piece of a certain thickness has in daylight. From
 * that an absorption by wavelength is made, smooth and nowhere below nothing, such that D65 through
 * that thickness (what is reflected at its faces left out) has that colour: Lambert's law,
 * transmittance = exp(-absorption x length). A thinner piece is paler, a thicker one darker and
 * often of another hue, as real ones are.
 *
 * Method: the transmittance is the sigmoid of a quadratic in the wavelength, whose three
 * coefficients are solved for (W. Jakob and J. Hanika, A Low-Dimensional Function Space for
 * Efficient Spectral Upsampling, Computer Graphics Forum 38(2), 2019). Pure.
 */
#ifndef LW_LIGHT_ABSORPTION_H
#define LW_LIGHT_ABSORPTION_H

#include "light/spectrum.h"

/* Zero-initialised: clear. */
typedef struct lw_absorption {
    bool coloured;
    double a, b, c;      /* transmittance = s(a t^2 + b t + c), t = 0..1 over 380..780 nm,
                            s(x) = 1/2 + x / (2 sqrt(1 + x^2)) */
    double thickness_mm; /* that has it */
} lw_absorption;

/* From a linear sRGB colour, each component 0..1, at a thickness > 0; met to LW_SAME_COLOUR. White
 * is clear; every other colour but black has a spectrum. LW_BAD_INPUT for a component out of range
 * or not finite, or a thickness that is not > 0 and finite; LW_NO_SOLUTION for black, and were a
 * colour not found. */
lw_status lw_absorption_from_colour(lw_rgb colour, double thickness_mm, lw_absorption *out);

/* "RRGGBB" or "#RRGGBB", sRGB as pictures have it. LW_BAD_INPUT. */
lw_status lw_colour_read(const char *text, lw_rgb *out);

/* Per millimetre, >= 0, at a wavelength in 380..780 nm (asserted). */
double lw_absorption_at(const lw_absorption *absorption, double nm);

/* What D65 through a length, >= 0, looks like, white = 1. */
lw_xyz lw_absorption_colour(const lw_absorption *absorption, double length_mm);

#endif
