/* What can be measured on the stone as it stands. */
#include "cut/solver.h"

#include "geom/tolerance.h"

bool lw_solver_outline(lw_solver *solver, lw_vec3 outward, double *reach)
{
    const lw_polyhedron *shape = lw_solver_shape(solver);
    int at = 0;
    if (shape->vertex_count == 0) {
        return false;
    }
    lw_solver_spend(solver, shape->vertex_count / 64.0);
    *reach = lw_polyhedron_support(shape, outward, &at);
    for (int k = shape->vertex_start[at]; k < shape->vertex_start[at + 1]; k++) {
        if (shape->vertex_plane[k] < shape->plane_count) {
            return true;
        }
    }
    return false;
}

bool lw_solver_holds(lw_solver *solver, lw_vec3 point, int *cut_by)
{
    const lw_polyhedron *shape = lw_solver_shape(solver);
    lw_solver_spend(solver, shape->plane_count / 64.0);
    for (int p = 0; p < shape->plane_count; p++) {
        if (lw_plane_height(shape->planes[p], point) > LW_MEET_HOLDS) {
            *cut_by = solver->standing.facet_of[p];
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
