/* Shared by the files that read options; nobody else includes this. */
#ifndef LW_CLI_OPTIONS_PARTS_H
#define LW_CLI_OPTIONS_PARTS_H

#include "options.h"

enum { CLI_EXPECTED = 256 };

/* Reads the value of an option. On failure expected (CLI_EXPECTED bytes) says what it must be. */
bool cli_value_read(const cli_option *option, const char *text, cli_given *given, char *expected);

/* The i-th option of a verb, the common ones last; NULL at the end. */
const cli_option *cli_option_at(const cli_verb *verb, int i);

#endif
