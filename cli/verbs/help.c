/* lapwing help: all verbs, one verb, the man page, completion for a shell. */
#include "help.h"

#include "options.h"
#include "text.h"

#include <string.h>

static const char *const shells[] = {"bash", "fish", "zsh", NULL};

static cli_shell shell_of(const char *name)
{
    return strcmp(name, "bash") == 0 ? CLI_BASH : strcmp(name, "fish") == 0 ? CLI_FISH : CLI_ZSH;
}

static cli_exit run(const cli_args *args)
{
    const char *shell = cli_text(args, "completion", NULL);
    if (args->json) {
        return cli_fail("help: found --json; expected none: help is for people");
    }
    if (cli_has(args, "man")) {
        cli_help_man(stdout);
    } else if (shell != NULL) {
        cli_help_completion(stdout, shell_of(shell));
    } else if (args->operand_count == 1) {
        const cli_verb *verb = cli_verb_find(args->operands[0]);
        if (verb == NULL) {
            return cli_fail("help: found '%.80s'; expected a verb", args->operands[0]);
        }
        cli_help_verb(stdout, verb);
    } else {
        cli_help_all(stdout);
    }
    return CLI_DONE;
}

static const cli_option options[] = {
    {.name = "man", .kind = CLI_FLAG, .help = "print the man page, for man -l"},
    {.name = "completion",
     .kind = CLI_CHOICE,
     .value = "SHELL",
     .choices = shells,
     .help = "print the completion for a shell"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing help solve",
    "lapwing help --man | man -l -",
    "source <(lapwing help --completion bash)",
    NULL,
};

const cli_verb cli_verb_help = {
    .name = "help",
    .summary = "What each verb does; the man page; completion for a shell",
    .operands = "[VERB]",
    .operands_least = 0,
    .operands_most = 1,
    .options = options,
    .examples = examples,
    .run = run,
};
