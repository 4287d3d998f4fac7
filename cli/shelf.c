#include "shelf.h"

#include "file.h"
#include "options.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static bool copy(const char *shipped, size_t size, char **text)
{
    char *made = malloc(size + 1);
    if (made == NULL) {
        cli_fail("out of memory");
        return false;
    }
    memcpy(made, shipped, size + 1);
    *text = made;
    return true;
}

static void no_such(const cli_shelf *shelf, const char *word)
{
    const char *near = cli_nearest(word, shelf->name_at, NULL);
    if (near != NULL) {
        cli_fail("found '%.200s'; expected a built-in %s or the path of a text (did you mean %s?)",
                 word, shelf->noun, near);
    } else {
        cli_fail("found '%.200s'; expected a built-in %s or the path of a text (lapwing %ss lists "
                 "the %ss)",
                 word, shelf->noun, shelf->noun, shelf->noun);
    }
}

bool cli_shelf_text(const cli_shelf *shelf, const char *name_or_path, char **text, size_t *length)
{
    size_t size = 0;
    const char *shipped = shelf->find(name_or_path, &size);
    if (shipped != NULL) {
        if (!copy(shipped, size, text)) {
            return false;
        }
        *length = size;
        return true;
    }
    struct stat about;
    bool plain = strpbrk(name_or_path, "/.") == NULL && strcmp(name_or_path, "-") != 0;
    if (plain && stat(name_or_path, &about) != 0) {
        no_such(shelf, name_or_path);
        return false;
    }
    return cli_file_read(name_or_path, shelf->most_bytes, text, length);
}
