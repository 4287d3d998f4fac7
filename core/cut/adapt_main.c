/* The angle of a pavilion's mains for a material, and which step has the mains. */
#include "cut/adapt_side.h"

#include "geom/angle.h"
#include "geom/tolerance.h"

#include <math.h>
#include <string.h>

/* Common practice: 42 degrees for nearly all, 43 below n = 1.6, 41 near n = 2. */
static double usual_angle(double refractive_index)
{
    if (refractive_index < 1.6) {
        return 43.0;
    }
    return refractive_index < 1.9 ? 42.0 : 41.0;
}

lw_status lw_main_angle_deg(double refractive_index, double margin_deg, double *out)
{
    if (!(refractive_index > 1.0) || !isfinite(refractive_index) || !(margin_deg >= 0.0)) {
        return LW_BAD_INPUT;
    }
    /* A vertical ray in a pavilion of angle P meets its sides at P and at 180 - 3 P. */
    double lowest = lw_asin_deg(1.0 / refractive_index);
    double highest = (180.0 - lowest) / 3.0;
    if (lowest >= highest) {
        return LW_NO_SOLUTION;
    }
    if (lowest + margin_deg >= highest - margin_deg) {
        *out = 0.5 * (lowest + highest);
        return LW_OK;
    }
    double usual = usual_angle(refractive_index);
    *out = fmin(fmax(usual, lowest + margin_deg), highest - margin_deg);
    return LW_OK;
}

/* Whether a step's facets slant and stay. */
static bool slants(const lw_cut *cut, const lw_stone *stone, int step, lw_side side)
{
    const lw_step *s = &cut->steps[step];
    const lw_tier *tier = &stone->tiers[step];
    return s->kind == LW_STEP_FACETS && s->side == side && !s->temporary && tier->count > 0 &&
           tier->angle_deg > LW_SAME_ANGLE_DEG && tier->angle_deg < 90.0 - LW_SAME_ANGLE_DEG;
}

static bool is_driven(const lw_step *step, lw_side side)
{
    const char *name = side == LW_SIDE_CROWN ? "crown" : "pavilion";
    return step->angle != NULL && step->angle->kind == LW_EXPR_NAME &&
           strcmp(step->angle->name, name) == 0;
}

/* What a step must have to stand for its side, the better reasons first. */
typedef enum reason { BY_SETTING, BY_NAME, BY_ANGLE, REASON_COUNT } reason;

static bool has_reason(const lw_step *step, lw_side side, reason why)
{
    return (why == BY_SETTING && is_driven(step, side)) ||
           (why == BY_NAME && strcmp(step->name, "main") == 0) || why == BY_ANGLE;
}

static int flattest(const lw_cut *cut, const lw_stone *stone, lw_side side, reason why)
{
    int best = -1;
    for (int i = 0; i < cut->step_count; i++) {
        if (slants(cut, stone, i, side) && has_reason(&cut->steps[i], side, why) &&
            (best < 0 ||
             stone->tiers[i].angle_deg < stone->tiers[best].angle_deg - LW_SAME_ANGLE_DEG)) {
            best = i;
        }
    }
    return best;
}

int lw_main_step(const lw_cut *cut, const lw_stone *stone, lw_side side)
{
    int best = -1;
    for (int why = 0; why < REASON_COUNT && best < 0; why++) {
        best = flattest(cut, stone, side, (reason)why);
    }
    return best;
}

static bool suits(const lw_cut *cut, const char *material)
{
    bool named = false;
    for (int i = 0; i < cut->suit_count && material != NULL; i++) {
        named = named || strcmp(cut->suits[i], material) == 0;
    }
    return named;
}

lw_status lw_angles_for_material(const lw_cut *cut, const lw_stone *stone, const char *material,
                                 double refractive_index, double margin_deg, lw_adapt_angles *out)
{
    double wanted = 0.0;
    lw_status status = lw_main_angle_deg(refractive_index, margin_deg, &wanted);
    int low = flattest(cut, stone, LW_SIDE_PAVILION, BY_ANGLE);
    int main_step = lw_main_step(cut, stone, LW_SIDE_PAVILION);
    if (status != LW_OK || low < 0) {
        return status != LW_OK ? status : LW_BAD_INPUT;
    }
    lw_adapt_angles angles = {0.0, 0.0};
    double flat = stone->tiers[low].angle_deg;
    double main_deg = stone->tiers[main_step].angle_deg;
    bool safe = flat >= lw_asin_deg(1.0 / refractive_index) + margin_deg;
    if (!(safe && suits(cut, material)) && fabs(flat - wanted) > LW_SAME_ANGLE_DEG) {
        double ratio = lw_tangent_ratio(flat, wanted);
        bool is_flattest = fabs(main_deg - flat) <= LW_SAME_ANGLE_DEG;
        angles.pavilion_deg = is_flattest ? wanted : lw_scaled_angle_deg(main_deg, ratio);
    }
    *out = angles;
    return LW_OK;
}
