/* lapwing sheet: the printed sheet of a cut. */
#include "sheet.h"

#include "file.h"
#include "json.h"
#include "kit.h"
#include "stone.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>

static cli_exit tell(const cli_args *args, const char *path)
{
    if (args->json) {
        return cli_json_print(json_pack("{s:s, s:s}", "cut", args->operands[0], "sheet", path));
    }
    printf("Written to %s.\n", path);
    return CLI_DONE;
}

static cli_exit draw(const cli_args *args, const cli_stone *s, const char *text)
{
    const char *path = cli_text(args, "output", NULL);
    lw_solve_options options = {0};
    lw_override overrides[CLI_MOST_GIVEN];
    cli_sheet_room room;
    if (!cli_solve_options(args, overrides, &options)) {
        return CLI_WRONG;
    }
    lw_draw_job job = {.cut_text = text,
                       .overrides = overrides,
                       .override_count = options.override_count,
                       .size_kind = options.size_kind,
                       .size = options.size,
                       .page = (int)cli_number(args, "page", 0.0)};
    cli_sheet_machine(args, &job);
    cli_sheet_material(&s->found, &room, &job);
    cli_exit result = cli_sheet_write(&job, path);
    return result == CLI_DONE ? tell(args, path) : result;
}

static cli_exit run(const cli_args *args)
{
    static cli_stone stone;
    char *text = NULL;
    size_t length = 0;
    if (!cli_has(args, "output")) {
        return cli_fail("sheet: found no --output; expected -o and a file");
    }
    /* Solved here first, so that a complaint names the text's own lines. */
    if (!cli_stone_make(args, &stone)) {
        return CLI_WRONG;
    }
    cli_exit result = CLI_WRONG;
    if (cli_cut_text(args->operands[0], &text, &length)) {
        result = draw(args, &stone, text);
    }
    free(text);
    cli_stone_destroy(&stone);
    return result;
}

static const cli_option options[] = {
    CLI_OUTPUT_OPTION("where to draw it: .pdf, .svg or .png; must be given"),
    CLI_CUT_OPTIONS,
    CLI_COUNTS_OPTION,
    CLI_SHEET_OPTIONS,
    {.name = "page",
     .kind = CLI_NUMBER,
     .value = "N",
     .lowest = 1,
     .highest = 1000,
     .whole = true,
     .help = "one page alone"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing sheet round-brilliant --width-mm 8 --material quartz -o sheet.pdf",
    NULL,
};

const cli_verb cli_verb_sheet = {
    .name = "sheet",
    .summary = "The printed sheet: every step, what to dial, where it meets, the size after it",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .options = options,
    .examples = examples,
    .run = run,
};
