/* Face-up and tilted brightness to 1e-4: exact beams against our own wide rays, on the same part of
 * the face.
 *
 * Both are given the work that brings their error, 99 cases in 100, to ERROR: beams by their bound,
 * by error_est and by how far they are off a run a hundred times finer; rays by their number, by
 * how far 16 shifted low-discrepancy grids are off that run (2.576 root mean squares). Where the
 * rays begin is worked out beforehand and not counted; what beams need to begin is. */
#include "measure.h"

#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "light/measures.h"
#include "light/wide/trace.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ERROR 1e-4
enum { SHIFTS = 16, LEAST_RAYS = 256, MOST_RAYS = 1 << 22 };

typedef struct contest {
    const char *name;
    double index, tilt_deg, turn_deg, least_ratio;
    lw_memory memory;
    const lw_polyhedron *stone;
    lw_light_options options;
    lw_optic_solid solid;
    lw_wide_solid wide;
    lw_surroundings surroundings;
    lw_wedge wedge;
    lw_screen screen;
    lw_light_measures fine, found;
    lw_vec3 *from;
    lw_wide_light *lights;
    bool *hits;
    int rays;
    double sum;
} contest;

static void must(bool good, const char *what)
{
    if (!good) {
        fprintf(stderr, "bench_beams: %s\n", what);
        exit(1);
    }
}

static void beams(void *context, int repeats)
{
    contest *c = context;
    for (int i = 0; i < repeats; i++) {
        must(lw_light_measure(&c->memory, c->stone, &c->options, &c->found) == LW_OK, "beams");
        c->sum += c->found.brightness;
    }
}

static double fraction(double x)
{
    return x - floor(x);
}

/* Fills c->from with rays on the part of the face: the sequence of fractions of multiples of the
 * plastic number's powers, over a square around the stone. */
static void lay_out(contest *c, int rays, int shift)
{
    double half = c->solid.half_extent;
    lw_vec3 start = lw_vec3_add(c->solid.middle, lw_vec3_scale(c->screen.eye, 3.0 * half));
    double a0 = fraction(0.5 + shift * 0.31830988618), b0 = fraction(0.5 + shift * 0.43429448190);
    int count = 0;
    for (long i = 0; count < rays; i++) {
        double a = 2.0 * fraction(a0 + (double)i * 0.75487766624669276) - 1.0;
        double b = 2.0 * fraction(b0 + (double)i * 0.56984029099805327) - 1.0;
        lw_vec3 at = lw_vec3_add(start, lw_vec3_scale(c->screen.across, a * half));
        at = lw_vec3_add(at, lw_vec3_scale(c->screen.up, b * half));
        bool inside = a * a + b * b < 1.0;
        for (int k = 0; k < c->wedge.side_count; k++)
            inside = inside && lw_vec3_dot(c->wedge.sides[k], at) >= 0.0;
        if (inside)
            c->from[count++] = at;
    }
    c->rays = rays;
}

static double brightness_by_rays(contest *c)
{
    lw_wide_job job = {.solid = &c->wide,
                       .index = c->index,
                       .surroundings = &c->surroundings,
                       .least_energy = 1e-5,
                       .most_surfaces = 1000};
    lw_vec3 way = lw_vec3_scale(c->screen.eye, -1.0);
    lw_wide_look(lw_lanes_best(), &job, way, c->rays, c->from, c->lights, c->hits);
    double sum = 0.0;
    long hits = 0;
    for (int i = 0; i < c->rays; i++) {
        sum += (double)c->lights[i].brightness;
        hits += c->hits[i];
    }
    return sum / (double)hits;
}

static void rays(void *context, int repeats)
{
    contest *c = context;
    for (int i = 0; i < repeats; i++)
        c->sum += brightness_by_rays(c);
}

static double error_of_rays(contest *c, int count)
{
    double squares = 0.0;
    for (int shift = 0; shift < SHIFTS; shift++) {
        lay_out(c, count, shift);
        double apart = brightness_by_rays(c) - c->fine.brightness;
        squares += apart * apart / SHIFTS;
    }
    return 2.576 * sqrt(squares);
}

/* The smallest number, to the root of 2, from which on the error stays small enough. */
static int rays_needed(contest *c, double *error)
{
    for (double count = LEAST_RAYS; count <= MOST_RAYS; count *= sqrt(2.0)) {
        *error = error_of_rays(c, (int)count);
        if (*error <= ERROR)
            return (int)count;
    }
    must(false, "no number of rays is enough");
    return 0;
}

static void find_bound(contest *c)
{
    for (c->options.bound = 1e-3; c->options.bound > 1e-12; c->options.bound *= sqrt(0.5)) {
        beams(c, 1);
        if (c->found.error_est <= ERROR && fabs(c->found.brightness - c->fine.brightness) <= ERROR)
            return;
    }
    must(false, "no bound is fine enough");
}

static void begin(contest *c, const lw_stone *stone)
{
    c->memory = lw_memory_standard();
    c->stone = &stone->solid;
    c->options = lw_light_defaults(c->index);
    c->options.tilt_deg = c->tilt_deg;
    c->options.turn_deg = c->turn_deg;
    c->surroundings = lw_light_surroundings(&c->options);
    must(lw_optic_solid_make(&c->memory, c->stone, &c->solid) == LW_OK, "solid");
    lw_symmetry own = lw_symmetry_of_solid(&c->solid);
    must(lw_wide_solid_make(&c->memory, &c->solid, &own, &c->wide) == LW_OK, "wide solid");
    lw_symmetry seen = lw_symmetry_seen(&own, &c->surroundings);
    c->wedge = lw_wedge_of(&seen);
    c->screen = lw_screen_for(c->surroundings.eye, c->turn_deg);
    c->from = malloc(MOST_RAYS * sizeof *c->from);
    c->lights = malloc(MOST_RAYS * sizeof *c->lights);
    c->hits = malloc(MOST_RAYS * sizeof *c->hits);
    must(c->from != NULL && c->lights != NULL && c->hits != NULL, "memory");
    c->options.bound = c->tilt_deg > 0.0 ? 1e-8 : 1e-9;
    beams(c, 1);
    c->fine = c->found;
}

static void end(contest *c)
{
    free(c->from);
    free(c->lights);
    free(c->hits);
    lw_wide_solid_destroy(&c->memory, &c->wide);
    lw_optic_solid_destroy(&c->solid);
}

static bool run(contest *c, const lw_stone *stone, FILE *json, bool quick)
{
    begin(c, stone);
    find_bound(c);
    double error = 0.0;
    int count = rays_needed(c, &error);
    lay_out(c, count, 0);
    bench_result r = bench_compare(beams, rays, c, quick ? 5 : 21, quick ? 0.02 : 0.1);
    printf(
        "%-9s tilt %2.0f, 1/%-2d of the face: %6ld beams + %5ld rays %8.1f us, off %.1e; %8d rays "
        "%9.1f us, off %.1e; %.0fx (%.0f..%.0f)\n",
        c->name, c->tilt_deg, c->wedge.copies, c->found.beams, c->found.rays, r.ours_us,
        fabs(c->found.brightness - c->fine.brightness), count, r.theirs_us, error, r.ratio,
        r.ratio_low, r.ratio_high);
    if (json != NULL)
        fprintf(json,
                "    {\"material\": \"%s\", \"tilt_deg\": %g, \"beams\": %ld, \"rays_finishing\": "
                "%ld, \"beams_us\": %.4g, \"rays\": %d, \"rays_us\": %.4g, \"ratio\": %.4g, "
                "\"ratio_quartiles\": [%.4g, %.4g], \"rounds\": %d},\n",
                c->name, c->tilt_deg, c->found.beams, c->found.rays, r.ours_us, count, r.theirs_us,
                r.ratio, r.ratio_low, r.ratio_high, r.rounds);
    end(c);
    return r.ratio >= c->least_ratio;
}

static void solve(const char *name, lw_cut *cut, lw_stone *stone)
{
    lw_memory memory = lw_memory_standard();
    const lw_builtin *builtin = lw_builtin_find(name);
    must(builtin != NULL &&
             lw_cut_read(&memory, builtin->text, builtin->length, cut, NULL) == LW_OK &&
             lw_cut_solve(&memory, cut, NULL, stone, NULL) == LW_OK,
         name);
}

int main(int argc, char **argv)
{
    bench_options asked = bench_options_read(argc, argv);
    bool quick = asked.quick;
    FILE *json = asked.json;
    printf("%s; rays on %s\n", bench_processor(), lw_lanes_text(lw_lanes_best()));
    if (json != NULL)
        fprintf(json, "{\n  \"processor\": \"%s\",\n  \"lanes\": \"%s\",\n  \"cases\": [\n",
                bench_processor(), lw_lanes_text(lw_lanes_best()));
    contest cases[] = {{.name = "quartz", .index = 1.544, .least_ratio = 50.0},
                       {.name = "corundum", .index = 1.77, .least_ratio = 50.0},
                       {.name = "diamond", .index = 2.417, .least_ratio = 50.0},
                       {.name = "quartz", .index = 1.544, .tilt_deg = 13.0, .least_ratio = 20.0},
                       {.name = "corundum", .index = 1.77, .tilt_deg = 13.0, .least_ratio = 20.0},
                       {.name = "diamond", .index = 2.417, .tilt_deg = 13.0, .least_ratio = 5.0}};
    lw_cut cut;
    lw_stone stone;
    solve("round-brilliant", &cut, &stone);
    bool held = true;
    size_t count = quick ? 2 : sizeof cases / sizeof cases[0]; /* finding how many rays is slow */
    for (size_t i = 0; i < count; i++)
        held &= run(&cases[i], &stone, json, quick);
    printf("%s\n", held ? "holds" : "MISSES what it is held to");
    if (json != NULL) {
        fprintf(json, "    {}\n  ]\n}\n");
        fclose(json);
    }
    lw_stone_destroy(&stone);
    lw_cut_destroy(&cut);
    return held ? 0 : 1;
}
