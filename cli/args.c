#include "options_parts.h"

#include <assert.h>
#include <string.h>

static bool is_in_table(const cli_verb *verb, const char *name)
{
    const cli_option *option = NULL;
    for (int i = 0; (option = cli_option_at(verb, i)) != NULL; i++) {
        if (strcmp(option->name, name) == 0) {
            return true;
        }
    }
    return false;
}

static const cli_given *find_given(const cli_args *args, const char *name, int i)
{
    bool known = is_in_table(args->verb, name);
    assert(known);
    (void)known;
    for (int at = 0; at < args->given_count; at++) {
        if (strcmp(args->given[at].option->name, name) == 0 && i-- == 0) {
            return &args->given[at];
        }
    }
    return NULL;
}

bool cli_has(const cli_args *args, const char *name)
{
    return find_given(args, name, 0) != NULL;
}

double cli_number(const cli_args *args, const char *name, double otherwise)
{
    const cli_given *given = find_given(args, name, 0);
    return given == NULL ? otherwise : given->numbers[0];
}

const char *cli_text(const cli_args *args, const char *name, const char *otherwise)
{
    const cli_given *given = find_given(args, name, 0);
    return given == NULL ? otherwise : given->text;
}

const double *cli_numbers(const cli_args *args, const char *name, int *count)
{
    const cli_given *given = find_given(args, name, 0);
    *count = given == NULL ? 0 : given->count;
    return given == NULL ? NULL : given->numbers;
}

const cli_given *cli_repeated(const cli_args *args, const char *name, int i)
{
    return find_given(args, name, i);
}
