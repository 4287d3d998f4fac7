/* What may have been meant by a word that nothing carries. */
#ifndef LW_BASE_NEAREST_H
#define LW_BASE_NEAREST_H

#include <stddef.h>

/* Longer words are near nothing. */
enum { LW_NEAREST_MOST = 40 };

/* The word of the list that is nearest to text by letters added, dropped, changed or swapped; NULL
 * when none is near enough to have been meant. */
const char *lw_nearest(const char *text, size_t length, const char *const *words, int count);

#endif
