#include "sheet/strength.h"

#include "light/spectrum.h"

#include <math.h>

/* Lightness of the ends. */
#define DARKEST 0.20
#define PALEST 0.97
/* The hue's direction in OKLab's plane (a, b): blue, 255 degrees. */
#define HUE_A -0.2588190451
#define HUE_B -0.9659258263
/* Chroma rises from nearly grey at the ends to a quarter of this, within what sRGB can show. */
#define CHROMA 0.40

static double cube(double x)
{
    return x * x * x;
}

static double channel(double linear)
{
    return lw_srgb_encode(fmin(fmax(linear, 0.0), 1.0));
}

lw_ink lw_strength_ink(double strength)
{
    double s = fmin(fmax(strength, 0.0), 1.0);
    double lightness = DARKEST + (PALEST - DARKEST) * s;
    double chroma = 0.012 + CHROMA * s * (1.0 - s);
    double a = chroma * HUE_A, b = chroma * HUE_B;
    double l = cube(lightness + 0.3963377774 * a + 0.2158037573 * b);
    double m = cube(lightness - 0.1055613458 * a - 0.0638541728 * b);
    double t = cube(lightness - 0.0894841775 * a - 1.2914855480 * b);
    return (lw_ink){channel(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * t),
                    channel(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * t),
                    channel(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * t)};
}

lw_ink lw_strength_mark_ink(double strength)
{
    return lw_strength_ink(strength < 0.5 ? fmin(0.55 + strength, 1.0) : strength - 0.5);
}

void lw_strength_bar(lw_display_list *list, lw_spot corner, double width, double height)
{
    enum { STEPS = 64 };
    double step = width / STEPS;
    for (int i = 0; i < STEPS; i++) {
        lw_style style = {.filled = true, .fill = lw_strength_ink((i + 0.5) / STEPS)};
        /* each a little over the next, so that no gap shows between them */
        double reach = i + 1 < STEPS ? 1.3 * step : step;
        lw_list_rectangle(list, (lw_spot){corner.x + i * step, corner.y}, reach, height, &style);
    }
    lw_style rim = {.line_width = 0.5, .line = lw_grey(0.3)};
    lw_list_rectangle(list, corner, width, height, &rim);
}
