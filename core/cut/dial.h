/* From the stone's tooth to what is read on the machine's index wheel.
 *
 * A tooth in a cut is a place on the stone: azimuth = 360 tooth / wheel degrees, counter-clockwise
 * seen from the table. The wheel sits on the far end of the quill, behind the stone. With the
 * pavilion to the lap one looks along the quill at the stone's table side, with the crown to the
 * lap at its pavilion side: transfer turns the stone end for end, and the wheel counts the other
 * way. So on a wheel whose numbers go up counter-clockwise seen from behind,
 *
 *     pavilion  dial = tooth         crown  dial = wheel - tooth
 *
 * and on one that counts clockwise the other way about. The highest number stands for 0. A fraction
 * of a tooth is turned in with the cheater: dial number and cheater together are the place.
 *
 * Pure functions, nothing allocated. Wheels have 1..LW_CUT_MOST_TEETH teeth: asserted.
 */
#ifndef LW_CUT_DIAL_H
#define LW_CUT_DIAL_H

#include "cut/cut.h"

/* How the numbers go up round a wheel, seen from behind, the stone beyond it. */
typedef enum lw_counts {
    LW_COUNTS_COUNTER_CLOCKWISE, /* the pavilion's teeth as the cut states them */
    LW_COUNTS_CLOCKWISE          /* the crown's */
} lw_counts;

/* "counter-clockwise", "clockwise". */
const char *lw_counts_text(lw_counts counts);

/* What of a kit bears on the dial. */
typedef struct lw_dial_kit {
    int wheel;        /* teeth; the cut must be stated for this wheel */
    lw_counts counts; /* the machine's */
    double zero_at;   /* where tooth 0 stands on the dial, in teeth: 0 as long as dops and jig are
                         keyed, what a finished girdle flat shows after a transfer that is not */
} lw_dial_kit;

/* A setting of the wheel. */
typedef struct lw_dial {
    int number;         /* 1..wheel; wheel for 0 */
    double cheater_deg; /* beyond that number, positive toward higher numbers, at most half a tooth;
                           exactly 0 within LW_SAME_TOOTH */
} lw_dial;

/* Where on the dial the stone's tooth stands, 0 <= position < wheel, fractions kept. facing is the
 * side that is cut, PAVILION or CROWN (a girdle facet: the section that its step stands in):
 * asserted. */
double lw_dial_position(const lw_dial_kit *kit, lw_side facing, double tooth);

/* The nearest number and the cheater. Half way between two numbers it is the one nearer to 0 round
 * the wheel, so that teeth that mirror one another have opposite cheaters. */
lw_dial lw_dial_of(const lw_dial_kit *kit, lw_side facing, double tooth);

/* The stone's tooth that a setting of the wheel cuts, 0 <= tooth < wheel. */
double lw_dial_tooth(const lw_dial_kit *kit, lw_side facing, lw_dial dial);

/* In which order to cut the teeth of a tier: order[i] is the place in teeth[] of the i-th to cut.
 * Starts with teeth[0], which its depth is known from. An opening tier (the first of a side, which
 * has nothing to lean on) takes opposite teeth in turn, each new pair as far as may be from what is
 * cut, so that an error of centring shows early; any other goes once round the wheel, numbers
 * rising. count is at most LW_CUT_MOST_FACETS: asserted. Source: common practice. */
void lw_dial_order(const lw_dial_kit *kit, lw_side facing, const double *teeth, int count,
                   bool opening, int *order);

#endif
