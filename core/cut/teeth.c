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

/* Adds a tooth unless it is there; keeps the images sorted upward from the start. */
static int add_image(lw_tooth_image *images, int count, int capacity, lw_tooth_image image,
                     double start, int wheel)
{
    double up = lw_tooth_up(start, image.tooth, wheel);
    int place = count;
    for (int i = 0; i < count && i < capacity; i++) {
        if (lw_tooth_same(images[i].tooth, image.tooth, wheel)) {
            return count;
        }
    }
    if (count >= capacity) {
        return count + 1;
    }
    while (place > 0 && lw_tooth_up(start, images[place - 1].tooth, wheel) > up) {
        images[place] = images[place - 1];
        place--;
    }
    images[place] = image;
    return count + 1;
}

static int symmetric_teeth(const lw_cut *cut, const lw_step *step, lw_tooth_image *images,
                           int capacity)
{
    double start = lw_tooth_wrap(step->teeth[0], cut->wheel);
    int fold = step->own_symmetry ? step->fold : cut->fold;
    bool mirror = step->own_symmetry ? step->mirror : cut->mirror;
    double pitch = (double)cut->wheel / (double)fold;
    int count = 0;
    for (int side = 0; side < (mirror ? 2 : 1); side++) {
        for (int k = 0; k < fold; k++) {
            double tooth = (side == 0 ? start : -start) + (double)k * pitch;
            lw_tooth_image image = {lw_tooth_wrap(tooth, cut->wheel), side == 1};
            count = add_image(images, count, capacity, image, start, cut->wheel);
        }
    }
    return count;
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
