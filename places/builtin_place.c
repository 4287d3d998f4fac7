#include "builtin_place.h"

#include <assert.h>
#include <string.h>

/* Made from the texts at build time; sorted by name. */
extern const lw_builtin_place lw_builtin_place_table[];
extern const int lw_builtin_place_table_count;

int lw_builtin_place_count(void)
{
    return lw_builtin_place_table_count;
}

const lw_builtin_place *lw_builtin_place_at(int i)
{
    assert(i >= 0 && i < lw_builtin_place_table_count);
    return &lw_builtin_place_table[i];
}

const lw_builtin_place *lw_builtin_place_find(const char *name)
{
    for (int i = 0; i < lw_builtin_place_table_count; i++) {
        if (strcmp(lw_builtin_place_table[i].name, name) == 0) {
            return &lw_builtin_place_table[i];
        }
    }
    return NULL;
}
