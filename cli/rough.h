/* A piece of rough, as options of a verb tell it. */
#ifndef LW_CLI_ROUGH_H
#define LW_CLI_ROUGH_H

#include "options.h"

#include "plan.h"
#include "rough/habit.h"

/* Rows of a table of options. */
#define CLI_ROUGH_OPTIONS                                                                          \
    {.name = "rough",                                                                              \
     .kind = CLI_NUMBERS,                                                                          \
     .value = "LxWxD",                                                                             \
     .unit = "mm",                                                                                 \
     .lowest = LW_READING_LEAST_MM,                                                                \
     .highest = LW_READING_MOST_MM,                                                                \
     .separator = 'x',                                                                             \
     .least = 3,                                                                                   \
     .most = 3,                                                                                    \
     .help = "three caliper readings; where the jaws go depends on --habit"},                      \
        {.name = "habit",                                                                          \
         .kind = CLI_TEXT,                                                                         \
         .value = "SHAPE",                                                                         \
         .names = cli_habit_name,                                                                  \
         .help = "what the rough is shaped like: pebble, block, hexagonal-prism, octahedron …; " \
                 "--habit help lists all, and where the jaws go"},                                 \
        {.name = "rough-ct",                                                                       \
         .kind = CLI_NUMBER,                                                                       \
         .value = "CT",                                                                            \
         .unit = "ct",                                                                             \
         .lowest = 0.01,                                                                           \
         .highest = 1000000,                                                                       \
         .help = "weight of the rough on the balance; without it, what the readings make likely"}, \
    {                                                                                              \
        .name = "margin-mm", .kind = CLI_NUMBER, .value = "M", .unit = "mm", .lowest = 0,          \
        .highest = LW_ALLOWANCE_MOST_MM, .help = "material to keep clear all round the stone (0)"  \
    }

/* Keys of the habits, for completion and suggestions. */
const char *cli_habit_name(int index);

/* Whether --habit help was given: then cli_habits_tell has the answer. */
bool cli_habits_asked(const cli_args *args);
cli_exit cli_habits_tell(const cli_args *args);

/* Readings, habit and weight as given, both of the first required. Fails with one line on standard
 * error. */
bool cli_rough(const cli_args *args, lw_plan_request *request);

/* A plan run to its end, with progress on standard error where that is a terminal. Fails with one
 * line on standard error. The request's cuts, names and material must outlive it. */
bool cli_plan_run(const cli_args *args, const lw_memory *memory, const lw_plan_request *request,
                  lw_plan **plan);

#endif
