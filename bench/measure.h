/* Timing of rivals that take turns in one process, and what comes out of it. */
#ifndef LW_BENCH_MEASURE_H
#define LW_BENCH_MEASURE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { BENCH_MOST_ROUNDS = 101 };

/* One piece of work, done repeats times. */
typedef void bench_work(void *context, int repeats);

typedef struct bench_result {
    double ours_us, theirs_us;              /* medians, microseconds for one */
    double ratio;                           /* median of theirs / ours, round by round */
    double ratio_low, ratio_high;           /* its quartiles */
    double ratio_least, ratio_most;         /* its extremes */
    int rounds, ours_repeats, peer_repeats; /* how it was measured */
} bench_result;

/* rounds (odd, at most BENCH_MOST_ROUNDS) of ours then theirs, in processor time of this thread. */
bench_result bench_compare(bench_work *ours, bench_work *theirs, void *context, int rounds,
                           double seconds_a_turn);

/* --quick and --json FILE, as every benchmark takes them; json is open for writing, or NULL. Ends
 * the program with a line on standard error where the file cannot be written. */
typedef struct bench_options {
    bool quick;
    FILE *json;
} bench_options;
bench_options bench_options_read(int argc, char **argv);

/* The processor's name as the system tells it, and the instruction set this was compiled for. */
const char *bench_processor(void);
const char *bench_instructions(void);

/* Seconds by the clock on the wall. */
double bench_now(void);

#endif
