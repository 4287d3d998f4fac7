/* A map of angles as a picture, drawn by lapwing-draw. */
#include "angle_map.h"

#include "sheet.h"
#include "text.h"

#include "sheet/heat_map.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* All that a heat map borrows. */
typedef struct drawing {
    char heading[500], x_title[80], y_title[80];
    double *values;
    lw_heat_line lines[LW_HEAT_MOST_LINES];
    int line_count;
    lw_spot *spots; /* of all lines */
    int spot_count;
    lw_heat_mark marks[2];
    int mark_count;
    char mark_texts[2][80];
    char note_texts[LW_HEAT_MOST_NOTES][400];
    const char *notes[LW_HEAT_MOST_NOTES];
    int note_count;
} drawing;

static void fill_values(const cli_map *map, drawing *d)
{
    for (int i = 0; i < cli_map_count(map); i++) {
        const lw_map_place *p = &map->places[i];
        d->values[i] =
            p->there ? cli_map_shown(map->measure, p->values[map->measure]) : (double)NAN;
    }
}

/* ---- lines ---- */

static int longest(const lw_contour *contour)
{
    int best = -1;
    for (int i = 0; i < contour->line_count; i++) {
        if (best < 0 || contour->lines[i].count > contour->lines[best].count) {
            best = i;
        }
    }
    return best;
}

/* The window at a place between the squares, the nearest one's. */
static double window_near(const cli_map *map, double column, double row)
{
    const lw_map_request *r = &map->request;
    int x = (int)floor(fmin(fmax(column, 0.0), r->pavilion.count - 1.0) + 0.5);
    int y = (int)floor(fmin(fmax(row, 0.0), r->crown.count - 1.0) + 0.5);
    const lw_map_place *p = &map->places[y * r->pavilion.count + x];
    return p->there ? p->window : 0.0;
}

/* Whether the open side of a window line lies to the left as one follows it, by what most of its
 * pieces say. Left of (dx, dy) is (-dy, dx), since rows run upward. */
static bool opens_left(const cli_map *map, const lw_contour *contour, const lw_contour_line *line)
{
    int left = 0;
    for (int i = line->first; i + 1 < line->first + line->count; i++) {
        const lw_contour_spot *a = &contour->spots[i], *b = &contour->spots[i + 1];
        double dx = b->x - a->x, dy = b->y - a->y, length = hypot(dx, dy);
        if (length > 0.0) {
            double mx = 0.5 * (a->x + b->x), my = 0.5 * (a->y + b->y);
            double nx = -dy / length, ny = dx / length;
            double gain = window_near(map, mx + nx, my + ny) - window_near(map, mx - nx, my - ny);
            left += gain > 0.0 ? 1 : gain < 0.0 ? -1 : 0;
        }
    }
    return left >= 0;
}

/* Lines that are too many to draw, or of a piece too short to see, are left out; the longest has
 * the name. */
static void add_lines(const cli_map *map, const lw_contour *contour, const char *name, bool window,
                      drawing *d)
{
    int named = longest(contour);
    for (int i = 0; i < contour->line_count; i++) {
        const lw_contour_line *line = &contour->lines[i];
        if (d->line_count == LW_HEAT_MOST_LINES - 1 && i != named) {
            continue; /* the last place is kept for the one with the name */
        }
        if (line->count > LW_HEAT_MOST_LINE_SPOTS || d->line_count == LW_HEAT_MOST_LINES) {
            continue;
        }
        lw_spot *spots = &d->spots[d->spot_count];
        bool turned = window && !opens_left(map, contour, line);
        for (int k = 0; k < line->count; k++) {
            int from = turned ? line->count - 1 - k : k;
            const lw_contour_spot *s = &contour->spots[line->first + from];
            spots[k] = (lw_spot){cli_map_pavilion_at(map, s->x), cli_map_crown_at(map, s->y)};
        }
        d->spot_count += line->count;
        d->lines[d->line_count++] = (lw_heat_line){.label = i == named ? name : NULL,
                                                   .dashed = !window,
                                                   .ticked = window,
                                                   .spots = spots,
                                                   .count = line->count};
    }
}

/* ---- marks and notes ---- */

static bool within(const lw_map_axis *axis, double angle)
{
    double half = 0.5 * (axis->high - axis->low) / (axis->count - 1);
    return angle >= axis->low - half && angle <= axis->high + half;
}

static void add_mark(const cli_map *map, const char *what, double pavilion, double crown,
                     const lw_map_place *place, bool filled, drawing *d)
{
    if (!within(&map->request.pavilion, pavilion) || !within(&map->request.crown, crown)) {
        return;
    }
    char *text = d->mark_texts[d->mark_count];
    bool fire = map->measure == LW_MAP_FIRE;
    snprintf(text, sizeof d->mark_texts[0], "%s: %s", what,
             CLI_FIXED(cli_map_shown(map->measure, place->values[map->measure]), fire ? 3 : 1));
    d->marks[d->mark_count++] =
        (lw_heat_mark){.label = text, .x = pavilion, .y = crown, .filled = filled};
}

static char *new_note(drawing *d)
{
    d->notes[d->note_count] = d->note_texts[d->note_count];
    return d->note_texts[d->note_count++];
}

/* What the window line says, or what there is instead of one. */
static void note_window(const cli_map *map, int any, drawing *d)
{
    char tilt[60] = "straight from above";
    if (map->request.window_tilt_deg > 0.0) {
        snprintf(tilt, sizeof tilt, "with the stone tilted by %s degrees",
                 CLI_SHORT(map->request.window_tilt_deg));
    }
    if (map->lines[0].line_count > 0) {
        snprintf(new_note(d), sizeof d->note_texts[0],
                 "On the ticked side of the whole line a window is open, seen %s: at least one "
                 "hundredth of the face is seen through.",
                 tilt);
    } else {
        snprintf(new_note(d), sizeof d->note_texts[0], "Seen %s, a window is open %s of this map.",
                 tilt,
                 map->places[any].window < LW_WINDOW_OPENS ? "at no place" : "at every place");
    }
}

static void note_critical(const cli_map *map, int any, drawing *d)
{
    const char *critical = CLI_FIXED(map->critical_deg, 2);
    if (map->lines[1].line_count > 0) {
        snprintf(
            new_note(d), sizeof d->note_texts[0],
            "At the broken line the pavilion's flattest facets stand at the critical angle, %s "
            "degrees.",
            critical);
    } else {
        snprintf(new_note(d), sizeof d->note_texts[0],
                 "All over this map the pavilion's flattest facets are %s than the critical angle, "
                 "%s degrees.",
                 map->places[any].flattest_deg > map->critical_deg ? "steeper" : "flatter",
                 critical);
    }
}

/* any: a place that has a stone. */
static void add_notes(const cli_map *map, int any, drawing *d)
{
    int without = 0;
    char value[60];
    cli_map_value_text(map->measure, map->places[any].values[map->measure], value, sizeof value);
    snprintf(
        new_note(d), sizeof d->note_texts[0], "Best of the map: pavilion %s, crown %s degrees: %s.",
        CLI_FIXED(cli_map_pavilion(map, any), 2), CLI_FIXED(cli_map_crown(map, any), 2), value);
    note_window(map, any, d);
    note_critical(map, any, d);
    for (int i = 0; i < cli_map_count(map); i++) {
        without += map->places[i].there ? 0 : 1;
    }
    if (without > 0) {
        snprintf(new_note(d), sizeof d->note_texts[0],
                 "At lined squares no stone comes of the cut; values beside them belong to stones "
                 "that only just come out.");
    }
}

/* ---- the whole ---- */

static bool reserve(const cli_map *map, drawing *d)
{
    size_t spots = (size_t)map->lines[0].spot_count + (size_t)map->lines[1].spot_count + 1;
    d->values = calloc((size_t)cli_map_count(map), sizeof *d->values);
    d->spots = calloc(spots, sizeof *d->spots);
    return d->values != NULL && d->spots != NULL;
}

static cli_exit draw(const cli_map *map, const char *path, drawing *d)
{
    const lw_map_request *r = &map->request;
    int best = lw_map_best(r, map->places, map->measure);
    char sentence[400];
    fill_values(map, d);
    add_lines(map, &map->lines[0], "window", true, d);
    add_lines(map, &map->lines[1], "critical angle", false, d);
    add_mark(map, "as it stands", r->handles[0].start, r->handles[1].start, &map->own, false, d);
    add_mark(map, "best", cli_map_pavilion(map, best), cli_map_crown(map, best), &map->places[best],
             true, d);
    add_notes(map, best, d);
    cli_map_sentence(map, sentence, sizeof sentence);
    snprintf(d->heading, sizeof d->heading, "How %s goes with the angles: %s",
             lw_map_names[map->measure], sentence);
    snprintf(d->x_title, sizeof d->x_title, "%s, degrees", r->handles[0].name);
    snprintf(d->y_title, sizeof d->y_title, "%s, degrees", r->handles[1].name);
    lw_heat_map heat = {.heading = d->heading,
                        .x = {d->x_title, r->pavilion.low, r->pavilion.high, r->pavilion.count},
                        .y = {d->y_title, r->crown.low, r->crown.high, r->crown.count},
                        .values = d->values,
                        .value_title = cli_map_title(map->measure),
                        .lines = d->lines,
                        .line_count = d->line_count,
                        .marks = d->marks,
                        .mark_count = d->mark_count,
                        .notes = d->notes,
                        .note_count = d->note_count};
    lw_draw_job job = {.map = &heat};
    return cli_sheet_write(&job, path);
}

cli_exit cli_map_draw(const cli_map *map, const char *path)
{
    drawing *d = calloc(1, sizeof *d);
    cli_exit result = CLI_WRONG;
    if (lw_map_best(&map->request, map->places, map->measure) < 0) {
        cli_fail("%s: %s: found no stone at any place of the map; expected one at least", path,
                 map->stone.name);
    } else if (d == NULL || !reserve(map, d)) {
        cli_fail("%s: %s", path, lw_status_text(LW_NO_MEMORY));
    } else {
        result = draw(map, path, d);
    }
    if (d != NULL) {
        free(d->values);
        free(d->spots);
    }
    free(d);
    return result;
}
