/* The solid against Qhull's half-space intersection, in turns in one process.
 *
 * Both get the same planes in the same order and must give every vertex's coordinates. Ours gives
 * the whole structure besides (rings, neighbours, planes of each vertex). Qhull (qh_new_qhull with
 * "H", its own way in for half-spaces) keeps its memory pool between runs, as its guide advises,
 * and gets the origin as its inner point, so that it need not look for one.
 *
 * bench_solid [--quick] [--json FILE]
 *
 * Ends with 1 when a median is below what it is held to: LEAST_BRILLIANT times as fast on the 73
 * facets, LEAST_RANDOM on random stones, and time growing no faster than facets^MOST_EXPONENT.
 */
#include "geom/solid.h"
#include "geom/stones.h"
#include "measure.h"

#include <libqhull_r/qhull_ra.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 2000 };
#define LEAST_BRILLIANT 15.0
#define LEAST_RANDOM 5.0
#define MOST_EXPONENT 1.2

typedef struct contest {
    lw_solid *solid;
    qhT *qhull;
    int count;
    lw_plane planes[MOST];
    double rows[MOST][4]; /* Qhull's form: normal, offset <= 0 inside */
    double sum;           /* keeps the work from being optimised away */
    int vertices, peer_vertices;
} contest;

static void ours(void *context, int repeats)
{
    contest *c = context;
    for (int i = 0; i < repeats; i++) {
        lw_polyhedron out;
        lw_solid_build(c->solid, 2.0, c->planes, c->count);
        lw_solid_extract(c->solid, &out);
        c->sum += out.vertices[0].x;
        c->vertices = out.vertex_count;
    }
}

static void theirs(void *context, int repeats)
{
    contest *c = context;
    qhT *qh = c->qhull;
    char command[] = "qhull H0,0,0";
    for (int i = 0; i < repeats; i++) {
        int failed = qh_new_qhull(qh, 4, c->count, &c->rows[0][0], False, command, NULL, stderr);
        if (failed != 0) {
            fprintf(stderr, "Qhull failed\n");
            exit(1);
        }
        c->peer_vertices = 0;
        facetT *facet;
        FORALLfacets
        {
            for (int k = 0; k < 3; k++) {
                c->sum += -facet->normal[k] / facet->offset;
            }
            c->peer_vertices++;
        }
        qh_freeqhull(qh, !qh_ALL);
    }
}

static void take_planes(contest *c)
{
    for (int i = 0; i < c->count; i++) {
        c->rows[i][0] = c->planes[i].normal.x;
        c->rows[i][1] = c->planes[i].normal.y;
        c->rows[i][2] = c->planes[i].normal.z;
        c->rows[i][3] = -c->planes[i].distance;
    }
}

static bench_result run(contest *c, const char *name, FILE *json, bool last, bool quick)
{
    take_planes(c);
    bench_result r = bench_compare(ours, theirs, c, quick ? 5 : 31, quick ? 0.01 : 0.03);
    printf("%-16s %6d facets  %9.2f us  Qhull %10.2f us  ratio %6.2f (quartiles %.2f .. %.2f, "
           "extremes %.2f .. %.2f)\n",
           name, c->count, r.ours_us, r.theirs_us, r.ratio, r.ratio_low, r.ratio_high,
           r.ratio_least, r.ratio_most);
    if (json != NULL) {
        fprintf(json,
                "    {\"case\": \"%s\", \"facets\": %d, \"vertices\": %d, \"peer_vertices\": %d, "
                "\"ours_us\": %.4g, \"qhull_us\": %.4g, \"ratio\": %.4g, \"ratio_quartiles\": "
                "[%.4g, %.4g], \"ratio_extremes\": [%.4g, %.4g], \"rounds\": %d}%s\n",
                name, c->count, c->vertices, c->peer_vertices, r.ours_us, r.theirs_us, r.ratio,
                r.ratio_low, r.ratio_high, r.ratio_least, r.ratio_most, r.rounds, last ? "" : ",");
    }
    return r;
}

/* The slope of log time over log facets, by least squares. */
static double exponent(const double *counts, const double *times, int n)
{
    double sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0;
    for (int i = 0; i < n; i++) {
        double x = log(counts[i]), y = log(times[i]);
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    return (n * sxy - sx * sy) / (n * sxx - sx * sx);
}

/* Gives the growth's exponent; *held whether every ratio is what it must be. */
static double run_all(contest *c, FILE *json, bool quick, bool *held)
{
    static const int sizes[] = {64, 125, 250, 500, 1000, 2000};
    enum { SIZES = sizeof sizes / sizeof sizes[0] };
    double counts[SIZES], times[SIZES];
    c->count = STONE_BRILLIANT_FACETS;
    stone_brilliant(c->planes);
    *held = run(c, "round brilliant", json, false, quick).ratio >= LEAST_BRILLIANT;
    stone_random random = {1};
    stone_jitter(&random, c->count, 1e-4, c->planes);
    *held &= run(c, "brilliant off", json, false, quick).ratio >= LEAST_RANDOM;
    for (int i = 0; i < SIZES; i++) {
        c->count = sizes[i];
        stone_rough_ball(&random, c->count, 0.0, c->planes);
        bench_result r = run(c, "random stone", json, i + 1 == SIZES, quick);
        *held &= r.ratio >= LEAST_RANDOM;
        times[i] = r.ours_us;
        counts[i] = sizes[i];
    }
    return exponent(counts, times, SIZES);
}

int main(int argc, char **argv)
{
    bench_options asked = bench_options_read(argc, argv);
    bool quick = asked.quick;
    FILE *json = asked.json;
    static contest c;
    static qhT qhull;
    lw_memory memory = lw_memory_standard();
    if (lw_solid_new(&memory, MOST, &c.solid) != LW_OK) {
        fprintf(stderr, "cannot begin\n");
        return 1;
    }
    c.qhull = &qhull;
    qh_zero(&qhull, stderr);
    printf("%s; %s\n", bench_processor(), bench_instructions());
    if (json != NULL) {
        fprintf(json, "{\n  \"processor\": \"%s\",\n  \"instructions\": \"%s\",\n  \"cases\": [\n",
                bench_processor(), bench_instructions());
    }
    bool held = false;
    double power = run_all(&c, json, quick, &held);
    printf("growth of ours over random stones: facets^%.3f\n", power);
    held &= power <= MOST_EXPONENT;
    printf("%s\n", held ? "holds" : "MISSES what it is held to");
    if (json != NULL) {
        fprintf(json, "  ],\n  \"growth_exponent\": %.4f\n}\n", power);
        fclose(json);
    }
    lw_solid_destroy(c.solid);
    int left = 0, total = 0;
    qh_freeqhull(&qhull, qh_ALL);
    qh_memfreeshort(&qhull, &left, &total);
    return isfinite(c.sum) && held ? 0 : 1;
}
