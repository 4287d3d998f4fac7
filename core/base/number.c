#include "base/number.h"

#include <assert.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_BYTES = 64 };

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t digits_at(const char *text, size_t length, size_t at)
{
    size_t end = at;
    while (end < length && is_digit(text[end])) {
        end++;
    }
    return end - at;
}

/* How many bytes at the start of text form a number; 0 for none. *point gets the point's place. */
static size_t scan(const char *text, size_t length, size_t *point)
{
    size_t whole = digits_at(text, length, 0);
    size_t end = whole;
    size_t fraction = 0;
    *point = length;
    if (end < length && text[end] == '.') {
        fraction = digits_at(text, length, end + 1);
        if (whole + fraction > 0) {
            *point = end;
            end += 1 + fraction;
        }
    }
    if (whole + fraction == 0) {
        return 0;
    }
    if (end < length && (text[end] == 'e' || text[end] == 'E')) {
        size_t at = end + 1;
        if (at < length && (text[at] == '+' || text[at] == '-')) {
            at++;
        }
        size_t exponent = digits_at(text, length, at);
        if (exponent > 0) {
            end = at + exponent;
        }
    }
    return end;
}

bool lw_number_read(const char *text, size_t length, double *value, size_t *used)
{
    size_t point = 0;
    size_t taken = scan(text, length, &point);
    if (taken == 0 || taken > MOST_BYTES) {
        return false;
    }
    /* strtod wants the point of the locale in force: put it there, whatever it is. */
    const char *mark = localeconv()->decimal_point;
    char copy[MOST_BYTES + 16];
    size_t mark_length = strlen(mark);
    if (mark_length == 0 || mark_length > 8) {
        return false;
    }
    size_t head = point < taken ? point : taken;
    memcpy(copy, text, head);
    size_t end = head;
    if (point < taken) {
        memcpy(copy + end, mark, mark_length);
        end += mark_length;
        memcpy(copy + end, text + point + 1, taken - point - 1);
        end += taken - point - 1;
    }
    copy[end] = '\0';
    double result = strtod(copy, NULL);
    if (!isfinite(result)) {
        return false;
    }
    *value = result;
    *used = taken;
    return true;
}

bool lw_number_read_all(const char *text, double *value)
{
    bool negative = text[0] == '-';
    const char *body = text + (text[0] == '-' || text[0] == '+' ? 1 : 0);
    size_t length = strlen(body);
    size_t used = 0;
    double magnitude = 0.0;
    if (length > MOST_BYTES || !lw_number_read(body, length, &magnitude, &used) || used != length) {
        return false;
    }
    *value = negative ? -magnitude : magnitude;
    return true;
}

/* Puts '.' where the locale's own point stands. */
static void make_plain(char *text)
{
    const char *mark = localeconv()->decimal_point;
    size_t mark_length = strlen(mark);
    char *place = mark_length > 0 ? strstr(text, mark) : NULL;
    if (place != NULL) {
        *place = '.';
        memmove(place + 1, place + mark_length, strlen(place + mark_length) + 1);
    }
}

size_t lw_number_write(double value, char text[LW_NUMBER_TEXT])
{
    assert(isfinite(value));
    double size = fabs(value);
    bool fixed = value == 0.0 || (size >= 1e-5 && size < 1e15);
    for (int digits = 1; digits <= 17; digits++) {
        char candidate[48];
        snprintf(candidate, sizeof candidate, "%.*e", digits - 1, value);
        if (strtod(candidate, NULL) != value) {
            continue;
        }
        if (fixed) {
            const char *exponent = strchr(candidate, 'e');
            int power = exponent == NULL ? 0 : atoi(exponent + 1);
            int decimals = digits - 1 - power;
            snprintf(candidate, sizeof candidate, "%.*f", decimals > 0 ? decimals : 0, value);
        }
        make_plain(candidate);
        assert(strlen(candidate) < LW_NUMBER_TEXT);
        memcpy(text, candidate, strlen(candidate) + 1);
        return strlen(text);
    }
    assert(false);
    text[0] = '\0';
    return 0;
}
