#include "craft/need.h"

#include "base/number.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- wheels ------------------------------------------------------------- */

static bool is_better(const lw_wheel_fit *one, const lw_wheel_fit *than, int own_wheel)
{
    if (one->whole != than->whole) {
        return one->whole;
    }
    if (one->whole) {
        return one->wheel == own_wheel && than->wheel != own_wheel;
    }
    if (one->whole_count != than->whole_count) {
        return one->whole_count > than->whole_count;
    }
    return one->greatest_cheater_deg < than->greatest_cheater_deg;
}

void lw_kit_choose_wheel(const lw_kit *kit, const lw_cut *cut, const lw_stone *stone,
                         lw_wheel_choice *out)
{
    lw_wheel_choice best = {.own = kit->wheel_count == 0};
    lw_wheel_fit_stone(stone, cut->wheel, best.own ? cut->wheel : kit->wheels[0], &best.fit);
    for (int i = 1; i < kit->wheel_count; i++) {
        lw_wheel_fit fit;
        lw_wheel_fit_stone(stone, cut->wheel, kit->wheels[i], &fit);
        if (is_better(&fit, &best.fit, cut->wheel)) {
            best.fit = fit;
        }
    }
    *out = best;
}

/* "a wheel of 96, 64 or 80 teeth", the wheels on which every tooth is whole. */
static void write_wheels(const lw_cut *cut, const lw_stone *stone, char text[LW_NEED_TEXT])
{
    int wheels[LW_WHEEL_COMMON];
    int count = lw_wheels_that_do(stone, cut->wheel, wheels);
    if (count == 0) {
        snprintf(text, LW_NEED_TEXT, "a cheater: some teeth fall between those of any usual wheel");
        return;
    }
    count = count > 3 ? 3 : count;
    int used = snprintf(text, LW_NEED_TEXT, "a wheel of %d", wheels[0]);
    for (int i = 1; i < count; i++) {
        used += snprintf(text + used, (size_t)(LW_NEED_TEXT - used), "%s%d",
                         i == count - 1 ? " or " : ", ", wheels[i]);
    }
    snprintf(text + used, (size_t)(LW_NEED_TEXT - used), " teeth, or a cheater");
}

static lw_have has_wheel(const lw_kit *kit, const lw_wheel_choice *choice)
{
    if (choice->own) {
        return LW_HAVE_UNSAID;
    }
    bool can = choice->fit.whole || kit->cheater == LW_HAVE_YES;
    return can ? LW_HAVE_YES : LW_HAVE_NO;
}

static void need_wheel(const lw_kit *kit, const lw_cut *cut, const lw_stone *stone,
                       const lw_wheel_choice *choice, lw_need *need)
{
    need->kind = LW_NEED_WHEEL;
    need->have = has_wheel(kit, choice);
    if (choice->fit.whole && !choice->own) {
        snprintf(need->text, sizeof need->text, "the wheel of %d teeth", choice->fit.wheel);
    } else if (need->have == LW_HAVE_YES) {
        snprintf(need->text, sizeof need->text, "the wheel of %d teeth with the cheater",
                 choice->fit.wheel);
    } else {
        write_wheels(cut, stone, need->text);
    }
}

/* ---- the rest ----------------------------------------------------------- */

static bool has_action(const lw_cut *cut, lw_step_kind kind)
{
    for (int i = 0; i < cut->step_count; i++) {
        if (cut->steps[i].kind == kind) {
            return true;
        }
    }
    return false;
}

static lw_have has_lap(const lw_kit *kit, int least, int most)
{
    if (kit->lap_count == 0) {
        return LW_HAVE_UNSAID;
    }
    for (int i = 0; i < kit->lap_count; i++) {
        if (kit->laps[i] >= least && kit->laps[i] <= most) {
            return LW_HAVE_YES;
        }
    }
    return LW_HAVE_NO;
}

/* Half to seven tenths of the width hold a stone and leave room to cut (common practice); a kit's
 * dop may be a little outside that. */
static lw_have has_dop(const lw_kit *kit, double width_mm)
{
    if (kit->dop_count == 0) {
        return LW_HAVE_UNSAID;
    }
    for (int i = 0; i < kit->dop_count; i++) {
        if (kit->dops_mm[i] >= 0.45 * width_mm && kit->dops_mm[i] <= 0.75 * width_mm) {
            return LW_HAVE_YES;
        }
    }
    return LW_HAVE_NO;
}

/* Half millimetres, the steps in which dops come. */
static void write_dop(double width_mm, char text[LW_NEED_TEXT])
{
    char least[LW_NUMBER_TEXT], most[LW_NUMBER_TEXT];
    lw_number_write(ceil(width_mm * 0.5 * 2.0 - 0.25) / 2.0, least);
    lw_number_write(fmax(ceil(width_mm * 0.5 * 2.0 - 0.25), floor(width_mm * 0.7 * 2.0)) / 2.0,
                    most);
    if (strcmp(least, most) == 0) {
        snprintf(text, LW_NEED_TEXT, "a dop of about %s mm", least);
    } else {
        snprintf(text, LW_NEED_TEXT, "a dop of %s to %s mm", least, most);
    }
}

static lw_have has_polish(const lw_kit *kit, unsigned polish)
{
    if (!kit->polishes_said) {
        return LW_HAVE_UNSAID;
    }
    return (kit->polishes & polish) != 0 ? LW_HAVE_YES : LW_HAVE_NO;
}

static void put(lw_need needs[LW_NEED_COUNT], int *count, lw_need_kind kind, lw_have have,
                const char *text)
{
    lw_need *need = &needs[(*count)++];
    *need = (lw_need){.kind = kind, .have = have};
    snprintf(need->text, sizeof need->text, "%s", text);
}

static void put_laps(const lw_kit *kit, lw_need needs[LW_NEED_COUNT], int *count)
{
    put(needs, count, LW_NEED_COARSE, has_lap(kit, 10, 300), "a lap for shaping, mesh 180 to 260");
    put(needs, count, LW_NEED_FINE, has_lap(kit, 500, 1500), "a fine lap, mesh 600 to 1200");
    put(needs, count, LW_NEED_PREPOLISH, has_lap(kit, 2500, LW_KIT_MOST_MESH),
        "a prepolish lap, mesh 3000 or 8000");
}

static void put_polish(const lw_kit *kit, const lw_material *material, lw_need needs[LW_NEED_COUNT],
                       int *count)
{
    unsigned polish = lw_polish_find(material->polish);
    if (polish == 0) {
        put(needs, count, LW_NEED_POLISH, LW_HAVE_UNSAID,
            "a polish: none is usual for this material, so try on a scrap");
        return;
    }
    char text[LW_NEED_TEXT];
    snprintf(text, sizeof text, "%s to polish with, and a lap for it", lw_polish_text(polish));
    put(needs, count, LW_NEED_POLISH, has_polish(kit, polish), text);
}

int lw_kit_needs(const lw_kit *kit, const lw_cut *cut, const lw_stone *stone,
                 const lw_material *material, double width_mm, const lw_wheel_choice *choice,
                 lw_need needs[LW_NEED_COUNT])
{
    int count = 0;
    need_wheel(kit, cut, stone, choice, &needs[count++]);
    if (width_mm > 0.0) {
        char text[LW_NEED_TEXT];
        write_dop(width_mm, text);
        put(needs, &count, LW_NEED_DOP, has_dop(kit, width_mm), text);
    }
    put_laps(kit, needs, &count);
    if (has_action(cut, LW_STEP_TRANSFER)) {
        put(needs, &count, LW_NEED_TRANSFER, kit->transfer_jig, "a transfer jig");
    }
    if (has_action(cut, LW_STEP_ADAPTER)) {
        put(needs, &count, LW_NEED_ADAPTER, kit->adapter, "the 45 degree adapter, for the table");
    }
    put_polish(kit, material, needs, &count);
    assert(count <= LW_NEED_COUNT);
    return count;
}
