#include "cut/bench.h"

#include "cut/text_file.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void make(const char *text, size_t length, const lw_solve_options *options, bench_stone *out)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    char words[LW_PROBLEM_TEXT * 4] = "";
    lw_status status = lw_cut_read(&memory, text, length, &out->cut, &problem);
    if (status == LW_OK) {
        status = lw_cut_solve(&memory, &out->cut, options, &out->stone, &problem);
    }
    if (status != LW_OK) {
        (void)lw_problem_write(&problem, words, sizeof words);
        fail_msg("%s", words);
    }
    assert_int_equal(lw_cut_check(&memory, &out->cut, &out->stone, NULL, &out->check), LW_OK);
}

void bench_make(const char *text, const lw_solve_options *options, bench_stone *out)
{
    make(text, strlen(text), options, out);
}

void bench_make_file(const char *path, const lw_solve_options *options, bench_stone *out)
{
    size_t length = 0;
    char *text = text_of_file(path, &length);
    assert_non_null(text);
    make(text, length, options, out);
    free(text);
}

void bench_drop(bench_stone *made)
{
    lw_check_destroy(&made->check);
    lw_stone_destroy(&made->stone);
    lw_cut_destroy(&made->cut);
}

double bench_angle(const bench_stone *made, const char *name, int nth)
{
    for (int i = 0; i < made->cut.step_count; i++) {
        const lw_step *step = &made->cut.steps[i];
        if (step->kind == LW_STEP_FACETS && strcmp(step->name, name) == 0 && nth-- == 0) {
            return made->stone.tiers[i].angle_deg;
        }
    }
    fail_msg("no step %s", name);
    return 0.0;
}

int bench_passes(const bench_stone *made)
{
    int faults = 0;
    for (int i = 0; i < made->check.finding_count; i++) {
        if (made->check.findings[i].fault) {
            char words[300];
            (void)lw_finding_write(&made->cut, &made->stone, &made->check.findings[i], words,
                                   sizeof words);
            print_message("%s\n", words);
            faults++;
        }
    }
    return faults == 0 && made->check.closed && made->check.every_facet && made->check.every_meet &&
           made->check.cuttable;
}

int bench_findings(const bench_stone *made, lw_finding_kind kind)
{
    int count = 0;
    for (int i = 0; i < made->check.finding_count; i++) {
        count += made->check.findings[i].kind == kind;
    }
    return count;
}

void bench_near(double found, double wanted, double within)
{
    if (!(fabs(found - wanted) <= within)) {
        fail_msg("%.17g, wanted %.17g within %g", found, wanted, within);
    }
}
