/* The programs under libexec/ that lapwing runs as children, or goes on as. */
#ifndef LW_CLI_CHILD_H
#define LW_CLI_CHILD_H

#include "verb.h"

/* Runs the helper of that name ("lapwing-draw") with input on its standard input and waits for it.
 * What it says on standard error goes straight through. Gives its exit status, or CLI_WRONG, with
 * one line on standard error, when it cannot be run or does not end by itself.
 *
 * A helper lies in libexec/ beside lapwing where it was built, and in the libexec directory where
 * it was installed; other helpers find it beside themselves. */
cli_exit cli_child_run(const char *name, const char *input, size_t length);

/* Goes on as the helper of that name, which is given argv as it stands. Comes back only when it
 * cannot be run, with CLI_WRONG and one line on standard error. */
cli_exit cli_child_become(const char *name, char **argv);

#endif
