/* Embree 3 on the same stone and the same rays. */
#ifndef LW_BENCH_EXIT_PEER_H
#define LW_BENCH_EXIT_PEER_H

#include "exit_rays.h"

typedef struct exit_peer exit_peer;

/* The stone as triangles, built for speed of tracing; NULL when Embree will not. */
exit_peer *exit_peer_new(const exit_stone *stone, const exit_rays *rays);
void exit_peer_free(exit_peer *peer);

/* The first count rays (a multiple of 16) once, 1, 8 or 16 at a time. */
void exit_peer_run(exit_peer *peer, int wide, int count);
/* The facet that ray i hit in the last run of that width, and how far on; -1 when none. */
int exit_peer_facet(const exit_peer *peer, int wide, int i, float *length);

#endif
