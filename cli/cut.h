/* The cut that a verb works on: its operand, its settings and its size. */
#ifndef LW_CLI_CUT_H
#define LW_CLI_CUT_H

#include "options.h"

#include "cut/read.h"
#include "cut/solve.h"
#include "matter/lookup.h"

/* Rows of a table of options: settings and size of a cut. CLI_CUT_OPTIONS for verbs that solve. */
#define CLI_SET_OPTION                                                                             \
    {                                                                                              \
        .name = "set", .kind = CLI_SETTING, .value = "NAME=VALUE", .repeats = true,                \
        .help =                                                                                    \
            "change a setting of the cut; the value in the setting's own unit, or with %, deg "    \
            "or mm behind it"                                                                      \
    }
#define CLI_SIZE_OPTION(option_name, letters, option_unit, text)                                   \
    {                                                                                              \
        .name = option_name, .kind = CLI_NUMBER, .value = letters, .unit = option_unit,            \
        .lowest = 0.01, .highest = 10000, .help = text                                             \
    }
#define CLI_CUT_OPTIONS                                                                            \
    CLI_SET_OPTION,                                                                                \
        CLI_SIZE_OPTION("width-mm", "W", "mm", "width: the least distance between jaws"),          \
        CLI_SIZE_OPTION("diameter-mm", "D", "mm", "diameter through the girdle's corners"),        \
        CLI_SIZE_OPTION("length-mm", "L", "mm", "length: the greatest distance between jaws"),     \
        CLI_SIZE_OPTION("weight-ct", "CT", "ct", "weight; asks for a material"),                   \
        CLI_MATERIAL_OPTION
#define CLI_MATERIAL_OPTION                                                                        \
    {                                                                                              \
        .name = "material", .kind = CLI_TEXT, .value = "M", .names = cli_material_name,            \
        .help = "material, by name: lapwing materials lists them"                                  \
    }

#define CLI_INDEX_OPTION                                                                           \
    {                                                                                              \
        .name = "refractive-index", .kind = CLI_NUMBER, .value = "N", .lowest = 1.05,              \
        .highest = 4, .help = "refractive index, in place of a material"                           \
    }

/* Keys of the materials for completion and suggestions. */
const char *cli_material_name(int index);

/* The text of a built-in cut of that name, or of the file at that path. *text is the caller's to
 * free(). Fails with one line on standard error. */
bool cli_cut_text(const char *name_or_path, char **text, size_t *length);

/* Reads the cut. Fails with one line on standard error. */
bool cli_cut_load(const lw_memory *memory, const char *name_or_path, lw_cut *cut);

/* The material of --material; found->material is NULL when none is given. Fails with one line on
 * standard error when no material is called that. */
bool cli_material(const cli_args *args, lw_found_material *found);

/* The refractive index that decides where light leaks: of --refractive-index, else the lowest of
 * the material; 0 with neither. The verb must have both options. Fails with one line on standard
 * error when both are given. */
bool cli_index(const cli_args *args, const lw_material *material, double *index);

/* Settings and size as given; overrides has room for CLI_MOST_GIVEN and must outlive options. Fails
 * with one line on standard error where two sizes are given, a material is not known, or a weight
 * has none. */
bool cli_solve_options(const cli_args *args, lw_override *overrides, lw_solve_options *options);

#endif
