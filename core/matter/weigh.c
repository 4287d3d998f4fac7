#include "matter/weigh.h"

#include <math.h>
#include <stddef.h>

lw_status lw_water_density(double temperature_c, double *g_per_cm3)
{
    if (!(temperature_c >= LW_WATER_FROM_C && temperature_c <= LW_WATER_TO_C)) {
        return LW_BAD_INPUT;
    }
    static const double a1 = -3.983035, a2 = 301.797, a3 = 522528.9, a4 = 69.34881;
    static const double a5 = 0.999974950;
    double from_densest = temperature_c + a1;
    *g_per_cm3 = a5 * (1.0 - from_densest * from_densest * (temperature_c + a2) /
                                 (a3 * (temperature_c + a4)));
    return LW_OK;
}

static lw_status refuse(lw_problem *problem, const char *found, const char *expected,
                        const char *hint)
{
    return lw_problem_set(problem, LW_BAD_INPUT, 0, 0, found, expected, hint);
}

static lw_status check(const lw_weighing *w, lw_problem *problem)
{
    if (!(isfinite(w->air) && w->air > 0.0)) {
        return refuse(problem, "a weight in air that is not above 0", "a positive weight", "");
    }
    if (!(isfinite(w->water) && w->water > 0.0)) {
        return refuse(problem, "a weight in water that is not above 0", "a positive weight",
                      "a stone that floats cannot be weighed this way");
    }
    if (!(isfinite(w->balance_error) && w->balance_error >= 0.0 &&
          isfinite(w->temperature_error_c) && w->temperature_error_c >= 0.0)) {
        return refuse(problem, "an error below 0", "0 or more", "");
    }
    if (!(w->air > w->water)) {
        return refuse(problem, "a weight in water not below that in air", "a loss in water",
                      "the readings may have been swapped");
    }
    /* At worst the loss is 2 errors less; water weighs no more than 1 g/cm3. */
    double least_loss = w->air - w->water - 2.0 * w->balance_error;
    if (!(least_loss * LW_SG_MOST > w->air)) {
        return refuse(problem, "a loss in water that the balance's errors all but swallow",
                      "a greater loss", "weigh a larger stone, or on a finer balance");
    }
    if (!(w->temperature_c - w->temperature_error_c >= LW_WATER_FROM_C &&
          w->temperature_c + w->temperature_error_c <= LW_WATER_TO_C)) {
        return refuse(problem, "water outside 0 to 40 degrees C", "0 to 40 degrees C", "");
    }
    return LW_OK;
}

/* The least and greatest density of water over the temperatures that the reading allows; it is
 * greatest near 4 degrees and falls on both sides. */
static void water_range(const lw_weighing *w, double *least, double *most)
{
    double cold = w->temperature_c - w->temperature_error_c;
    double warm = w->temperature_c + w->temperature_error_c;
    static const double densest_c = 3.983035;
    double at_cold = 0.0;
    double at_warm = 0.0;
    (void)lw_water_density(cold, &at_cold);
    (void)lw_water_density(warm, &at_warm);
    *least = at_cold < at_warm ? at_cold : at_warm;
    *most = at_cold < at_warm ? at_warm : at_cold;
    if (cold < densest_c && warm > densest_c) {
        (void)lw_water_density(densest_c, most);
    }
}

lw_status lw_weigh(const lw_weighing *weighing, lw_gravity *gravity, lw_problem *problem)
{
    lw_status status = check(weighing, problem);
    if (status != LW_OK) {
        return status;
    }
    double air = weighing->air;
    double water = weighing->water;
    double e = weighing->balance_error;
    double loss = air - water;
    double density = 0.0;
    double thinnest = 0.0;
    double densest = 0.0;
    (void)lw_water_density(weighing->temperature_c, &density);
    water_range(weighing, &thinnest, &densest);
    double sg = air / loss * density;
    /* First order: dSG/dair = -density * water / loss^2, dSG/dwater = density * air / loss^2. */
    double by_air = density * water / (loss * loss) * e;
    double by_water = density * air / (loss * loss) * e;
    double by_heat = sg * 0.5 * (densest - thinnest) / density;
    gravity->error = sqrt(by_air * by_air + by_water * by_water + by_heat * by_heat);
    gravity->sg = sg;
    gravity->water_density = density;
    /* SG rises as the reading in air falls and as that in water rises. */
    gravity->least = (air + e) / (loss + 2.0 * e) * thinnest;
    gravity->most = (air - e) / (loss - 2.0 * e) * densest;
    return LW_OK;
}
