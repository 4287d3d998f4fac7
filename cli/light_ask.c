#include "light.h"

#include "colour.h"
#include "look.h"
#include "place.h"
#include "text.h"

#include "light/sampled.h"

#include <string.h>

/* Half of the last digit that is printed of brightness. */
#define LIGHT_ERROR 5e-5
/* What is told of tilting is told in whole percent, as the mean of many directions. */
#define RING_BOUND 2e-4
#define RING_STEP_DEG 10.0
#define RING_SPOKES 24
#define WINDOW_STEP_DEG 2.0
#define WINDOW_SPOKES 48

/* ---- what is asked for -------------------------------------------------- */

static bool has_ending(const char *path, const char *end)
{
    size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

static bool is_picture(const char *path)
{
    return has_ending(path, ".svg") || has_ending(path, ".png") || has_ending(path, ".pdf");
}

static const char *const map_options[] = {"beam-map", "tilt-map"};

bool cli_light_draws(const cli_args *args)
{
    bool draws = false;
    for (int i = 0; i < 2; i++) {
        const char *path = cli_text(args, map_options[i], NULL);
        draws = draws || (path != NULL && is_picture(path));
    }
    return draws;
}

static bool ask_files(const cli_args *args)
{
    for (int i = 0; i < 2; i++) {
        const char *path = cli_text(args, map_options[i], NULL);
        if (path != NULL && !is_picture(path) && !has_ending(path, ".json")) {
            cli_fail("%s: found no ending that tells what to write; expected .svg, .png, .pdf or "
                     ".json",
                     path);
            return false;
        }
    }
    return true;
}

static bool ask_colour(const cli_args *args, cli_light *light)
{
    lw_absorption colour;
    if (!cli_colour(args, &colour)) {
        return false;
    }
    if (!colour.coloured) {
        return true;
    }
    double unit_mm = light->stone.stone.unit_mm;
    if (unit_mm <= 0.0) {
        cli_fail("light: --colour: found no size; expected --width-mm or another, since a larger "
                 "stone is darker");
        return false;
    }
    light->look.absorption = unit_mm * lw_absorption_at(&colour, 1e3 * LW_LINE_D_UM);
    return true;
}

static bool ask_look(const cli_args *args, cli_light *light)
{
    light->look = lw_light_defaults(1.0);
    if (!cli_look(args, &light->stone, &light->material, &light->look.index) ||
        !cli_place_make(args, &light->place)) {
        return false;
    }
    light->placed = cli_has(args, "place");
    light->look.place = light->placed ? &light->place : NULL;
    light->look.head_deg = cli_number(args, "head-deg", light->place.head_deg);
    light->look.tilt_deg = cli_number(args, "tilt-deg", 0.0);
    light->look.turn_deg = cli_number(args, "turn-deg", 0.0);
    light->look.unpolarised = cli_has(args, "unpolarised");
    return ask_colour(args, light);
}

bool cli_light_ask(const cli_args *args, cli_light *out)
{
    *out = (cli_light){.args = args};
    if (!ask_files(args) || !cli_stone_make(args, &out->stone)) {
        return false;
    }
    return ask_look(args, out);
}

/* ---- what is found ------------------------------------------------------ */

/* Beams, to the error asked for; or rays, to check them by. */
static lw_status measure(cli_light *light)
{
    const cli_args *args = light->args;
    const lw_polyhedron *solid = &light->stone.stone.solid;
    if (cli_has(args, "rays")) {
        int rays = (int)cli_number(args, "rays", 0.0);
        return lw_light_measure_by_rays(&light->stone.memory, solid, &light->look, rays,
                                        &light->measures);
    }
    return lw_light_measure_to(&light->stone.memory, solid, &light->look,
                               cli_number(args, "error", LIGHT_ERROR), &light->measures);
}

static lw_status measure_face_up(cli_light *light)
{
    if (light->look.tilt_deg == 0.0 && !cli_has(light->args, "rays")) {
        light->face_up = light->measures;
        return LW_OK;
    }
    lw_light_options look = light->look;
    look.tilt_deg = 0.0;
    look.turn_deg = 0.0;
    return lw_light_measure_to(&light->stone.memory, &light->stone.stone.solid, &look, LIGHT_ERROR,
                               &light->face_up);
}

static lw_status measure_steps(cli_light *light)
{
    const lw_polyhedron *solid = &light->stone.stone.solid;
    void *facets = NULL;
    lw_light_measures measures;
    lw_status status = lw_memory_new(&light->stone.memory, (size_t)solid->plane_count,
                                     sizeof *light->facets, &facets);
    light->facets = facets;
    if (status == LW_OK) {
        status = lw_light_measure_facets(&light->stone.memory, solid, &light->look, &measures,
                                         light->facets);
    }
    return status;
}

int cli_light_spokes(const cli_light *light, int least)
{
    int fold = light->stone.cut.fold;
    int spokes = fold * ((least + fold - 1) / fold);
    return spokes <= LW_TILT_MOST_SPOKES ? spokes : least;
}

/* Ring 0 is one direction: no mean smooths its error, so that it is had exactly. */
void cli_light_set_face_up(const cli_light *light, lw_tilt_map *map)
{
    for (int spoke = 0; spoke < map->spokes; spoke++) {
        map->light[spoke] = light->face_up;
    }
}

static lw_status find_tilt(cli_light *light)
{
    lw_tilt_request request = {.solid = &light->stone.stone.solid,
                               .look = light->look,
                               .most_deg = CLI_LIGHT_MOST_TILT_DEG,
                               .tilt_step_deg = WINDOW_STEP_DEG,
                               .spokes = cli_light_spokes(light, WINDOW_SPOKES)};
    request.look.bound = RING_BOUND;
    lw_parallel how = {.threads = 0};
    lw_status status = lw_tilt_window_find(&light->stone.memory, &request, &light->window);
    request.tilt_step_deg = RING_STEP_DEG;
    request.spokes = cli_light_spokes(light, RING_SPOKES);
    if (status == LW_OK) {
        status = lw_tilt_map_make(&light->stone.memory, &request, &how, &light->rings);
    }
    if (status == LW_OK) {
        cli_light_set_face_up(light, &light->rings);
    }
    return status;
}

bool cli_light_find(cli_light *light)
{
    lw_status status = measure(light);
    if (status == LW_OK) {
        status = measure_face_up(light);
    }
    if (status == LW_OK) {
        status = find_tilt(light);
    }
    if (status == LW_OK && cli_has(light->args, "steps")) {
        status = measure_steps(light);
    }
    if (status != LW_OK) {
        cli_fail("%s: %s", light->stone.name, lw_status_text(status));
    }
    return status == LW_OK;
}

void cli_light_destroy(cli_light *light)
{
    size_t planes = (size_t)light->stone.stone.solid.plane_count;
    if (light->facets != NULL) {
        lw_memory_free(&light->stone.memory, light->facets, planes, sizeof *light->facets);
    }
    light->facets = NULL;
    if (light->rings.rings > 0) {
        lw_tilt_map_destroy(&light->rings);
    }
    cli_stone_destroy(&light->stone);
}
