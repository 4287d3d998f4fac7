/* lapwing solve, from start to exit, against a main that does nothing: in turns, so that both meet
 * the same machine.
 *
 * bench_startup LAPWING EMPTY [--quick] [--json FILE]
 *
 * Ends with 1 when the median difference is above MOST_MS.
 */
#define _POSIX_C_SOURCE 200809L

#include "measure.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

extern char **environ;

enum { ROUNDS = 201, QUICK_ROUNDS = 31 };
#define MOST_MS 5.0

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Milliseconds from before the start to after the end, what it prints thrown away. */
static double run_once(char *const *words, const posix_spawn_file_actions_t *quiet)
{
    pid_t child = 0;
    int status = 0;
    double start = bench_now();
    if (posix_spawn(&child, words[0], quiet, NULL, words, environ) != 0 ||
        waitpid(child, &status, 0) != child || status != 0) {
        fprintf(stderr, "%s does not run\n", words[0]);
        exit(2);
    }
    return (bench_now() - start) * 1e3;
}

typedef struct spread {
    double median, low, high, least, most;
} spread;

static spread spread_of(double *values, int count)
{
    qsort(values, (size_t)count, sizeof *values, ascending);
    return (spread){values[count / 2], values[count / 4], values[count - 1 - count / 4], values[0],
                    values[count - 1]};
}

static void tell(const char *what, spread s)
{
    printf("%-24s %6.3f ms (quartiles %.3f .. %.3f, extremes %.3f .. %.3f)\n", what, s.median,
           s.low, s.high, s.least, s.most);
}

static void write_spread(FILE *json, const char *key, spread s, const char *end)
{
    fprintf(json,
            "  \"%s\": {\"median\": %.4g, \"quartiles\": [%.4g, %.4g], \"extremes\": [%.4g, "
            "%.4g]}%s\n",
            key, s.median, s.low, s.high, s.least, s.most, end);
}

static bool write_json(const char *path, int rounds, spread ours, spread empty, spread difference)
{
    FILE *json = fopen(path, "w");
    if (json == NULL) {
        perror(path);
        return false;
    }
    fprintf(json,
            "{\n  \"bench\": \"startup\",\n  \"processor\": \"%s\",\n  \"instructions\": \"%s\",\n"
            "  \"rounds\": %d,\n",
            bench_processor(), bench_instructions(), rounds);
    write_spread(json, "lapwing_solve_ms", ours, ",");
    write_spread(json, "empty_main_ms", empty, ",");
    write_spread(json, "difference_ms", difference, "");
    fprintf(json, "}\n");
    return fclose(json) == 0;
}

int main(int argc, char **argv)
{
    static double ours[ROUNDS], empty[ROUNDS], difference[ROUNDS];
    const char *path = NULL;
    int rounds = ROUNDS;
    if (argc < 3) {
        fprintf(stderr, "usage: bench_startup LAPWING EMPTY [--quick] [--json FILE]\n");
        return 2;
    }
    for (int i = 3; i < argc; i++) {
        rounds = strcmp(argv[i], "--quick") == 0 ? QUICK_ROUNDS : rounds;
        path = strcmp(argv[i], "--json") == 0 && i + 1 < argc ? argv[i + 1] : path;
    }
    char verb[] = "solve", cut[] = "round-brilliant", size[] = "--width-mm", eight[] = "8";
    char *const solve[] = {argv[1], verb, cut, size, eight, NULL};
    char *const nothing[] = {argv[2], NULL};
    posix_spawn_file_actions_t quiet;
    posix_spawn_file_actions_init(&quiet);
    posix_spawn_file_actions_addopen(&quiet, 1, "/dev/null", O_WRONLY, 0);
    for (int i = -3; i < rounds; i++) { /* the first three warm up */
        int at = i < 0 ? 0 : i;
        ours[at] = run_once(solve, &quiet);
        empty[at] = run_once(nothing, &quiet);
        difference[at] = ours[at] - empty[at];
    }
    posix_spawn_file_actions_destroy(&quiet);
    spread o = spread_of(ours, rounds), e = spread_of(empty, rounds);
    spread d = spread_of(difference, rounds);
    printf("%s, %s, %d rounds\n", bench_processor(), bench_instructions(), rounds);
    tell("lapwing solve", o);
    tell("a main that does nothing", e);
    tell("difference", d);
    if (path != NULL && !write_json(path, rounds, o, e, d)) {
        return 2;
    }
    return d.median > MOST_MS;
}
