/* Help, the man page and the shells' completion, all from the table of verbs. */
#ifndef LW_CLI_HELP_H
#define LW_CLI_HELP_H

#include "verb.h"

#include <stdio.h>

void cli_help_all(FILE *to);
void cli_help_verb(FILE *to, const cli_verb *verb);

/* The man page, in the man macros. */
void cli_help_man(FILE *to);

typedef enum cli_shell { CLI_BASH, CLI_FISH, CLI_ZSH } cli_shell;

void cli_help_completion(FILE *to, cli_shell shell);

#endif
