/* The four questions: closed? every facet there? every meet holding? cuttable in this order? */
#ifndef LW_CUT_CHECK_H
#define LW_CUT_CHECK_H

#include "cut/stone.h"

/* How a cutter knows when to stop. */
typedef enum lw_sight {
    LW_SIGHT_SEEN,     /* the point or line to reach is there on the stone */
    LW_SIGHT_ITSELF,   /* it makes itself as the tier comes in, like a centre point */
    LW_SIGHT_MEASURED, /* by caliper or height */
    LW_SIGHT_MATCHED,  /* like its twin, or until two edges are equal */
    LW_SIGHT_BLIND     /* nothing on the stone tells: a fault */
} lw_sight;

const char *lw_sight_text(lw_sight sight);

typedef enum lw_finding_kind {
    LW_FINDING_NOT_CLOSED,
    LW_FINDING_NO_AREA,     /* a facet that ends without an area */
    LW_FINDING_MEET_MISSED, /* facets named as meeting do not, at this tooth */
    LW_FINDING_NEAR_MISS,   /* an edge so short that the eye takes its ends for one point: note */
    LW_FINDING_BLIND,
    LW_FINDING_DOPPED_SIDE, /* a facet on the side that is held by the dop */
    LW_FINDING_TEMPORARY_STAYS,
    LW_FINDING_POINT_STAYS,   /* a temporary point still there, or a final one cut away */
    LW_FINDING_NO_ADAPTER,    /* a level facet cut without the 45 degree adapter */
    LW_FINDING_BELOW_CRITICAL /* note: an angle below the material's critical angle */
} lw_finding_kind;

/* One piece of evidence. */
typedef struct lw_finding {
    lw_finding_kind kind;
    bool fault;    /* false: a note; the cut still passes */
    int step;      /* index into cut->steps, -1 when none */
    int facet;     /* index into stone->facets, -1 when none */
    int other;     /* the second facet of a near miss, -1 when none */
    double amount; /* NEAR_MISS: edge length, MEET_MISSED: miss, in the unit; BELOW_CRITICAL: margin
                      in degrees, negative below */
} lw_finding;

typedef struct lw_check {
    lw_memory memory;
    bool closed, every_facet, every_meet, cuttable; /* the four answers */
    int step_count;
    lw_sight *sights; /* one a step; actions have LW_SIGHT_SEEN */
    int finding_count;
    lw_finding *findings;
    int near_miss_count;  /* all; findings holds the shortest LW_CHECK_MOST_NEAR */
    double shortest_edge; /* in the unit */
} lw_check;

enum { LW_CHECK_MOST_NEAR = 32 };

typedef struct lw_check_options {
    double near_miss;          /* share of the width; 0: LW_NEAR_MISS */
    double critical_angle_deg; /* of the material; 0: no material */
    double margin_deg;         /* asked for above the critical angle */
} lw_check_options;

/* Replays the stone step by step. LW_NO_MEMORY; LW_TOO_LARGE when that would be more work than any
 * stone needs. Destroy takes a zeroed one. */
lw_status lw_cut_check(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                       const lw_check_options *options, lw_check *out);
void lw_check_destroy(lw_check *check);

/* "step 4, main at tooth 12: …": one sentence for a finding, in the stone's mm where it has a size.
 * Same return as snprintf. */
size_t lw_finding_write(const lw_cut *cut, const lw_stone *stone, const lw_finding *finding,
                        char *text, size_t capacity);

#endif
