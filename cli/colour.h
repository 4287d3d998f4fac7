/* The colour of a stone: --colour RRGGBB at --colour-mm T, as an absorption. */
#ifndef LW_CLI_COLOUR_H
#define LW_CLI_COLOUR_H

#include "options.h"

#include "light/absorption.h"

/* Rows of a table of options. */
#define CLI_COLOUR_OPTIONS                                                                         \
    {.name = "colour",                                                                             \
     .kind = CLI_TEXT,                                                                             \
     .value = "RRGGBB",                                                                            \
     .help = "the stone's colour in daylight, as sRGB in hexadecimal digits; with --colour-mm"},   \
    {                                                                                              \
        .name = "colour-mm", .kind = CLI_NUMBER, .value = "T", .unit = "mm", .lowest = 0.01,       \
        .highest = 10000, .help = "through how much of it one looks to see that colour"            \
    }

/* Clear when neither option is given. The verb must have both. Fails with one line on standard
 * error. */
bool cli_colour(const cli_args *args, lw_absorption *out);

#endif
