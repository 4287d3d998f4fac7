/* What can be read off the stone as it stands. */
#include "cut/solver.h"

#include "geom/tolerance.h"

#include <math.h>

static bool is_girdle(const lw_plane *plane)
{
    return plane->normal.z == 0.0;
}

/* Whether one of the planes through a vertex is a girdle facet, and whether one belongs to the
 * side. */
static void planes_at(const lw_polyhedron *shape, int vertex, double sign, bool *girdle, bool *side)
{
    *girdle = false;
    *side = false;
    for (int k = shape->vertex_start[vertex]; k < shape->vertex_start[vertex + 1]; k++) {
        int plane = shape->vertex_plane[k];
        if (plane < shape->plane_count) {
            *girdle = *girdle || is_girdle(&shape->planes[plane]);
            *side = *side || shape->planes[plane].normal.z * sign > 0.0;
        }
    }
}

bool lw_solver_girdle_line(const lw_solver *solver, double sign, double *z)
{
    bool found = false;
    double nearest = 0.0;
    for (int v = 0; v < solver->shape.vertex_count; v++) {
        bool girdle = false;
        bool side = false;
        planes_at(&solver->shape, v, sign, &girdle, &side);
        if (girdle && side) {
            double height = sign * solver->shape.vertices[v].z;
            nearest = found && nearest < height ? nearest : height;
            found = true;
        }
    }
    if (found) {
        *z = sign * nearest;
    }
    return found;
}

bool lw_solver_side_begun(const lw_solver *solver, double sign)
{
    const lw_polyhedron *shape = &solver->shape;
    for (int p = 0; p < shape->plane_count; p++) {
        bool has_face = shape->face_start[p + 1] > shape->face_start[p];
        if (has_face && shape->planes[p].normal.z * sign > 0.0) {
            return true;
        }
    }
    return false;
}

bool lw_solver_apex(const lw_solver *solver, double sign, lw_vec3 *point)
{
    for (int v = 0; v < solver->shape.vertex_count; v++) {
        lw_vec3 p = solver->shape.vertices[v];
        bool girdle = false;
        bool side = false;
        if (sqrt(p.x * p.x + p.y * p.y) < LW_MEET_HOLDS) {
            planes_at(&solver->shape, v, sign, &girdle, &side);
            if (side) {
                *point = p;
                return true;
            }
        }
    }
    return false;
}

bool lw_solver_outline(const lw_solver *solver, lw_vec3 outward, double *reach)
{
    const lw_polyhedron *shape = &solver->shape;
    int at = 0;
    if (shape->vertex_count == 0) {
        return false;
    }
    *reach = lw_polyhedron_support(shape, outward, &at);
    for (int k = shape->vertex_start[at]; k < shape->vertex_start[at + 1]; k++) {
        if (shape->vertex_plane[k] < shape->plane_count) {
            return true;
        }
    }
    return false;
}

bool lw_solver_holds(const lw_solver *solver, lw_vec3 point, int *cut_by)
{
    for (int p = 0; p < solver->shape.plane_count; p++) {
        if (lw_plane_height(solver->shape.planes[p], point) > LW_MEET_HOLDS) {
            *cut_by = solver->facet_of[p];
            return false;
        }
    }
    return true;
}

double lw_shape_edge(const lw_polyhedron *shape, int plane, int other)
{
    int first = shape->face_start[plane];
    int end = shape->face_start[plane + 1];
    for (int k = first; k < end; k++) {
        if (shape->face_across[k] == other) {
            int next = k + 1 < end ? k + 1 : first;
            lw_vec3 along = lw_vec3_sub(shape->vertices[shape->face_vertex[next]],
                                        shape->vertices[shape->face_vertex[k]]);
            return lw_vec3_length(along);
        }
    }
    return 0.0;
}

double lw_shape_extent(const lw_polyhedron *shape, int plane, lw_vec3 along)
{
    double lowest = INFINITY;
    double highest = -INFINITY;
    for (int k = shape->face_start[plane]; k < shape->face_start[plane + 1]; k++) {
        double t = lw_vec3_dot(along, shape->vertices[shape->face_vertex[k]]);
        lowest = fmin(lowest, t);
        highest = fmax(highest, t);
    }
    return highest > lowest ? highest - lowest : 0.0;
}
