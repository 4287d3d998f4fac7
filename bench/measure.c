#define _POSIX_C_SOURCE 200809L

#include "measure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

double bench_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Of this thread alone: on a busy machine, what others take is no part of the contest. */
static double own_time(void)
{
    struct timespec now;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static double timed(bench_work *work, void *context, int repeats)
{
    double start = own_time();
    work(context, repeats);
    return (own_time() - start) / repeats * 1e6;
}

/* Warms up, and finds how many fill a turn. */
static int repeats_for(bench_work *work, void *context, double seconds)
{
    double us = timed(work, context, 2);
    us = timed(work, context, 1 + (int)(0.2 * seconds * 1e6 / us));
    int repeats = (int)(seconds * 1e6 / us);
    return repeats < 1 ? 1 : repeats;
}

bench_result bench_compare(bench_work *ours, bench_work *theirs, void *context, int rounds,
                           double seconds_a_turn)
{
    static double mine[BENCH_MOST_ROUNDS], peer[BENCH_MOST_ROUNDS], ratio[BENCH_MOST_ROUNDS];
    bench_result r = {.rounds = rounds};
    r.ours_repeats = repeats_for(ours, context, seconds_a_turn);
    r.peer_repeats = repeats_for(theirs, context, seconds_a_turn);
    for (int i = 0; i < rounds; i++) {
        mine[i] = timed(ours, context, r.ours_repeats);
        peer[i] = timed(theirs, context, r.peer_repeats);
        ratio[i] = peer[i] / mine[i];
    }
    qsort(mine, (size_t)rounds, sizeof *mine, ascending);
    qsort(peer, (size_t)rounds, sizeof *peer, ascending);
    qsort(ratio, (size_t)rounds, sizeof *ratio, ascending);
    r.ours_us = mine[rounds / 2];
    r.theirs_us = peer[rounds / 2];
    r.ratio = ratio[rounds / 2];
    r.ratio_low = ratio[rounds / 4];
    r.ratio_high = ratio[rounds - 1 - rounds / 4];
    r.ratio_least = ratio[0];
    r.ratio_most = ratio[rounds - 1];
    return r;
}

const char *bench_processor(void)
{
    static char name[128] = "unknown";
    FILE *file = fopen("/proc/cpuinfo", "r");
    char line[256];
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        char *colon = strchr(line, ':');
        if (strncmp(line, "model name", 10) == 0 && colon != NULL) {
            snprintf(name, sizeof name, "%.100s", colon + 2);
            name[strcspn(name, "\n\"\\")] = '\0';
            break;
        }
    }
    if (file != NULL) {
        fclose(file);
    }
    return name;
}

const char *bench_instructions(void)
{
#if defined(__AVX512F__)
    return "x86-64 with AVX-512";
#elif defined(__AVX2__)
    return "x86-64 with AVX2";
#elif defined(__x86_64__)
    return "x86-64 (SSE2)";
#elif defined(__aarch64__)
    return "AArch64";
#else
    return "other";
#endif
}

bench_options bench_options_read(int argc, char **argv)
{
    bench_options read = {.quick = false};
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "--quick") == 0) {
            read.quick = true;
        } else if (strcmp(argv[i], "--json") == 0 && i + 1 < argc) {
            read.json = fopen(argv[++i], "w");
            if (read.json == NULL) {
                fprintf(stderr, "cannot write %s\n", argv[i]);
                exit(1);
            }
        }
    }
    return read;
}
