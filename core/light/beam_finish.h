/* What is left of beams, taken to its end by two rays each, many side by side. For beam*.c alone.
 */
#ifndef LW_LIGHT_BEAM_FINISH_H
#define LW_LIGHT_BEAM_FINISH_H

#include "light/beam_parts.h"
#include "light/wide/trace.h"

typedef struct lw_finisher {
    const lw_beam_job *job;
    const lw_beam_watch *watch;
    lw_memory memory;
    lw_lanes lanes;
    lw_wide_solid solid;
    struct lw_leftovers *waiting;
    int count;
    long rays;
} lw_finisher;

lw_status lw_finisher_make(const lw_memory *memory, const lw_beam_job *job,
                           const lw_beam_watch *watch, lw_finisher *out);
void lw_finisher_destroy(lw_finisher *finisher);

/* A beam as its last surface left it; middle: of its piece there; aside: another point of the
 * piece, about as far out as most of it lies; left: share of its light that has not been absorbed.
 * The watcher is told of its end then or later. */
void lw_finisher_add(lw_finisher *finisher, const lw_beam *beam, lw_vec3 middle, lw_vec3 aside,
                     double left);
void lw_finisher_flush(lw_finisher *finisher);

#endif
