#include "whole_picture.h"

#include <assert.h>

typedef struct work {
    const lw_picture_scene *scene;
    int tile, across; /* a tile's side; how many lie side by side */
    float *out;
    lw_picture_room *rooms[LW_PARALLEL_MOST];
} work;

static int least(int a, int b)
{
    return a < b ? a : b;
}

static lw_status trace_tile(void *context, int piece, int worker)
{
    work *w = context;
    const lw_picture *picture = &w->scene->picture;
    lw_picture_tile tile = {.x = piece % w->across * w->tile, .y = piece / w->across * w->tile};
    tile.width = least(w->tile, picture->width - tile.x);
    tile.height = least(w->tile, picture->height - tile.y);
    size_t stride = (size_t)picture->width * LW_PICTURE_NUMBERS;
    float *at = w->out + (size_t)tile.y * stride + (size_t)tile.x * LW_PICTURE_NUMBERS;
    lw_picture_trace(w->scene, w->rooms[worker], &tile, at, stride);
    return LW_OK;
}

lw_status lw_picture_trace_tiles(const lw_memory *memory, const lw_parallel *how,
                                 const lw_picture_scene *scene, int tile, float *out)
{
    assert(tile >= 1 && tile <= LW_PICTURE_TILE);
    work w = {.scene = scene, .tile = tile, .out = out};
    w.across = (scene->picture.width + tile - 1) / tile;
    int down = (scene->picture.height + tile - 1) / tile;
    lw_parallel mine = *how;
    mine.threads = how->threads > 0 ? how->threads : lw_parallel_processors();
    mine.threads = least(least(mine.threads, LW_PARALLEL_MOST), w.across * down);
    lw_status status = LW_OK;
    int made = 0;
    while (status == LW_OK && made < mine.threads) {
        status = lw_picture_room_make(memory, &w.rooms[made]);
        made += status == LW_OK;
    }
    if (status == LW_OK)
        status = lw_parallel_do(&mine, w.across * down, trace_tile, &w);
    while (made > 0)
        lw_picture_room_destroy(memory, w.rooms[--made]);
    return status;
}

lw_status lw_picture_trace_all(const lw_memory *memory, const lw_parallel *how,
                               const lw_picture_scene *scene, float *out)
{
    return lw_picture_trace_tiles(memory, how, scene, LW_PICTURE_TILE, out);
}

lw_picture_summary lw_picture_summarise(const lw_picture_scene *scene, const float *numbers)
{
    size_t count = (size_t)scene->picture.width * (size_t)scene->picture.height;
    double cover = 0.0, light = 0.0;
    for (size_t i = 0; i < count; i++) {
        const float *pixel = numbers + i * LW_PICTURE_NUMBERS;
        double here = (double)pixel[LW_PICTURE_COVER];
        cover += here;
        light += (double)pixel[1] - (1.0 - here) * scene->background.y;
    }
    return (lw_picture_summary){.cover = cover / (double)count,
                                .radiance = cover > 0.0 ? light / cover : 0.0};
}
