/* lapwing adapt: a cut for another material, wheel, outline or hand. */
#include "file.h"
#include "json.h"
#include "kit.h"
#include "stone.h"
#include "text.h"

#include "cut/adapt.h"
#include "cut/dial.h"
#include "cut/write.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One change after the other, each from the stone that the last one left. */
enum { MOST_CHANGES = 5 };

typedef struct chain {
    const lw_memory *memory;
    const char *name;
    const lw_cut *cut;
    const lw_stone *stone;
    int count;
    lw_adapted changes[MOST_CHANGES];
    bool suits_as_it_is; /* the material asks for no other angles */
    bool refitted;       /* whether a wheel was asked for */
    lw_wheel_fit fit;
    int wheel_count; /* that have every tooth */
    int wheels[LW_WHEEL_COMMON];
    lw_problem problem;
} chain;

/* Takes over what an adapting function left in the next place. */
static bool took(chain *c, lw_status status)
{
    if (status != LW_OK) {
        cli_fail_problem(c->name, &c->problem);
        return false;
    }
    lw_adapted *done = &c->changes[c->count++];
    c->cut = &done->cut;
    c->stone = &done->stone;
    return true;
}

static lw_adapted *next_place(chain *c)
{
    return &c->changes[c->count];
}

/* ---- the changes ---- */

static bool change_outline(const cli_args *args, chain *c)
{
    if (!cli_has(args, "length-over-width")) {
        return true;
    }
    return took(c, lw_adapt_to_outline(c->memory, c->cut, c->stone,
                                       cli_number(args, "length-over-width", 1.0),
                                       cli_has(args, "whole-teeth"), next_place(c), &c->problem));
}

/* The angles that suit the material unless one is given. */
static bool choose_angles(const cli_args *args, const lw_material *material, chain *c,
                          lw_adapt_angles *angles)
{
    double index = 0.0;
    if (!cli_index(args, material, &index)) {
        return false;
    }
    if (index != 0.0 && !cli_has(args, "pavilion-deg") && !cli_has(args, "keep-angles")) {
        double margin = cli_number(args, "margin-deg", LW_MAIN_MARGIN_DEG);
        lw_status status = lw_angles_for_material(
            c->cut, c->stone, material != NULL ? material->key : NULL, index, margin, angles);
        if (status == LW_NO_SOLUTION) {
            cli_fail("adapt: found a refractive index of %s; expected at least 1.4142: below it no "
                     "pavilion returns light from straight above (--pavilion-deg sets an angle all "
                     "the same)",
                     CLI_SHORT(index));
            return false;
        }
        if (status != LW_OK) {
            cli_fail(
                "adapt: found a cut without slanting pavilion facets; expected some to change");
            return false;
        }
        c->suits_as_it_is = angles->pavilion_deg == 0.0;
    }
    angles->pavilion_deg = cli_number(args, "pavilion-deg", angles->pavilion_deg);
    angles->crown_deg = cli_number(args, "crown-deg", 0.0);
    return true;
}

static bool change_angles(const cli_args *args, const lw_material *material, chain *c)
{
    lw_adapt_angles angles = {0};
    if (!choose_angles(args, material, c, &angles)) {
        return false;
    }
    if (angles.pavilion_deg == 0.0 && angles.crown_deg == 0.0) {
        return true;
    }
    return took(
        c, lw_adapt_to_angles(c->memory, c->cut, c->stone, &angles, next_place(c), &c->problem));
}

static bool change_hand(const cli_args *args, chain *c)
{
    return !cli_has(args, "mirror") ||
           took(c, lw_adapt_to_mirror(c->memory, c->cut, c->stone, next_place(c), &c->problem));
}

static bool change_wheel(const cli_args *args, chain *c)
{
    if (!cli_has(args, "wheel")) {
        return true;
    }
    int wheel = (int)cli_number(args, "wheel", 0.0);
    c->refitted = true;
    lw_wheel_fit_stone(c->stone, c->cut->wheel, wheel, &c->fit);
    c->wheel_count = lw_wheels_that_do(c->stone, c->cut->wheel, c->wheels);
    return took(
        c, lw_adapt_to_wheel(c->memory, c->cut, c->stone, &c->fit, next_place(c), &c->problem));
}

/* ---- telling ---- */

/* The cut as text, malloc'd; NULL when memory is out. */
static char *text_of(const lw_cut *cut)
{
    size_t length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(length + 1);
    if (text != NULL) {
        lw_cut_write(cut, text, length + 1);
    }
    return text;
}

static bool all_exact(const chain *c)
{
    for (int i = 0; i < c->count; i++) {
        if (!c->changes[i].exact) {
            return false;
        }
    }
    return true;
}

/* The side that is turned to the lap: the section that the step stands in. */
static lw_dial dial_of(const chain *c, lw_counts counts, int facet)
{
    const lw_dial_kit kit = {.wheel = c->cut->wheel, .counts = counts};
    const lw_facet *f = &c->stone->facets[facet];
    return lw_dial_of(&kit, c->cut->steps[f->step].side, f->tooth);
}

static json_t *steps_json(const chain *c, lw_counts counts)
{
    json_t *list = json_array();
    for (int i = 0; i < c->stone->tier_count; i++) {
        const lw_tier *tier = &c->stone->tiers[i];
        json_t *dials = json_array();
        for (int j = tier->first; j < tier->first + tier->count; j++) {
            lw_dial dial = dial_of(c, counts, j);
            json_array_append_new(dials, json_pack("{s:i, s:f}", "tooth", dial.number,
                                                   "cheater_deg", dial.cheater_deg));
        }
        if (tier->count == 0) {
            json_decref(dials);
            continue;
        }
        json_array_append_new(list, json_pack("{s:i, s:s, s:s, s:f, s:o}", "step", i + 1, "name",
                                              c->cut->steps[i].name, "side",
                                              cli_side_text(c->stone->facets[tier->first].side),
                                              "angle_deg", tier->angle_deg, "dials", dials));
    }
    return list;
}

static json_t *wheel_json(const chain *c)
{
    json_t *wheels = json_array();
    for (int i = 0; i < c->wheel_count; i++) {
        json_array_append_new(wheels, json_integer(c->wheels[i]));
    }
    return json_pack("{s:i, s:b, s:f, s:i, s:f, s:o}", "wheel", c->fit.wheel, "every_tooth_there",
                     (int)c->fit.whole, "turned_by_teeth", c->fit.offset, "whole_teeth",
                     c->fit.whole_count, "greatest_cheater_deg", c->fit.greatest_cheater_deg,
                     "wheels_that_do", wheels);
}

static void put_mm(json_t *object, const lw_stone *stone, const char *key, double value)
{
    json_object_set_new(object, key,
                        stone->unit_mm > 0.0 ? json_real(value * stone->unit_mm) : json_null());
}

static json_t *chain_json(const cli_args *args, const chain *c, const lw_material *material,
                          const char *text)
{
    const lw_stone *stone = c->stone;
    json_t *notes = json_array();
    for (int i = 0; i < c->count; i++) {
        json_array_append_new(notes, json_string(c->changes[i].note));
    }
    json_t *object =
        json_pack("{s:s, s:b, s:o}", "cut", c->name, "exact", (int)all_exact(c), "changes", notes);
    put_mm(object, stone, "width_mm", stone->measures.width);
    put_mm(object, stone, "length_mm", stone->measures.length);
    put_mm(object, stone, "depth_mm", stone->measures.depth);
    bool weighed = material != NULL && stone->unit_mm > 0.0;
    json_object_set_new(object, "weight_ct",
                        weighed ? json_real(lw_stone_weight_ct(stone, material->sg)) : json_null());
    if (c->refitted) {
        json_object_set_new(object, "wheel_fit", wheel_json(c));
    }
    json_object_set_new(object, "steps", steps_json(c, cli_counts_given(args)));
    json_object_set_new(object, "text", json_string(text));
    return object;
}

static void print_dials(const chain *c, lw_counts counts, const lw_tier *tier)
{
    for (int i = tier->first; i < tier->first + tier->count; i++) {
        lw_dial dial = dial_of(c, counts, i);
        printf(" %d", dial.number);
        if (dial.cheater_deg != 0.0) {
            /* Half a hundredth goes away from 0, whatever rounding left of it. */
            double shown = dial.cheater_deg + (dial.cheater_deg > 0.0 ? 1e-9 : -1e-9);
            printf("%s%s°", shown > 0.0 ? "+" : "", CLI_FIXED(shown, 2));
        }
    }
}

static void print_steps(const chain *c, lw_counts counts)
{
    printf("What to dial (cheater behind the number):\n");
    for (int i = 0; i < c->stone->tier_count; i++) {
        const lw_tier *tier = &c->stone->tiers[i];
        if (tier->count > 0) {
            printf("  %2d  %-8s  %-16s%6s°  ", i + 1,
                   cli_side_text(c->stone->facets[tier->first].side), c->cut->steps[i].name,
                   CLI_FIXED(tier->angle_deg, 2));
            print_dials(c, counts, tier);
            printf("\n");
        }
    }
}

static void print_wheel(const chain *c)
{
    if (!c->refitted || c->fit.whole) {
        return;
    }
    printf("Not every tooth is on a wheel of %d: the cheater goes up to %s degrees.", c->fit.wheel,
           CLI_FIXED(c->fit.greatest_cheater_deg, 2));
    for (int i = 0; i < c->wheel_count; i++) {
        printf("%s%d", i == 0 ? " Wheels that have every tooth: " : ", ", c->wheels[i]);
    }
    printf("%s\n", c->wheel_count > 0 ? "." : " No common wheel has every tooth.");
}

static void print_size(const chain *c, const lw_material *material)
{
    const lw_stone *stone = c->stone;
    if (stone->unit_mm == 0.0) {
        return;
    }
    printf("%s mm wide, %s long, %s deep", CLI_FIXED(stone->measures.width * stone->unit_mm, 2),
           CLI_FIXED(stone->measures.length * stone->unit_mm, 2),
           CLI_FIXED(stone->measures.depth * stone->unit_mm, 2));
    if (material != NULL) {
        printf(", %s ct in %s", CLI_FIXED(lw_stone_weight_ct(stone, material->sg), 3),
               material->name);
    }
    printf(".\n");
}

static void print_chain(const cli_args *args, const chain *c, const lw_material *material)
{
    if (c->suits_as_it_is) {
        printf("Its angles suit %s as they are.\n",
               material != NULL ? material->name : "that index");
    }
    for (int i = 0; i < c->count; i++) {
        printf("%s\n", c->changes[i].note);
        if (!c->changes[i].exact) {
            printf("  (solved again: not an exact image of the stone before)\n");
        }
    }
    print_size(c, material);
    print_wheel(c);
    print_steps(c, cli_counts_given(args));
}

static cli_exit report(const cli_args *args, const chain *c, const lw_material *material)
{
    const char *path = cli_text(args, "output", NULL);
    char *text = text_of(c->cut);
    if (text == NULL) {
        return cli_fail("out of memory");
    }
    cli_exit result = CLI_DONE;
    if (path != NULL && !cli_file_write(path, text, strlen(text))) {
        result = CLI_WRONG;
    } else if (args->json) {
        result = cli_json_print(chain_json(args, c, material, text));
    } else if (path != NULL) {
        print_chain(args, c, material);
        printf("Written to %s.\n", path);
    } else {
        fputs(text, stdout);
    }
    free(text);
    return result;
}

/* ---- running ---- */

/* The cut with its settings written in, solved at the size asked for. */
static bool begin(const cli_args *args, cli_stone *s, lw_cut *baked, lw_stone *stone)
{
    lw_solve_options options = {0};
    lw_problem problem = {0};
    if (!cli_stone_prepare(args, s, &options)) {
        return false;
    }
    lw_status status = lw_adapt_settings(&s->memory, &s->cut, options.overrides,
                                         options.override_count, baked, &problem);
    options.override_count = 0;
    if (status == LW_OK) {
        status = lw_cut_solve(&s->memory, baked, &options, stone, &problem);
    }
    if (status != LW_OK) {
        cli_fail_problem(s->name, &problem);
    }
    return status == LW_OK;
}

/* The size that was asked for is that of the cut as it is at the end. */
static bool size_again(const cli_args *args, chain *c, lw_stone *again)
{
    static lw_override overrides[CLI_MOST_GIVEN];
    lw_solve_options options = {0};
    if (!cli_solve_options(args, overrides, &options)) {
        return false;
    }
    if (options.size_kind == LW_SIZE_NONE || c->count == 0) {
        return true;
    }
    options.override_count = 0;
    if (lw_cut_solve(c->memory, c->cut, &options, again, &c->problem) != LW_OK) {
        cli_fail_problem(c->name, &c->problem);
        return false;
    }
    c->stone = again;
    return true;
}

static cli_exit run(const cli_args *args)
{
    static cli_stone s;
    static chain c;
    lw_cut baked = {0};
    lw_stone stone = {0}, again = {0};
    cli_exit result = CLI_WRONG;
    if (begin(args, &s, &baked, &stone)) {
        c = (chain){.memory = &s.memory, .name = s.name, .cut = &baked, .stone = &stone};
        if (change_outline(args, &c) && change_angles(args, s.material, &c) &&
            change_hand(args, &c) && change_wheel(args, &c) && size_again(args, &c, &again)) {
            result = report(args, &c, s.material);
        }
    }
    for (int i = 0; i < c.count; i++) {
        lw_adapted_destroy(&c.changes[i]);
    }
    lw_stone_destroy(&again);
    lw_stone_destroy(&stone);
    lw_cut_destroy(&baked);
    cli_stone_destroy(&s);
    return result;
}

#define ANGLE_OPTION(option_name, text)                                                            \
    {                                                                                              \
        .name = option_name, .kind = CLI_NUMBER, .value = "DEG", .unit = "deg", .lowest = 1,       \
        .highest = 89, .help = text                                                                \
    }

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_INDEX_OPTION,
    ANGLE_OPTION("pavilion-deg", "angle of the pavilion's mains, in place of the material's usual"),
    ANGLE_OPTION("crown-deg", "angle of the crown's mains"),
    {.name = "keep-angles", .kind = CLI_FLAG, .help = "the material is for the weight alone"},
    {.name = "margin-deg",
     .kind = CLI_NUMBER,
     .value = "DEG",
     .unit = "deg",
     .lowest = 0,
     .highest = 10,
     .help = "keep the usual angle this far inside the band that returns light; 1 unless given"},
    {.name = "wheel",
     .kind = CLI_NUMBER,
     .value = "N",
     .lowest = LW_KIT_LEAST_TEETH,
     .highest = LW_KIT_MOST_TEETH,
     .whole = true,
     .help = "state it for a wheel of so many teeth"},
    {.name = "length-over-width",
     .kind = CLI_NUMBER,
     .value = "R",
     .lowest = 1,
     .highest = 5,
     .help = "stretch the outline until it is so many times as long as wide"},
    {.name = "whole-teeth",
     .kind = CLI_FLAG,
     .help = "after stretching, round to whole teeth and solve the meets again"},
    {.name = "mirror", .kind = CLI_FLAG, .help = "the mirror image"},
    CLI_COUNTS_OPTION,
    CLI_OUTPUT_OPTION("write the cut there and tell on standard output what was done"),
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing adapt round-brilliant --material quartz -o quartz-round.cut",
    "lapwing adapt classic-quartz-round --wheel 80 --counts clockwise -o on-80.cut",
    "lapwing adapt round-brilliant --length-over-width 1.4 --whole-teeth > oval.cut",
    NULL,
};

const cli_verb cli_verb_adapt = {
    .name = "adapt",
    .summary = "A cut for another material, wheel, outline or hand",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "For a material, the pavilion's flattest facets go to its usual angle and every other "
        "angle of that side follows by the ratio of the tangents, which keeps each meet and the "
        "plan; where the girdle does not run all round upright the cut is solved again. A cut that "
        "names the material among those it suits keeps its angles as long as none is too flat for "
        "it. For a wheel, the whole stone is turned where that makes every tooth whole; where "
        "nothing does, it stays, and the cheater's degrees are told.\n\n"
        "What to dial follows the machine: the numbers of most wheels go up counter-clockwise seen "
        "from behind; after transfer the stone is turned end for end, and they go the other way "
        "round it.\n\n"
        "Prints the new cut, or with --output writes it and tells what was changed.",
    .options = options,
    .examples = examples,
    .run = run,
};
