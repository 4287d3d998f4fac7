#include "geom/angle.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* Where the numbers come from: sine and cosine are their Taylor series about 0, cut where the next
 * term falls below 1e-19 of the value on an eighth of a turn; the arc tangent is its Taylor series
 * about the nearest multiple of 1/8, by atan t = atan c + atan((t - c) / (1 + t c)). Constants were
 * worked out to 300 bits and are given as the nearest double and the nearest double to what that
 * leaves. Products whose rounding matters are split after T. J. Dekker, "A floating-point technique
 * for extending the available precision", Numerische Mathematik 18, 1971.
 */

typedef struct pair {
    double high, low;
} pair;

static const double root_half = 0x1.6a09e667f3bcdp-1;       /* sqrt(1/2) */
static const double half_root_three = 0x1.bb67ae8584caap-1; /* sqrt(3)/2 */
static const pair half_pi = {0x1.921fb54442d18p+0, 0x1.1a62633145c07p-54};
static const pair two_pi = {0x1.921fb54442d18p+2, 0x1.1a62633145c07p-52};
static const pair rad_per_deg = {0x1.1df46a2529d39p-6, 0x1.5c1d8becdd291p-62};
static const pair deg_per_rad = {0x1.ca5dc1a63c1f8p+5, -0x1.1e7ab456405f9p-49};

/* pi/2 in pieces of 33 bits, so that a multiple of up to 20 bits of each is exact. */
static const double half_pi_pieces[4] = {0x1.921fb54400000p+0, 0x1.0b4611a600000p-34,
                                         0x1.3198a2e000000p-69, 0x1.b839a252049c1p-104};

/* atan(i / 8). */
static const pair atan_eighths[9] = {
    {0x0.0p+0, 0x0.0p+0},
    {0x1.fd5ba9aac2f6ep-4, -0x1.cd37686760c17p-59},
    {0x1.f5b75f92c80ddp-3, 0x1.8ab6e3cf7afbdp-57},
    {0x1.6f61941e4def1p-2, -0x1.c63aae6f6e918p-56},
    {0x1.dac670561bb4fp-2, 0x1.a2b7f222f65e2p-56},
    {0x1.1e00babdefeb4p-1, -0x1.928df287a668fp-58},
    {0x1.4978fa3269ee1p-1, 0x1.2419a87f2a458p-56},
    {0x1.700a7c5784634p-1, -0x1.8c34d25aadef6p-56},
    {0x1.921fb54442d18p-1, 0x1.1a62633145c07p-55},
};

/* The same in degrees. */
static const pair atan_eighths_deg[9] = {
    {0x0.0p+0, 0x0.0p+0},
    {0x1.c80044927fe83p+2, -0x1.2a9346eb4b87bp-53},
    {0x1.c128e80fae02ep+3, -0x1.0fc10e257c651p-53},
    {0x1.48e58fac13547p+4, 0x1.bdef92fae944fp-51},
    {0x1.a90a731a61dc4p+4, -0x1.80b27b26e182bp-51},
    {0x1.000b0659f5545p+5, 0x1.0e62435c62f2fp-49},
    {0x1.26f58ce59e23cp+5, 0x1.80b27b26e182bp-50},
    {0x1.497cc65551cf8p+5, -0x1.2dd089737cc28p-49},
    {0x1.6800000000000p+5, 0x0.0p+0},
};

/* a + b, exactly (Knuth). */
static pair sum_exact(double a, double b)
{
    double high = a + b;
    double shadow = high - a;
    return (pair){high, (a - (high - shadow)) + (b - shadow)};
}

/* a in two halves of 26 bits (Dekker); |a| below 1e300. */
static pair halves(double a)
{
    double scaled = 134217729.0 * a;
    double high = scaled - (scaled - a);
    return (pair){high, a - high};
}

/* a b, exactly (Dekker). */
static pair product_exact(double a, double b)
{
    double high = a * b;
    pair p = halves(a), q = halves(b);
    double low = ((p.high * q.high - high) + p.high * q.low + p.low * q.high) + p.low * q.low;
    return (pair){high, low};
}

static pair product_by(pair a, pair constant)
{
    pair product = product_exact(a.high, constant.high);
    return (pair){product.high, product.low + (a.high * constant.low + a.low * constant.high)};
}

/* |a.high| <= pi/4. */
static pair sine_near(pair a)
{
    double x = a.high, z = x * x;
    double p = 1.0 / 6227020800.0 + z * (-1.0 / 1307674368000.0 + z * (1.0 / 355687428096000.0));
    p = 1.0 / 362880.0 + z * (-1.0 / 39916800.0 + z * p);
    p = -1.0 / 6.0 + z * (1.0 / 120.0 + z * (-1.0 / 5040.0 + z * p));
    return (pair){x, x * z * p + a.low * (1.0 - 0.5 * z)};
}

static pair cosine_near(pair a)
{
    double x = a.high, z = x * x, half = 0.5 * z, start = 1.0 - half;
    double q =
        -1.0 / 87178291200.0 + z * (1.0 / 20922789888000.0 + z * (-1.0 / 6402373705728000.0));
    q = -1.0 / 3628800.0 + z * (1.0 / 479001600.0 + z * q);
    q = 1.0 / 24.0 + z * (-1.0 / 720.0 + z * (1.0 / 40320.0 + z * q));
    return (pair){start, ((1.0 - start) - half) + (z * z * q - x * a.low)};
}

/* Sine and cosine before their last rounding. */
typedef struct fine_sincos {
    pair sin, cos;
} fine_sincos;

static pair times(double sign, pair a)
{
    return (pair){sign * a.high, sign * a.low};
}

/* The values at quarter * 90 degrees + what near stands for. */
static fine_sincos at_quarter(long long quarter, fine_sincos near, double sign)
{
    fine_sincos at = near;
    switch (quarter & 3) {
    case 1:
        at = (fine_sincos){near.cos, times(-1.0, near.sin)};
        break;
    case 2:
        at = (fine_sincos){times(-1.0, near.sin), times(-1.0, near.cos)};
        break;
    case 3:
        at = (fine_sincos){times(-1.0, near.cos), near.sin};
        break;
    default:
        break;
    }
    return (fine_sincos){times(sign, at.sin), at.cos};
}

/* "+ 0.0" makes -0 a plain 0. */
static lw_sincos rounded(fine_sincos at)
{
    return (lw_sincos){at.sin.high + at.sin.low + 0.0, at.cos.high + at.cos.low + 0.0};
}

lw_sincos lw_sincos_rad(double radians)
{
    assert(fabs(radians) <= 1e5);
    double size = fabs(radians);
    long long quarter = (long long)(size * 0x1.45f306dc9c883p-1 + 0.5);
    double k = (double)quarter;
    pair first = sum_exact(size - k * half_pi_pieces[0], -(k * half_pi_pieces[1]));
    pair second = sum_exact(first.high, -(k * half_pi_pieces[2]));
    pair near = sum_exact(second.high, first.low + second.low - k * half_pi_pieces[3]);
    fine_sincos values = {sine_near(near), cosine_near(near)};
    return rounded(at_quarter(quarter, values, radians < 0.0 ? -1.0 : 1.0));
}

/* part / whole of a turn, |part| an eighth of whole at most. */
static fine_sincos sincos_near_share(double part, double whole)
{
    double size = fabs(part), sign = part < 0.0 ? -1.0 : 1.0;
    if (size * 8.0 == whole) {
        return (fine_sincos){{sign * root_half, 0.0}, {root_half, 0.0}};
    }
    if (size * 12.0 == whole) {
        return (fine_sincos){{sign * 0.5, 0.0}, {half_root_three, 0.0}};
    }
    pair angle;
    if (whole == 360.0) {
        angle = product_by((pair){size, 0.0}, rad_per_deg);
    } else {
        double share = size / whole;
        pair back = product_exact(share, whole);
        angle = product_by((pair){share, ((size - back.high) - back.low) / whole}, two_pi);
    }
    return (fine_sincos){times(sign, sine_near(angle)), cosine_near(angle)};
}

/* The reduction is exact: part and quarter * whole / 4 are within a factor of two of each other. */
static fine_sincos sincos_share(double part, double whole)
{
    double size = fabs(part), quarter_size = 0.25 * whole;
    long long quarter = (long long)(size / quarter_size + 0.5);
    double rest = size - (double)quarter * quarter_size;
    if (rest * 8.0 < -whole) {
        quarter--;
    } else if (rest * 8.0 > whole) {
        quarter++;
    }
    rest = size - (double)quarter * quarter_size;
    return at_quarter(quarter, sincos_near_share(rest, whole), part < 0.0 ? -1.0 : 1.0);
}

lw_sincos lw_sincos_share(double part, double whole)
{
    assert(whole >= 1.0 && whole <= 1e6 && fabs(part) <= 1e9 * whole);
    return rounded(sincos_share(part, whole));
}

lw_sincos lw_sincos_deg(double degrees)
{
    return lw_sincos_share(degrees, 360.0);
}

lw_sincos lw_sincos_turns(double turns)
{
    return lw_sincos_share(turns, 1.0);
}

double lw_tan_deg(double degrees)
{
    assert(fabs(degrees) <= 1e9);
    fine_sincos fine = sincos_share(degrees, 360.0);
    lw_sincos at = rounded(fine);
    if (at.cos == 0.0) {
        return at.sin < 0.0 ? -1e300 : 1e300;
    }
    if (fabs(at.sin) == fabs(at.cos)) {
        return (at.sin < 0.0) == (at.cos < 0.0) ? 1.0 : -1.0;
    }
    double tangent = at.sin / at.cos;
    double sin_rest = (fine.sin.high - at.sin) + fine.sin.low;
    double cos_rest = (fine.cos.high - at.cos) + fine.cos.low;
    return tangent + (sin_rest - tangent * cos_rest) / at.cos;
}

/* 0 <= y <= x, x > 0: atan(y / x) is the i-th eighth's plus what comes out, |it| <= atan(1/16). */
static pair atan_beyond_eighth(double y, double x, int *i)
{
    *i = (int)(8.0 * (y / x) + 0.5);
    double c = 0.125 * (double)*i;
    pair cx = product_exact(c, x), cy = product_exact(c, y);
    pair over = sum_exact(y, -cx.high), under = sum_exact(x, cy.high);
    double u = over.high / under.high, z = u * u;
    pair back = product_exact(u, under.high);
    double rest = (over.high - back.high) - back.low;
    rest += (over.low - cx.low) - u * (under.low + cy.low);
    double p = 1.0 / 9.0 + z * (-1.0 / 11.0 + z * (1.0 / 13.0));
    p = -1.0 / 3.0 + z * (1.0 / 5.0 + z * (-1.0 / 7.0 + z * p));
    return (pair){u, u * z * p + rest / under.high * (1.0 - z)};
}

/* base + sign * (a + b), rounded once. */
static double fold(pair base, double sign, pair a, pair b)
{
    pair inner = sum_exact(a.high, b.high);
    pair outer = sum_exact(base.high, sign * inner.high);
    return outer.high + (outer.low + (base.low + sign * (inner.low + (a.low + b.low))));
}

/* Brings very large and very small pairs where products neither overflow nor lose bits. */
static void bring_to_scale(double *y, double *x)
{
    double size = fmax(fabs(*y), fabs(*x));
    double scale = size > 1e150 ? 0x1p-600 : size < 1e-150 ? 0x1p600 : 1.0;
    *y *= scale;
    *x *= scale;
}

/* atan2 in the unit of which quarter is a quarter turn. */
static double atan2_in(double y, double x, bool degrees)
{
    if (y == 0.0 && x == 0.0) {
        return 0.0;
    }
    bring_to_scale(&y, &x);
    double rise = fabs(y), run = fabs(x);
    bool steep = rise > run;
    int i = 0;
    pair rest = atan_beyond_eighth(steep ? run : rise, steep ? rise : run, &i);
    pair eighth = degrees ? atan_eighths_deg[i] : atan_eighths[i];
    pair quarter = degrees ? (pair){90.0, 0.0} : half_pi;
    if (degrees) {
        rest = product_by(rest, deg_per_rad);
    }
    double quarters = steep ? 1.0 : x < 0.0 ? 2.0 : 0.0;
    double sign = steep == (x < 0.0) ? 1.0 : -1.0;
    pair base = {quarters * quarter.high, quarters * quarter.low};
    double angle = fold(base, sign, eighth, rest);
    return y < 0.0 ? -angle : angle;
}

double lw_atan2(double y, double x)
{
    return atan2_in(y, x, false);
}

double lw_atan2_deg(double y, double x)
{
    return atan2_in(y, x, true);
}

static double clamped(double x)
{
    return x > 1.0 ? 1.0 : x < -1.0 ? -1.0 : x;
}

/* sqrt(1 - x^2), with the square exact. */
static double other_side(double x)
{
    pair square = product_exact(x, x);
    return sqrt((1.0 - square.high) - square.low);
}

double lw_asin_deg(double x)
{
    double sine = clamped(x);
    return lw_atan2_deg(sine, other_side(sine));
}

double lw_acos_deg(double x)
{
    double cosine = clamped(x);
    return lw_atan2_deg(other_side(cosine), cosine);
}
