#include "cut/value_parts.h"

#include "base/number.h"
#include "cut/read_parts.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

size_t lw_value_write(lw_value value, lw_unit unit, char *text, size_t capacity)
{
    static const char *const endings[] = {[LW_UNIT_NUMBER] = "",
                                          [LW_UNIT_PERCENT] = " %",
                                          [LW_UNIT_DEG] = " deg",
                                          [LW_UNIT_MM] = " mm"};
    char exact[40], number[LW_NUMBER_TEXT];
    double shown = unit == LW_UNIT_PERCENT ? value.value * 100.0 : value.value;
    /* Ten figures: 0.57 as a percentage is 56.99999999999999 to the last bit. */
    double rounded = shown;
    if (shown != 0.0 && fabs(shown) < 1e9 && fabs(shown) > 1e-9) {
        double scale = 1.0;
        while (fabs(shown) * scale < 1e9) {
            scale *= 10.0;
        }
        rounded = round(shown * scale) / scale;
    }
    lw_number_write(rounded, number);
    snprintf(exact, sizeof exact, "%s%s", number, endings[unit]);
    int written = snprintf(text, capacity, "%s", exact);
    return written < 0 ? 0 : (size_t)written;
}

/* The value of the setting of that name, among the first count. */
static int find_setting(const lw_cut *cut, int count, const char *name)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(cut->settings[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

bool lw_expr_is_percent(const lw_cut *cut, int before, const lw_expr *expr)
{
    for (int hops = 0; hops <= LW_CUT_MOST_SETTINGS + LW_CUT_MOST_DEPTH; hops++) {
        switch (expr->kind) {
        case LW_EXPR_NUMBER:
            return expr->unit == LW_UNIT_PERCENT;
        case LW_EXPR_NEGATE:
        case LW_EXPR_GROUP:
        case LW_EXPR_ADD:
        case LW_EXPR_SUBTRACT:
            expr = expr->left;
            break;
        case LW_EXPR_NAME:
            before = find_setting(cut, before, expr->name);
            if (before < 0) {
                return false;
            }
            expr = cut->settings[before].value;
            break;
        default:
            return false;
        }
    }
    return false;
}

lw_unit lw_setting_unit(const lw_cut *cut, const lw_values *values, int setting)
{
    assert(setting >= 0 && setting < values->count);
    lw_unit unit = values->values[setting].unit;
    bool percent =
        unit == LW_UNIT_NUMBER && lw_expr_is_percent(cut, setting, cut->settings[setting].value);
    return percent ? LW_UNIT_PERCENT : unit;
}

/* The kind of values that have this unit. */
static lw_unit kind_of(lw_unit unit)
{
    return unit == LW_UNIT_PERCENT ? LW_UNIT_NUMBER : unit;
}

static lw_status fail_setting(const lw_setting *setting, lw_status status, const char *found,
                              const char *expected, const char *hint, lw_problem *problem)
{
    return lw_problem_set(problem, status, setting->place.line, setting->place.column, found,
                          expected, hint);
}

/* An outer value, or a limit, in the setting's unit: a bare one takes that unit. */
static bool to_unit(lw_unit given, double number, lw_unit unit, lw_value *out)
{
    if (given == LW_UNIT_NUMBER) {
        given = unit;
    }
    if (kind_of(given) != kind_of(unit)) {
        return false;
    }
    *out = (lw_value){kind_of(given), given == LW_UNIT_PERCENT ? number / 100.0 : number};
    return true;
}

static lw_status limit_of(const lw_cut *cut, const lw_values *values, const lw_expr *limit,
                          lw_unit unit, lw_value *out, lw_problem *problem)
{
    lw_value value;
    lw_status status = lw_value_of(cut, values, limit, &value, problem);
    if (status != LW_OK) {
        return status;
    }
    bool percent = value.unit == LW_UNIT_NUMBER && lw_expr_is_percent(cut, values->count, limit);
    if (percent) {
        *out = value;
        if (kind_of(unit) == LW_UNIT_NUMBER) {
            return LW_OK;
        }
    } else if (to_unit(value.unit, value.value, unit, out)) {
        return LW_OK;
    }
    lw_place place = lw_expr_start(limit);
    return lw_problem_set(problem, LW_BAD_INPUT, place.line, place.column,
                          percent ? "a percentage" : lw_unit_text(value.unit),
                          "a limit of the same kind as the setting's value",
                          "a bare limit takes the value's unit");
}

static lw_status outside(const lw_setting *setting, lw_value value, lw_value lowest,
                         lw_value highest, lw_unit unit, lw_problem *problem)
{
    char number[40], low[40], high[40], found[LW_PROBLEM_TEXT], expected[LW_PROBLEM_TEXT];
    lw_value_write(value, unit, number, sizeof number);
    lw_value_write(lowest, unit, low, sizeof low);
    lw_value_write(highest, unit, high, sizeof high);
    if (lowest.value > highest.value) {
        snprintf(found, sizeof found, "limits from %s to %s", low, high);
        return fail_setting(setting, LW_BAD_INPUT, found, "the lower limit first", "", problem);
    }
    snprintf(found, sizeof found, "%s = %s", setting->name, number);
    snprintf(expected, sizeof expected, "a value from %s to %s", low, high);
    return fail_setting(setting, LW_BAD_INPUT, found, expected, "", problem);
}

static lw_status limits_of(const lw_cut *cut, const lw_values *values, const lw_setting *setting,
                           lw_unit unit, lw_value *lowest, lw_value *highest, lw_problem *problem)
{
    lw_value low, high;
    lw_status status = limit_of(cut, values, setting->lowest, unit, &low, problem);
    if (status == LW_OK) {
        status = limit_of(cut, values, setting->highest, unit, &high, problem);
    }
    if (status == LW_OK) {
        *lowest = low;
        *highest = high;
    }
    return status;
}

lw_status lw_setting_limits(const lw_cut *cut, const lw_values *values, int setting,
                            lw_value *lowest, lw_value *highest)
{
    assert(setting >= 0 && setting < values->count && !cut->settings[setting].is_let);
    lw_unit unit = lw_setting_unit(cut, values, setting);
    return limits_of(cut, values, &cut->settings[setting], unit, lowest, highest, NULL);
}

static lw_status check_limits(const lw_cut *cut, const lw_values *values, const lw_setting *setting,
                              lw_value value, lw_unit unit, lw_problem *problem)
{
    if (setting->is_let) {
        return LW_OK;
    }
    lw_value lowest, highest;
    lw_status status = limits_of(cut, values, setting, unit, &lowest, &highest, problem);
    if (status != LW_OK) {
        return status;
    }
    if (lowest.value <= value.value && value.value <= highest.value &&
        lowest.value <= highest.value) {
        return LW_OK;
    }
    return outside(setting, value, lowest, highest, unit, problem);
}

static lw_status overridden(const lw_setting *setting, const lw_override *override, lw_unit unit,
                            lw_value *out, lw_problem *problem)
{
    char found[LW_PROBLEM_TEXT], expected[LW_PROBLEM_TEXT];
    if (setting->is_let) {
        snprintf(found, sizeof found, "a value for '%s'", setting->name);
        return fail_setting(setting, LW_BAD_INPUT, found, "a value for a setting",
                            "a let cannot be set from outside", problem);
    }
    if (!isfinite(override->value)) {
        snprintf(found, sizeof found, "no finite number for '%s'", setting->name);
        return fail_setting(setting, LW_BAD_INPUT, found, "a finite number", "", problem);
    }
    if (!to_unit(override->unit, override->value, unit, out)) {
        snprintf(found, sizeof found, "%s for '%s'",
                 override->unit == LW_UNIT_PERCENT ? "a percentage" : lw_unit_text(override->unit),
                 setting->name);
        snprintf(expected, sizeof expected, "%s",
                 unit == LW_UNIT_PERCENT ? "a percentage" : lw_unit_text(unit));
        return fail_setting(setting, LW_BAD_INPUT, found, expected, "", problem);
    }
    return LW_OK;
}

lw_status lw_values_add(const lw_cut *cut, const lw_override *override, lw_values *values,
                        lw_problem *problem)
{
    int index = values->count;
    assert(index < cut->setting_count && index < LW_CUT_MOST_SETTINGS);
    const lw_setting *setting = &cut->settings[index];
    lw_value value;
    lw_status status = lw_value_of(cut, values, setting->value, &value, problem);
    if (status != LW_OK) {
        return status;
    }
    bool percent = value.unit == LW_UNIT_NUMBER && lw_expr_is_percent(cut, index, setting->value);
    lw_unit unit = percent ? LW_UNIT_PERCENT : value.unit;
    if (override != NULL) {
        status = overridden(setting, override, unit, &value, problem);
    }
    if (status == LW_OK) {
        status = check_limits(cut, values, setting, value, unit, problem);
    }
    if (status == LW_OK) {
        values->values[index] = value;
        values->count++;
    }
    return status;
}

static lw_status unknown_override(const lw_cut *cut, const char *name, lw_problem *problem)
{
    const char *words[LW_CUT_MOST_SETTINGS];
    char found[LW_PROBLEM_TEXT], hint[LW_PROBLEM_TEXT] = "";
    int count = 0;
    for (int i = 0; i < cut->setting_count; i++) {
        if (!cut->settings[i].is_let) {
            words[count++] = cut->settings[i].name;
        }
    }
    const char *best = lw_nearest(name, strlen(name), words, count);
    if (best != NULL) {
        snprintf(hint, sizeof hint, "did you mean '%s'?", best);
    }
    snprintf(found, sizeof found, "'%s'", name);
    return lw_problem_set(problem, LW_NOT_FOUND, 0, 0, found, "a setting of this cut", hint);
}

static lw_status check_overrides(const lw_cut *cut, const lw_override *overrides, int count,
                                 lw_problem *problem)
{
    char found[LW_PROBLEM_TEXT];
    for (int i = 0; i < count; i++) {
        if (find_setting(cut, cut->setting_count, overrides[i].name) < 0) {
            return unknown_override(cut, overrides[i].name, problem);
        }
        for (int j = 0; j < i; j++) {
            if (strcmp(overrides[i].name, overrides[j].name) == 0) {
                snprintf(found, sizeof found, "'%s' set twice", overrides[i].name);
                return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, "one value a setting",
                                      "");
            }
        }
    }
    return LW_OK;
}

lw_status lw_values_make(const lw_cut *cut, const lw_override *overrides, int override_count,
                         lw_values *out, lw_problem *problem)
{
    lw_status status = check_overrides(cut, overrides, override_count, problem);
    lw_values values = {.count = 0};
    while (status == LW_OK && values.count < cut->setting_count) {
        const lw_override *mine = NULL;
        for (int i = 0; i < override_count; i++) {
            if (strcmp(overrides[i].name, cut->settings[values.count].name) == 0) {
                mine = &overrides[i];
            }
        }
        status = lw_values_add(cut, mine, &values, problem);
    }
    if (status == LW_OK) {
        *out = values;
    }
    return status;
}
