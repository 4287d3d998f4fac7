/* png_look FILE: decodes a PNG with libpng, checks each chunk's own check, and prints
 *
 *     WIDTH HEIGHT srgb INTENT frames N mean R G B
 *
 * The means are of the bytes. A moving one must have its frames' chunks numbered through, and each
 * frame's data must unpack to a whole picture. Anything unsound ends it with 1 and a word. */
#include <png.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

enum { MOST_BYTES = 64 << 20 };

static int unsound(const char *what)
{
    printf("unsound: %s\n", what);
    return 1;
}

typedef struct look {
    uint8_t *bytes, *packed;
    size_t length, packed_length;
    uint32_t width, height, frames, seen, sequence;
    int intent; /* -1: no sRGB chunk */
    bool data_begun;
} look;

/* The data of a frame, unpacked: a byte before each row of 3 a pixel. */
static bool unpacks(const look *l)
{
    uLongf room = (uLongf)l->height * (1 + 3 * (uLongf)l->width) + 1, got = room;
    uint8_t *out = malloc(room);
    bool good = out != NULL && uncompress(out, &got, l->packed, (uLong)l->packed_length) == Z_OK &&
                got == room - 1;
    free(out);
    return good;
}

static bool end_frame(look *l)
{
    bool good = l->packed_length == 0 || unpacks(l);
    l->packed_length = 0;
    return good;
}

static bool is_next(look *l, const uint8_t *data)
{
    return png_get_uint_32(data) == l->sequence++;
}

static void keep(look *l, const uint8_t *data, size_t length)
{
    memcpy(l->packed + l->packed_length, data, length);
    l->packed_length += length;
}

static bool take_chunk(look *l, const char *name, const uint8_t *data, size_t length)
{
    if (strcmp(name, "IHDR") == 0) {
        l->width = png_get_uint_32(data);
        l->height = png_get_uint_32(data + 4);
    } else if (strcmp(name, "sRGB") == 0) {
        l->intent = length == 1 && !l->data_begun ? data[0] : -1;
    } else if (strcmp(name, "acTL") == 0) {
        l->frames = png_get_uint_32(data);
        return !l->data_begun;
    } else if (strcmp(name, "fcTL") == 0) {
        l->seen++;
        return is_next(l, data) && png_get_uint_32(data + 4) == l->width && end_frame(l);
    } else if (strcmp(name, "IDAT") == 0) {
        l->data_begun = true;
        keep(l, data, length);
    } else if (strcmp(name, "fdAT") == 0) {
        keep(l, data + 4, length - 4);
        return is_next(l, data);
    } else if (strcmp(name, "IEND") == 0) {
        return end_frame(l) && l->seen == l->frames;
    }
    return true;
}

static bool take_chunks(look *l)
{
    size_t at = 8;
    bool ended = false;
    while (at + 12 <= l->length) {
        size_t length = png_get_uint_32(l->bytes + at);
        if (length > l->length - at - 12 || ended)
            return false;
        char name[5] = {0};
        memcpy(name, l->bytes + at + 4, 4);
        uLong check = crc32(crc32(0, NULL, 0), l->bytes + at + 4, (uInt)(length + 4));
        if (check != png_get_uint_32(l->bytes + at + 8 + length) ||
            !take_chunk(l, name, l->bytes + at + 8, length))
            return false;
        ended = strcmp(name, "IEND") == 0;
        at += 12 + length;
    }
    return ended && at == l->length;
}

static bool decode(const look *l, double mean[3])
{
    png_image image = {.version = PNG_IMAGE_VERSION};
    if (!png_image_begin_read_from_memory(&image, l->bytes, l->length))
        return false;
    image.format = PNG_FORMAT_RGB;
    uint8_t *rgb = malloc(PNG_IMAGE_SIZE(image));
    bool good = rgb != NULL && png_image_finish_read(&image, NULL, rgb, 0, NULL) != 0;
    size_t pixels = (size_t)image.width * image.height;
    for (size_t i = 0; good && i < 3 * pixels; i++)
        mean[i % 3] += rgb[i] / (double)pixels;
    free(rgb);
    return good;
}

int main(int argc, char **argv)
{
    static const uint8_t signature[8] = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'};
    look l = {.bytes = malloc(MOST_BYTES), .packed = malloc(MOST_BYTES), .intent = -1};
    FILE *file = argc == 2 ? fopen(argv[1], "rb") : NULL;
    if (file == NULL || l.bytes == NULL || l.packed == NULL)
        return unsound("no file");
    l.length = fread(l.bytes, 1, MOST_BYTES, file);
    (void)fclose(file);
    double mean[3] = {0};
    if (l.length < 8 || memcmp(l.bytes, signature, 8) != 0)
        return unsound("no PNG");
    if (!take_chunks(&l))
        return unsound("chunks");
    if (!decode(&l, mean))
        return unsound("libpng refuses it");
    printf("%u %u srgb %d frames %u mean %.2f %.2f %.2f\n", l.width, l.height, l.intent, l.frames,
           mean[0], mean[1], mean[2]);
    free(l.bytes);
    free(l.packed);
    return 0;
}
