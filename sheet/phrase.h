/* Putting sentences together: a text of bounded length that grows by pieces, with numbers written
 * the same whatever the locale. What does not fit is left off at a whole character; full tells. */
#ifndef LW_SHEET_PHRASE_H
#define LW_SHEET_PHRASE_H

#include <stdbool.h>
#include <stddef.h>

enum { LW_PHRASE_BYTES = 2048 };

typedef struct lw_phrase {
    size_t length;
    bool full;
    char text[LW_PHRASE_BYTES];
} lw_phrase;

void lw_phrase_clear(lw_phrase *phrase);
void lw_phrase_add(lw_phrase *phrase, const char *text);
/* At most that many bytes of it, whole characters, and a mark of omission where it is longer. */
void lw_phrase_add_start(lw_phrase *phrase, const char *text, size_t most);
void lw_phrase_whole(lw_phrase *phrase, long value);
/* With that many decimals (0..6), rounded half away from zero; |value| below 1e12. */
void lw_phrase_number(lw_phrase *phrase, double value, int decimals);
/* The first letter as a capital, where it is one of a..z. */
void lw_phrase_capital(lw_phrase *phrase);

/* A name within a sentence: its first letter small, where the next one is small too, and at most
 * that many bytes of it. */
void lw_phrase_add_name(lw_phrase *phrase, const char *name, size_t most);
/* "one", "two" … "twelve", then figures. */
void lw_phrase_count(lw_phrase *phrase, long value);
/* An angle as a head is set to it: 43.0°, 42.24°: tenths, and hundredths where they are not 0. */
void lw_phrase_degrees(lw_phrase *phrase, double degrees);

#endif
