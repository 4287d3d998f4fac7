#include "picture/png.h"

#include <assert.h>
#include <png.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

void picture_bytes_drop(picture_bytes *bytes)
{
    free(bytes->bytes);
    *bytes = (picture_bytes){0};
}

bool picture_png(const uint8_t *rgb, int width, int height, picture_bytes *out)
{
    png_image image = {.version = PNG_IMAGE_VERSION,
                       .width = (png_uint_32)width,
                       .height = (png_uint_32)height,
                       .format = PNG_FORMAT_RGB};
    png_alloc_size_t length = PNG_IMAGE_PNG_SIZE_MAX(image);
    uint8_t *bytes = malloc(length);
    if (bytes == NULL) {
        return false;
    }
    if (png_image_write_to_memory(&image, bytes, &length, 0, rgb, 0, NULL) == 0) {
        free(bytes);
        return false;
    }
    uint8_t *shorter = realloc(bytes, length);
    *out = (picture_bytes){shorter != NULL ? shorter : bytes, length};
    return true;
}

/* ---- a moving one ------------------------------------------------------- */

enum { SIGNATURE = 8, AROUND_CHUNK = 12 }; /* length, name and check of a chunk */

/* A chunk of a PNG that was made here, and so is sound. */
typedef struct chunk {
    const uint8_t *name, *data;
    size_t length;
} chunk;

static bool next_chunk(const picture_bytes *png, size_t *at, chunk *out)
{
    if (*at >= png->length) {
        return false;
    }
    const uint8_t *here = png->bytes + *at;
    *out = (chunk){here + 4, here + 8, png_get_uint_32(here)};
    *at += AROUND_CHUNK + out->length;
    assert(*at <= png->length);
    return true;
}

static bool is_named(const chunk *c, const char *name)
{
    return memcmp(c->name, name, 4) == 0;
}

/* Where to write; with bytes NULL it only counts. */
typedef struct pen {
    uint8_t *bytes;
    size_t length;
    uint32_t sequence; /* frames' chunks are numbered through */
} pen;

static void put(pen *p, const void *data, size_t length)
{
    if (p->bytes != NULL && length > 0) {
        memcpy(p->bytes + p->length, data, length);
    }
    p->length += length;
}

static void put_uint32(pen *p, uint32_t value)
{
    uint8_t bytes[4];
    png_save_uint_32(bytes, value);
    put(p, bytes, sizeof bytes);
}

static void begin_chunk(pen *p, const char *name, size_t length)
{
    put_uint32(p, (uint32_t)length);
    put(p, name, 4);
}

/* The check is over the name and the data. */
static void end_chunk(pen *p, size_t length)
{
    uLong check = crc32(0, NULL, 0);
    if (p->bytes != NULL) {
        check = crc32(check, p->bytes + p->length - length - 4, (uInt)(length + 4));
    }
    put_uint32(p, (uint32_t)check);
}

static void put_chunk(pen *p, const char *name, const void *data, size_t length)
{
    begin_chunk(p, name, length);
    put(p, data, length);
    end_chunk(p, length);
}

static void put_control(pen *p, int frames)
{
    begin_chunk(p, "acTL", 8);
    put_uint32(p, (uint32_t)frames);
    put_uint32(p, 0); /* for ever */
    end_chunk(p, 8);
}

/* size: width and height as in the header. */
static void put_frame_control(pen *p, const uint8_t size[8], int hundredths)
{
    uint8_t delay[6] = {0}; /* numerator, denominator; then: leave as is, replace */
    png_save_uint_16(delay, (unsigned)hundredths);
    png_save_uint_16(delay + 2, 100);
    begin_chunk(p, "fcTL", 26);
    put_uint32(p, p->sequence++);
    put(p, size, 8);
    put_uint32(p, 0); /* from the left … */
    put_uint32(p, 0); /* … and from the top */
    put(p, delay, sizeof delay);
    end_chunk(p, 26);
}

static void put_frame_data(pen *p, const chunk *data, bool first)
{
    if (first) {
        put_chunk(p, "IDAT", data->data, data->length);
        return;
    }
    begin_chunk(p, "fdAT", data->length + 4);
    put_uint32(p, p->sequence++);
    put(p, data->data, data->length);
    end_chunk(p, data->length + 4);
}

static void put_frame(pen *p, const picture_bytes *frame, bool first, int count, int hundredths)
{
    size_t at = SIGNATURE;
    bool controlled = false;
    uint8_t size[8] = {0};
    chunk c;
    while (next_chunk(frame, &at, &c)) {
        if (is_named(&c, "IHDR")) {
            memcpy(size, c.data, sizeof size);
            if (first) {
                put_chunk(p, "IHDR", c.data, c.length);
                put_control(p, count);
            }
        } else if (is_named(&c, "IDAT")) {
            if (!controlled) {
                put_frame_control(p, size, hundredths);
            }
            controlled = true;
            put_frame_data(p, &c, first);
        } else if (first && !is_named(&c, "IEND")) {
            begin_chunk(p, (const char *)c.name, c.length);
            put(p, c.data, c.length);
            end_chunk(p, c.length);
        }
    }
}

static void put_all(pen *p, const picture_bytes *frames, int count, int hundredths)
{
    put(p, frames[0].bytes, SIGNATURE);
    for (int i = 0; i < count; i++) {
        put_frame(p, &frames[i], i == 0, count, hundredths);
    }
    put_chunk(p, "IEND", NULL, 0);
}

bool picture_png_moving(const picture_bytes *frames, int count, int hundredths, picture_bytes *out)
{
    assert(count > 0);
    pen counting = {0};
    put_all(&counting, frames, count, hundredths);
    pen p = {.bytes = malloc(counting.length)};
    if (p.bytes == NULL) {
        return false;
    }
    put_all(&p, frames, count, hundredths);
    assert(p.length == counting.length);
    *out = (picture_bytes){p.bytes, p.length};
    return true;
}
