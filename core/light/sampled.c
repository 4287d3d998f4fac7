#include "light/sampled.h"

#include "geom/angle.h"

/* ---- one ray ------------------------------------------------------------ */

/* Another line of the spectrum after the same facets: directions only. */
typedef struct companion {
    double index;
    lw_vec3 direction;
} companion;

static companion companion_enter(double index, lw_vec3 direction, lw_vec3 normal)
{
    lw_fresnel surface = lw_fresnel_at(1.0 / index, -lw_vec3_dot(direction, normal));
    return (companion){index, lw_refracted(direction, normal, 1.0 / index, surface.cos_t)};
}

/* To the next surface; whether it leaves there. One that would run away from that facet does not.
 */
static bool companion_next(lw_vec3 normal, companion *line, lw_vec3 *leaving)
{
    double cos_i = lw_vec3_dot(line->direction, normal);
    bool passes = false;
    if (cos_i > 0.0) {
        lw_fresnel surface = lw_fresnel_at(line->index, cos_i);
        passes = !surface.total;
        *leaving = lw_refracted(line->direction, normal, line->index, surface.cos_t);
    }
    line->direction = lw_mirrored(line->direction, normal);
    return passes;
}

static double angle_between_deg(lw_vec3 a, lw_vec3 b)
{
    return lw_atan2_deg(lw_vec3_length(lw_vec3_cross(a, b)), lw_vec3_dot(a, b));
}

/* Takes both lines on and counts how far they part. */
static void spread(const lw_optic_solid *solid, companion lines[2], const lw_leaving *leaving,
                   double seen, lw_ray_light *out)
{
    lw_vec3 normal = lw_optic_solid_normal(solid, leaving->facet);
    bool passes[2];
    lw_vec3 directions[2];
    for (int i = 0; i < 2; i++)
        passes[i] = companion_next(normal, &lines[i], &directions[i]);
    if (seen > 0.0 && passes[0] && passes[1]) {
        out->fire += seen * angle_between_deg(directions[0], directions[1]);
        out->fire_weight += seen;
    }
}

/* Books a part that has left; gives what of it the eye sees lit. */
static double book(const lw_surroundings *surroundings, const lw_leaving *leaving, bool first,
                   lw_ray_light *out)
{
    double seen = leaving->weight * lw_surroundings_radiance(surroundings, leaving->direction);
    out->sent += leaving->weight;
    out->brightness += seen;
    if (leaving->direction.z < 0.0) {
        out->leak += leaving->weight;
        out->window += first ? leaving->weight : 0.0;
    }
    if (lw_surroundings_is_head(surroundings, leaving->direction))
        out->extinction += leaving->weight;
    return seen;
}

static void follow(const lw_optic_solid *solid, const lw_light_options *options,
                   const lw_surroundings *surroundings, companion lines[2], lw_path *path,
                   lw_ray_light *out)
{
    lw_optics optics = {options->index.yellow, options->absorption, options->unpolarised};
    bool spreads = lines[0].index != lines[1].index;
    double least = LW_RAY_ENDS * path->state.i;
    while (path->state.i > least && path->surfaces < options->most_surfaces) {
        lw_leaving leaving;
        lw_path_next(solid, &optics, path, &leaving);
        double seen = 0.0;
        if (!leaving.total)
            seen = book(surroundings, &leaving, path->surfaces == 1, out);
        if (spreads)
            spread(solid, lines, &leaving, seen, out);
    }
    out->absorbed = path->absorbed;
    out->given_up = path->state.i;
}

bool lw_light_of_ray(const lw_optic_solid *solid, const lw_light_options *options,
                     const lw_surroundings *surroundings, lw_vec3 from, lw_vec3 direction,
                     lw_ray_light *out)
{
    lw_optics optics = {options->index.yellow, options->absorption, options->unpolarised};
    lw_path path;
    lw_leaving glare;
    if (!lw_path_enter(solid, &optics, from, direction, &path, &glare))
        return false;
    lw_vec3 normal = lw_optic_solid_normal(solid, glare.facet);
    companion lines[2] = {companion_enter(options->index.blue, direction, normal),
                          companion_enter(options->index.red, direction, normal)};
    lw_ray_light light = {.reflected = glare.weight};
    light.glare = glare.weight * lw_surroundings_radiance(surroundings, glare.direction);
    follow(solid, options, surroundings, lines, &path, &light);
    *out = light;
    return true;
}

/* ---- all rays ----------------------------------------------------------- */

/* The rectangle around the silhouette, in a plane before the stone. */
typedef struct frame {
    lw_vec3 corner, across, up, direction;
} frame;

static frame frame_for(const lw_optic_solid *solid, const lw_screen *screen)
{
    double low[2] = {HUGE_VAL, HUGE_VAL}, high[2] = {-HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < solid->corner_count; i++) {
        double at[2] = {lw_vec3_dot(solid->corners[i], screen->across),
                        lw_vec3_dot(solid->corners[i], screen->up)};
        for (int k = 0; k < 2; k++) {
            low[k] = fmin(low[k], at[k]);
            high[k] = fmax(high[k], at[k]);
        }
    }
    double before = lw_vec3_dot(solid->middle, screen->eye) + 2.0 * solid->half_extent;
    lw_vec3 corner = lw_vec3_scale(screen->eye, before);
    corner = lw_vec3_add(corner, lw_vec3_scale(screen->across, low[0]));
    corner = lw_vec3_add(corner, lw_vec3_scale(screen->up, low[1]));
    return (frame){corner, lw_vec3_scale(screen->across, high[0] - low[0]),
                   lw_vec3_scale(screen->up, high[1] - low[1]), lw_vec3_scale(screen->eye, -1.0)};
}

/* Means of one grid. */
typedef struct tally {
    long count;
    lw_ray_light sum;
    double mean, squares; /* of brightness, by Welford's running update */
} tally;

static void add(lw_ray_light *sum, const lw_ray_light *light)
{
    sum->brightness += light->brightness;
    sum->glare += light->glare;
    sum->window += light->window;
    sum->leak += light->leak;
    sum->extinction += light->extinction;
    sum->reflected += light->reflected;
    sum->sent += light->sent;
    sum->absorbed += light->absorbed;
    sum->given_up += light->given_up;
    sum->fire += light->fire;
    sum->fire_weight += light->fire_weight;
}

static void count_ray(tally *grid, const lw_ray_light *light)
{
    grid->count++;
    add(&grid->sum, light);
    double apart = light->brightness - grid->mean;
    grid->mean += apart / (double)grid->count;
    grid->squares += apart * (light->brightness - grid->mean);
}

static double fraction(double x)
{
    return x - floor(x);
}

/* Points (i / n, fraction of i x golden section), shifted by a multiple of the plastic number's
 * powers: H. Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods, 1992, ch. 3 and
 * 5 (lattice and Kronecker points). */
static void trace_grid(const lw_optic_solid *solid, const lw_light_options *options,
                       const lw_surroundings *surroundings, const frame *view, int rays, int grid,
                       tally *out)
{
    const double golden = 0.61803398874989485, plastic1 = 0.75487766624669276,
                 plastic2 = 0.56984029099805327;
    double shift_x = fraction(0.5 + grid * plastic1);
    double shift_y = fraction(0.5 + grid * plastic2);
    for (int i = 0; i < rays; i++) {
        double x = fraction((i + shift_x) / rays);
        double y = fraction(i * golden + shift_y);
        lw_vec3 from = lw_vec3_add(view->corner, lw_vec3_scale(view->across, x));
        from = lw_vec3_add(from, lw_vec3_scale(view->up, y));
        lw_ray_light light;
        if (lw_light_of_ray(solid, options, surroundings, from, view->direction, &light))
            count_ray(out, &light);
    }
}

/* Half the width of the 99 % interval of a mean of LW_LIGHT_GRIDS = 8 values (Student's t with 7
 * degrees of freedom: 3.499). */
static double interval(const tally grids[LW_LIGHT_GRIDS])
{
    double mean = 0.0, squares = 0.0;
    for (int i = 0; i < LW_LIGHT_GRIDS; i++)
        mean += grids[i].mean / LW_LIGHT_GRIDS;
    for (int i = 0; i < LW_LIGHT_GRIDS; i++)
        squares += (grids[i].mean - mean) * (grids[i].mean - mean);
    return 3.499 * sqrt(squares / (LW_LIGHT_GRIDS * (LW_LIGHT_GRIDS - 1)));
}

static lw_light_measures summary(const tally grids[LW_LIGHT_GRIDS])
{
    tally all = {0};
    for (int i = 0; i < LW_LIGHT_GRIDS; i++) {
        all.count += grids[i].count;
        add(&all.sum, &grids[i].sum);
    }
    double n = (double)all.count;
    double mean = all.sum.brightness / n;
    for (int i = 0; i < LW_LIGHT_GRIDS; i++) {
        double apart = grids[i].mean - mean;
        all.squares += grids[i].squares + (double)grids[i].count * apart * apart;
    }
    return (lw_light_measures){
        .brightness = mean,
        .glare = all.sum.glare / n,
        .window = all.sum.window / n,
        .leak = all.sum.leak / n,
        .extinction = all.sum.extinction / n,
        .contrast = sqrt(all.squares / n),
        .fire_deg = all.sum.fire_weight > 0.0 ? all.sum.fire / all.sum.fire_weight : 0.0,
        .reflected = all.sum.reflected / n,
        .sent = all.sum.sent / n,
        .absorbed = all.sum.absorbed / n,
        .given_up = all.sum.given_up / n,
        .error_est = interval(grids),
        .rays = all.count};
}

lw_status lw_light_measure_by_rays(const lw_memory *memory, const lw_polyhedron *polyhedron,
                                   const lw_light_options *options, int rays,
                                   lw_light_measures *out)
{
    if (!lw_light_options_sound(options) || rays < LW_LIGHT_GRIDS || rays > LW_LIGHT_MOST_RAYS)
        return LW_BAD_INPUT;
    lw_optic_solid solid;
    lw_status status = lw_optic_solid_make(memory, polyhedron, &solid);
    if (status != LW_OK)
        return status;
    lw_surroundings surroundings = lw_light_surroundings(options);
    lw_screen screen = lw_screen_for(surroundings.eye, options->turn_deg);
    frame view = frame_for(&solid, &screen);
    tally grids[LW_LIGHT_GRIDS] = {0};
    for (int i = 0; i < LW_LIGHT_GRIDS; i++)
        trace_grid(&solid, options, &surroundings, &view, rays / LW_LIGHT_GRIDS, i, &grids[i]);
    lw_optic_solid_destroy(&solid);
    *out = summary(grids);
    return LW_OK;
}
