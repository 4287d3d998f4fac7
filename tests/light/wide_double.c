#include "light/wide_double.h"

#include <math.h>

/* A path is told apart from its neighbours as long as it has this share of its energy. */
static const double matters = 1e-5;

static double radiance(const lw_wide_job *job, lw_vec3 to)
{
    const lw_surroundings *place = job->surroundings;
    int on = lw_surroundings_patch(place, to);
    if (on == LW_ON_DARK)
        return 0.0;
    int scale = on == LW_ON_HEAD ? place->patch_count : on;
    return lw_surroundings_radiance(place, to) *
           (job->patch_scale == NULL ? 1.0 : job->patch_scale[scale]);
}

static void note(uint64_t what, wide_double *out)
{
    out->trail = (out->trail + what + 1) * 0x9E3779B97F4A7C15u;
    out->trail ^= out->trail >> 29;
}

static void book(const lw_wide_job *job, const lw_leaving *part, bool fresh, wide_double *out)
{
    out->sent += part->weight;
    out->brightness += part->weight * radiance(job, part->direction);
    if (part->direction.z < 0.0) {
        out->leak += part->weight;
        out->window += fresh ? part->weight : 0.0;
    }
    if (lw_surroundings_is_head(job->surroundings, part->direction))
        out->extinction += part->weight;
}

static void follow(const lw_wide_job *job, const lw_optic_solid *solid, bool fresh, lw_path *path,
                   wide_double *out)
{
    lw_optics optics = {job->index, job->absorption, job->unpolarised};
    while (path->state.i >= job->least_energy && path->surfaces < job->most_surfaces) {
        bool told = path->state.i >= matters;
        lw_vec3 to = path->direction;
        lw_leaving part;
        lw_path_next(solid, &optics, path, &part);
        double cos_i = lw_vec3_dot(to, lw_optic_solid_normal(solid, part.facet));
        if (told) {
            double beyond = 1.0 - job->index * job->index * (1.0 - cos_i * cos_i);
            out->critical = fmin(out->critical, fabs(beyond));
            note((uint64_t)part.facet, out);
        }
        if (part.total)
            continue;
        book(job, &part, fresh && path->surfaces == 1, out);
        if (told)
            note((uint64_t)(lw_surroundings_patch(job->surroundings, part.direction) + 2) * 2 +
                     (part.direction.z < 0.0),
                 out);
    }
    out->absorbed = path->absorbed;
    out->given_up = path->state.i;
    out->surfaces = path->surfaces;
}

bool wide_double_look(const lw_wide_job *job, const lw_optic_solid *solid, lw_vec3 from,
                      lw_vec3 direction, wide_double *out)
{
    lw_optics optics = {job->index, job->absorption, job->unpolarised};
    lw_path path;
    lw_leaving glare;
    *out = (wide_double){.critical = 1.0};
    if (!lw_path_enter(solid, &optics, from, direction, &path, &glare))
        return false;
    note((uint64_t)glare.facet, out);
    out->reflected = glare.weight;
    out->glare = glare.weight * radiance(job, glare.direction);
    follow(job, solid, true, &path, out);
    return true;
}

void wide_double_finish(const lw_wide_job *job, const lw_optic_solid *solid,
                        const lw_wide_inside *ray, wide_double *out)
{
    double i = (double)ray->i;
    lw_path path = {.at = ray->at,
                    .direction = ray->direction,
                    .s = ray->s,
                    .state = {1.0, (double)ray->q / i, (double)ray->u / i, (double)ray->v / i}};
    *out = (wide_double){.critical = 1.0};
    follow(job, solid, ray->first, &path, out);
}

double wide_double_apart(const wide_double *a, const lw_wide_light *b)
{
    double apart = fabs(a->brightness - (double)b->brightness);
    apart = fmax(apart, fabs(a->glare - (double)b->glare));
    apart = fmax(apart, fabs(a->window - (double)b->window));
    apart = fmax(apart, fabs(a->leak - (double)b->leak));
    apart = fmax(apart, fabs(a->extinction - (double)b->extinction));
    apart = fmax(apart, fabs(a->reflected - (double)b->reflected));
    apart = fmax(apart, fabs(a->sent - (double)b->sent));
    apart = fmax(apart, fabs(a->absorbed - (double)b->absorbed));
    return fmax(apart, fabs(a->given_up - (double)b->given_up));
}

double wide_sum(const lw_wide_light *light)
{
    return (double)light->reflected + (double)light->sent + (double)light->absorbed +
           (double)light->given_up;
}
