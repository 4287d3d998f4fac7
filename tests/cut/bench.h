/* A cut read, solved and checked in one go, for tests. */
#ifndef LW_TESTS_BENCH_H
#define LW_TESTS_BENCH_H

#include "cut/check.h"
#include "cut/read.h"
#include "cut/solve.h"

typedef struct bench_stone {
    lw_cut cut;
    lw_stone stone;
    lw_check check;
} bench_stone;

/* Fails the test, with the problem's words, when the text does not come to a stone. */
void bench_make(const char *text, const lw_solve_options *options, bench_stone *out);
void bench_make_file(const char *path, const lw_solve_options *options, bench_stone *out);
void bench_drop(bench_stone *made);

/* The angle of the nth step (from 0) of that name. */
double bench_angle(const bench_stone *made, const char *name, int nth);
/* Whether the check passes without any fault; prints the faults when it does not. */
int bench_passes(const bench_stone *made);
/* How many findings of that kind there are. */
int bench_findings(const bench_stone *made, lw_finding_kind kind);

/* Fails the test, with both figures, when they are further apart than within. */
void bench_near(double found, double wanted, double within);

#endif
