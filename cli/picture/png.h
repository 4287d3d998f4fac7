/* Pictures as PNG (ISO/IEC 15948:2004; moving ones as in its third edition, W3C 2025): 8 bits a
 * colour, marked as sRGB. A moving one shows its first frame to what knows no other. */
#ifndef LW_CLI_PICTURE_PNG_H
#define LW_CLI_PICTURE_PNG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct picture_bytes {
    uint8_t *bytes;
    size_t length;
} picture_bytes;

void picture_bytes_drop(picture_bytes *bytes);

/* One picture; rgb: height x width x 3, row 0 the top. False when memory is out. */
bool picture_png(const uint8_t *rgb, int width, int height, picture_bytes *out);

/* Frames, each a PNG made by picture_png and all of one size, one after another for ever, each for
 * hundredths of a second. False when memory is out. */
bool picture_png_moving(const picture_bytes *frames, int count, int hundredths, picture_bytes *out);

#endif
