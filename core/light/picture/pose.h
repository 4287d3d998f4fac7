/* How a stone is held while it is looked at, still or moving.
 *
 * Angles in degrees. A stone on a turn-table is held with its table tilted and turned about its own
 * axis; one that is rocked is tilted to one side and to the other, as a hand does it. Pure.
 */
#ifndef LW_LIGHT_PICTURE_POSE_H
#define LW_LIGHT_PICTURE_POSE_H

#include "light/surroundings.h"

typedef struct lw_picture_pose {
    double
        tilt_deg; /* the table's normal against the line to the eye; below 0: to the other side */
    double
        turn_deg; /* the azimuth of the stone that comes toward the eye by it, before it is spun */
    double spin_deg; /* about its own axis, counter-clockwise as seen from the table */
} lw_picture_pose;

/* Its surroundings, and what lies to the right in the picture, both in the stone's frame. The
 * picture's upright is that of the place: as the stone spins, it turns within the picture. */
lw_surroundings lw_picture_posed(const lw_light_place *place, const lw_picture_pose *pose,
                                 double head_deg, lw_vec3 *right);

/* One frame of count of a turn-table: pose with its share of a whole turn. 0 <= i < count. */
lw_picture_pose lw_picture_turntable(const lw_picture_pose *pose, int i, int count);

/* One frame of count of a stone that is rocked by reach to both sides of pose: there and back along
 * a sine, as a hand does; or, one_way, once across in even steps. */
lw_picture_pose lw_picture_rocked(const lw_picture_pose *pose, double reach_deg, bool one_way,
                                  int i, int count);

#endif
