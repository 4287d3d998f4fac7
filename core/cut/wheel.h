/* Whether a cut can be indexed on another wheel.
 *
 * Tooth t of a wheel of N stands at t M / N on a wheel of M. The whole stone may be turned on its
 * dop by any amount before the first facet, which adds one offset to every tooth: a cut fits when
 * all its teeth leave the same fraction. Counting in the other sense, or turning the stone over,
 * makes t to -t and leaves equal fractions equal, so the answers here hold for both.
 *
 * Whole teeth are worked out exactly (t M mod N is whole); fractions of teeth, which come from
 * stretched outlines and free teeth, are compared within LW_SAME_TOOTH.
 *
 * Pure functions. A cut's teeth are at most LW_CUT_MOST_FACETS; wheels have
 * 1..LW_CUT_MOST_TEETH teeth: asserted.
 */
#ifndef LW_CUT_WHEEL_H
#define LW_CUT_WHEEL_H

#include "cut/stone.h"

/* The wheels that are commonly to be had, most common first: 96 64 80 120 72 77 84 88 108 60 32.
 * Source: common practice. */
enum { LW_WHEEL_COMMON = 11 };
extern const int lw_wheels_common[LW_WHEEL_COMMON];

/* How many positions two wheels share: the greatest common divisor of their teeth. */
int lw_wheel_shared(int one, int other);

/* Where tooth t of a wheel of `from` teeth stands on one of `to`, in teeth of that one, 0 <= result
 * < to. Exact where it is whole; within LW_SAME_TOOTH of a whole tooth it is that tooth. */
double lw_wheel_tooth(double tooth, int from, int to);

/* How a cut's teeth fit a wheel. */
typedef struct lw_wheel_fit {
    int wheel;
    bool whole;      /* every tooth is there, once the stone is turned by offset */
    double offset;   /* in teeth of this wheel, 0 <= offset < 1; 0 whenever that does as well */
    int whole_count; /* how many of the teeth are whole */
    double greatest_cheater_deg;
} lw_wheel_fit;

/* The fit of teeth[0 .. count - 1], stated for a wheel of `from`, on a wheel of `to`. Where no
 * turn makes every tooth whole the stone is not turned: the cut keeps its own tooth 0 and its
 * mirror, and the cheater takes what is left. count may be 0. */
void lw_wheel_fit_teeth(const double *teeth, int count, int from, int to, lw_wheel_fit *out);

/* The same for all facets of a solved stone that are not level, temporary ones too; from is the
 * cut's wheel. */
void lw_wheel_fit_stone(const lw_stone *stone, int from, int to, lw_wheel_fit *out);

/* The common wheels, in their order, on which the stone's teeth are all whole. Gives how many. */
int lw_wheels_that_do(const lw_stone *stone, int from, int wheels[LW_WHEEL_COMMON]);

#endif
