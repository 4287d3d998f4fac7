/* How long a cut takes from its steps to a stone and through its check, in this process: read once,
 * then solved and checked over and over. The peer of each row is reading the text, so that the
 * shares of the way from text to answer can be seen. One JSON object. */
#include "measure.h"

#include "builtin.h"
#include "cut/check.h"
#include "cut/read.h"
#include "cut/solve.h"

#include <stdio.h>
#include <stdlib.h>

typedef struct job {
    const lw_builtin *builtin;
    lw_memory memory;
    lw_cut cut;
    lw_stone stone;
} job;

static void must(lw_status status)
{
    if (status != LW_OK) {
        fprintf(stderr, "bench_solve: %s\n", lw_status_text(status));
        exit(1);
    }
}

static void solve_again(void *context, int repeats)
{
    job *j = context;
    for (int i = 0; i < repeats; i++) {
        lw_stone stone;
        must(lw_cut_solve(&j->memory, &j->cut, NULL, &stone, NULL));
        lw_stone_destroy(&stone);
    }
}

static void check_again(void *context, int repeats)
{
    job *j = context;
    for (int i = 0; i < repeats; i++) {
        lw_check check;
        must(lw_cut_check(&j->memory, &j->cut, &j->stone, NULL, &check));
        lw_check_destroy(&check);
    }
}

static void read_again(void *context, int repeats)
{
    job *j = context;
    for (int i = 0; i < repeats; i++) {
        lw_cut cut;
        must(lw_cut_read(&j->memory, j->builtin->text, j->builtin->length, &cut, NULL));
        lw_cut_destroy(&cut);
    }
}

static void measure_cut(const lw_builtin *builtin, int rounds, bool last)
{
    job j = {.builtin = builtin, .memory = lw_memory_standard()};
    must(lw_cut_read(&j.memory, builtin->text, builtin->length, &j.cut, NULL));
    must(lw_cut_solve(&j.memory, &j.cut, NULL, &j.stone, NULL));
    bench_result solve = bench_compare(solve_again, read_again, &j, rounds, 0.02);
    bench_result check = bench_compare(check_again, read_again, &j, rounds, 0.02);
    const lw_measures *m = &j.stone.measures;
    printf("  {\"cut\": \"%s\", \"facets\": %d, \"read_us\": %.1f, \"solve_us\": %.1f, "
           "\"check_us\": %.1f}%s\n",
           builtin->name, m->facet_count + m->girdle_facet_count, solve.theirs_us, solve.ours_us,
           check.ours_us, last ? "" : ",");
    lw_stone_destroy(&j.stone);
    lw_cut_destroy(&j.cut);
}

/* bench_solve [CUT REPEATS]: all cuts; or one, solved so often and nothing else, to be counted. */
int main(int argc, char **argv)
{
    int count = lw_builtin_count();
    const lw_builtin *one = argc == 3 ? lw_builtin_find(argv[1]) : NULL;
    if (one != NULL) {
        job j = {.builtin = one, .memory = lw_memory_standard()};
        must(lw_cut_read(&j.memory, one->text, one->length, &j.cut, NULL));
        solve_again(&j, (int)strtol(argv[2], NULL, 10));
        lw_cut_destroy(&j.cut);
        return 0;
    }
    printf("{\"processor\": \"%s\", \"instructions\": \"%s\", \"cuts\": [\n", bench_processor(),
           bench_instructions());
    for (int i = 0; i < count; i++) {
        measure_cut(lw_builtin_at(i), 15, i + 1 == count);
    }
    printf("]}\n");
    return 0;
}
