/* What tilting does, and what is weak, in words and as JSON. */
#include "light.h"

#include "text.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

/* From here on something is called weak (ours). A stone in a ring rocks some ten degrees each way;
 * of the built-in cuts in the first material that they suit none but the long ones loses more than
 * this to the head or to what lies below. */
#define SOON_DEG 10.0
#define MUCH 0.15

typedef struct words {
    char *text;
    size_t length;
} words;

__attribute__((format(printf, 2, 3))) static void add(words *w, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    int length = vsnprintf(w->text + w->length, CLI_LIGHT_WORDS - w->length, format, list);
    va_end(list);
    if (length > 0) {
        size_t end = w->length + (size_t)length;
        w->length = end < CLI_LIGHT_WORDS ? end : CLI_LIGHT_WORDS - 1;
    }
}

static words begin(char text[CLI_LIGHT_WORDS])
{
    text[0] = '\0';
    return (words){text, 0};
}

static const lw_facet *facet_at(const cli_light *light, int plane)
{
    return &light->stone.stone.facets[plane];
}

/* A level facet alone needs no side and no number. */
void cli_light_facet_words(const cli_light *light, int plane, char text[CLI_LIGHT_FACET])
{
    const lw_facet *facet = facet_at(light, plane);
    const char *name = light->stone.cut.steps[facet->step].name;
    if (facet->angle_deg == 0.0) {
        snprintf(text, CLI_LIGHT_FACET, "the %s", name);
    } else if (facet->side == LW_SIDE_GIRDLE) {
        snprintf(text, CLI_LIGHT_FACET, "the %s (step %d)", name, facet->step + 1);
    } else {
        snprintf(text, CLI_LIGHT_FACET, "the %s %s (step %d)", cli_side_text(facet->side), name,
                 facet->step + 1);
    }
}

static void add_facet(words *w, const cli_light *light, int plane)
{
    char text[CLI_LIGHT_FACET];
    cli_light_facet_words(light, plane, text);
    add(w, "%s", text);
}

void cli_light_direction_words(const cli_light *light, double turn_deg, char text[CLI_NUMBER_TEXT])
{
    const lw_cut *cut = &light->stone.cut;
    double teeth = cut->wheel, tooth = turn_deg * teeth / 360.0;
    tooth -= teeth * floor(tooth / teeth);
    double nearest = round(tooth);
    if (fabs(tooth - nearest) < 1e-6) {
        snprintf(text, CLI_NUMBER_TEXT, "tooth %s",
                 CLI_SHORT(cli_tooth_said(cut, fmod(nearest, teeth))));
        return;
    }
    snprintf(text, CLI_NUMBER_TEXT, "between teeth %s and %s",
             CLI_SHORT(cli_tooth_said(cut, floor(tooth))),
             CLI_SHORT(cli_tooth_said(cut, fmod(ceil(tooth), teeth))));
}

static const char *percent(char text[CLI_NUMBER_TEXT], double share, int decimals)
{
    return cli_fixed_in(text, 100.0 * share, decimals);
}
#define PERCENT(share, decimals) percent((char[CLI_NUMBER_TEXT]){0}, (share), (decimals))

static bool is_open_face_up(const cli_light *light)
{
    return light->window.face_up >= LW_WINDOW_SHOWS;
}

void cli_light_tilt_words(const cli_light *light, char text[CLI_LIGHT_WORDS])
{
    const lw_tilt_window *window = &light->window;
    words w = begin(text);
    if (!window->opens) {
        add(&w, "no window to %s degrees, in any direction", CLI_SHORT(CLI_LIGHT_MOST_TILT_DEG));
        return;
    }
    if (is_open_face_up(light)) {
        add(&w, "a window is open face-up already, over %s %% of the face, under ",
            PERCENT(window->face_up, 1));
    } else if (window->clear_to_deg < 0.5) {
        add(&w, "a window opens as soon as the stone is tilted, under ");
    } else {
        add(&w, "clear to %s degrees, then a window opens under ",
            CLI_FIXED(window->clear_to_deg, 1));
    }
    add_facet(&w, light, window->plane);
    if (!is_open_face_up(light)) {
        char from[CLI_NUMBER_TEXT];
        cli_light_direction_words(light, window->turn_deg, from);
        add(&w, ", seen first from %s", from);
    }
    add(&w, "; there one sees out by ");
    add_facet(&w, light, window->behind);
}

static bool flashes(const lw_tilt_map *map)
{
    double worst = 0.0;
    for (int ring = 0; ring < map->rings; ring++) {
        worst =
            fmax(worst, lw_tilt_ring_unsettled(map, ring, offsetof(lw_light_measures, brightness)));
    }
    return worst > LW_TILT_SETTLED;
}

void cli_light_ring_words(const cli_light *light, char text[CLI_LIGHT_WORDS])
{
    const lw_tilt_map *map = &light->rings;
    words w = begin(text);
    if (flashes(map)) {
        add(&w, "the stone flashes; from one direction to the next its brightness differs too much "
                "for a mean to tell anything");
        return;
    }
    add(&w, "brightness ");
    for (int ring = 0; ring < map->rings; ring++) {
        double mean = lw_tilt_ring_mean(map, ring, offsetof(lw_light_measures, brightness));
        add(&w, "%s%s %% ", ring > 0 ? ", " : "", PERCENT(mean, 0));
        if (ring == 0) {
            add(&w, "face-up");
        } else {
            add(&w, "at %s", CLI_SHORT(map->tilt_deg[ring]));
        }
        add(&w, "%s", ring == 1 ? " degrees" : "");
    }
    add(&w, ", the mean of all directions");
}

/* ---- what is weak ------------------------------------------------------- */

/* Parts of a sentence. */
static void add_weak(words *w, const char *what)
{
    add(w, "%s%s", w->length > 0 ? "; " : "", what);
}

static void add_window(words *w, const cli_light *light)
{
    if (is_open_face_up(light)) {
        add_weak(w, "the window: straight from above one sees through the stone");
    } else if (light->window.opens && light->window.clear_to_deg < SOON_DEG) {
        add_weak(w, "the window, which opens soon: a stone that is worn is tilted further");
    }
}

static void add_head(words *w, const cli_light *light)
{
    if (light->measures.extinction >= MUCH) {
        add_weak(w, "extinction: ");
        add(w, "%s %% of what it shows is the viewer's own head",
            PERCENT(light->measures.extinction, 0));
    }
}

static void add_below(words *w, double leak)
{
    if (leak >= MUCH) {
        add_weak(w, "leak: ");
        add(w, "%s %% of what it shows lies below the girdle", PERCENT(leak, 0));
    }
}

/* Of the pose that was asked for, but for the window; the larger loss first. */
void cli_light_weak_words(const cli_light *light, char text[CLI_LIGHT_WORDS])
{
    words w = begin(text);
    double leak = light->measures.leak - light->measures.window;
    bool head_first = light->measures.extinction >= leak;
    add_window(&w, light);
    if (head_first) {
        add_head(&w, light);
    }
    add_below(&w, leak);
    if (!head_first) {
        add_head(&w, light);
    }
    if (w.length == 0) {
        add(&w, "nothing stands out, in this light");
    }
}

/* ---- JSON --------------------------------------------------------------- */

json_t *cli_light_facet_json(const cli_light *light, int plane)
{
    if (plane < 0) {
        return json_null();
    }
    const lw_facet *facet = facet_at(light, plane);
    return json_pack("{s:i, s:s, s:f}", "step", facet->step + 1, "name",
                     light->stone.cut.steps[facet->step].name, "tooth", facet->tooth);
}

static json_t *ring_json(const lw_tilt_map *map, int ring)
{
    const size_t brightness = offsetof(lw_light_measures, brightness);
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f}", "tilt_deg", map->tilt_deg[ring],
                     "brightness", lw_tilt_ring_mean(map, ring, brightness), "brightness_unsettled",
                     lw_tilt_ring_unsettled(map, ring, brightness), "window",
                     lw_tilt_ring_mean(map, ring, offsetof(lw_light_measures, window)), "leak",
                     lw_tilt_ring_mean(map, ring, offsetof(lw_light_measures, leak)), "extinction",
                     lw_tilt_ring_mean(map, ring, offsetof(lw_light_measures, extinction)));
}

static double worst_error(const lw_tilt_map *map)
{
    double worst = 0.0;
    for (int i = 0; i < map->rings * map->spokes; i++) {
        worst = fmax(worst, map->light[i].error_est);
    }
    return worst;
}

/* null where none opens. */
static json_t *when_open(const cli_light *light, json_t *value)
{
    if (light->window.opens) {
        return value;
    }
    json_decref(value);
    return json_null();
}

json_t *cli_light_tilt_json(const cli_light *light)
{
    const lw_tilt_window *window = &light->window;
    const lw_facet *facet = facet_at(light, window->plane), *out = facet_at(light, window->behind);
    const lw_step *steps = light->stone.cut.steps;
    json_t *rings = json_array();
    for (int ring = 0; ring < light->rings.rings; ring++) {
        json_array_append_new(rings, ring_json(&light->rings, ring));
    }
    return json_pack("{s:f, s:b, s:f, s:f, s:o, s:o, s:o, s:o, s:o, s:o, s:f, s:o}", "most_deg",
                     CLI_LIGHT_MOST_TILT_DEG, "window_opens", (int)window->opens, "clear_to_deg",
                     window->clear_to_deg, "window_face_up", window->face_up, "window_turn_deg",
                     when_open(light, json_real(window->turn_deg)), "window_tooth",
                     when_open(light, json_real(window->turn_deg * light->stone.cut.wheel / 360.0)),
                     "window_step", when_open(light, json_integer(facet->step + 1)), "window_name",
                     when_open(light, json_string(steps[facet->step].name)), "window_out_step",
                     when_open(light, json_integer(out->step + 1)), "window_out_name",
                     when_open(light, json_string(steps[out->step].name)), "ring_error_est",
                     worst_error(&light->rings), "rings", rings);
}
