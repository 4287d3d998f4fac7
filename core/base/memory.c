#include "base/memory.h"

#include <assert.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static void *standard_resize(void *context, void *block, size_t old_size, size_t new_size)
{
    (void)context;
    (void)old_size;
    if (new_size == 0) {
        free(block);
        return NULL;
    }
    return realloc(block, new_size);
}

lw_memory lw_memory_standard(void)
{
    return (lw_memory){.resize = standard_resize, .context = NULL};
}

lw_status lw_memory_new(const lw_memory *memory, size_t count, size_t item_size, void **out)
{
    assert(item_size > 0);
    if (count > SIZE_MAX / item_size) {
        return LW_TOO_LARGE;
    }
    if (count == 0) {
        *out = NULL;
        return LW_OK;
    }
    void *block = memory->resize(memory->context, NULL, 0, count * item_size);
    if (block == NULL) {
        return LW_NO_MEMORY;
    }
    memset(block, 0, count * item_size);
    *out = block;
    return LW_OK;
}

void lw_memory_free(const lw_memory *memory, void *block, size_t count, size_t item_size)
{
    if (block != NULL) {
        (void)memory->resize(memory->context, block, count * item_size, 0);
    }
}

lw_status lw_memory_reserve(const lw_memory *memory, void **items, size_t *capacity, size_t needed,
                            size_t item_size)
{
    if (needed <= *capacity) {
        return LW_OK;
    }
    size_t grown = *capacity < 8 ? 8 : *capacity;
    while (grown < needed) {
        if (grown > SIZE_MAX / 2 / item_size) {
            return LW_TOO_LARGE;
        }
        grown *= 2;
    }
    void *block = memory->resize(memory->context, *items, *capacity * item_size, grown * item_size);
    if (block == NULL) {
        return LW_NO_MEMORY;
    }
    memset((char *)block + *capacity * item_size, 0, (grown - *capacity) * item_size);
    *items = block;
    *capacity = grown;
    return LW_OK;
}
