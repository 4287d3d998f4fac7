/* Rotations for a search: turning by a vector, the turns of a cube, and an even spread of all. */
#ifndef LW_ROUGH_TURN_H
#define LW_ROUGH_TURN_H

#include "geom/vec.h"

/* A unit quaternion, w first. */
typedef struct lw_turn {
    double w, x, y, z;
} lw_turn;

/* Turns by |v| radians about v. */
lw_turn lw_turn_by(lw_vec3 v);
/* First b, then a; of length 1 again to the last bits. */
lw_turn lw_turn_after(lw_turn a, lw_turn b);
void lw_turn_matrix(lw_turn turn, double rotation[9]);

enum { LW_TURN_AXIS_COUNT = 48 };
/* The stone's axis along each of the six ways of the three axes, with eight turns about it, an
 * eighth apart; 0 <= i < LW_TURN_AXIS_COUNT, 0 being no turn at all. */
lw_turn lw_turn_axis(int i);

/* Number i of count rotations spread evenly over all: M. Alexa, "Super-Fibonacci Spirals: Fast,
 * Low-Discrepancy Sampling of SO(3)", CVPR 2022, with its two constants (from memory). */
lw_turn lw_turn_spread(int i, int count);

#endif
