/* How a verb that looks at many stones of one cut looks at them: material, colour, place, head. */
#ifndef LW_CLI_LOOK_MANY_H
#define LW_CLI_LOOK_MANY_H

#include "colour.h"
#include "look.h"
#include "place.h"

#include "seen.h"

/* Rows of a table of options, beside CLI_CUT_OPTIONS. */
#define CLI_LOOK_MANY_OPTIONS                                                                      \
    CLI_LOOK_INDEX_OPTION, CLI_PLACE_OPTION, CLI_COLOUR_OPTIONS,                                   \
        {.name = "head-deg",                                                                       \
         .kind = CLI_NUMBER,                                                                       \
         .value = "H",                                                                             \
         .unit = "deg",                                                                            \
         .lowest = 0.0,                                                                            \
         .highest = 90.0,                                                                          \
         .help = "half-angle of the viewer's head, which is dark (10)"},                           \
        {.name = "unpolarised",                                                                    \
         .kind = CLI_FLAG,                                                                         \
         .help = "average polarisation away at each surface, as general renderers do"},            \
    {                                                                                              \
        .name = "threads", .kind = CLI_NUMBER, .value = "N", .lowest = 1, .highest = 256,          \
        .whole = true, .help = "threads to work with (as many as there are processors)"            \
    }

/* A range of a side's main angle: what is unless it is given. */
#define CLI_ANGLE_RANGE_OPTION(option, says)                                                       \
    {                                                                                              \
        .name = option, .kind = CLI_NUMBERS, .value = "FROM,TO", .unit = "deg", .lowest = 1.0,     \
        .highest = 89.0, .separator = ',', .least = 2, .most = 2, .help = says                     \
    }

/* The look of those options, without tilt or rocking; place is where it keeps its own. Fails with
 * one line on standard error: as cli_look, cli_place_make and cli_colour, and where a colour has no
 * size of stone. */
bool cli_look_many(const cli_args *args, const cli_stone *stone, const lw_material **material,
                   lw_light_place *place, lw_look *out);

/* --threads; 0 when not given. */
int cli_threads(const cli_args *args);

#endif
