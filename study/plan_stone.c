/* The stone of an entry: the cut with its angles set for the material, solved and checked. */
#include "plan_parts.h"

#include "cut/check.h"
#include "geom/angle.h"
#include "matter/refraction.h"

#include <string.h>

lw_fit_shape lw_plan_shape(const lw_stone *stone)
{
    return (lw_fit_shape){.corners = stone->solid.vertices,
                          .corner_count = stone->solid.vertex_count};
}

/* A cut with rules in mm has no stone without a size: then seven tenths of the least reading stand
 * in until the size is known. */
static lw_status solve_somehow(const lw_memory *memory, const lw_plan_request *request,
                               const lw_cut *cut, lw_stone *stone, lw_problem *problem)
{
    lw_solve_options plain = {.size_kind = LW_SIZE_NONE};
    lw_status status = lw_cut_solve(memory, cut, &plain, stone, problem);
    if (status != LW_BAD_INPUT) {
        return status;
    }
    const double *mm = request->readings.mm;
    double least = fmin(mm[0], fmin(mm[1], mm[2]));
    lw_solve_options sized = {.size_kind = LW_SIZE_WIDTH_MM, .size = 0.7 * least};
    lw_problem second;
    return lw_cut_solve(memory, cut, &sized, stone, &second);
}

static double side_angle(const lw_cut *cut, const lw_stone *stone, lw_side side)
{
    int step = lw_main_step(cut, stone, side);
    return step < 0 ? 0.0 : stone->tiers[step].angle_deg;
}

static bool names_material(const lw_cut *cut, const lw_material *material)
{
    for (int i = 0; i < cut->suit_count; i++) {
        if (strcmp(cut->suits[i], material->key) == 0) {
            return true;
        }
    }
    return false;
}

/* The pavilion's new angle, 0 to leave it: the cut's own when it was made for this material and
 * keeps the margin, or when no angle at all does what it should. */
static double wanted_angle(const lw_cut *cut, const lw_material *material, double own_deg)
{
    double target = 0.0;
    if (own_deg == 0.0 || lw_main_angle_deg(lw_material_lowest_index(material), LW_MAIN_MARGIN_DEG,
                                            &target) != LW_OK) {
        return 0.0;
    }
    double least = lw_material_critical_angle_deg(material) + LW_MAIN_MARGIN_DEG;
    if (names_material(cut, material) && own_deg >= fmin(least, target)) {
        return 0.0;
    }
    return target;
}

/* A copy of the cut, solved afresh. */
static lw_status keep_angles(const lw_memory *memory, const lw_plan_request *request,
                             const lw_cut *cut, lw_adapted *out, lw_problem *problem)
{
    lw_adapted made = {.exact = true};
    lw_status status = lw_adapt_settings(memory, cut, NULL, 0, &made.cut, problem);
    if (status != LW_OK) {
        return status;
    }
    status = solve_somehow(memory, request, &made.cut, &made.stone, problem);
    if (status != LW_OK) {
        lw_cut_destroy(&made.cut);
        return status;
    }
    *out = made;
    return LW_OK;
}

static lw_status set_angles(const lw_memory *memory, const lw_plan_request *request,
                            lw_plan_entry *entry)
{
    lw_stone stone = {0};
    lw_status status = solve_somehow(memory, request, entry->given, &stone, &entry->problem);
    if (status != LW_OK) {
        return status;
    }
    entry->pavilion_was_deg = side_angle(entry->given, &stone, LW_SIDE_PAVILION);
    entry->crown_was_deg = side_angle(entry->given, &stone, LW_SIDE_CROWN);
    lw_adapt_angles angles = {
        .pavilion_deg = wanted_angle(entry->given, request->material, entry->pavilion_was_deg)};
    if (angles.pavilion_deg > 0.0 && !request->keep_cuts) {
        status = lw_adapt_to_angles(memory, entry->given, &stone, &angles, &entry->adapted,
                                    &entry->problem);
    } else {
        status = keep_angles(memory, request, entry->given, &entry->adapted, &entry->problem);
    }
    lw_stone_destroy(&stone);
    return status;
}

/* States the cut for the wheel that suits it best, where that is not its own. */
static lw_status set_wheel(const lw_memory *memory, const lw_plan_request *request,
                           lw_plan_entry *entry)
{
    lw_adapted *adapted = &entry->adapted;
    lw_kit_choose_wheel(&request->kit, &adapted->cut, &adapted->stone, &entry->wheel);
    if (request->keep_cuts || entry->wheel.fit.wheel == adapted->cut.wheel) {
        return LW_OK;
    }
    lw_adapted turned = {0};
    lw_status status = lw_adapt_to_wheel(memory, &adapted->cut, &adapted->stone, &entry->wheel.fit,
                                         &turned, &entry->problem);
    if (status == LW_OK) {
        lw_adapted_destroy(adapted);
        *adapted = turned;
    }
    return status;
}

/* The first of the check's faults, in words, is the entry's problem. */
static lw_status check_stone(const lw_memory *memory, lw_plan_entry *entry)
{
    lw_check_options options = {0};
    lw_check check = {0};
    const lw_adapted *adapted = &entry->adapted;
    lw_status status = lw_cut_check(memory, &adapted->cut, &adapted->stone, &options, &check);
    if (status != LW_OK) {
        return status;
    }
    char text[LW_PROBLEM_TEXT] = "";
    for (int i = 0; i < check.finding_count && text[0] == '\0'; i++) {
        if (check.findings[i].fault) {
            lw_finding_write(&adapted->cut, &adapted->stone, &check.findings[i], text, sizeof text);
        }
    }
    bool sound = check.closed && check.every_facet && check.every_meet && check.cuttable;
    lw_check_destroy(&check);
    if (!sound) {
        return lw_problem_set(&entry->problem, LW_NO_SOLUTION, 0, 0, text, "", "");
    }
    return LW_OK;
}

/* Tilted by asin(n sin(P - crit)) the far pavilion lets light through (worked: Snell's law at the
 * table, P - crit inside). */
static double tilt_before_window(double index, double margin_deg)
{
    double sine = index * lw_sincos_deg(margin_deg).sin;
    return margin_deg <= 0.0 ? 0.0 : sine >= 1.0 ? 90.0 : lw_asin_deg(sine);
}

lw_status lw_plan_prepare_stone(const lw_memory *memory, const lw_plan_request *request,
                                lw_plan_entry *entry)
{
    lw_status status = set_angles(memory, request, entry);
    if (status == LW_OK) {
        status = set_wheel(memory, request, entry);
    }
    if (status == LW_OK) {
        status = check_stone(memory, entry);
    }
    if (status != LW_OK) {
        return status;
    }
    const lw_adapted *adapted = &entry->adapted;
    entry->pavilion_deg = side_angle(&adapted->cut, &adapted->stone, LW_SIDE_PAVILION);
    entry->crown_deg = side_angle(&adapted->cut, &adapted->stone, LW_SIDE_CROWN);
    double critical = lw_material_critical_angle_deg(request->material);
    entry->critical_margin_deg = entry->pavilion_deg - critical;
    entry->tilt_deg =
        tilt_before_window(lw_material_lowest_index(request->material), entry->critical_margin_deg);
    return LW_OK;
}
