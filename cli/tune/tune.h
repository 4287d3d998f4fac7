/* What tuning is asked for, and how its result is told. The verb's table is in lapwing
 * (cli/verbs/tune.c); all else here is lapwing-tune's. */
#ifndef LW_CLI_TUNE_TUNE_H
#define LW_CLI_TUNE_TUNE_H

#include "look_many.h"

#include "tune_judge.h"

#include <jansson.h>

extern const cli_verb cli_verb_tune;
extern const char *const cli_tune_holds[]; /* pavilion, crown */

typedef struct tune_request {
    const cli_args *args;
    cli_stone stone;
    const lw_material *material; /* NULL: an index alone */
    lw_light_place place;
    lw_vary vary;
    int free_count; /* beside the sides, varied or not */
    lw_handle free[LW_VARY_MOST];
    int handle_count;
    lw_handle handles[LW_VARY_MOST];
    lw_judge_request judge;
    double critical_deg, margin_deg;
    double whole_deg;
    unsigned seed;
    int tries; /* 0: as many as is usual */
} tune_request;

/* Each fails with one line on standard error. */
bool tune_ask(const cli_args *args, tune_request *out);
void tune_forget(tune_request *request);

/* A search that is done. */
typedef struct tune_result {
    const tune_request *request;
    const lw_stone_judge *judge;
    const lw_tune *tune;
    bool found; /* a stone that keeps every limit */
} tune_result;

json_t *tune_json(const tune_result *result);
void tune_tell(const tune_result *result);

cli_exit tune_run(const cli_args *args);

#endif
