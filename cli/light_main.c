/* lapwing-light: what lapwing light does when it is to paint its maps. */
#include "file.h"
#include "light.h"
#include "program.h"
#include "text.h"

#include "sheet/beam_picture.h"
#include "sheet/paint_cairo.h"
#include "sheet/tilt_picture.h"

#include <stdio.h>
#include <string.h>

extern const cli_verb cli_verb_light;

/* ---- to a file ----------------------------------------------------------- */

static bool to_file(void *context, const void *bytes, size_t length)
{
    const cli_file_out *out = context;
    return cli_write_all(out->descriptor, bytes, length);
}

static lw_paint_format format_of(const char *path)
{
    const char *end = path + strlen(path) - 4;
    return strcmp(end, ".svg") == 0   ? LW_PAINT_SVG
           : strcmp(end, ".png") == 0 ? LW_PAINT_PNG
                                      : LW_PAINT_PDF;
}

static bool paint(lw_painter *painter, const lw_display_list *list, const char *title,
                  const char *path)
{
    cli_file_out out;
    if (!cli_file_begin(path, &out)) {
        return false;
    }
    lw_status status = lw_paint(painter, list, 0, format_of(path), title, to_file, &out);
    if (status != LW_OK) {
        cli_file_drop(&out);
        cli_fail("%s: cannot draw: %s", path, lw_status_text(status));
        return false;
    }
    return cli_file_finish(&out);
}

/* A page: how it is composed, of what. */
typedef struct page {
    const char *title;
    lw_status (*compose)(const lw_memory *memory, const void *what, const lw_metrics *metrics,
                         lw_display_list *list);
    const void *what;
} page;

static bool draw(const lw_memory *memory, const page *p, const char *path)
{
    lw_painter *painter = NULL;
    lw_status status = lw_painter_new(memory, &painter);
    if (status != LW_OK) {
        cli_fail("fonts: %s", lw_status_text(status));
        return false;
    }
    lw_metrics metrics = lw_painter_metrics(painter);
    lw_display_list list;
    lw_list_init(&list, memory);
    status = p->compose(memory, p->what, &metrics, &list);
    bool done = status == LW_OK && paint(painter, &list, p->title, path);
    if (status != LW_OK) {
        cli_fail("%s: cannot draw: %s", path, lw_status_text(status));
    }
    lw_list_destroy(&list);
    lw_painter_destroy(painter);
    return done;
}

/* ---- the two pictures ---------------------------------------------------- */

static lw_status compose_beams(const lw_memory *memory, const void *what, const lw_metrics *metrics,
                               lw_display_list *list)
{
    return lw_beam_picture_compose(memory, what, metrics, list);
}

static bool paint_beams(const cli_light *light, const lw_beam_map *map, const char *path)
{
    char stone[256], view[256], heading[768];
    cli_light_stone_words(light, stone, sizeof stone);
    cli_light_view_words(light, view, sizeof view);
    snprintf(heading, sizeof heading, "%s, %s", stone, view);
    lw_surroundings surroundings = lw_light_surroundings(&light->look);
    lw_beam_picture picture = {.solid = &light->stone.stone.solid,
                               .map = map,
                               .surroundings = &surroundings,
                               .tilt_deg = light->look.tilt_deg,
                               .turn_deg = light->look.turn_deg,
                               .wheel = light->stone.cut.wheel,
                               .heading = heading,
                               .index = light->look.index.yellow,
                               .place = light->placed ? light->place.name : NULL};
    page p = {heading, compose_beams, &picture};
    return draw(&light->stone.memory, &p, path);
}

static lw_status compose_tilt(const lw_memory *memory, const void *what, const lw_metrics *metrics,
                              lw_display_list *list)
{
    (void)memory;
    return lw_tilt_picture_compose(what, metrics, list);
}

static bool draw_tilt(const cli_light *light, const lw_tilt_map *map, double *values,
                      const char *path)
{
    char heading[256], words[CLI_LIGHT_WORDS], sentence[CLI_LIGHT_WORDS + 16];
    int cells = map->rings * map->spokes;
    for (int i = 0; i < cells; i++) {
        values[i] = map->light[i].brightness;
        values[cells + i] = map->light[i].window;
    }
    cli_light_stone_words(light, heading, sizeof heading);
    cli_light_tilt_words(light, words);
    snprintf(sentence, sizeof sentence, "Tilted: %s.", words);
    lw_tilt_picture picture = {.rings = map->rings,
                               .spokes = map->spokes,
                               .tilt_deg = map->tilt_deg,
                               .brightness = values,
                               .window = values + cells,
                               .window_shows = LW_WINDOW_SHOWS,
                               .settled = LW_TILT_SETTLED,
                               .wheel = light->stone.cut.wheel,
                               .heading = heading,
                               .index = light->look.index.yellow,
                               .sentence = sentence,
                               .place = light->placed ? light->place.name : NULL};
    page p = {heading, compose_tilt, &picture};
    return draw(&light->stone.memory, &p, path);
}

static bool paint_tilt(const cli_light *light, const lw_tilt_map *map, const char *path)
{
    size_t count = 2 * (size_t)(map->rings * map->spokes);
    void *values = NULL;
    lw_status status = lw_memory_new(&light->stone.memory, count, sizeof(double), &values);
    if (status != LW_OK) {
        cli_fail("%s: %s", path, lw_status_text(status));
        return false;
    }
    bool done = draw_tilt(light, map, values, path);
    lw_memory_free(&light->stone.memory, values, count, sizeof(double));
    return done;
}

static cli_exit run(const cli_args *args)
{
    static const cli_light_painter painter = {paint_beams, paint_tilt};
    return cli_light_run(args, &painter);
}

int main(int argc, char **argv)
{
    static const cli_work works[] = {{&cli_verb_light, run}, {NULL, NULL}};
    return cli_program_main(argc, argv, works);
}
