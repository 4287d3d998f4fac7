/* How long wide rays take, native and as WebAssembly: one program for both, so that
 * compare.mjs can let them take turns.
 *
 * lw_rays LANES: one line of "exit NS look NS sum N": nanoseconds a ray for the nearest exit and
 * for a whole path in quartz (medians of seven turns after a warming up), and the sum of the facets
 * that the rays leave by. */
#include "../exit_rays.h"

#include "geom/stones.h"
#include "light/surroundings.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { TURNS = 7, EYE_RAYS = 8192 };

typedef struct work {
    lw_lanes lanes;
    exit_stone stone;
    exit_rays rays;
    int facet[EXIT_RAYS];
    float length[EXIT_RAYS];
    lw_vec3 from[EYE_RAYS];
    lw_wide_light light[EYE_RAYS];
} work;

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void leave(work *w)
{
    lw_wide_rays rays = {EXIT_RAYS,       w->rays.part[0], w->rays.part[1], w->rays.part[2],
                         w->rays.part[3], w->rays.part[4], w->rays.part[5]};
    lw_wide_exit(w->lanes, &w->stone.wide, &rays, w->facet, w->length);
}

static void look(work *w)
{
    lw_surroundings place = lw_surroundings_even_sky((lw_vec3){0.0, 0.0, 1.0}, 10.0);
    lw_wide_job job = {.solid = &w->stone.wide,
                       .index = 1.5442,
                       .surroundings = &place,
                       .least_energy = 1e-6,
                       .most_surfaces = 1000};
    lw_wide_look(w->lanes, &job, (lw_vec3){0.0, 0.0, -1.0}, EYE_RAYS, w->from, w->light, NULL);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Median nanoseconds a ray; the first half second makes it warm (a browser compiles twice). */
static double timed(void (*run)(work *), work *w, int rays, double turn)
{
    double all[TURNS];
    for (double begin = seconds(); seconds() - begin < 10.0 * turn;)
        run(w);
    for (int i = 0; i < TURNS; i++) {
        double begin = seconds(), spent;
        int times = 0;
        do {
            run(w);
            times++;
            spent = seconds() - begin;
        } while (spent < turn);
        all[i] = 1e9 * spent / times / rays;
    }
    qsort(all, TURNS, sizeof *all, ascending);
    return all[TURNS / 2];
}

int main(int argc, char **argv)
{
    static work w;
    w.lanes = LW_LANES_COUNT;
    for (lw_lanes lanes = 0; lanes < LW_LANES_COUNT && argc == 2; lanes++) {
        if (strcmp(lw_lanes_text(lanes), argv[1]) == 0 && lw_lanes_usable(lanes))
            w.lanes = lanes;
    }
    if (w.lanes == LW_LANES_COUNT) {
        printf("no such lanes here\n");
        return 1;
    }
    static lw_plane planes[STONE_BRILLIANT_FACETS];
    stone_brilliant(planes);
    exit_stone_make(planes, STONE_BRILLIANT_FACETS, &w.stone);
    exit_rays_make(&w.stone, &w.rays);
    stone_random random = {5};
    for (int i = 0; i < EYE_RAYS; i++) {
        double x = random_share(&random), y = random_share(&random);
        w.from[i] = (lw_vec3){1.4 * x - 0.7, 1.4 * y - 0.7, 3.0};
    }
    double exit_ns = timed(leave, &w, EXIT_RAYS, 0.02);
    double look_ns = timed(look, &w, EYE_RAYS, 0.02);
    long sum = 0;
    for (int i = 0; i < EXIT_RAYS; i++)
        sum += (long)w.facet[i] * (i % 97 + 1);
    printf("exit %.4f look %.4f sum %ld\n", exit_ns, look_ns, sum);
    return 0;
}
