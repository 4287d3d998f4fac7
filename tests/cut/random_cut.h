/* Texts of the cut language made at random, most of them good. */
#ifndef LW_TESTS_RANDOM_CUT_H
#define LW_TESTS_RANDOM_CUT_H

#include <stddef.h>
#include <stdint.h>

/* Writes a text of at most capacity - 1 bytes and a NUL; the same seed gives the same text. */
size_t random_cut(uint64_t seed, char *text, size_t capacity);

#endif
