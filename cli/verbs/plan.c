/* lapwing plan: rough, material and kit in; ranked cuts out, and the sheet of the best. */
#include "file.h"
#include "json.h"
#include "kit.h"
#include "plan_say.h"
#include "plan_words.h"
#include "rough.h"
#include "sheet.h"
#include "stone.h"
#include "text.h"

#include "builtin.h"
#include "cut/write.h"

#include <stdlib.h>
#include <string.h>

/* What a plan is made from; all of it lives until the plan is told. */
typedef struct material_and_cuts {
    lw_memory memory;
    lw_found_material found;
    int count;
    lw_cut *cuts;
    lw_plan_cut *named;
} plan_input;

static const char *const skills[] = {"beginner", "practised", "exact", NULL};

/* ---- what goes in ---- */

static void drop_input(plan_input *input)
{
    for (int i = 0; i < input->count; i++) {
        lw_cut_destroy(&input->cuts[i]);
    }
    free(input->cuts);
    free(input->named);
}

/* The cuts named, else all that are built in. */
static bool load_cuts(const cli_args *args, plan_input *input)
{
    bool chosen = args->operand_count > 0;
    int count = chosen ? args->operand_count : lw_builtin_count();
    input->cuts = calloc((size_t)count + 1, sizeof *input->cuts);
    input->named = calloc((size_t)count + 1, sizeof *input->named);
    if (input->cuts == NULL || input->named == NULL) {
        cli_fail("plan: %s", lw_status_text(LW_NO_MEMORY));
        return false;
    }
    for (int i = 0; i < count; i++) {
        const char *name = chosen ? args->operands[i] : lw_builtin_at(i)->name;
        if (!cli_cut_load(&input->memory, name, &input->cuts[i])) {
            return false;
        }
        input->named[i] = (lw_plan_cut){name, &input->cuts[i]};
        input->count = i + 1;
    }
    return true;
}

static bool load_material(const cli_args *args, plan_input *input)
{
    if (!cli_material(args, &input->found)) {
        return false;
    }
    if (input->found.material == NULL) {
        cli_fail("plan: found no --material; expected what the rough is (lapwing materials lists "
                 "them)");
        return false;
    }
    return true;
}

static lw_allowances allowances_given(const cli_args *args)
{
    lw_skill skill = LW_SKILL_PRACTISED;
    (void)lw_skill_find(cli_text(args, "skill", skills[LW_SKILL_PRACTISED]), &skill);
    lw_allowances allowances = lw_allowances_for(skill);
    allowances.caliper_mm = cli_number(args, "caliper-mm", allowances.caliper_mm);
    allowances.wanted_mm = cli_number(args, "margin-mm", 0.0);
    return allowances;
}

static bool make_request(const cli_args *args, const plan_input *input, lw_plan_request *request)
{
    lw_plan_request made = {.cuts = input->named,
                            .cut_count = input->count,
                            .material = input->found.material,
                            .allowances = allowances_given(args),
                            .least_width_mm = cli_number(args, "min-width", 0.0)};
    if (!cli_rough(args, &made) || !cli_kit(args, &made.kit)) {
        return false;
    }
    *request = made;
    return true;
}

/* ---- the sheet ---- */

/* The remarks of the sheet: what was planned, and how it lies in the rough. */
enum { REMARKS = 3, REMARK = 1000 };

static int write_remarks(const lw_plan *plan, const lw_plan_entry *e, char texts[REMARKS][REMARK])
{
    const lw_plan_request *asked = lw_plan_asked(plan);
    const double *mm = asked->readings.mm;
    snprintf(texts[0], REMARK,
             "Planned for a piece of %s x %s x %s mm (%s): %s mm wide (%s to %s), %s ct (%s to "
             "%s).",
             CLI_SHORT(mm[0]), CLI_SHORT(mm[1]), CLI_SHORT(mm[2]),
             lw_habit_describe(asked->habit)->key, CLI_FIXED(e->width_mm.value[1], 1),
             CLI_FIXED(e->width_mm.value[0], 1), CLI_FIXED(e->width_mm.value[2], 1),
             CLI_FIXED(e->weight_ct.value[1], 2), CLI_FIXED(e->weight_ct.value[0], 2),
             CLI_FIXED(e->weight_ct.value[2], 2));
    lw_plan_write_place(plan, e, texts[1], REMARK);
    snprintf(texts[2], REMARK, "%s", lw_plan_orientation_advice(asked->material));
    return texts[2][0] != '\0' ? REMARKS : REMARKS - 1;
}

static char *cut_text(const lw_cut *cut)
{
    size_t length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(length + 1);
    if (text != NULL) {
        lw_cut_write(cut, text, length + 1);
    }
    return text;
}

static cli_exit draw_best(const cli_args *args, const plan_input *input, const lw_plan *plan,
                          const char *path)
{
    const lw_plan_entry *best = lw_plan_best(plan);
    char texts[REMARKS][REMARK];
    const char *remarks[REMARKS] = {texts[0], texts[1], texts[2]};
    char *text = cut_text(&best->adapted.cut);
    if (text == NULL) {
        return cli_fail("plan: %s", lw_status_text(LW_NO_MEMORY));
    }
    cli_sheet_room room;
    lw_draw_job job = {.cut_text = text,
                       .size_kind = LW_SIZE_WIDTH_MM,
                       .size = best->width_mm.value[LW_CASE_LIKELY],
                       .remarks = remarks,
                       .remark_count = write_remarks(plan, best, texts)};
    cli_sheet_machine(args, &job);
    cli_sheet_material(&input->found, &room, &job);
    cli_exit result = cli_sheet_write(&job, path);
    free(text);
    return result;
}

/* ---- the verb ---- */

static cli_exit answer(const cli_args *args, const plan_input *input, const lw_plan *plan)
{
    const char *sheet = cli_text(args, "output", NULL);
    bool good = lw_plan_best(plan) != NULL;
    if (sheet != NULL && good) {
        cli_exit drawn = draw_best(args, input, plan, sheet);
        if (drawn != CLI_DONE) {
            return drawn;
        }
    }
    if (args->json) {
        cli_exit printed = cli_json_print(cli_plan_json(plan, good ? sheet : NULL));
        return printed != CLI_DONE ? printed : good ? CLI_DONE : CLI_NO;
    }
    cli_plan_tell(plan, good ? sheet : NULL);
    return good ? CLI_DONE : CLI_NO;
}

static cli_exit run(const cli_args *args)
{
    if (cli_habits_asked(args)) {
        return cli_habits_tell(args);
    }
    plan_input input = {.memory = lw_memory_standard()};
    lw_plan_request request;
    lw_plan *plan = NULL;
    cli_exit result = CLI_WRONG;
    if (load_material(args, &input) && load_cuts(args, &input) &&
        make_request(args, &input, &request) &&
        cli_plan_run(args, &input.memory, &request, &plan)) {
        result = answer(args, &input, plan);
    }
    lw_plan_destroy(plan);
    drop_input(&input);
    return result;
}

static const cli_option options[] = {
    CLI_ROUGH_OPTIONS,
    CLI_MATERIAL_OPTION,
    {.name = "min-width",
     .kind = CLI_NUMBER,
     .value = "W",
     .unit = "mm",
     .lowest = 0,
     .highest = 1000,
     .help = "leave out stones narrower than this"},
    {.name = "skill",
     .kind = CLI_CHOICE,
     .value = "HOW",
     .choices = skills,
     .help = "how much to allow for slips: practised unless given"},
    {.name = "caliper-mm",
     .kind = CLI_NUMBER,
     .value = "E",
     .unit = "mm",
     .lowest = 0,
     .highest = 5,
     .help = "error of a reading, either way (0.1)"},
    CLI_OUTPUT_OPTION("where to draw the best cut's sheet: .pdf, .svg or .png"),
    CLI_KIT_OPTIONS,
    CLI_SHEET_OPTIONS,
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing plan --rough '16x13x10.5 mm' --habit pebble --material quartz --wheels 96,80",
    "lapwing plan oval-brilliant step-octagon --rough 18x9x8 --habit hexagonal-prism --material "
    "beryl --wheels 64 --min-width 6 -o sheet.pdf",
    NULL,
};

const cli_verb cli_verb_plan = {
    .name = "plan",
    .summary = "What this rough can become: size, weight, angles, wheel, and which cut is best",
    .operands = "[CUT...]",
    .operands_least = 0,
    .operands_most = CLI_MOST_OPERANDS,
    .details =
        "Each cut, all that are built in unless some are named, has its angles set for the "
        "material and its teeth for your wheels; the largest stone that fits the rough is searched "
        "for, weighed, and looked at. Size, weight and yield come as likely, least and most. "
        "docs/plan.md says how it is reckoned and how it is ranked.\n\n"
        "Ends with status 1 when no cut comes out as asked.",
    .options = options,
    .examples = examples,
    .run = run,
};
