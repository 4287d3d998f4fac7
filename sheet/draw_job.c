#include "sheet/draw_job.h"

#include "sheet/map_job.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

static const char *const unit_words[] = {
    [LW_UNIT_NUMBER] = "", [LW_UNIT_PERCENT] = "%", [LW_UNIT_DEG] = "deg", [LW_UNIT_MM] = "mm"};
static const char *const size_words[] = {[LW_SIZE_NONE] = "",
                                         [LW_SIZE_WIDTH_MM] = "width_mm",
                                         [LW_SIZE_LENGTH_MM] = "length_mm",
                                         [LW_SIZE_DIAMETER_MM] = "diameter_mm",
                                         [LW_SIZE_WEIGHT_CT] = "weight_ct"};
static const char *const counts_words[] = {
    [LW_COUNTS_COUNTER_CLOCKWISE] = "counter-clockwise", [LW_COUNTS_CLOCKWISE] = "clockwise"};
static const char *const paper_words[] = {[LW_DRAW_A4] = "A4", [LW_DRAW_LETTER] = "Letter"};
static const char *const format_words[] = {
    [LW_DRAW_BY_NAME] = "", [LW_DRAW_PDF] = "PDF", [LW_DRAW_SVG] = "SVG", [LW_DRAW_PNG] = "PNG"};
#define WORDS(table) table, (int)(sizeof table / sizeof table[0])

/* ---- writing ---- */

/* Puts a member in; json_*_set_new takes NULL as the failure that it is. */
static void put(json_t *object, const char *key, json_t *value, bool *good)
{
    *good = json_object_set_new(object, key, value) == 0 && *good;
}

static void put_text(json_t *object, const char *key, const char *text, bool *good)
{
    if (text != NULL) {
        put(object, key, json_string(text), good);
    }
}

static void put_number(json_t *object, const char *key, double value, bool *good)
{
    if (value != 0.0) {
        put(object, key, json_real(value), good);
    }
}

static json_t *texts(const char *const *items, int count, bool *good)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        *good = json_array_append_new(list, json_string(items[i])) == 0 && *good;
    }
    return list;
}

static json_t *settings_of(const lw_draw_job *job, bool *good)
{
    json_t *list = json_array();
    for (int i = 0; i < job->override_count; i++) {
        const lw_override *from = &job->overrides[i];
        json_t *one = json_object();
        put_text(one, "name", from->name, good);
        put_text(one, "unit", unit_words[from->unit], good);
        put(one, "value", json_real(from->value), good);
        *good = json_array_append_new(list, one) == 0 && *good;
    }
    return list;
}

static json_t *material_of(const lw_draw_job *job, bool *good)
{
    json_t *material = json_object();
    put_text(material, "name", job->material, good);
    put_number(material, "refractive_index", job->refractive_index, good);
    put_number(material, "critical_angle_deg", job->critical_angle_deg, good);
    put_number(material, "specific_gravity", job->specific_gravity, good);
    put_text(material, "polish", job->polish, good);
    put(material, "cautions", texts(job->cautions, job->caution_count, good), good);
    return material;
}

static json_t *kit_of(const lw_draw_job *job, bool *good)
{
    json_t *kit = json_object();
    put_text(kit, "counts", counts_words[job->counts], good);
    put_number(kit, "zero_at", job->zero_at, good);
    put_number(kit, "pointer_deg", job->pointer_deg, good);
    return kit;
}

static json_t *whole(const lw_draw_job *job, bool *good)
{
    json_t *root = json_object();
    put_text(root, "cut", job->cut_text, good);
    put(root, "settings", settings_of(job, good), good);
    if (job->size_kind != LW_SIZE_NONE) {
        json_t *size = json_object();
        put_text(size, "kind", size_words[job->size_kind], good);
        put(size, "value", json_real(job->size), good);
        put(root, "size", size, good);
    }
    put(root, "material", material_of(job, good), good);
    put(root, "remarks", texts(job->remarks, job->remark_count, good), good);
    put(root, "kit", kit_of(job, good), good);
    if (job->map != NULL) {
        put(root, "map", lw_map_job_write(job->map), good);
    }
    put_text(root, "paper", paper_words[job->paper], good);
    put_text(root, "format", format_words[job->format], good);
    put(root, "page", json_integer(job->page), good);
    put_text(root, "output", job->output, good);
    return root;
}

lw_status lw_draw_job_write(const lw_draw_job *job, char **text, size_t *length)
{
    bool good = true;
    json_t *root = whole(job, &good);
    char *written = good ? json_dumps(root, JSON_COMPACT | JSON_REAL_PRECISION(17)) : NULL;
    json_decref(root);
    if (written == NULL) {
        return good ? LW_NO_MEMORY : LW_BAD_INPUT;
    }
    *text = written;
    *length = strlen(written);
    return LW_OK;
}

/* ---- reading ---- */

typedef struct reader {
    lw_arena *arena;
    lw_problem *problem;
    lw_status status;
} reader;

static void refuse(reader *r, lw_status status, const char *found, const char *expected)
{
    if (r->status == LW_OK) {
        r->status = lw_problem_set(r->problem, status, 0, 0, found, expected, "");
    }
}

/* A job with a member that nobody reads is one that was misunderstood. */
static void only(reader *r, const json_t *object, const char *const *keys, int count)
{
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)object, key, value)
    {
        bool known = false;
        for (int i = 0; i < count; i++) {
            known = known || strcmp(key, keys[i]) == 0;
        }
        if (!known) {
            refuse(r, LW_BAD_INPUT, key, "a member that a drawing job has");
        }
    }
}

static const char *text_in(reader *r, const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (value == NULL) {
        return NULL;
    }
    if (!json_is_string(value)) {
        refuse(r, LW_BAD_INPUT, key, "text there");
        return NULL;
    }
    const char *copy = lw_arena_text(r->arena, json_string_value(value), json_string_length(value));
    if (copy == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
    }
    return copy;
}

static double number_in(reader *r, const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (value == NULL) {
        return 0.0;
    }
    double number = json_number_value(value);
    if (!json_is_number(value) || !isfinite(number)) {
        refuse(r, LW_BAD_INPUT, key, "a number there");
        return 0.0;
    }
    return number;
}

/* The place of a word in a table; absent: 0. */
static int word_in(reader *r, const json_t *object, const char *key, const char *const *words,
                   int count)
{
    const char *text = text_in(r, object, key);
    for (int i = 0; text != NULL && i < count; i++) {
        if (strcmp(words[i], text) == 0) {
            return i;
        }
    }
    if (text != NULL) {
        refuse(r, LW_BAD_INPUT, text, key);
    }
    return 0;
}

static const json_t *part(reader *r, const json_t *object, const char *key, bool array)
{
    const json_t *value = json_object_get(object, key);
    if (value != NULL && (array ? !json_is_array(value) : !json_is_object(value))) {
        refuse(r, LW_BAD_INPUT, key, array ? "a list there" : "an object there");
        return NULL;
    }
    return value;
}

static const char *const *texts_in(reader *r, const json_t *object, const char *key, int *count)
{
    const json_t *list = part(r, object, key, true);
    size_t size = json_array_size(list);
    if (size > LW_DRAW_JOB_MOST_TEXTS) {
        refuse(r, LW_TOO_LARGE, key, "a shorter list");
        return NULL;
    }
    const char **items = lw_arena_new(r->arena, size, sizeof *items);
    for (size_t i = 0; items != NULL && i < size; i++) {
        const json_t *one = json_array_get(list, i);
        if (!json_is_string(one)) {
            refuse(r, LW_BAD_INPUT, key, "a list of texts there");
            return NULL;
        }
        items[i] = lw_arena_text(r->arena, json_string_value(one), json_string_length(one));
        if (items[i] == NULL) {
            items = NULL;
        }
    }
    if (items == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
        return NULL;
    }
    *count = (int)size;
    return items;
}

static void read_settings(reader *r, const json_t *root, lw_draw_job *job)
{
    static const char *const keys[] = {"name", "unit", "value"};
    const json_t *list = part(r, root, "settings", true);
    size_t size = json_array_size(list);
    if (size > LW_CUT_MOST_SETTINGS) {
        refuse(r, LW_TOO_LARGE, "settings", "a shorter list");
        return;
    }
    lw_override *items = lw_arena_new(r->arena, size, sizeof *items);
    if (items == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
        return;
    }
    for (size_t i = 0; i < size; i++) {
        const json_t *one = json_array_get(list, i);
        only(r, one, WORDS(keys));
        items[i].name = text_in(r, one, "name");
        items[i].unit = (lw_unit)word_in(r, one, "unit", WORDS(unit_words));
        items[i].value = number_in(r, one, "value");
        if (items[i].name == NULL) {
            refuse(r, LW_BAD_INPUT, "a setting without a name", "a name");
        }
    }
    job->overrides = items;
    job->override_count = (int)size;
}

static void read_size(reader *r, const json_t *root, lw_draw_job *job)
{
    static const char *const keys[] = {"kind", "value"};
    const json_t *size = part(r, root, "size", false);
    if (size == NULL) {
        return;
    }
    only(r, size, WORDS(keys));
    job->size_kind = (lw_size_kind)word_in(r, size, "kind", WORDS(size_words));
    job->size = number_in(r, size, "value");
    if (job->size_kind != LW_SIZE_NONE && !(job->size > 0.0)) {
        refuse(r, LW_BAD_INPUT, "a size that is not above 0", "a size above 0");
    }
}

static void read_material(reader *r, const json_t *root, lw_draw_job *job)
{
    static const char *const keys[] = {"name",   "refractive_index", "critical_angle_deg",
                                       "polish", "specific_gravity", "cautions"};
    const json_t *material = part(r, root, "material", false);
    if (material == NULL) {
        return;
    }
    only(r, material, WORDS(keys));
    job->material = text_in(r, material, "name");
    job->refractive_index = number_in(r, material, "refractive_index");
    job->critical_angle_deg = number_in(r, material, "critical_angle_deg");
    job->specific_gravity = number_in(r, material, "specific_gravity");
    job->polish = text_in(r, material, "polish");
    job->cautions = texts_in(r, material, "cautions", &job->caution_count);
}

static void read_kit(reader *r, const json_t *root, lw_draw_job *job)
{
    static const char *const keys[] = {"counts", "zero_at", "pointer_deg"};
    const json_t *kit = part(r, root, "kit", false);
    if (kit == NULL) {
        return;
    }
    only(r, kit, WORDS(keys));
    job->counts = (lw_counts)word_in(r, kit, "counts", WORDS(counts_words));
    job->zero_at = number_in(r, kit, "zero_at");
    job->pointer_deg = number_in(r, kit, "pointer_deg");
    if (fabs(job->zero_at) > LW_CUT_MOST_TEETH || fabs(job->pointer_deg) > 360.0) {
        refuse(r, LW_BAD_INPUT, "a kit's zero or pointer beyond the wheel", "one on the wheel");
    }
}

static void read_map(reader *r, const json_t *root, lw_draw_job *job)
{
    const json_t *object = json_object_get(root, "map");
    if (object == NULL || r->status != LW_OK) {
        return;
    }
    lw_heat_map *map = lw_arena_new(r->arena, 1, sizeof *map);
    if (map == NULL) {
        refuse(r, LW_NO_MEMORY, "", "");
        return;
    }
    r->status = lw_map_job_read(r->arena, object, map, r->problem);
    job->map = map;
}

static void read_whole(reader *r, const json_t *root, lw_draw_job *job)
{
    static const char *const keys[] = {"cut", "settings", "size",   "material", "remarks", "kit",
                                       "map", "paper",    "format", "page",     "output"};
    only(r, root, WORDS(keys));
    job->cut_text = text_in(r, root, "cut");
    job->output = text_in(r, root, "output");
    read_map(r, root, job);
    if ((job->cut_text == NULL && job->map == NULL) || job->output == NULL ||
        job->output[0] == '\0') {
        refuse(r, LW_BAD_INPUT, "a job without a cut or an output", "both");
    }
    read_settings(r, root, job);
    read_size(r, root, job);
    read_material(r, root, job);
    read_kit(r, root, job);
    job->remarks = texts_in(r, root, "remarks", &job->remark_count);
    job->paper = (lw_draw_paper)word_in(r, root, "paper", WORDS(paper_words));
    job->format = (lw_draw_format)word_in(r, root, "format", WORDS(format_words));
    double page = number_in(r, root, "page");
    if (!(page >= 0.0 && page <= 10000.0 && page == floor(page))) {
        refuse(r, LW_BAD_INPUT, "page", "a whole number, 0 for all");
        return;
    }
    job->page = (int)page;
}

lw_status lw_draw_job_read(lw_arena *arena, const char *text, size_t length, lw_draw_job *out,
                           lw_problem *problem)
{
    json_error_t error;
    json_t *root = json_loadb(text, length, JSON_REJECT_DUPLICATES, &error);
    if (!json_is_object(root)) {
        json_decref(root);
        return lw_problem_set(problem, LW_BAD_INPUT, root == NULL ? error.line : 0,
                              root == NULL ? error.column : 0, "text that is not a JSON object",
                              "a drawing job", root == NULL ? error.text : "");
    }
    reader r = {.arena = arena, .problem = problem};
    lw_draw_job job = {0};
    read_whole(&r, root, &job);
    json_decref(root);
    if (r.status == LW_OK) {
        *out = job;
    }
    return r.status;
}

lw_status lw_draw_job_format(const lw_draw_job *job, lw_draw_format *out)
{
    if (job->format != LW_DRAW_BY_NAME) {
        *out = job->format;
        return LW_OK;
    }
    const char *dot = strrchr(job->output, '.');
    for (int i = LW_DRAW_PDF; dot != NULL && i <= LW_DRAW_PNG; i++) {
        bool same = strlen(dot + 1) == 3;
        for (int k = 0; k < 3 && same; k++) {
            char letter = dot[k + 1];
            char upper = letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
            same = upper == format_words[i][k];
        }
        if (same) {
            *out = (lw_draw_format)i;
            return LW_OK;
        }
    }
    return LW_BAD_INPUT;
}
