#include "cut.h"

#include "material.h"
#include "shelf.h"
#include "text.h"

#include "builtin.h"
#include "matter/refraction.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *cli_material_name(int index)
{
    return (size_t)index < lw_material_count() ? lw_material_at((size_t)index)->key : NULL;
}

static const char *builtin_name_at(const void *context, int i)
{
    (void)context;
    return i < lw_builtin_count() ? lw_builtin_at(i)->name : NULL;
}

static const char *find_builtin(const char *name, size_t *length)
{
    const lw_builtin *builtin = lw_builtin_find(name);
    if (builtin == NULL) {
        return NULL;
    }
    *length = builtin->length;
    return builtin->text;
}

bool cli_cut_text(const char *name_or_path, char **text, size_t *length)
{
    static const cli_shelf cuts = {"cut", builtin_name_at, find_builtin, LW_CUT_MOST_BYTES};
    return cli_shelf_text(&cuts, name_or_path, text, length);
}

bool cli_cut_load(const lw_memory *memory, const char *name_or_path, lw_cut *cut)
{
    char *text = NULL;
    size_t length = 0;
    if (!cli_cut_text(name_or_path, &text, &length)) {
        return false;
    }
    lw_problem problem = {0};
    lw_status status = lw_cut_read(memory, text, length, cut, &problem);
    free(text);
    if (status != LW_OK) {
        cli_fail_problem(name_or_path, &problem);
    }
    return status == LW_OK;
}

/* ---- settings and size ---- */

static const struct {
    const char *option;
    lw_size_kind kind;
} sizes[] = {
    {"width-mm", LW_SIZE_WIDTH_MM},
    {"diameter-mm", LW_SIZE_DIAMETER_MM},
    {"length-mm", LW_SIZE_LENGTH_MM},
    {"weight-ct", LW_SIZE_WEIGHT_CT},
};

static bool take_sizes(const cli_args *args, lw_solve_options *options)
{
    const char *first = NULL;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        if (!cli_has(args, sizes[i].option)) {
            continue;
        }
        if (first != NULL) {
            cli_fail("%s: found --%s beside --%s; expected one size", args->verb->name,
                     sizes[i].option, first);
            return false;
        }
        first = sizes[i].option;
        options->size_kind = sizes[i].kind;
        options->size = cli_number(args, first, 0.0);
    }
    return true;
}

bool cli_material(const cli_args *args, lw_found_material *found)
{
    const char *name = cli_text(args, "material", NULL);
    lw_found_material result = {0};
    char where[64];
    snprintf(where, sizeof where, "%s: --material", args->verb->name);
    if (name != NULL && !cli_material_named(where, name, &result)) {
        return false;
    }
    *found = result;
    return true;
}

bool cli_index(const cli_args *args, const lw_material *material, double *index)
{
    double given = cli_number(args, "refractive-index", 0.0);
    if (given > 0.0 && material != NULL) {
        cli_fail("%s: found --refractive-index beside --material; expected one of them",
                 args->verb->name);
        return false;
    }
    *index = material != NULL ? lw_material_lowest_index(material) : given;
    return true;
}

bool cli_solve_options(const cli_args *args, lw_override *overrides, lw_solve_options *options)
{
    lw_solve_options result = {.overrides = overrides};
    const cli_given *given = NULL;
    while ((given = cli_repeated(args, "set", result.override_count)) != NULL) {
        overrides[result.override_count++] = given->setting;
    }
    lw_found_material found = {0};
    if (!take_sizes(args, &result) || !cli_material(args, &found)) {
        return false;
    }
    if (found.material != NULL) {
        result.specific_gravity = found.material->sg;
    } else if (result.size_kind == LW_SIZE_WEIGHT_CT) {
        cli_fail("%s: found --weight-ct alone; expected --material with it", args->verb->name);
        return false;
    }
    *options = result;
    return true;
}
