#include "cut/stone.h"

#include "cut/outline.h"

#include <assert.h>
#include <math.h>

void lw_stone_destroy(lw_stone *stone)
{
    lw_memory_free(&stone->memory, stone->facets, (size_t)stone->facet_count,
                   sizeof *stone->facets);
    lw_memory_free(&stone->memory, stone->tiers, (size_t)stone->tier_count, sizeof *stone->tiers);
    if (stone->solid.vertices != NULL) {
        lw_polyhedron_destroy(&stone->memory, &stone->solid);
    }
    *stone = (lw_stone){0};
}

double lw_stone_weight_ct(const lw_stone *stone, double specific_gravity)
{
    double mm = stone->unit_mm;
    return stone->measures.mass.volume * mm * mm * mm * specific_gravity / 200.0;
}
