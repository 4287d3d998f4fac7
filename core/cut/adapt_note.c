/* The words of a note. */
#include "cut/adapt_parts.h"

#include "base/number.h"

#include <math.h>
#include <string.h>

void lw_note_words(lw_note *note, const char *words)
{
    size_t room = sizeof note->text - 1 - note->length;
    size_t length = strlen(words);
    length = length < room ? length : room;
    memcpy(note->text + note->length, words, length);
    note->length += length;
    note->text[note->length] = '\0';
}

void lw_note_number(lw_note *note, double value)
{
    char text[LW_NUMBER_TEXT];
    (void)lw_number_write(floor(value * 1e4 + 0.5) / 1e4, text);
    lw_note_words(note, text);
}
