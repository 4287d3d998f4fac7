/* lapwing fit: where a cut fits in one piece of rough. */
#include "cut.h"
#include "json.h"
#include "plan_say.h"
#include "plan_words.h"
#include "rough.h"
#include "text.h"

#include "cut/adapt.h"

#include <stdio.h>
#include <string.h>

/* Nothing is taken off but what was asked for, the readings are taken as exact, and the cut stays
 * as it is. */
static bool make_request(const cli_args *args, const lw_plan_cut *cut, const lw_material *material,
                         lw_plan_request *request)
{
    lw_plan_request made = {.cuts = cut,
                            .cut_count = 1,
                            .material = material,
                            .keep_cuts = true,
                            .allowances = {.wanted_mm = cli_number(args, "margin-mm", 0.0)}};
    if (!cli_rough(args, &made)) {
        return false;
    }
    *request = made;
    return true;
}

static json_t *to_json(const lw_plan *plan, const lw_plan_entry *e)
{
    json_t *object = json_pack("{s:s, s:s, s:b, s:f}", "cut", e->name, "material",
                               lw_plan_asked(plan)->material->key, "fits", 1, "rough_ct",
                               lw_plan_rough_ct(plan));
    char place[1000];
    lw_plan_write_place(plan, e, place, sizeof place);
    json_object_update_new(object, cli_plan_placement_json(plan, e));
    static const char *const ranges[] = {"width_mm_range", "length_mm_range", "depth_mm_range",
                                         "weight_ct_range", "yield_range"};
    for (size_t i = 0; i < sizeof ranges / sizeof *ranges; i++) {
        json_object_del(object, ranges[i]);
    }
    json_object_set_new(object, "place", json_string(place));
    return object;
}

static void tell(const lw_plan *plan, const lw_plan_entry *e)
{
    char text[1000];
    cli_plan_tell_rough(plan);
    printf("\n%s (%s) fits\n", e->adapted.cut.title, e->name);
    snprintf(text, sizeof text, "%s mm wide, %s mm long, %s mm deep",
             CLI_FIXED(e->width_mm.value[1], 3), CLI_FIXED(e->length_mm.value[1], 3),
             CLI_FIXED(e->depth_mm.value[1], 3));
    cli_plan_line("Size", text);
    snprintf(text, sizeof text, "%s ct, %s %% of the rough", CLI_FIXED(e->weight_ct.value[1], 3),
             CLI_FIXED(100.0 * e->yield.value[1], 1));
    cli_plan_line("Weight", text);
    lw_plan_write_place(plan, e, text, sizeof text);
    cli_plan_line("Lies", text);
    snprintf(text, sizeof text, "%s mm at the nearest place; %d placements were looked at",
             CLI_FIXED(e->evidence.clearance_mm, 3), e->tried);
    cli_plan_line("Clear", text);
}

static cli_exit answer(const cli_args *args, const lw_plan *plan)
{
    const lw_plan_entry *e = lw_plan_at(plan, 0);
    if (e->state == LW_PLAN_FAILED) {
        return cli_fail_problem(e->name, &e->problem);
    }
    if (e->state == LW_PLAN_NO_ROOM) {
        if (args->json) {
            cli_exit printed = cli_json_print(json_pack("{s:s, s:b}", "cut", e->name, "fits", 0));
            return printed == CLI_DONE ? CLI_NO : printed;
        }
        printf("Nothing of %s is left in this rough once the margin is off.\n", e->name);
        return CLI_NO;
    }
    if (args->json) {
        return cli_json_print(to_json(plan, e));
    }
    tell(plan, e);
    return CLI_DONE;
}

/* What fit works on; all of it lives until the answer is out. */
typedef struct fit_input {
    lw_memory memory;
    lw_found_material found;
    lw_cut cut, baked; /* as given, and with the settings in it */
} fit_input;

static bool bake_settings(const cli_args *args, fit_input *input)
{
    lw_override overrides[CLI_MOST_GIVEN];
    lw_problem problem = {0};
    const cli_given *given = NULL;
    int count = 0;
    while ((given = cli_repeated(args, "set", count)) != NULL) {
        overrides[count++] = given->setting;
    }
    if (lw_adapt_settings(&input->memory, &input->cut, overrides, count, &input->baked, &problem) !=
        LW_OK) {
        cli_fail_problem(args->operands[0], &problem);
        return false;
    }
    return true;
}

static bool prepare(const cli_args *args, fit_input *input)
{
    if (!cli_material(args, &input->found)) {
        return false;
    }
    if (input->found.material == NULL) {
        cli_fail("fit: found no --material; expected what the rough is (lapwing materials lists "
                 "them)");
        return false;
    }
    return cli_cut_load(&input->memory, args->operands[0], &input->cut) &&
           bake_settings(args, input);
}

static cli_exit run(const cli_args *args)
{
    if (cli_habits_asked(args)) {
        return cli_habits_tell(args);
    }
    fit_input input = {.memory = lw_memory_standard()};
    lw_plan *plan = NULL;
    lw_plan_request request;
    cli_exit result = CLI_WRONG;
    if (prepare(args, &input)) {
        lw_plan_cut named = {args->operands[0], &input.baked};
        if (make_request(args, &named, input.found.material, &request) &&
            cli_plan_run(args, &input.memory, &request, &plan)) {
            result = answer(args, plan);
        }
    }
    lw_plan_destroy(plan);
    lw_cut_destroy(&input.baked);
    lw_cut_destroy(&input.cut);
    return result;
}

static const cli_option options[] = {CLI_ROUGH_OPTIONS, CLI_SET_OPTION, CLI_MATERIAL_OPTION,
                                     CLI_OPTIONS_END};

static const char *const examples[] = {
    "lapwing fit oval-brilliant --rough '14x10x8 mm' --habit pebble --material quartz --margin-mm "
    "0.2",
    NULL,
};

const cli_verb cli_verb_fit = {
    .name = "fit",
    .summary = "Where a cut fits in a piece of rough, and how large",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "The cut stays as it is, the readings are taken as exact, and nothing is kept clear "
        "but --margin-mm; plan is the verb that allows for the cutter. rotation, row by row, "
        "turns a point of the stone (in mm, as solve gives it at this width) into the "
        "rough's frame, and shift_mm moves it there: x lies along the first reading, y "
        "along the second, z along the third, the origin in the middle.\n\n"
        "What is found fits; that nothing larger does is not proved. Ends with status 1 "
        "when nothing fits.",
    .options = options,
    .examples = examples,
    .run = run,
};
