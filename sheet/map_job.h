/* A heat map as a member of a drawing job (draw_job.h):
 *
 *     "map": {"heading": "…",
 *             "x": {"title": "…", "low": 38, "high": 46, "count": 41}, "y": {…},
 *             "values": [0.71, null, …], "value_title": "…",
 *             "lines": [{"label": "…", "dashed": true, "ticked": false, "spots": [x, y, x, y, …]}],
 *             "marks": [{"label": "…", "x": 43, "y": 42, "filled": true}],
 *             "notes": ["…"]}
 *
 * values has count of y times count of x members, null where there is none.
 */
#ifndef LW_SHEET_MAP_JOB_H
#define LW_SHEET_MAP_JOB_H

#include "base/arena.h"
#include "base/problem.h"
#include "sheet/heat_map.h"

#include <jansson.h>

/* A new reference; NULL when memory is out, or a string is not UTF-8 or a number not finite. */
json_t *lw_map_job_write(const lw_heat_map *map);

/* Everything lives on the arena. LW_BAD_INPUT, with what is wrong in *problem; LW_NO_MEMORY. */
lw_status lw_map_job_read(lw_arena *arena, const json_t *object, lw_heat_map *out,
                          lw_problem *problem);

#endif
