#include "place.h"

#include "shelf.h"
#include "text.h"

#include "builtin_place.h"

#include <stdlib.h>
#include <string.h>

const char *cli_place_name(int index)
{
    return index < lw_builtin_place_count() ? lw_builtin_place_at(index)->name : NULL;
}

static const char *name_at(const void *context, int i)
{
    (void)context;
    return cli_place_name(i);
}

static const char *find_builtin(const char *name, size_t *length)
{
    const lw_builtin_place *builtin = lw_builtin_place_find(name);
    if (builtin == NULL) {
        return NULL;
    }
    *length = builtin->length;
    return builtin->text;
}

bool cli_place_text(const char *name_or_path, char **text, size_t *length)
{
    static const cli_shelf places = {"place", name_at, find_builtin, LW_PLACE_MOST_BYTES};
    return cli_shelf_text(&places, name_or_path, text, length);
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
