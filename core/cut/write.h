/* Cut to text. */
#ifndef LW_CUT_WRITE_H
#define LW_CUT_WRITE_H

#include "cut/cut.h"

#include <stddef.h>

/* Writes the cut in its canonical layout: reading that text gives the same cut (same numbers to the
 * last bit, same comments), and writing that one gives the same text. Returns the length of the
 * whole text without its NUL; like snprintf, writes at most capacity bytes with a NUL; text may be
 * NULL with capacity 0. */
size_t lw_cut_write(const lw_cut *cut, char *text, size_t capacity);

/* Pieces in the same words, for messages: an expression, a facet as named in a rule ("left main"),
 * a point ("meet left main, own girdle"). Same return as lw_cut_write. */
size_t lw_expr_write(const lw_expr *expr, char *text, size_t capacity);
size_t lw_facet_ref_write(const lw_facet_ref *facet, char *text, size_t capacity);
size_t lw_point_write(const lw_point *point, char *text, size_t capacity);

#endif
