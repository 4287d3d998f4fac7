#include "sheet/map_job.h"

#include <math.h>
#include <string.h>

/* ---- writing ---- */

static json_t *axis_json(const lw_heat_axis *axis)
{
    return json_pack("{s:s, s:f, s:f, s:i}", "title", axis->title, "low", axis->low, "high",
                     axis->high, "count", axis->count);
}

static json_t *values_json(const lw_heat_map *map)
{
    json_t *list = json_array();
    for (int i = 0; i < map->x.count * map->y.count && list != NULL; i++) {
        double value = map->values[i];
        if (json_array_append_new(list, isnan(value) ? json_null() : json_real(value)) != 0) {
            json_decref(list);
            list = NULL;
        }
    }
    return list;
}

static json_t *line_json(const lw_heat_line *line)
{
    json_t *spots = json_array();
    bool good = spots != NULL;
    for (int i = 0; i < line->count && good; i++) {
        good = json_array_append_new(spots, json_real(line->spots[i].x)) == 0 &&
               json_array_append_new(spots, json_real(line->spots[i].y)) == 0;
    }
    if (!good) {
        json_decref(spots);
        return NULL;
    }
    return json_pack("{s:s?, s:b, s:b, s:o}", "label", line->label, "dashed", (int)line->dashed,
                     "ticked", (int)line->ticked, "spots", spots);
}

static json_t *lines_json(const lw_heat_map *map)
{
    json_t *list = json_array();
    for (int i = 0; i < map->line_count && list != NULL; i++) {
        if (json_array_append_new(list, line_json(&map->lines[i])) != 0) {
            json_decref(list);
            list = NULL;
        }
    }
    return list;
}

static json_t *marks_json(const lw_heat_map *map)
{
    json_t *list = json_array();
    for (int i = 0; i < map->mark_count && list != NULL; i++) {
        const lw_heat_mark *m = &map->marks[i];
        json_t *mark = json_pack("{s:s, s:f, s:f, s:b}", "label", m->label, "x", m->x, "y", m->y,
                                 "filled", (int)m->filled);
        if (json_array_append_new(list, mark) != 0) {
            json_decref(list);
            list = NULL;
        }
    }
    return list;
}

static json_t *notes_json(const lw_heat_map *map)
{
    json_t *list = json_array();
    for (int i = 0; i < map->note_count && list != NULL; i++) {
        if (json_array_append_new(list, json_string(map->notes[i])) != 0) {
            json_decref(list);
            list = NULL;
        }
    }
    return list;
}

json_t *lw_map_job_write(const lw_heat_map *map)
{
    /* json_pack takes over what it is given, and fails when any of it is NULL. */
    return json_pack("{s:s, s:o, s:o, s:o, s:s, s:o, s:o, s:o}", "heading", map->heading, "x",
                     axis_json(&map->x), "y", axis_json(&map->y), "values", values_json(map),
                     "value_title", map->value_title, "lines", lines_json(map), "marks",
                     marks_json(map), "notes", notes_json(map));
}

/* ---- reading ---- */

typedef struct reader {
    lw_arena *arena;
    lw_problem *problem;
    lw_status status; /* the first failure; nothing is read after it */
} reader;

static void refuse(reader *r, lw_status status, const char *found, const char *expected)
{
    if (r->status == LW_OK) {
        r->status = lw_problem_set(r->problem, status, 0, 0, found, expected, "");
    }
}

static void *room(reader *r, size_t count, size_t size)
{
    void *block = lw_arena_new(r->arena, count, size);
    if (block == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
    }
    return block;
}

static double number(reader *r, const json_t *value, const char *key)
{
    double read = json_number_value(value);
    if (!json_is_number(value) || !isfinite(read)) {
        refuse(r, LW_BAD_INPUT, key, "a number there");
        return 0.0;
    }
    return read;
}

static const char *text(reader *r, const json_t *value, const char *key)
{
    if (!json_is_string(value)) {
        refuse(r, LW_BAD_INPUT, key, "text there");
        return "";
    }
    const char *copy = lw_arena_text(r->arena, json_string_value(value), json_string_length(value));
    if (copy == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
        return "";
    }
    return copy;
}

/* A list of at most that many; its members are counted in *count. */
static const json_t *list_in(reader *r, const json_t *object, const char *key, size_t most,
                             int *count)
{
    const json_t *list = json_object_get(object, key);
    if (!json_is_array(list) || json_array_size(list) > most) {
        refuse(r, LW_BAD_INPUT, key, "a list there, and not a longer one than is drawn");
        return NULL;
    }
    *count = (int)json_array_size(list);
    return list;
}

static void read_axis(reader *r, const json_t *object, const char *key, lw_heat_axis *out)
{
    const json_t *axis = json_object_get(object, key);
    out->title = text(r, json_object_get(axis, "title"), key);
    out->low = number(r, json_object_get(axis, "low"), key);
    out->high = number(r, json_object_get(axis, "high"), key);
    double count = number(r, json_object_get(axis, "count"), key);
    if (!(out->low < out->high) || !(count >= 2.0 && count <= LW_HEAT_MOST_SIDE) ||
        count != floor(count)) {
        refuse(r, LW_BAD_INPUT, key, "an axis from a lower to a higher end");
        return;
    }
    out->count = (int)count;
}

static void read_values(reader *r, const json_t *object, lw_heat_map *map)
{
    int count = 0;
    size_t most = (size_t)map->x.count * (size_t)map->y.count;
    const json_t *list = list_in(r, object, "values", most, &count);
    if (r->status != LW_OK || (size_t)count != most) {
        refuse(r, LW_BAD_INPUT, "values", "as many as the axes have places");
        return;
    }
    double *values = room(r, most, sizeof *values);
    for (int i = 0; i < count && r->status == LW_OK; i++) {
        const json_t *value = json_array_get(list, (size_t)i);
        values[i] = json_is_null(value) ? (double)NAN : number(r, value, "values");
    }
    map->values = values;
}

static void read_line(reader *r, const json_t *object, lw_heat_line *out)
{
    int count = 0;
    const json_t *label = json_object_get(object, "label");
    const json_t *list = list_in(r, object, "spots", 2 * (size_t)LW_HEAT_MOST_LINE_SPOTS, &count);
    lw_spot *spots = room(r, (size_t)count / 2, sizeof *spots);
    out->label = label == NULL || json_is_null(label) ? NULL : text(r, label, "label");
    out->dashed = json_is_true(json_object_get(object, "dashed"));
    out->ticked = json_is_true(json_object_get(object, "ticked"));
    for (int i = 0; i < count / 2 && r->status == LW_OK; i++) {
        spots[i].x = number(r, json_array_get(list, 2 * (size_t)i), "spots");
        spots[i].y = number(r, json_array_get(list, 2 * (size_t)i + 1), "spots");
    }
    out->spots = spots;
    out->count = count / 2;
}

static void read_lines(reader *r, const json_t *object, lw_heat_map *map)
{
    const json_t *list = list_in(r, object, "lines", LW_HEAT_MOST_LINES, &map->line_count);
    lw_heat_line *lines = room(r, (size_t)map->line_count, sizeof *lines);
    for (int i = 0; i < map->line_count && r->status == LW_OK; i++) {
        read_line(r, json_array_get(list, (size_t)i), &lines[i]);
    }
    map->lines = lines;
}

static void read_marks(reader *r, const json_t *object, lw_heat_map *map)
{
    const json_t *list = list_in(r, object, "marks", LW_HEAT_MOST_MARKS, &map->mark_count);
    lw_heat_mark *marks = room(r, (size_t)map->mark_count, sizeof *marks);
    for (int i = 0; i < map->mark_count && r->status == LW_OK; i++) {
        const json_t *one = json_array_get(list, (size_t)i);
        marks[i].label = text(r, json_object_get(one, "label"), "label");
        marks[i].x = number(r, json_object_get(one, "x"), "x");
        marks[i].y = number(r, json_object_get(one, "y"), "y");
        marks[i].filled = json_is_true(json_object_get(one, "filled"));
    }
    map->marks = marks;
}

static void read_notes(reader *r, const json_t *object, lw_heat_map *map)
{
    const json_t *list = list_in(r, object, "notes", LW_HEAT_MOST_NOTES, &map->note_count);
    const char **notes = room(r, (size_t)map->note_count, sizeof *notes);
    for (int i = 0; i < map->note_count && r->status == LW_OK; i++) {
        notes[i] = text(r, json_array_get(list, (size_t)i), "notes");
    }
    map->notes = notes;
}

lw_status lw_map_job_read(lw_arena *arena, const json_t *object, lw_heat_map *out,
                          lw_problem *problem)
{
    reader r = {.arena = arena, .problem = problem};
    lw_heat_map map = {0};
    if (!json_is_object(object)) {
        refuse(&r, LW_BAD_INPUT, "a map that is not an object", "an object");
    }
    map.heading = text(&r, json_object_get(object, "heading"), "heading");
    map.value_title = text(&r, json_object_get(object, "value_title"), "value_title");
    read_axis(&r, object, "x", &map.x);
    read_axis(&r, object, "y", &map.y);
    read_values(&r, object, &map);
    read_lines(&r, object, &map);
    read_marks(&r, object, &map);
    read_notes(&r, object, &map);
    if (r.status == LW_OK) {
        *out = map;
    }
    return r.status;
}
