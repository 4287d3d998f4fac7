/* The cutting sheet: what lies beside the lap.
 *
 * From a cut and the stone that it came to: a head in sentences, then the steps, numbered through
 * from the first to the last, each a sentence with its angle and its teeth large enough to be read
 * at arm's length, a drawing of the stone after it, the wheel as it stands at the pointer, and what
 * can be measured then; at the end the totals and the cautions. No step is split between pages
 * unless its teeth alone fill more than one.
 *
 * Nothing is painted here: the sheet is a display list, in points, in grey.
 */
#ifndef LW_SHEET_SHEET_H
#define LW_SHEET_SHEET_H

#include "cut/check.h"
#include "cut/dial.h"
#include "cut/stone.h"
#include "cut/value.h"
#include "sheet/display_list.h"

typedef struct lw_sheet_facts {
    const lw_cut *cut;
    const lw_stone *stone;   /* what the cut solved to */
    const lw_values *values; /* its settings, as it was solved */
    const lw_check *check;   /* NULL when it was not checked */

    const char *material;        /* its name for people; NULL when none is chosen */
    double refractive_index;     /* 0 when not known */
    double critical_angle_deg;   /* 0 when not known */
    double specific_gravity;     /* 0 when not known: then no weight is given */
    const char *polish;          /* what it is usually polished with; NULL or "" when not known */
    const char *const *cautions; /* whole sentences of the material's own */
    int caution_count;
    const char *const *remarks; /* of whoever chose the cut: whole sentences for the head */
    int remark_count;

    lw_counts counts;   /* the machine's wheel */
    double zero_at;     /* as in lw_dial_kit */
    double pointer_deg; /* where the machine's pointer stands, seen from behind the quill: 0 at the
                           top, clockwise */
} lw_sheet_facts;

typedef struct lw_paper {
    double width, height; /* points */
} lw_paper;

#define LW_PAPER_A4 ((lw_paper){595.276, 841.89})
#define LW_PAPER_LETTER ((lw_paper){612.0, 792.0})

/* Composes all pages. list is initialised by the caller; what was in it is forgotten. LW_NO_MEMORY,
 * LW_TOO_LARGE; the list is then not fit to be painted. */
lw_status lw_sheet_compose(const lw_memory *memory, const lw_sheet_facts *facts, lw_paper paper,
                           const lw_metrics *metrics, lw_display_list *list);

#endif
