/* lapwing places: where a stone is looked at. */
#include "json.h"
#include "place.h"
#include "text.h"

#include "builtin_place.h"

#include <stdio.h>
#include <stdlib.h>

/* ---- the list ----------------------------------------------------------- */

static json_t *row_of(const lw_builtin_place *builtin, const lw_light_place *place)
{
    return json_pack("{s:s, s:s, s:i}", "place", builtin->name, "title", place->name, "lights",
                     place->patch_count);
}

static cli_exit list(const cli_args *args)
{
    json_t *rows = json_array();
    for (int i = 0; i < lw_builtin_place_count(); i++) {
        const lw_builtin_place *builtin = lw_builtin_place_at(i);
        lw_light_place place;
        lw_problem problem = {0};
        if (lw_light_place_read(builtin->text, builtin->length, &place, &problem) != LW_OK) {
            json_decref(rows);
            return cli_fail_problem(builtin->name, &problem);
        }
        json_array_append_new(rows, row_of(builtin, &place));
    }
    if (args->json) {
        return cli_json_print(json_pack("{s:o}", "places", rows));
    }
    for (size_t i = 0; i < json_array_size(rows); i++) {
        const json_t *row = json_array_get(rows, i);
        printf("%-24s%s\n", json_string_value(json_object_get(row, "place")),
               json_string_value(json_object_get(row, "title")));
    }
    json_decref(rows);
    return CLI_DONE;
}

/* ---- one ---------------------------------------------------------------- */

static json_t *to_json(const char *name, const lw_light_place *place, double card, const char *text)
{
    return json_pack("{s:s, s:s, s:i, s:f, s:f, s:s}", "place", name, "title", place->name,
                     "lights", place->patch_count, "head_deg", place->head_deg, "white_card", card,
                     "text", text);
}

/* The text is read even where it is shown as it stands: what cannot be read is not shown as a
 * place. */
static cli_exit show(const cli_args *args, const char *name)
{
    char *text = NULL;
    size_t length = 0;
    lw_light_place place;
    lw_problem problem = {0};
    if (!cli_place_text(name, &text, &length)) {
        return CLI_WRONG;
    }
    cli_exit result = CLI_DONE;
    if (lw_light_place_read(text, length, &place, &problem) != LW_OK) {
        result = cli_fail_problem(name, &problem);
    } else if (args->json) {
        lw_surroundings seen = lw_surroundings_pose(&place, 0.0, 0.0, -1.0);
        result = cli_json_print(to_json(name, &place, lw_surroundings_white_card(&seen), text));
    } else {
        fputs(text, stdout);
    }
    free(text);
    return result;
}

static cli_exit run(const cli_args *args)
{
    return args->operand_count == 0 ? list(args) : show(args, args->operands[0]);
}

/* ---- the table ---------------------------------------------------------- */

static const char *const examples[] = {
    "lapwing places",
    "lapwing places north-window > my-bench.place",
    "lapwing places --json my-bench.place",
    NULL,
};

const cli_verb cli_verb_places = {
    .name = "places",
    .summary = "The built-in places to look at a stone in; one, as text",
    .operands = "[PLACE]",
    .operands_most = 1,
    .details =
        "A place says in a few lines where light comes from and who looks: windows, lamps, "
        "a sky, a bench, the viewer's head. Write one to a file, change it to your own bench, "
        "and name the file wherever --place is asked for.",
    .examples = examples,
    .run = run,
};
