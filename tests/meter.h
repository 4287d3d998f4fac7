/* An allocator that counts, and that can be told to refuse one request. */
#ifndef LW_TESTS_METER_H
#define LW_TESTS_METER_H

#include "base/memory.h"

#include <stdlib.h>
#include <string.h>

typedef struct meter {
    long refuse_at; /* the n-th request is refused; 0: none */
    long asked;     /* requests so far, growths included */
    long held;      /* bytes that are out */
    long most;      /* the most that were out at once */
} meter;

/* A block moves whenever it changes size, so that a pointer that was kept shows. */
static inline void *meter_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    meter *m = context;
    void *fresh = NULL;
    if (new_size > 0) {
        if (++m->asked == m->refuse_at || (fresh = malloc(new_size)) == NULL) {
            return NULL;
        }
        if (block != NULL) {
            memcpy(fresh, block, old_size < new_size ? old_size : new_size);
        }
    }
    free(block);
    m->held += (long)new_size - (long)old_size;
    m->most = m->held > m->most ? m->held : m->most;
    return fresh;
}

static inline lw_memory meter_memory(meter *m)
{
    return (lw_memory){.resize = meter_resize, .context = m};
}

#endif
