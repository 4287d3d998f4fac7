/* A stone as Qhull finds it, for comparison with ours. */
#ifndef LW_TESTS_GEOM_PEER_STONE_H
#define LW_TESTS_GEOM_PEER_STONE_H

#include "geom/solid.h"

enum { PEER_MOST_PLANES = 512, PEER_MOST_VERTICES = 8 * PEER_MOST_PLANES };

typedef struct peer_stone {
    int vertex_count;
    lw_vec3 vertices[PEER_MOST_VERTICES];
    double area[PEER_MOST_PLANES]; /* of each plane's face, 0 without one */
    double volume;
} peer_stone;

/* Intersects the half-spaces, all of which hold the origin inside, with Qhull. Every vertex is then
 * worked out again, in long double, from the planes that Qhull says meet there (the three that are
 * best set, when there are more): Qhull's own coordinates carry the rounding of its dual, and are
 * not what is compared. Areas and volume come from those vertices, not from ours. False when Qhull
 * gives up. */
bool peer_stone_make(const lw_plane *planes, int count, peer_stone *out);

#endif
