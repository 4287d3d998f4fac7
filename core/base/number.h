/* Decimal numbers, the same whatever the locale. */
#ifndef LW_BASE_NUMBER_H
#define LW_BASE_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* Long enough for any double that lw_number_write writes, with its end. */
enum { LW_NUMBER_TEXT = 32 };

/* Reads an unsigned decimal number (digits, at most one point, optional exponent e/E) at the start
 * of text, at most length bytes. Gives the value, correctly rounded, and how many bytes it took.
 * False, with the outputs untouched, when no number stands there, when it takes more than 64 bytes
 * or when it is not finite. No sign, no hexadecimal, no "inf": a sign is the caller's. */
bool lw_number_read(const char *text, size_t length, double *value, size_t *used);

/* The whole of text as one number, with an optional sign, nothing before or after it. */
bool lw_number_read_all(const char *text, double *value);

/* The shortest decimal text that reads back to exactly this double, with '.' as its point and no
 * exponent where 1e-5 <= |value| < 1e15. value must be finite. Returns the length. */
size_t lw_number_write(double value, char text[LW_NUMBER_TEXT]);

#endif
