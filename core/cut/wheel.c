#include "cut/wheel.h"

#include "cut/teeth.h"
#include "geom/tolerance.h"

#include <assert.h>
#include <math.h>

const int lw_wheels_common[LW_WHEEL_COMMON] = {96, 64, 80, 120, 72, 77, 84, 88, 108, 60, 32};

int lw_wheel_shared(int one, int other)
{
    assert(one >= 1 && other >= 1);
    while (other != 0) {
        int rest = one % other;
        one = other;
        other = rest;
    }
    return one;
}

double lw_wheel_tooth(double tooth, int from, int to)
{
    assert(from >= 1 && from <= LW_CUT_MOST_TEETH && to >= 1 && to <= LW_CUT_MOST_TEETH);
    double moved = tooth * (double)to / (double)from;
    double whole = floor(moved + 0.5);
    return lw_tooth_wrap(fabs(moved - whole) <= LW_SAME_TOOTH ? whole : moved, to);
}

/* What a place leaves beyond a whole tooth, 0 <= result < 1. */
static double fraction_of(double place)
{
    double rest = place - floor(place);
    return rest >= 1.0 - LW_SAME_TOOTH ? 0.0 : rest;
}

/* The fractions that the teeth leave on the new wheel. */
typedef struct fractions {
    int count, wheel;
    double rest[LW_CUT_MOST_FACETS];
} fractions;

/* The fit when the stone is turned by offset. */
static lw_wheel_fit fit_turned(const fractions *left, double offset)
{
    lw_wheel_fit fit = {.wheel = left->wheel, .offset = offset};
    double greatest = 0.0;
    for (int i = 0; i < left->count; i++) {
        double rest = fraction_of(left->rest[i] + offset);
        double miss = rest < 1.0 - rest ? rest : 1.0 - rest;
        if (miss <= LW_SAME_TOOTH) {
            fit.whole_count++;
        } else if (miss > greatest) {
            greatest = miss;
        }
    }
    fit.whole = fit.whole_count == left->count;
    fit.greatest_cheater_deg = greatest * 360.0 / (double)left->wheel;
    return fit;
}

void lw_wheel_fit_teeth(const double *teeth, int count, int from, int to, lw_wheel_fit *out)
{
    assert(count >= 0 && count <= LW_CUT_MOST_FACETS);
    fractions left = {.count = count, .wheel = to};
    for (int i = 0; i < count; i++) {
        left.rest[i] = fraction_of(lw_wheel_tooth(teeth[i], from, to));
    }
    lw_wheel_fit fit = fit_turned(&left, 0.0);
    if (!fit.whole) {
        /* Only the turn that makes the first tooth whole can make all of them so. */
        lw_wheel_fit turned = fit_turned(&left, fraction_of(1.0 - left.rest[0]));
        fit = turned.whole ? turned : fit;
    }
    *out = fit;
}

static int teeth_of(const lw_stone *stone, double teeth[LW_CUT_MOST_FACETS])
{
    int count = 0;
    for (int i = 0; i < stone->facet_count && count < LW_CUT_MOST_FACETS; i++) {
        if (stone->facets[i].angle_deg > LW_SAME_ANGLE_DEG) {
            teeth[count++] = stone->facets[i].tooth;
        }
    }
    return count;
}

void lw_wheel_fit_stone(const lw_stone *stone, int from, int to, lw_wheel_fit *out)
{
    double teeth[LW_CUT_MOST_FACETS];
    int count = teeth_of(stone, teeth);
    lw_wheel_fit_teeth(teeth, count, from, to, out);
}

int lw_wheels_that_do(const lw_stone *stone, int from, int wheels[LW_WHEEL_COMMON])
{
    int count = 0;
    for (int i = 0; i < LW_WHEEL_COMMON; i++) {
        lw_wheel_fit fit;
        lw_wheel_fit_stone(stone, from, lw_wheels_common[i], &fit);
        if (fit.whole) {
            wheels[count++] = lw_wheels_common[i];
        }
    }
    return count;
}
