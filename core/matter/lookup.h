/* Finding a material by what a person types.
 *
 * Keys, names and names of varieties count alike; capitals, blanks, hyphens, apostrophes and the
 * order of words do not ("Pyrope garnet" is "garnet_pyrope"). Names of more than 64 letters and
 * digits are not found. Pure; safe from any thread.
 */
#ifndef LW_MATTER_LOOKUP_H
#define LW_MATTER_LOOKUP_H

#include "matter/material.h"

typedef struct lw_found_material {
    const lw_material *material;
    const lw_variety *variety; /* the variety whose name it was; NULL for key or name */
    const char *matched;       /* the key or name that matched */
    int distance;              /* letters to change; 0 for the name itself */
} lw_found_material;

/* LW_NOT_FOUND, or LW_AMBIGUOUS when several materials carry the name ("garnet", "glass"): then
 * lw_material_suggest lists them. A key wins over a variety's name. */
lw_status lw_material_find(const char *name, lw_found_material *found);

/* What name may have meant, nearest first and then in the order of the table: those that carry it,
 * contain it or differ by few letters (about one in three). Writes at most capacity of them, one a
 * material, and returns how many it wrote. */
size_t lw_material_suggest(const char *name, lw_found_material *found, size_t capacity);

/* The cautions of what was found: the material's and its variety's. */
unsigned lw_found_cautions(const lw_found_material *found);

#endif
