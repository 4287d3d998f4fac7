/* lapwing kit: what is there, what is missing, what a second-hand machine must come with. */
#include "kit.h"

#include "json.h"
#include "stone.h"
#include "text.h"

#include "builtin.h"
#include "craft/need.h"
#include "craft/second_hand.h"

#include <stdio.h>
#include <stdlib.h>

/* ---- one cut ---- */

static const char *have_text(lw_have have)
{
    return have == LW_HAVE_YES ? "there" : have == LW_HAVE_NO ? "missing" : "not said";
}

static json_t *needs_json(const cli_stone *s, const lw_wheel_choice *choice, const lw_need *needs,
                          int count)
{
    json_t *list = json_array();
    json_t *missing = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_pack("{s:s, s:s}", "need", needs[i].text, "state",
                                              have_text(needs[i].have)));
        if (needs[i].have == LW_HAVE_NO) {
            json_array_append_new(missing, json_string(needs[i].text));
        }
    }
    return json_pack("{s:s, s:i, s:b, s:f, s:o, s:o}", "cut", s->name, "wheel", choice->fit.wheel,
                     "every_tooth_there", (int)choice->fit.whole, "greatest_cheater_deg",
                     choice->fit.greatest_cheater_deg, "needs", list, "missing", missing);
}

static void print_needs(const cli_stone *s, const lw_wheel_choice *choice, const lw_need *needs,
                        int count)
{
    printf("For %s, on %s %d wheel:\n", s->cut.title[0] != '\0' ? s->cut.title : s->name,
           choice->own ? "its own" : "your", choice->fit.wheel);
    for (int i = 0; i < count; i++) {
        printf("  %-10s%s\n", have_text(needs[i].have), needs[i].text);
    }
}

/* What the cut asks of the bench; the answer is no when something is missing. */
static cli_exit for_cut(const cli_args *args, const lw_kit *kit)
{
    static cli_stone stone;
    if (!cli_stone_make(args, &stone)) {
        return CLI_WRONG;
    }
    if (stone.material == NULL) {
        cli_stone_destroy(&stone);
        return cli_fail("kit: found a cut without a material; expected --material with it");
    }
    lw_wheel_choice choice;
    lw_need needs[LW_NEED_COUNT];
    double width_mm = stone.stone.measures.width * stone.stone.unit_mm;
    lw_kit_choose_wheel(kit, &stone.cut, &stone.stone, &choice);
    int count =
        lw_kit_needs(kit, &stone.cut, &stone.stone, stone.material, width_mm, &choice, needs);
    cli_exit result = CLI_DONE;
    for (int i = 0; i < count; i++) {
        result = needs[i].have == LW_HAVE_NO ? CLI_NO : result;
    }
    if (!args->json) {
        print_needs(&stone, &choice, needs, count);
    } else if (cli_json_print(needs_json(&stone, &choice, needs, count)) != CLI_DONE) {
        result = CLI_WRONG;
    }
    cli_stone_destroy(&stone);
    return result;
}

/* ---- all cuts ---- */

/* How a built-in cut stands on the kit's wheels. A cut in millimetres is looked at 8 mm wide: its
 * teeth do not hang on the size. */
static bool choose(const lw_kit *kit, const lw_builtin *builtin, lw_wheel_choice *choice)
{
    const lw_solve_options options = {.size_kind = LW_SIZE_WIDTH_MM, .size = 8.0};
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0};
    lw_stone stone = {0};
    lw_problem problem = {0};
    bool good = lw_cut_read(&memory, builtin->text, builtin->length, &cut, &problem) == LW_OK &&
                lw_cut_solve(&memory, &cut, &options, &stone, &problem) == LW_OK;
    if (good) {
        lw_kit_choose_wheel(kit, &cut, &stone, choice);
    } else {
        cli_fail_problem(builtin->name, &problem);
    }
    lw_stone_destroy(&stone);
    lw_cut_destroy(&cut);
    return good;
}

static void print_choice(const char *name, const lw_wheel_choice *choice)
{
    printf("  %-24son %d", name, choice->fit.wheel);
    if (!choice->fit.whole) {
        printf(", cheater up to %s degrees", CLI_FIXED(choice->fit.greatest_cheater_deg, 2));
    }
    printf("\n");
}

static json_t *choice_json(const char *name, const lw_wheel_choice *choice)
{
    return json_pack("{s:s, s:i, s:b, s:f}", "cut", name, "wheel", choice->fit.wheel,
                     "every_tooth_there", (int)choice->fit.whole, "greatest_cheater_deg",
                     choice->fit.greatest_cheater_deg);
}

static json_t *second_hand_json(void)
{
    json_t *list = json_array();
    for (int i = 0; i < lw_second_hand_count(); i++) {
        const lw_second_hand *row = lw_second_hand_at(i);
        json_array_append_new(list,
                              json_pack("{s:s, s:b, s:s, s:s}", "part", row->part, "needed",
                                        (int)row->needed, "why", row->why, "check", row->check));
    }
    return list;
}

static void print_second_hand(void)
{
    printf("A machine bought second-hand must come with these. Look at each before you pay.\n");
    for (int i = 0; i < lw_second_hand_count(); i++) {
        const lw_second_hand *row = lw_second_hand_at(i);
        printf("\n%s%s\n", row->part, row->needed ? "" : " (good to have)");
        cli_fill(stdout, row->why, 2);
        cli_fill(stdout, row->check, 2);
    }
}

static cli_exit for_all(const cli_args *args, const lw_kit *kit)
{
    int count = lw_builtin_count();
    lw_wheel_choice *choices = calloc((size_t)count + 1, sizeof *choices);
    json_t *cuts = json_array();
    bool good = choices != NULL && cuts != NULL;
    for (int i = 0; good && i < count; i++) {
        good = choose(kit, lw_builtin_at(i), &choices[i]);
        json_array_append_new(cuts, choice_json(lw_builtin_at(i)->name, &choices[i]));
    }
    cli_exit result = CLI_WRONG;
    if (good && args->json) {
        result = cli_json_print(
            json_pack("{s:O, s:o}", "cuts", cuts, "second_hand", second_hand_json()));
    } else if (good) {
        result = CLI_DONE;
        printf(kit->wheel_count > 0 ? "On your wheels:\n" : "Each on its own wheel:\n");
        for (int i = 0; i < count; i++) {
            print_choice(lw_builtin_at(i)->name, &choices[i]);
        }
        printf("\n");
        print_second_hand();
    }
    json_decref(cuts);
    free(choices);
    return result;
}

static cli_exit run(const cli_args *args)
{
    lw_kit kit;
    if (!cli_kit(args, &kit)) {
        return CLI_WRONG;
    }
    return args->operand_count == 1 ? for_cut(args, &kit) : for_all(args, &kit);
}

static const cli_option options[] = {CLI_KIT_OPTIONS, CLI_CUT_OPTIONS, CLI_OPTIONS_END};

static const char *const examples[] = {
    "lapwing kit --wheels 96,80",
    "lapwing kit oval-brilliant --material quartz --width-mm 8 --wheels 64 --lack adapter",
    NULL,
};

const cli_verb cli_verb_kit = {
    .name = "kit",
    .summary = "What is at the bench, what is missing, and what a second-hand machine must have",
    .operands = "[CUT]",
    .operands_least = 0,
    .operands_most = 1,
    .details =
        "Without a cut: on which of your wheels each built-in cut can be indexed, and what a "
        "machine bought second-hand must come with. With a cut and a material: everything that "
        "stone asks of the bench, and whether it is there, missing, or not said. Ends with status "
        "1 when something is missing. What is not said is not counted as missing, but for a "
        "cheater "
        "where you named wheels and none has every tooth.",
    .options = options,
    .examples = examples,
    .run = run,
};
