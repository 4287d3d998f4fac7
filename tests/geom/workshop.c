#include "geom/workshop.h"

lw_solid *workshop;

int workshop_open(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    return lw_solid_new(&memory, WORKSHOP_PLANES, &workshop) == LW_OK ? 0 : -1;
}

int workshop_close(void **state)
{
    (void)state;
    lw_solid_destroy(workshop);
    return 0;
}

static lw_polyhedron extracted(void)
{
    lw_polyhedron out;
    lw_solid_extract(workshop, &out);
    const char *fault = lw_polyhedron_fault(&out);
    if (fault != NULL) {
        fail_msg("%s", fault);
    }
    return out;
}

lw_polyhedron workshop_cut(double half_extent, const lw_plane *planes, int count)
{
    lw_solid_start(workshop, half_extent);
    for (int i = 0; i < count; i++) {
        assert_int_equal(lw_solid_cut(workshop, planes[i], NULL), LW_OK);
    }
    return extracted();
}

lw_polyhedron workshop_build(double half_extent, const lw_plane *planes, int count)
{
    assert_int_equal(lw_solid_build(workshop, half_extent, planes, count), LW_OK);
    assert_true(lw_solid_is_closed(workshop));
    return extracted();
}

int face_sides(const lw_polyhedron *p, int plane)
{
    return p->face_start[plane + 1] - p->face_start[plane];
}

int vertex_planes(const lw_polyhedron *p, int vertex)
{
    return p->vertex_start[vertex + 1] - p->vertex_start[vertex];
}

int face_count(const lw_polyhedron *p)
{
    int count = 0;
    for (int i = 0; i < p->plane_count; i++) {
        count += face_sides(p, i) > 0;
    }
    return count;
}

int vertex_at(const lw_polyhedron *p, lw_vec3 point)
{
    for (int i = 0; i < p->vertex_count; i++) {
        if (lw_vec3_length(lw_vec3_sub(p->vertices[i], point)) <= 1e-12) {
            return i;
        }
    }
    fail_msg("no vertex at %g %g %g", point.x, point.y, point.z);
    return -1;
}

bool vertex_has(const lw_polyhedron *p, int vertex, int plane)
{
    for (int i = p->vertex_start[vertex]; i < p->vertex_start[vertex + 1]; i++) {
        if (p->vertex_plane[i] == plane) {
            return true;
        }
    }
    return false;
}

void assert_close(double value, double expected, double tolerance)
{
    if (!(fabs(value - expected) <= tolerance * fabs(expected))) {
        fail_msg("%.17g is not %.17g within %g", value, expected, tolerance);
    }
}
