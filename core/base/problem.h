/* What is wrong with a user's text: where, what was found, what was expected, and a hint.
 *
 * The words are complete sentence fragments in plain English; whoever shows a problem puts them
 * together with lw_problem_write.
 */
#ifndef LW_BASE_PROBLEM_H
#define LW_BASE_PROBLEM_H

#include "base/status.h"

#include <stddef.h>

enum { LW_PROBLEM_TEXT = 240 };

typedef struct lw_problem {
    lw_status status;
    int line;   /* from 1; 0 when no line applies */
    int column; /* from 1, in characters; 0 when no column applies */
    char found[LW_PROBLEM_TEXT];
    char expected[LW_PROBLEM_TEXT];
    char hint[LW_PROBLEM_TEXT]; /* empty when there is none */
} lw_problem;

/* Fills a problem; found, expected and hint are cut at LW_PROBLEM_TEXT - 1 bytes, never inside a
 * UTF-8 character; control characters become '?'. problem may be NULL. Returns status, so that a
 * reader can fail in one line. */
lw_status lw_problem_set(lw_problem *problem, lw_status status, int line, int column,
                         const char *found, const char *expected, const char *hint);

/* "LINE:COLUMN: found F; expected E (H)" without the parts that are absent. Returns the length that
 * the whole text has, like snprintf; the text is cut to capacity. */
size_t lw_problem_write(const lw_problem *problem, char *text, size_t capacity);

#endif
