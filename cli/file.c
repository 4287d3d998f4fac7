#include "file.h"

#include "text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool too_long(const char *path, size_t limit)
{
    cli_fail("%s: found more than %zu bytes; expected at most that", path, limit);
    return false;
}

static bool cannot(const char *doing, const char *path)
{
    cli_fail("%s: cannot %s: %s", path, doing, strerror(errno));
    return false;
}

/* Reads until the end or one byte past the limit; grows as it goes, so that a short pipe costs
 * little. */
static bool read_all(int descriptor, const char *path, size_t limit, char **text, size_t *length)
{
    size_t capacity = 0, used = 0;
    char *bytes = NULL;
    for (;;) {
        if (capacity - used < 2) {
            capacity = capacity < 32768 ? 32768 : 2 * capacity;
            char *grown = realloc(bytes, capacity);
            if (grown == NULL) {
                free(bytes);
                cli_fail("out of memory");
                return false;
            }
            bytes = grown;
        }
        ssize_t got = read(descriptor, bytes + used, capacity - used - 1);
        if (got < 0 && errno == EINTR) {
            continue;
        }
        if (got < 0 || used + (size_t)got > limit) {
            free(bytes);
            return got < 0 ? cannot("read", path) : too_long(path, limit);
        }
        if (got == 0) {
            bytes[used] = '\0';
            *text = bytes;
            *length = used;
            return true;
        }
        used += (size_t)got;
    }
}

bool cli_file_read(const char *path, size_t limit, char **text, size_t *length)
{
    if (strcmp(path, "-") == 0) {
        return read_all(STDIN_FILENO, "standard input", limit, text, length);
    }
    int descriptor = open(path, O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) {
        return cannot("open", path);
    }
    struct stat about;
    bool good = false;
    if (fstat(descriptor, &about) != 0) {
        cannot("read", path);
    } else if (S_ISDIR(about.st_mode)) {
        cli_fail("%s: found a folder; expected a file", path);
    } else if (S_ISREG(about.st_mode) && (unsigned long long)about.st_size > limit) {
        too_long(path, limit);
    } else {
        good = read_all(descriptor, path, limit, text, length);
    }
    close(descriptor);
    return good;
}

bool cli_write_all(int descriptor, const char *bytes, size_t length)
{
    while (length > 0) {
        ssize_t done = write(descriptor, bytes, length);
        if (done < 0 && errno == EINTR) {
            continue;
        }
        if (done <= 0) {
            return false;
        }
        bytes += done;
        length -= (size_t)done;
    }
    return true;
}

static void forget(cli_file_out *out)
{
    free(out->path);
    free(out->temporary);
    *out = (cli_file_out){.descriptor = -1};
}

/* Beside the file a link points to, so that the link stays one. */
static char *end_of_links(const char *path)
{
    char *resolved = realpath(path, NULL);
    return resolved != NULL ? resolved : strdup(path);
}

static bool begin_beside(const char *path, cli_file_out *out)
{
    size_t room = strlen(out->path) + sizeof ".XXXXXX";
    out->temporary = malloc(room);
    if (out->temporary == NULL) {
        cli_fail("out of memory");
        return false;
    }
    snprintf(out->temporary, room, "%s.XXXXXX", out->path);
    out->descriptor = mkstemp(out->temporary);
    if (out->descriptor < 0) {
        return cannot("write", path);
    }
    mode_t mask = umask(0);
    umask(mask);
    (void)fchmod(out->descriptor, 0666 & ~mask);
    (void)fcntl(out->descriptor, F_SETFD, FD_CLOEXEC);
    return true;
}

bool cli_file_begin(const char *path, cli_file_out *out)
{
    struct stat about;
    bool there = stat(path, &about) == 0;
    if (there && S_ISDIR(about.st_mode)) {
        cli_fail("%s: found a folder; expected a place for a file", path);
        return false;
    }
    cli_file_out file = {.descriptor = -1, .path = end_of_links(path)};
    bool good = file.path != NULL;
    if (!good) {
        cli_fail("out of memory");
    } else if (there && !S_ISREG(about.st_mode)) {
        file.descriptor = open(path, O_WRONLY | O_CLOEXEC);
        good = file.descriptor >= 0 || cannot("write", path);
    } else {
        good = begin_beside(path, &file);
    }
    if (!good) {
        forget(&file);
        return false;
    }
    *out = file;
    return true;
}

bool cli_file_finish(cli_file_out *out)
{
    bool written = (out->temporary == NULL || fsync(out->descriptor) == 0);
    written = close(out->descriptor) == 0 && written;
    out->descriptor = -1;
    if (written && out->temporary != NULL) {
        written = rename(out->temporary, out->path) == 0;
    }
    if (!written) {
        cannot("write", out->path);
        cli_file_drop(out);
        return false;
    }
    forget(out);
    return true;
}

void cli_file_drop(cli_file_out *out)
{
    if (out->descriptor >= 0) {
        close(out->descriptor);
    }
    if (out->temporary != NULL) {
        unlink(out->temporary);
    }
    forget(out);
}

bool cli_file_write(const char *path, const char *bytes, size_t length)
{
    cli_file_out out;
    if (!cli_file_begin(path, &out)) {
        return false;
    }
    if (!cli_write_all(out.descriptor, bytes, length)) {
        cannot("write", path);
        cli_file_drop(&out);
        return false;
    }
    return cli_file_finish(&out);
}
