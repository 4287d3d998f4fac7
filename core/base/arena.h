/* Many small blocks that live and die together. */
#ifndef LW_BASE_ARENA_H
#define LW_BASE_ARENA_H

#include "base/memory.h"

typedef struct lw_arena_block lw_arena_block;

typedef struct lw_arena {
    lw_memory memory;
    lw_arena_block *newest;
} lw_arena;

/* An empty arena; allocates nothing yet. */
lw_arena lw_arena_make(const lw_memory *memory);
/* Frees every block; the arena is empty and usable again. Fine on a zeroed arena and twice. */
void lw_arena_destroy(lw_arena *arena);

/* count items of item_size bytes, zeroed, aligned for any type. NULL when the product overflows or
 * memory is out; what was given before stays valid. A count of 0 gives a block of no use, not
 * NULL. */
void *lw_arena_new(lw_arena *arena, size_t count, size_t item_size);

/* A copy of length bytes of text with a NUL behind it; NULL when memory is out. */
char *lw_arena_text(lw_arena *arena, const char *text, size_t length);

#endif
