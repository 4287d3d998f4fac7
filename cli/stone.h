/* The stone that a verb works on: the cut of its operand, solved with its settings and size. */
#ifndef LW_CLI_STONE_H
#define LW_CLI_STONE_H

#include "cut.h"

typedef struct cli_stone {
    lw_memory memory;
    const char *name; /* as given: a built-in cut's name or a path */
    lw_cut cut;
    lw_stone stone;
    lw_found_material found;     /* of --material */
    const lw_material *material; /* found.material, or NULL */
    int override_count;
    lw_override overrides[CLI_MOST_GIVEN];
} cli_stone;

/* Loads and solves args' first operand. Fails with one line on standard error. */
bool cli_stone_make(const cli_args *args, cli_stone *out);
/* The same without its last step: cut, overrides and options are ready for lw_cut_solve. */
bool cli_stone_prepare(const cli_args *args, cli_stone *out, lw_solve_options *options);
void cli_stone_destroy(cli_stone *stone);

/* "pavilion", "crown", "girdle". */
const char *cli_side_text(lw_side side);
/* The tooth as a cutter says it: the highest number for 0. */
double cli_tooth_said(const lw_cut *cut, double tooth);
/* Of a facet, 0 <= azimuth < 360, counter-clockwise seen from the table; 0 for a level one. */
double cli_azimuth_deg(const lw_cut *cut, const lw_facet *facet);
/* Whether the facet has an area on the finished stone. */
bool cli_facet_is_there(const lw_stone *stone, int facet);
/* "57 facets and 16 on the girdle, eight-fold, on a 96 wheel". Same return as snprintf. */
size_t cli_stone_sentence(const cli_stone *stone, char *text, size_t capacity);

#endif
