/* lapwing cuts: what is built in. */
#include "cut.h"
#include "json.h"
#include "text.h"

#include "builtin.h"

#include <stdio.h>

static json_t *describe(const lw_builtin *builtin, const lw_cut *cut)
{
    json_t *suits = json_array();
    for (int i = 0; i < cut->suit_count; i++) {
        json_array_append_new(suits, json_string(cut->suits[i]));
    }
    return json_pack("{s:s, s:s, s:i, s:i, s:b, s:o}", "cut", builtin->name, "title", cut->title,
                     "wheel", cut->wheel, "fold", cut->fold, "mirror", (int)cut->mirror, "suits",
                     suits);
}

static cli_exit run(const cli_args *args)
{
    lw_memory memory = lw_memory_standard();
    json_t *list = json_array();
    for (int i = 0; i < lw_builtin_count(); i++) {
        const lw_builtin *builtin = lw_builtin_at(i);
        lw_cut cut = {0};
        lw_problem problem = {0};
        if (lw_cut_read(&memory, builtin->text, builtin->length, &cut, &problem) != LW_OK) {
            json_decref(list);
            return cli_fail_problem(builtin->name, &problem);
        }
        json_array_append_new(list, describe(builtin, &cut));
        lw_cut_destroy(&cut);
    }
    if (args->json) {
        return cli_json_print(json_pack("{s:o}", "cuts", list));
    }
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *row = json_array_get(list, i);
        printf("%-24s%s\n", json_string_value(json_object_get(row, "cut")),
               json_string_value(json_object_get(row, "title")));
    }
    json_decref(list);
    return CLI_DONE;
}

static const char *const examples[] = {"lapwing cuts", NULL};

const cli_verb cli_verb_cuts = {
    .name = "cuts",
    .summary = "The built-in cuts",
    .examples = examples,
    .run = run,
};
