/* lapwing light: how a cut looks, in numbers. */
#include "json.h"
#include "look.h"
#include "text.h"

#include "light/sampled.h"

#include <stdio.h>

/* Half of the last digit that is printed of brightness. */
#define LIGHT_ERROR 5e-5

static bool light_options(const cli_args *args, const cli_stone *s, const lw_material **material,
                          lw_light_options *out)
{
    lw_light_options made = lw_light_defaults(1.0);
    if (!cli_look(args, s, material, &made.index)) {
        return false;
    }
    made.tilt_deg = cli_number(args, "tilt-deg", 0.0);
    made.turn_deg = cli_number(args, "turn-deg", 0.0);
    made.head_deg = cli_number(args, "head-deg", made.head_deg);
    made.unpolarised = cli_has(args, "unpolarised");
    *out = made;
    return true;
}

/* ---- what is said ------------------------------------------------------- */

static json_t *to_json(const cli_args *args, const lw_material *material,
                       const lw_light_options *options, const lw_light_measures *m)
{
    json_t *object =
        json_pack("{s:s, s:s?, s:f, s:f, s:f, s:f, s:f, s:b}", "cut", args->operands[0], "material",
                  material != NULL ? material->key : NULL, "refractive_index",
                  options->index.yellow, "dispersion", options->index.blue - options->index.red,
                  "tilt_deg", options->tilt_deg, "turn_deg", options->turn_deg, "head_deg",
                  options->head_deg, "unpolarised", (int)options->unpolarised);
    json_t *measures =
        json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:I, s:I, s:f, s:f, s:f}",
                  "brightness", m->brightness, "glare", m->glare, "window", m->window, "leak",
                  m->leak, "extinction", m->extinction, "contrast", m->contrast, "fire_deg",
                  m->fire_deg, "reflected", m->reflected, "sent", m->sent, "absorbed", m->absorbed,
                  "beams", (json_int_t)m->beams, "rays", (json_int_t)m->rays, "unresolved",
                  m->unresolved, "given_up", m->given_up, "error_est", m->error_est);
    if (object == NULL || measures == NULL || json_object_update_new(object, measures) != 0) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static void say(const char *name, double share, const char *meaning)
{
    printf("%-11s%6s %%  %s\n", name, CLI_FIXED(100.0 * share, 2), meaning);
}

static void say_where(const cli_args *args, const lw_material *material,
                      const lw_light_options *options)
{
    printf("%s%s%s, refractive index %s, ", args->operands[0], material != NULL ? " in " : "",
           material != NULL ? material->name : "", CLI_FIXED(options->index.yellow, 4));
    if (options->tilt_deg == 0.0) {
        printf("seen straight from above\n\n");
    } else {
        printf("seen %s degrees off the table's normal, from %s degrees round the stone\n\n",
               CLI_SHORT(options->tilt_deg), CLI_SHORT(options->turn_deg));
    }
}

static void say_all(const cli_args *args, const lw_material *material,
                    const lw_light_options *options, const lw_light_measures *m)
{
    say_where(args, material, options);
    say("brightness", m->brightness, "of the sky's light comes back to the eye from inside");
    say("glare", m->glare, "comes back from the outside of the stone");
    say("window", m->window, "of what is seen lies straight behind the stone");
    say("leak", m->leak, "lies below the girdle, the window included");
    say("extinction", m->extinction, "is the viewer's own head");
    say("contrast", m->contrast, "is the spread of brightness over the face");
    if (options->index.blue == options->index.red) {
        printf("fire                 not known: no dispersion was given\n");
    } else {
        printf("fire       %6s deg between blue and red\n", CLI_FIXED(m->fire_deg, 3));
    }
    printf("\nBrightness is good to %s %%: %ld beams, %ld rays.\n",
           CLI_FIXED(100.0 * m->error_est, 4), m->beams, m->rays);
}

/* Beams, to the error asked for; or rays, to check them by. */
static lw_status measure(const cli_args *args, const cli_stone *s, const lw_light_options *options,
                         lw_light_measures *out)
{
    const lw_polyhedron *solid = &s->stone.solid;
    if (cli_has(args, "rays")) {
        int rays = (int)cli_number(args, "rays", 0.0);
        return lw_light_measure_by_rays(&s->memory, solid, options, rays, out);
    }
    return lw_light_measure_to(&s->memory, solid, options, cli_number(args, "error", LIGHT_ERROR),
                               out);
}

static cli_exit report(const cli_args *args, const cli_stone *s)
{
    const lw_material *material = NULL;
    lw_light_options options;
    if (!light_options(args, s, &material, &options)) {
        return CLI_WRONG;
    }
    lw_light_measures measures;
    lw_status status = measure(args, s, &options, &measures);
    if (status != LW_OK) {
        return cli_fail("%s: %s", s->name, lw_status_text(status));
    }
    if (args->json) {
        return cli_json_print(to_json(args, material, &options, &measures));
    }
    say_all(args, material, &options, &measures);
    return CLI_DONE;
}

static cli_exit run(const cli_args *args)
{
    cli_stone s;
    if (!cli_stone_make(args, &s)) {
        return CLI_WRONG;
    }
    cli_exit result = report(args, &s);
    cli_stone_destroy(&s);
    return result;
}

/* ---- the table ---------------------------------------------------------- */

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_LOOK_INDEX_OPTION,
    {.name = "tilt-deg",
     .kind = CLI_NUMBER,
     .value = "T",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 89.0,
     .help = "how far the eye stands off the table's normal (0)"},
    {.name = "turn-deg",
     .kind = CLI_NUMBER,
     .value = "U",
     .unit = "deg",
     .lowest = -360.0,
     .highest = 360.0,
     .help = "toward which side, counter-clockwise from tooth 0 (0)"},
    {.name = "head-deg",
     .kind = CLI_NUMBER,
     .value = "H",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 90.0,
     .help = "half-angle of the viewer's head, which is dark (10)"},
    {.name = "unpolarised",
     .kind = CLI_FLAG,
     .help = "average polarisation away at each surface, as general renderers do"},
    {.name = "error",
     .kind = CLI_NUMBER,
     .value = "E",
     .lowest = 1e-7,
     .highest = 0.1,
     .help = "how far brightness, 0 to 1, may be off (0.00005)"},
    {.name = "rays",
     .kind = CLI_NUMBER,
     .value = "R",
     .lowest = 1000,
     .highest = 100000000,
     .whole = true,
     .help = "in place of beams R rays, one by one: slow, a check on the beams"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing light round-brilliant --material diamond",
    "lapwing light round-brilliant --set pavilion=41.5 --refractive-index 1.77 --tilt-deg 12",
    NULL,
};

const cli_verb cli_verb_light = {
    .name = "light",
    .summary = "How bright a cut looks, and where its light goes",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "The stone lies under an even sky that reaches down to the girdle plane; below it is dark, "
        "and so is the viewer's head. The eye is far away. Shares are of what is seen in the "
        "stone's outline.\n\n"
        "Without --material or --refractive-index the first material that the cut suits is taken. "
        "A doubly refracting material is traced with its mean index.",
    .options = options,
    .examples = examples,
    .run = run,
};
