/* A cut read and solved, letters of a plain size, and memory that runs out, for tests of sheets. */
#ifndef LW_TESTS_SHEET_BENCH_H
#define LW_TESTS_SHEET_BENCH_H

#include "cut/check.h"
#include "cut/solve.h"
#include "sheet/display_list.h"
#include "sheet/sheet.h"

typedef struct sheet_bench {
    char *text;
    lw_cut cut;
    lw_values values;
    lw_stone stone;
    lw_check check;
} sheet_bench;

/* Fails the test, with the problem's words, when it does not come to a stone. width_mm 0: no size.
 */
void sheet_bench_make(const char *text, double width_mm, sheet_bench *out);
void sheet_bench_file(const char *path, double width_mm, sheet_bench *out);
void sheet_bench_drop(sheet_bench *made);
lw_sheet_facts sheet_bench_facts(const sheet_bench *made);

/* The whole of a file, malloc'd, with a NUL. */
char *sheet_bench_read(const char *path, size_t *length);

/* Every character (not every byte) six tenths of the size wide, 0.8 up and 0.2 down. */
lw_metrics sheet_bench_metrics(void);

/* The standard memory, which refuses after so many requests. */
typedef struct scarce {
    long left;    /* requests to grant */
    long granted; /* blocks that are out */
} scarce;
lw_memory scarce_memory(scarce *state);

#endif
