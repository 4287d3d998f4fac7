#include "rough/habit.h"

#include "base/number.h"
#include "geom/angle.h"
#include "rough/habit_form.h"

#include <math.h>
#include <stdio.h>

static bool is_prism(lw_habit habit)
{
    return habit >= LW_HABIT_HEXAGONAL_PRISM && habit <= LW_HABIT_DOUBLE_POINTED;
}

/* How far a point reaches down its prism: to where its lowest face meets a prism face. */
static double point_length_mm(const lw_readings *readings)
{
    double apothem = fmax(0.5 * readings->mm[2], 0.5 * readings->mm[1] * lw_sincos_deg(30).cos);
    return lw_tan_deg(LW_FORM_QUARTZ_R_DEG) * apothem;
}

static lw_status check_each(lw_habit habit, const lw_readings *readings, lw_problem *problem)
{
    static const char *const places[3] = {"first", "second", "third"};
    for (int i = 0; i < 3; i++) {
        double mm = readings->mm[i];
        if (!(mm >= LW_READING_LEAST_MM && mm <= LW_READING_MOST_MM)) {
            char found[80], number[LW_NUMBER_TEXT] = "no number";
            if (isfinite(mm)) {
                lw_number_write(floor(mm * 1e6 + 0.5) / 1e6, number);
            }
            snprintf(found, sizeof found, "%s mm as the %s reading", number, places[i]);
            return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, "0.5 to 1000 mm",
                                  lw_habit_describe(habit)->readings[i]);
        }
    }
    return LW_OK;
}

/* Readings that are sound one by one may still not belong to one hexagon. */
static lw_status check_together(lw_habit habit, const lw_readings *readings, lw_problem *problem)
{
    const double *mm = readings->mm;
    bool six_sided = is_prism(habit) || habit == LW_HABIT_BARREL;
    if (six_sided && mm[2] >= sqrt(3.0) * mm[1]) {
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0,
                              "a third reading of 1.73 times the second or more",
                              "less: the second over two corners, the third between two faces",
                              "were the two exchanged?");
    }
    int points = is_prism(habit) ? (int)habit - (int)LW_HABIT_HEXAGONAL_PRISM : 0;
    double need = points * point_length_mm(readings);
    if (points > 0 && mm[0] <= need) {
        char found[80], expected[80];
        char along[LW_NUMBER_TEXT], least[LW_NUMBER_TEXT];
        lw_number_write(mm[0], along);
        lw_number_write(ceil(need * 10.0) / 10.0, least);
        snprintf(found, sizeof found, "%s mm along a prism of this width", along);
        snprintf(expected, sizeof expected, "more than %s mm, which the point%s alone take%s",
                 least, points > 1 ? "s" : "", points > 1 ? "" : "s");
        return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, expected,
                              "the first reading is along the prism");
    }
    return LW_OK;
}

/* What the piece is likely to hold, where that is more than its inner solid. */
static double whole_mm3(lw_habit habit, const double mm[3], double inner)
{
    double box = mm[0] * mm[1] * mm[2];
    switch (habit) {
    case LW_HABIT_PEBBLE:
    case LW_HABIT_HALF_PEBBLE: /* half of an ellipsoid twice as high */
        return box * LW_PI / 6.0;
    case LW_HABIT_PLATE:
        return box * LW_PI / 4.0;
    case LW_HABIT_COBBED: /* an assumption */
        return box / 2.0;
    default:
        return inner;
    }
}

lw_status lw_habit_rough(const lw_memory *memory, lw_habit habit, const lw_readings *readings,
                         lw_rough *out, lw_problem *problem)
{
    lw_status status = check_each(habit, readings, problem);
    if (status == LW_OK) {
        status = check_together(habit, readings, problem);
    }
    if (status != LW_OK) {
        return status;
    }
    lw_form form;
    lw_form_make(habit, readings, &form);
    lw_rough rough;
    status = lw_rough_make(memory, form.faces, form.count, &rough);
    if (status != LW_OK) {
        return lw_problem_set(problem, status, 0, 0, "", "", "");
    }
    rough.whole_mm3 = whole_mm3(habit, readings->mm, rough.volume_mm3);
    rough.has_c = form.has_c;
    rough.c_axis = form.c_axis;
    *out = rough;
    return LW_OK;
}
