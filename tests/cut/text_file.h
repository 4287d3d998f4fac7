/* Files for the tests of the cut language. */
#ifndef LW_TESTS_TEXT_FILE_H
#define LW_TESTS_TEXT_FILE_H

#include <stddef.h>

/* The whole file in memory of exactly its size, to be freed; NULL when it cannot be read. A NUL
 * stands behind the last byte and is not counted. */
char *text_of_file(const char *path, size_t *length);

/* Calls visit with the path of every file of a folder whose name ends as told, in the order of the
 * names. Returns how many there were. */
int each_file(const char *folder, const char *ending, void (*visit)(const char *path));

#endif
