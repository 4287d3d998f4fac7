/* Stones for the tests of fitting: regular solids and a plain round of worked proportions. */
#ifndef LW_TEST_ROUGH_FIT_SHAPES_H
#define LW_TEST_ROUGH_FIT_SHAPES_H

#include "rough/fit.h"

enum { TEST_SHAPE_MOST = 64 };

typedef struct test_shape {
    lw_vec3 corners[TEST_SHAPE_MOST];
    lw_fit_shape shape;
} test_shape;

void test_cube(test_shape *out);        /* edge 1, around the origin */
void test_octahedron(test_shape *out);  /* edge 1 */
void test_tetrahedron(test_shape *out); /* edge 1 */
/* Sixteen girdle corners at radius 1/2, a table of 8 corners 0.16 up, a culet 0.43 down; with
 * halves: the crown and the pavilion with a girdle of its own each, to be parted by girdle_mm. */
void test_round(test_shape *out, double girdle_mm);

#endif
