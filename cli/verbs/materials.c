/* lapwing materials: the table of materials, or all that is known of one. */
#include "json.h"
#include "material.h"
#include "options.h"
#include "text.h"

#include "matter/refraction.h"

#include <stdio.h>
#include <string.h>

static const char *caution_name(int index)
{
    return index >= 0 && index < LW_CAUTION_COUNT ? lw_caution_at((size_t)index)->word : NULL;
}

/* The bits of every --caution or --without given. */
static bool take_cautions(const cli_args *args, const char *option, unsigned *bits)
{
    *bits = 0;
    for (int i = 0;; i++) {
        const cli_given *given = cli_repeated(args, option, i);
        if (given == NULL) {
            return true;
        }
        const lw_caution *caution = lw_caution_find(given->text);
        if (caution == NULL) {
            cli_fail("materials: --%s: found '%.80s'; expected the word of a caution, such as "
                     "beryllium, lead, heat or cleaves",
                     option, given->text);
            return false;
        }
        *bits |= caution->bit;
    }
}

static bool take_range(const cli_args *args, const char *option, double *least, double *most)
{
    int count = 0;
    const double *numbers = cli_numbers(args, option, &count);
    if (count == 2 && numbers[0] > numbers[1]) {
        cli_fail("materials: --%s: found the greater number first; expected LEAST,MOST", option);
        return false;
    }
    if (count > 0) {
        *least = numbers[0];
        *most = numbers[count - 1];
    }
    return true;
}

static bool take_filter(const cli_args *args, lw_material_filter *filter)
{
    filter->mohs_least = cli_number(args, "mohs", 0.0);
    filter->singly_refracting = cli_has(args, "singly-refracting");
    return take_cautions(args, "caution", &filter->with) &&
           take_cautions(args, "without", &filter->without) &&
           take_range(args, "refractive-index", &filter->index_least, &filter->index_most) &&
           take_range(args, "sg", &filter->sg_least, &filter->sg_most);
}

/* "1.54-1.55", or one number where both are the same at that many decimals. */
static void print_pair(double low, double high, int decimals, int width)
{
    char text[2 * CLI_NUMBER_TEXT + 2];
    char low_text[CLI_NUMBER_TEXT];
    char high_text[CLI_NUMBER_TEXT];
    cli_fixed_in(low_text, low, decimals);
    cli_fixed_in(high_text, high, decimals);
    bool same = strcmp(low_text, high_text) == 0;
    snprintf(text, sizeof text, "%s%s%s", low_text, same ? "" : "-", same ? "" : high_text);
    printf("%-*s", width, text);
}

static void print_row(const lw_material *m)
{
    printf("%-24s", m->key);
    print_pair(lw_material_lowest_index(m), lw_material_highest_index(m), 3, 13);
    print_pair(m->sg, m->sg, 2, 6);
    print_pair(m->mohs_low, m->mohs_high, 1, 10);
    print_pair(lw_material_critical_angle_deg(m), lw_material_critical_angle_deg(m), 1, 10);
    bool first = true;
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        if ((m->cautions & caution->bit) != 0) {
            printf("%s%s", first ? "" : ", ", caution->word);
            first = false;
        }
    }
    printf("%s\n", first ? "-" : "");
}

static cli_exit list(const cli_args *args)
{
    lw_material_filter filter = {0};
    if (!take_filter(args, &filter)) {
        return CLI_WRONG;
    }
    json_t *rows = json_array();
    size_t count = 0;
    if (!args->json) {
        printf("%-24s%-13s%-6s%-10s%-10s%s\n", "key", "index", "SG", "Mohs", "critical",
               "cautions");
    }
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        if (!lw_material_passes(material, &filter)) {
            continue;
        }
        count++;
        if (args->json) {
            json_array_append_new(rows, cli_material_row(material));
        } else {
            print_row(material);
        }
    }
    cli_exit done = count > 0 ? CLI_DONE : CLI_NO;
    if (!args->json) {
        json_decref(rows);
        return done;
    }
    cli_exit printed = cli_json_print(json_pack("{s:o}", "materials", rows));
    return printed == CLI_DONE ? done : printed;
}

static cli_exit sources(const cli_args *args)
{
    json_t *rows = json_object();
    for (size_t i = 0; i < lw_source_count(); i++) {
        const lw_source *source = lw_source_at(i);
        json_object_set_new(rows, source->word, json_string(source->citation));
        if (!args->json) {
            printf("%-18s%s\n", source->word, source->citation);
        }
    }
    if (args->json) {
        return cli_json_print(json_pack("{s:o}", "sources", rows));
    }
    json_decref(rows);
    return CLI_DONE;
}

static cli_exit one(const cli_args *args)
{
    lw_found_material found;
    if (!cli_material_named("materials", args->operands[0], &found)) {
        return CLI_WRONG;
    }
    double wavelength_um = cli_number(args, "wavelength", 0.0) / 1000.0;
    if (args->json) {
        json_t *whole = cli_material_whole(&found);
        if (whole != NULL && wavelength_um > 0.0) {
            json_object_set_new(whole, "at_wavelength",
                                cli_material_at_wavelength(found.material, wavelength_um));
        }
        return cli_json_print(whole);
    }
    cli_material_tell(&found);
    if (wavelength_um > 0.0) {
        cli_material_tell_at_wavelength(found.material, wavelength_um);
    }
    return CLI_DONE;
}

static cli_exit run(const cli_args *args)
{
    static const char *const narrowing[] = {"refractive-index", "sg",      "mohs",
                                            "caution",          "without", "singly-refracting"};
    bool narrowed = false;
    for (size_t i = 0; i < sizeof narrowing / sizeof narrowing[0]; i++) {
        narrowed = narrowed || cli_has(args, narrowing[i]);
    }
    bool named = args->operand_count == 1;
    if (named && (narrowed || cli_has(args, "sources"))) {
        return cli_fail("materials: found a name and what narrows the list; expected one of them");
    }
    if (!named && cli_has(args, "wavelength")) {
        return cli_fail("materials: found --wavelength without a name; expected a material");
    }
    if (cli_has(args, "sources")) {
        return narrowed ? cli_fail("materials: found --sources and what narrows the list; expected "
                                   "one of them")
                        : sources(args);
    }
    return named ? one(args) : list(args);
}

static const cli_option options[] = {
    {.name = "refractive-index",
     .kind = CLI_NUMBERS,
     .value = "LEAST,MOST",
     .lowest = LW_INDEX_LEAST,
     .highest = LW_INDEX_MOST,
     .separator = ',',
     .least = 1,
     .most = 2,
     .help = "only species that can have an index in these limits"},
    {.name = "sg",
     .kind = CLI_NUMBERS,
     .value = "LEAST,MOST",
     .lowest = LW_SG_LEAST,
     .highest = LW_SG_MOST,
     .separator = ',',
     .least = 1,
     .most = 2,
     .help = "only species that can have a specific gravity in these limits"},
    {.name = "mohs",
     .kind = CLI_NUMBER,
     .value = "H",
     .lowest = 0.0,
     .highest = 10.0,
     .help = "only species at least as hard"},
    {.name = "caution",
     .kind = CLI_TEXT,
     .value = "WORD",
     .names = caution_name,
     .repeats = true,
     .help = "only species with one of these cautions"},
    {.name = "without",
     .kind = CLI_TEXT,
     .value = "WORD",
     .names = caution_name,
     .repeats = true,
     .help = "no species with one of these cautions"},
    {.name = "singly-refracting", .kind = CLI_FLAG, .help = "only species that do not double"},
    {.name = "wavelength",
     .kind = CLI_NUMBER,
     .value = "NM",
     .unit = "nm",
     .lowest = 1000.0 * LW_VISIBLE_FROM_UM,
     .highest = 1000.0 * LW_VISIBLE_TO_UM,
     .help = "with a name: its refractive index at this wavelength too"},
    {.name = "sources", .kind = CLI_FLAG, .help = "what the words for the sources stand for"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing materials",
    "lapwing materials aquamarine",
    "lapwing materials diamond --wavelength 430.8",
    "lapwing materials --refractive-index 1.60,1.65 --without beryllium",
    NULL,
};

const cli_verb cli_verb_materials = {
    .name = "materials",
    .summary = "The table of materials, or all that is known of one",
    .operands = "[NAME]",
    .operands_least = 0,
    .operands_most = 1,
    .details =
        "NAME is a key of the table, a species or a variety. Figures are those of a typical stone, "
        "at 589.3 nm, with the spread of the species and where each was found.\n\n"
        "The critical angle is that of the lowest index. Cautions are common practice, not medical "
        "advice.",
    .options = options,
    .examples = examples,
    .run = run,
};
