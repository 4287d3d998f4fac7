#include "plan_words.h"

#include "base/number.h"
#include "geom/angle.h"
#include "plan_parts.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* ---- text that grows ---------------------------------------------------- */

typedef struct writer {
    char *text;
    size_t capacity, length;
} writer;

static void put(writer *out, const char *piece)
{
    for (size_t i = 0; piece[i] != '\0'; i++, out->length++) {
        if (out->length + 1 < out->capacity) {
            out->text[out->length] = piece[i];
        }
    }
    if (out->capacity > 0) {
        out->text[out->length < out->capacity ? out->length : out->capacity - 1] = '\0';
    }
}

static writer begin(char *text, size_t capacity)
{
    writer out = {text, capacity, 0};
    put(&out, "");
    return out;
}

/* value to so many decimals, the last zeros left off. */
static void put_number(writer *out, double value, int decimals)
{
    double unit = decimals == 0 ? 1.0 : decimals == 1 ? 10.0 : 100.0;
    char number[LW_NUMBER_TEXT];
    double rounded = floor(fabs(value) * unit + 0.5) / unit;
    lw_number_write(rounded, number);
    put(out, value < 0.0 && rounded > 0.0 ? "-" : "");
    put(out, number);
}

static void put_percent(writer *out, double share)
{
    put_number(out, 100.0 * share, 0);
    put(out, " %");
}

/* ---- why ---------------------------------------------------------------- */

enum { PARTS = LW_PLAN_PARTS };

static const char *const part_name[PARTS] = {"size", "light", "ease", "bench", "suits"};

static double part_of(const lw_plan_entry *entry, int part)
{
    const lw_plan_score *s = &entry->score;
    const double parts[PARTS] = {s->size, s->light, s->ease, s->bench, s->suits};
    return parts[part];
}

size_t lw_plan_write_score(const lw_plan_entry *entry, char *text, size_t capacity)
{
    writer out = begin(text, capacity);
    put_number(&out, entry->score.total, 0);
    put(&out, " of 100: ");
    for (int i = 0; i < PARTS; i++) {
        put(&out, i > 0 ? ", " : "");
        put(&out, part_name[i]);
        put(&out, " ");
        put_number(&out, lw_plan_weights[i] * part_of(entry, i), 0);
        put(&out, " of ");
        put_number(&out, lw_plan_weights[i], 0);
    }
    return out.length;
}

/* What an entry is the best of all in. */
static void put_merit(writer *out, const lw_plan_entry *entry, const lw_material *material,
                      int part)
{
    switch (part) {
    case 0:
        put(out, "the heaviest stone");
        break;
    case 1:
        put(out, "the most light");
        break;
    case 2:
        put(out, "the easiest to cut");
        break;
    case 3:
        put(out, entry->wheel.own ? "nothing known to be missing at the bench"
                                  : "every tooth on your wheel and nothing known to be missing");
        break;
    default:
        put(out, "a cut made for ");
        put(out, material->key);
        break;
    }
}

static void write_why_first(writer *out, const lw_plan *plan, const lw_plan_entry *entry)
{
    int said = 0;
    for (int i = 0; i < PARTS; i++) {
        if (part_of(entry, i) >= 0.995) {
            put(out, said++ == 0 ? "First for " : ", ");
            put_merit(out, entry, lw_plan_asked(plan)->material, i);
        }
    }
    put(out, said == 0 ? "First on balance: best in nothing, poor in nothing." : ".");
}

static int things_missing(const lw_plan_entry *entry)
{
    int missing = 0;
    for (int i = 0; i < entry->need_count; i++) {
        missing += entry->needs[i].have == LW_HAVE_NO ? 1 : 0;
    }
    return missing;
}

static void put_light(writer *out, const lw_plan_entry *entry, const lw_plan_entry *first)
{
    if (entry->window > first->window + 0.02) {
        put_percent(out, entry->window);
        put(out, " of it is window");
        return;
    }
    put(out, entry->brightness < first->brightness ? "darker: " : "brighter: ");
    put_percent(out, entry->brightness);
    put(out, " of the sky's light against ");
    put_percent(out, first->brightness);
}

static void put_bench(writer *out, const lw_plan_entry *entry)
{
    int missing = things_missing(entry);
    if (missing > 0) {
        put_number(out, missing, 0);
        put(out, missing == 1 ? " thing is missing" : " things are missing");
    } else if (!entry->wheel.own && !entry->wheel.fit.whole) {
        put(out, "it needs the cheater");
    } else {
        put(out, "nothing is missing");
    }
}

/* How an entry differs from the first in one part, to its loss or gain. */
static void put_difference(writer *out, const lw_plan *plan, const lw_plan_entry *entry,
                           const lw_plan_entry *first, int part)
{
    double here = entry->weight_ct.value[LW_CASE_LIKELY];
    double there = first->weight_ct.value[LW_CASE_LIKELY];
    switch (part) {
    case 0:
        put_percent(out, fabs(here / there - 1.0));
        put(out, here < there ? " lighter" : " heavier");
        break;
    case 1:
        put_light(out, entry, first);
        break;
    case 2:
        put(out,
            entry->difficulty.value > first->difficulty.value ? "harder to cut" : "easier to cut");
        break;
    case 3:
        put_bench(out, entry);
        break;
    default:
        put(out, part_of(entry, part) < 1.0 ? "not made for " : "made for ");
        put(out, lw_plan_asked(plan)->material->key);
        break;
    }
}

/* Losses (sign -1) or gains of at least a point, the largest first. */
static int put_differences(writer *out, const lw_plan *plan, const lw_plan_entry *entry,
                           const lw_plan_entry *first, double sign, const char *lead)
{
    bool used[PARTS] = {false};
    int said = 0;
    for (;;) {
        int next = -1;
        double most = 1.0;
        for (int i = 0; i < PARTS; i++) {
            double points = sign * lw_plan_weights[i] * (part_of(entry, i) - part_of(first, i));
            if (!used[i] && points >= most) {
                most = points;
                next = i;
            }
        }
        if (next < 0) {
            return said;
        }
        used[next] = true;
        put(out, said++ == 0 ? lead : ", ");
        put_difference(out, plan, entry, first, next);
    }
}

static void write_why_behind(writer *out, const lw_plan *plan, const lw_plan_entry *entry,
                             const lw_plan_entry *first)
{
    int losses = put_differences(out, plan, entry, first, -1.0, "Behind because ");
    if (losses == 0) {
        put(out, "Level with the first but for the last points");
    }
    put_differences(out, plan, entry, first, 1.0, "; though ");
    put(out, ".");
}

static void write_why_not(writer *out, const lw_plan *plan, const lw_plan_entry *entry)
{
    char text[3 * LW_PROBLEM_TEXT + 64];
    switch (entry->state) {
    case LW_PLAN_NO_WHEEL:
        put(out, "None of your wheels has its teeth: it asks for ");
        put(out, entry->needs[0].text);
        put(out, ".");
        break;
    case LW_PLAN_TOO_SMALL:
        put(out, "It would be ");
        put_number(out, entry->width_mm.value[LW_CASE_LIKELY], 1);
        put(out, " mm wide; you asked for ");
        put_number(out, lw_plan_asked(plan)->least_width_mm, 1);
        put(out, " mm at least.");
        break;
    case LW_PLAN_NO_ROOM:
        put(out, "Nothing of it is left in this rough once the margins are off.");
        break;
    default:
        lw_problem_write(&entry->problem, text, sizeof text);
        put(out, "It has no stone in this material: ");
        put(out, text);
        break;
    }
}

size_t lw_plan_write_why(const lw_plan *plan, int i, char *text, size_t capacity)
{
    assert(lw_plan_is_done(plan));
    writer out = begin(text, capacity);
    const lw_plan_entry *entry = lw_plan_at(plan, i), *first = lw_plan_at(plan, 0);
    if (entry->state != LW_PLAN_GOOD) {
        write_why_not(&out, plan, entry);
    } else if (i == 0) {
        write_why_first(&out, plan, entry);
    } else {
        write_why_behind(&out, plan, entry, first);
    }
    return out.length;
}

/* ---- where -------------------------------------------------------------- */

/* The angle between the stone's axis and a line, 0..90 degrees. */
static double angle_to(const lw_plan_entry *entry, lw_vec3 line)
{
    const double *r = entry->placement.rotation;
    lw_vec3 axis = {r[2], r[5], r[8]};
    return lw_atan2_deg(lw_vec3_length(lw_vec3_cross(axis, line)), fabs(lw_vec3_dot(axis, line)));
}

static void put_table_way(writer *out, const lw_plan_entry *entry)
{
    static const char *const names[3] = {"first", "second", "third"};
    static const lw_vec3 ways[3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}};
    int best = 0;
    for (int i = 1; i < 3; i++) {
        if (angle_to(entry, ways[i]) < angle_to(entry, ways[best]) - 1e-9) {
            best = i;
        }
    }
    double off = angle_to(entry, ways[best]);
    put(out, off < 20.0 ? "The table looks along the " : "The table looks slantwise, nearest the ");
    put(out, names[best]);
    put(out, " reading");
    if (off >= 0.5) {
        put(out, ", ");
        put_number(out, off, 0);
        put(out, off < 1.5 ? " degree off it" : " degrees off it");
    }
}

static void put_touches(writer *out, const lw_plan *plan, const lw_plan_entry *entry)
{
    const lw_rough *rough = lw_plan_rough(plan);
    const char *named[LW_PLAN_TOUCHES];
    int count = 0;
    for (int i = 0; i < entry->touch_count; i++) {
        const char *what = rough->faces[entry->touches[i]].what;
        bool known = false;
        for (int k = 0; k < count; k++) {
            known = known || strcmp(named[k], what) == 0;
        }
        if (!known) {
            named[count++] = what;
        }
    }
    for (int i = 0; i < count; i++) {
        put(out, i == 0 ? "; its size is held by " : " and ");
        put(out, named[i]);
    }
    if (entry->evidence.touch_count > 0) {
        put(out, " (");
        put_number(out, entry->evidence.touch_count, 0);
        put(out, entry->evidence.touch_count == 1 ? " place)" : " places)");
    }
}

size_t lw_plan_write_place(const lw_plan *plan, const lw_plan_entry *entry, char *text,
                           size_t capacity)
{
    writer out = begin(text, capacity);
    put_table_way(&out, entry);
    put_touches(&out, plan, entry);
    put(&out, ".");
    const lw_rough *rough = lw_plan_rough(plan);
    if (rough->has_c) {
        put(&out, " The c axis lies ");
        put_number(&out, angle_to(entry, rough->c_axis), 0);
        put(&out, " degrees from the line of sight.");
    }
    return out.length;
}

/* Common practice; topaz by a handbook's figure, the table 7 to 10 degrees off the cleavage. */
const char *lw_plan_orientation_advice(const lw_material *material)
{
    static const struct {
        const char *key, *advice;
    } rows[] = {
        {"topaz", "Topaz cleaves across c: keep the table 7 to 10 degrees off the cleavage and no "
                  "facet on it."},
        {"tourmaline", "Tourmaline is often dark down c: then the table should lie parallel to c."},
        {"corundum", "Corundum shows its best colour down c."},
        {"zircon_high", "Zircon doubles what is seen through it across c: look along c."},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (strcmp(rows[i].key, material->key) == 0) {
            return rows[i].advice;
        }
    }
    return material->cleavage == LW_CLEAVAGE_PERFECT
               ? "It cleaves perfectly: keep every facet some degrees off the cleavage."
               : "";
}
