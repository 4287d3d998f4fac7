/* The four questions, each with a cut that fails it and one that does not. */
#include "cut/bench.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define SQUARE "wheel 96\nfold 4 mirror\n"
#define PAVILION                                                                                   \
    "dop crown\npavilion\ngirdle at 90 on 96 to size\nmain at 45 on 96 to level on own girdle\n"
#define CROWN "transfer\ncrown\nlid at 40 on 96 to girdle 5 %\n"
#define TABLE "adapter\ntable at 0 to table 55 % across lid@96\n"

static int findings(const char *text, lw_finding_kind kind, int *passes)
{
    bench_stone made;
    bench_make(text, NULL, &made);
    int count = bench_findings(&made, kind);
    *passes = made.check.every_facet && made.check.every_meet && made.check.cuttable;
    bench_drop(&made);
    return count;
}

static void sound_cut_has_no_fault(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(SQUARE PAVILION CROWN TABLE, NULL, &made);
    assert_true(bench_passes(&made));
    assert_int_equal(made.check.finding_count, 0);
    bench_drop(&made);
}

static void sights_of_every_kind(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(SQUARE PAVILION
               "corner at 50 on 12 to meet left main, right main, left girdle\n" CROWN
               "twin at 40 on 12 to match lid@96\n"
               "late at 35 on 12 to meet table, lid@96, lid@24\n" TABLE,
               NULL, &made);
    static const lw_sight wanted[] = {
        LW_SIGHT_SEEN,     LW_SIGHT_MEASURED, LW_SIGHT_ITSELF, LW_SIGHT_SEEN, LW_SIGHT_SEEN,
        LW_SIGHT_MEASURED, LW_SIGHT_MATCHED,  LW_SIGHT_BLIND,  LW_SIGHT_SEEN, LW_SIGHT_MEASURED};
    for (int i = 0; i < made.check.step_count; i++) {
        if (made.check.sights[i] != wanted[i]) {
            fail_msg("step %d is %s, wanted %s", i, lw_sight_text(made.check.sights[i]),
                     lw_sight_text(wanted[i]));
        }
    }
    assert_false(made.check.cuttable);
    bench_drop(&made);
}

static void a_facet_without_area(void **state)
{
    (void)state;
    int passes = 0;
    int found =
        findings(SQUARE PAVILION
                 "gone at 30 on 96 to point 40 %\nmain at 45 on 96 to point 30 %\n" CROWN TABLE,
                 LW_FINDING_NO_AREA, &passes);
    assert_int_equal(found, 8);
    assert_false(passes);
}

static void a_facet_on_the_dopped_side(void **state)
{
    (void)state;
    int passes = 0;
    int found = findings(SQUARE PAVILION "crown\nlid at 40 on 96 to girdle 5 %\n",
                         LW_FINDING_DOPPED_SIDE, &passes);
    assert_int_equal(found, 1);
    assert_false(passes);
}

static void a_temporary_facet_that_stays(void **state)
{
    (void)state;
    int passes = 0;
    const char *stays = SQUARE "dop crown\npavilion\ntemporary preform at 90 on 12 to size 120 %\n"
                               "girdle at 90 on 96 to size\nmain at 45 on 96 to level on own "
                               "girdle\n" CROWN;
    assert_int_equal(findings(stays, LW_FINDING_TEMPORARY_STAYS, &passes), 4);
    assert_false(passes);
    const char *gone = SQUARE "dop crown\npavilion\ntemporary preform at 90 on 12 to size 150 %\n"
                              "girdle at 90 on 96 to size\nmain at 45 on 96 to level on own "
                              "girdle\n" CROWN;
    assert_int_equal(findings(gone, LW_FINDING_TEMPORARY_STAYS, &passes), 0);
    assert_true(passes);
}

static void points_temporary_and_final(void **state)
{
    (void)state;
    int passes = 0;
    const char *start = SQUARE "dop crown\npavilion\ngirdle at 90 on 96 to size\n"
                               "main at 45 on 96 to level on own girdle\ntransfer\ncrown\n"
                               "lid at 40 on 96 to girdle 5 %\n";
    char text[600];
    strcpy(text, start);
    strcat(text, "cap at 30 on 12 to temporary point 35 %\nadapter\ntable at 0 to height 20 %\n");
    assert_int_equal(findings(text, LW_FINDING_POINT_STAYS, &passes), 0);
    strcpy(text, start);
    strcat(text, "cap at 30 on 12 to point 35 %\nadapter\ntable at 0 to height 20 %\n");
    assert_int_equal(findings(text, LW_FINDING_POINT_STAYS, &passes), 1);
    strcpy(text, start);
    strcat(text, "cap at 30 on 12 to temporary point 35 %\n");
    assert_int_equal(findings(text, LW_FINDING_POINT_STAYS, &passes), 1);
    strcpy(text, start);
    strcat(text, "cap at 30 on 12 to point 35 %\n");
    assert_int_equal(findings(text, LW_FINDING_POINT_STAYS, &passes), 0);
    assert_true(passes);
}

static void a_level_facet_wants_the_adapter(void **state)
{
    (void)state;
    int passes = 0;
    int found = findings(SQUARE PAVILION CROWN "table at 0 to table 55 % across lid@96\n",
                         LW_FINDING_NO_ADAPTER, &passes);
    assert_int_equal(found, 1);
    assert_false(passes);
}

/* A tier's one depth fits its first tooth; on an oblong outline its others do not meet. */
static void a_meet_that_misses_at_other_teeth(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 2 mirror\ndop crown\npavilion\ngirdle at 90 on 96 to size\n"
               "girdle at 90 on 24 to size 120 %\n"
               "main at 45 on 96, 24, 48, 72 to level on own girdle\n" CROWN
               "side at 40 on 24 to girdle 5 %\n",
               NULL, &made);
    assert_int_equal(bench_findings(&made, LW_FINDING_MEET_MISSED), 2);
    assert_false(made.check.every_meet);
    for (int i = 0; i < made.check.finding_count; i++) {
        if (made.check.findings[i].kind == LW_FINDING_MEET_MISSED) {
            /* The outline stands a tenth farther out there; 45 degrees: 0.1 sqrt(1/2). */
            assert_true(fabs(made.check.findings[i].amount - 0.1 * sqrt(0.5)) < 1e-12);
        }
    }
    bench_drop(&made);
}

/* A corner 0.1 % of the width wide, cut where two mains, two lids and two girdle facets meet: at
 * each of the four corners it leaves a short edge with either main and either lid. Worked: with a
 * lid at 40 degrees half its width runs level and that over sqrt 2 times tan 40 along the axis. */
static void near_misses_are_counted(void **state)
{
    (void)state;
    bench_stone made;
    lw_solve_options options = {.size_kind = LW_SIZE_WIDTH_MM, .size = 10.0};
    bench_make(SQUARE PAVILION CROWN "corner at 90 on 12 to width 0.1 %\n" TABLE, &options, &made);
    assert_int_equal(made.check.near_miss_count, 16);
    assert_int_equal(bench_findings(&made, LW_FINDING_NEAR_MISS), 16);
    double level = 0.0005;
    double rise = level * sqrt(0.5) * lw_tan_deg(40.0);
    double worked = sqrt(level * level + rise * rise);
    assert_true(fabs(made.check.shortest_edge - worked) < 1e-12);
    assert_true(made.check.every_meet && made.check.cuttable);
    char words[200];
    (void)lw_finding_write(&made.cut, &made.stone, &made.check.findings[0], words, sizeof words);
    assert_non_null(strstr(words, "5.81 um"));
    bench_drop(&made);
}

static void angles_below_critical(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(SQUARE PAVILION CROWN TABLE, NULL, &made);
    lw_memory memory = lw_memory_standard();
    lw_check check;
    /* 45 degrees of pavilion against a critical angle of 46 and of 44.5. */
    lw_check_options weak = {.critical_angle_deg = 46.0};
    assert_int_equal(lw_cut_check(&memory, &made.cut, &made.stone, &weak, &check), LW_OK);
    assert_int_equal(check.finding_count, 1);
    assert_int_equal(check.findings[0].kind, LW_FINDING_BELOW_CRITICAL);
    assert_true(check.findings[0].amount == -1.0 && !check.findings[0].fault);
    lw_check_destroy(&check);
    lw_check_options strong = {.critical_angle_deg = 44.5, .margin_deg = 0.25};
    assert_int_equal(lw_cut_check(&memory, &made.cut, &made.stone, &strong, &check), LW_OK);
    assert_int_equal(check.finding_count, 0);
    lw_check_destroy(&check);
    bench_drop(&made);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sound_cut_has_no_fault),
        cmocka_unit_test(sights_of_every_kind),
        cmocka_unit_test(a_facet_without_area),
        cmocka_unit_test(a_facet_on_the_dopped_side),
        cmocka_unit_test(a_temporary_facet_that_stays),
        cmocka_unit_test(points_temporary_and_final),
        cmocka_unit_test(a_level_facet_wants_the_adapter),
        cmocka_unit_test(a_meet_that_misses_at_other_teeth),
        cmocka_unit_test(near_misses_are_counted),
        cmocka_unit_test(angles_below_critical),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
