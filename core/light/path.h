/* One ray through a convex stone.
 *
 * At each surface a part passes and leaves for good, and the rest returns, so that a path is a
 * chain without branches: lw_path_enter begins it, lw_path_next takes it to its next surface.
 * Lengths are the solid's, directions have length 1. Nothing here allocates.
 */
#ifndef LW_LIGHT_PATH_H
#define LW_LIGHT_PATH_H

#include "light/optic_solid.h"
#include "light/polarisation.h"

/* direction mirrored in a surface, and refracted through one: eta = n here / n beyond, cos_t > 0
 * that of the passing beam; normal on either side of the surface. */
lw_vec3 lw_mirrored(lw_vec3 direction, lw_vec3 normal);
lw_vec3 lw_refracted(lw_vec3 direction, lw_vec3 normal, double eta, double cos_t);

/* Rounding in hundreds of reflections must not make a direction longer or shorter than 1. */
static inline lw_vec3 lw_of_length_1(lw_vec3 direction)
{
    return lw_vec3_scale(direction, 1.0 / lw_vec3_length(direction));
}

/* What the material does to one wavelength. */
typedef struct lw_optics {
    double index;      /* of refraction, >= 1 */
    double absorption; /* a length: exp(-absorption x length) of the energy passes */
    bool unpolarised;  /* average s and p at each surface, as general renderers do */
} lw_optics;

/* A beam on its way inside the stone. */
typedef struct lw_path {
    lw_vec3 at;        /* where it last met a surface */
    lw_vec3 direction; /* from there */
    lw_vec3 s;         /* the axis that state is told by */
    lw_stokes state;   /* state.i = the energy still inside */
    double absorbed;   /* since it entered */
    int surfaces;      /* met inside so far */
} lw_path;

/* A part that has left the stone (or was turned away at its first surface). */
typedef struct lw_leaving {
    int facet;
    lw_vec3 direction; /* undefined where weight is 0 by total reflection */
    double weight;     /* energy; 0 at a total reflection */
    bool total;
} lw_leaving;

/* Sends unpolarised light of energy 1 at the stone. False, with the outputs untouched, when it
 * misses. glare is what the outer surface returns. */
bool lw_path_enter(const lw_optic_solid *solid, const lw_optics *optics, lw_vec3 from,
                   lw_vec3 direction, lw_path *path, lw_leaving *glare);

/* To the next surface: *leaving passes it, *path goes on with the rest. */
void lw_path_next(const lw_optic_solid *solid, const lw_optics *optics, lw_path *path,
                  lw_leaving *leaving);

#endif
