/* A second opinion on polarised light: one ray as a complex electric field in three-space.
 *
 * Written from the vector form of Fresnel's equations (Born & Wolf, 7th ed., 1.5: the field is
 * split along and across the plane of incidence at each surface and put together again), with no
 * Stokes parameters, no frames kept from surface to surface and nothing of core/light but the
 * geometry of the nearest exit. */
#ifndef LW_TESTS_LIGHT_FIELD_H
#define LW_TESTS_LIGHT_FIELD_H

#include "light/path.h"

/* Energies that leave at each of the first `count` surfaces inside, for unpolarised light of energy
 * 1 sent at the stone: the mean of two runs with crossed linear polarisation. glare may be NULL. */
void field_trace(const lw_optic_solid *solid, double index, lw_vec3 from, lw_vec3 direction,
                 int count, double weights[], double *glare);

#endif
