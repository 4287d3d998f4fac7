/* A plan on standard output: in words for a cutter, and as JSON. */
#ifndef LW_CLI_PLAN_SAY_H
#define LW_CLI_PLAN_SAY_H

#include "plan.h"

#include <jansson.h>

/* The rough as understood, the best cut, then the others. sheet: where its sheet was written, or
 * NULL. */
void cli_plan_tell(const lw_plan *plan, const char *sheet);
json_t *cli_plan_json(const lw_plan *plan, const char *sheet);

/* Carat, share and length of an entry's likely case and their ranges; and where it lies: the keys
 * that fit and plan share. */
json_t *cli_plan_placement_json(const lw_plan *plan, const lw_plan_entry *entry);

/* "scale" and whatever else a line of the answer begins with, then text filled behind it. */
void cli_plan_line(const char *name, const char *text);

/* The rough as understood: one or two lines. */
void cli_plan_tell_rough(const lw_plan *plan);

#endif
