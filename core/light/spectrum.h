/* Light by wavelength, and what the eye makes of it.
 *
 * Sources: colour-matching functions of the CIE 1931 standard observer (2 degrees), ISO/CIE
 * 11664-1; illuminant D65, ISO/CIE 11664-2; sRGB, IEC 61966-2-1. Wavelengths in nanometres,
 * 380..780. Pure; safe from any thread.
 */
#ifndef LW_LIGHT_SPECTRUM_H
#define LW_LIGHT_SPECTRUM_H

#include "base/status.h"
#include "light/surroundings.h"

#include <stdint.h>

#define LW_SPECTRUM_FROM_NM 380.0
#define LW_SPECTRUM_TO_NM 780.0
enum { LW_SPECTRUM_MOST_BANDS = 81 };

/* CIE XYZ; Y = 1 is the white that the light in question makes. */
typedef struct lw_xyz {
    double x, y, z;
} lw_xyz;

/* Linear-light sRGB components (D65 white = 1, 1, 1), not limited to 0..1. */
typedef struct lw_rgb {
    double red, green, blue;
} lw_rgb;

/* The observer and D65 at a wavelength, linear between the 5 nm of the tables; 0 outside. */
lw_xyz lw_observer_at(double nm);
double lw_daylight_at(double nm); /* as tabulated: 100 at 560 nm */

/* What a glow shines with at a wavelength, 1 at 560 nm. */
double lw_glow_at(lw_glow glow, double kelvin, double nm);

/* The colour of a glow whose radiance at 560 nm is 1; daylight's has Y = 1. */
lw_xyz lw_glow_colour(lw_glow glow, double kelvin);

/* A spectrum cut into bands for tracing: band i is traced at nm[i], and a radiance r[i] relative to
 * a white of daylight (r = 1 in every band) adds r[i] weight[i] to the colour seen. Weights add up
 * to D65's own white with Y = 1.
 *
 * Every 5 nm of the tables is shared between the two bands beside it, by its distances from them:
 * right for a radiance that runs straight from band to band. Bands lie more closely where the eye
 * sees more, so that few do; docs/colour.md has the errors of 8, 16 and 32. */
typedef struct lw_bands {
    int count;
    double nm[LW_SPECTRUM_MOST_BANDS];
    lw_xyz weight[LW_SPECTRUM_MOST_BANDS];
} lw_bands;

/* count bands, 1..LW_SPECTRUM_MOST_BANDS (asserted), by rising wavelength; 1 gives yellow-green
 * light for a picture without colour, whose weight is the whole white; 81 are the tables
 * themselves. */
lw_bands lw_bands_make(int count);

/* A glow relative to daylight of the same radiance at 560 nm, band by band: glow over D65, as the
 * tables seen through band i have them. out: [count]. */
void lw_bands_glow(const lw_bands *bands, lw_glow glow, double kelvin, double out[]);

lw_rgb lw_rgb_from_xyz(lw_xyz colour);
lw_xyz lw_xyz_from_rgb(lw_rgb colour);
/* The transfer function of sRGB, 0..1 to 0..1, clamped; and its inverse. */
double lw_srgb_encode(double linear);
double lw_srgb_decode(double encoded);
/* 8-bit sRGB, rounded to nearest; out of gamut colours are moved toward grey of the same luminance
 * until they fit. */
void lw_srgb_bytes(lw_rgb colour, uint8_t out[3]);

#endif
