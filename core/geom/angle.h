/* Trigonometry that gives the same bits on every machine.
 *
 * libm's sine, cosine and arc tangent differ in their last bits with and without fused
 * multiply-add, and again in WebAssembly. These use + - * / and sqrt alone, in a fixed order, and
 * are accurate to 2 units in the last place. core uses them and nothing else.
 *
 * Degrees and turns are reduced exactly before they become radians: the sine of 30 degrees is 0.5,
 * the cosine of a quarter turn is 0, and angles that mirror one another have values that do, to
 * the last bit.
 */
#ifndef LW_GEOM_ANGLE_H
#define LW_GEOM_ANGLE_H

#define LW_PI 3.14159265358979323846

typedef struct lw_sincos {
    double sin, cos;
} lw_sincos;

/* |radians| up to 1e5. */
lw_sincos lw_sincos_rad(double radians);
/* |degrees| up to 1e9. */
lw_sincos lw_sincos_deg(double degrees);
/* A share of a whole turn, |turns| up to 1e9. */
lw_sincos lw_sincos_turns(double turns);

/* part / whole of a turn: a tooth of a wheel, 1 <= whole <= 1e6, |part| <= 1e9 whole. Teeth that
 * mirror one another (tooth and whole - tooth, whole / 2 - tooth, whole / 4 - tooth) have values
 * that do, to the last bit, which their quotients, rounded, need not have. */
lw_sincos lw_sincos_share(double part, double whole);

/* The tangent, sin / cos; at 90 + 180 k degrees, where there is none, +-1e300. */
double lw_tan_deg(double degrees);

/* Radians in -pi..pi; atan2(0, 0) = 0. Exact quarters: lw_atan2(1, 0) is pi/2's double. */
double lw_atan2(double y, double x);
/* Degrees in -180..180, exact at multiples of 45. */
double lw_atan2_deg(double y, double x);
/* Through atan2, |x| <= 1 clamped: asin in -90..90, acos in 0..180. */
double lw_asin_deg(double x);
double lw_acos_deg(double x);

/* e^x and natural logarithm are not here: nothing in core needs them to the bit. */

static inline double lw_rad_from_deg(double degrees)
{
    return degrees * (LW_PI / 180.0);
}

#endif
