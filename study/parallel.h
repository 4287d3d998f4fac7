/* Work in pieces over threads. The only place of the project that starts any.
 *
 * Pieces are numbered and independent of one another; a piece writes where its number says, so that
 * the result does not depend on how many threads there are or which does what. */
#ifndef LW_STUDY_PARALLEL_H
#define LW_STUDY_PARALLEL_H

#include "base/status.h"

#include <stdatomic.h>
#include <stdbool.h>

/* More threads than this are never started, however many are asked for. */
enum { LW_PARALLEL_MOST = 256 };

typedef struct lw_parallel {
    int threads; /* >= 1; 0: as many as the machine has processors */
    /* Set by anybody, from any thread or a signal handler, to stop before the next piece. May be
     * NULL. */
    const atomic_bool *cancel;
    /* Told from the calling thread alone, now and then, by rising numbers: pieces done so far; last
     * of all, when none failed and none is left, count of count. May be NULL. */
    void (*progress)(void *context, int done, int count);
    void *progress_context;
} lw_parallel;

/* One piece. worker: 0..threads - 1 (0 is the calling thread) and below LW_PARALLEL_MOST, so that
 * each thread may have memory of its own. A failure stops the rest. */
typedef lw_status (*lw_piece)(void *context, int piece, int worker);

/* Does pieces 0..count - 1; returns when all threads have ended. The status of the failed piece
 * with the lowest number, LW_CANCELLED when cancelled before all were done, LW_NO_MEMORY; starts
 * fewer threads where the system gives no more. */
lw_status lw_parallel_do(const lw_parallel *how, int count, lw_piece piece, void *context);

/* 1..LW_PARALLEL_MOST. */
int lw_parallel_processors(void);

#endif
