/* Areas, volume, centroid and inertia of a closed polyhedron of uniform density 1.
 *
 * Source: the divergence theorem over fans of triangles; B. Mirtich, "Fast and Accurate Computation
 * of Polyhedral Mass Properties", J. Graphics Tools 1(2), 1996, states the same integrals. */
#ifndef LW_GEOM_MASS_H
#define LW_GEOM_MASS_H

#include "geom/solid.h"

typedef struct lw_mass {
    double volume; /* length^3 */
    double area;   /* of the whole surface, length^2 */
    lw_vec3 centroid;
    double inertia[3][3]; /* about the centroid, length^5 */
} lw_mass;

/* The area of one face (0 for an empty ring). */
double lw_polyhedron_face_area(const lw_polyhedron *polyhedron, int plane);

/* The solid must be closed: asserted. */
void lw_polyhedron_mass(const lw_polyhedron *polyhedron, lw_mass *out);

/* The greatest normal . p over the vertices, and (if at is not NULL) the vertex that has it, the
 * lowest number among equals. */
double lw_polyhedron_support(const lw_polyhedron *polyhedron, lw_vec3 direction, int *at);

#endif
