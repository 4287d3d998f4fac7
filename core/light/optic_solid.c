#include "light/optic_solid.h"

#include <assert.h>

/* ---- the solid ---------------------------------------------------------- */

static bool is_closed(const lw_polyhedron *polyhedron)
{
    int sides = polyhedron->face_start[polyhedron->plane_count];
    for (int i = 0; i < sides; i++) {
        if (polyhedron->face_across[i] >= polyhedron->plane_count)
            return false;
    }
    return true;
}

static bool has_face(const lw_polyhedron *polyhedron, int plane)
{
    return polyhedron->face_start[plane + 1] > polyhedron->face_start[plane];
}

static int count_faces(const lw_polyhedron *polyhedron)
{
    int count = 0;
    for (int i = 0; i < polyhedron->plane_count; i++)
        count += has_face(polyhedron, i);
    return count;
}

static void bound(const lw_polyhedron *polyhedron, lw_optic_solid *out)
{
    lw_vec3 low = polyhedron->vertices[0];
    lw_vec3 high = low;
    for (int i = 1; i < polyhedron->vertex_count; i++) {
        lw_vec3 v = polyhedron->vertices[i];
        low = (lw_vec3){fmin(low.x, v.x), fmin(low.y, v.y), fmin(low.z, v.z)};
        high = (lw_vec3){fmax(high.x, v.x), fmax(high.y, v.y), fmax(high.z, v.z)};
    }
    out->middle = lw_vec3_mix(low, high, 0.5);
    out->half_extent = 0.5 * lw_vec3_length(lw_vec3_sub(high, low));
}

/* Numbers of the facets by those of the planes; -1 for a plane without a face. */
static void number_facets(const lw_polyhedron *polyhedron, lw_optic_solid *made, int *facet_of)
{
    int facet = 0;
    for (int i = 0; i < polyhedron->plane_count; i++) {
        facet_of[i] = -1;
        if (!has_face(polyhedron, i))
            continue;
        facet_of[i] = facet;
        made->plane[facet] = i;
        made->x[facet] = polyhedron->planes[i].normal.x;
        made->y[facet] = polyhedron->planes[i].normal.y;
        made->z[facet] = polyhedron->planes[i].normal.z;
        made->distance[facet] = polyhedron->planes[i].distance;
        facet++;
    }
}

static void copy_rings(const lw_polyhedron *polyhedron, const int *facet_of, lw_optic_solid *made)
{
    int side = 0;
    for (int facet = 0; facet < made->facet_count; facet++) {
        int plane = made->plane[facet];
        made->ring_start[facet] = side;
        for (int k = polyhedron->face_start[plane]; k < polyhedron->face_start[plane + 1]; k++) {
            made->corner[side] = polyhedron->face_vertex[k];
            made->across[side] = facet_of[polyhedron->face_across[k]];
            side++;
        }
    }
    made->ring_start[made->facet_count] = side;
    for (int i = 0; i < made->corner_count; i++)
        made->corners[i] = polyhedron->vertices[i];
}

static bool reserve(lw_optic_solid *made, int sides)
{
    size_t count = (size_t)made->facet_count;
    made->plane = lw_arena_new(&made->arena, count, sizeof *made->plane);
    made->x = lw_arena_new(&made->arena, count, 4 * sizeof(double));
    made->ring_start = lw_arena_new(&made->arena, count + 1, sizeof *made->ring_start);
    made->corner = lw_arena_new(&made->arena, (size_t)sides, 2 * sizeof *made->corner);
    made->corners = lw_arena_new(&made->arena, (size_t)made->corner_count, sizeof *made->corners);
    if (made->plane == NULL || made->x == NULL || made->ring_start == NULL ||
        made->corner == NULL || made->corners == NULL)
        return false;
    made->y = made->x + count;
    made->z = made->y + count;
    made->distance = made->z + count;
    made->across = made->corner + sides;
    return true;
}

lw_status lw_optic_solid_make(const lw_memory *memory, const lw_polyhedron *polyhedron,
                              lw_optic_solid *out)
{
    int count = count_faces(polyhedron);
    if (count < 4 || !is_closed(polyhedron))
        return LW_NOT_CLOSED;
    lw_optic_solid made = {.arena = lw_arena_make(memory),
                           .facet_count = count,
                           .corner_count = polyhedron->vertex_count};
    int *facet_of = lw_arena_new(&made.arena, (size_t)polyhedron->plane_count, sizeof *facet_of);
    if (facet_of == NULL || !reserve(&made, polyhedron->face_start[polyhedron->plane_count])) {
        lw_arena_destroy(&made.arena);
        return LW_NO_MEMORY;
    }
    number_facets(polyhedron, &made, facet_of);
    copy_rings(polyhedron, facet_of, &made);
    bound(polyhedron, &made);
    *out = made;
    return LW_OK;
}

void lw_optic_solid_destroy(lw_optic_solid *solid)
{
    lw_arena_destroy(&solid->arena);
    *solid = (lw_optic_solid){0};
}

/* ---- crossing it -------------------------------------------------------- */

/* Nearest is largest in (n . direction) / slack over the planes run towards; compared crosswise,
 * so that nothing is divided until one is chosen. The slack is clamped at 0: a start on an edge, a
 * rounding error beyond the second plane, leaves there at once instead of being lost. */
int lw_optic_solid_exit(const lw_optic_solid *solid, lw_vec3 from, lw_vec3 direction,
                        double *length)
{
    int best = -1;
    double best_speed = 0.0;
    double best_slack = 1.0;
    for (int i = 0; i < solid->facet_count; i++) {
        double x = solid->x[i], y = solid->y[i], z = solid->z[i];
        double speed = x * direction.x + y * direction.y + z * direction.z;
        double slack = solid->distance[i] - (x * from.x + y * from.y + z * from.z);
        slack = slack > 0.0 ? slack : 0.0;
        if (speed * best_slack > best_speed * slack) {
            best = i;
            best_speed = speed;
            best_slack = slack;
        }
    }
    assert(best >= 0); /* a closed solid has a plane in every direction */
    *length = best_slack / best_speed;
    return best;
}

bool lw_optic_solid_entry(const lw_optic_solid *solid, lw_vec3 from, lw_vec3 direction, int *facet,
                          double *length)
{
    int first = -1;
    double enter = 0.0;
    double leave = HUGE_VAL;
    for (int i = 0; i < solid->facet_count; i++) {
        lw_vec3 normal = lw_optic_solid_normal(solid, i);
        double speed = lw_vec3_dot(normal, direction);
        double slack = solid->distance[i] - lw_vec3_dot(normal, from);
        if (speed == 0.0 && slack < 0.0)
            return false;
        double at = slack / speed;
        if (speed < 0.0 && (first < 0 || at > enter)) {
            first = i;
            enter = at;
        } else if (speed > 0.0 && at < leave) {
            leave = at;
        }
    }
    if (first < 0 || enter >= leave || enter < 0.0)
        return false;
    *facet = first;
    *length = enter;
    return true;
}
