/* The measures over a square grid of single-precision rays (light/wide/trace.h): the middles of
 * side x side pixels over the rectangle around the silhouette. A third way to the same numbers,
 * next to exact beams and rays one at a time. */
#ifndef LW_TESTS_LIGHT_WIDE_GRID_H
#define LW_TESTS_LIGHT_WIDE_GRID_H

#include "light/measures.h"

enum { WIDE_GRID_PARTS = 16 };

typedef struct wide_grid {
    long hits;
    double brightness, glare, window, leak, extinction;
    double reflected, sent, absorbed, given_up;
    double error; /* of brightness: half of the 99 % interval, from how far the means of 16
                     interleaved grids, every fourth pixel each way, part */
} wide_grid;

/* side: a multiple of 4. */
wide_grid wide_grid_look(const lw_optic_solid *solid, const lw_light_options *options, int side);

#endif
