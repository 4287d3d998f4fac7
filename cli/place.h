/* The place that a stone is looked at in: --place, a built-in one or a text. */
#ifndef LW_CLI_PLACE_H
#define LW_CLI_PLACE_H

#include "options.h"

#include "light/place.h"

/* A row of a table of options. */
#define CLI_PLACE_OPTION                                                                           \
    {                                                                                              \
        .name = "place", .kind = CLI_TEXT, .value = "PLACE", .names = cli_place_name,              \
        .help = "where the stone is looked at: a built-in place or a text of your own; lapwing "   \
                "places lists them (an even sky)"                                                  \
    }

/* Names of the built-in places for completion and suggestions; NULL at the end. */
const char *cli_place_name(int index);

/* The text of a built-in place of that name, or of the file at that path. *text is the caller's to
 * free(). Fails with one line on standard error. */
bool cli_place_text(const char *name_or_path, char **text, size_t *length);

/* Reads the place. Fails with one line on standard error. */
bool cli_place_load(const char *name_or_path, lw_light_place *out);

/* The place of --place, or the even sky. The verb must have the option. Fails with one line on
 * standard error. */
bool cli_place_make(const cli_args *args, lw_light_place *out);

#endif
