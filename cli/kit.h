/* What is at the bench, as options of a verb tell it. */
#ifndef LW_CLI_KIT_H
#define LW_CLI_KIT_H

#include "options.h"

#include "craft/kit.h"

/* Rows of a table of options. */
#define CLI_KIT_OPTIONS                                                                            \
    {.name = "wheels",                                                                             \
     .kind = CLI_NUMBERS,                                                                          \
     .value = "N,N",                                                                               \
     .lowest = LW_KIT_LEAST_TEETH,                                                                 \
     .highest = LW_KIT_MOST_TEETH,                                                                 \
     .whole = true,                                                                                \
     .separator = ',',                                                                             \
     .least = 1,                                                                                   \
     .most = LW_KIT_MOST,                                                                          \
     .help = "teeth of the index wheels at hand"},                                                 \
        {.name = "dops-mm",                                                                        \
         .kind = CLI_NUMBERS,                                                                      \
         .value = "D,D",                                                                           \
         .unit = "mm",                                                                             \
         .lowest = 0.5,                                                                            \
         .highest = 100,                                                                           \
         .separator = ',',                                                                         \
         .least = 1,                                                                               \
         .most = LW_KIT_MOST,                                                                      \
         .help = "diameters of the dops at hand"},                                                 \
        {.name = "laps",                                                                           \
         .kind = CLI_NUMBERS,                                                                      \
         .value = "N,N",                                                                           \
         .lowest = 10,                                                                             \
         .highest = LW_KIT_MOST_MESH,                                                              \
         .whole = true,                                                                            \
         .separator = ',',                                                                         \
         .least = 1,                                                                               \
         .most = LW_KIT_MOST,                                                                      \
         .help = "mesh of the laps at hand: 260,1200,8000"},                                       \
        {.name = "polish",                                                                         \
         .kind = CLI_CHOICE,                                                                       \
         .value = "WHAT",                                                                          \
         .choices = cli_polishes,                                                                  \
         .repeats = true,                                                                          \
         .help = "a polish at hand"},                                                              \
        {.name = "have",                                                                           \
         .kind = CLI_CHOICE,                                                                       \
         .value = "WHAT",                                                                          \
         .choices = cli_bench_parts,                                                               \
         .repeats = true,                                                                          \
         .help = "at hand"},                                                                       \
        {.name = "lack",                                                                           \
         .kind = CLI_CHOICE,                                                                       \
         .value = "WHAT",                                                                          \
         .choices = cli_bench_parts,                                                               \
         .repeats = true,                                                                          \
         .help = "not at hand"},                                                                   \
        CLI_COUNTS_OPTION

#define CLI_COUNTS_OPTION                                                                          \
    {                                                                                              \
        .name = "counts", .kind = CLI_CHOICE, .value = "WAY", .choices = cli_counts,               \
        .help = "how the wheel's numbers go up, seen from behind it with the stone beyond; "       \
                "counter-clockwise unless given"                                                   \
    }

extern const char *const cli_polishes[];
extern const char *const cli_bench_parts[];
extern const char *const cli_counts[];

/* The machine's sense, as --counts says. */
lw_counts cli_counts_given(const cli_args *args);

/* The kit as told. Fails with one line on standard error where something is both there and not. */
bool cli_kit(const cli_args *args, lw_kit *kit);

#endif
