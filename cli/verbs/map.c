/* lapwing map: a cut's light over its two main angles. */
#include "angle_map.h"
#include "file.h"
#include "json.h"
#include "progress.h"
#include "text.h"

#include "geom/angle.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- what is asked ---- */

/* Unless asked for, a range of whole degrees around the angle as it stands, so that 41 places are a
 * quarter of a degree apart on the pavilion and half a degree on the crown. The pavilion's reaches
 * down to the critical angle where that is near: it is worth seeing. */
static lw_map_axis usual_axis(const cli_map *map, const lw_handle *handle, int count)
{
    bool crown = handle->kind == LW_HANDLE_CROWN;
    double low = floor(handle->start + 0.5) - (crown ? 12.0 : 5.0), span = crown ? 20.0 : 10.0;
    double seen = floor(map->critical_deg - 1.0);
    if (!crown && seen < low && seen > handle->start - 9.0) {
        low = seen;
    }
    low = fmin(fmax(low, 1.0), 89.0 - span);
    return (lw_map_axis){low, low + span, count};
}

static bool ask_axis(const cli_map *map, const char *option, const lw_handle *handle, int count,
                     lw_map_axis *out)
{
    int given = 0;
    const double *ends = cli_numbers(map->args, option, &given);
    *out = usual_axis(map, handle, count);
    if (given == 2) {
        out->low = ends[0];
        out->high = ends[1];
    }
    if (!(out->low < out->high)) {
        cli_fail("map: --%s: found %s,%s; expected the lower angle first", option,
                 CLI_SHORT(out->low), CLI_SHORT(out->high));
        return false;
    }
    return true;
}

static bool ask_side(const cli_map *map, lw_side side, lw_handle *out)
{
    if (lw_vary_side(&map->vary, side, out) != LW_OK) {
        cli_fail("%s: found no slanting facets on the %s; expected some, since their angle is what "
                 "a map is over",
                 map->stone.name, cli_side_text(side));
        return false;
    }
    return true;
}

static bool ask_grid(const cli_args *args, cli_map *map)
{
    lw_map_request *r = &map->request;
    int given = 0;
    const double *grid = cli_numbers(args, "grid", &given);
    int columns = given > 0 ? (int)grid[0] : 41, rows = given > 1 ? (int)grid[1] : columns;
    r->vary = &map->vary;
    return ask_side(map, LW_SIDE_PAVILION, &r->handles[0]) &&
           ask_side(map, LW_SIDE_CROWN, &r->handles[1]) &&
           ask_axis(map, "pavilion-deg", &r->handles[0], columns, &r->pavilion) &&
           ask_axis(map, "crown-deg", &r->handles[1], rows, &r->crown);
}

static lw_map_measure measure_of(const cli_args *args)
{
    const char *name = cli_text(args, "of", lw_map_names[0]);
    int m = 0;
    while (m + 1 < LW_MAP_MEASURES && strcmp(lw_map_names[m], name) != 0) {
        m++;
    }
    return (lw_map_measure)m;
}

static bool ask_look(const cli_args *args, cli_map *map)
{
    lw_look *look = &map->request.look;
    if (!cli_look_many(args, &map->stone, &map->material, &map->place, look)) {
        return false;
    }
    look->tilt_deg = cli_number(args, "tilt-deg", 0.0);
    look->turn_deg = cli_number(args, "turn-deg", 0.0);
    look->rock_deg = cli_number(args, "rock-deg", 0.0);
    map->request.window_tilt_deg = cli_number(args, "window-tilt-deg", 0.0);
    map->measure = measure_of(args);
    map->critical_deg = lw_asin_deg(1.0 / look->light.index.yellow);
    if (look->tilt_deg > 0.0 && look->rock_deg > 0.0) {
        cli_fail("map: found --tilt-deg and --rock-deg; expected one of them");
        return false;
    }
    if (map->measure == LW_MAP_FIRE && look->light.index.blue == look->light.index.red) {
        cli_fail("map: found no dispersion, and so no fire; expected --material");
        return false;
    }
    return true;
}

static bool ask_stone(const cli_args *args, cli_map *map)
{
    lw_solve_options options;
    lw_problem problem = {0};
    if (!cli_stone_make(args, &map->stone)) {
        return false;
    }
    lw_override overrides[CLI_MOST_GIVEN];
    if (!cli_solve_options(args, overrides, &options)) {
        return false;
    }
    if (lw_vary_make(&map->stone.memory, &map->stone.cut, &options, &map->vary, &problem) !=
        LW_OK) {
        cli_fail_problem(map->stone.name, &problem);
        return false;
    }
    return true;
}

static bool ends_in(const char *path, const char *end)
{
    size_t length = strlen(path), tail = strlen(end);
    return length > tail && strcmp(path + length - tail, end) == 0;
}

/* Before the work, not after it. */
static bool ask_output(const cli_args *args)
{
    static const char *const ends[] = {".svg", ".png", ".pdf", ".csv"};
    const char *path = cli_text(args, "output", NULL);
    bool known = path == NULL;
    for (size_t i = 0; i < sizeof ends / sizeof ends[0] && !known; i++) {
        known = ends_in(path, ends[i]);
    }
    if (!known) {
        cli_fail("%s: found no ending that tells what to write; expected .svg, .png, .pdf or .csv",
                 path);
    }
    return known;
}

/* ---- the work ---- */

static void hear(void *context, int done, int count)
{
    cli_progress_show(context, (double)done / count);
}

static bool work(cli_map *map)
{
    cli_progress progress = cli_progress_make("map");
    lw_parallel how = {.threads = cli_threads(map->args),
                       .cancel = cli_stop_on_interrupt(),
                       .progress = hear,
                       .progress_context = &progress};
    const lw_memory *memory = &map->stone.memory;
    map->places = calloc((size_t)cli_map_count(map), sizeof *map->places);
    lw_status status = map->places == NULL ? LW_NO_MEMORY : LW_OK;
    if (status == LW_OK) {
        status = lw_map_own(memory, &map->request, &map->own);
    }
    if (status == LW_OK) {
        status = lw_map_run(memory, &map->request, &how, map->places);
    }
    cli_progress_clear(&progress);
    if (status != LW_OK) {
        cli_fail("%s: %s", map->stone.name, lw_status_text(status));
    }
    return status == LW_OK;
}

/* One of the lines: where the window opens, or where the flattest facets are at the critical
 * angle. */
static bool trace(cli_map *map, int line, double *field)
{
    const lw_map_request *r = &map->request;
    for (int i = 0; i < cli_map_count(map); i++) {
        const lw_map_place *p = &map->places[i];
        field[i] = !p->there ? (double)NAN : line == 0 ? p->window : p->flattest_deg;
    }
    double level = line == 0 ? LW_WINDOW_OPENS : map->critical_deg;
    lw_status status = lw_contour_trace(&map->stone.memory, field, r->pavilion.count,
                                        r->crown.count, level, &map->lines[line]);
    if (status != LW_OK) {
        cli_fail("%s: %s", map->stone.name, lw_status_text(status));
    }
    return status == LW_OK;
}

static bool trace_all(cli_map *map)
{
    double *field = calloc((size_t)cli_map_count(map), sizeof *field);
    bool good = field != NULL || (cli_fail("%s", lw_status_text(LW_NO_MEMORY)), false);
    for (int i = 0; i < CLI_MAP_LINES && good; i++) {
        good = trace(map, i, field);
    }
    free(field);
    return good;
}

static cli_exit report(const cli_map *map)
{
    const char *path = cli_text(map->args, "output", NULL);
    cli_exit result = CLI_DONE;
    if (path != NULL && ends_in(path, ".csv")) {
        result = cli_map_csv(map, path) ? CLI_DONE : CLI_WRONG;
    } else if (path != NULL) {
        result = cli_map_draw(map, path);
    }
    if (result == CLI_DONE && map->args->json) {
        return cli_json_print(cli_map_json(map));
    }
    if (result == CLI_DONE) {
        cli_map_tell(map);
    }
    return result;
}

static cli_exit run(const cli_args *args)
{
    cli_map *map = calloc(1, sizeof *map);
    cli_exit result = CLI_WRONG;
    if (map == NULL) {
        return cli_fail("%s", lw_status_text(LW_NO_MEMORY));
    }
    map->args = args;
    if (ask_output(args) && ask_stone(args, map) && ask_look(args, map) && ask_grid(args, map) &&
        work(map) && trace_all(map)) {
        result = report(map);
    }
    for (int i = 0; i < CLI_MAP_LINES; i++) {
        lw_contour_destroy(&map->lines[i]);
    }
    free(map->places);
    lw_vary_destroy(&map->vary);
    cli_stone_destroy(&map->stone);
    free(map);
    return result;
}

/* ---- the table ---- */

static const char *const measures[] = {"brightness", "fire",  "contrast", "window", "leak",
                                       "extinction", "glare", "weight",   NULL};

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_LOOK_MANY_OPTIONS,
    {.name = "of",
     .kind = CLI_CHOICE,
     .value = "MEASURE",
     .choices = measures,
     .help = "what is mapped; brightness unless given"},
    CLI_ANGLE_RANGE_OPTION(
        "pavilion-deg",
        "range of the pavilion's main angle; 10 degrees about the cut's own unless given"),
    CLI_ANGLE_RANGE_OPTION(
        "crown-deg",
        "range of the crown's main angle; 20 degrees about the cut's own unless given"),
    {.name = "grid",
     .kind = CLI_NUMBERS,
     .value = "NxM",
     .lowest = 2,
     .highest = LW_MAP_MOST,
     .whole = true,
     .separator = 'x',
     .least = 1,
     .most = 2,
     .help = "places along pavilion and crown; 41x41 unless given"},
    CLI_LOOK_EYE_OPTIONS,
    {.name = "rock-deg",
     .kind = CLI_NUMBER,
     .value = "R",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 45.0,
     .help = "take the mean of straight from above and tilted by this to a few sides (0)"},
    {.name = "window-tilt-deg",
     .kind = CLI_NUMBER,
     .value = "T",
     .unit = "deg",
     .lowest = 0.0,
     .highest = 60.0,
     .help = "draw the line where a window opens at this tilt (0: straight from above)"},
    CLI_OUTPUT_OPTION("write a picture (.svg, .png, .pdf) or all numbers (.csv) there"),
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing map classic-quartz-round -o map.svg",
    "lapwing map round-brilliant --material diamond --of fire --grid 61x61 -o fire.png",
    "lapwing map mine.cut --material corundum --window-tilt-deg 10 --pavilion-deg 38,44 --json",
    NULL,
};

const cli_verb cli_verb_map = {
    .name = "map",
    .summary = "How a cut's light changes with its pavilion and crown angles",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "Works out the stone at every place of a grid over the two main angles, the other angles "
        "of "
        "each side by the tangent ratio, and looks at it. Two lines are drawn over the map: where "
        "a "
        "window opens (a hundredth of the face is seen through), and where the pavilion's flattest "
        "facets stand at the critical angle.\n\n"
        "Without --material or --refractive-index the first material that the cut suits is taken.",
    .options = options,
    .examples = examples,
    .run = run,
};
