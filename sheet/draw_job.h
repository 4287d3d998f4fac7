/* What lapwing asks of lapwing-draw, as one JSON object on its standard input.
 *
 * The cut goes over as text and is read and solved again there, so that the program that draws
 * needs no trust in numbers made elsewhere. This library links jansson and core, not cairo: the
 * command line writes jobs with it, lapwing-draw reads them.
 *
 *     {"cut": "wheel 96\n…",  "settings": [{"name": "table", "unit": "%", "value": 53}],
 *      "size": {"kind": "width_mm", "value": 7.2},
 *      "material": {"name": "quartz", "refractive_index": 1.544, "critical_angle_deg": 40.37,
 *                   "specific_gravity": 2.65, "polish": "cerium oxide", "cautions": ["…"]},
 *      "remarks": ["…"],
 *      "kit": {"counts": "counter-clockwise", "zero_at": 0, "pointer_deg": 0},
 *      "paper": "A4", "format": "PDF", "page": 0, "output": "sheet.pdf"}
 *
 * Only cut and output must be there. Names of members that are not known are an error. A job with a
 * "map" (map_job.h) draws that, and needs no cut.
 */
#ifndef LW_SHEET_DRAW_JOB_H
#define LW_SHEET_DRAW_JOB_H

#include "base/arena.h"
#include "cut/dial.h"
#include "cut/solve.h"
#include "cut/value.h"
#include "sheet/heat_map.h"

/* The most bytes of a job: a cut's text with every byte escaped, and room for the rest. */
enum { LW_DRAW_JOB_MOST_BYTES = 8 << 20, LW_DRAW_JOB_MOST_TEXTS = 64 };

typedef enum lw_draw_paper { LW_DRAW_A4, LW_DRAW_LETTER } lw_draw_paper;

typedef enum lw_draw_format {
    LW_DRAW_BY_NAME, /* by the ending of output's name: .pdf, .svg, .png */
    LW_DRAW_PDF,
    LW_DRAW_SVG,
    LW_DRAW_PNG
} lw_draw_format;

/* Zero-initialise, then fill in; strings belong to whoever made the job. NULL and 0: not given. */
typedef struct lw_draw_job {
    const char *cut_text; /* NUL-terminated */
    const lw_override *overrides;
    int override_count; /* at most LW_CUT_MOST_SETTINGS */
    lw_size_kind size_kind;
    double size;

    const char *material; /* name for people */
    double refractive_index, critical_angle_deg, specific_gravity;
    const char *polish;
    const char *const *cautions; /* whole sentences, at most LW_DRAW_JOB_MOST_TEXTS */
    int caution_count;
    const char *const *remarks; /* whole sentences for the sheet's head, at most as many */
    int remark_count;

    lw_counts counts;
    double zero_at, pointer_deg;

    const lw_heat_map *map; /* to draw in place of a sheet */

    lw_draw_paper paper;
    lw_draw_format format;
    int page; /* 0: all; n: the n-th alone */
    const char *output;
} lw_draw_job;

/* The job as JSON text with a NUL behind it, in malloc's memory: free() it. LW_BAD_INPUT when a
 * string is not UTF-8 or a number not finite; LW_NO_MEMORY. */
lw_status lw_draw_job_write(const lw_draw_job *job, char **text, size_t *length);

/* Reads a job; its strings live on the arena. LW_BAD_INPUT, with *problem telling what and where;
 * LW_NO_MEMORY. */
lw_status lw_draw_job_read(lw_arena *arena, const char *text, size_t length, lw_draw_job *out,
                           lw_problem *problem);

/* The format that the job comes to. LW_BAD_INPUT when the name has no ending that tells. */
lw_status lw_draw_job_format(const lw_draw_job *job, lw_draw_format *out);

#endif
