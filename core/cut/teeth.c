#include "cut/teeth.h"

#include "geom/tolerance.h"

#include <math.h>

double lw_tooth_wrap(double tooth, int wheel)
{
    double n = (double)wheel;
    double wrapped = tooth - n * floor(tooth / n);
    return (wrapped >= n - LW_SAME_TOOTH || wrapped <= LW_SAME_TOOTH) ? 0.0 : wrapped;
}

double lw_tooth_up(double a, double b, int wheel)
{
    return lw_tooth_wrap(b - a, wheel);
}

bool lw_tooth_same(double a, double b, int wheel)
{
    return lw_tooth_up(a, b, wheel) == 0.0;
}

lw_sincos lw_tooth_sincos(double tooth, int wheel)
{
    double n = (double)wheel;
    double quarter = floor(4.0 * tooth / n + 0.5);
    /* A quarter of the wheel is a multiple of 1/4 tooth: exact, and so is the difference. */
    double rest = tooth - quarter * (n / 4.0);
    lw_sincos small = lw_sincos_turns(fabs(rest) / n);
    double sine = rest < 0.0 ? -small.sin : small.sin;
    int turn = (int)(quarter - 4.0 * floor(quarter / 4.0));
    switch (turn) {
    case 0:
        return (lw_sincos){.sin = sine, .cos = small.cos};
    case 1:
        return (lw_sincos){.sin = small.cos, .cos = -sine};
    case 2:
        return (lw_sincos){.sin = -sine, .cos = -small.cos};
    default:
        return (lw_sincos){.sin = -small.cos, .cos = sine};
    }
}

/* The start and its images, counted upward from it: the fold gives one every pitch, the mirror one
 * between each two of these, unless start and mirror image fall together. */
static int symmetric_teeth(const lw_cut *cut, const lw_step *step, lw_tooth_image *images,
                           int capacity)
{
    double start = lw_tooth_wrap(step->teeth[0], cut->wheel);
    int fold = step->own_symmetry ? step->fold : cut->fold;
    double pitch = (double)cut->wheel / (double)fold;
    double up = lw_tooth_up(start, -start, cut->wheel);
    int turns = (int)floor(up / pitch);
    double between = up - turns * pitch;
    bool apart = between > LW_SAME_TOOTH && between < pitch - LW_SAME_TOOTH;
    int sides = (step->own_symmetry ? step->mirror : cut->mirror) && apart ? 2 : 1;
    int count = 0;
    for (int k = 0; k < fold; k++) {
        for (int side = 0; side < sides && count < capacity; side++) {
            int turn = side == 0 ? k : (k - turns + fold) % fold;
            double tooth = (side == 0 ? start : -start) + (double)turn * pitch;
            images[count++] = (lw_tooth_image){lw_tooth_wrap(tooth, cut->wheel), side == 1};
        }
    }
    return fold * sides;
}

int lw_step_teeth(const lw_cut *cut, const lw_step *step, lw_tooth_image *images, int capacity)
{
    if (step->tooth_count == 0) {
        if (capacity > 0) {
            images[0] = (lw_tooth_image){0.0, false};
        }
        return 1;
    }
    if (!step->listed && !step->tooth_free) {
        return symmetric_teeth(cut, step, images, capacity);
    }
    for (int i = 0; i < step->tooth_count && i < capacity; i++) {
        images[i] = (lw_tooth_image){lw_tooth_wrap(step->teeth[i], cut->wheel), false};
    }
    return step->tooth_count;
}
