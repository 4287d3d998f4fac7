/* A built-in cut ready to be varied, for tests. */
#ifndef LW_TEST_STUDY_TUNE_CASE_H
#define LW_TEST_STUDY_TUNE_CASE_H

#include "seen.h"
#include "vary.h"

typedef struct tune_case {
    lw_memory memory;
    lw_cut cut;
    lw_vary vary;
    lw_handle handles[2]; /* pavilion, crown */
} tune_case;

/* Fails the test when the cut has no stone. */
void tune_case_make(const char *builtin, const lw_solve_options *options, tune_case *out);
void tune_case_drop(tune_case *made);

/* Light in an index, as cheap as a search may have it. */
lw_look tune_case_look(double yellow, double blue, double red);

#endif
