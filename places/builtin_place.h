/* The built-in places: the texts of this folder, embedded when lapwing is built. */
#ifndef LW_PLACES_BUILTIN_PLACE_H
#define LW_PLACES_BUILTIN_PLACE_H

#include <stddef.h>

typedef struct lw_builtin_place {
    const char *name; /* the file's name without ".place" */
    const char *text; /* as it stands in the file, with a NUL behind it */
    size_t length;    /* bytes, the NUL not counted */
} lw_builtin_place;

/* How many there are. */
int lw_builtin_place_count(void);

/* The i-th by name, 0 <= i < count: asserted. Static storage, like all that is found here. */
const lw_builtin_place *lw_builtin_place_at(int i);

/* The one of that name, or NULL. */
const lw_builtin_place *lw_builtin_place_find(const char *name);

#endif
