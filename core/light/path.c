#include "light/path.h"

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

/* ---- a path ------------------------------------------------------------- */

/* Any direction at right angles to another. */
static lw_vec3 some_axis(lw_vec3 direction)
{
    bool along_x = fabs(direction.x) > 0.5;
    lw_vec3 other = along_x ? (lw_vec3){0.0, 1.0, 0.0} : (lw_vec3){1.0, 0.0, 0.0};
    return lw_of_length_1(lw_vec3_cross(direction, other));
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
                          .direction = lw_of_length_1(lw_mirrored(direction, normal)),
                          .weight = lw_stokes_reflect(state, &surface).i};
    *path =
        (lw_path){.at = lw_vec3_add(from, lw_vec3_scale(direction, length)),
                  .direction = lw_of_length_1(lw_refracted(direction, normal, eta, surface.cos_t)),
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
            lw_of_length_1(lw_refracted(path->direction, normal, optics->index, surface.cos_t));
    }
    state = lw_stokes_reflect(state, &surface);
    path->state = optics->unpolarised ? lw_stokes_forget(state) : state;
    path->at = lw_vec3_add(path->at, lw_vec3_scale(path->direction, length));
    path->direction = lw_of_length_1(lw_mirrored(path->direction, normal));
    path->s = s;
    path->surfaces++;
}
