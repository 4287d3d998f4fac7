/* The teeth of a step, and where they point. */
#ifndef LW_CUT_TEETH_H
#define LW_CUT_TEETH_H

#include "cut/cut.h"
#include "geom/angle.h"

/* One tooth that a step cuts, as the text counts, 0 <= tooth < wheel. */
typedef struct lw_tooth_image {
    double tooth;
    bool mirrored; /* it came by the mirror, so that left and right change places */
} lw_tooth_image;

/* tooth into 0 <= tooth < wheel; one within LW_SAME_TOOTH of the wheel is 0. */
double lw_tooth_wrap(double tooth, int wheel);

/* How far tooth b is above tooth a, 0 <= result < wheel. */
double lw_tooth_up(double a, double b, int wheel);

/* Whether two teeth are the same, within LW_SAME_TOOTH. */
bool lw_tooth_same(double a, double b, int wheel);

/* Sine and cosine of a tooth's azimuth; teeth that mirror one another, or stand a quarter turn
 * apart, have values that do so to the last bit. */
lw_sincos lw_tooth_sincos(double tooth, int wheel);

/* The teeth of a facet step: the list as written, or the start and its images by fold and mirror,
 * counted upward from the start, none twice. A level facet without teeth has tooth 0. Gives how
 * many there are; writes at most capacity. */
int lw_step_teeth(const lw_cut *cut, const lw_step *step, lw_tooth_image *images, int capacity);

#endif
