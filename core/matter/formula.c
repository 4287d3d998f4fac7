#include "matter/formula.h"

#include "matter/tables.h"

#include <assert.h>
#include <math.h>
#include <string.h>

size_t lw_formula_count(void)
{
    return lw_table_formula_count;
}

const lw_formula *lw_formula_at(size_t i)
{
    assert(i < lw_table_formula_count);
    return &lw_table_formulas[i];
}

const lw_formula *lw_formula_find(const char *key, const char *ray)
{
    for (size_t i = 0; i < lw_table_formula_count; i++) {
        const lw_formula *formula = &lw_table_formulas[i];
        if (strcmp(formula->key, key) == 0 && strcmp(formula->ray, ray) == 0) {
            return formula;
        }
    }
    return NULL;
}

static double whole_power(double base, int power)
{
    double result = 1.0;
    for (int i = 0; i < (power < 0 ? -power : power); i++) {
        result *= base;
    }
    return power < 0 ? 1.0 / result : result;
}

lw_status lw_formula_index(const lw_formula *formula, double wavelength_um, double *n)
{
    if (!(wavelength_um >= formula->from_um && wavelength_um <= formula->to_um)) {
        return LW_BAD_INPUT;
    }
    double square = wavelength_um * wavelength_um;
    double sum = formula->constant;
    for (int i = 0; i < formula->resonance_count; i++) {
        const lw_formula_term *term = &formula->resonance[i];
        sum += term->factor * square / (square - term->place);
    }
    for (int i = 0; i < formula->pole_count; i++) {
        sum += formula->pole[i].factor / (square - formula->pole[i].place);
    }
    for (int i = 0; i < formula->power_count; i++) {
        const lw_formula_term *term = &formula->power[i];
        sum += term->factor * whole_power(wavelength_um, (int)term->place);
    }
    *n = formula->plain ? sum : sqrt(sum);
    return LW_OK;
}
