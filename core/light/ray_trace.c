#include "light/ray_trace.h"

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

static void fill(const lw_polyhedron *polyhedron, lw_optic_solid *out)
{
    int facet = 0;
    for (int i = 0; i < polyhedron->plane_count; i++) {
        if (!has_face(polyhedron, i))
            continue;
        out->plane[facet] = i;
        out->x[facet] = polyhedron->planes[i].normal.x;
        out->y[facet] = polyhedron->planes[i].normal.y;
        out->z[facet] = polyhedron->planes[i].normal.z;
        out->distance[facet] = polyhedron->planes[i].distance;
        facet++;
    }
}

lw_status lw_optic_solid_make(const lw_memory *memory, const lw_polyhedron *polyhedron,
                              lw_optic_solid *out)
{
    int count = count_faces(polyhedron);
    if (count < 4 || !is_closed(polyhedron))
        return LW_NOT_CLOSED;
    lw_optic_solid made = {.facet_count = count};
    void *plane = NULL;
    void *numbers = NULL;
    lw_status status = lw_memory_new(memory, (size_t)count, sizeof *made.plane, &plane);
    if (status != LW_OK)
        return status;
    status = lw_memory_new(memory, (size_t)count, 4 * sizeof(double), &numbers);
    if (status != LW_OK) {
        lw_memory_free(memory, plane, (size_t)count, sizeof *made.plane);
        return status;
    }
    made.plane = plane;
    made.x = numbers;
    made.y = made.x + count;
    made.z = made.y + count;
    made.distance = made.z + count;
    fill(polyhedron, &made);
    bound(polyhedron, &made);
    *out = made;
    return LW_OK;
}

void lw_optic_solid_destroy(const lw_memory *memory, lw_optic_solid *solid)
{
    size_t count = (size_t)solid->facet_count;
    lw_memory_free(memory, solid->plane, count, sizeof *solid->plane);
    lw_memory_free(memory, solid->x, count, 4 * sizeof(double));
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

lw_vec3 lw_mirrored(lw_vec3 direction, lw_vec3 normal)
{
    lw_vec3 turned = lw_vec3_scale(normal, 2.0 * lw_vec3_dot(direction, normal));
    return lw_vec3_sub(direction, turned);
}

lw_vec3 lw_refracted(lw_vec3 direction, lw_vec3 normal, double eta, double cos_t)
{
    double cos_i = lw_vec3_dot(direction, normal);
    double along = (cos_i < 0.0 ? -cos_t : cos_t) - eta * cos_i;
    return lw_vec3_add(lw_vec3_scale(direction, eta), lw_vec3_scale(normal, along));
}

/* Rounding in hundreds of reflections must not make a direction longer or shorter than 1. */
static lw_vec3 of_length_1(lw_vec3 direction)
{
    return lw_vec3_scale(direction, 1.0 / lw_vec3_length(direction));
}

/* ---- a path ------------------------------------------------------------- */

/* Any direction at right angles to another. */
static lw_vec3 some_axis(lw_vec3 direction)
{
    bool along_x = fabs(direction.x) > 0.5;
    lw_vec3 other = along_x ? (lw_vec3){0.0, 1.0, 0.0} : (lw_vec3){1.0, 0.0, 0.0};
    return of_length_1(lw_vec3_cross(direction, other));
}

bool lw_path_enter(const lw_optic_solid *solid, const lw_optics *optics, lw_vec3 from,
                   lw_vec3 direction, lw_path *path, lw_leaving *glare)
{
    int facet;
    double length;
    if (!lw_optic_solid_entry(solid, from, direction, &facet, &length))
        return false;
    lw_vec3 normal = lw_optic_solid_normal(solid, facet);
    lw_vec3 s = lw_polarisation_axis(direction, normal, some_axis(direction));
    double eta = 1.0 / optics->index;
    lw_fresnel surface = lw_fresnel_at(eta, -lw_vec3_dot(direction, normal));
    lw_stokes state = lw_stokes_unpolarised(1.0);
    lw_stokes inside = lw_stokes_transmit(state, &surface);
    *glare = (lw_leaving){.facet = facet,
                          .direction = of_length_1(lw_mirrored(direction, normal)),
                          .weight = lw_stokes_reflect(state, &surface).i};
    *path = (lw_path){.at = lw_vec3_add(from, lw_vec3_scale(direction, length)),
                      .direction = of_length_1(lw_refracted(direction, normal, eta, surface.cos_t)),
                      .s = s,
                      .state = optics->unpolarised ? lw_stokes_forget(inside) : inside};
    return true;
}

static void absorb(const lw_optics *optics, double length, lw_path *path)
{
    if (optics->absorption == 0.0)
        return;
    double before = path->state.i;
    path->state = lw_stokes_scale(path->state, exp(-optics->absorption * length));
    path->absorbed += before - path->state.i;
}

void lw_path_next(const lw_optic_solid *solid, const lw_optics *optics, lw_path *path,
                  lw_leaving *leaving)
{
    double length;
    int facet = lw_optic_solid_exit(solid, path->at, path->direction, &length);
    absorb(optics, length, path);
    lw_vec3 normal = lw_optic_solid_normal(solid, facet);
    lw_vec3 s = lw_polarisation_axis(path->direction, normal, path->s);
    lw_fresnel surface = lw_fresnel_at(optics->index, lw_vec3_dot(path->direction, normal));
    lw_stokes state = lw_stokes_turn(path->state, path->direction, path->s, s);
    *leaving = (lw_leaving){.facet = facet, .total = surface.total};
    if (!surface.total) {
        leaving->weight = lw_stokes_transmit(state, &surface).i;
        leaving->direction =
            of_length_1(lw_refracted(path->direction, normal, optics->index, surface.cos_t));
    }
    state = lw_stokes_reflect(state, &surface);
    path->state = optics->unpolarised ? lw_stokes_forget(state) : state;
    path->at = lw_vec3_add(path->at, lw_vec3_scale(path->direction, length));
    path->direction = of_length_1(lw_mirrored(path->direction, normal));
    path->s = s;
    path->surfaces++;
}
