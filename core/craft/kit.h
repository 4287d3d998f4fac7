/* What a cutter has at the bench, as far as it was said.
 *
 * A group of which nothing was said is not known, and so never counts as missing: it is told as a
 * need. Plain data; nothing owned.
 */
#ifndef LW_CRAFT_KIT_H
#define LW_CRAFT_KIT_H

#include "cut/dial.h"

enum { LW_KIT_MOST = 24, LW_KIT_MOST_MESH = 200000 };

/* A wheel's teeth as a cutter may have it. */
enum { LW_KIT_LEAST_TEETH = 8, LW_KIT_MOST_TEETH = 360 };

typedef enum lw_have { LW_HAVE_UNSAID, LW_HAVE_NO, LW_HAVE_YES } lw_have;

typedef enum lw_polish {
    LW_POLISH_CERIUM = 1,  /* cerium oxide */
    LW_POLISH_ALUMINA = 2, /* aluminium oxide */
    LW_POLISH_DIAMOND = 4  /* diamond powder */
} lw_polish;

typedef struct lw_kit {
    int wheel_count;
    int wheels[LW_KIT_MOST]; /* teeth; none: not said */
    int dop_count;
    double dops_mm[LW_KIT_MOST]; /* diameters; none: not said */
    int lap_count;
    int laps[LW_KIT_MOST]; /* mesh: 260, 1200, 8000; none: not said */
    bool polishes_said;
    unsigned polishes; /* lw_polish bits */
    lw_have adapter;   /* 45 degrees, for the table */
    lw_have transfer_jig;
    lw_have cheater;  /* turns the stone by less than a tooth */
    lw_counts counts; /* which way the wheel counts */
} lw_kit;

/* The bit for "cerium", "alumina" or "diamond"; 0 for any other text. */
unsigned lw_polish_find(const char *text);
/* "cerium oxide" … for one bit: asserted. Static storage. */
const char *lw_polish_text(unsigned polish);

/* LW_BAD_INPUT, with problem (may be NULL), for a wheel outside LW_KIT_LEAST_TEETH ..
 * LW_KIT_MOST_TEETH, a dop that is not above 0 and at most 100 mm, a lap outside 10 ..
 * LW_KIT_MOST_MESH. */
lw_status lw_kit_check(const lw_kit *kit, lw_problem *problem);

#endif
