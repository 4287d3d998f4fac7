/* What the command line says: numbers as text, and one line of complaint. */
#ifndef LW_CLI_TEXT_H
#define LW_CLI_TEXT_H

#include "verb.h"

#include "base/problem.h"

#include <stdio.h>

enum { CLI_NUMBER_TEXT = 48 };

/* value with that many decimals and a point, whatever the locale; never "-0.00". Returns text.
 * CLI_FIXED gives it a place that lasts until the end of the enclosing block. */
const char *cli_fixed_in(char text[CLI_NUMBER_TEXT], double value, int decimals);
#define CLI_FIXED(value, decimals) cli_fixed_in((char[CLI_NUMBER_TEXT]){0}, (value), (decimals))
/* The shortest text that reads back to the same number. */
const char *cli_short_in(char text[CLI_NUMBER_TEXT], double value);
#define CLI_SHORT(value) cli_short_in((char[CLI_NUMBER_TEXT]){0}, (value))

/* "lapwing: " and the message on standard error, as one line: control characters become '?'.
 * Returns CLI_WRONG. */
cli_exit cli_fail(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* "SOURCE:LINE:COLUMN: found …; expected … (hint)". source is a path or a built-in cut's name.
 * Returns CLI_WRONG. */
cli_exit cli_fail_problem(const char *source, const lw_problem *problem);

/* Text in lines of at most 90 columns, each indented; the second goes on where a line has already
 * come to column. */
void cli_fill(FILE *to, const char *text, int indent);
void cli_fill_from(FILE *to, const char *text, int column, int indent);

#endif
