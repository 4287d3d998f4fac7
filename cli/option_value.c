#include "options_parts.h"

#include "text.h"

#include "base/number.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- what is expected ---- */

/* "a number of mm from 0.1 to 100" and the like. */
static void describe_number(const cli_option *option, char *text)
{
    const char *what = option->whole ? "a whole number" : "a number";
    snprintf(text, CLI_EXPECTED, "%s%s%s from %s to %s", what, option->unit == NULL ? "" : " of ",
             option->unit == NULL ? "" : option->unit, CLI_SHORT(option->lowest),
             CLI_SHORT(option->highest));
}

static void describe_numbers(const cli_option *option, char *text)
{
    char each[CLI_EXPECTED / 2];
    const char *what = option->whole ? "whole numbers" : "numbers";
    snprintf(each, sizeof each, "parted by '%c', each from %s to %s%s%s", option->separator,
             CLI_SHORT(option->lowest), CLI_SHORT(option->highest), option->unit == NULL ? "" : " ",
             option->unit == NULL ? "" : option->unit);
    if (option->least == option->most) {
        snprintf(text, CLI_EXPECTED, "%d %s %s", option->most, what, each);
    } else {
        snprintf(text, CLI_EXPECTED, "%d to %d %s %s", option->least, option->most, what, each);
    }
}

static void describe_choice(const cli_option *option, char *text)
{
    size_t used = (size_t)snprintf(text, CLI_EXPECTED, "one of");
    for (int i = 0; option->choices[i] != NULL && used < CLI_EXPECTED; i++) {
        used += (size_t)snprintf(text + used, CLI_EXPECTED - used, "%s %s", i == 0 ? "" : ",",
                                 option->choices[i]);
    }
}

/* ---- numbers ---- */

static size_t skip_blanks(const char *text, size_t at)
{
    while (text[at] == ' ' || text[at] == '\t') {
        at++;
    }
    return at;
}

/* Past the unit if it stands at text[at]; "deg" may be the sign for degrees. */
static size_t skip_unit(const char *text, size_t at, const char *unit)
{
    at = skip_blanks(text, at);
    if (unit != NULL) {
        size_t length = strlen(unit);
        if (strncmp(text + at, unit, length) == 0) {
            at += length;
        } else if (strcmp(unit, "deg") == 0 && strncmp(text + at, "\xC2\xB0", 2) == 0) {
            at += 2;
        }
    }
    return skip_blanks(text, at);
}

/* A signed number at text[at], with its unit if it has one. */
static bool number_at(const char *text, size_t at, const char *unit, double *value, size_t *end)
{
    at = skip_blanks(text, at);
    bool negative = text[at] == '-';
    if (text[at] == '-' || text[at] == '+') {
        at++;
    }
    size_t taken = 0;
    double magnitude = 0.0;
    if (!lw_number_read(text + at, strnlen(text + at, 80), &magnitude, &taken)) {
        return false;
    }
    *value = negative ? -magnitude : magnitude;
    *end = skip_unit(text, at + taken, unit);
    return true;
}

bool cli_read_number(const char *text, const char *unit, double *value)
{
    double number = 0.0;
    size_t end = 0;
    if (!number_at(text, 0, unit, &number, &end) || text[end] != '\0') {
        return false;
    }
    *value = number;
    return true;
}

bool cli_read_setting(const char *text, char *name, lw_override *out)
{
    static const struct {
        const char *text;
        lw_unit unit;
    } units[] = {
        {NULL, LW_UNIT_NUMBER}, {"%", LW_UNIT_PERCENT}, {"deg", LW_UNIT_DEG}, {"mm", LW_UNIT_MM}};
    size_t length = strcspn(text, "=");
    if (length == 0 || length > LW_CUT_MOST_NAME || text[length] != '=') {
        return false;
    }
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        double value = 0.0;
        if (cli_read_number(text + length + 1, units[i].text, &value)) {
            memcpy(name, text, length);
            name[length] = '\0';
            *out = (lw_override){.name = name, .unit = units[i].unit, .value = value};
            return true;
        }
    }
    return false;
}

static bool in_limits(const cli_option *option, double value)
{
    return value >= option->lowest && value <= option->highest &&
           (!option->whole || value == floor(value));
}

static bool read_one(const cli_option *option, const char *text, cli_given *given)
{
    double value = 0.0;
    if (!cli_read_number(text, option->unit, &value) || !in_limits(option, value)) {
        return false;
    }
    given->numbers[0] = value;
    given->count = 1;
    return true;
}

/* Past the separator at text[at], or 0; 'x' may be the sign of multiplication. */
static size_t skip_separator(const cli_option *option, const char *text, size_t at)
{
    if (text[at] == option->separator) {
        return at + 1;
    }
    if (option->separator == 'x' && strncmp(text + at, "\xC3\x97", 2) == 0) {
        return at + 2;
    }
    return 0;
}

static bool read_list(const cli_option *option, const char *text, cli_given *given)
{
    assert(option->most <= CLI_MOST_LIST && option->least > 0);
    size_t at = 0;
    for (int count = 1; count <= option->most; count++) {
        double *number = &given->numbers[count - 1];
        if (!number_at(text, at, option->unit, number, &at) || !in_limits(option, *number)) {
            return false;
        }
        if (text[at] == '\0') {
            given->count = count;
            return count >= option->least;
        }
        at = skip_separator(option, text, at);
        if (at == 0) {
            return false;
        }
    }
    return false;
}

/* ---- one value ---- */

static bool is_choice(const cli_option *option, const char *text)
{
    for (int i = 0; option->choices[i] != NULL; i++) {
        if (strcmp(option->choices[i], text) == 0) {
            return true;
        }
    }
    return false;
}

bool cli_value_read(const cli_option *option, const char *text, cli_given *given, char *expected)
{
    bool good = true;
    switch (option->kind) {
    case CLI_NUMBER:
        describe_number(option, expected);
        good = read_one(option, text, given);
        break;
    case CLI_NUMBERS:
        describe_numbers(option, expected);
        good = read_list(option, text, given);
        break;
    case CLI_CHOICE:
        describe_choice(option, expected);
        good = is_choice(option, text);
        break;
    case CLI_SETTING:
        snprintf(expected, CLI_EXPECTED,
                 "NAME=VALUE, the value a number with %%, deg, mm or nothing behind it");
        good = cli_read_setting(text, given->setting_name, &given->setting);
        break;
    case CLI_TEXT:
    case CLI_FILE:
        snprintf(expected, CLI_EXPECTED, "a text that is not empty");
        good = text[0] != '\0';
        break;
    case CLI_FLAG:
        break;
    }
    return good;
}
