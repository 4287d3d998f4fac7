/* What tilting does to a stone: its light over all directions that an eye may look from, and the
 * window that opens.
 *
 * A window shows where its measure (light/measures.h) comes to LW_WINDOW_SHOWS of the face. It
 * hangs on the first surface inside alone, so that it is found by beams followed no further,
 * exactly. Directions that the symmetry of stone and surroundings makes alike are worked out once.
 */
#ifndef LW_STUDY_TILT_H
#define LW_STUDY_TILT_H

#include "light/measures.h"
#include "parallel.h"

/* Share of the face from which on a window is called one (ours: a patch of a tenth of the width
 * each way). */
#define LW_WINDOW_SHOWS 0.01

/* tilt_deg and turn_deg of look are not read. Zero-initialise, then fill in. */
typedef struct lw_tilt_request {
    const lw_polyhedron *solid;
    lw_light_options look;
    double most_deg;      /* > 0, below 90 */
    double tilt_step_deg; /* between rings; > 0 */
    int spokes;           /* directions around, 1..LW_TILT_MOST_SPOKES, evenly from turn 0 */
} lw_tilt_request;

enum { LW_TILT_MOST_SPOKES = 720, LW_TILT_MOST_RINGS = 360 };

/* A ring holds one tilt; ring 0 is face-up, whose spokes are all the same. */
typedef struct lw_tilt_map {
    lw_memory memory;
    int rings, spokes;
    double *tilt_deg;         /* [rings], from 0 to most_deg */
    lw_light_measures *light; /* [rings * spokes], ring by ring; turn = 360 spoke / spokes */
} lw_tilt_map;

/* In pieces over threads. LW_BAD_INPUT; errors of lw_light_measure; LW_CANCELLED. Destroy takes a
 * zeroed one, and twice. */
lw_status lw_tilt_map_make(const lw_memory *memory, const lw_tilt_request *request,
                           const lw_parallel *how, lw_tilt_map *out);
void lw_tilt_map_destroy(lw_tilt_map *map);

/* Mean over a ring of a measure that lies at offset in lw_light_measures (offsetof). */
double lw_tilt_ring_mean(const lw_tilt_map *map, int ring, size_t offset);

/* How far the means over every other direction and over the rest lie apart: near 0 where a mean of
 * so many directions tells anything. Under small lamps a stone flashes, and it does not. */
double lw_tilt_ring_unsettled(const lw_tilt_map *map, int ring, size_t offset);
/* A mean is told where that is at most this (ours). */
#define LW_TILT_SETTLED 0.03

/* When and where a window opens. */
typedef struct lw_tilt_window {
    bool opens;          /* within most_deg */
    double clear_to_deg; /* up to this tilt no direction shows one, within LW_TILT_CLEAR_DEG;
                            most_deg when none opens */
    double turn_deg;     /* the direction in which it opens first */
    double share;        /* of the face, at opening + LW_TILT_BEYOND_DEG in that direction … */
    int plane;      /* … where it is seen most of all through this plane of the polyhedron … */
    int behind;     /* … and where light leaves most of all by this one */
    double face_up; /* share of the face straight from above */
} lw_tilt_window;
#define LW_TILT_CLEAR_DEG 0.05
#define LW_TILT_BEYOND_DEG 3.0

/* Over request->spokes directions. Errors as above. */
lw_status lw_tilt_window_find(const lw_memory *memory, const lw_tilt_request *request,
                              lw_tilt_window *out);

#endif
