/* Does the check notice? Each built-in cut is broken in one place of its text, as a slip of a hand
 * would break it: reading, solving or checking must say so. And each stone is broken in one plane,
 * as a slip at the lap would: its meets must be missed. */
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

/* ---- slips in the text -------------------------------------------------- */

typedef struct slip {
    const char *cut, *was, *is;
} slip;

#define ROUND "cuts/round-brilliant.cut"
#define QUARTZ "cuts/classic-quartz-round.cut"
#define SINGLE "cuts/single-cut.cut"
#define STEP "cuts/step-octagon.cut"
#define OVAL "cuts/oval-brilliant.cut"
#define CUSHION "cuts/square-cushion.cut"
#define PEAR "cuts/pear-brilliant.cut"
#define MARQUISE "cuts/marquise-brilliant.cut"
#define TRIANGLE "cuts/triangle-brilliant.cut"
#define PINWHEEL "cuts/pinwheel.cut"
#define TABLE_FIRST "cuts/table-first-square.cut"
#define CROWN_FIRST "cuts/crown-first-round.cut"

/* Blanks in was stand for any run of blanks. */
static const slip slips[] = {
    /* a wrong neighbour, a wrong tooth */
    {ROUND, "on 6 to meet left main, right main, left upper-half",
     "on 6 to meet left main, right main, own upper-half"},
    {ROUND, "meet main@96, star@6, star@90", "meet main@96, star@6, star@78"},
    {ROUND, "meet main@96, star@6, star@90", "meet main@12, star@6, star@90"},
    {ROUND, "at 90 on 3 to size", "at 90 on 5 to size"},
    {ROUND, "lower-half at free on 3", "lower-half at free on 4"},
    {QUARTZ, "star at crown - star on 6", "star at crown - star on 7"},
    {QUARTZ, "at 90 on 3 to size", "at 90 on 9 x4 to size"},
    {OVAL, "main at free on 14 to apex and line left girdle, right girdle",
     "main at free on 13 to apex and line left girdle, 2nd right girdle"},
    {MARQUISE, "on 15 to meet left tip, side@24, side@72",
     "on 15 to meet left tip, side@24, side@0"},
    {PEAR, "meet break@9, break@87, main@12", "meet break@9, break@75, main@12"},
    {TRIANGLE, "corner at free on 96", "corner at free on 95"},
    {PINWHEEL, "blade at crown on 2", "blade at crown on 2.5"},
    {CUSHION, "star at free on 5 to meet left break", "star at free on 5 to meet 2nd left break"},
    /* a wrong angle or depth */
    {QUARTZ, "table at 0 to meet main@96, star@6, star@90",
     "table at 0 to meet main@96, star@6, star@18"},
    {QUARTZ, "at pavilion + pavilion-break on 3", "at pavilion - pavilion-break on 3"},
    {CROWN_FIRST, "at pavilion + 1.6 deg on 6 to level", "at pavilion + 1.6 deg on 5 to level"},
    {SINGLE, "at crown on 96 to girdle girdle", "at crown on 96 to match pavilion main@96"},
    {SINGLE, "at 0 to table table across main@96", "at 0 to table 99.99 % across main@96"},
    {STEP, "girdle at 90 on 12 to width corner", "girdle at 90 on 12 to width 260 %"},
    {CUSHION, "girdle at 90 on 7 to size corner", "girdle at 90 on 7 to size 150 %"},
    {TABLE_FIRST, "to edge with table table", "to edge with table 1.5"},
    {TRIANGLE, "main at pavilion on 12 to point", "main at pavilion on 12 to temporary point"},
    {PINWHEEL, "girdle at 90 on 6 to size 103 %", "girdle at 90 on 6 to size 108.3 %"},
    /* a step left out */
    {ROUND, "\ntransfer\n", "\n"},
    {ROUND, "\nadapter\n", "\n"},
    {SINGLE, "main at crown on 96 to girdle girdle\n", "\n"},
    {QUARTZ, "girdle at 90 on 3 to size\n", "\n"},
    {OVAL, "adapter off\n", "transfer\n"},
    {STEP, "keel at pavilion on 96, 12, 24, 36, 48, 60, 72, 84 to each level on own girdle\n",
     "\n"},
    {TABLE_FIRST, "adapter off\n", "redop\ntransfer\n"},
    {CUSHION, "corner-main at free on 12 to apex and line left girdle, right girdle\n", "\n"},
    {CROWN_FIRST, "dop pavilion\n", "dop crown\n"},
    /* one depth where each tooth has its own */
    {STEP, "to each level on own girdle", "to level on own girdle"},
    {STEP, "to each girdle girdle", "to girdle girdle"},
    /* steps in another order */
    {QUARTZ, "pavilion\nmain at pavilion on 96 to point\ngirdle at 90 on 3 to size\n",
     "pavilion\ngirdle at 90 on 3 to size\nmain at pavilion on 96 to meet left girdle, right "
     "girdle, "
     "own break\n"},
    {ROUND, "\nadapter\ntable at 0 to meet main@96, star@6, star@90",
     "\nadapter\ntable at 0 to meet star@6, star@90, main@96\nadapter off\nlast at 50 on 96 to "
     "meet "
     "table, left star, right star"},
};

enum { SLIPS = sizeof slips / sizeof slips[0] };

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

/* Where pattern ends in text from here on; NULL when it does not stand here. */
static const char *matches(const char *text, const char *pattern)
{
    while (*pattern != '\0') {
        if (*pattern == ' ') {
            if (!is_blank(*text)) {
                return NULL;
            }
            while (is_blank(*text)) {
                text++;
            }
            pattern++;
        } else if (*text++ != *pattern++) {
            return NULL;
        }
    }
    return text;
}

/* The text with the first match of a slip exchanged; to be freed. */
static char *slipped(const char *text, const slip *s)
{
    for (const char *at = text; *at != '\0'; at++) {
        const char *end = matches(at, s->was);
        if (end != NULL) {
            size_t before = (size_t)(at - text);
            char *out = malloc(strlen(text) + strlen(s->is) + 1);
            memcpy(out, text, before);
            strcpy(out + before, s->is);
            strcat(out, end);
            return out;
        }
    }
    return NULL;
}

/* What is said of a text: "" when it passes. */
static void say(const char *text, char *words, size_t capacity)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut = {0};
    lw_stone stone = {0};
    lw_check check = {0};
    words[0] = '\0';
    if (lw_cut_read(&memory, text, strlen(text), &cut, &problem) != LW_OK ||
        lw_cut_solve(&memory, &cut, NULL, &stone, &problem) != LW_OK) {
        (void)lw_problem_write(&problem, words, capacity);
    } else {
        assert_int_equal(lw_cut_check(&memory, &cut, &stone, NULL, &check), LW_OK);
        for (int i = check.finding_count - 1; i >= 0; i--) {
            (void)lw_finding_write(&cut, &stone, &check.findings[i], words, capacity);
        }
    }
    lw_check_destroy(&check);
    lw_stone_destroy(&stone);
    lw_cut_destroy(&cut);
}

static void every_slip_in_the_text_is_noticed(void **state)
{
    (void)state;
    int unnoticed = 0;
    assert_true(SLIPS >= 30);
    for (int i = 0; i < SLIPS; i++) {
        char words[1200];
        size_t length = 0;
        char *text = text_of_file(slips[i].cut, &length);
        char *broken = slipped(text, &slips[i]);
        if (broken == NULL) {
            fail_msg("%s has no '%s'", slips[i].cut, slips[i].was);
        }
        say(text, words, sizeof words);
        assert_string_equal(words, "");
        say(broken, words, sizeof words);
        print_message("%s: %s\n    %.160s\n", slips[i].cut + 5, slips[i].is, words);
        unnoticed += words[0] == '\0';
        free(broken);
        free(text);
    }
    assert_int_equal(unnoticed, 0);
}

/* ---- slips at the lap --------------------------------------------------- */

/* The solid anew, after a plane was moved: the check looks at planes and solid. */
static void rebuild(lw_stone *stone)
{
    lw_memory memory = lw_memory_standard();
    lw_solid *solid = NULL;
    lw_polyhedron shape;
    assert_int_equal(lw_solid_new(&memory, stone->facet_count, &solid), LW_OK);
    lw_solid_start(solid, 4.0);
    for (int i = 0; i < stone->facet_count; i++) {
        assert_int_equal(lw_solid_cut(solid, stone->facets[i].plane, NULL), LW_OK);
    }
    lw_solid_extract(solid, &shape);
    lw_polyhedron_destroy(&stone->memory, &stone->solid);
    assert_int_equal(lw_polyhedron_copy(&stone->memory, &shape, &stone->solid), LW_OK);
    lw_solid_destroy(solid);
}

/* Whether the check of the stone as it is finds a fault. */
static bool is_faulty(const bench_stone *made)
{
    lw_memory memory = lw_memory_standard();
    lw_check check = {0};
    assert_int_equal(lw_cut_check(&memory, &made->cut, &made->stone, NULL, &check), LW_OK);
    bool passes = check.closed && check.every_facet && check.every_meet && check.cuttable;
    lw_check_destroy(&check);
    return !passes;
}

/* Each facet in turn cut too deep by a hundredth of a micrometre on 10 mm, then put back. */
static void cut_too_deep(const char *path)
{
    const double slip_of_hand = 1e-6;
    bench_stone made;
    bench_make_file(path, NULL, &made);
    int noticed = 0;
    assert_false(is_faulty(&made));
    for (int i = 0; i < made.stone.facet_count; i++) {
        double *distance = &made.stone.facets[i].plane.distance;
        double kept = *distance;
        *distance -= slip_of_hand;
        rebuild(&made.stone);
        noticed += is_faulty(&made);
        *distance = kept;
    }
    print_message("%s: %d of %d facets\n", path, noticed, made.stone.facet_count);
    assert_int_equal(noticed, made.stone.facet_count);
    bench_drop(&made);
}

static void every_slip_of_a_depth_is_noticed(void **state)
{
    (void)state;
    assert_true(each_file("cuts", ".cut", cut_too_deep) >= 12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_slip_in_the_text_is_noticed),
        cmocka_unit_test(every_slip_of_a_depth_is_noticed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
