/* What `lapwing light` says. */
#include "light.h"

#include "json.h"
#include "text.h"

#include <stdio.h>

/* A name within a sentence: its first letter small where the next one is. */
static void small_name(const char *name, char text[128])
{
    snprintf(text, 128, "%s", name);
    if (text[0] >= 'A' && text[0] <= 'Z' && text[1] >= 'a' && text[1] <= 'z') {
        text[0] = (char)(text[0] - 'A' + 'a');
    }
}

size_t cli_light_stone_words(const cli_light *light, char *text, size_t capacity)
{
    char material[128] = "";
    const char *title = light->stone.cut.title;
    if (light->material != NULL) {
        small_name(light->material->name, material);
    }
    int length =
        snprintf(text, capacity, "%s%s%s", title[0] != '\0' ? title : light->args->operands[0],
                 material[0] != '\0' ? " in " : "", material);
    return length < 0 ? 0 : (size_t)length;
}

size_t cli_light_view_words(const cli_light *light, char *text, size_t capacity)
{
    int length = 0;
    if (light->look.tilt_deg == 0.0) {
        length = snprintf(text, capacity, "seen straight from above");
    } else {
        char from[CLI_NUMBER_TEXT];
        cli_light_direction_words(light, light->look.turn_deg, from);
        length = snprintf(text, capacity, "seen %s degrees off, from %s",
                          CLI_SHORT(light->look.tilt_deg), from);
    }
    return length < 0 ? 0 : (size_t)length;
}

/* ---- JSON --------------------------------------------------------------- */

static json_t *look_json(const cli_light *light)
{
    const lw_light_options *look = &light->look;
    return json_pack(
        "{s:s, s:s?, s:f, s:f, s:s?, s:f, s:f, s:f, s:b}", "cut", light->args->operands[0],
        "material", light->material != NULL ? light->material->key : NULL, "refractive_index",
        look->index.yellow, "dispersion", look->index.blue - look->index.red, "place",
        light->placed ? light->place.name : NULL, "tilt_deg", look->tilt_deg, "turn_deg",
        look->turn_deg, "head_deg", look->head_deg, "unpolarised", (int)look->unpolarised);
}

static json_t *measures_json(const lw_light_measures *m)
{
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:I, s:I, s:f, s:f, s:f}",
                     "brightness", m->brightness, "glare", m->glare, "window", m->window, "leak",
                     m->leak, "extinction", m->extinction, "contrast", m->contrast, "fire_deg",
                     m->fire_deg, "reflected", m->reflected, "sent", m->sent, "absorbed",
                     m->absorbed, "beams", (json_int_t)m->beams, "rays", (json_int_t)m->rays,
                     "unresolved", m->unresolved, "given_up", m->given_up, "error_est",
                     m->error_est);
}

json_t *cli_light_json(const cli_light *light)
{
    json_t *object = look_json(light);
    bool good = json_object_update_new(object, measures_json(&light->measures)) == 0 &&
                json_object_set_new(object, "tilt", cli_light_tilt_json(light)) == 0;
    if (good && light->facets != NULL) {
        good = json_object_set_new(object, "steps", cli_light_steps_json(light)) == 0;
    }
    if (!good) {
        json_decref(object);
        return NULL;
    }
    return object;
}

/* ---- in words ----------------------------------------------------------- */

static void say(const char *name, double share, const char *meaning)
{
    printf("%-11s%6s %%  %s\n", name, CLI_FIXED(100.0 * share, 2), meaning);
}

static void say_where(const cli_light *light)
{
    char stone[256], view[256], text[1024];
    cli_light_stone_words(light, stone, sizeof stone);
    cli_light_view_words(light, view, sizeof view);
    snprintf(text, sizeof text, "%s, refractive index %s, %s%s%s", stone,
             CLI_FIXED(light->look.index.yellow, 4), view, light->placed ? ", in this place: " : "",
             light->placed ? light->place.name : "");
    cli_fill(stdout, text, 0);
    putchar('\n');
}

static void say_measures(const cli_light *light)
{
    const lw_light_measures *m = &light->measures;
    const lw_light_index *index = &light->look.index;
    say("brightness", m->brightness,
        light->placed ? "of what the place calls bright comes back to the eye from inside"
                      : "of the sky's light comes back to the eye from inside");
    say("glare", m->glare, "comes back from the outside of the stone");
    say("window", m->window, "of what is seen lies straight behind the stone");
    say("leak", m->leak, "lies below the girdle, the window included");
    say("extinction", m->extinction, "is the viewer's own head");
    say("contrast", m->contrast, "is the spread of brightness over the face");
    if (light->look.absorption > 0.0) {
        say("absorbed", m->absorbed, "stays in the stone's colour");
    }
    if (index->blue == index->red) {
        printf("fire                 not known: no dispersion was given\n");
    } else {
        printf("fire       %6s deg between blue and red\n", CLI_FIXED(m->fire_deg, 3));
    }
    printf("\nBrightness is good to %s %%: %ld beams, %ld rays.\n\n",
           CLI_FIXED(100.0 * m->error_est, 4), m->beams, m->rays);
}

static void say_sentence(const char *head, const char *words)
{
    char text[CLI_LIGHT_WORDS + 32];
    snprintf(text, sizeof text, "%s: %s.", head, words);
    cli_fill(stdout, text, 0);
}

void cli_light_say(const cli_light *light)
{
    char words[CLI_LIGHT_WORDS];
    say_where(light);
    say_measures(light);
    cli_light_tilt_words(light, words);
    say_sentence("Tilted", words);
    cli_light_ring_words(light, words);
    say_sentence("By tilt", words);
    cli_light_weak_words(light, words);
    say_sentence("What is weak", words);
    if (light->facets != NULL) {
        cli_light_steps_say(light);
    }
}

cli_exit cli_light_run(const cli_args *args, const cli_light_painter *painter)
{
    static cli_light light; /* large for a stack */
    if (!cli_light_ask(args, &light) || !cli_light_find(&light) ||
        !cli_light_maps(&light, painter)) {
        cli_light_destroy(&light);
        return CLI_WRONG;
    }
    cli_exit result = CLI_DONE;
    if (args->json) {
        result = cli_json_print(cli_light_json(&light));
    } else {
        cli_light_say(&light);
    }
    cli_light_destroy(&light);
    return result;
}
