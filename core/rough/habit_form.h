/* Inside the room: the half-spaces of each habit. */
#ifndef LW_ROUGH_HABIT_FORM_H
#define LW_ROUGH_HABIT_FORM_H

#include "rough/habit.h"

enum {
    LW_FORM_SECTORS = 24,      /* of a worn outline; a multiple of four, so that the axes are met */
    LW_FORM_QUARTER_BANDS = 6, /* from the middle of a worn piece to its top */
    LW_FORM_MOST_FACES = LW_FORM_SECTORS * 2 * LW_FORM_QUARTER_BANDS + 1
};

typedef struct lw_form {
    int count;
    lw_rough_face faces[LW_FORM_MOST_FACES];
    bool has_c;
    lw_vec3 c_axis;
} lw_form;

/* Fills form; readings are already known to be sound. */
void lw_form_make(lw_habit habit, const lw_readings *readings, lw_form *form);

/* cos and sin of the angle between c and the normal of the point's faces (quartz, r) and of the
 * cleavage (calcite). */
#define LW_FORM_QUARTZ_R_DEG 51.79
#define LW_FORM_CALCITE_R_DEG 44.61

#endif
