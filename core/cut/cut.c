#include "cut/cut.h"

void lw_cut_destroy(lw_cut *cut)
{
    lw_arena arena = cut->arena;
    lw_arena_destroy(&arena);
    *cut = (lw_cut){.arena = {.memory = cut->arena.memory}};
}
