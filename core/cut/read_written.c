/* A text that is within the limits may pass them when it is written out in full: "1e14," grows to
 * "100000000000000, ". Such a cut could not be read back, so it is not read at all. */
#include "cut/read_parts.h"

#include "cut/write_parts.h"

#include <stdio.h>

lw_status lw_read_check_written(lw_reader *r)
{
    char found[LW_PROBLEM_TEXT];
    lw_out out = lw_out_make(NULL, 0);
    lw_out_cut(&out, &r->cut);
    if (out.longest_line > LW_CUT_MOST_LINE) {
        const int *numbers = r->line_numbers.items;
        lw_place place = {numbers[out.longest_index], 0};
        snprintf(found, sizeof found, "a line of %zu bytes when written out in full",
                 out.longest_line);
        return lw_read_fail_as(r, LW_TOO_LARGE, place, found, "lines of at most 2000 bytes",
                               "a long number takes less room as a let");
    }
    if (out.length > LW_CUT_MOST_BYTES) {
        snprintf(found, sizeof found, "a text of %zu bytes when written out in full", out.length);
        return lw_read_fail_as(r, LW_TOO_LARGE, (lw_place){0, 0}, found, "at most 1048576 bytes",
                               "");
    }
    return LW_OK;
}
