/* Our solids against Qhull's, on random stones; and exact stones shaken by less and less.
 *
 * peer_qhull [COUNT | --long]: 100,000 stones by default, 1,000,000 with --long, on two processes.
 *
 * Random stones (8 to 400 facets, a ball's, a rough ball's, or tiers of random angle and depth on a
 * random wheel) must agree: every vertex of one within 1e-9 of one of the other, both ways; facets
 * with an area above 1e-9 the same (the areas of each facet within that); volume within 1e-10 of
 * itself.
 *
 * Shaken stones have meets of many facets, moved by 1e-6 .. 1e-16. How such a meet comes apart is
 * below what either program undertakes to tell, so vertices are not compared: ours must be sound
 * (lw_polyhedron_fault, which holds Euler's formula), and its volume that of the exact stone within
 * what the shift of all faces can do, and Qhull's, where Qhull has one.
 */
#define _POSIX_C_SOURCE 200809L

#include "geom/mass.h"
#include "geom/peer_stone.h"
#include "geom/stones.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static const double same_vertex = 1e-9, real_area = 1e-9, same_volume = 1e-10;

typedef struct tally {
    long stones, vertices, shaken, peer_gave_up;
    double worst_vertex, worst_volume, worst_shaken;
} tally;

typedef struct bench {
    lw_solid *solid;
    tally sum;
    peer_stone peer;
    lw_plane planes[PEER_MOST_PLANES];
    int count;
} bench;

static int by_x(const void *a, const void *b)
{
    double x = ((const lw_vec3 *)a)->x, y = ((const lw_vec3 *)b)->x;
    return (x > y) - (x < y);
}

/* The greatest distance of a point of a from the set b; both sorted by x. */
static double farthest(const lw_vec3 *a, int a_count, const lw_vec3 *b, int b_count)
{
    double worst = 0.0;
    int low = 0;
    for (int i = 0; i < a_count; i++) {
        double best = HUGE_VAL;
        while (low < b_count && b[low].x < a[i].x - 1e-6) {
            low++;
        }
        for (int j = low; j < b_count && b[j].x <= a[i].x + 1e-6; j++) {
            best = fmin(best, lw_vec3_length(lw_vec3_sub(a[i], b[j])));
        }
        worst = fmax(worst, best);
    }
    return worst;
}

static double set_distance(const lw_polyhedron *ours, peer_stone *peer)
{
    static lw_vec3 sorted[PEER_MOST_VERTICES];
    memcpy(sorted, ours->vertices, (size_t)ours->vertex_count * sizeof *sorted);
    qsort(sorted, (size_t)ours->vertex_count, sizeof *sorted, by_x);
    qsort(peer->vertices, (size_t)peer->vertex_count, sizeof *sorted, by_x);
    return fmax(farthest(sorted, ours->vertex_count, peer->vertices, peer->vertex_count),
                farthest(peer->vertices, peer->vertex_count, sorted, ours->vertex_count));
}

/* Tiers on the crown and pavilion, angles and depths at random; a girdle and a table. */
static int random_tiers(stone_random *random, int most, lw_plane *planes)
{
    int wheel = 3 + random_below(random, most / 8 < 30 ? most / 8 + 1 : 30), count = 0;
    double offset = random_share(random);
    for (int i = 0; i < wheel; i++) {
        planes[count++] = stone_facet(i + offset, wheel, 90.0, 1.0, 1.0, 0.0);
    }
    planes[count++] = (lw_plane){{0.0, 0.0, 1.0}, 0.2 + 0.3 * random_share(random)};
    planes[count++] = (lw_plane){{0.0, 0.0, -1.0}, 0.5 + 0.5 * random_share(random)};
    while (count + wheel <= most) {
        double side = random_share(random) < 0.5 ? 1.0 : -1.0, angle = 80.0 * random_share(random);
        double turn = random_share(random), depth = 0.9 + 0.2 * random_share(random);
        for (int i = 0; i < wheel; i++) {
            planes[count] = stone_facet(i + turn, wheel, angle, side, depth, 0.1 * side);
            count++;
        }
    }
    return count;
}

/* Counts lean to the small, where a facet more or less makes more of a difference. */
static void random_stone(stone_random *random, bench *b)
{
    double share = random_share(random);
    int most = 8 + (int)(393.0 * share * share);
    switch (random_below(random, 3)) {
    case 0:
        b->count = most;
        stone_rough_ball(random, most, 0.0, b->planes);
        break;
    case 1:
        b->count = most;
        stone_rough_ball(random, most, 0.3 * random_share(random), b->planes);
        break;
    default:
        b->count = random_tiers(random, most < 16 ? 16 : most, b->planes);
        break;
    }
    stone_shuffle(random, b->count, b->planes);
}

static bool fail(const char *what, uint64_t seed, double size)
{
    printf("stone %llu: %s (%.3g)\n", (unsigned long long)seed, what, size);
    return false;
}

static bool agree(bench *b, uint64_t seed)
{
    lw_polyhedron ours;
    if (lw_solid_build(b->solid, 2.0, b->planes, b->count) != LW_OK) {
        return fail("not built", seed, 0.0);
    }
    lw_solid_extract(b->solid, &ours);
    const char *fault = lw_polyhedron_fault(&ours);
    if (fault != NULL || !lw_solid_is_closed(b->solid)) {
        return fail(fault == NULL ? "not closed" : fault, seed, 0.0);
    }
    if (!peer_stone_make(b->planes, b->count, &b->peer)) {
        b->sum.peer_gave_up++;
        return true;
    }
    for (int i = 0; i < b->count; i++) {
        double area = lw_polyhedron_face_area(&ours, i);
        if (fabs(area - b->peer.area[i]) > real_area) {
            return fail("a facet of one that the other lacks", seed, area - b->peer.area[i]);
        }
    }
    lw_mass mass;
    lw_polyhedron_mass(&ours, &mass);
    double off = fabs(mass.volume / b->peer.volume - 1.0);
    double distance = set_distance(&ours, &b->peer);
    b->sum.worst_volume = fmax(b->sum.worst_volume, off);
    b->sum.worst_vertex = fmax(b->sum.worst_vertex, distance);
    b->sum.vertices += ours.vertex_count;
    b->sum.stones++;
    if (!(off <= same_volume)) {
        return fail("volumes differ", seed, off);
    }
    return distance <= same_vertex ? true : fail("vertices differ", seed, distance);
}

/* A stone whose meets are exact, of n-fold symmetry where it has any. */
static void exact_stone(stone_random *random, bench *b)
{
    int n = 3 + random_below(random, 98), count = 0, kind = random_below(random, 4);
    lw_plane *planes = b->planes;
    if (kind == 0) {
        stone_brilliant(planes);
        count = STONE_BRILLIANT_FACETS;
    }
    for (int i = 0; kind == 1 && i < 2 * n; i++) { /* bipyramid */
        planes[count++] = stone_facet(i / 2, n, 40.0, i % 2 == 0 ? 1.0 : -1.0, 1.0, 0.0);
    }
    for (int i = 0; kind == 2 && i < n; i++) { /* prism with a point: each side two facets */
        planes[count++] = stone_facet(i, n, 90.0, 1.0, 1.0, 0.0);
        planes[count++] = stone_facet(i, n, 50.0, 1.0, 1.0, 0.3);
    }
    for (int i = 0; kind == 3 && i < 26; i++) { /* cube, octahedron and dodecahedron at once */
        int code = i < 13 ? i : i + 1;
        lw_vec3 v = {code % 3 - 1, code / 3 % 3 - 1, code / 9 - 1};
        double length = lw_vec3_length(v);
        planes[count++] = (lw_plane){lw_vec3_scale(v, 1.0 / length),
                                     1.5 / length - 0.5 / (length * length * length)};
    }
    if (kind == 2) {
        planes[count++] = (lw_plane){{0.0, 0.0, -1.0}, 0.5};
    }
    b->count = count;
}

static double volume_of(bench *b, const char **fault, double *area)
{
    lw_polyhedron ours;
    lw_mass mass;
    *fault = "not built";
    if (lw_solid_build(b->solid, 3.0, b->planes, b->count) != LW_OK) {
        return 0.0;
    }
    lw_solid_extract(b->solid, &ours);
    *fault = lw_polyhedron_fault(&ours);
    if (*fault == NULL && !lw_solid_is_closed(b->solid)) {
        *fault = "not closed";
    }
    lw_polyhedron_mass(&ours, &mass);
    *area = mass.area;
    return mass.volume;
}

static bool shaken(bench *b, stone_random *random, uint64_t seed)
{
    const char *fault = NULL;
    double area = 0.0;
    exact_stone(random, b);
    double exact = volume_of(b, &fault, &area);
    double amount = pow(10.0, -6.0 - 10.0 * random_share(random));
    stone_jitter(random, b->count, amount, b->planes);
    stone_shuffle(random, b->count, b->planes);
    double volume = volume_of(b, &fault, &area);
    if (fault != NULL) {
        return fail(fault, seed, amount);
    }
    /* A face moves by amount, and by as much again for each unit from its middle: 2.5 is ample. */
    if (!(fabs(volume - exact) <= 2.5 * area * amount + same_volume * exact)) {
        return fail("a shaken stone's volume", seed, volume - exact);
    }
    b->sum.shaken++;
    if (!peer_stone_make(b->planes, b->count, &b->peer)) {
        b->sum.peer_gave_up++;
        return true;
    }
    double off = fabs(volume / b->peer.volume - 1.0);
    b->sum.worst_shaken = fmax(b->sum.worst_shaken, off);
    return off <= same_volume + 2.5 * amount ? true : fail("Qhull's volume", seed, off);
}

/* Stones first, first + 2, …; one in ten besides is an exact one, shaken. */
static bool run(long first, long count)
{
    static bench b;
    lw_memory memory = lw_memory_standard();
    bool good = lw_solid_new(&memory, PEER_MOST_PLANES, &b.solid) == LW_OK;
    int failures = 0;
    for (long i = first; good && i < count && failures < 10; i += 2) {
        stone_random random = {(uint64_t)i * 0x9E3779B97F4A7C15u + 1};
        random_stone(&random, &b);
        failures += !agree(&b, (uint64_t)i);
        if (i / 2 % 10 == 0) {
            failures += !shaken(&b, &random, (uint64_t)i);
        }
    }
    lw_solid_destroy(b.solid);
    printf("%ld stones with %ld vertices: farthest vertex %.2g, volume off by %.2g at most; "
           "%ld shaken stones, volume off by %.2g at most; Qhull gave up on %ld\n",
           b.sum.stones, b.sum.vertices, b.sum.worst_vertex, b.sum.worst_volume, b.sum.shaken,
           b.sum.worst_shaken, b.sum.peer_gave_up);
    return good && failures == 0 && b.sum.stones > 0 && b.sum.shaken > 0 &&
           b.sum.peer_gave_up * 100 <= b.sum.stones;
}

int main(int argc, char **argv)
{
    long count = 100000;
    if (argc > 1) {
        count = strcmp(argv[1], "--long") == 0 ? 1000000 : atol(argv[1]);
    }
    fflush(stdout);
    pid_t child = fork();
    if (child < 0) {
        return 1;
    }
    bool good = run(child == 0 ? 1 : 0, count);
    fflush(stdout);
    if (child == 0) {
        _exit(good ? 0 : 1);
    }
    int status = 1;
    return waitpid(child, &status, 0) == child && status == 0 && good ? 0 : 1;
}
