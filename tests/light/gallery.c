#include "light/gallery.h"

#include "light/near.h"

#include <stdlib.h>

gallery gallery_of(const shape *stone, int size)
{
    gallery g = {.stone = stone,
                 .place = lw_light_place_even_sky(),
                 .made_of = {.index = 1.77},
                 .bands = 1,
                 .fill = 0.9,
                 .picture = lw_picture_defaults(size, size)};
    g.picture.samples = g.picture.most_samples = 1;
    return g;
}

static void make_scene(gallery *g)
{
    g->around = lw_picture_posed(&g->place, &g->pose, -1.0, &g->picture.right);
    lw_picture_optics optics;
    assert_int_equal(lw_picture_optics_make(&g->made_of, &g->around, g->bands, &optics), LW_OK);
    lw_picture_extent extent =
        lw_picture_extent_of(&g->stone->optic, g->around.eye, g->picture.right);
    lw_picture_frame(&g->picture, g->around.eye, &extent, g->fill);
    lw_status status = lw_picture_scene_make(&g->stone->memory, &g->stone->optic, &g->picture,
                                             &optics, &g->around, &g->scene);
    assert_int_equal(status, LW_OK);
}

static int least(int a, int b)
{
    return a < b ? a : b;
}

void gallery_trace(gallery *g, int tile)
{
    lw_memory memory = lw_memory_standard();
    gallery_destroy(g);
    make_scene(g);
    size_t stride = (size_t)g->picture.width * LW_PICTURE_NUMBERS;
    g->numbers = malloc((size_t)g->picture.height * stride * sizeof *g->numbers);
    lw_picture_room *room;
    assert_int_equal(lw_picture_room_make(&memory, &room), LW_OK);
    for (int y = 0; y < g->picture.height; y += tile) {
        for (int x = 0; x < g->picture.width; x += tile) {
            lw_picture_tile part = {x, y, least(tile, g->picture.width - x),
                                    least(tile, g->picture.height - y)};
            lw_picture_trace(&g->scene, room, &part,
                             g->numbers + (size_t)y * stride + (size_t)x * LW_PICTURE_NUMBERS,
                             stride);
        }
    }
    lw_picture_room_destroy(&memory, room);
}

void gallery_destroy(gallery *g)
{
    free(g->numbers);
    g->numbers = NULL;
    lw_picture_scene_destroy(&g->stone->memory, &g->scene);
}

const float *gallery_pixel(const gallery *g, int x, int y)
{
    return g->numbers + ((size_t)y * (size_t)g->picture.width + (size_t)x) * LW_PICTURE_NUMBERS;
}
