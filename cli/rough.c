#include "rough.h"

#include "json.h"
#include "text.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

const char *cli_habit_name(int index)
{
    return index < LW_HABIT_COUNT ? lw_habit_describe((lw_habit)index)->key : NULL;
}

/* ---- the list ---- */

bool cli_habits_asked(const cli_args *args)
{
    return strcmp(cli_text(args, "habit", ""), "help") == 0;
}

static json_t *habits_json(void)
{
    json_t *list = json_array();
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        const lw_habit_words *words = lw_habit_describe((lw_habit)i);
        json_array_append_new(list, json_pack("{s:s, s:[s, s, s], s:s}", "habit", words->key,
                                              "readings", words->readings[0], words->readings[1],
                                              words->readings[2], "note", words->note));
    }
    return list;
}

cli_exit cli_habits_tell(const cli_args *args)
{
    if (args->json) {
        return cli_json_print(json_pack("{s:o}", "habits", habits_json()));
    }
    printf("What rough may be shaped like, and what the three readings LxWxD are.\n");
    for (int i = 0; i < LW_HABIT_COUNT; i++) {
        const lw_habit_words *words = lw_habit_describe((lw_habit)i);
        printf("\n%s\n", words->key);
        cli_fill(stdout, words->note, 2);
        for (int k = 0; k < 3; k++) {
            printf("  %c  ", "LWD"[k]);
            cli_fill_from(stdout, words->readings[k], 5, 5);
        }
    }
    return CLI_DONE;
}

/* ---- what was given ---- */

static const char *habit_at(const void *context, int i)
{
    (void)context;
    return cli_habit_name(i);
}

static bool find_habit(const cli_args *args, lw_habit *habit)
{
    const char *verb = args->verb->name, *given = cli_text(args, "habit", NULL);
    if (given == NULL) {
        cli_fail("%s: found no --habit; expected what the rough is shaped like (--habit help lists "
                 "the shapes)",
                 verb);
        return false;
    }
    if (lw_habit_find(given, habit)) {
        return true;
    }
    const char *near = cli_nearest(given, habit_at, NULL);
    cli_fail("%s: --habit: found '%.60s'; expected a shape (%s%s%s)", verb, given,
             near != NULL ? "did you mean " : "--habit help lists the shapes",
             near != NULL ? near : "", near != NULL ? "?" : "");
    return false;
}

bool cli_rough(const cli_args *args, lw_plan_request *request)
{
    int count = 0;
    const double *mm = cli_numbers(args, "rough", &count);
    if (mm == NULL) {
        cli_fail("%s: found no --rough; expected three caliper readings, as --rough '14x10x8 mm'",
                 args->verb->name);
        return false;
    }
    if (!find_habit(args, &request->habit)) {
        return false;
    }
    memcpy(request->readings.mm, mm, sizeof request->readings.mm);
    request->rough_ct = cli_number(args, "rough-ct", 0.0);
    return true;
}

/* ---- running ---- */

static void show_progress(const lw_plan *plan, bool terminal)
{
    if (terminal) {
        fprintf(stderr, "\r%3.0f %%", 100.0 * lw_plan_progress(plan));
    }
}

bool cli_plan_run(const cli_args *args, const lw_memory *memory, const lw_plan_request *request,
                  lw_plan **plan)
{
    enum { STEP = 1000 };
    lw_problem problem = {0};
    lw_plan *made = NULL;
    if (lw_plan_new(memory, request, &made, &problem) != LW_OK) {
        char text[3 * LW_PROBLEM_TEXT + 64];
        lw_problem_write(&problem, text, sizeof text);
        cli_fail("%s: %s", args->verb->name, text);
        return false;
    }
    bool terminal = isatty(STDERR_FILENO) != 0;
    lw_status status = LW_OK;
    while (status == LW_OK && !lw_plan_is_done(made)) {
        status = lw_plan_step(made, STEP);
        show_progress(made, terminal);
    }
    if (terminal) {
        fprintf(stderr, "\r     \r");
    }
    if (status != LW_OK) {
        lw_plan_destroy(made);
        cli_fail("%s: %s", args->verb->name, lw_status_text(status));
        return false;
    }
    *plan = made;
    return true;
}
