/* What stands around the stone: how bright each direction is, seen from it.
 *
 * Frame: the stone's (z up through the table). The default and so far the only surroundings: an
 * even sky of radiance 1 above the girdle plane, nothing below it, and the viewer's head, a cone
 * around the eye, dark. The eye is far away; tilting the stone under it is told by moving the eye:
 * the sky stays with the stone, the head goes with the eye.
 */
#ifndef LW_LIGHT_SURROUNDINGS_H
#define LW_LIGHT_SURROUNDINGS_H

#include "geom/vec.h"

#include <stdbool.h>

typedef struct lw_surroundings {
    lw_vec3 eye;     /* direction from the stone to the eye, length 1 */
    double cos_head; /* of the head's half-angle; above 1 when there is no head */
} lw_surroundings;

/* The direction to an eye tilted tilt_deg from the table's normal (0..180) toward the azimuth
 * turn_deg, counter-clockwise from +x as seen from the table. */
lw_vec3 lw_eye_direction(double tilt_deg, double turn_deg);

/* head_deg: half-angle, 0..90; 0 takes no head out. */
lw_surroundings lw_surroundings_even_sky(lw_vec3 eye, double head_deg);

/* Whether a direction (length 1, away from the stone) ends on the head. */
bool lw_surroundings_is_head(const lw_surroundings *surroundings, lw_vec3 direction);

/* Radiance in a direction, 0..1. */
double lw_surroundings_radiance(const lw_surroundings *surroundings, lw_vec3 direction);

#endif
