#include "text.h"

#include "base/number.h"

#include <locale.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include <string.h>

/* Puts '.' where the locale's own point stands. */
static void make_plain(char *text)
{
    const char *mark = localeconv()->decimal_point;
    size_t length = strlen(mark);
    char *place = length > 0 ? strstr(text, mark) : NULL;
    if (place != NULL) {
        *place = '.';
        memmove(place + 1, place + length, strlen(place + length) + 1);
    }
}

const char *cli_fixed_in(char text[CLI_NUMBER_TEXT], double value, int decimals)
{
    int length = snprintf(text, CLI_NUMBER_TEXT, "%.*f", decimals, value);
    if (length < 0 || length >= CLI_NUMBER_TEXT) {
        snprintf(text, CLI_NUMBER_TEXT, "%.6e", value);
    }
    make_plain(text);
    if (text[0] == '-' && strspn(text + 1, "0.") == strlen(text + 1)) {
        memmove(text, text + 1, strlen(text));
    }
    return text;
}

const char *cli_short_in(char text[CLI_NUMBER_TEXT], double value)
{
    if (isfinite(value)) {
        lw_number_write(value, text);
    } else {
        snprintf(text, CLI_NUMBER_TEXT, "%s", isnan(value) ? "nan" : value > 0.0 ? "inf" : "-inf");
    }
    return text;
}

static void complain(const char *prefix, char *line)
{
    for (char *c = line; *c != '\0'; c++) {
        unsigned char byte = (unsigned char)*c;
        if (byte < 0x20 || byte == 0x7F) {
            *c = '?';
        }
    }
    fflush(stdout);
    fprintf(stderr, "%s%s\n", prefix, line);
}

cli_exit cli_fail(const char *format, ...)
{
    char line[1024];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(line, sizeof line, format, arguments);
    va_end(arguments);
    complain("lapwing: ", line);
    return CLI_WRONG;
}

cli_exit cli_fail_problem(const char *source, const lw_problem *problem)
{
    char text[4 * LW_PROBLEM_TEXT];
    char line[sizeof text + 512];
    lw_problem_write(problem, text, sizeof text);
    snprintf(line, sizeof line, "%.500s:%s%s", source, problem->line > 0 ? "" : " ", text);
    complain("", line);
    return CLI_WRONG;
}

void cli_fill_from(FILE *to, const char *text, int column, int indent)
{
    enum { WIDTH = 90 };
    int at = column;
    while (*text != '\0') {
        size_t length = strcspn(text, " \n");
        if (at > indent && at + 1 + (int)length > WIDTH) {
            fprintf(to, "\n%*s", indent, "");
            at = indent;
        } else if (at > indent) {
            fputc(' ', to);
            at++;
        }
        fwrite(text, 1, length, to);
        at += (int)length;
        text += length;
        text += strspn(text, " \n");
    }
    fputc('\n', to);
}

void cli_fill(FILE *to, const char *text, int indent)
{
    fprintf(to, "%*s", indent, "");
    cli_fill_from(to, text, indent, indent);
}
