#include "sheet/phrase.h"

#include <assert.h>
#include <math.h>
#include <string.h>

void lw_phrase_clear(lw_phrase *phrase)
{
    phrase->length = 0;
    phrase->full = false;
    phrase->text[0] = '\0';
}

/* The most bytes of text, up to most, that end with a whole character. */
static size_t whole_characters(const char *text, size_t length, size_t most)
{
    if (length <= most) {
        return length;
    }
    while (most > 0 && ((unsigned char)text[most] & 0xC0u) == 0x80u) {
        most--;
    }
    return most;
}

static void add_bytes(lw_phrase *phrase, const char *text, size_t length)
{
    size_t room = phrase->full ? 0 : LW_PHRASE_BYTES - 1 - phrase->length;
    phrase->full = phrase->full || length > room;
    length = whole_characters(text, length, room);
    memcpy(phrase->text + phrase->length, text, length);
    phrase->length += length;
    phrase->text[phrase->length] = '\0';
}

void lw_phrase_add(lw_phrase *phrase, const char *text)
{
    add_bytes(phrase, text, strlen(text));
}

void lw_phrase_add_start(lw_phrase *phrase, const char *text, size_t most)
{
    size_t length = strlen(text);
    add_bytes(phrase, text, whole_characters(text, length, most));
    if (length > most) {
        lw_phrase_add(phrase, "\u2026");
    }
}

void lw_phrase_add_name(lw_phrase *phrase, const char *name, size_t most)
{
    size_t at = phrase->length;
    lw_phrase_add_start(phrase, name, most);
    bool two = phrase->length > at + 1;
    char next = two ? phrase->text[at + 1] : 'A';
    char first = two ? phrase->text[at] : '\0';
    if (first >= 'A' && first <= 'Z' && next >= 'a' && next <= 'z') {
        phrase->text[at] = (char)(first - 'A' + 'a');
    }
}

void lw_phrase_whole(lw_phrase *phrase, long value)
{
    char digits[24];
    size_t at = sizeof digits - 1;
    unsigned long left = value < 0 ? 0ul - (unsigned long)value : (unsigned long)value;
    digits[at] = '\0';
    do {
        digits[--at] = (char)('0' + left % 10);
        left /= 10;
    } while (left > 0);
    if (value < 0) {
        lw_phrase_add(phrase, "\u2212");
    }
    lw_phrase_add(phrase, digits + at);
}

void lw_phrase_number(lw_phrase *phrase, double value, int decimals)
{
    static const long scales[7] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    assert(decimals >= 0 && decimals <= 6 && fabs(value) < 1e12);
    long scale = scales[decimals];
    long scaled = (long)floor(fabs(value) * (double)scale + 0.5);
    if (value < 0.0 && scaled > 0) {
        lw_phrase_add(phrase, "\u2212");
    }
    lw_phrase_whole(phrase, scaled / scale);
    if (decimals > 0) {
        char tail[8] = ".";
        long rest = scaled % scale;
        for (int i = decimals; i > 0; i--) {
            tail[i] = (char)('0' + rest % 10);
            rest /= 10;
        }
        tail[decimals + 1] = '\0';
        lw_phrase_add(phrase, tail);
    }
}

void lw_phrase_capital(lw_phrase *phrase)
{
    char first = phrase->text[0];
    if (first >= 'a' && first <= 'z') {
        phrase->text[0] = (char)(first - 'a' + 'A');
    }
}

void lw_phrase_count(lw_phrase *phrase, long value)
{
    static const char *const words[13] = {"no",   "one",    "two",   "three", "four",
                                          "five", "six",    "seven", "eight", "nine",
                                          "ten",  "eleven", "twelve"};
    if (value >= 0 && value <= 12) {
        lw_phrase_add(phrase, words[value]);
    } else {
        lw_phrase_whole(phrase, value);
    }
}

void lw_phrase_degrees(lw_phrase *phrase, double degrees)
{
    /* Within half a hundredth of a tenth, the hundredth says nothing. */
    double tenths = degrees * 10.0;
    bool round = fabs(tenths - floor(tenths + 0.5)) < 0.05;
    lw_phrase_number(phrase, degrees, round ? 1 : 2);
    lw_phrase_add(phrase, "\u00b0");
}
