/* What a text comes to. Expected values: worked by hand from docs/cut-language.md. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"

#include <stdio.h>
#include <string.h>

static const char head[] = "wheel 96\nfold 8 mirror\npavilion\n"
                           "main at 43 on 96 to temporary point\ngirdle at 90 on 3 to size\n";

static lw_cut read_text(const char *text)
{
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0};
    lw_problem problem = {0};
    char message[1024];
    if (lw_cut_read(&memory, text, strlen(text), &cut, &problem) != LW_OK) {
        lw_problem_write(&problem, message, sizeof message);
        fail_msg("%s", message);
    }
    return cut;
}

/* The cut of the usual head with one step behind it. */
static lw_cut read_step(const char *step)
{
    char text[2048];
    snprintf(text, sizeof text, "%s%s", head, step);
    return read_text(text);
}

static void test_headers(void **state)
{
    (void)state;
    lw_cut cut = read_text(
        "\xEF\xBB\xBFtitle \"Ein Sch\xC3\xB6ner\"\nmaker \"me\"\nnote \"one\"\nnote \"two\"\n"
        "suits quartz , beryl\nwheel 80\nfold mirror\nhand left\ncrown\n"
        "main at 42 on 80 to girdle 2.5 %\n");
    assert_string_equal(cut.title, "Ein Sch\xC3\xB6ner");
    assert_string_equal(cut.maker, "me");
    assert_int_equal(cut.note_count, 2);
    assert_string_equal(cut.notes[1], "two");
    assert_int_equal(cut.suit_count, 2);
    assert_string_equal(cut.suits[1], "beryl");
    assert_int_equal(cut.wheel, 80);
    assert_int_equal(cut.fold, 1);
    assert_true(cut.mirror);
    assert_true(cut.left_handed);
    assert_int_equal(cut.steps[0].side, LW_SIDE_CROWN);
    lw_cut_destroy(&cut);
    lw_cut_destroy(&cut);
}

static void test_lines_and_comments(void **state)
{
    (void)state;
    lw_cut cut = read_text("\n\n# first  \r\n\r\n \t\r\nwheel 96 #  two blanks\r\n#\npavilion\n"
                           "main at 43 on 96 to point \"a # is no comment\" # here it is\n\n\n");
    const lw_line_kind kinds[] = {LW_LINE_COMMENT, LW_LINE_BLANK, LW_LINE_WHEEL,
                                  LW_LINE_COMMENT, LW_LINE_SIDE,  LW_LINE_STEP};
    assert_int_equal(cut.line_count, 6);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(cut.lines[i].kind, kinds[i]);
    }
    assert_string_equal(cut.lines[0].comment, "first");
    assert_null(cut.lines[1].comment);
    assert_string_equal(cut.lines[2].comment, " two blanks");
    assert_string_equal(cut.lines[3].comment, "");
    assert_string_equal(cut.lines[5].comment, "here it is");
    assert_string_equal(cut.steps[0].remark, "a # is no comment");
    assert_int_equal(cut.steps[0].place.line, 9);
    lw_cut_destroy(&cut);
}

static void test_last_line_without_end(void **state)
{
    (void)state;
    lw_cut cut = read_text("wheel 96\npavilion\nmain at 43 on 96 to point");
    assert_int_equal(cut.step_count, 1);
    lw_cut_destroy(&cut);
}

static void test_default_symmetry(void **state)
{
    (void)state;
    lw_cut cut = read_step("break at 45 on 3 to apex\n");
    const lw_step *step = &cut.steps[2];
    assert_int_equal(step->fold, 8);
    assert_true(step->mirror);
    assert_false(step->own_symmetry);
    assert_false(step->listed);
    assert_int_equal(step->tooth_count, 1);
    lw_cut_destroy(&cut);
}

static void check_symmetry(const char *teeth, int fold, bool mirror, bool own, bool listed)
{
    char line[128];
    snprintf(line, sizeof line, "break at 45 on %s to apex\n", teeth);
    lw_cut cut = read_step(line);
    const lw_step *step = &cut.steps[2];
    assert_int_equal(step->fold, fold);
    assert_int_equal(step->mirror, mirror);
    assert_int_equal(step->own_symmetry, own);
    assert_int_equal(step->listed, listed);
    lw_cut_destroy(&cut);
}

static void test_symmetry_of_a_step(void **state)
{
    (void)state;
    check_symmetry("3 x4", 4, false, true, false);
    check_symmetry("3 x 4", 4, false, true, false);
    check_symmetry("3x4 mirror", 4, true, true, false);
    check_symmetry("3 x1 mirror", 1, true, true, false);
    check_symmetry("3 mirror", 8, true, true, false);
    check_symmetry("3 plain", 8, false, true, false);
    check_symmetry("3 only", 1, false, false, true);
    check_symmetry("3, 9.5", 1, false, false, true);
}

static void test_no_fold_unless_told(void **state)
{
    (void)state;
    lw_cut cut = read_text("wheel 96\npavilion\nmain at 43 on 96 to point\n");
    assert_int_equal(cut.steps[0].fold, 1);
    assert_false(cut.steps[0].mirror);
    lw_cut_destroy(&cut);
}

static void test_free_tooth(void **state)
{
    (void)state;
    lw_cut cut = read_step(
        "odd at free near 40 on free near 6.25 to meet main@96, girdle@3 and "
        "meet main@12, girdle@9 and share 50 % from apex towards meet main@96, girdle@93\n");
    const lw_step *step = &cut.steps[2];
    assert_null(step->angle);
    assert_true(step->angle_near->value == 40.0);
    assert_true(step->tooth_free);
    assert_true(step->teeth[0] == 6.25);
    assert_int_equal(step->rule_count, 3);
    assert_int_equal(step->rules[2].point->kind, LW_POINT_SHARE);
    assert_int_equal(step->rules[2].point->from->kind, LW_POINT_APEX);
    lw_cut_destroy(&cut);
}

static void test_facets(void **state)
{
    (void)state;
    lw_cut cut =
        read_step("break at 45 on 3 to meet own girdle, 2nd left pavilion main, next main, "
                  "opposite main, main@12.5, main\n");
    const lw_facet_ref *facets = cut.steps[2].rules[0].point->facets;
    const lw_relation relations[] = {LW_RELATION_OWN,      LW_RELATION_LEFT,  LW_RELATION_NEXT,
                                     LW_RELATION_OPPOSITE, LW_RELATION_TOOTH, LW_RELATION_ONLY};
    assert_int_equal(cut.steps[2].rules[0].point->facet_count, 6);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(facets[i].relation, relations[i]);
        assert_int_equal(facets[i].count, i == 1 ? 2 : 1);
        assert_int_equal(facets[i].side, i == 1 ? LW_SIDE_PAVILION : LW_SIDE_NONE);
        assert_string_equal(facets[i].name, i == 0 ? "girdle" : "main");
    }
    assert_true(facets[4].tooth == 12.5);
    assert_int_equal(facets[1].place.line, 6);
    assert_int_equal(facets[1].place.column, 38);
    lw_cut_destroy(&cut);
}

/* A step further down may be named, on either side. */
static void test_forward_names(void **state)
{
    (void)state;
    lw_cut cut = read_step("break at 45 on 3 to meet own later, crown star, own crown girdle\n"
                           "later at 40 on 3 to apex\ncrown\nstar at 20 on 6 to girdle 2 %\n");
    assert_int_equal(cut.steps[2].rules[0].point->facets[2].side, LW_SIDE_CROWN);
    lw_cut_destroy(&cut);
}

static void test_actions(void **state)
{
    (void)state;
    lw_cut cut = read_step("dop crown\ntransfer\nredop\nadapter\nadapter off\n");
    const lw_step *s = &cut.steps[2];
    assert_int_equal(s[0].kind, LW_STEP_DOP);
    assert_int_equal(s[0].side, LW_SIDE_CROWN);
    assert_int_equal(s[1].kind, LW_STEP_TRANSFER);
    assert_int_equal(s[2].kind, LW_STEP_REDOP);
    assert_int_equal(s[3].kind, LW_STEP_ADAPTER);
    assert_false(s[3].off);
    assert_true(s[4].off);
    lw_cut_destroy(&cut);
}

/* Words of the language as names of steps: what follows "at" is a step. */
static void test_names_that_are_words(void **state)
{
    (void)state;
    lw_cut cut = read_step("title at 20 on 6 to apex\nmeet at 20 on 6 to meet own meet, own title\n"
                           "temporary wheel at 20 on 6 to apex\nx4 at 20 on 6 x4 to apex\n");
    assert_int_equal(cut.step_count, 6);
    assert_string_equal(cut.steps[2].name, "title");
    assert_true(cut.steps[4].temporary);
    lw_cut_destroy(&cut);
}

static void test_degree_sign(void **state)
{
    (void)state;
    lw_cut cut = read_step("break at 45.5\xC2\xB0 on 3 to apex\n");
    assert_true(cut.steps[2].angle->value == 45.5);
    assert_int_equal(cut.steps[2].angle->unit, LW_UNIT_DEG);
    lw_cut_destroy(&cut);
}

/* Two facets of 1,000 each are the most; one more is too many (read in the broken corpus). */
static void test_most_facets(void **state)
{
    (void)state;
    lw_cut cut = read_text("wheel 96\npavilion\na at 43 on 3 x1000 to point\n"
                           "b at 43 on 3 x500 mirror to point\n");
    assert_int_equal(cut.step_count, 2);
    lw_cut_destroy(&cut);
    /* 96 lies on a plane of the mirror: 1,440 facets, not 2,880. */
    cut = read_text("wheel 96\npavilion\na at 43 on 96 x1440 mirror to point\n");
    lw_cut_destroy(&cut);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_headers),
        cmocka_unit_test(test_lines_and_comments),
        cmocka_unit_test(test_last_line_without_end),
        cmocka_unit_test(test_default_symmetry),
        cmocka_unit_test(test_symmetry_of_a_step),
        cmocka_unit_test(test_no_fold_unless_told),
        cmocka_unit_test(test_free_tooth),
        cmocka_unit_test(test_facets),
        cmocka_unit_test(test_forward_names),
        cmocka_unit_test(test_actions),
        cmocka_unit_test(test_names_that_are_words),
        cmocka_unit_test(test_degree_sign),
        cmocka_unit_test(test_most_facets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
