/* lapwing VERB …: finds the verb, reads its options, runs it, and makes sure that what it printed
 * arrived. */
#include "help.h"
#include "options.h"
#include "text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

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

static cli_exit run(int argc, char **argv)
{
    static cli_args args; /* large for a stack */
    char message[CLI_MESSAGE];
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
    if (verb == NULL) {
        return no_such_verb(argv[1]);
    }
    if (!cli_options_read(verb, argc - 2, argv + 2, &args, message)) {
        return cli_fail("%s", message);
    }
    if (args.help) {
        cli_help_verb(stdout, verb);
        return CLI_DONE;
    }
    return verb->run(&args);
}

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

int main(int argc, char **argv)
{
    hold_standard_streams();
    cli_exit result = run(argc, argv);
    bool failed = ferror(stdout) != 0;
    failed = fflush(stdout) != 0 || failed;
    if (failed && result != CLI_WRONG) {
        result = cli_fail("standard output: cannot write: %s", strerror(errno));
    }
    return (int)result;
}
