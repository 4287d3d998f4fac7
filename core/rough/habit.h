/* The shapes in which rough comes, and what three caliper readings say about each.
 *
 * Every solid here is an inner one: it reaches the readings where the jaws touched, and stays
 * inside the form that the habit names. Forms: J. D. Dana's crystal forms, common to the
 * mineralogies. Angles: the c axis of quartz makes 51.79 degrees with the normal of r (axial ratio
 * 1.1000), that of calcite 44.61 with the normal of its cleavage (published in the mineralogies;
 * from memory).
 */
#ifndef LW_ROUGH_HABIT_H
#define LW_ROUGH_HABIT_H

#include "base/problem.h"
#include "rough/rough.h"

typedef enum lw_habit {
    LW_HABIT_PEBBLE,          /* worn all over */
    LW_HABIT_HALF_PEBBLE,     /* worn, with one flat side */
    LW_HABIT_COBBED,          /* broken and trimmed: no form */
    LW_HABIT_BLOCK,           /* sawn, or a cleavage block at right angles */
    LW_HABIT_CUBE,            /* a crystal: fluorite, pyrite, spinel seldom */
    LW_HABIT_PLATE,           /* two level faces, the outline rounded */
    LW_HABIT_HEXAGONAL_PRISM, /* broken or flat at both ends */
    LW_HABIT_POINTED_PRISM,   /* one end a six-sided point */
    LW_HABIT_DOUBLE_POINTED,  /* both */
    LW_HABIT_BARREL,          /* six-sided, thickest in the middle: corundum */
    LW_HABIT_OCTAHEDRON,      /* diamond, spinel, fluorite */
    LW_HABIT_DODECAHEDRON,    /* twelve lozenges: garnet */
    LW_HABIT_TRAPEZOHEDRON,   /* twenty-four kites: garnet */
    LW_HABIT_RHOMBOHEDRON,    /* the cleavage form of calcite */
    LW_HABIT_COUNT
} lw_habit;

/* Three caliper readings, at right angles to one another but for the rhombohedron's. */
typedef struct lw_readings {
    double mm[3];
} lw_readings;

/* The least and the greatest reading that is taken for a piece of rough. */
#define LW_READING_LEAST_MM 0.5
#define LW_READING_MOST_MM 1000.0

typedef struct lw_habit_words {
    const char *key;         /* "half-pebble": what a command takes */
    const char *readings[3]; /* where the jaws go for each reading */
    const char *note;        /* what the solid is taken to be, a sentence or two */
} lw_habit_words;

/* Static storage. */
const lw_habit_words *lw_habit_describe(lw_habit habit);
/* False, with *out untouched, when no habit has that key. */
bool lw_habit_find(const char *key, lw_habit *out);

/* The solid; what the whole piece is likely to hold is the ellipsoid (or its half, or the elliptic
 * disc) for the worn ones and the plate, half the box for a cobbed one, the solid itself for the
 * others. LW_BAD_INPUT, with
 * problem (may be NULL) telling which reading, when one is outside
 * LW_READING_LEAST_MM..LW_READING_MOST_MM or the three do not go together; LW_NO_MEMORY. */
lw_status lw_habit_rough(const lw_memory *memory, lw_habit habit, const lw_readings *readings,
                         lw_rough *out, lw_problem *problem);

#endif
