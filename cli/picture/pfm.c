#include "picture/pfm.h"

#include "light/picture/picture.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void put_float(uint8_t *to, double value)
{
    float narrow = (float)value;
    uint32_t bits;
    memcpy(&bits, &narrow, sizeof bits);
    for (int i = 0; i < 4; i++) {
        to[i] = (uint8_t)(bits >> (8 * i));
    }
}

static void put_pixel(uint8_t *to, const float *xyz)
{
    lw_rgb rgb = lw_rgb_from_xyz((lw_xyz){(double)xyz[0], (double)xyz[1], (double)xyz[2]});
    put_float(to, rgb.red);
    put_float(to + 4, rgb.green);
    put_float(to + 8, rgb.blue);
}

bool picture_pfm(const float *numbers, int width, int height, picture_bytes *out)
{
    char head[64];
    size_t head_length = (size_t)snprintf(head, sizeof head, "PF\n%d %d\n-1.0\n", width, height);
    size_t count = (size_t)width * (size_t)height;
    uint8_t *bytes = malloc(head_length + 12 * count);
    if (bytes == NULL) {
        return false;
    }
    memcpy(bytes, head, head_length);
    uint8_t *to = bytes + head_length;
    for (int y = height - 1; y >= 0; y--) {
        for (int x = 0; x < width; x++, to += 12) {
            size_t pixel = (size_t)y * (size_t)width + (size_t)x;
            put_pixel(to, numbers + pixel * LW_PICTURE_NUMBERS);
        }
    }
    *out = (picture_bytes){bytes, head_length + 12 * count};
    return true;
}
