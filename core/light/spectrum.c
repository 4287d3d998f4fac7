#include "light/spectrum.h"

#include "light/spectrum_table.h"

#include <assert.h>
#include <math.h>

/* ---- tables ------------------------------------------------------------- */

static double row_nm(double row)
{
    return LW_SPECTRUM_FROM_NM + row * LW_SPECTRUM_STEP_NM;
}

/* The row at or before a wavelength, and how far it is to the next; false outside. */
static bool row_at(double nm, int *row, double *share)
{
    if (!(nm >= LW_SPECTRUM_FROM_NM && nm <= LW_SPECTRUM_TO_NM))
        return false;
    double at = (nm - LW_SPECTRUM_FROM_NM) / LW_SPECTRUM_STEP_NM;
    *row = (int)at < LW_SPECTRUM_ROWS - 1 ? (int)at : LW_SPECTRUM_ROWS - 2;
    *share = at - *row;
    return true;
}

static double mix(double a, double b, double share)
{
    return a * (1.0 - share) + b * share;
}

lw_xyz lw_observer_at(double nm)
{
    int row;
    double share;
    if (!row_at(nm, &row, &share))
        return (lw_xyz){0.0, 0.0, 0.0};
    const lw_spectrum_row *r = &lw_spectrum_table[row];
    return (lw_xyz){mix(r[0].x, r[1].x, share), mix(r[0].y, r[1].y, share),
                    mix(r[0].z, r[1].z, share)};
}

double lw_daylight_at(double nm)
{
    int row;
    double share;
    if (!row_at(nm, &row, &share))
        return 0.0;
    const lw_spectrum_row *r = &lw_spectrum_table[row];
    return mix(r[0].daylight, r[1].daylight, share);
}

/* ---- what shines -------------------------------------------------------- */

#define ONE_AT_NM 560.0

/* Planck's second constant h c / k, in nm K (CODATA 2018, exact). */
#define PLANCK_NM_K 1.438776877e7

/* M. Planck, Annalen der Physik 309 (1901) 553: 1 / (nm^5 (exp(x) - 1)), x = c2 / (nm K), over its
 * value at 560 nm. */
static double blackbody_at(double kelvin, double nm)
{
    double x = PLANCK_NM_K / (nm * kelvin);
    double one = PLANCK_NM_K / (ONE_AT_NM * kelvin);
    return pow(ONE_AT_NM / nm, 5.0) * exp(one - x) * (1.0 - exp(-one)) / (1.0 - exp(-x));
}

double lw_glow_at(lw_glow glow, double kelvin, double nm)
{
    assert(nm >= LW_SPECTRUM_FROM_NM && nm <= LW_SPECTRUM_TO_NM);
    assert(glow != LW_GLOW_BLACKBODY || kelvin > 0.0);
    if (glow == LW_GLOW_EVEN)
        return 1.0;
    return glow == LW_GLOW_DAYLIGHT ? lw_daylight_at(nm) / 100.0 : blackbody_at(kelvin, nm);
}

lw_xyz lw_glow_colour(lw_glow glow, double kelvin)
{
    lw_xyz sum = {0.0, 0.0, 0.0};
    double white = 0.0;
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        const lw_spectrum_row *row = &lw_spectrum_table[i];
        double power = lw_glow_at(glow, kelvin, row_nm(i));
        sum = (lw_xyz){sum.x + power * row->x, sum.y + power * row->y, sum.z + power * row->z};
        white += row->daylight / 100.0 * row->y;
    }
    return (lw_xyz){sum.x / white, sum.y / white, sum.z / white};
}

/* ---- bands -------------------------------------------------------------- */

/* How densely bands lie at a row: the square root of what daylight's light there adds to X + Y + Z.
 * Bands in equal shares of that sum itself leave its edges to too few (a tenth off with 8 bands),
 * equal steps of wavelength waste them there; between the two the square root did best. One band
 * alone, for a picture without colour, lies in the middle of luminance. */
static double density(const lw_spectrum_row *row, int count)
{
    return count == 1 ? row->daylight * row->y : sqrt(row->daylight * (row->x + row->y + row->z));
}

/* Wavelengths that part density into shares of 1/(2n), 1/n, … 1/n, 1/(2n); each row stands for the
 * 5 nm around it. */
static void place_bands(lw_bands *bands)
{
    double whole = 0.0, sum = 0.0;
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++)
        whole += density(&lw_spectrum_table[i], bands->count);
    for (int i = 0, next = 0; i < LW_SPECTRUM_ROWS && next < bands->count; i++) {
        double here = density(&lw_spectrum_table[i], bands->count) / whole;
        for (; next < bands->count; next++) {
            double into = ((next + 0.5) / bands->count - sum) / here;
            if (into > 1.0)
                break;
            bands->nm[next] = row_nm(i - 0.5 + into);
        }
        sum += here;
    }
}

/* A row is shared between the bands on its two sides by its distances from them, so that a radiance
 * that runs straight from band to band comes out as the full sum has it. `first` gets share, the
 * next band the rest; outside the bands, the nearest gets all. */
static double first_share(const lw_bands *bands, int row, int *first)
{
    double nm = row_nm(row);
    int last = bands->count - 1;
    for (*first = 0; *first < last && bands->nm[*first + 1] <= nm;)
        ++*first;
    if (*first == last || nm <= bands->nm[0])
        return 1.0;
    double step = bands->nm[*first + 1] - bands->nm[*first];
    return (bands->nm[*first + 1] - nm) / step;
}

static void add_weight(lw_xyz *weight, const lw_spectrum_row *row, double power)
{
    weight->x += power * row->x;
    weight->y += power * row->y;
    weight->z += power * row->z;
}

static void weigh_bands(lw_bands *bands)
{
    double white = 0.0;
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++)
        white += lw_spectrum_table[i].daylight * lw_spectrum_table[i].y;
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        const lw_spectrum_row *row = &lw_spectrum_table[i];
        int first;
        double share = first_share(bands, i, &first);
        add_weight(&bands->weight[first], row, share * row->daylight / white);
        if (share < 1.0)
            add_weight(&bands->weight[first + 1], row, (1.0 - share) * row->daylight / white);
    }
}

lw_bands lw_bands_make(int count)
{
    assert(count >= 1 && count <= LW_SPECTRUM_MOST_BANDS);
    lw_bands bands = {.count = count};
    place_bands(&bands);
    if (count == LW_SPECTRUM_ROWS) { /* the tables themselves */
        for (int i = 0; i < count; i++)
            bands.nm[i] = row_nm(i);
    }
    weigh_bands(&bands);
    return bands;
}

void lw_bands_glow(const lw_bands *bands, lw_glow glow, double kelvin, double out[])
{
    double daylight[LW_SPECTRUM_MOST_BANDS] = {0.0};
    for (int i = 0; i < bands->count; i++)
        out[i] = 0.0;
    for (int i = 0; i < LW_SPECTRUM_ROWS; i++) {
        const lw_spectrum_row *row = &lw_spectrum_table[i];
        int first;
        double share = first_share(bands, i, &first);
        double seen = row->x + row->y + row->z;
        double power = seen * lw_glow_at(glow, kelvin, row_nm(i));
        out[first] += share * power;
        daylight[first] += share * seen * row->daylight / 100.0;
        if (share < 1.0) {
            out[first + 1] += (1.0 - share) * power;
            daylight[first + 1] += (1.0 - share) * seen * row->daylight / 100.0;
        }
    }
    for (int i = 0; i < bands->count; i++)
        out[i] /= daylight[i];
}

/* ---- sRGB --------------------------------------------------------------- */

/* From the chromaticities of IEC 61966-2-1 (red .64 .33, green .30 .60, blue .15 .06) and the white
 * of our own sum over D65 (.31272 .32903), so that white is 1, 1, 1 to the last digit; the
 * standard's own figures, printed to four digits, differ by 3e-4 at most. */
static const double xyz_from_rgb[3][3] = {
    {0.4124085915760873, 0.3575896180238467, 0.1804314598022165},
    {0.21264818003142003, 0.7151792360476934, 0.0721725839208866},
    {0.019331652730129094, 0.11919653934128223, 0.9502723549583403}};
static const double rgb_from_xyz[3][3] = {
    {3.240830118575184, -1.5373168511189976, -0.4985892490115668},
    {-0.9692293285718748, 1.8759398089894417, 0.04155444398280344},
    {0.05564528854101164, -0.20403272465037603, 1.057260482279221}};

static double row_sum(const double row[3], double a, double b, double c)
{
    return row[0] * a + row[1] * b + row[2] * c;
}

lw_rgb lw_rgb_from_xyz(lw_xyz colour)
{
    return (lw_rgb){row_sum(rgb_from_xyz[0], colour.x, colour.y, colour.z),
                    row_sum(rgb_from_xyz[1], colour.x, colour.y, colour.z),
                    row_sum(rgb_from_xyz[2], colour.x, colour.y, colour.z)};
}

lw_xyz lw_xyz_from_rgb(lw_rgb colour)
{
    return (lw_xyz){row_sum(xyz_from_rgb[0], colour.red, colour.green, colour.blue),
                    row_sum(xyz_from_rgb[1], colour.red, colour.green, colour.blue),
                    row_sum(xyz_from_rgb[2], colour.red, colour.green, colour.blue)};
}

/* 0..1; what is not a number counts as 0. */
static double clamped(double x)
{
    return x > 0.0 ? fmin(x, 1.0) : 0.0;
}

double lw_srgb_encode(double linear)
{
    double x = clamped(linear);
    return x <= 0.0031308 ? 12.92 * x : 1.0 - 1.055 * (1.0 - pow(x, 1.0 / 2.4));
}

double lw_srgb_decode(double encoded)
{
    double x = clamped(encoded);
    return x <= 0.04045 ? x / 12.92 : pow((x + 0.055) / 1.055, 2.4);
}

/* The largest share of a component's way from grey that stays within 0..1. */
static double most_share(double grey, double component, double share)
{
    double step = component - grey;
    double room = step > 0.0 ? 1.0 - grey : grey;
    return share * fabs(step) > room ? room / fabs(step) : share;
}

void lw_srgb_bytes(lw_rgb colour, uint8_t out[3])
{
    double grey = clamped(lw_xyz_from_rgb(colour).y);
    double parts[3] = {colour.red, colour.green, colour.blue};
    double share = 1.0;
    for (int i = 0; i < 3; i++)
        share = most_share(grey, parts[i], share);
    for (int i = 0; i < 3; i++) {
        double fitted = share > 0.0 ? grey + share * (parts[i] - grey) : grey;
        out[i] = (uint8_t)(255.0 * lw_srgb_encode(fitted) + 0.5);
    }
}
