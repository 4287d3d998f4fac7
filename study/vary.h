/* The stones of a cut with other angles.
 *
 * What can be changed about a cut is a handle. Each side has one: the angle of its main step, with
 * every other angle of the side by the tangent ratio, so that every meet and the plan view stay
 * where a vertical girdle runs all round; else the cut is solved again. Beside these a cut's own
 * rules may leave more free: a setting (the table's width, the length of the lower halves), or the
 * angle of a step that is a plain number. Such a handle counts as free when moving it a little
 * either way gives a stone that is closed, has every facet, holds every meet, can be cut in this
 * order, and whose outline and girdle are what they were. That is found out by trying.
 *
 * Values are in degrees, or for a setting in its own unit as written (53 for 53 %). The width stays
 * what it was.
 */
#ifndef LW_STUDY_VARY_H
#define LW_STUDY_VARY_H

#include "cut/adapt.h"

typedef enum lw_handle_kind {
    LW_HANDLE_PAVILION,
    LW_HANDLE_CROWN,
    LW_HANDLE_SETTING,
    LW_HANDLE_STEP
} lw_handle_kind;

enum { LW_VARY_MOST = 12, LW_VARY_NAME = LW_CUT_MOST_NAME + 24 };

typedef struct lw_handle {
    lw_handle_kind kind;
    int which;               /* the setting; else the step, of a side its main one */
    lw_unit unit;            /* that values are stated in */
    double start;            /* as the cut stands */
    double lowest, highest;  /* worth looking at; may be narrowed */
    char name[LW_VARY_NAME]; /* for people: "pavilion main", "lower", "step 6 (pavilion middle)" */
} lw_handle;

/* Read only once it is made, and may then be used by several threads, each with a memory of its
 * own. */
typedef struct lw_vary {
    lw_memory memory;
    lw_cut cut;     /* with its settings at the values it started with */
    lw_stone stone; /* that it solves to */
    int faults;     /* that its check found to begin with: no varied stone may have more */
    lw_solve_options size;
} lw_vary;

/* The cut as solved with these options, and its faults. Fails as lw_adapt_settings, lw_cut_solve
 * and lw_cut_check. Destroy takes a zeroed one, and twice. */
lw_status lw_vary_make(const lw_memory *memory, const lw_cut *cut, const lw_solve_options *options,
                       lw_vary *out, lw_problem *problem);
void lw_vary_destroy(lw_vary *vary);

/* The handle of a side, from LW_VARY_PAVILION_DEG or LW_VARY_CROWN_DEG below its angle to as much
 * above; within the limits of a setting that drives it. LW_NOT_FOUND when the side has no slanting
 * facets. */
lw_status lw_vary_side(const lw_vary *vary, lw_side side, lw_handle *out);

#define LW_VARY_PAVILION_DEG 6.0
#define LW_VARY_CROWN_DEG 15.0
#define LW_VARY_STEP_DEG 6.0

/* All that is free beside the sides: settings in the order of the text, then steps whose angle
 * names none of them, up to LW_VARY_STEP_DEG off but between the tiers beside them. At most
 * LW_VARY_MOST. LW_NO_MEMORY. */
lw_status lw_vary_free(const lw_vary *vary, lw_handle out[LW_VARY_MOST], int *count);

/* The stone with handles[i] at values[i]. LW_NO_SOLUTION when there is none, or when it has more
 * faults than the cut had; LW_NO_MEMORY. */
lw_status lw_vary_stone(const lw_vary *vary, const lw_memory *memory, const lw_handle *handles,
                        const double *values, int count, lw_stone *out);

/* The same as a cut, whose text can be written. Fails as lw_adapt_to_angles, and as above. */
lw_status lw_vary_cut(const lw_vary *vary, const lw_handle *handles, const double *values,
                      int count, lw_adapted *out, lw_problem *problem);

/* The angle of the flattest pavilion facet that has an area, level ones left out; 90 without one.
 */
double lw_flattest_pavilion_deg(const lw_stone *stone);

#endif
