#include "cut/write_parts.h"

#include "base/number.h"

#include <stdio.h>
#include <string.h>

lw_out lw_out_make(char *text, size_t capacity)
{
    return (lw_out){.text = text, .capacity = capacity};
}

size_t lw_out_end(lw_out *out)
{
    if (out->capacity > 0) {
        out->text[out->length < out->capacity ? out->length : out->capacity - 1] = '\0';
    }
    return out->length;
}

static void put(lw_out *out, const char *bytes, size_t length)
{
    if (out->length < out->capacity) {
        size_t room = out->capacity - out->length;
        memcpy(out->text + out->length, bytes, length < room ? length : room);
    }
    out->length += length;
}

void lw_out_text(lw_out *out, const char *text)
{
    put(out, text, strlen(text));
}

void lw_out_number(lw_out *out, double number)
{
    char text[LW_NUMBER_TEXT];
    put(out, text, lw_number_write(number, text));
}

void lw_out_whole(lw_out *out, int number)
{
    char text[16];
    snprintf(text, sizeof text, "%d", number);
    lw_out_text(out, text);
}

void lw_out_quoted(lw_out *out, const char *text)
{
    lw_out_text(out, "\"");
    lw_out_text(out, text);
    lw_out_text(out, "\"");
}

void lw_out_pad(lw_out *out, size_t start, size_t width)
{
    do {
        put(out, " ", 1);
    } while (out->length - start < width);
}

void lw_out_line_end(lw_out *out)
{
    size_t length = out->length - out->line_start;
    if (length > out->longest_line) {
        out->longest_line = length;
        out->longest_index = out->line_count;
    }
    put(out, "\n", 1);
    out->line_start = out->length;
    out->line_count++;
}
