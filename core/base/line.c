#include "base/line.h"

#include <stdbool.h>
#include <stdio.h>

/* Bytes of the UTF-8 character at text, 0 when there is none (RFC 3629: no overlong forms, no
 * surrogates, nothing above U+10FFFF). */
static size_t character_at(const unsigned char *text, size_t left)
{
    unsigned char first = text[0];
    size_t length = first < 0x80                     ? 1
                    : first >= 0xC2 && first <= 0xDF ? 2
                    : (first & 0xF0) == 0xE0         ? 3
                    : first >= 0xF0 && first <= 0xF4 ? 4
                                                     : 0;
    if (length == 0 || length > left) {
        return 0;
    }
    for (size_t i = 1; i < length; i++) {
        if ((text[i] & 0xC0) != 0x80) {
            return 0;
        }
    }
    bool bad = (first == 0xE0 && text[1] < 0xA0) || (first == 0xED && text[1] > 0x9F) ||
               (first == 0xF0 && text[1] < 0x90) || (first == 0xF4 && text[1] > 0x8F);
    return bad ? 0 : length;
}

static lw_status bad_byte(lw_problem *problem, int number, int column, unsigned char byte,
                          size_t size)
{
    char found[LW_PROBLEM_TEXT];
    const char *expected = "text in UTF-8";
    const char *hint = "save the file as UTF-8";
    if (size == 0) {
        snprintf(found, sizeof found, "the byte %02X, which is no UTF-8 here", byte);
    } else if (byte == 0) {
        snprintf(found, sizeof found, "a NUL byte");
        hint = "this looks like no text file";
    } else {
        snprintf(found, sizeof found, "the control character %02X", byte);
        expected = "printable text; the tab is the only control character";
        hint = byte == '\r' ? "a line ends with LF, or with CR and LF" : "";
    }
    return lw_problem_set(problem, LW_BAD_INPUT, number, column, found, expected, hint);
}

lw_status lw_line_bytes(const char *line, size_t length, int number, lw_problem *problem)
{
    const unsigned char *text = (const unsigned char *)line;
    int column = 1;
    for (size_t at = 0; at < length; column++) {
        size_t size = character_at(text + at, length - at);
        bool control = (text[at] < 0x20 && text[at] != '\t') || text[at] == 0x7F;
        bool later_control = size == 2 && text[at] == 0xC2 && text[at + 1] < 0xA0;
        if (size == 0 || control || later_control) {
            unsigned char byte = later_control ? text[at + 1] : text[at];
            return bad_byte(problem, number, column, byte, size);
        }
        at += size;
    }
    return LW_OK;
}
