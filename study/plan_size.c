/* The three cases of an entry's size, its light, and what the bench has for it. */
#include "plan_parts.h"

#include "geom/tolerance.h"
#include "light/measures.h"
#include "matter/refraction.h"

enum { MOST_RESIZES = 20 };

/* The largest scale of a shape at the entry's rotation, in one case. */
static lw_status scale_of_case(lw_plan *plan, const lw_plan_entry *entry, const lw_fit_shape *shape,
                               lw_case which, lw_placement *placement)
{
    lw_fitter *fitter = NULL;
    lw_status status =
        lw_fitter_new(&plan->memory, &plan->roughs[which], shape, plan->margins_mm[which], &fitter);
    if (status != LW_OK) {
        return status;
    }
    status = lw_fitter_place(fitter, entry->placement.rotation, placement);
    if (status == LW_OK) {
        lw_fitter_center(fitter, placement);
    }
    lw_fitter_destroy(fitter);
    return status;
}

static void put_size(const lw_plan *plan, lw_plan_entry *entry, const lw_measures *measures,
                     lw_case which, double scale_mm)
{
    double mm = fmax(0.0, scale_mm);
    double weight = measures->mass.volume * mm * mm * mm * plan->request.material->sg / 200.0;
    entry->width_mm.value[which] = measures->width * mm;
    entry->length_mm.value[which] = measures->length * mm;
    entry->depth_mm.value[which] = measures->depth * mm;
    entry->weight_ct.value[which] = weight;
    entry->yield.value[which] = weight / plan->rough_ct;
}

/* Solves the cut at a width and asks how large it could be at the entry's rotation. */
static lw_status solve_and_place(lw_plan *plan, const lw_plan_entry *entry, lw_case which,
                                 double width, lw_stone *stone, lw_placement *placement)
{
    lw_solve_options options = {.size_kind = LW_SIZE_WIDTH_MM, .size = width};
    lw_status status = lw_cut_solve(&plan->memory, &entry->adapted.cut, &options, stone, NULL);
    if (status != LW_OK) {
        return status;
    }
    lw_fit_shape shape = lw_plan_shape(stone);
    status = scale_of_case(plan, entry, &shape, which, placement);
    if (status != LW_OK) {
        lw_stone_destroy(stone);
    }
    return status;
}

/* A stone with rules in mm changes its shape with its size. It is solved at the size that was found
 * last until that size is as good as the largest for its own shape: the size moves little with the
 * shape, so each round is nearer by far. What is accepted fits. */
static lw_status resize(lw_plan *plan, const lw_plan_entry *entry, lw_case which,
                        lw_placement *placement, lw_stone *out)
{
    double width = entry->adapted.stone.measures.width * placement->scale_mm;
    for (int round = 0; round < MOST_RESIZES; round++) {
        lw_stone stone = {0};
        lw_status status = solve_and_place(plan, entry, which, width, &stone, placement);
        if (status != LW_OK) {
            return status;
        }
        bool fits = placement->scale_mm >= stone.unit_mm;
        bool largest = placement->scale_mm <= stone.unit_mm * (1.0 + 2.0 * LW_PLAN_SAME_SIZE);
        if (fits && (largest || round == MOST_RESIZES - 1)) {
            placement->scale_mm = stone.unit_mm;
            *out = stone;
            return LW_OK;
        }
        width = stone.measures.width * placement->scale_mm * (1.0 - LW_PLAN_SAME_SIZE);
        lw_stone_destroy(&stone);
        if (!(width > 0.0)) {
            return LW_NO_SOLUTION;
        }
    }
    return LW_NO_SOLUTION;
}

/* One case of a stone that has a size of its own; the likely one becomes the entry's stone. */
static lw_status size_sized(lw_plan *plan, lw_plan_entry *entry, lw_case which,
                            lw_placement *placement)
{
    lw_stone stone = {0};
    lw_status status = resize(plan, entry, which, placement, &stone);
    if (status != LW_OK) {
        return status;
    }
    put_size(plan, entry, &stone.measures, which, stone.unit_mm);
    if (which == LW_CASE_LIKELY) {
        lw_stone_destroy(&entry->adapted.stone);
        entry->adapted.stone = stone;
    } else {
        lw_stone_destroy(&stone);
    }
    return LW_OK;
}

static lw_status size_case(lw_plan *plan, lw_plan_entry *entry, lw_case which)
{
    lw_placement placement = {0};
    lw_fit_shape shape = lw_plan_shape(&entry->adapted.stone);
    bool sized = entry->adapted.stone.unit_mm > 0.0;
    lw_status status = scale_of_case(plan, entry, &shape, which, &placement);
    if (status == LW_OK && sized && placement.scale_mm > 0.0) {
        status = size_sized(plan, entry, which, &placement);
    } else if (status == LW_OK) {
        put_size(plan, entry, &entry->adapted.stone.measures, which, placement.scale_mm);
    }
    if (status == LW_OK && which == LW_CASE_LIKELY) {
        entry->placement = placement;
    }
    return status;
}

lw_status lw_plan_size(lw_plan *plan, lw_plan_entry *entry)
{
    static const lw_case order[LW_CASE_COUNT] = {LW_CASE_LEAST, LW_CASE_MOST, LW_CASE_LIKELY};
    for (int i = 0; i < LW_CASE_COUNT; i++) {
        lw_status status = size_case(plan, entry, order[i]);
        if (status != LW_OK) {
            return status;
        }
    }
    lw_fit_shape shape = lw_plan_shape(&entry->adapted.stone);
    lw_fit_verify(&plan->roughs[LW_CASE_LIKELY], &shape, plan->margins_mm[LW_CASE_LIKELY],
                  &entry->placement, entry->touches, LW_PLAN_TOUCHES, &entry->evidence);
    entry->touch_count = entry->evidence.touch_count < LW_PLAN_TOUCHES ? entry->evidence.touch_count
                                                                       : LW_PLAN_TOUCHES;
    if (!entry->evidence.sound) {
        return lw_problem_set(&entry->problem, LW_NO_SOLUTION, 0, 0,
                              "a placement that does not hold when looked at afresh", "",
                              "this is a fault of the program");
    }
    entry->adapted.stone.unit_mm = entry->placement.scale_mm;
    return LW_OK;
}

lw_status lw_plan_light(const lw_memory *memory, const lw_plan_request *request,
                        lw_plan_entry *entry)
{
    double index = 0.0;
    lw_status status = lw_material_mean_index(request->material, LW_LINE_D_UM, &index);
    if (status != LW_OK) {
        return status;
    }
    lw_light_options options = lw_light_defaults(index);
    options.bound = LW_LIGHT_COARSE;
    lw_light_measures measures;
    status = lw_light_measure(memory, &entry->adapted.stone.solid, &options, &measures);
    if (status != LW_OK) {
        return status;
    }
    entry->brightness = measures.brightness;
    entry->window = measures.window;
    entry->light_error = measures.error_est;
    return LW_OK;
}

void lw_plan_bench(const lw_plan_request *request, lw_plan_entry *entry)
{
    const lw_adapted *adapted = &entry->adapted;
    double width_mm = entry->width_mm.value[LW_CASE_LIKELY];
    entry->difficulty = lw_difficulty_of(&adapted->cut, &adapted->stone);
    entry->need_count = lw_kit_needs(&request->kit, &adapted->cut, &adapted->stone,
                                     request->material, width_mm, &entry->wheel, entry->needs);
    bool wheel_lacks =
        !entry->wheel.own && !entry->wheel.fit.whole && request->kit.cheater == LW_HAVE_NO;
    entry->state = width_mm < request->least_width_mm ? LW_PLAN_TOO_SMALL
                   : wheel_lacks                      ? LW_PLAN_NO_WHEEL
                                                      : LW_PLAN_GOOD;
}
