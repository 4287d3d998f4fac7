/* How a material refracts: index by wavelength, critical angle, reflectance.
 *
 * Where a formula has been published for the material it is used within the range it was measured
 * in. Past an end of that range, the curve goes on from the end as that of a single oscillator,
 * n^2 - 1 ~ L^2 / (L^2 - c), with the material's own c, so that no step appears; without a formula
 * the whole curve is that one, through the index at 589.3 nm. Without a c the index is constant.
 * Pure; safe from any thread.
 */
#ifndef LW_MATTER_REFRACTION_H
#define LW_MATTER_REFRACTION_H

#include "matter/material.h"

/* The wavelengths that lw_material_index answers for, micrometres: what an eye can see. */
#define LW_VISIBLE_FROM_UM 0.36
#define LW_VISIBLE_TO_UM 0.83

typedef enum lw_index_basis {
    LW_INDEX_FORMULA,  /* a published formula, within its range */
    LW_INDEX_FITTED,   /* the same, scaled to the index at 589.3 nm */
    LW_INDEX_EXTENDED, /* past the end of the formula's range */
    LW_INDEX_CURVE,    /* one oscillator */
    LW_INDEX_CONSTANT, /* nothing is known of the dispersion */
    LW_INDEX_BASIS_COUNT
} lw_index_basis;

/* A short phrase such as "published formula". */
const char *lw_index_basis_text(lw_index_basis basis);

/* The principal index of one ray, 0 <= ray < ray_count. basis may be NULL. LW_BAD_INPUT for a
 * wavelength outside LW_VISIBLE_FROM_UM .. LW_VISIBLE_TO_UM. */
lw_status lw_material_index(const lw_material *material, int ray, double wavelength_um, double *n,
                            lw_index_basis *basis);

/* The mean over the rays: n, (2 o + e) / 3, (x + y + z) / 3. Errors as above. */
lw_status lw_material_mean_index(const lw_material *material, double wavelength_um, double *n);
/* The same mean of given indices; 1, 2 or 3 rays. */
double lw_mean_of_rays(int ray_count, const double index[]);

/* Of the principal indices at 589.3 nm. */
double lw_material_lowest_index(const lw_material *material);
double lw_material_highest_index(const lw_material *material);
double lw_material_birefringence(const lw_material *material);

/* Index of a ray at one wavelength less that at another; both within the visible (asserted). */
double lw_material_dispersion(const lw_material *material, int ray, double short_um,
                              double long_um);

/* Within a medium of index n > 1 (asserted) against air: total reflection at this angle from the
 * facet's normal and beyond. A material's own is that of its lowest index, the safe one. */
double lw_critical_angle_deg(double n);
double lw_material_critical_angle_deg(const lw_material *material);

/* Share of light reflected at normal incidence between air and index n > 0. */
double lw_normal_reflectance(double n);

#endif
