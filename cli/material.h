/* A material by what the user typed, and how it is told. */
#ifndef LW_CLI_MATERIAL_H
#define LW_CLI_MATERIAL_H

#include "verb.h"

#include "matter/lookup.h"

#include <jansson.h>

/* Finds it by key, name or variety. Fails with one line on standard error, "lapwing: WHERE: …",
 * that names what carries the name or what may have been meant. where: the verb, or the verb and
 * the option. */
bool cli_material_named(const char *where, const char *name, lw_found_material *found);

/* A row of the list, and all that is known of one. New references, NULL when out of memory. */
json_t *cli_material_row(const lw_material *material);
json_t *cli_material_whole(const lw_found_material *found);

/* All that is known of one, on standard output. */
void cli_material_tell(const lw_found_material *found);

/* The index of each ray at a wavelength within the visible; json and print alike. */
json_t *cli_material_at_wavelength(const lw_material *material, double wavelength_um);
void cli_material_tell_at_wavelength(const lw_material *material, double wavelength_um);

#endif
