/* Specific gravity by weighing in air and in water.
 *
 * SG = W_air / (W_air - W_water) * density of water at its temperature. Both weights in the same
 * unit, whatever it is. The push of the air on stone and weights is left out, as the trade's
 * tables leave it out: it would lower the result by 0.0012 (SG - 1), less than 0.004 for corundum.
 * So are bubbles and the wire, which the reading in water must be free of. Pure.
 */
#ifndef LW_MATTER_WEIGH_H
#define LW_MATTER_WEIGH_H

#include "base/problem.h"
#include "base/status.h"
#include "matter/material.h"

#define LW_WATER_FROM_C 0.0
#define LW_WATER_TO_C 40.0

/* Density of pure water free of air at one atmosphere, in g/cm3; LW_BAD_INPUT outside
 * LW_WATER_FROM_C .. LW_WATER_TO_C. Tanaka, Girard, Davis, Peuto and Bignell, Metrologia 38, 301
 * (2001), equation 1 with the constants of table 1; stated uncertainty below 1e-6. */
lw_status lw_water_density(double temperature_c, double *g_per_cm3);

typedef struct lw_weighing {
    double air, water;          /* the two readings, same unit */
    double temperature_c;       /* of the water */
    double balance_error;       /* +-, of each reading, same unit; 0 for none stated */
    double temperature_error_c; /* +-; 0 for none stated */
} lw_weighing;

typedef struct lw_gravity {
    double sg;
    double water_density; /* g/cm3 */
    double error;         /* +-, the errors being independent of one another */
    double least, most;   /* with every error at its worst at once */
} lw_gravity;

/* LW_BAD_INPUT, with a problem that says which, for weights that are not positive, a stone no
 * heavier in air than in water, a loss that the balance's errors all but swallow (so that the
 * specific gravity could pass LW_SG_MOST), a negative error, or water that is not between 0 and 40
 * degrees, errors included. problem may be NULL. */
lw_status lw_weigh(const lw_weighing *weighing, lw_gravity *gravity, lw_problem *problem);

#endif
