#include "fit_shapes.h"

#include "geom/angle.h"

static void add(test_shape *shape, double x, double y, double z)
{
    shape->corners[shape->shape.corner_count++] = (lw_vec3){x, y, z};
}

static void start(test_shape *out)
{
    out->shape = (lw_fit_shape){.corners = out->corners};
}

void test_cube(test_shape *out)
{
    start(out);
    for (int i = 0; i < 8; i++) {
        add(out, i & 1 ? 0.5 : -0.5, i & 2 ? 0.5 : -0.5, i & 4 ? 0.5 : -0.5);
    }
}

void test_octahedron(test_shape *out)
{
    start(out);
    double r = sqrt(0.5);
    for (int i = 0; i < 6; i++) {
        double at = i & 1 ? r : -r;
        add(out, i / 2 == 0 ? at : 0, i / 2 == 1 ? at : 0, i / 2 == 2 ? at : 0);
    }
}

void test_tetrahedron(test_shape *out)
{
    start(out);
    double a = sqrt(0.125);
    add(out, a, a, a);
    add(out, a, -a, -a);
    add(out, -a, a, -a);
    add(out, -a, -a, a);
}

static void add_girdle(test_shape *out)
{
    for (int i = 0; i < 16; i++) {
        lw_sincos at = lw_sincos_turns(i / 16.0);
        add(out, 0.5 * at.cos, 0.5 * at.sin, 0.0);
    }
}

void test_round(test_shape *out, double girdle_mm)
{
    start(out);
    out->shape.girdle_mm = girdle_mm;
    for (int i = 0; i < 8; i++) {
        lw_sincos at = lw_sincos_turns(i / 8.0);
        add(out, 0.28 * at.cos, 0.28 * at.sin, 0.16);
    }
    add_girdle(out);
    if (girdle_mm > 0.0) {
        out->shape.crown_count = out->shape.corner_count;
        add_girdle(out);
    }
    add(out, 0, 0, -0.43);
}
