#include "povray/compare.h"

#include "light/sampled.h"

#include <stdlib.h>

enum { OFF_MIDDLE = 4 };

/* ---- ours --------------------------------------------------------------- */

/* Everything that the rays of one picture share. */
typedef struct eye {
    const lw_optic_solid *solid;
    const lw_light_options *options;
    const povray_view *view;
    lw_surroundings around;
    double steady;
} eye;

static double brightest_of(const lw_surroundings *around)
{
    double most = around->head_radiance;
    for (int i = 0; i < around->patch_count; i++)
        most = fmax(most, around->patches[i].even + fabs(around->patches[i].slope));
    return most;
}

/* -1 where the ray misses. */
static double seen(const eye *from, double column, double row)
{
    lw_ray_light light;
    lw_vec3 start = povray_ray(from->view, column, row);
    lw_vec3 direction = lw_vec3_scale(from->view->screen.eye, -1.0);
    if (!lw_light_of_ray(from->solid, from->options, &from->around, start, direction, &light))
        return -1.0;
    return light.brightness + light.glare;
}

static int facet_at(const eye *from, double column, double row)
{
    lw_vec3 direction = lw_vec3_scale(from->view->screen.eye, -1.0);
    int facet;
    double length;
    bool met = lw_optic_solid_entry(from->solid, povray_ray(from->view, column, row), direction,
                                    &facet, &length);
    return met ? facet : -1;
}

static bool is_steady(const eye *from, double column, double row, double middle)
{
    static const double off[OFF_MIDDLE][2] = {{0.25, 0}, {-0.25, 0}, {0, 0.25}, {0, -0.25}};
    for (int k = 0; k < OFF_MIDDLE; k++) {
        double value = seen(from, column + off[k][0], row + off[k][1]);
        if (value < 0.0 || fabs(value - middle) > from->steady)
            return false;
    }
    return true;
}

own_picture own_picture_of(const lw_optic_solid *solid, const lw_light_options *options,
                           const povray_view *view)
{
    int n = view->pixels;
    size_t count = (size_t)n * (size_t)n;
    own_picture made = {.pixels = n,
                        .radiance = malloc(count * sizeof *made.radiance),
                        .facet = malloc(count * sizeof *made.facet),
                        .steady = malloc(count * sizeof *made.steady)};
    if (made.radiance == NULL || made.facet == NULL || made.steady == NULL)
        abort();
    eye from = {solid, options, view, lw_light_surroundings(options), 0.0};
    from.steady = COMPARE_STEADY * brightest_of(&from.around);
    for (int i = 0; i < n * n; i++) {
        double column = i % n + 0.5, row = i / n + 0.5;
        made.facet[i] = facet_at(&from, column, row);
        made.radiance[i] = seen(&from, column, row);
        made.steady[i] = made.radiance[i] >= 0.0 && is_steady(&from, column, row, made.radiance[i]);
    }
    return made;
}

void own_picture_destroy(own_picture *picture)
{
    free(picture->radiance);
    free(picture->facet);
    free(picture->steady);
    *picture = (own_picture){0};
}

/* ---- against theirs ----------------------------------------------------- */

long compare_facets(const own_picture *ours, const double facets[])
{
    long elsewhere = 0;
    double half_step = 0.5 * (povray_facet_level(1) - povray_facet_level(0));
    for (int i = 0; i < ours->pixels * ours->pixels; i++) {
        double expected = ours->facet[i] < 0 ? 0.0 : povray_facet_level(ours->facet[i]);
        elsewhere += !(fabs(facets[i] - expected) < half_step);
    }
    return elsewhere;
}

comparison compare_pictures(const own_picture *ours, const double theirs[], double brightest,
                            double within)
{
    comparison c = {0};
    double squares = 0.0;
    for (int i = 0; i < ours->pixels * ours->pixels; i++) {
        if (ours->radiance[i] < 0.0)
            continue;
        c.face++;
        c.ours += ours->radiance[i];
        c.theirs += theirs[i];
        double apart = fabs(theirs[i] - ours->radiance[i]) / brightest;
        if (!ours->steady[i]) {
            c.beyond_unsteady += apart > within;
            continue;
        }
        c.compared++;
        c.largest = fmax(c.largest, apart);
        squares += apart * apart;
    }
    c.ours /= (double)c.face;
    c.theirs /= (double)c.face;
    c.rms = sqrt(squares / (double)c.compared);
    return c;
}
