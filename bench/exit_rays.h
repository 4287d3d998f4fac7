/* Bounce rays in a stone, for benchmarks of the nearest exit: native and as WebAssembly. */
#ifndef LW_BENCH_EXIT_RAYS_H
#define LW_BENCH_EXIT_RAYS_H

#include "geom/solid.h"
#include "light/wide/trace.h"

/* EXIT_FEW of them, done over and over, are few enough for a processor to learn their branches by
 * heart, as never happens to rays that are new; EXIT_RAYS are too many. */
enum { EXIT_RAYS = 16384, EXIT_FEW = 1024, EXIT_MOST_FACETS = 2000 };

typedef struct exit_stone {
    lw_solid *workshop;
    lw_polyhedron polyhedron;
    lw_optic_solid optic;
    lw_wide_solid wide;
} exit_stone;

/* Ends the program when it cannot. */
void exit_stone_make(const lw_plane *planes, int count, exit_stone *out);
void exit_stone_destroy(exit_stone *stone);

/* Rays that came in from anywhere and have been returned up to 20 times inside, in no order:
 * x, y, z relative to the stone's middle, then dx, dy, dz. */
typedef struct exit_rays {
    _Alignas(64) float part[6][EXIT_RAYS];
} exit_rays;

void exit_rays_make(const exit_stone *stone, exit_rays *out);

/* A stone of tiers of 16 facets, each its own image in eight planes; count is rounded to fit. */
int exit_tiers(int count, lw_plane planes[EXIT_MOST_FACETS]);

#endif
