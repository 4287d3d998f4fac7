/* The work of lapwing tune, from its words to its report. */
#include "tune/tune.h"

#include "file.h"
#include "json.h"
#include "progress.h"
#include "text.h"

#include "climb_nlopt.h"
#include "cut/write.h"

#include <stdlib.h>

/* Tries between two looks at progress and at the wish to stop. */
enum { BUDGET = 8 };

static lw_status search(const tune_request *r, lw_stone_judge *judge, lw_tune **tune)
{
    cli_progress progress = cli_progress_make("tune");
    const atomic_bool *stop = cli_stop_on_interrupt();
    lw_tune_request request = {.handle_count = r->handle_count,
                               .handles = r->handles,
                               .judge = lw_stone_judge_use(judge),
                               .climber = &lw_climber_nlopt,
                               .seed = r->seed,
                               .most_everywhere = r->tries,
                               .whole_deg = r->whole_deg};
    lw_status status = lw_tune_new(&r->stone.memory, &request, tune);
    while (status == LW_OK && !lw_tune_is_done(*tune)) {
        status = lw_tune_step(*tune, BUDGET);
        cli_progress_show(&progress, lw_tune_progress(*tune));
        if (atomic_load(stop)) {
            status = LW_CANCELLED;
        }
    }
    cli_progress_clear(&progress);
    return status;
}

/* The tuned cut as text, whole or not at all. */
static bool write_cut(const tune_request *r, const lw_try *best, const char *path)
{
    lw_adapted made;
    lw_problem problem = {0};
    if (lw_vary_cut(&r->vary, r->handles, best->values, r->handle_count, &made, &problem) !=
        LW_OK) {
        cli_fail_problem(r->stone.name, &problem);
        return false;
    }
    size_t length = lw_cut_write(&made.cut, NULL, 0);
    char *text = malloc(length + 1);
    bool good = text != NULL;
    if (good) {
        (void)lw_cut_write(&made.cut, text, length + 1);
        good = cli_file_write(path, text, length);
    } else {
        cli_fail("%s: %s", path, lw_status_text(LW_NO_MEMORY));
    }
    free(text);
    lw_adapted_destroy(&made);
    return good;
}

static cli_exit report(const tune_result *result)
{
    const cli_args *args = result->request->args;
    const char *path = cli_text(args, "output", NULL);
    if (result->found && path != NULL &&
        !write_cut(result->request, lw_tune_best(result->tune), path)) {
        return CLI_WRONG;
    }
    cli_exit done = result->found ? CLI_DONE : CLI_NO;
    if (args->json) {
        cli_exit printed = cli_json_print(tune_json(result));
        return printed == CLI_DONE ? done : printed;
    }
    tune_tell(result);
    return done;
}

static cli_exit lacks(const tune_request *r, lw_aim aim)
{
    if (aim == LW_AIM_FIRE && r->judge.look.light.index.blue == r->judge.look.light.index.red) {
        return cli_fail(
            "tune: --for: found no dispersion, and so no fire to have more of; expected "
            "--material");
    }
    return cli_fail("tune: --for: found no %s in the cut as it stands, to have more of; expected "
                    "another aim",
                    lw_aim_names[aim]);
}

static cli_exit work(const tune_request *r)
{
    lw_stone_judge judge;
    lw_tune *tune = NULL;
    lw_aim lacking = LW_AIM_COUNT;
    lw_status status = lw_stone_judge_make(&r->stone.memory, &r->judge, &judge, &lacking);
    if (lacking != LW_AIM_COUNT) {
        return lacks(r, lacking);
    }
    if (status == LW_OK) {
        status = search(r, &judge, &tune);
    }
    cli_exit result = CLI_WRONG;
    if (status == LW_OK) {
        const lw_try *best = lw_tune_best(tune);
        tune_result found = {.request = r,
                             .judge = &judge,
                             .tune = tune,
                             .found = best->there && best->excess == 0.0};
        result = report(&found);
    } else {
        cli_fail("%s: %s", r->stone.name, lw_status_text(status));
    }
    lw_tune_destroy(tune);
    return result;
}

cli_exit tune_run(const cli_args *args)
{
    tune_request *request = calloc(1, sizeof *request);
    cli_exit result = CLI_WRONG;
    if (request == NULL) {
        return cli_fail("%s", lw_status_text(LW_NO_MEMORY));
    }
    if (tune_ask(args, request)) {
        result = work(request);
    }
    tune_forget(request);
    free(request);
    return result;
}
