/* Solids that the tests of light look through. Built with core/geom; asserts that they are sound.
 */
#ifndef LW_TESTS_LIGHT_SHAPE_H
#define LW_TESTS_LIGHT_SHAPE_H

#include "geom/solid.h"
#include "light/path.h"

typedef struct shape {
    lw_memory memory;
    lw_solid *workshop;
    lw_polyhedron solid;
    lw_optic_solid optic;
} shape;

void shape_destroy(shape *made);

/* A facet by the angle that a cutter sets: pavilion facets face down. */
lw_plane facet(double angle_deg, double azimuth_deg, bool pavilion, double distance);

shape shape_of(const lw_plane *planes, int count);

/* |x| <= a, |y| <= b, |z| <= c */
shape shape_box(double a, double b, double c);

/* A long trough: flat top at z = 0, two pavilion facets of that angle facing -x and +x whose keel
 * lies along y, knife edges at x = +-1; ends at y = +-5. */
shape shape_trough(double pavilion_deg);

/* A round of eight mains with breaks and stars by the trade's formulas; angles in degrees, table,
 * star and lower-half lengths as shares of what laboratories refer them to. Diameter 1. */
shape shape_round(double pavilion_deg, double crown_deg, double table, double star, double lower);

#endif
