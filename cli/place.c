#include "place.h"

#include "file.h"
#include "text.h"

#include "builtin_place.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

const char *cli_place_name(int index)
{
    return index < lw_builtin_place_count() ? lw_builtin_place_at(index)->name : NULL;
}

static const char *name_at(const void *context, int i)
{
    (void)context;
    return cli_place_name(i);
}

static bool copy_builtin(const lw_builtin_place *builtin, char **text, size_t *length)
{
    char *copy = malloc(builtin->length + 1);
    if (copy == NULL) {
        cli_fail("out of memory");
        return false;
    }
    memcpy(copy, builtin->text, builtin->length + 1);
    *text = copy;
    *length = builtin->length;
    return true;
}

bool cli_place_text(const char *name_or_path, char **text, size_t *length)
{
    const lw_builtin_place *builtin = lw_builtin_place_find(name_or_path);
    if (builtin != NULL) {
        return copy_builtin(builtin, text, length);
    }
    struct stat about;
    bool plain = strpbrk(name_or_path, "/.") == NULL && strcmp(name_or_path, "-") != 0;
    if (plain && stat(name_or_path, &about) != 0) {
        const char *near = cli_nearest(name_or_path, name_at, NULL);
        cli_fail("found '%.200s'; expected a built-in place or the path of a text (%s%s%s)",
                 name_or_path, near != NULL ? "did you mean " : "lapwing places lists the places",
                 near != NULL ? near : "", near != NULL ? "?" : "");
        return false;
    }
    return cli_file_read(name_or_path, LW_PLACE_MOST_BYTES, text, length);
}

bool cli_place_load(const char *name_or_path, lw_light_place *out)
{
    char *text = NULL;
    size_t length = 0;
    if (!cli_place_text(name_or_path, &text, &length)) {
        return false;
    }
    lw_problem problem = {0};
    lw_status status = lw_light_place_read(text, length, out, &problem);
    free(text);
    if (status != LW_OK) {
        cli_fail_problem(name_or_path, &problem);
    }
    return status == LW_OK;
}

bool cli_place_make(const cli_args *args, lw_light_place *out)
{
    const char *name = cli_text(args, "place", NULL);
    if (name == NULL) {
        *out = lw_light_place_even_sky();
        return true;
    }
    return cli_place_load(name, out);
}
