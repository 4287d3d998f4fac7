#include "base/arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <string.h>

enum { BLOCK_BYTES = 16384 };

struct lw_arena_block {
    lw_arena_block *older;
    size_t size; /* of the whole block, this header included */
    size_t used; /* from the block's start */
};

static size_t round_up(size_t bytes)
{
    size_t unit = alignof(max_align_t);
    return (bytes + unit - 1) / unit * unit;
}

lw_arena lw_arena_make(const lw_memory *memory)
{
    return (lw_arena){.memory = *memory, .newest = NULL};
}

void lw_arena_destroy(lw_arena *arena)
{
    while (arena->newest != NULL) {
        lw_arena_block *older = arena->newest->older;
        lw_memory_free(&arena->memory, arena->newest, arena->newest->size, 1);
        arena->newest = older;
    }
}

static lw_arena_block *add_block(lw_arena *arena, size_t wanted)
{
    size_t header = round_up(sizeof(lw_arena_block));
    size_t size = wanted > BLOCK_BYTES - header ? header + wanted : BLOCK_BYTES;
    void *fresh = NULL;
    if (lw_memory_new(&arena->memory, size, 1, &fresh) != LW_OK) {
        return NULL;
    }
    lw_arena_block *block = fresh;
    block->older = arena->newest;
    block->size = size;
    block->used = header;
    arena->newest = block;
    return block;
}

void *lw_arena_new(lw_arena *arena, size_t count, size_t item_size)
{
    if (item_size > 0 && count > (SIZE_MAX / 2 - BLOCK_BYTES) / item_size) {
        return NULL;
    }
    size_t wanted = round_up(count * item_size);
    lw_arena_block *block = arena->newest;
    if (block == NULL || block->size - block->used < wanted) {
        block = add_block(arena, wanted);
    }
    if (block == NULL) {
        return NULL;
    }
    void *place = (char *)block + block->used;
    block->used += wanted;
    return place;
}

char *lw_arena_text(lw_arena *arena, const char *text, size_t length)
{
    char *copy = length == SIZE_MAX ? NULL : lw_arena_new(arena, length + 1, 1);
    if (copy != NULL && length > 0) {
        memcpy(copy, text, length);
    }
    return copy;
}
