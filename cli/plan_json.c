#include "plan_say.h"

#include "json.h"
#include "plan_words.h"
#include "stone.h"

#include <string.h>

enum { SENTENCE = 1000 };

static json_t *range_json(const lw_range *range)
{
    return json_pack("[f, f]", range->value[LW_CASE_LEAST], range->value[LW_CASE_MOST]);
}

static void put_range(json_t *object, const char *key, const lw_range *range)
{
    char with_range[40];
    snprintf(with_range, sizeof with_range, "%s_range", key);
    json_object_set_new(object, key, json_real(range->value[LW_CASE_LIKELY]));
    json_object_set_new(object, with_range, range_json(range));
}

static json_t *numbers_json(const double *numbers, int count)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, json_real(numbers[i]));
    }
    return list;
}

static json_t *touches_json(const lw_plan *plan, const lw_plan_entry *entry)
{
    json_t *list = json_array();
    for (int i = 0; i < entry->touch_count; i++) {
        int face = entry->touches[i];
        const lw_rough_face *at = &lw_plan_rough(plan)->faces[face];
        json_array_append_new(list, json_pack("{s:i, s:s, s:o, s:f}", "face", face + 1, "what",
                                              at->what, "normal", cli_json_vec3(at->plane.normal),
                                              "distance_mm", at->plane.distance));
    }
    return list;
}

json_t *cli_plan_placement_json(const lw_plan *plan, const lw_plan_entry *entry)
{
    json_t *object = json_object();
    put_range(object, "width_mm", &entry->width_mm);
    put_range(object, "length_mm", &entry->length_mm);
    put_range(object, "depth_mm", &entry->depth_mm);
    put_range(object, "weight_ct", &entry->weight_ct);
    put_range(object, "yield", &entry->yield);
    json_object_set_new(object, "scale", json_real(entry->placement.scale_mm));
    json_object_set_new(object, "rotation", numbers_json(entry->placement.rotation, 9));
    json_object_set_new(object, "shift_mm", cli_json_vec3(entry->placement.shift_mm));
    json_object_set_new(object, "clearance_mm", json_real(entry->evidence.clearance_mm));
    json_object_set_new(object, "touches", touches_json(plan, entry));
    json_object_set_new(object, "placements_tried", json_integer(entry->tried));
    return object;
}

static json_t *angles_json(const lw_plan_entry *entry)
{
    json_t *list = json_array();
    const lw_adapted *adapted = &entry->adapted;
    for (int i = 0; i < adapted->cut.step_count; i++) {
        const lw_tier *tier = &adapted->stone.tiers[i];
        if (tier->count > 0) {
            lw_side side = adapted->stone.facets[tier->first].side;
            json_array_append_new(list,
                                  json_pack("{s:i, s:s, s:s, s:f}", "step", i + 1, "name",
                                            adapted->cut.steps[i].name, "side", cli_side_text(side),
                                            "angle_deg", tier->angle_deg));
        }
    }
    return list;
}

static json_t *needs_json(const lw_plan_entry *entry, lw_have have)
{
    json_t *list = json_array();
    for (int i = 0; i < entry->need_count; i++) {
        if (entry->needs[i].have == have) {
            json_array_append_new(list, json_string(entry->needs[i].text));
        }
    }
    return list;
}

static json_t *score_json(const lw_plan_score *score)
{
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f}", "total", score->total, "size", score->size,
                     "light", score->light, "ease", score->ease, "bench", score->bench, "suits",
                     score->suits);
}

static json_t *difficulty_json(const lw_difficulty *difficulty)
{
    return json_pack("{s:i, s:i, s:i, s:f}", "facets", difficulty->facets, "settings",
                     difficulty->settings, "chain", difficulty->chain, "closest_deg",
                     difficulty->closest_deg);
}

static json_t *bench_json(const lw_plan_entry *entry)
{
    return json_pack(
        "{s:f, s:o, s:i, s:b, s:f, s:o, s:o, s:o}", "difficulty", entry->difficulty.value,
        "difficulty_parts", difficulty_json(&entry->difficulty), "wheel", entry->wheel.fit.wheel,
        "every_tooth_there", (int)entry->wheel.fit.whole, "greatest_cheater_deg",
        entry->wheel.fit.greatest_cheater_deg, "missing", needs_json(entry, LW_HAVE_NO), "there",
        needs_json(entry, LW_HAVE_YES), "not_said", needs_json(entry, LW_HAVE_UNSAID));
}

static json_t *look_json(const lw_plan_entry *entry)
{
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:f, s:o}", "brightness", entry->brightness,
                     "window", entry->window, "light_error_est", entry->light_error, "pavilion_deg",
                     entry->pavilion_deg, "crown_deg", entry->crown_deg, "critical_margin_deg",
                     entry->critical_margin_deg, "tilt_before_window_deg", entry->tilt_deg,
                     "angles", angles_json(entry));
}

static json_t *ranked_json(const lw_plan *plan, int i)
{
    const lw_plan_entry *entry = lw_plan_at(plan, i);
    char why[SENTENCE], place[SENTENCE];
    lw_plan_write_why(plan, i, why, sizeof why);
    lw_plan_write_place(plan, entry, place, sizeof place);
    json_t *object = json_pack("{s:s, s:s, s:s, s:s}", "cut", entry->name, "title",
                               entry->adapted.cut.title, "why", why, "place", place);
    json_object_update_new(object, cli_plan_placement_json(plan, entry));
    json_object_update_new(object, look_json(entry));
    json_object_update_new(object, bench_json(entry));
    json_object_set_new(object, "can_be_indexed", json_boolean(entry->state == LW_PLAN_GOOD));
    json_object_set_new(object, "score", score_json(&entry->score));
    return object;
}

static json_t *left_out_json(const lw_plan *plan, int i)
{
    char why[SENTENCE];
    lw_plan_write_why(plan, i, why, sizeof why);
    return json_pack("{s:s, s:s}", "cut", lw_plan_at(plan, i)->name, "why", why);
}

static json_t *rough_json(const lw_plan *plan)
{
    const lw_plan_request *asked = lw_plan_asked(plan);
    const lw_habit_words *words = lw_habit_describe(asked->habit);
    const lw_rough *rough = lw_plan_rough(plan);
    return json_pack("{s:s, s:s, s:o, s:f, s:b, s:f, s:f}", "habit", words->key, "note",
                     words->note, "readings_mm", numbers_json(asked->readings.mm, 3), "weight_ct",
                     lw_plan_rough_ct(plan), "weighed", (int)(asked->rough_ct > 0.0),
                     "counted_on_mm3", rough->volume_mm3, "whole_mm3", rough->whole_mm3);
}

static json_t *allowances_json(const lw_allowances *allowances)
{
    double margins[LW_CASE_COUNT];
    for (int i = 0; i < LW_CASE_COUNT; i++) {
        margins[i] = lw_allowance_margin_mm(allowances, (lw_case)i);
    }
    return json_pack("{s:f, s:f, s:o, s:o, s:o, s:o}", "caliper_mm", allowances->caliper_mm,
                     "wanted_mm", allowances->wanted_mm, "preform_mm",
                     numbers_json(allowances->preform_mm, LW_CASE_COUNT), "skill_mm",
                     numbers_json(allowances->skill_mm, LW_CASE_COUNT), "polish_mm",
                     numbers_json(allowances->polish_mm, LW_CASE_COUNT), "margin_mm",
                     numbers_json(margins, LW_CASE_COUNT));
}

json_t *cli_plan_json(const lw_plan *plan, const char *sheet)
{
    json_t *ranked = json_array(), *left_out = json_array();
    for (int i = 0; i < lw_plan_count(plan); i++) {
        bool in = lw_plan_at(plan, i)->state <= LW_PLAN_NO_WHEEL;
        json_array_append_new(in ? ranked : left_out,
                              in ? ranked_json(plan, i) : left_out_json(plan, i));
    }
    const lw_plan_request *asked = lw_plan_asked(plan);
    return json_pack("{s:o, s:s, s:f, s:f, s:o, s:o, s:o, s:s?}", "rough", rough_json(plan),
                     "material", asked->material->key, "specific_gravity", asked->material->sg,
                     "least_width_mm", asked->least_width_mm, "allowances_each_side",
                     allowances_json(&asked->allowances), "ranked", ranked, "left_out", left_out,
                     "sheet", sheet);
}
