/* Published formulas for the refractive index by wavelength.
 *
 * n^2 (or n itself, where plain) = constant + sum B L^2/(L^2 - C) + sum D/(L^2 - E) + sum K L^P,
 * with the wavelength L in micrometres, in air. One formula a ray. Figures and papers:
 * data/formulas.txt, built into a table. Pure; safe from any thread.
 */
#ifndef LW_MATTER_FORMULA_H
#define LW_MATTER_FORMULA_H

#include "base/status.h"

#include <stdbool.h>
#include <stddef.h>

/* Fraunhofer's lines that the trade measures dispersion by, in micrometres. */
#define LW_LINE_B_UM 0.6867
#define LW_LINE_C_UM 0.6563
#define LW_LINE_D_UM 0.5893
#define LW_LINE_F_UM 0.4861
#define LW_LINE_G_UM 0.4308

enum { LW_FORMULA_TERMS = 6 };

typedef struct lw_formula_term {
    double factor; /* B, D or K */
    double place;  /* C, E (um2) or P (a whole number) */
} lw_formula_term;

typedef struct lw_formula {
    const char *key, *ray; /* ray: "iso", "o", "e", "x", "y", "z" */
    double from_um, to_um; /* where it was measured */
    bool plain;
    double constant;
    int resonance_count, pole_count, power_count;
    lw_formula_term resonance[LW_FORMULA_TERMS], pole[LW_FORMULA_TERMS], power[LW_FORMULA_TERMS];
    const char *paper;  /* where it was published */
    const char *record; /* where it was read, when not in the database of the table's head; "" */
} lw_formula;

size_t lw_formula_count(void);
/* i < lw_formula_count(). */
const lw_formula *lw_formula_at(size_t i);
/* NULL when nothing carries that key and ray. */
const lw_formula *lw_formula_find(const char *key, const char *ray);

/* LW_BAD_INPUT outside from_um .. to_um. */
lw_status lw_formula_index(const lw_formula *formula, double wavelength_um, double *n);

#endif
