#include "base/problem.h"

#include <stdio.h>
#include <string.h>

/* Copies text, cut to the capacity before the first byte of a UTF-8 character that does not fit. */
static void copy_clean(char *to, const char *from)
{
    size_t length = from == NULL ? 0 : strlen(from);
    if (length > LW_PROBLEM_TEXT - 1) {
        length = LW_PROBLEM_TEXT - 1;
        while (length > 0 && ((unsigned char)from[length] & 0xC0u) == 0x80u) {
            length--;
        }
    }
    for (size_t i = 0; i < length; i++) {
        unsigned char byte = (unsigned char)from[i];
        to[i] = (byte < 0x20 || byte == 0x7F) ? '?' : from[i];
    }
    to[length] = '\0';
}

lw_status lw_problem_set(lw_problem *problem, lw_status status, int line, int column,
                         const char *found, const char *expected, const char *hint)
{
    if (problem != NULL) {
        problem->status = status;
        problem->line = line;
        problem->column = column;
        copy_clean(problem->found, found);
        copy_clean(problem->expected, expected);
        copy_clean(problem->hint, hint);
    }
    return status;
}

size_t lw_problem_write(const lw_problem *problem, char *text, size_t capacity)
{
    char place[48] = "";
    if (problem->line > 0 && problem->column > 0) {
        snprintf(place, sizeof place, "%d:%d: ", problem->line, problem->column);
    } else if (problem->line > 0) {
        snprintf(place, sizeof place, "%d: ", problem->line);
    }
    const char *found = problem->found[0] ? problem->found : lw_status_text(problem->status);
    const char *middle = problem->expected[0] ? "; expected " : "";
    const char *open = problem->hint[0] ? " (" : "";
    const char *close = problem->hint[0] ? ")" : "";
    const char *lead = problem->found[0] ? "found " : "";
    int written = snprintf(text, capacity, "%s%s%s%s%s%s%s%s", place, lead, found, middle,
                           problem->expected, open, problem->hint, close);
    return written < 0 ? 0 : (size_t)written;
}
