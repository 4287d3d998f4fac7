/* Files in and out. */
#ifndef LW_CLI_FILE_H
#define LW_CLI_FILE_H

#include "verb.h"

/* Reads a whole file of at most limit bytes; "-" is standard input. *text is NUL-terminated and is
 * the caller's to free(). Fails with one line on standard error. */
bool cli_file_read(const char *path, size_t limit, char **text, size_t *length);

/* A file on its way: written under a name of its own beside the place it is for, and moved there
 * when it is whole. Where path is no ordinary file (a device, a pipe) it is written to directly. */
typedef struct cli_file_out {
    int descriptor;  /* to write to */
    char *path;      /* where it will be */
    char *temporary; /* where it is; NULL when written directly */
} cli_file_out;

/* Each fails with one line on standard error and leaves nothing behind. */
bool cli_file_begin(const char *path, cli_file_out *out);
bool cli_file_finish(cli_file_out *out);
/* Forgets it: nothing is left, what stood at path still stands. */
void cli_file_drop(cli_file_out *out);

/* All bytes to a descriptor; false with errno set. */
bool cli_write_all(int descriptor, const char *bytes, size_t length);

/* Writes a file whole or not at all. Fails with one line on standard error. */
bool cli_file_write(const char *path, const char *bytes, size_t length);

/* A row of a table of options. */
#define CLI_OUTPUT_OPTION(text)                                                                    \
    {                                                                                              \
        .name = "output", .letter = 'o', .kind = CLI_FILE, .value = "FILE", .help = text           \
    }

#endif
