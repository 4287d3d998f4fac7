#include "angle_map.h"

#include "file.h"
#include "json.h"
#include "text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- places and values ---- */

int cli_map_count(const cli_map *map)
{
    return map->request.pavilion.count * map->request.crown.count;
}

double cli_map_pavilion(const cli_map *map, int place)
{
    return lw_map_angle(&map->request.pavilion, place % map->request.pavilion.count);
}

double cli_map_crown(const cli_map *map, int place)
{
    return lw_map_angle(&map->request.crown, place / map->request.pavilion.count);
}

static double along(const lw_map_axis *axis, double at)
{
    return axis->low + (axis->high - axis->low) * at / (axis->count - 1);
}

double cli_map_pavilion_at(const cli_map *map, double column)
{
    return along(&map->request.pavilion, column);
}

double cli_map_crown_at(const cli_map *map, double row)
{
    return along(&map->request.crown, row);
}

double cli_map_shown(lw_map_measure measure, double value)
{
    return measure == LW_MAP_FIRE ? value : 100.0 * value;
}

const char *cli_map_title(lw_map_measure measure)
{
    static const char *const titles[LW_MAP_MEASURES] = {
        [LW_MAP_BRIGHTNESS] = "brightness, %",
        [LW_MAP_FIRE] = "fire, degrees",
        [LW_MAP_CONTRAST] = "contrast, %",
        [LW_MAP_WINDOW] = "window, %",
        [LW_MAP_LEAK] = "leak, %",
        [LW_MAP_EXTINCTION] = "extinction, %",
        [LW_MAP_GLARE] = "glare, %",
        [LW_MAP_WEIGHT] = "weight, % of now",
    };
    return titles[measure];
}

void cli_map_value_text(lw_map_measure measure, double value, char *text, size_t capacity)
{
    bool fire = measure == LW_MAP_FIRE;
    snprintf(text, capacity, "%s %s %s", lw_map_names[measure],
             CLI_FIXED(cli_map_shown(measure, value), fire ? 3 : 2), fire ? "deg" : "%");
}

static void pose_text(const cli_map *map, char *text, size_t capacity)
{
    const lw_look *look = &map->request.look;
    if (look->tilt_deg > 0.0) {
        snprintf(text, capacity, "seen %s degrees off the table's normal, from %s degrees round",
                 CLI_SHORT(look->tilt_deg), CLI_SHORT(look->turn_deg));
    } else if (look->rock_deg > 0.0) {
        snprintf(text, capacity, "seen from above and rocked by %s degrees",
                 CLI_SHORT(look->rock_deg));
    } else {
        snprintf(text, capacity, "seen straight from above");
    }
}

void cli_map_sentence(const cli_map *map, char *text, size_t capacity)
{
    char pose[120];
    pose_text(map, pose, sizeof pose);
    bool place = map->request.look.light.place != NULL;
    snprintf(text, capacity, "%s%s%s, refractive index %s, %s%s%s", map->stone.name,
             map->material != NULL ? " in " : "", map->material != NULL ? map->material->name : "",
             CLI_FIXED(map->request.look.light.index.yellow, 4), pose, place ? ", place: " : "",
             place ? map->place.name : "");
}

/* ---- JSON ---- */

static json_t *axis_json(const lw_map_axis *axis)
{
    json_t *list = json_array();
    for (int i = 0; i < axis->count; i++) {
        json_array_append_new(list, json_real(lw_map_angle(axis, i)));
    }
    return list;
}

/* Rows of crown, each along the pavilion; null where there is no stone. */
static json_t *grid_json(const cli_map *map, int measure)
{
    json_t *rows = json_array();
    int columns = map->request.pavilion.count;
    for (int row = 0; row < map->request.crown.count; row++) {
        json_t *list = json_array();
        for (int i = row * columns; i < (row + 1) * columns; i++) {
            const lw_map_place *p = &map->places[i];
            json_array_append_new(list, p->there ? json_real(p->values[measure]) : json_null());
        }
        json_array_append_new(rows, list);
    }
    return rows;
}

static json_t *line_json(const cli_map *map, const lw_contour *contour)
{
    json_t *lines = json_array();
    for (int i = 0; i < contour->line_count; i++) {
        const lw_contour_line *line = &contour->lines[i];
        json_t *spots = json_array();
        for (int k = 0; k < line->count; k++) {
            const lw_contour_spot *s = &contour->spots[line->first + k];
            json_array_append_new(spots, json_pack("[f, f]", cli_map_pavilion_at(map, s->x),
                                                   cli_map_crown_at(map, s->y)));
        }
        json_array_append_new(lines, spots);
    }
    return lines;
}

static json_t *place_json(const cli_map *map, double pavilion, double crown,
                          const lw_map_place *place)
{
    json_t *object = json_pack("{s:f, s:f}", "pavilion_deg", pavilion, "crown_deg", crown);
    json_object_set_new(object, lw_map_names[map->measure], json_real(place->values[map->measure]));
    return object;
}

json_t *cli_map_json(const cli_map *map)
{
    const lw_map_request *r = &map->request;
    int best = lw_map_best(r, map->places, map->measure);
    json_t *object =
        json_pack("{s:s, s:s?, s:f, s:f, s:f, s:f, s:f, s:s?, s:s, s:f}", "cut", map->stone.name,
                  "material", map->material != NULL ? map->material->key : NULL, "refractive_index",
                  r->look.light.index.yellow, "tilt_deg", r->look.tilt_deg, "turn_deg",
                  r->look.turn_deg, "rock_deg", r->look.rock_deg, "window_tilt_deg",
                  r->window_tilt_deg, "place", r->look.light.place != NULL ? map->place.name : NULL,
                  "of", lw_map_names[map->measure], "critical_angle_deg", map->critical_deg);
    json_object_set_new(object, "pavilion_deg", axis_json(&r->pavilion));
    json_object_set_new(object, "crown_deg", axis_json(&r->crown));
    json_t *values = json_object();
    for (int m = 0; m < LW_MAP_MEASURES; m++) {
        char key[24];
        snprintf(key, sizeof key, "%s%s", lw_map_names[m], m == LW_MAP_FIRE ? "_deg" : "");
        json_object_set_new(values, key, grid_json(map, m));
    }
    json_object_set_new(object, "values", values);
    json_object_set_new(object, "window_lines", line_json(map, &map->lines[0]));
    json_object_set_new(object, "critical_lines", line_json(map, &map->lines[1]));
    json_object_set_new(object, "own",
                        place_json(map, r->handles[0].start, r->handles[1].start, &map->own));
    json_object_set_new(object, "best",
                        best < 0 ? json_null()
                                 : place_json(map, cli_map_pavilion(map, best),
                                              cli_map_crown(map, best), &map->places[best]));
    return object;
}

/* ---- text ---- */

/* Every how-manieth of the places is shown, so that at most that many are. */
static int thinned(int count, int most)
{
    return (count - 1) / most + 1;
}

static void tell_row(const cli_map *map, int row, int step)
{
    int columns = map->request.pavilion.count;
    printf("  %6s", CLI_FIXED(cli_map_crown(map, row * columns), 2));
    for (int column = 0; column < columns; column += step) {
        const lw_map_place *p = &map->places[row * columns + column];
        double value = cli_map_shown(map->measure, p->values[map->measure]);
        printf("%8s", p->there ? CLI_FIXED(value, map->measure == LW_MAP_FIRE ? 3 : 1) : "-");
    }
    putchar('\n');
}

static void tell_table(const cli_map *map)
{
    const lw_map_request *r = &map->request;
    int across = thinned(r->pavilion.count, 9), down = thinned(r->crown.count, 11);
    printf("\n%s, by %s (across) and %s (down):\n\n        ", cli_map_title(map->measure),
           r->handles[0].name, r->handles[1].name);
    for (int column = 0; column < r->pavilion.count; column += across) {
        printf("%8s", CLI_FIXED(lw_map_angle(&r->pavilion, column), 2));
    }
    putchar('\n');
    int last = (r->crown.count - 1) / down * down;
    for (int row = last; row >= 0; row -= down) {
        tell_row(map, row, across);
    }
    if (across > 1 || down > 1) {
        puts("\nOf the places worked out these are some; --json and -o FILE.csv have all.");
    }
}

static void tell_place(const cli_map *map, const char *what, double pavilion, double crown,
                       const lw_map_place *place)
{
    char value[60];
    cli_map_value_text(map->measure, place->values[map->measure], value, sizeof value);
    printf("%-20s %s %s, %s %s degrees: %s, weight %s %%, window %s %%\n", what,
           map->request.handles[0].name, CLI_FIXED(pavilion, 2), map->request.handles[1].name,
           CLI_FIXED(crown, 2), value, CLI_FIXED(100.0 * place->values[LW_MAP_WEIGHT], 1),
           CLI_FIXED(100.0 * place->window, 2));
}

void cli_map_tell(const cli_map *map)
{
    char sentence[400];
    const lw_map_request *r = &map->request;
    int best = lw_map_best(r, map->places, map->measure), without = 0;
    cli_map_sentence(map, sentence, sizeof sentence);
    printf("%s\n\n", sentence);
    tell_place(map, "As it stands", r->handles[0].start, r->handles[1].start, &map->own);
    if (best >= 0) {
        tell_place(map, "Best of the map", cli_map_pavilion(map, best), cli_map_crown(map, best),
                   &map->places[best]);
    }
    for (int i = 0; i < cli_map_count(map); i++) {
        without += map->places[i].there ? 0 : 1;
    }
    if (without > 0) {
        printf("At %d of %d places no stone comes of the cut.\n", without, cli_map_count(map));
    }
    tell_table(map);
}

/* ---- CSV ---- */

static char *csv_text(const cli_map *map, size_t *length)
{
    /* a line has ten numbers of at most CLI_NUMBER_TEXT bytes */
    size_t room = ((size_t)cli_map_count(map) + 1) * 12 * CLI_NUMBER_TEXT, used = 0;
    char *text = malloc(room);
    if (text == NULL) {
        return NULL;
    }
    used += (size_t)snprintf(text, room, "pavilion_deg,crown_deg");
    for (int m = 0; m < LW_MAP_MEASURES; m++) {
        used += (size_t)snprintf(text + used, room - used, ",%s%s", lw_map_names[m],
                                 m == LW_MAP_FIRE ? "_deg" : "");
    }
    used += (size_t)snprintf(text + used, room - used, "\n");
    for (int i = 0; i < cli_map_count(map); i++) {
        used +=
            (size_t)snprintf(text + used, room - used, "%s,%s", CLI_SHORT(cli_map_pavilion(map, i)),
                             CLI_SHORT(cli_map_crown(map, i)));
        for (int m = 0; m < LW_MAP_MEASURES; m++) {
            const lw_map_place *p = &map->places[i];
            used += (size_t)snprintf(text + used, room - used, ",%s",
                                     p->there ? CLI_SHORT(p->values[m]) : "");
        }
        used += (size_t)snprintf(text + used, room - used, "\n");
    }
    *length = used;
    return text;
}

bool cli_map_csv(const cli_map *map, const char *path)
{
    size_t length = 0;
    char *text = csv_text(map, &length);
    if (text == NULL) {
        cli_fail("%s: %s", path, lw_status_text(LW_NO_MEMORY));
        return false;
    }
    bool good = cli_file_write(path, text, length);
    free(text);
    return good;
}
