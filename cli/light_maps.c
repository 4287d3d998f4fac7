/* The maps of beams and of tilt, as numbers in a file or handed to who paints. */
#include "light.h"

#include "json.h"
#include "progress.h"
#include "text.h"

#include "geom/angle.h"

#include <math.h>
#include <string.h>

/* Patches smaller than this share of the face's light are not told apart further. */
#define BEAM_MAP_BOUND 1e-5
#define TILT_MAP_BOUND 1e-4
#define TILT_MAP_STEP_DEG 2.5
#define TILT_MAP_SPOKES 48

static bool is_json(const char *path)
{
    size_t length = strlen(path);
    return length > 5 && strcmp(path + length - 5, ".json") == 0;
}

/* ---- beams -------------------------------------------------------------- */

/* On the face as the picture shows it: x to its right, y upward, tooth 0 at the top. */
static json_t *outline_json(const cli_light *light, const lw_beam_map *map,
                            const lw_beam_patch *patch, double scale)
{
    lw_sincos turn = lw_sincos_deg(light->look.turn_deg);
    json_t *outline = json_array();
    for (int i = 0; i < patch->count; i++) {
        lw_spot2 at = map->corners[patch->first + (size_t)i];
        double x = scale * (at.b * turn.sin - at.a * turn.cos);
        double y = -scale * (at.a * turn.sin + at.b * turn.cos);
        json_array_append_new(outline, json_pack("[f, f]", x, y));
    }
    return outline;
}

static json_t *source_json(const cli_light *light, const lw_surroundings *around,
                           const lw_beam_patch *patch)
{
    static const char *const names[] = {[LW_PATCH_LIT] = "sky",
                                        [LW_PATCH_HEAD] = "head",
                                        [LW_PATCH_BELOW] = "below",
                                        [LW_PATCH_DARK] = "dark",
                                        [LW_PATCH_NOTHING] = "nothing"};
    lw_patch_source source = lw_patch_source_of(patch);
    if (source != LW_PATCH_LIT || !light->placed) {
        return json_string(names[source]);
    }
    return json_sprintf("light %d", lw_surroundings_patch(around, patch->way) + 1);
}

static double azimuth_of(lw_vec3 way)
{
    double deg = lw_atan2_deg(way.y, way.x);
    return deg < 0.0 ? deg + 360.0 : deg;
}

static double elevation_of(lw_vec3 way)
{
    return lw_atan2_deg(way.z, sqrt(way.x * way.x + way.y * way.y));
}

static json_t *patch_json(const cli_light *light, const lw_beam_map *map,
                          const lw_surroundings *around, const lw_beam_patch *patch)
{
    double unit_mm = light->stone.stone.unit_mm;
    bool leaves = patch->exit >= 0;
    json_t *outline = outline_json(light, map, patch, unit_mm > 0.0 ? unit_mm : 1.0);
    return json_pack("{s:o, s:f, s:f, s:f, s:f, s:o, s:o, s:o, s:i, s:o, s:o}",
                     unit_mm > 0.0 ? "outline_mm" : "outline_widths", outline, "face", patch->area,
                     "brightness", patch->brightness, "strongest", patch->strongest, "radiance",
                     patch->radiance, "from_azimuth_deg",
                     leaves ? json_real(azimuth_of(patch->way)) : json_null(), "from_elevation_deg",
                     leaves ? json_real(elevation_of(patch->way)) : json_null(), "source",
                     source_json(light, around, patch), "surfaces", patch->surfaces, "seen_through",
                     cli_light_facet_json(light, patch->entry), "comes_in_by",
                     cli_light_facet_json(light, patch->exit));
}

static json_t *beam_map_json(const cli_light *light, const lw_beam_map *map)
{
    lw_surroundings around = lw_light_surroundings(&light->look);
    json_t *patches = json_array();
    for (size_t i = 0; i < map->patch_count; i++) {
        json_array_append_new(patches, patch_json(light, map, &around, &map->patches[i]));
    }
    return json_pack("{s:s, s:f, s:f, s:f, s:o}", "cut", light->args->operands[0],
                     "refractive_index", light->look.index.yellow, "tilt_deg", light->look.tilt_deg,
                     "turn_deg", light->look.turn_deg, "patches", patches);
}

static bool write_beams(const cli_light *light, const cli_light_painter *painter, const char *path)
{
    lw_beam_map map;
    lw_light_options look = light->look;
    look.bound = BEAM_MAP_BOUND;
    lw_status status =
        lw_beam_map_make(&light->stone.memory, &light->stone.stone.solid, &look, &map);
    if (status != LW_OK) {
        cli_fail("%s: %s", light->stone.name, lw_status_text(status));
        return false;
    }
    bool done = is_json(path) ? cli_json_write(beam_map_json(light, &map), path)
                              : painter->beams(light, &map, path);
    lw_beam_map_destroy(&map);
    return done;
}

/* ---- tilt --------------------------------------------------------------- */

static json_t *rows_json(const lw_tilt_map *map, size_t offset)
{
    json_t *rows = json_array();
    for (int ring = 0; ring < map->rings; ring++) {
        json_t *row = json_array();
        for (int spoke = 0; spoke < map->spokes; spoke++) {
            const char *at = (const char *)&map->light[ring * map->spokes + spoke];
            json_array_append_new(row, json_real(*(const double *)(const void *)(at + offset)));
        }
        json_array_append_new(rows, row);
    }
    return rows;
}

static json_t *tilt_map_json(const cli_light *light, const lw_tilt_map *map)
{
    json_t *tilts = json_array(), *turns = json_array();
    for (int ring = 0; ring < map->rings; ring++) {
        json_array_append_new(tilts, json_real(map->tilt_deg[ring]));
    }
    for (int spoke = 0; spoke < map->spokes; spoke++) {
        json_array_append_new(turns, json_real(360.0 * spoke / map->spokes));
    }
    return json_pack("{s:s, s:f, s:f, s:o, s:o, s:o, s:o, s:o, s:o}", "cut",
                     light->args->operands[0], "refractive_index", light->look.index.yellow,
                     "window_shows", LW_WINDOW_SHOWS, "tilt_deg", tilts, "turn_deg", turns,
                     "brightness", rows_json(map, offsetof(lw_light_measures, brightness)),
                     "window", rows_json(map, offsetof(lw_light_measures, window)), "leak",
                     rows_json(map, offsetof(lw_light_measures, leak)), "extinction",
                     rows_json(map, offsetof(lw_light_measures, extinction)));
}

static void show_progress(void *context, int done, int count)
{
    cli_progress_show(context, count > 0 ? (double)done / count : 1.0);
}

static lw_status make_tilt_map(const cli_light *light, lw_tilt_map *out)
{
    lw_tilt_request request = {.solid = &light->stone.stone.solid,
                               .look = light->look,
                               .most_deg = CLI_LIGHT_MOST_TILT_DEG,
                               .tilt_step_deg = TILT_MAP_STEP_DEG,
                               .spokes = cli_light_spokes(light, TILT_MAP_SPOKES)};
    request.look.bound = TILT_MAP_BOUND;
    cli_progress progress = cli_progress_make("tilt map");
    lw_parallel how = {.progress = show_progress, .progress_context = &progress};
    lw_status status = lw_tilt_map_make(&light->stone.memory, &request, &how, out);
    cli_progress_clear(&progress);
    if (status == LW_OK) {
        cli_light_set_face_up(light, out);
    }
    return status;
}

static bool write_tilt(const cli_light *light, const cli_light_painter *painter, const char *path)
{
    lw_tilt_map map;
    lw_status status = make_tilt_map(light, &map);
    if (status != LW_OK) {
        cli_fail("%s: %s", light->stone.name, lw_status_text(status));
        return false;
    }
    bool done = is_json(path) ? cli_json_write(tilt_map_json(light, &map), path)
                              : painter->tilt(light, &map, path);
    lw_tilt_map_destroy(&map);
    return done;
}

bool cli_light_maps(const cli_light *light, const cli_light_painter *painter)
{
    const char *beams = cli_text(light->args, "beam-map", NULL);
    const char *tilt = cli_text(light->args, "tilt-map", NULL);
    return (beams == NULL || write_beams(light, painter, beams)) &&
           (tilt == NULL || write_tilt(light, painter, tilt));
}
