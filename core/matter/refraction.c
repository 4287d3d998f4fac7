#include "matter/refraction.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>

const char *lw_index_basis_text(lw_index_basis basis)
{
    static const char *const texts[LW_INDEX_BASIS_COUNT] = {
        [LW_INDEX_FORMULA] = "published formula",
        [LW_INDEX_FITTED] = "published formula, scaled to the index at 589.3 nm",
        [LW_INDEX_EXTENDED] = "continued past the published formula's range",
        [LW_INDEX_CURVE] = "one-oscillator curve",
        [LW_INDEX_CONSTANT] = "taken as constant",
    };
    assert((unsigned)basis < LW_INDEX_BASIS_COUNT);
    return texts[basis];
}

/* n^2 - 1 of a single oscillator at one wavelength over that at another. */
static double oscillator_ratio(double c, double from_um, double to_um)
{
    double from = from_um * from_um;
    double to = to_um * to_um;
    return (to / (to - c)) * ((from - c) / from);
}

static double formula_excess(const lw_formula *formula, double wavelength_um)
{
    double n = 0.0;
    lw_status status = lw_formula_index(formula, wavelength_um, &n);
    assert(status == LW_OK);
    (void)status;
    return n * n - 1.0;
}

static double clamp(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

/* n^2 - 1 by the ray's formula, and past the end of its range by the one-oscillator curve. */
static double published_excess(const lw_material *material, int ray, double wavelength_um,
                               lw_index_basis *basis)
{
    const lw_formula *formula = &material->formulas[ray];
    double inside = clamp(wavelength_um, formula->from_um, formula->to_um);
    double excess = formula_excess(formula, inside);
    *basis = material->formula_fitted ? LW_INDEX_FITTED : LW_INDEX_FORMULA;
    if (material->formula_fitted) {
        double n = material->index[ray];
        excess *= (n * n - 1.0) / formula_excess(formula, LW_LINE_D_UM);
    }
    if (inside < wavelength_um || inside > wavelength_um) {
        excess *= oscillator_ratio(material->oscillator_um2, inside, wavelength_um);
        *basis = LW_INDEX_EXTENDED;
    }
    return excess;
}

lw_status lw_material_index(const lw_material *material, int ray, double wavelength_um, double *n,
                            lw_index_basis *basis)
{
    assert(ray >= 0 && ray < material->ray_count);
    if (!(wavelength_um >= LW_VISIBLE_FROM_UM && wavelength_um <= LW_VISIBLE_TO_UM)) {
        return LW_BAD_INPUT;
    }
    lw_index_basis how = LW_INDEX_CONSTANT;
    double excess = 0.0;
    if (material->formulas != NULL) {
        excess = published_excess(material, ray, wavelength_um, &how);
    } else {
        double typical = material->index[ray];
        how = material->oscillator_um2 > 0.0 ? LW_INDEX_CURVE : LW_INDEX_CONSTANT;
        excess = (typical * typical - 1.0) *
                 oscillator_ratio(material->oscillator_um2, LW_LINE_D_UM, wavelength_um);
    }
    *n = sqrt(1.0 + excess);
    if (basis != NULL) {
        *basis = how;
    }
    return LW_OK;
}

double lw_mean_of_rays(int ray_count, const double index[])
{
    assert(ray_count >= 1 && ray_count <= 3);
    if (ray_count == 1) {
        return index[0];
    }
    return ray_count == 2 ? (2.0 * index[0] + index[1]) / 3.0
                          : (index[0] + index[1] + index[2]) / 3.0;
}

lw_status lw_material_mean_index(const lw_material *material, double wavelength_um, double *n)
{
    double index[3] = {0.0, 0.0, 0.0};
    for (int ray = 0; ray < material->ray_count; ray++) {
        lw_status status = lw_material_index(material, ray, wavelength_um, &index[ray], NULL);
        if (status != LW_OK) {
            return status;
        }
    }
    *n = lw_mean_of_rays(material->ray_count, index);
    return LW_OK;
}

double lw_material_lowest_index(const lw_material *material)
{
    double lowest = material->index[0];
    for (int ray = 1; ray < material->ray_count; ray++) {
        lowest = material->index[ray] < lowest ? material->index[ray] : lowest;
    }
    return lowest;
}

double lw_material_highest_index(const lw_material *material)
{
    double highest = material->index[0];
    for (int ray = 1; ray < material->ray_count; ray++) {
        highest = material->index[ray] > highest ? material->index[ray] : highest;
    }
    return highest;
}

double lw_material_birefringence(const lw_material *material)
{
    return lw_material_highest_index(material) - lw_material_lowest_index(material);
}

double lw_material_dispersion(const lw_material *material, int ray, double short_um, double long_um)
{
    double at_short = 0.0;
    double at_long = 0.0;
    lw_status first = lw_material_index(material, ray, short_um, &at_short, NULL);
    lw_status second = lw_material_index(material, ray, long_um, &at_long, NULL);
    assert(first == LW_OK && second == LW_OK);
    (void)first;
    (void)second;
    return at_short - at_long;
}

double lw_critical_angle_deg(double n)
{
    assert(n > 1.0);
    /* The angle whose sine is 1/n, by its tangent: no cancellation near 90 degrees. */
    return lw_atan2_deg(1.0, sqrt((n - 1.0) * (n + 1.0)));
}

double lw_material_critical_angle_deg(const lw_material *material)
{
    return lw_critical_angle_deg(lw_material_lowest_index(material));
}

double lw_normal_reflectance(double n)
{
    assert(n > 0.0);
    double amplitude = (n - 1.0) / (n + 1.0);
    return amplitude * amplitude;
}
