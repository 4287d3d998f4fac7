/* The stone as it comes to be: out of a preform a little larger than itself, step after step.
 *
 * Frame and unit of the stone. The preform is upright, flat at both ends, and follows the finished
 * outline at a distance; it is there so that a half-cut stone can be drawn and so that it is known
 * what a caliper can read of it. Its planes come first in the solid (preform of them), the stone's
 * facets after them in their order.
 */
#ifndef LW_SHEET_REPLAY_H
#define LW_SHEET_REPLAY_H

#include "cut/stone.h"

typedef struct lw_replay {
    lw_memory memory;
    const lw_cut *cut;
    const lw_stone *stone;
    lw_solid *solid;
    int preform;         /* planes of the preform: its sides, then its bottom, then its top */
    int done;            /* steps cut so far */
    lw_polyhedron shape; /* as it stands; lasts until the next step */
    lw_facet *facets;    /* the preform's planes as facets, then the stone's */
    double needs_height; /* of the preform, bare: with the points that are cut away again */
} lw_replay;

/* The preform, nothing cut. cut and stone must outlive it. LW_NO_MEMORY, LW_TOO_LARGE. Destroy
 * takes a zeroed one, and twice. */
lw_status lw_replay_init(lw_replay *replay, const lw_memory *memory, const lw_cut *cut,
                         const lw_stone *stone);
void lw_replay_destroy(lw_replay *replay);

/* Cuts the next step (nothing for an action). */
lw_status lw_replay_next(lw_replay *replay);

/* What of the stone can be measured now, in the unit; 0 where it cannot be. */
typedef struct lw_bench_size {
    double width, length, diameter; /* across the girdle, once nothing of the preform is outside */
    double pavilion;                /* girdle's lower edge to the point or keel */
    double girdle_thick, girdle_thin; /* once both sides come to the girdle */
    double crown;                     /* girdle's upper edge to the top */
    double depth;                     /* from end to end, once both ends are the stone's own */
    double table, culet;              /* least width of the level facet, once it is cut */
} lw_bench_size;

lw_bench_size lw_replay_size(const lw_replay *replay);

#endif
