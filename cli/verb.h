/* What a verb of the command line is, and the table of them.
 *
 * A verb is one file, cli/verbs/NAME.c, that ends in one table:
 *
 *     const cli_verb cli_verb_weigh = {
 *         .name = "weigh",
 *         .summary = "Weight of a stone by its caliper readings",
 *         .operands = "CUT",
 *         .operands_least = 1,
 *         .operands_most = 1,
 *         .options = options,
 *         .run = run,
 *     };
 *
 * and is named in cli/verbs.c (declaration and row, in the order that --help shows) and in
 * cli/CMakeLists.txt. --help, the man page and the shells' completion are all made from the table;
 * the parser checks everything the table states before run() is called. --json and --help are
 * added to every verb.
 *
 * run() returns CLI_DONE, CLI_NO (the work was done and the answer is no) or CLI_WRONG, after
 * cli_fail() or its like has said why in one line on standard error. It prints with stdio, and
 * nothing before it knows that it will not fail; main checks that standard output took it all.
 */
#ifndef LW_CLI_VERB_H
#define LW_CLI_VERB_H

#include <stdbool.h>
#include <stddef.h>

typedef enum cli_exit { CLI_DONE = 0, CLI_NO = 1, CLI_WRONG = 2 } cli_exit;

typedef enum cli_kind {
    CLI_FLAG,    /* no value */
    CLI_NUMBER,  /* one number in unit, from lowest to highest */
    CLI_NUMBERS, /* least..most such numbers, parted by separator */
    CLI_CHOICE,  /* one of choices */
    CLI_SETTING, /* NAME=VALUE with an optional unit: a cut's setting */
    CLI_TEXT,    /* any text but an empty one */
    CLI_FILE     /* a path; completed as one */
} cli_kind;

typedef struct cli_option {
    const char *name; /* without its dashes: "width-mm" */
    char letter;      /* of the short form -o, or 0 */
    cli_kind kind;
    const char *value;          /* what --help calls the value: "W"; NULL for a flag */
    const char *help;           /* a fragment, lower case, no full stop */
    const char *unit;           /* NUMBER(S): "mm", "deg", "%", … or NULL for a bare number */
    double lowest, highest;     /* NUMBER(S) */
    bool whole;                 /* NUMBER(S): no fractions */
    char separator;             /* NUMBERS: ',' or 'x' */
    int least, most;            /* NUMBERS: how many; most <= CLI_MOST_LIST */
    const char *const *choices; /* CHOICE: ended by NULL */
    const char *(*names)(int index); /* TEXT: names to complete and to suggest, or NULL */
    bool repeats;                    /* may be given more than once */
} cli_option;

enum { CLI_MOST_LIST = 32, CLI_MOST_GIVEN = 128, CLI_MOST_OPERANDS = 64 };

/* The end of a table of options. */
#define CLI_OPTIONS_END                                                                            \
    {                                                                                              \
        .name = NULL                                                                               \
    }

typedef struct cli_args cli_args;

typedef struct cli_verb {
    const char *name;
    const char *summary;  /* one line, no full stop */
    const char *operands; /* as usage shows them: "CUT", "[VERB]"; NULL for none */
    int operands_least, operands_most;
    const char *details;         /* paragraphs parted by an empty line, or NULL */
    const cli_option *options;   /* ended by CLI_OPTIONS_END; NULL for none */
    const char *const *examples; /* command lines, ended by NULL; or NULL */
    cli_exit (*run)(const cli_args *args);
    const char *program; /* or what does the work: "lapwing-tune", under libexec/; cli/program.h */
    /* With both: whether the program must do what these words ask for, else run() does. */
    bool (*hands_over)(const cli_args *args);
} cli_verb;

/* All verbs, in the order of --help, ended by NULL. */
extern const cli_verb *const cli_verbs[];

/* NULL when no verb has that name. */
const cli_verb *cli_verb_find(const char *name);

#endif
