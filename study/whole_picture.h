/* A whole traced picture, in tiles over threads. */
#ifndef LW_STUDY_WHOLE_PICTURE_H
#define LW_STUDY_WHOLE_PICTURE_H

#include "light/picture/picture.h"
#include "parallel.h"

/* Traces all of it; out: height x width x LW_PICTURE_NUMBERS floats, row 0 the top. The same bits
 * whatever the threads. Progress counts tiles. LW_CANCELLED, LW_NO_MEMORY; out is then of no use.
 * Memory is asked for from the calling thread alone. */
lw_status lw_picture_trace_all(const lw_memory *memory, const lw_parallel *how,
                               const lw_picture_scene *scene, float *out);

/* The same in tiles of another size, 1..LW_PICTURE_TILE on a side. */
lw_status lw_picture_trace_tiles(const lw_memory *memory, const lw_parallel *how,
                                 const lw_picture_scene *scene, int tile, float *out);

/* Means over the pixels that the stone covers, by how much it covers them. */
typedef struct lw_picture_summary {
    double cover;    /* share of the picture that is stone */
    double radiance; /* mean luminance of the stone: brightness + glare; 0 without a stone */
} lw_picture_summary;

/* Pixels on the outline show the background too; its share is taken off. */
lw_picture_summary lw_picture_summarise(const lw_picture_scene *scene, const float *numbers);

#endif
