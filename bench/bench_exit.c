/* The nearest exit of bounce rays against Embree 3, in turns in one thread of one process.
 *
 * 16,384 rays that have been returned up to 20 times in a stone of diamond, in no order; ours in
 * arrays, Embree's in its own records, filled beforehand, one, eight or sixteen at a time,
 * whichever it does best (all three are timed first). Embree has the stone as triangles, built with
 * RTC_BUILD_QUALITY_HIGH, and is told that rays are incoherent. Hits are compared before anything
 * is timed: the same facet, or both facets' planes within rounding of the point.
 *
 * bench_exit [--quick] [--json FILE]
 *
 * Ends with 1 when hits differ or, without --quick, when a set of instructions misses what it is
 * held to on the round brilliant.
 */
#include "exit_peak.h"
#include "exit_peer.h"
#include "geom/stones.h"
#include "measure.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* How far apart hits may be, as a share of the stone's half extent: single precision, in both. */
#define SAME_HIT 1e-5

static const double least_ratio[LW_LANES_COUNT] = {
    [LW_LANES_SSE2] = 2.0, [LW_LANES_AVX2] = 5.0, [LW_LANES_AVX512] = 15.0};

typedef struct contest {
    exit_stone stone;
    exit_rays rays;
    exit_peer *peer;
    int peer_wide, count;
    lw_lanes lanes;
    int facet[EXIT_RAYS];
    float length[EXIT_RAYS];
} contest;

static void ours(void *context, int repeats)
{
    contest *c = context;
    const exit_rays *r = &c->rays;
    lw_wide_rays rays = {c->count,   r->part[0], r->part[1], r->part[2],
                         r->part[3], r->part[4], r->part[5]};
    for (int i = 0; i < repeats; i++)
        lw_wide_exit(c->lanes, &c->stone.wide, &rays, c->facet, c->length);
}

static void theirs(void *context, int repeats)
{
    contest *c = context;
    for (int i = 0; i < repeats; i++)
        exit_peer_run(c->peer, c->peer_wide, c->count);
}

/* ---- the same hits ------------------------------------------------------- */

static double off_plane(const contest *c, int facet, int i, float length)
{
    const lw_optic_solid *solid = &c->stone.optic;
    double at[3];
    for (int k = 0; k < 3; k++)
        at[k] = (double)c->rays.part[k][i] + (double)length * (double)c->rays.part[k + 3][i];
    lw_vec3 point = lw_vec3_add((lw_vec3){at[0], at[1], at[2]}, c->stone.wide.middle);
    double height = lw_vec3_dot(lw_optic_solid_normal(solid, facet), point);
    return fabs(height - solid->distance[facet]) / solid->half_extent;
}

/* Gives how many rays lie on an edge, where each takes another facet; -1 when one does not. */
static int compare_hits(contest *c)
{
    ours(c, 1);
    exit_peer_run(c->peer, c->peer_wide, c->count);
    int edges = 0;
    for (int i = 0; i < c->count; i++) {
        float length;
        int facet = exit_peer_facet(c->peer, c->peer_wide, i, &length);
        if (facet == c->facet[i] && off_plane(c, facet, i, c->length[i]) < SAME_HIT)
            continue;
        if (facet < 0 || off_plane(c, facet, i, c->length[i]) > SAME_HIT ||
            off_plane(c, c->facet[i], i, length) > SAME_HIT) {
            printf("ray %d: facet %d at %g, Embree %d at %g\n", i, c->facet[i],
                   (double)c->length[i], facet, (double)length);
            return -1;
        }
        edges++;
    }
    return edges;
}

/* ---- the contest --------------------------------------------------------- */

static int best_width(contest *c, bool quick)
{
    static const int widths[] = {1, 8, 16};
    double best = HUGE_VAL;
    int wide = 1;
    for (int i = 0; i < 3; i++) {
        c->peer_wide = widths[i];
        bench_result r = bench_compare(theirs, theirs, c, 5, quick ? 0.005 : 0.02);
        printf("Embree, %2d at a time: %.1f ns a ray\n", widths[i], 1e3 * r.ours_us / c->count);
        if (r.ours_us < best) {
            best = r.ours_us;
            wide = widths[i];
        }
    }
    return wide;
}

/* Gives whether hits agree; *held falls when the ratio is below least (0: any will do). */
static bool contend(contest *c, const char *name, double least, bool quick, FILE *json, bool *held)
{
    int edges = compare_hits(c);
    if (edges < 0)
        return false;
    bench_result r = bench_compare(ours, theirs, c, quick ? 5 : 31, quick ? 0.005 : 0.02);
    int facets = c->stone.optic.facet_count;
    printf("%-16s %4d facets %-7s %6.2f ns a ray, Embree/%d %6.1f, ratio %5.2f (quartiles %.2f .. "
           "%.2f, extremes %.2f .. %.2f), %d on edges\n",
           name, facets, lw_lanes_text(c->lanes), 1e3 * r.ours_us / c->count, c->peer_wide,
           1e3 * r.theirs_us / c->count, r.ratio, r.ratio_low, r.ratio_high, r.ratio_least,
           r.ratio_most, edges);
    if (json != NULL)
        fprintf(json,
                "    {\"case\": \"%s\", \"facets\": %d, \"instructions\": \"%s\", \"ours_ns\": "
                "%.4g, \"embree_ns\": %.4g, \"embree_wide\": %d, \"ratio\": %.4g, "
                "\"ratio_quartiles\": [%.4g, %.4g], \"ratio_extremes\": [%.4g, %.4g], \"rounds\": "
                "%d, \"rays_on_edges\": %d},\n",
                name, facets, lw_lanes_text(c->lanes), 1e3 * r.ours_us / c->count,
                1e3 * r.theirs_us / c->count, c->peer_wide, r.ratio, r.ratio_low, r.ratio_high,
                r.ratio_least, r.ratio_most, r.rounds, edges);
    *held &= r.ratio >= least;
    return true;
}

static bool run_case(const char *name, const lw_plane *planes, int rays, bool is_held, bool quick,
                     FILE *json, bool *held)
{
    static contest c;
    c.count = rays;
    exit_stone_make(planes, STONE_BRILLIANT_FACETS, &c.stone);
    exit_rays_make(&c.stone, &c.rays);
    c.peer = exit_peer_new(&c.stone, &c.rays);
    if (c.peer == NULL)
        return false;
    c.peer_wide = best_width(&c, quick);
    bool agrees = true;
    for (c.lanes = LW_LANES_SSE2; c.lanes <= LW_LANES_AVX512 && agrees; c.lanes++) {
        if (lw_lanes_usable(c.lanes))
            agrees = contend(&c, name, is_held ? least_ratio[c.lanes] : 0.0, quick, json, held);
    }
    exit_peer_free(c.peer);
    exit_stone_destroy(&c.stone);
    return agrees;
}

/* ---- ours alone ---------------------------------------------------------- */

static double ns_a_ray(contest *c, bool quick)
{
    bench_result r = bench_compare(ours, ours, c, 5, quick ? 0.002 : 0.01);
    return 1e3 * r.ours_us / c->count;
}

/* Rays a second against facets; and, for a stone that does not fold, what share of the peak its
 * inner loop of 8 multiply-adds a facet and ray comes to. */
static void growth(const char *name, bool folds, bool quick, FILE *json)
{
    static const int counts[] = {16, 34, 66, 130, 258, 514, 1026, 2000};
    static contest c;
    static lw_plane planes[EXIT_MOST_FACETS];
    c.count = EXIT_RAYS;
    stone_random random = {3};
    for (size_t i = folds ? 1 : 0; i < sizeof counts / sizeof counts[0]; i++) {
        int count = counts[i];
        if (folds)
            count = exit_tiers(count, planes);
        else
            stone_rough_ball(&random, count, 0.0, planes);
        exit_stone_make(planes, count, &c.stone);
        exit_rays_make(&c.stone, &c.rays);
        for (c.lanes = LW_LANES_SSE2; c.lanes <= LW_LANES_AVX512; c.lanes++) {
            if (!lw_lanes_usable(c.lanes))
                continue;
            double ns = ns_a_ray(&c, quick);
            double share = folds ? 0.0 : 8.0 * count / (ns * 1e-9) / exit_peak(c.lanes);
            printf("%-16s %4d facets %-7s %7.2f million rays a second", name, count,
                   lw_lanes_text(c.lanes), 1e3 / ns);
            if (!folds)
                printf(", %2.0f %% of the peak multiply-add rate", 100.0 * share);
            printf("\n");
            if (json != NULL)
                fprintf(json,
                        "    {\"case\": \"%s\", \"facets\": %d, \"instructions\": \"%s\", "
                        "\"rays_a_second\": %.4g, \"share_of_peak\": %.3g},\n",
                        name, count, lw_lanes_text(c.lanes), 1e9 / ns, share);
        }
        exit_stone_destroy(&c.stone);
    }
}

static void tell_peaks(void)
{
    for (lw_lanes lanes = LW_LANES_SSE2; lanes <= LW_LANES_AVX512; lanes++) {
        if (lw_lanes_usable(lanes))
            printf("peak %-7s %6.1f thousand million multiply-adds a second\n",
                   lw_lanes_text(lanes), 1e-9 * exit_peak(lanes));
    }
}

int main(int argc, char **argv)
{
    bench_options asked = bench_options_read(argc, argv);
    bool quick = asked.quick;
    FILE *json = asked.json;
    printf("%s\n", bench_processor());
    if (json != NULL)
        fprintf(json, "{\n  \"processor\": \"%s\",\n  \"cases\": [\n", bench_processor());
    static lw_plane planes[STONE_BRILLIANT_FACETS];
    bool held = true;
    stone_brilliant(planes);
    bool agrees = run_case("round brilliant", planes, EXIT_RAYS, true, quick, json, &held) &&
                  run_case("round, by heart", planes, EXIT_FEW, false, quick, json, &held);
    stone_random random = {1};
    stone_jitter(&random, STONE_BRILLIANT_FACETS, 1e-3, planes);
    agrees = agrees && run_case("brilliant off", planes, EXIT_RAYS, false, quick, json, &held);
    tell_peaks();
    growth("ball", false, quick, json);
    growth("tiers", true, quick, json);
    if (json != NULL) {
        fprintf(json, "    {}\n  ]\n}\n");
        fclose(json);
    }
    printf("%s\n", !agrees ? "hits DIFFER" : held ? "holds" : "MISSES what it is held to");
    return agrees && (held || quick) ? 0 : 1;
}
