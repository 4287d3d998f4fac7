/* Pictures of stones for the tests: a stone, what it is looked at in, and the numbers that come of
 * it. */
#ifndef LW_TESTS_LIGHT_GALLERY_H
#define LW_TESTS_LIGHT_GALLERY_H

#include "light/picture/picture.h"
#include "light/picture/pose.h"
#include "light/shape.h"

typedef struct gallery {
    const shape *stone;
    lw_light_place place;
    lw_picture_pose pose;
    lw_picture_stone made_of;
    int bands;
    double fill;
    lw_picture picture; /* lanes, samples and so on; right, centre and pixel are worked out */
    lw_surroundings around;
    lw_picture_scene scene;
    float *numbers; /* height x width x LW_PICTURE_NUMBERS */
} gallery;

/* The even sky, no ground, seen straight, index 1.77, one band, one ray in the middle of each
 * pixel, the best lanes; size x size pixels, filled to 0.9. */
gallery gallery_of(const shape *stone, int size);

/* Traces it in tiles of that side; may be called again. */
void gallery_trace(gallery *g, int tile);
void gallery_destroy(gallery *g);

const float *gallery_pixel(const gallery *g, int x, int y);

#endif
