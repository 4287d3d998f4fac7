/* The built-in cuts: the texts of this folder, embedded when lapwing is built. */
#ifndef LW_CUTS_BUILTIN_H
#define LW_CUTS_BUILTIN_H

#include <stddef.h>

typedef struct lw_builtin {
    const char *name; /* the file's name without ".cut" */
    const char *text; /* as it stands in the file, with a NUL behind it */
    size_t length;    /* bytes, the NUL not counted */
} lw_builtin;

/* How many there are. */
int lw_builtin_count(void);

/* The i-th by name, 0 <= i < count: asserted. Static storage, like all that is found here. */
const lw_builtin *lw_builtin_at(int i);

/* The one of that name, or NULL. */
const lw_builtin *lw_builtin_find(const char *name);

#endif
