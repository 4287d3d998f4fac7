#include "light/shape.h"

#include "geom/angle.h"
#include "light/near.h"

void shape_destroy(shape *made)
{
    lw_optic_solid_destroy(&made->optic);
    lw_solid_destroy(made->workshop);
    made->workshop = NULL;
}

lw_plane facet(double angle_deg, double azimuth_deg, bool pavilion, double distance)
{
    lw_sincos e = lw_sincos_deg(angle_deg);
    lw_sincos a = lw_sincos_deg(azimuth_deg);
    return (lw_plane){{e.sin * a.cos, e.sin * a.sin, pavilion ? -e.cos : e.cos}, distance};
}

shape shape_of(const lw_plane *planes, int count)
{
    shape made = {.memory = lw_memory_standard()};
    double reach = 0.0;
    for (int i = 0; i < count; i++)
        reach = fmax(reach, planes[i].distance);
    assert_int_equal(lw_solid_new(&made.memory, count, &made.workshop), LW_OK);
    assert_int_equal(lw_solid_build(made.workshop, 2.0 * reach, planes, count), LW_OK);
    lw_solid_extract(made.workshop, &made.solid);
    assert_null(lw_polyhedron_fault(&made.solid));
    assert_int_equal(lw_optic_solid_make(&made.memory, &made.solid, &made.optic), LW_OK);
    return made;
}

shape shape_box(double a, double b, double c)
{
    lw_plane planes[6] = {{{1, 0, 0}, a},  {{-1, 0, 0}, a}, {{0, 1, 0}, b},
                          {{0, -1, 0}, b}, {{0, 0, 1}, c},  {{0, 0, -1}, c}};
    return shape_of(planes, 6);
}

shape shape_trough(double pavilion_deg)
{
    double distance = lw_sincos_deg(pavilion_deg).sin;
    lw_plane planes[5] = {{{0, 0, 1}, 0.0},
                          facet(pavilion_deg, 0.0, true, distance),
                          facet(pavilion_deg, 180.0, true, distance),
                          {{0, 1, 0}, 5.0},
                          {{0, -1, 0}, 5.0}};
    return shape_of(planes, 5);
}

/* The plane of that angle and azimuth through a point. */
static lw_plane through(double angle_deg, double azimuth_deg, bool pavilion, lw_vec3 point)
{
    lw_plane plane = facet(angle_deg, azimuth_deg, pavilion, 0.0);
    plane.distance = lw_vec3_dot(plane.normal, point);
    return plane;
}

static double atan_deg(double t)
{
    return lw_atan2_deg(t, 1.0);
}

/* Girdle of radius 1/2 at its 16 corners, which lie at the mains' azimuths and midway. */
shape shape_round(double pavilion_deg, double crown_deg, double table, double star, double lower)
{
    const double half = 0.5, thin = 0.01;
    double c = lw_sincos_deg(22.5).cos, k = lw_sincos_deg(11.25).cos;
    double tan_p = lw_tan_deg(pavilion_deg), tan_c = lw_tan_deg(crown_deg);
    double r = table * c + star * (1.0 - table * c);
    double lower_deg = atan_deg(tan_p * (1.0 - (1.0 - lower) * c) / (lower * k));
    double star_deg = atan_deg(tan_c * (r * c - table) / (star * (1.0 - table * c)));
    double upper_deg = atan_deg(tan_c * (1.0 - r * c) / ((1.0 - r) * k));
    lw_plane planes[80];
    int n = 0;
    for (int i = 0; i < 8; i++) {
        double main = 45.0 * i;
        lw_sincos a = lw_sincos_deg(main), b = lw_sincos_deg(main + 22.5);
        lw_vec3 low = {half * a.cos, half * a.sin, -thin};
        lw_vec3 high = {low.x, low.y, thin};
        double reach = half * r, rise = (half - half * r * c) * tan_c;
        lw_vec3 tip = {reach * b.cos, reach * b.sin, thin + rise};
        planes[n++] = through(pavilion_deg, main, true, low);
        planes[n++] = through(crown_deg, main, false, high);
        planes[n++] = through(star_deg, main + 22.5, false, tip);
        for (int side = -1; side <= 1; side += 2) {
            double at = main + side * 11.25;
            planes[n++] = through(lower_deg, at, true, low);
            planes[n++] = through(upper_deg, at, false, high);
            planes[n++] = through(90.0, at, false, low);
        }
    }
    planes[n++] = (lw_plane){{0, 0, 1}, thin + half * (1.0 - table) * tan_c};
    return shape_of(planes, n);
}
