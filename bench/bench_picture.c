/* A whole picture without dispersion against POV-Ray, which has the stone as a mesh (its faster
 * form), in turns, one thread each.
 *
 * The same stone, eye, sky, pixels, depth (256 levels) and cut-off, with s and p averaged on both
 * sides; one ray a pixel. tests/povray/scene.h says how POV-Ray is told. Its time is what it states
 * for its pixels alone ("Trace Time", in processor time): neither start, nor parsing, nor building
 * its tree, which come to 1 to 4 hundredths and are shown as the rest of all its processor
 * time. Ours is the thread's processor time for the same: the wide solid made from the stone, rays,
 * tracing and the finished values; solving the cut is in neither. Before anything is timed the
 * means must agree, and all but a few pixels.
 *
 * bench_picture [--quick] [--json FILE]
 *
 * Ends with 1 when pictures differ or, without --quick, when a set of instructions misses what it
 * is held to.
 */
#define _POSIX_C_SOURCE 200809L

#include "builtin.h"
#include "cut/read.h"
#include "cut/solve.h"
#include "light/measures.h"
#include "light/wide/trace.h"
#include "measure.h"
#include "povray/render.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

/* Both drop a path below this share of its ray: 1e-6 of a mean at most. */
#define CUT_OFF 1e-6
/* Means agree within this share, … */
#define MEANS_AGREE 1e-4
/* … and but for so many of a thousand pixels, whose rays graze an edge, so do pixels within this.
 */
#define PIXELS_AGREE 1e-3
#define PIXELS_OFF 0.02

enum { MOST_PIXELS = 512, AT_ONCE = 8192, MOST_ROUNDS = 9 };

static const double least_ratio[LW_LANES_COUNT] = {
    [LW_LANES_AVX2] = 30.0, [LW_LANES_AVX512] = 80.0};

typedef struct contest {
    lw_memory memory;
    lw_cut cut;
    lw_stone stone;
    lw_optic_solid solid;
    lw_light_options options;
    lw_surroundings around;
    povray_scene scene;
    double *mine, *theirs; /* [pixels x pixels] */
    bool *hit;
    double mean_mine, mean_theirs, off; /* over the stone; off: share of pixels */
} contest;

static void must(bool done, const char *what)
{
    if (!done) {
        fprintf(stderr, "bench_picture: %s\n", what);
        exit(1);
    }
}

/* ---- ours ---------------------------------------------------------------- */

/* Brightness + glare at every pixel, by AT_ONCE rays at a time. */
static void trace(contest *c, lw_lanes lanes, bool unpolarised)
{
    static lw_vec3 from[AT_ONCE], rows[MOST_PIXELS], columns[MOST_PIXELS];
    static lw_wide_light light[AT_ONCE];
    lw_symmetry symmetry = lw_symmetry_of_solid(&c->solid);
    lw_wide_solid wide;
    must(lw_wide_solid_make(&c->memory, &c->solid, &symmetry, &wide) == LW_OK, "no memory");
    lw_wide_job job = {.solid = &wide,
                       .index = c->scene.index,
                       .unpolarised = unpolarised,
                       .surroundings = &c->around,
                       .least_energy = CUT_OFF,
                       .most_surfaces = povray_surfaces(POVRAY_LEVELS)};
    lw_vec3 down = lw_vec3_scale(c->around.eye, -1.0);
    int n = c->scene.view.pixels;
    for (int i = 0; i < n; i++) {
        rows[i] = povray_ray(&c->scene.view, 0.5, i + 0.5);
        columns[i] = lw_vec3_sub(povray_ray(&c->scene.view, i + 0.5, 0.5), rows[0]);
    }
    for (int start = 0; start < n * n; start += AT_ONCE) {
        int count = n * n - start < AT_ONCE ? n * n - start : AT_ONCE;
        for (int i = 0; i < count; i++)
            from[i] = lw_vec3_add(rows[(start + i) / n], columns[(start + i) % n]);
        lw_wide_look(lanes, &job, down, count, from, light, c->hit + start);
        for (int i = 0; i < count; i++)
            c->mine[start + i] = (double)light[i].brightness + (double)light[i].glare;
    }
    lw_wide_solid_destroy(&c->memory, &wide);
}

static double own_time(void)
{
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* Seconds for one picture: the mean of as many as fill a fifth of a second. */
static double time_ours(contest *c, lw_lanes lanes, bool unpolarised)
{
    double start = own_time(), spent = 0.0;
    int count = 0;
    do {
        trace(c, lanes, unpolarised);
        count++;
        spent = own_time() - start;
    } while (spent < 0.2);
    return spent / count;
}

/* ---- the same picture ---------------------------------------------------- */

static bool agrees(contest *c)
{
    long face = 0, off = 0;
    c->mean_mine = c->mean_theirs = 0.0;
    for (int i = 0; i < c->scene.view.pixels * c->scene.view.pixels; i++) {
        if (!c->hit[i])
            continue;
        face++;
        off += fabs(c->mine[i] - c->theirs[i]) > PIXELS_AGREE;
        c->mean_mine += c->mine[i];
        c->mean_theirs += c->theirs[i];
    }
    c->mean_mine /= (double)face;
    c->mean_theirs /= (double)face;
    c->off = (double)off / (double)face;
    return fabs(c->mean_mine / c->mean_theirs - 1.0) < MEANS_AGREE && c->off < PIXELS_OFF;
}

/* ---- the contest --------------------------------------------------------- */

static void pose(contest *c, const char *cut, double index, double tilt_deg, int pixels)
{
    const lw_builtin *text = lw_builtin_find(cut);
    *c = (contest){.memory = lw_memory_standard(), .options = lw_light_defaults(index)};
    must(text != NULL &&
             lw_cut_read(&c->memory, text->text, text->length, &c->cut, NULL) == LW_OK &&
             lw_cut_solve(&c->memory, &c->cut, NULL, &c->stone, NULL) == LW_OK &&
             lw_optic_solid_make(&c->memory, &c->stone.solid, &c->solid) == LW_OK,
         "the cut does not solve");
    c->options.tilt_deg = tilt_deg;
    c->options.turn_deg = 10.0;
    c->around = lw_light_surroundings(&c->options);
    lw_screen screen = lw_screen_for(c->around.eye, c->options.turn_deg);
    size_t count = (size_t)pixels * (size_t)pixels;
    c->scene = (povray_scene){.solid = &c->solid,
                              .form = POVRAY_MESH,
                              .view = povray_view_of(&c->solid, screen, pixels),
                              .index = index,
                              .surroundings = &c->around,
                              .levels = POVRAY_LEVELS,
                              .bailout = CUT_OFF};
    c->mine = malloc(count * sizeof *c->mine);
    c->theirs = malloc(count * sizeof *c->theirs);
    c->hit = malloc(count * sizeof *c->hit);
    must(c->mine != NULL && c->theirs != NULL && c->hit != NULL, "no memory");
}

static void put_away(contest *c)
{
    free(c->mine);
    free(c->theirs);
    free(c->hit);
    lw_optic_solid_destroy(&c->solid);
    lw_stone_destroy(&c->stone);
    lw_cut_destroy(&c->cut);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Seconds, by round. */
typedef struct times {
    double theirs[MOST_ROUNDS], rest[MOST_ROUNDS]; /* rest: what else POV-Ray did */
    double ours[LW_LANES_COUNT][MOST_ROUNDS];
    double polarised[LW_LANES_COUNT][MOST_ROUNDS];
} times;

static double median(const double *values, int count)
{
    double sorted[MOST_ROUNDS];
    memcpy(sorted, values, (size_t)count * sizeof *values);
    qsort(sorted, (size_t)count, sizeof *sorted, ascending);
    return sorted[count / 2];
}

static void run_round(contest *c, times *t, int round)
{
    povray_time spent;
    must(povray_render(&c->scene, c->theirs, &spent), "POV-Ray does not render");
    t->theirs[round] = spent.cpu_s;
    t->rest[round] = spent.all_cpu_s - spent.cpu_s;
    for (lw_lanes lanes = LW_LANES_SCALAR; lanes < LW_LANES_COUNT; lanes++) {
        if (!lw_lanes_usable(lanes))
            continue;
        t->polarised[lanes][round] = time_ours(c, lanes, false);
        t->ours[lanes][round] = time_ours(c, lanes, true);
        if (round == 0)
            must(agrees(c), "the pictures differ");
    }
}

/* Whether the median of the ratios is what it must be. */
static bool tell(const contest *c, const char *name, lw_lanes lanes, const times *t, int rounds,
                 FILE *json)
{
    double ratio[MOST_ROUNDS];
    for (int i = 0; i < rounds; i++)
        ratio[i] = t->theirs[i] / t->ours[lanes][i];
    qsort(ratio, (size_t)rounds, sizeof *ratio, ascending);
    double middle = ratio[rounds / 2], ours = median(t->ours[lanes], rounds);
    double polarised = median(t->polarised[lanes], rounds);
    printf("  %-7s %8.1f ms (%8.1f polarised), ratio %6.1f (%.1f .. %.1f)\n", lw_lanes_text(lanes),
           1e3 * ours, 1e3 * polarised, middle, ratio[0], ratio[rounds - 1]);
    if (json != NULL)
        fprintf(
            json,
            "    {\"case\": \"%s\", \"pixels\": %d, \"instructions\": \"%s\", \"ours_s\": %.4g, "
            "\"ours_polarised_s\": %.4g, \"povray_s\": %.4g, \"povray_rest_s\": %.3g, "
            "\"ratio\": %.4g, \"ratio_extremes\": [%.4g, %.4g], \"rounds\": %d, \"mean\": "
            "%.6f, \"povray_mean\": %.6f, \"pixels_off\": %.5f},\n",
            name, c->scene.view.pixels, lw_lanes_text(lanes), ours, polarised,
            median(t->theirs, rounds), median(t->rest, rounds), middle, ratio[0], ratio[rounds - 1],
            rounds, c->mean_mine, c->mean_theirs, c->off);
    return middle >= least_ratio[lanes];
}

typedef struct picture_case {
    const char *name, *cut;
    double index, tilt_deg;
} picture_case;

static bool run_case(const picture_case *p, int pixels, int rounds, FILE *json)
{
    contest c;
    static times t;
    pose(&c, p->cut, p->index, p->tilt_deg, pixels);
    for (int i = 0; i < rounds; i++)
        run_round(&c, &t, i);
    printf("%s, %d facets, %d^2: POV-Ray %.2f s (and %.3f s of start and parsing), mean %.6f, "
           "ours %.6f, %.2f %% of pixels on edges\n",
           p->name, c.solid.facet_count, pixels, median(t.theirs, rounds), median(t.rest, rounds),
           c.mean_theirs, c.mean_mine, 100.0 * c.off);
    bool held = true;
    for (lw_lanes lanes = LW_LANES_SCALAR; lanes < LW_LANES_COUNT; lanes++) {
        if (lw_lanes_usable(lanes))
            held &= tell(&c, p->name, lanes, &t, rounds, json);
    }
    put_away(&c);
    return held;
}

static const picture_case cases[] = {
    {"quartz", "classic-quartz-round", 1.544, 0.0},
    {"quartz, tilted 13", "classic-quartz-round", 1.544, 13.0},
    {"corundum", "round-brilliant", 1.77, 0.0},
    {"diamond", "round-brilliant", 2.417, 0.0},
};
enum { CASES = sizeof cases / sizeof cases[0] };

int main(int argc, char **argv)
{
    bench_options asked = bench_options_read(argc, argv);
    bool quick = asked.quick;
    FILE *json = asked.json;
    printf("%s\n", bench_processor());
    if (json != NULL)
        fprintf(json, "{\n  \"processor\": \"%s\",\n  \"cases\": [\n", bench_processor());
    bool held = true;
    for (int i = 0; i < (quick ? 1 : CASES); i++)
        held &= run_case(&cases[i], quick ? MOST_PIXELS / 2 : MOST_PIXELS, quick ? 3 : 5, json);
    if (json != NULL) {
        fprintf(json, "    {}\n  ]\n}\n");
        fclose(json);
    }
    printf("%s\n", held ? "holds" : "MISSES what it is held to");
    return held || quick ? 0 : 1;
}
