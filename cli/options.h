/* From argv to checked values, by a verb's table of options. */
#ifndef LW_CLI_OPTIONS_H
#define LW_CLI_OPTIONS_H

#include "verb.h"

#include "cut/value.h"

enum { CLI_MESSAGE = 512 };

/* One option as given. */
typedef struct cli_given {
    const cli_option *option;
    const char *text; /* as written; NULL for a flag */
    int count;        /* NUMBER(S): how many numbers */
    double numbers[CLI_MOST_LIST];
    lw_override setting; /* SETTING; its name lies in setting_name */
    char setting_name[LW_CUT_MOST_NAME + 1];
} cli_given;

struct cli_args {
    const cli_verb *verb;
    bool json, help;
    int operand_count;
    const char *operands[CLI_MOST_OPERANDS];
    int given_count;
    cli_given given[CLI_MOST_GIVEN];
};

/* Reads the words behind the verb. On failure message (CLI_MESSAGE bytes) has one line: what was
 * found, what was expected. Pointers into words stay in *out. With --help nothing else is asked
 * for. */
bool cli_options_read(const cli_verb *verb, int count, char *const *words, cli_args *out,
                      char *message);

/* What was given. name must be in the verb's table, with that kind: asserted. */

/* Whether an option was given at all. */
bool cli_has(const cli_args *args, const char *name);
/* The number, or otherwise. */
double cli_number(const cli_args *args, const char *name, double otherwise);
/* The text of a CHOICE, TEXT or FILE, or otherwise. */
const char *cli_text(const cli_args *args, const char *name, const char *otherwise);
/* The numbers of a list and how many (0 when not given). */
const double *cli_numbers(const cli_args *args, const char *name, int *count);
/* The i-th time that a repeating option was given, or NULL. */
const cli_given *cli_repeated(const cli_args *args, const char *name, int i);

/* The pieces, for other readers and for the fuzzers. Each gives false when the whole of text is not
 * that. */

/* A number with an optional unit behind it ("8", "8mm", "8 mm"; "deg" may be the sign for degrees).
 * unit NULL: bare. */
bool cli_read_number(const char *text, const char *unit, double *value);
/* "NAME=VALUE", the value with %, deg, mm or nothing behind it. name has LW_CUT_MOST_NAME + 1
 * bytes; out->name points to it. */
bool cli_read_setting(const char *text, char *name, lw_override *out);

/* The nearest of the names that next(context, i) gives (NULL at the end), by edits; NULL when none
 * is near enough to be meant. */
const char *cli_nearest(const char *word, const char *(*next)(const void *context, int i),
                        const void *context);

#endif
