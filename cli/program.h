/* The frame that each program of the command line stands in: lapwing itself, and the programs under
 * libexec/ that do the work of verbs which need more than lapwing may link.
 *
 * Such a verb keeps its table in lapwing, with .program in place of .run, so that help, the man
 * page, completion and the checking of options are as for all others. When its words have been read
 * without fault lapwing is replaced by the program, which is given the same words and reads them by
 * the same table:
 *
 *     int main(int argc, char **argv)
 *     {
 *         static const cli_work works[] = {{&cli_verb_tune, cli_tune_run}, {NULL, NULL}};
 *         return cli_program_main(argc, argv, works);
 *     }
 *
 * and in cli/CMakeLists.txt: lw_helper(lapwing-tune SOURCES … LIBS lw_cli …). A verb that needs its
 * program only for some of its options has .run too, and .hands_over tells when.
 */
#ifndef LW_CLI_PROGRAM_H
#define LW_CLI_PROGRAM_H

#include "verb.h"

/* What a program under libexec/ does for a verb. */
typedef struct cli_work {
    const cli_verb *verb;
    cli_exit (*run)(const cli_args *args);
} cli_work;

/* The main() of a program under libexec/; works ends with a NULL verb. */
int cli_program_main(int argc, char **argv, const cli_work *works);

/* The main() of lapwing. */
int cli_lapwing_main(int argc, char **argv);

#endif
