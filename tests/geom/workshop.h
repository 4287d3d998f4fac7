/* A workshop for tests: solids made, extracted and checked in one call. */
#ifndef LW_TESTS_GEOM_WORKSHOP_H
#define LW_TESTS_GEOM_WORKSHOP_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "geom/mass.h"
#include "geom/solid.h"
#include "geom/stones.h"

#include <math.h>

enum { WORKSHOP_PLANES = 512 };

/* One for the whole program; NULL state of cmocka's set-up and tear-down. */
extern lw_solid *workshop;
int workshop_open(void **state);
int workshop_close(void **state);

/* Cuts one by one from a cube of this half extent; the polyhedron lasts until the next call. Fails
 * the test when it is not sound. */
lw_polyhedron workshop_cut(double half_extent, const lw_plane *planes, int count);

/* The same through lw_solid_build; must be closed. */
lw_polyhedron workshop_build(double half_extent, const lw_plane *planes, int count);

int face_sides(const lw_polyhedron *polyhedron, int plane);
int vertex_planes(const lw_polyhedron *polyhedron, int vertex);
int face_count(const lw_polyhedron *polyhedron);

/* The vertex within 1e-12 of a point; fails the test when there is none. */
int vertex_at(const lw_polyhedron *polyhedron, lw_vec3 point);

/* Whether a vertex lists a plane. */
bool vertex_has(const lw_polyhedron *polyhedron, int vertex, int plane);

/* |value - expected| <= tolerance * |expected|. */
void assert_close(double value, double expected, double tolerance);

#endif
