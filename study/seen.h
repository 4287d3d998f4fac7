/* How a stone looks as it is held and rocked in the hand: measures of light over a few poses.
 *
 * A stone that is looked at is never still. What shines from straight above alone, at angles that
 * happen to fit, is of little use; so measures may be taken straight from above and with the eye
 * tilted by rock_deg toward a few sides. The view from above counts half, the tilted ones share the
 * other half.
 */
#ifndef LW_STUDY_SEEN_H
#define LW_STUDY_SEEN_H

#include "cut/cut.h"
#include "light/measures.h"

typedef struct lw_look {
    lw_light_options light;    /* tilt_deg and turn_deg are not read */
    double rock_deg;           /* 0: straight from above alone */
    double tilt_deg, turn_deg; /* instead of that: one pose, where tilt_deg is above 0 */
} lw_look;

/* From the look's poses, each the weighted mean of what light/measures.h calls so. */
typedef struct lw_seen {
    double brightness, glare, window, leak, extinction, contrast, fire_deg;
    double error_est; /* of brightness */
} lw_seen;

/* Fails as lw_light_measure. fold: of the cut. */
lw_status lw_look_at(const lw_memory *memory, const lw_polyhedron *solid, int fold,
                     const lw_look *look, lw_seen *out);

/* The largest window over the sides that a stone of this fold is tilted toward; tilt_deg 0: from
 * straight above. */
lw_status lw_look_for_window(const lw_memory *memory, const lw_polyhedron *solid, int fold,
                             const lw_look *look, double tilt_deg, double *out);

/* The window counts as open from this share of the face: a spot of a tenth of the width. */
#define LW_WINDOW_OPENS 0.01

/* The sides: azimuths evenly over what symmetry leaves different, from tooth 0 on. Two where the
 * stone repeats (toward a repeat's beginning and its middle), else four. */
enum { LW_LOOK_MOST_SIDES = 4 };
int lw_look_sides(int fold, double turn_deg[LW_LOOK_MOST_SIDES]);

#endif
