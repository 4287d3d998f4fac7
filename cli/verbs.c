#include "verb.h"

#include <string.h>

/* Each verb's own file defines its table; named here and in the row below. */
extern const cli_verb cli_verb_plan;
extern const cli_verb cli_verb_cuts;
extern const cli_verb cli_verb_show;
extern const cli_verb cli_verb_solve;
extern const cli_verb cli_verb_check;
extern const cli_verb cli_verb_adapt;
extern const cli_verb cli_verb_light;
extern const cli_verb cli_verb_places;
extern const cli_verb cli_verb_picture;
extern const cli_verb cli_verb_tune;
extern const cli_verb cli_verb_map;
extern const cli_verb cli_verb_fit;
extern const cli_verb cli_verb_sheet;
extern const cli_verb cli_verb_materials;
extern const cli_verb cli_verb_identify;
extern const cli_verb cli_verb_kit;
extern const cli_verb cli_verb_help;

/* clang-format off */
const cli_verb *const cli_verbs[] = {
    &cli_verb_plan,
    &cli_verb_cuts,
    &cli_verb_show,
    &cli_verb_solve,
    &cli_verb_check,
    &cli_verb_adapt,
    &cli_verb_light,
    &cli_verb_places,
    &cli_verb_picture,
    &cli_verb_tune,
    &cli_verb_map,
    &cli_verb_fit,
    &cli_verb_sheet,
    &cli_verb_materials,
    &cli_verb_identify,
    &cli_verb_kit,
    &cli_verb_help,
    NULL,
};
/* clang-format on */

const cli_verb *cli_verb_find(const char *name)
{
    for (int i = 0; cli_verbs[i] != NULL; i++) {
        if (strcmp(cli_verbs[i]->name, name) == 0) {
            return cli_verbs[i];
        }
    }
    return NULL;
}
