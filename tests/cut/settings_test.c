/* Every built-in cut with its settings anywhere within their limits: it solves, passes its check,
 * and has no edge that is there by accident alone.
 *
 * cut_settings_test [ROUNDS]: so many settings of each cut; the long check takes 20,000. */
#include "cut/bench.h"

#include "cut/text_file.h"
#include "cut/value.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static int rounds = 200;

/* SplitMix64 (G. Steele, D. Lea, C. Flood 2014). */
static uint64_t next(uint64_t *state)
{
    uint64_t z = *state += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* From 0 to 1, the ends more often than chance would have them: that is where a cut breaks. */
static double share(uint64_t *state)
{
    double u = (double)(next(state) >> 11) * 0x1p-53;
    unsigned kind = (unsigned)(next(state) % 8);
    return kind == 0 ? 0.0 : kind == 1 ? 1.0 : u;
}

/* Values of all settings at random, in their own units. */
static int draw(const lw_cut *cut, uint64_t *state, lw_override *out)
{
    lw_values values;
    int count = 0;
    assert_int_equal(lw_values_make(cut, NULL, 0, &values, NULL), LW_OK);
    for (int i = 0; i < cut->setting_count; i++) {
        const lw_setting *s = &cut->settings[i];
        if (!s->is_let) {
            double low = s->lowest->value, high = s->highest->value;
            out[count++] =
                (lw_override){s->name, LW_UNIT_NUMBER, low + (high - low) * share(state)};
        }
    }
    return count;
}

static void say_settings(const char *path, const lw_override *settings, int count)
{
    print_message("%s with", path);
    for (int i = 0; i < count; i++) {
        print_message(" --set %s=%.6g", settings[i].name, settings[i].value);
    }
    print_message("\n");
}

/* The words of what is wrong, "" when nothing is. */
static void try_once(const lw_cut *cut, const lw_override *settings, int count, char *words,
                     size_t capacity)
{
    lw_memory memory = lw_memory_standard();
    lw_solve_options options = {.overrides = settings, .override_count = count};
    lw_problem problem = {0};
    lw_stone stone = {0};
    lw_check check = {0};
    words[0] = '\0';
    if (lw_cut_solve(&memory, cut, &options, &stone, &problem) != LW_OK) {
        (void)lw_problem_write(&problem, words, capacity);
        return;
    }
    assert_int_equal(lw_cut_check(&memory, cut, &stone, NULL, &check), LW_OK);
    if (check.finding_count > 0) {
        (void)lw_finding_write(cut, &stone, &check.findings[0], words, capacity);
    }
    lw_check_destroy(&check);
    lw_stone_destroy(&stone);
}

static int failures;

static void try_settings(const char *path)
{
    lw_memory memory = lw_memory_standard();
    size_t length = 0;
    char *text = text_of_file(path, &length);
    lw_cut cut;
    uint64_t state = 1;
    int bad = 0;
    assert_int_equal(lw_cut_read(&memory, text, length, &cut, NULL), LW_OK);
    for (int i = 0; i < rounds; i++) {
        lw_override settings[LW_CUT_MOST_SETTINGS];
        char words[600];
        int count = draw(&cut, &state, settings);
        try_once(&cut, settings, count, words, sizeof words);
        if (words[0] != '\0' && ++bad <= 5) {
            say_settings(path, settings, count);
            print_message("  %s\n", words);
        }
    }
    print_message("%s: %d of %d\n", path, rounds - bad, rounds);
    failures += bad;
    lw_cut_destroy(&cut);
    free(text);
}

static void built_ins_hold_at_any_settings(void **state)
{
    (void)state;
    failures = 0;
    assert_true(each_file("cuts", ".cut", try_settings) >= 12);
    assert_int_equal(failures, 0);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(built_ins_hold_at_any_settings),
    };
    if (argc > 1) {
        rounds = (int)strtol(argv[1], NULL, 10);
    }
    return cmocka_run_group_tests(tests, NULL, NULL);
}
