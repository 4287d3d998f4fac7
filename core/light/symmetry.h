/* What a stone looks the same after, and the part of its face that stands for all of it.
 *
 * Rotations about the stone's axis (x = y = 0) and mirror planes through it. Solids are compared
 * plane by plane within LW_SAME_SHAPE.
 */
#ifndef LW_LIGHT_SYMMETRY_H
#define LW_LIGHT_SYMMETRY_H

#include "light/optic_solid.h"
#include "light/surroundings.h"

/* The same after turning by a whole turn / turns; and, where mirrored, after mirroring in the plane
 * through the axis and the horizontal direction mirror (length 1), and so in turns planes. */
typedef struct lw_symmetry {
    int turns; /* >= 1 */
    bool mirrored;
    lw_vec3 mirror;
} lw_symmetry;

lw_symmetry lw_symmetry_of_solid(const lw_optic_solid *solid);

/* What of it eye and surroundings share. */
lw_symmetry lw_symmetry_seen(const lw_symmetry *stone, const lw_surroundings *surroundings);

/* A part of space between half planes that end in the axis: p . sides[i] >= 0. copies of it, turned
 * and mirrored, make up the whole. */
typedef struct lw_wedge {
    int side_count; /* 0: all of space */
    lw_vec3 sides[2];
    int copies;
} lw_wedge;

lw_wedge lw_wedge_of(const lw_symmetry *symmetry);

/* For each facet the lowest number among those that the symmetry carries it to: of [facet_count].
 */
void lw_symmetry_orbits(const lw_optic_solid *solid, const lw_symmetry *symmetry, int of[]);

#endif
