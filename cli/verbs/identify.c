/* lapwing identify: what a stone can be, by its readings. */
#include "json.h"
#include "options.h"
#include "text.h"

#include "matter/identify.h"
#include "matter/weigh.h"

#include <stdio.h>
#include <stdlib.h>

/* All that was read, and what the weighing came to. */
typedef struct task {
    lw_readings readings;
    bool weighed;
    lw_gravity gravity;
    bool index_error_assumed, sg_error_assumed;
} task;

static bool take_weighing(const cli_args *args, task *t)
{
    bool air = cli_has(args, "weight-air");
    bool water = cli_has(args, "weight-water");
    bool heat = cli_has(args, "water-temperature");
    if (!air && !water && !heat && !cli_has(args, "balance-error")) {
        return true;
    }
    if (!air || !water || !heat) {
        cli_fail("identify: found part of a weighing; expected --weight-air, --weight-water and "
                 "--water-temperature together");
        return false;
    }
    if (cli_has(args, "sg")) {
        cli_fail("identify: found --sg and a weighing; expected one of them");
        return false;
    }
    lw_weighing weighing = {.air = cli_number(args, "weight-air", 0.0),
                            .water = cli_number(args, "weight-water", 0.0),
                            .temperature_c = cli_number(args, "water-temperature", 0.0),
                            .balance_error = cli_number(args, "balance-error", 0.0)};
    lw_problem problem = {0};
    if (lw_weigh(&weighing, &t->gravity, &problem) != LW_OK) {
        cli_fail_problem("lapwing: identify", &problem);
        return false;
    }
    t->weighed = t->readings.has_sg = true;
    t->readings.sg = t->gravity.sg;
    if (cli_has(args, "balance-error")) {
        t->readings.sg_error = t->gravity.error;
    }
    return true;
}

static bool take_readings(const cli_args *args, task *t)
{
    int count = 0;
    const double *indices = cli_numbers(args, "refractive-index", &count);
    lw_readings *r = &t->readings;
    *r = lw_readings_none();
    r->index_count = count;
    for (int i = 0; i < count; i++) {
        r->index[i] = indices[i];
    }
    r->index_error = cli_number(args, "refractive-index-error", r->index_error);
    r->over_limit = cli_has(args, "over-limit");
    r->limit = cli_number(args, "refractometer-limit", r->limit);
    r->has_sg = cli_has(args, "sg");
    r->sg = cli_number(args, "sg", 0.0);
    r->accept = cli_number(args, "accept", r->accept);
    if (!take_weighing(args, t)) {
        return false;
    }
    r->sg_error = cli_number(args, "sg-error", r->sg_error);
    t->index_error_assumed = !cli_has(args, "refractive-index-error");
    t->sg_error_assumed = !cli_has(args, "sg-error") && !cli_has(args, "balance-error");
    return true;
}

/* ---- JSON ---- */

static json_t *clues_of(const lw_match *match)
{
    json_t *list = json_array();
    for (int i = 0; i < LW_CLUE_COUNT; i++) {
        const lw_clue_result *clue = &match->clues[i];
        if (clue->given) {
            json_array_append_new(
                list, json_pack("{s:s, s:f, s:f, s:f, s:f, s:f, s:s}", "clue",
                                lw_clue_text((lw_clue)i), "reading", clue->reading, "error",
                                clue->error, "least", clue->least, "most", clue->most, "off",
                                clue->off, "speaks", lw_clue_speaks_for(clue) ? "for" : "against"));
        }
    }
    return list;
}

static json_t *match_of(const lw_match *match)
{
    return json_pack("{s:s, s:s, s:b, s:f, s:f, s:f, s:b, s:o}", "material", match->material->key,
                     "name", match->material->name, "agrees", (int)(match->worst <= 1.0),
                     "distance", match->distance, "worst", match->worst, "plausible",
                     match->plausible, "seldom", (int)match->material->seldom, "clues",
                     clues_of(match));
}

static json_t *readings_of(const task *t)
{
    const lw_readings *r = &t->readings;
    json_t *all = json_object();
    if (r->index_count > 0) {
        json_t *indices = json_array();
        for (int i = 0; i < r->index_count; i++) {
            json_array_append_new(indices, json_real(r->index[i]));
        }
        json_object_set_new(all, "refractive_index", indices);
    }
    if (r->over_limit) {
        json_object_set_new(all, "over_limit", json_real(r->limit));
    }
    if (r->index_count > 0 || r->over_limit) {
        json_object_set_new(all, "refractive_index_error", json_real(r->index_error));
        json_object_set_new(all, "refractive_index_error_assumed",
                            json_boolean(t->index_error_assumed));
    }
    if (r->has_sg) {
        json_object_set_new(all, "sg", json_real(r->sg));
        json_object_set_new(all, "sg_error", json_real(r->sg_error));
        json_object_set_new(all, "sg_error_assumed", json_boolean(t->sg_error_assumed));
    }
    if (t->weighed) {
        json_object_set_new(all, "weighing",
                            json_pack("{s:f, s:f, s:f, s:f, s:f}", "sg", t->gravity.sg, "sg_error",
                                      t->gravity.error, "sg_least", t->gravity.least, "sg_most",
                                      t->gravity.most, "water_g_per_cm3",
                                      t->gravity.water_density));
    }
    return all;
}

static cli_exit print_json(const task *t, const lw_match *matches, size_t shown, size_t total)
{
    json_t *list = json_array();
    for (size_t i = 0; i < shown; i++) {
        json_array_append_new(list, match_of(&matches[i]));
    }
    return cli_json_print(json_pack("{s:o, s:I, s:o}", "readings", readings_of(t), "matching",
                                    (json_int_t)total, "matches", list));
}

/* ---- print ---- */

static void tell_readings(const task *t)
{
    const lw_readings *r = &t->readings;
    if (t->weighed) {
        printf("Weighing: specific gravity %s +- %s; at worst %s to %s (water %s g/cm3)\n",
               CLI_FIXED(t->gravity.sg, 3), CLI_FIXED(t->gravity.error, 3),
               CLI_FIXED(t->gravity.least, 3), CLI_FIXED(t->gravity.most, 3),
               CLI_FIXED(t->gravity.water_density, 5));
    }
    if (r->index_count > 0 || r->over_limit) {
        printf("Refractive index ");
        for (int i = 0; i < r->index_count; i++) {
            printf("%s%s", i > 0 ? " and " : "", CLI_SHORT(r->index[i]));
        }
        if (r->over_limit) {
            printf("over the limit of %s", CLI_SHORT(r->limit));
        }
        printf(" +- %s%s\n", CLI_SHORT(r->index_error), t->index_error_assumed ? " (assumed)" : "");
    }
    if (r->has_sg) {
        printf("Specific gravity %s +- %s%s\n", CLI_FIXED(r->sg, 3), CLI_FIXED(r->sg_error, 3),
               t->sg_error_assumed ? " (assumed)" : "");
    }
}

static void tell_clue(const lw_match *match, int i)
{
    const lw_clue_result *clue = &match->clues[i];
    int decimals = i == LW_CLUE_SG ? 2 : 3;
    printf("     %s %s",
           lw_clue_speaks_for(clue) ? "for:    " : "against:", lw_clue_text((lw_clue)i));
    if (i == LW_CLUE_OVER_LIMIT) {
        printf(", it reaches %s", CLI_FIXED(match->material->index_most, decimals));
    } else {
        printf(", %s to %s", CLI_FIXED(clue->least, decimals), CLI_FIXED(clue->most, decimals));
    }
    if (clue->off > 0.0) {
        printf("; off by %s times the error", CLI_FIXED(clue->off, 1));
    }
    printf("\n");
}

static void tell_match(size_t place, const lw_match *match)
{
    printf("%3zu. %s (%s)%s\n", place, match->material->name, match->material->key,
           match->material->seldom ? ", seldom met with" : "");
    for (int i = 0; i < LW_CLUE_COUNT; i++) {
        if (match->clues[i].given) {
            tell_clue(match, i);
        }
    }
}

static void print_text(const task *t, const lw_match *matches, size_t shown, size_t total)
{
    tell_readings(t);
    if (total == 0) {
        printf("\nNo species in the table agrees.\n");
        return;
    }
    printf("\n%zu species no further off than %s times the errors, best first", total,
           CLI_SHORT(t->readings.accept));
    printf(shown < total ? "; the first %zu:\n\n" : ":\n\n", shown);
    for (size_t i = 0; i < shown; i++) {
        tell_match(i + 1, &matches[i]);
    }
    printf("\nColour, spectrum, doubling and inclusions decide between those that remain.\n");
}

static cli_exit run(const cli_args *args)
{
    task t = {0};
    if (!take_readings(args, &t)) {
        return CLI_WRONG;
    }
    size_t most = (size_t)cli_number(args, "most", 10.0);
    size_t total = 0;
    lw_problem problem = {0};
    lw_match *matches = calloc(most, sizeof *matches);
    if (matches == NULL) {
        return cli_fail("out of memory");
    }
    cli_exit result = CLI_WRONG;
    if (lw_identify(&t.readings, matches, most, &total, &problem) != LW_OK) {
        result = cli_fail_problem("lapwing: identify", &problem);
    } else {
        size_t shown = total < most ? total : most;
        result = CLI_DONE;
        if (args->json) {
            result = print_json(&t, matches, shown, total);
        } else {
            print_text(&t, matches, shown, total);
        }
        result = result == CLI_DONE && total == 0 ? CLI_NO : result;
    }
    free(matches);
    return result;
}

static const cli_option options[] = {
    {.name = "refractive-index",
     .kind = CLI_NUMBERS,
     .value = "N[,N2]",
     .lowest = LW_INDEX_LEAST,
     .highest = LW_INDEX_MOST,
     .separator = ',',
     .least = 1,
     .most = 2,
     .help = "the refractometer's reading; two where the stone, turned on it, shows two"},
    {.name = "refractive-index-error",
     .kind = CLI_NUMBER,
     .value = "E",
     .lowest = 1e-5,
     .highest = 0.5,
     .help = "how far each may be wrong; 0.003 when not given"},
    {.name = "over-limit",
     .kind = CLI_FLAG,
     .help = "the refractometer shows nothing below its end"},
    {.name = "refractometer-limit",
     .kind = CLI_NUMBER,
     .value = "N",
     .lowest = 1.5,
     .highest = 3.0,
     .help = "where it ends; 1.79 when not given"},
    {.name = "sg",
     .kind = CLI_NUMBER,
     .value = "S",
     .lowest = LW_SG_LEAST,
     .highest = LW_SG_MOST,
     .help = "specific gravity"},
    {.name = "sg-error",
     .kind = CLI_NUMBER,
     .value = "E",
     .lowest = 1e-5,
     .highest = 10.0,
     .help = "how far it may be wrong; 0.02 when not given, or what the balance gives"},
    {.name = "weight-air",
     .kind = CLI_NUMBER,
     .value = "W",
     .lowest = 1e-6,
     .highest = 1e6,
     .help = "in place of --sg: weight in air"},
    {.name = "weight-water",
     .kind = CLI_NUMBER,
     .value = "W",
     .lowest = 1e-6,
     .highest = 1e6,
     .help = "and in water, in the same unit"},
    {.name = "water-temperature",
     .kind = CLI_NUMBER,
     .value = "C",
     .unit = "C",
     .lowest = LW_WATER_FROM_C,
     .highest = LW_WATER_TO_C,
     .help = "of the water, in degrees Celsius"},
    {.name = "balance-error",
     .kind = CLI_NUMBER,
     .value = "W",
     .lowest = 1e-9,
     .highest = 1e6,
     .help = "how far each weight may be wrong, in the same unit"},
    {.name = "accept",
     .kind = CLI_NUMBER,
     .value = "K",
     .lowest = 0.1,
     .highest = 100.0,
     .help = "list species up to so many times the error away; 2 when not given"},
    {.name = "most",
     .kind = CLI_NUMBER,
     .value = "COUNT",
     .lowest = 1.0,
     .highest = 1000.0,
     .whole = true,
     .help = "show at most so many; 10 when not given"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing identify --refractive-index 1.62 --sg 3.06",
    "lapwing identify --refractive-index 1.544,1.553",
    "lapwing identify --over-limit --weight-air 4.02 --weight-water 3.02 --water-temperature 20 "
    "--balance-error 0.005",
    NULL,
};

const cli_verb cli_verb_identify = {
    .name = "identify",
    .summary = "What a stone can be, by its refractive index and specific gravity",
    .details =
        "Each reading is compared with the whole spread of every species, and the distance told in "
        "units of the reading's error. Give two indices when the stone shows two while it is "
        "turned: their difference then counts as its birefringence.\n\n"
        "The result is 1 when no species agrees.",
    .options = options,
    .examples = examples,
    .run = run,
};
