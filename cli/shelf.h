/* Texts that ship with lapwing, beside those of a user's own files. */
#ifndef LW_CLI_SHELF_H
#define LW_CLI_SHELF_H

#include "verb.h"

typedef struct cli_shelf {
    const char *noun;                                      /* "cut"; "cuts" lists them */
    const char *(*name_at)(const void *context, int i);    /* NULL at the end */
    const char *(*find)(const char *name, size_t *length); /* NULL when there is none */
    size_t most_bytes;                                     /* of a file */
} cli_shelf;

/* The text of that name, else that of a file ("-": standard input). *text is NUL-terminated and the
 * caller's to free(). Fails with one line on standard error. */
bool cli_shelf_text(const cli_shelf *shelf, const char *name_or_path, char **text, size_t *length);

#endif
