#include "light/wide_grid.h"

#include "light/near.h"
#include "light/wide/trace.h"

#include <stdlib.h>

/* Rays are handed over so many at a time: a run of pixels of one row. */
enum { RUN = 1024 };

typedef struct sums {
    long hits;
    double brightness, glare, window, leak, extinction, reflected, sent, absorbed, given_up;
} sums;

typedef struct painter {
    lw_wide_job job;
    lw_lanes lanes;
    lw_vec3 corner, across, up, direction; /* of a pixel: its two sides */
    int side;
    sums parts[WIDE_GRID_PARTS];
    lw_vec3 from[RUN];
    lw_wide_light light[RUN];
    bool hit[RUN];
} painter;

static void add(sums *to, const lw_wide_light *light)
{
    to->hits++;
    to->brightness += (double)light->brightness;
    to->glare += (double)light->glare;
    to->window += (double)light->window;
    to->leak += (double)light->leak;
    to->extinction += (double)light->extinction;
    to->reflected += (double)light->reflected;
    to->sent += (double)light->sent;
    to->absorbed += (double)light->absorbed;
    to->given_up += (double)light->given_up;
}

static void paint_run(painter *p, int row, int first)
{
    int count = p->side - first < RUN ? p->side - first : RUN;
    lw_vec3 start = lw_vec3_add(p->corner, lw_vec3_scale(p->up, row + 0.5));
    for (int i = 0; i < count; i++)
        p->from[i] = lw_vec3_add(start, lw_vec3_scale(p->across, first + i + 0.5));
    lw_wide_look(p->lanes, &p->job, p->direction, count, p->from, p->light, p->hit);
    for (int i = 0; i < count; i++) {
        if (p->hit[i])
            add(&p->parts[4 * (row % 4) + (first + i) % 4], &p->light[i]);
    }
}

/* Lays the grid over the rectangle around the silhouette, in a plane before the stone. */
static void lay(painter *p, const lw_optic_solid *solid, const lw_screen *screen)
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
    p->corner = lw_vec3_scale(screen->eye, before);
    p->corner = lw_vec3_add(p->corner, lw_vec3_scale(screen->across, low[0]));
    p->corner = lw_vec3_add(p->corner, lw_vec3_scale(screen->up, low[1]));
    p->across = lw_vec3_scale(screen->across, (high[0] - low[0]) / p->side);
    p->up = lw_vec3_scale(screen->up, (high[1] - low[1]) / p->side);
    p->direction = lw_vec3_scale(screen->eye, -1.0);
}

/* Student's t with 15 degrees of freedom, 99 %: 2.947. */
static double interval(const sums parts[WIDE_GRID_PARTS])
{
    double mean = 0.0, squares = 0.0;
    for (int i = 0; i < WIDE_GRID_PARTS; i++)
        mean += parts[i].brightness / (double)parts[i].hits / WIDE_GRID_PARTS;
    for (int i = 0; i < WIDE_GRID_PARTS; i++) {
        double apart = parts[i].brightness / (double)parts[i].hits - mean;
        squares += apart * apart;
    }
    return 2.947 * sqrt(squares / (WIDE_GRID_PARTS * (WIDE_GRID_PARTS - 1)));
}

static wide_grid summary(const sums parts[WIDE_GRID_PARTS])
{
    sums all = {0};
    for (int i = 0; i < WIDE_GRID_PARTS; i++) {
        all.hits += parts[i].hits;
        all.brightness += parts[i].brightness;
        all.glare += parts[i].glare;
        all.window += parts[i].window;
        all.leak += parts[i].leak;
        all.extinction += parts[i].extinction;
        all.reflected += parts[i].reflected;
        all.sent += parts[i].sent;
        all.absorbed += parts[i].absorbed;
        all.given_up += parts[i].given_up;
    }
    double per = 1.0 / (double)all.hits;
    return (wide_grid){
        all.hits,           all.brightness * per, all.glare * per,     all.window * per,
        all.leak * per,     all.extinction * per, all.reflected * per, all.sent * per,
        all.absorbed * per, all.given_up * per,   interval(parts)};
}

wide_grid wide_grid_look(const lw_optic_solid *solid, const lw_light_options *options, int side)
{
    assert_true(side > 0 && side % 4 == 0);
    lw_memory memory = lw_memory_standard();
    lw_symmetry symmetry = lw_symmetry_of_solid(solid);
    lw_wide_solid wide;
    assert_int_equal(lw_wide_solid_make(&memory, solid, &symmetry, &wide), LW_OK);
    painter *p = calloc(1, sizeof *p);
    assert_non_null(p);
    lw_surroundings surroundings = lw_light_surroundings(options);
    lw_screen screen = lw_screen_for(surroundings.eye, options->turn_deg);
    p->job = (lw_wide_job){.solid = &wide,
                           .index = options->index.yellow,
                           .absorption = options->absorption,
                           .unpolarised = options->unpolarised,
                           .surroundings = &surroundings,
                           .least_energy = 1e-6,
                           .most_surfaces = options->most_surfaces};
    p->lanes = lw_lanes_best();
    p->side = side;
    lay(p, solid, &screen);
    for (int row = 0; row < side; row++) {
        for (int first = 0; first < side; first += RUN)
            paint_run(p, row, first);
    }
    wide_grid made = summary(p->parts);
    free(p);
    lw_wide_solid_destroy(&memory, &wide);
    return made;
}
