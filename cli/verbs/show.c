/* lapwing show: a cut as text. */
#include "cut.h"
#include "json.h"
#include "text.h"

#include "cut/write.h"

#include <stdio.h>
#include <stdlib.h>

/* The cut in its canonical layout; malloc'd. */
static char *canonical(const lw_cut *cut)
{
    size_t length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(length + 1);
    if (text != NULL) {
        lw_cut_write(cut, text, length + 1);
    }
    return text;
}

static cli_exit print(const cli_args *args, const char *text)
{
    if (args->json) {
        return cli_json_print(json_pack("{s:s, s:s}", "cut", args->operands[0], "text", text));
    }
    fputs(text, stdout);
    return CLI_DONE;
}

/* The text is read even where it is shown as it stands: what cannot be read is not shown as a cut.
 */
static cli_exit run(const cli_args *args)
{
    lw_memory memory = lw_memory_standard();
    char *text = NULL;
    size_t length = 0;
    if (!cli_cut_text(args->operands[0], &text, &length)) {
        return CLI_WRONG;
    }
    lw_cut cut = {0};
    lw_problem problem = {0};
    cli_exit result = CLI_WRONG;
    if (lw_cut_read(&memory, text, length, &cut, &problem) != LW_OK) {
        result = cli_fail_problem(args->operands[0], &problem);
    } else if (cli_has(args, "canonical")) {
        char *written = canonical(&cut);
        result = written == NULL ? cli_fail("out of memory") : print(args, written);
        free(written);
    } else {
        result = print(args, text);
    }
    lw_cut_destroy(&cut);
    free(text);
    return result;
}

static const cli_option options[] = {
    {.name = "canonical",
     .kind = CLI_FLAG,
     .help = "in the one layout that lapwing writes, the same cut to the last bit"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing show round-brilliant",
    "lapwing show round-brilliant > mine.cut",
    "lapwing show --canonical mine.cut",
    NULL,
};

const cli_verb cli_verb_show = {
    .name = "show",
    .summary = "A cut as text",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .options = options,
    .examples = examples,
    .run = run,
};
