/* What came of tuning, in words and as JSON. */
#include "tune/tune.h"

#include "text.h"

#include <stdio.h>
#include <string.h>

/* ---- pieces ---- */

static const char *unit_word(const lw_handle *handle)
{
    switch (handle->unit) {
    case LW_UNIT_DEG:
        return " deg";
    case LW_UNIT_PERCENT:
        return " %";
    case LW_UNIT_MM:
        return " mm";
    default:
        return "";
    }
}

/* ---- words ---- */

static void tell_head(const tune_result *r)
{
    const tune_request *q = r->request;
    const lw_look *look = &q->judge.look;
    printf("%s%s%s, refractive index %s, ", q->stone.name, q->material != NULL ? " in " : "",
           q->material != NULL ? q->material->name : "", CLI_FIXED(look->light.index.yellow, 4));
    if (look->rock_deg > 0.0) {
        printf("seen from above and rocked by %s degrees", CLI_SHORT(look->rock_deg));
    } else {
        printf("seen straight from above");
    }
    if (q->judge.hold_deg > 0.0) {
        printf(", with angles off by up to %s degrees", CLI_SHORT(q->judge.hold_deg));
    }
    puts(look->light.place != NULL ? "," : ".");
    if (look->light.place != NULL) {
        printf("in the place: %s.\n", q->place.name);
    }
}

static void tell_row(const char *name, double before, double after, int decimals, const char *unit)
{
    printf("  %-26s %10s %10s  %s\n", name, CLI_FIXED(before, decimals), CLI_FIXED(after, decimals),
           unit);
}

static void tell_table(const tune_result *r, const lw_try *before, const lw_try *after)
{
    const tune_request *q = r->request;
    printf("\n  %-26s %10s %10s\n", "", "before", "after");
    for (int i = 0; i < q->handle_count; i++) {
        tell_row(q->handles[i].name, before->values[i], after->values[i], 2,
                 unit_word(&q->handles[i]) + 1);
    }
    tell_row("brightness", 100.0 * before->seen.brightness, 100.0 * after->seen.brightness, 2, "%");
    if (q->judge.look.light.index.blue != q->judge.look.light.index.red) {
        tell_row("fire", before->seen.fire_deg, after->seen.fire_deg, 3, "deg");
    }
    tell_row("contrast", 100.0 * before->seen.contrast, 100.0 * after->seen.contrast, 2, "%");
    tell_row("window", 100.0 * before->seen.window, 100.0 * after->seen.window, 2, "%");
    tell_row("leak", 100.0 * before->seen.leak, 100.0 * after->seen.leak, 2, "%");
    tell_row("weight, same width", 100.0 * before->weight, 100.0 * after->weight, 1, "%");
    tell_row("crown height", 100.0 * before->crown, 100.0 * after->crown, 1, "% of the width");
    tell_row("depth", 100.0 * before->depth, 100.0 * after->depth, 1, "% of the width");
    tell_row("above critical angle", before->flattest_deg - q->critical_deg,
             after->flattest_deg - q->critical_deg, 2, "deg");
}

static void tell_gain(const tune_result *r, const lw_try *after)
{
    const lw_judge_request *j = &r->request->judge;
    char aims[200] = "";
    size_t used = 0;
    int count = 0;
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        count += j->shares[i] > 0.0 ? 1 : 0;
    }
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (j->shares[i] > 0.0) {
            used += (size_t)snprintf(aims + used, sizeof aims - used, "%s%s", used > 0 ? ", " : "",
                                     lw_aim_names[i]);
            if (count > 1) {
                used += (size_t)snprintf(aims + used, sizeof aims - used, " (%s)",
                                         CLI_SHORT(j->shares[i]));
            }
        }
    }
    double gain = 100.0 * (after->score - 1.0);
    if (gain < 0.005 && gain > -0.005) {
        printf("\nFor %s the cut is at its best as it stands.\n", aims);
    } else {
        printf("\nFor %s: %s by %s %%.\n", aims, gain > 0.0 ? "better" : "worse",
               CLI_FIXED(gain > 0.0 ? gain : -gain, 2));
    }
}

static const char *end_word(lw_flat_end end)
{
    return end == LW_FLAT_RANGE ? " (end of the range)" : end == LW_FLAT_LIMIT ? " (a limit)" : "";
}

static void tell_flat(const tune_result *r)
{
    const tune_request *q = r->request;
    printf("\nAs good within one per cent, the others as they are:\n");
    for (int i = 0; i < q->handle_count; i++) {
        const lw_flat *flat = lw_tune_flat(r->tune, i);
        const char *unit = unit_word(&q->handles[i]);
        printf("  %-26s %s%s%s to %s%s%s\n", q->handles[i].name, CLI_FIXED(flat->low, 2), unit,
               end_word(flat->low_end), CLI_FIXED(flat->high, 2), unit, end_word(flat->high_end));
    }
}

static bool is_varied(const tune_request *q, const lw_handle *handle)
{
    for (int i = 0; i < q->handle_count; i++) {
        if (q->handles[i].kind == handle->kind && q->handles[i].which == handle->which) {
            return true;
        }
    }
    return false;
}

static void tell_free(const tune_request *q)
{
    int count = 0;
    for (int i = 0; i < q->free_count; i++) {
        if (!is_varied(q, &q->free[i])) {
            printf("%s%s", count++ == 0 ? "\nFree in this cut besides: " : ", ", q->free[i].name);
        }
    }
    if (count > 0) {
        puts(" (--free varies them).");
    }
}

static void tell_failure(const tune_result *r)
{
    const lw_try *best = lw_tune_best(r->tune);
    puts("\nNo stone in these ranges keeps all that was asked.");
    if (!best->there) {
        puts("None of the places tried has a stone at all.");
        return;
    }
    printf("The nearest:");
    for (int i = 0; i < r->request->handle_count; i++) {
        const lw_handle *h = &r->request->handles[i];
        printf("%s %s %s%s", i == 0 ? "" : ",", h->name, CLI_FIXED(best->values[i], 2),
               unit_word(h));
    }
    printf(": pavilion %s degrees above the critical angle, crown %s %%, depth %s %% of the width",
           CLI_FIXED(best->flattest_deg - r->request->critical_deg, 2),
           CLI_FIXED(100.0 * best->crown, 1), CLI_FIXED(100.0 * best->depth, 1));
    if (r->request->judge.limits.window_tilt_deg >= 0.0) {
        printf(", window %s %%", CLI_FIXED(100.0 * best->tilted_window, 2));
    }
    puts(".");
}

void tune_tell(const tune_result *r)
{
    const lw_try *before = &r->judge->before, *after = lw_tune_best(r->tune);
    tell_head(r);
    if (!r->found) {
        tell_failure(r);
        return;
    }
    tell_table(r, before, after);
    tell_gain(r, after);
    if (before->excess > 0.0) {
        puts("Before, the cut did not keep all that was asked.");
    }
    tell_flat(r);
    tell_free(r->request);
}

/* ---- JSON ---- */

/* The key of a handle, with its unit: "lower_percent", "pavilion_main_deg". */
static void key_of(const lw_handle *h, char *text, size_t capacity)
{
    static const char *const units[] = {[LW_UNIT_NUMBER] = "",
                                        [LW_UNIT_PERCENT] = "_percent",
                                        [LW_UNIT_DEG] = "_deg",
                                        [LW_UNIT_MM] = "_mm"};
    snprintf(text, capacity, "%s%s", h->name, units[h->unit]);
    for (char *c = text; *c != '\0'; c++) {
        *c = *c == ' ' || *c == '-' ? '_' : *c;
    }
}

static json_t *try_json(const tune_request *q, const lw_try *t)
{
    json_t *values = json_object();
    for (int i = 0; i < q->handle_count; i++) {
        char key[LW_VARY_NAME + 16];
        key_of(&q->handles[i], key, sizeof key);
        json_object_set_new(values, key, json_real(t->values[i]));
    }
    return json_pack("{s:o, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:f, "
                     "s:f, s:f}",
                     "values", values, "score", t->score, "excess", t->excess, "brightness",
                     t->seen.brightness, "glare", t->seen.glare, "window", t->seen.window, "leak",
                     t->seen.leak, "extinction", t->seen.extinction, "contrast", t->seen.contrast,
                     "fire_deg", t->seen.fire_deg, "weight_ratio", t->weight, "table_percent",
                     100.0 * t->table, "crown_percent", 100.0 * t->crown, "pavilion_percent",
                     100.0 * t->pavilion, "depth_percent", 100.0 * t->depth,
                     "above_critical_angle_deg", t->flattest_deg - q->critical_deg, "tilted_window",
                     t->tilted_window);
}

static json_t *handles_json(const tune_result *r)
{
    static const char *const ends[] = {
        [LW_FLAT_FALLS] = "falls", [LW_FLAT_RANGE] = "range", [LW_FLAT_LIMIT] = "limit"};
    static const char *const units[] = {[LW_UNIT_NUMBER] = "",
                                        [LW_UNIT_PERCENT] = "percent",
                                        [LW_UNIT_DEG] = "deg",
                                        [LW_UNIT_MM] = "mm"};
    json_t *list = json_array();
    for (int i = 0; i < r->request->handle_count; i++) {
        const lw_handle *h = &r->request->handles[i];
        json_t *object = json_pack("{s:s, s:s, s:f, s:f}", "name", h->name, "unit", units[h->unit],
                                   "lowest", h->lowest, "highest", h->highest);
        if (r->found) {
            const lw_flat *flat = lw_tune_flat(r->tune, i);
            json_object_set_new(object, "flat",
                                json_pack("{s:f, s:f, s:s, s:s}", "low", flat->low, "high",
                                          flat->high, "low_end", ends[flat->low_end], "high_end",
                                          ends[flat->high_end]));
        }
        json_array_append_new(list, object);
    }
    return list;
}

json_t *tune_json(const tune_result *r)
{
    const tune_request *q = r->request;
    const lw_try *best = lw_tune_best(r->tune);
    json_t *aims = json_object(), *free_names = json_array();
    for (int i = 0; i < LW_AIM_COUNT; i++) {
        if (q->judge.shares[i] > 0.0) {
            json_object_set_new(aims, lw_aim_names[i], json_real(q->judge.shares[i]));
        }
    }
    for (int i = 0; i < q->free_count; i++) {
        json_array_append_new(free_names, json_string(q->free[i].name));
    }
    return json_pack(
        "{s:s, s:s?, s:f, s:f, s:f, s:f, s:f, s:o, s:b, s:f, s:i, s:i, s:o, s:o, s:o, s:o}", "cut",
        q->stone.name, "material", q->material != NULL ? q->material->key : NULL,
        "refractive_index", q->judge.look.light.index.yellow, "critical_angle_deg", q->critical_deg,
        "margin_deg", q->margin_deg, "rock_deg", q->judge.look.rock_deg, "off_deg",
        q->judge.hold_deg, "aims", aims, "found", (int)r->found, "gain_percent",
        r->found ? 100.0 * (best->score - 1.0) : 0.0, "seed", (int)q->seed, "tries",
        lw_tune_tries(r->tune), "before", try_json(q, &r->judge->before), "after",
        try_json(q, best), "varied", handles_json(r), "free", free_names);
}
