/* One line of a user's text. */
#ifndef LW_BASE_LINE_H
#define LW_BASE_LINE_H

#include "base/problem.h"

/* Is every byte of the line one that a text may hold? UTF-8 (RFC 3629), no control characters but
 * the tab. length is without the line's end; number is the line's, for the problem. LW_BAD_INPUT.
 */
lw_status lw_line_bytes(const char *line, size_t length, int number, lw_problem *problem);

#endif
