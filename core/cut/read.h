/* Text to cut. */
#ifndef LW_CUT_READ_H
#define LW_CUT_READ_H

#include "cut/cut.h"

/* Reads length bytes of text (need not end in NUL; LF or CRLF; the last line may lack its end).
 * Checks everything that can be known without geometry: words, limits, that names of settings exist
 * and are given before they are used, that facet names in rules are names of steps, that an angle
 * or a tooth that is free has the rules it needs, that a setting lies within its limits, that
 * degrees, lengths and bare numbers stand where they may. On failure *out is untouched and *problem
 * (may be NULL) tells the first thing that is wrong. Destroy the cut with lw_cut_destroy.
 * LW_BAD_INPUT, LW_TOO_LARGE, LW_UNSUPPORTED (concave and cylindrical facets), LW_NO_MEMORY. */
lw_status lw_cut_read(const lw_memory *memory, const char *text, size_t length, lw_cut *out,
                      lw_problem *problem);

#endif
