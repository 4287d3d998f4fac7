#include "program.h"

#include "child.h"
#include "help.h"
#include "options.h"
#include "text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* A descriptor 0, 1 or 2 that is closed would go to the next file that is opened. Held open in a
 * way that cannot be written to, what is printed there is missed in finish(). */
static void hold_standard_streams(void)
{
    for (int descriptor = 0; descriptor <= 2; descriptor++) {
        if (fcntl(descriptor, F_GETFD) < 0) {
            (void)open("/dev/null", descriptor == 0 ? O_WRONLY : O_RDONLY);
        }
    }
}

/* Makes sure that what was printed arrived. */
static int finish(cli_exit result)
{
    bool failed = ferror(stdout) != 0;
    failed = fflush(stdout) != 0 || failed;
    if (failed && result != CLI_WRONG) {
        result = cli_fail("standard output: cannot write: %s", strerror(errno));
    }
    return (int)result;
}

/* Reads the words of argv behind the verb, and does what they ask: by run, or else by the verb's
 * program, which is also who may be handed over to. */
static cli_exit do_verb(const cli_verb *verb, cli_exit (*run)(const cli_args *args), bool may_hand,
                        int argc, char **argv)
{
    static cli_args args; /* large for a stack */
    char message[CLI_MESSAGE];
    if (!cli_options_read(verb, argc - 2, argv + 2, &args, message)) {
        return cli_fail("%s", message);
    }
    if (args.help) {
        cli_help_verb(stdout, verb);
        return CLI_DONE;
    }
    bool hands = run == NULL || (may_hand && verb->hands_over != NULL && verb->hands_over(&args));
    return hands ? cli_child_become(verb->program, argv) : run(&args);
}

/* ---- lapwing ---- */

static const char *verb_name_at(const void *context, int i)
{
    (void)context;
    return cli_verbs[i] == NULL ? NULL : cli_verbs[i]->name;
}

static cli_exit no_such_verb(const char *word)
{
    const char *near = cli_nearest(word, verb_name_at, NULL);
    return cli_fail("found '%.80s'; expected a verb (%s%s%s)", word,
                    near != NULL ? "did you mean " : "lapwing help lists them",
                    near != NULL ? near : "", near != NULL ? "?" : "");
}

static cli_exit lapwing(int argc, char **argv)
{
    if (argc < 2) {
        return cli_fail("found no verb; expected one (lapwing help lists them)");
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        cli_help_all(stdout);
        return CLI_DONE;
    }
    if (strcmp(argv[1], "--version") == 0) {
        puts("lapwing " LW_VERSION);
        return CLI_DONE;
    }
    const cli_verb *verb = cli_verb_find(argv[1]);
    return verb == NULL ? no_such_verb(argv[1]) : do_verb(verb, verb->run, true, argc, argv);
}

int cli_lapwing_main(int argc, char **argv)
{
    hold_standard_streams();
    return finish(lapwing(argc, argv));
}

/* ---- a program under libexec/ ---- */

static cli_exit program(int argc, char **argv, const cli_work *works)
{
    for (const cli_work *work = works; argc >= 2 && work->verb != NULL; work++) {
        if (strcmp(argv[1], work->verb->name) == 0) {
            return do_verb(work->verb, work->run, false, argc, argv);
        }
    }
    return cli_fail("%s is a part of lapwing; expected to be run by lapwing %s",
                    works->verb->program, works->verb->name);
}

int cli_program_main(int argc, char **argv, const cli_work *works)
{
    hold_standard_streams();
    return finish(program(argc, argv, works));
}
