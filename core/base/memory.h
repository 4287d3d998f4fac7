/* The one allocator hook.
 *
 * All memory of core comes through an lw_memory that the caller hands in. It must outlive what was
 * made with it. Not thread safe in itself: give each thread its own.
 */
#ifndef LW_BASE_MEMORY_H
#define LW_BASE_MEMORY_H

#include "base/status.h"

#include <stddef.h>

typedef struct lw_memory {
    /* Like realloc with the old size known. new_size 0 frees and returns NULL; block may be NULL.
     * Returns NULL when it refuses, and then leaves the block as it was. */
    void *(*resize)(void *context, void *block, size_t old_size, size_t new_size);
    void *context;
} lw_memory;

/* The C library's realloc and free. */
lw_memory lw_memory_standard(void);

/* count items of item_size bytes, zeroed. LW_TOO_LARGE when the product overflows. A count of 0
 * gives NULL and LW_OK. */
lw_status lw_memory_new(const lw_memory *memory, size_t count, size_t item_size, void **out);

/* Frees count items of item_size bytes; NULL is fine. */
void lw_memory_free(const lw_memory *memory, void *block, size_t count, size_t item_size);

/* Makes room in a growing array: *items holds *capacity items of item_size bytes and must come to
 * hold at least needed. On failure the array is as it was. */
lw_status lw_memory_reserve(const lw_memory *memory, void **items, size_t *capacity, size_t needed,
                            size_t item_size);

#endif
