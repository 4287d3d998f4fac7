/* Widths of outlines against every direction that two of their points give, with the many points on
 * one line and the repeated points that facets make. */
#include "cut/outline.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

enum { MOST = 120 };

static uint64_t seed = 1;

/* SplitMix64 (G. Steele, D. Lea, C. Flood 2014), from 0 to 1. */
static double dice(void)
{
    uint64_t z = seed += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static double extent(const lw_vec3 *points, int count, double x, double y)
{
    double low = INFINITY, high = -INFINITY;
    for (int i = 0; i < count; i++) {
        low = fmin(low, points[i].x * x + points[i].y * y);
        high = fmax(high, points[i].x * x + points[i].y * y);
    }
    return high - low;
}

/* The least extent is across some side of the hull, and no pair's direction has less. */
static lw_widths by_pairs(const lw_vec3 *points, int count)
{
    lw_widths w = {.least = INFINITY};
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < i; k++) {
            double x = points[i].x - points[k].x, y = points[i].y - points[k].y;
            double away = sqrt(x * x + y * y);
            if (away < 1e-6) {
                continue;
            }
            w.greatest = fmax(w.greatest, away);
            double width = extent(points, count, -y / away, x / away);
            double across = extent(points, count, x / away, y / away);
            bool as_narrow = width < w.least + 1e-9;
            w.across = width < w.least - 1e-9 ? across
                       : as_narrow            ? fmax(w.across, across)
                                              : w.across;
            w.least = fmin(w.least, width);
        }
    }
    return w;
}

static void compare(const lw_vec3 *points, int count)
{
    lw_widths ours = lw_widths_of(points, NULL, count);
    lw_widths pairs = by_pairs(points, count);
    assert_true(fabs(ours.least - pairs.least) < 1e-12);
    assert_true(fabs(ours.greatest - pairs.greatest) < 1e-12);
    assert_true(fabs(ours.across - pairs.across) < 1e-8);
}

/* Corners on a circle or an ellipse, points strewn along the sides between them, all turned, and
 * some of them there twice within rounding, as the two ends of an upright edge are. */
static int outline_of(int corners, double stretch, double turn, lw_vec3 *out)
{
    lw_vec3 corner[16];
    int count = 0;
    lw_sincos t = lw_sincos_turns(turn);
    for (int i = 0; i < corners; i++) {
        lw_sincos a = lw_sincos_turns((i + 0.6 * dice()) / corners);
        corner[i] = (lw_vec3){a.cos * stretch, a.sin, 0.0};
    }
    for (int i = 0; i < corners; i++) {
        lw_vec3 next = corner[(i + 1) % corners];
        for (int k = (int)(dice() * 4.0); k >= 0; k--) {
            double share = k == 0 ? 0.0 : dice();
            lw_vec3 p = lw_vec3_mix(corner[i], next, share);
            lw_vec3 q = {t.cos * p.x - t.sin * p.y, t.sin * p.x + t.cos * p.y, dice()};
            out[count++] = q;
            if (dice() < 0.5) {
                out[count++] = (lw_vec3){q.x * (1.0 + 2e-16), q.y * (1.0 - 2e-16), dice()};
            }
        }
    }
    return count;
}

static void as_every_pair_says(void **state)
{
    (void)state;
    for (int round = 0; round < 4000; round++) {
        lw_vec3 points[MOST];
        int corners = 3 + (int)(dice() * 12.0);
        double turn = round % 5 == 0 ? round / 5 % 8 / 8.0 : dice();
        int count = outline_of(corners, 0.5 + dice(), turn, points);
        /* In no order. */
        for (int i = count - 1; i > 0; i--) {
            int k = (int)(dice() * (i + 1));
            lw_vec3 kept = points[i];
            points[i] = points[k];
            points[k] = kept;
        }
        compare(points, count);
    }
}

static void a_square_and_less(void **state)
{
    (void)state;
    const lw_vec3 square[] = {{0, 0, 0}, {1, 0, 0}, {1, 1, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0.5, 1}};
    compare(square, 6);
    lw_widths line = lw_widths_of(square, NULL, 2);
    assert_true(line.least == 0.0 && line.greatest == 1.0 && line.across == 1.0);
    const lw_vec3 upright[] = {{0.3, 2, 0}, {0.3, 1, 0}, {0.3, 4, 1}, {0.3, 4, 0}};
    lw_widths up = lw_widths_of(upright, NULL, 4);
    assert_true(up.least == 0.0 && up.greatest == 3.0 && up.across == 3.0);
    lw_widths point = lw_widths_of(square, NULL, 1);
    assert_true(point.least == 0.0 && point.greatest == 0.0 && point.across == 0.0);
    lw_widths none = lw_widths_of(square, NULL, 0);
    assert_true(none.least == 0.0 && none.greatest == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_every_pair_says),
        cmocka_unit_test(a_square_and_less),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
