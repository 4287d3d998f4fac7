/* The worst texts that the reader lets through, solved and checked in bounded time: two thousand
 * facets, a depth for every tooth looked for by trying, forty-eight unknowns that hang on one
 * another, names without number. */
#define _POSIX_C_SOURCE 200809L

#include "cut/check.h"
#include "cut/read.h"
#include "cut/solve.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

/* Of the processor, for solving and checking one text, with room for a slow one under a sanitizer;
 * a plain build takes a tenth. */
static const double most_seconds = 40.0;

static char text[1 << 20];
static size_t used;

__attribute__((format(printf, 1, 2))) static void put(const char *format, ...)
{
    va_list list;
    va_start(list, format);
    used += (size_t)vsnprintf(text + used, sizeof text - used, format, list);
    va_end(list);
    assert_true(used < sizeof text);
}

static void begin(const char *head)
{
    used = 0;
    put("%s", head);
}

static double seconds_now(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

/* What solving came to. The text must be readable; what is solved is checked. */
static lw_status take(const char *what, const lw_solve_options *options)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut;
    lw_stone stone;
    char words[1000] = "";
    if (lw_cut_read(&memory, text, used, &cut, &problem) != LW_OK) {
        (void)lw_problem_write(&problem, words, sizeof words);
        fail_msg("%s: %s", what, words);
    }
    double start = seconds_now();
    lw_status status = lw_cut_solve(&memory, &cut, options, &stone, &problem);
    double solved = seconds_now();
    if (status == LW_OK) {
        lw_check check = {0};
        status = lw_cut_check(&memory, &cut, &stone, NULL, &check);
        lw_check_destroy(&check);
        lw_stone_destroy(&stone);
    } else {
        (void)lw_problem_write(&problem, words, sizeof words);
    }
    double checked = seconds_now();
    printf("  %s: %.2f s, check %.2f s%s%.90s\n", what, solved - start, checked - solved,
           words[0] ? ": " : "", words);
    assert_true(checked - start < most_seconds);
    lw_cut_destroy(&cut);
    return status;
}

#define BLOCK                                                                                      \
    "wheel 1440\nfold 4 mirror\ndop crown\npavilion\n"                                             \
    "girdle at 90 on 0 to size\nmain at 45 on 0 to level on own girdle\n"
#define LID "transfer\ncrown\nlid at 40 on 0 to girdle 0.05\n"

static void two_thousand_facets(void **state)
{
    (void)state;
    begin(BLOCK);
    for (int i = 1; i < 240; i++) {
        put("a at %d.%d on %d to distance %d.%d %%\n", 20 + i % 60, i % 7, i % 180, 36 + i % 9, i);
    }
    put("b at 44 on 1 x11 to point 40 %%\n" LID);
    assert_int_equal(take("2,000 facets in many steps", NULL), LW_OK);
    begin("wheel 1440\ndop crown\npavilion\n"
          "a at 44 on 0 x640 to point\ngirdle at 90 on 0 x640 to size\ntransfer\ncrown\n"
          "b at 34 on 0 x640 to girdle 2 %\nadapter\nt at 0 to table 60 % across b@0\n");
    assert_int_equal(take("2,000 facets in few", NULL), LW_OK);
}

static void a_length_for_every_tooth(void **state)
{
    (void)state;
    begin(BLOCK "c at 60 on 1 x1000 plain to each width 0.1 %\n" LID);
    (void)take("a width for each of 1,000 teeth", NULL);
    begin(BLOCK "c at 60 on 1 x1000 plain to each edge with main@0 0.1 %\n" LID);
    (void)take("an edge for each of 1,000 teeth", NULL);
    begin(BLOCK LID
          "t at 0 to height 10 %\nc at 20 on 1 x1400 plain to equal with t as with lid@0\n");
    (void)take("equal edges for 1,400 facets", NULL);
    begin("wheel 1440\npavilion\ngirdle at 90 on 0 x900 to size\n"
          "m at 44 on 0 x900 to level on own girdle\nculet at 0 to culet 30 %\ncrown\n"
          "lid at 0 to height 10 %\n");
    (void)take("a culet of 900 sides", NULL);
}

/* As many points as a line of the text holds, for each of many teeth. */
static void points_without_number(void **state)
{
    (void)state;
    begin(BLOCK "c at 60 on 1 x1440 plain to each ");
    for (int i = 0; i < 30; i++) {
        put("share 1/2 from meet main@0, main@360, girdle@0 towards (");
    }
    used -= strlen("towards (");
    put("towards apex");
    for (int i = 1; i < 30; i++) {
        put(")");
    }
    put("\n" LID);
    (void)take("thirty shares for each of 1,440 teeth", NULL);
    begin("wheel 1440\npavilion\n");
    for (int i = 0; i < 490; i++) {
        put("g at 90 on 0 x3 to size\n");
    }
    put("m at 45 on 0 x300 to each meet ");
    for (int i = 0; i < 16; i++) {
        put("%s%dth left g", i ? ", " : "", 1404 + i);
    }
    put("\ncrown\nlid at 40 on 0 x3 to girdle 0.05\n");
    (void)take("one name on 490 lines", NULL);
    begin(BLOCK
          "a at 44 on 3 x1400 to level on girdle@0\n"
          "c at 60 on 1 x300 to each level on 1404th left a by line 1404th left a, girdle@0\n" LID);
    (void)take("the 1,404th neighbour", NULL);
}

static void steps_that_wait(void **state)
{
    (void)state;
    begin(BLOCK);
    for (int i = 0; i < 200; i++) {
        put("c%d at 60 on 1 x8 to share 1/2 from meet main@0, main@360, girdle@0 towards meet "
            "main@0, "
            "main@360, c%d@1\n",
            i, i + 1);
    }
    put("c200 at 50 on 1 x8 to meet main@0, main@360, girdle@0\n" LID);
    (void)take("a chain of 200 steps", NULL);
    begin(BLOCK);
    for (int i = 0; i < 200; i++) {
        put("c%d at 60 on 1 x8 to meet ", i);
        for (int k = 0; k < 15; k++) {
            put("c%d@1, ", 200 + 15 * (i % 2) + k);
        }
        put("main@0\n");
    }
    for (int i = 200; i < 230; i++) {
        put("c%d at %d on 1 x8 to distance 40 %%\n", i, 30 + i - 200);
    }
    put("%s", LID);
    (void)take("200 steps that wait for thirty", NULL);
}

static void unknowns_that_hang_on_one_another(void **state)
{
    (void)state;
    begin(BLOCK "a at 44 on 3 x1400 to level on girdle@0\n");
    for (int i = 0; i < 24; i++) {
        put("c%d at free on %d x1 to line c%d@%d, main@0 and share 1/%d from apex towards meet "
            "main@0, main@360, c%d@%d\n",
            i, i + 1, (i + 1) % 24, (i + 1) % 24 + 1, i + 2, (i + 1) % 24, (i + 1) % 24 + 1);
    }
    put("%s", LID);
    (void)take("24 free angles in a ring", NULL);
    begin(BLOCK "a at 44 on 3 x1400 to level on girdle@0\n");
    for (int i = 0; i < 48; i++) {
        put("c%d at 60 on 1 x1 to share 1/%d from line main@0, girdle@0 towards meet main@0, "
            "main@360, c%d@1\n",
            i, i + 2, (i + 1) % 48);
    }
    put("%s", LID);
    (void)take("48 depths in a ring", NULL);
    begin(BLOCK "a at 44 on 3 x1400 to level on girdle@0\n");
    for (int i = 0; i < 16; i++) {
        put("c%d at free on free near %d to apex and meet main@0, c%d@%d, girdle@0 and meet "
            "main@0, "
            "main@360, c%d@%d\n",
            i, i, (i + 1) % 16, (i + 1) % 16, (i + 2) % 16, (i + 2) % 16);
    }
    put("%s", LID);
    (void)take("16 free teeth in a ring", NULL);
}

static void millimetres_again_and_again(void **state)
{
    (void)state;
    static const lw_solve_options weighed = {
        .size_kind = LW_SIZE_WEIGHT_CT, .size = 1.0, .specific_gravity = 2.65};
    begin(BLOCK "c at 60 on 1 x200 plain to each width 0.02 mm\n" LID);
    (void)take("200 widths in mm, to a weight", &weighed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_thousand_facets),
        cmocka_unit_test(a_length_for_every_tooth),
        cmocka_unit_test(points_without_number),
        cmocka_unit_test(steps_that_wait),
        cmocka_unit_test(unknowns_that_hang_on_one_another),
        cmocka_unit_test(millimetres_again_and_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
