/* One side of a cut, changed by the tangent ratio. Private to core/cut. */
#ifndef LW_CUT_ADAPT_SIDE_H
#define LW_CUT_ADAPT_SIDE_H

#include "cut/adapt_parts.h"

typedef struct lw_side_change {
    lw_side side;
    int main_step; /* -1: the side stays */
    double old_deg, new_deg, ratio;
} lw_side_change;

typedef struct lw_angle_job {
    const lw_cut *cut;
    const lw_stone *stone;
    lw_side_change sides[2]; /* pavilion, crown */
    lw_girdle_levels levels;
    const lw_facet *scaled; /* the stone's facets scaled, in its own frame */
    const lw_stone *image;  /* the scaled stone; NULL where the scaling is not exact */
} lw_angle_job;

/* tan new / tan old. */
double lw_tangent_ratio(double old_deg, double new_deg);

/* Changes angles and depths of the side in the edit. */
lw_status lw_edit_side(lw_edit *edit, const lw_angle_job *job, const lw_side_change *change,
                       lw_problem *problem);

#endif
