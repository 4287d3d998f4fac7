/* Radiance as it was traced, in a portable float map: the line "PF", width and height, "-1.0"
 * (least byte first), then three floats a pixel, red, green and blue, the lowest row first (the
 * format is P. Debevec's, as netpbm documents it). Linear sRGB components relative to what the
 * place calls bright; not exposed, not limited. */
#ifndef LW_CLI_PICTURE_PFM_H
#define LW_CLI_PICTURE_PFM_H

#include "picture/png.h"

/* numbers: LW_PICTURE_NUMBERS floats a pixel, row 0 the top. False when memory is out. */
bool picture_pfm(const float *numbers, int width, int height, picture_bytes *out);

#endif
