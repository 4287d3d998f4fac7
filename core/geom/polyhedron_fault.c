/* The whole-structure check of a polyhedron. */
#include "geom/solid.h"
#include "geom/tolerance.h"

#include <math.h>

static int ring_length(const lw_polyhedron *p, int face)
{
    return p->face_start[face + 1] - p->face_start[face];
}

static bool lists_plane(const lw_polyhedron *p, int vertex, int plane)
{
    for (int i = p->vertex_start[vertex]; i < p->vertex_start[vertex + 1]; i++) {
        if (p->vertex_plane[i] == plane) {
            return true;
        }
    }
    return false;
}

static const char *fault_of_lists(const lw_polyhedron *p)
{
    if (p->plane_count < 0 || p->vertex_count < 4) {
        return "fewer than four vertices";
    }
    if (p->face_start[0] != 0 || p->vertex_start[0] != 0) {
        return "a list does not start at 0";
    }
    for (int v = 0; v < p->vertex_count; v++) {
        if (p->vertex_start[v + 1] - p->vertex_start[v] < 3) {
            return "a vertex with fewer than three planes";
        }
        for (int i = p->vertex_start[v]; i < p->vertex_start[v + 1]; i++) {
            int plane = p->vertex_plane[i];
            if (plane < 0 || plane >= p->plane_count + 6) {
                return "a vertex lists a plane that does not exist";
            }
            if (i > p->vertex_start[v] && p->vertex_plane[i - 1] >= plane) {
                return "the planes of a vertex do not ascend";
            }
        }
    }
    return NULL;
}

/* Whether face has the side from a to b, with beyond across it. */
static bool has_side(const lw_polyhedron *p, int face, int a, int b, int beyond)
{
    int start = p->face_start[face], count = ring_length(p, face);
    for (int i = 0; i < count; i++) {
        int next = i + 1 == count ? 0 : i + 1;
        if (p->face_vertex[start + i] == a && p->face_vertex[start + next] == b) {
            return p->face_across[start + i] == beyond;
        }
    }
    return false;
}

static const char *fault_of_side(const lw_polyhedron *p, int face, int i, int next)
{
    int start = p->face_start[face];
    int a = p->face_vertex[start + i], beyond = p->face_across[start + i];
    if (a < 0 || a >= p->vertex_count) {
        return "a face lists a vertex that does not exist";
    }
    int b = p->face_vertex[start + next];
    if (beyond < 0 || beyond >= p->plane_count + 6 || beyond == face) {
        return "a side lists a face that does not exist";
    }
    if (!lists_plane(p, a, face) || !lists_plane(p, a, beyond) || !lists_plane(p, b, beyond)) {
        return "a vertex does not list a face that it belongs to";
    }
    if (beyond < p->plane_count && !has_side(p, beyond, b, a, face)) {
        return "neighbouring faces do not agree about their edge";
    }
    return NULL;
}

static const char *fault_of_rings(const lw_polyhedron *p)
{
    for (int face = 0; face < p->plane_count; face++) {
        int count = ring_length(p, face);
        if (count != 0 && count < 3) {
            return "a face with fewer than three sides";
        }
        if (p->same_as[face] != face && (count != 0 || p->same_as[face] > face)) {
            return "a coincident plane with a face, or after the one it names";
        }
        for (int i = 0; i < count; i++) {
            const char *fault = fault_of_side(p, face, i, i + 1 == count ? 0 : i + 1);
            if (fault != NULL) {
                return fault;
            }
        }
    }
    return NULL;
}

/* V - E + F = 2, when nothing of the start cube is left. */
static const char *fault_of_euler(const lw_polyhedron *p)
{
    int faces = 0, sides = p->face_start[p->plane_count];
    for (int face = 0; face < p->plane_count; face++) {
        faces += ring_length(p, face) > 0;
    }
    for (int i = 0; i < p->vertex_start[p->vertex_count]; i++) {
        if (p->vertex_plane[i] >= p->plane_count) {
            return NULL;
        }
    }
    return 2 * (p->vertex_count + faces) - sides == 4 ? NULL : "Euler's formula does not hold";
}

/* Each vertex lies on its planes and below all that have a face. */
static const char *fault_of_heights(const lw_polyhedron *p)
{
    double most = LW_SOUND_POINT * p->same_point;
    for (int v = 0; v < p->vertex_count; v++) {
        int i = p->vertex_start[v], end = p->vertex_start[v + 1];
        for (int plane = 0; plane < p->plane_count; plane++) {
            double height = lw_plane_height(p->planes[plane], p->vertices[v]);
            bool listed = i < end && p->vertex_plane[i] == plane;
            i += listed;
            if (!isfinite(height)) {
                return "a vertex that is not finite";
            }
            if (listed && fabs(height) > most) {
                return "a vertex off its plane";
            }
            if (height > most) {
                return "a vertex outside a plane";
            }
        }
    }
    return NULL;
}

const char *lw_polyhedron_fault(const lw_polyhedron *polyhedron)
{
    const char *fault = fault_of_lists(polyhedron);
    fault = fault == NULL ? fault_of_rings(polyhedron) : fault;
    fault = fault == NULL ? fault_of_euler(polyhedron) : fault;
    return fault == NULL ? fault_of_heights(polyhedron) : fault;
}
