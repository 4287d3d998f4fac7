#include "light/absorption.h"

#include "geom/tolerance.h"
#include "light/spectrum_table.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* ---- the curve ---------------------------------------------------------- */

/* 1/2 + x / (2 sqrt(1 + x^2)), written so that small values keep their digits. */
static double sigmoid(double x)
{
    double root = sqrt(1.0 + x * x);
    return x < 0.0 ? 0.5 / (root * (root - x)) : 1.0 - 0.5 / (root * (root + x));
}

static double sigmoid_slope(double x)
{
    double square = 1.0 + x * x;
    return 0.5 / (square * sqrt(square));
}

static double sigmoid_inverse(double y)
{
    return (y - 0.5) / sqrt(y * (1.0 - y));
}

/* While it is solved for, the quadratic is one of u = -1..1 over the visible: p0 + p1 u + p2 u^2.
 */
typedef struct quadratic {
    double p[3];
} quadratic;

static double row_u(int row)
{
    return 2.0 * row / (LW_SPECTRUM_ROWS - 1) - 1.0;
}

/* ---- what daylight through it looks like -------------------------------- */

/* The share of each table's row in white, as linear sRGB: over all rows they add to 1, 1, 1. */
typedef struct basis {
    double of_row[LW_SPECTRUM_ROWS][3];
} basis;

static void basis_make(basis *out)
{
    lw_bands rows = lw_bands_make(LW_SPECTRUM_ROWS);
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        lw_rgb part = lw_rgb_from_xyz(rows.weight[i]);
        memcpy(out->of_row[i], (double[3]){part.red, part.green, part.blue}, sizeof(double[3]));
    }
}

/* The colour less the wanted one, and how it changes with each coefficient. */
typedef struct miss {
    double off[3];
    double by[3][3]; /* [component][coefficient] */
} miss;

static void miss_of(const basis *b, const quadratic *q, const double wanted[3], miss *out)
{
    *out = (miss){.off = {-wanted[0], -wanted[1], -wanted[2]}};
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        double u = row_u(i);
        double x = q->p[0] + u * (q->p[1] + u * q->p[2]);
        double value = sigmoid(x), slope = sigmoid_slope(x);
        for (int k = 0; k < 3; k++) {
            double part = b->of_row[i][k];
            out->off[k] += part * value;
            out->by[k][0] += part * slope;
            out->by[k][1] += part * slope * u;
            out->by[k][2] += part * slope * u * u;
        }
    }
}

static double size_of(const double off[3])
{
    return sqrt(off[0] * off[0] + off[1] * off[1] + off[2] * off[2]);
}

/* ---- solving ------------------------------------------------------------ */

static double determinant(double m[3][3])
{
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

/* Newton's step by Cramer's rule; false where there is none. */
static bool newton_step(const miss *at, double step[3])
{
    double m[3][3];
    memcpy(m, at->by, sizeof m);
    double whole = determinant(m);
    if (!(fabs(whole) > 0.0))
        return false;
    for (int k = 0; k < 3; k++) {
        memcpy(m, at->by, sizeof m);
        for (int i = 0; i < 3; i++)
            m[i][k] = -at->off[i];
        step[k] = determinant(m) / whole;
        if (!isfinite(step[k]))
            return false;
    }
    return true;
}

enum { MOST_STEPS = 40, MOST_HALVINGS = 12 };

/* Newton's method, each step halved until it comes nearer. */
static bool solve_from(const basis *b, const double wanted[3], quadratic *q)
{
    quadratic at = *q;
    miss now;
    miss_of(b, &at, wanted, &now);
    for (int i = 0; i < MOST_STEPS && size_of(now.off) > LW_SAME_COLOUR; i++) {
        double step[3];
        bool nearer = false;
        if (!newton_step(&now, step))
            return false;
        for (int k = 0; k < MOST_HALVINGS && !nearer; k++) {
            quadratic trial = at;
            miss there;
            for (int j = 0; j < 3; j++)
                trial.p[j] += ldexp(step[j], -k);
            miss_of(b, &trial, wanted, &there);
            nearer = size_of(there.off) < size_of(now.off);
            if (nearer) {
                at = trial;
                now = there;
            }
        }
        if (!nearer)
            return false;
    }
    if (!(size_of(now.off) <= LW_SAME_COLOUR))
        return false;
    *q = at;
    return true;
}

/* From the grey of the same luminance, whose curve is level, toward the colour in steps as long as
 * Newton's method can follow. */
static bool solve(const basis *b, lw_rgb colour, quadratic *out)
{
    double grey = lw_xyz_from_rgb(colour).y;
    double to[3] = {colour.red, colour.green, colour.blue};
    if (!(grey > 0.0 && grey < 1.0))
        return false;
    quadratic q = {{sigmoid_inverse(grey), 0.0, 0.0}};
    double done = 0.0, step = 1.0;
    while (done < 1.0) {
        double next = fmin(done + step, 1.0);
        double wanted[3];
        for (int i = 0; i < 3; i++)
            wanted[i] = grey + next * (to[i] - grey);
        if (solve_from(b, wanted, &q)) {
            done = next;
            step *= 2.0;
        } else {
            step *= 0.5;
        }
        if (step < LW_SHORTEST_COLOUR_STEP)
            return false;
    }
    *out = q;
    return true;
}

static bool is_share(double x)
{
    return x >= 0.0 && x <= 1.0;
}

lw_status lw_absorption_from_colour(lw_rgb colour, double thickness_mm, lw_absorption *out)
{
    bool sound = is_share(colour.red) && is_share(colour.green) && is_share(colour.blue) &&
                 thickness_mm > 0.0 && isfinite(thickness_mm);
    if (!sound)
        return LW_BAD_INPUT;
    if (colour.red == 1.0 && colour.green == 1.0 && colour.blue == 1.0) {
        *out = (lw_absorption){.coloured = false};
        return LW_OK;
    }
    basis b;
    basis_make(&b);
    quadratic q;
    if (!solve(&b, colour, &q))
        return LW_NO_SOLUTION;
    /* u = 2 t - 1 */
    *out = (lw_absorption){.coloured = true,
                           .a = 4.0 * q.p[2],
                           .b = 2.0 * q.p[1] - 4.0 * q.p[2],
                           .c = q.p[0] - q.p[1] + q.p[2],
                           .thickness_mm = thickness_mm};
    return LW_OK;
}

/* ---- using it ----------------------------------------------------------- */

double lw_absorption_at(const lw_absorption *absorption, double nm)
{
    assert(nm >= LW_SPECTRUM_FROM_NM && nm <= LW_SPECTRUM_TO_NM);
    if (!absorption->coloured)
        return 0.0;
    double t = (nm - LW_SPECTRUM_FROM_NM) / (LW_SPECTRUM_TO_NM - LW_SPECTRUM_FROM_NM);
    double passed = sigmoid((absorption->a * t + absorption->b) * t + absorption->c);
    return -log(passed) / absorption->thickness_mm;
}

lw_xyz lw_absorption_colour(const lw_absorption *absorption, double length_mm)
{
    lw_bands rows = lw_bands_make(LW_SPECTRUM_ROWS);
    lw_xyz sum = {0.0, 0.0, 0.0};
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        double passed = exp(-lw_absorption_at(absorption, rows.nm[i]) * length_mm);
        sum.x += passed * rows.weight[i].x;
        sum.y += passed * rows.weight[i].y;
        sum.z += passed * rows.weight[i].z;
    }
    return sum;
}

/* ---- a colour as text --------------------------------------------------- */

/* 0..15, or -1. */
static int hex_digit(char c)
{
    if (c >= '0' && c <= '9')
        return c - '0';
    if (c >= 'a' && c <= 'f')
        return c - 'a' + 10;
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

lw_status lw_colour_read(const char *text, lw_rgb *out)
{
    const char *digits = text[0] == '#' ? text + 1 : text;
    double parts[3];
    if (strlen(digits) != 6)
        return LW_BAD_INPUT;
    for (int i = 0; i < 3; i++) {
        int high = hex_digit(digits[2 * i]), low = hex_digit(digits[2 * i + 1]);
        if (high < 0 || low < 0)
            return LW_BAD_INPUT;
        parts[i] = lw_srgb_decode((16 * high + low) / 255.0);
    }
    *out = (lw_rgb){parts[0], parts[1], parts[2]};
    return LW_OK;
}
