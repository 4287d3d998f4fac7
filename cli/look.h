/* What a verb that follows light in a stone looks at it with: a material, or an index alone. */
#ifndef LW_CLI_LOOK_H
#define LW_CLI_LOOK_H

#include "stone.h"

#include "light/measures.h"

/* A row of a table of options, beside CLI_CUT_OPTIONS. */
#define CLI_LOOK_INDEX_OPTION                                                                      \
    {                                                                                              \
        .name = "refractive-index", .kind = CLI_NUMBER, .value = "N", .lowest = 1.0,               \
        .highest = 4.0,                                                                            \
        .help = "the stone's own index; alone, without dispersion and so without fire"             \
    }

/* Where the eye stands. */
#define CLI_LOOK_EYE_OPTIONS                                                                       \
    {.name = "tilt-deg",                                                                           \
     .kind = CLI_NUMBER,                                                                           \
     .value = "T",                                                                                 \
     .unit = "deg",                                                                                \
     .lowest = 0.0,                                                                                \
     .highest = 89.0,                                                                              \
     .help = "how far the eye stands off the table's normal (0)"},                                 \
    {                                                                                              \
        .name = "turn-deg", .kind = CLI_NUMBER, .value = "U", .unit = "deg", .lowest = -360.0,     \
        .highest = 360.0, .help = "toward which side, counter-clockwise from tooth 0 (0)"          \
    }

/* The material that the stone is seen in: as given, else the first that the cut suits; with an
 * index alone *material stays NULL. And the index at each line: the mean over the material's rays,
 * for doubling is not followed; moved to --refractive-index where both are given. Fails with one
 * line on standard error. */
bool cli_look(const cli_args *args, const cli_stone *stone, const lw_material **material,
              lw_light_index *index);

#endif
