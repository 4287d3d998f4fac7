/* The sentence of every rule, with the numbers that the dial shows. Expected sentences: worked by
 * hand from the language's own description of each rule and from the dial of a 96 wheel. */
#include "sheet/bench.h"
#include "sheet/scene.h"

#include "cut/read.h"
#include "cut/teeth.h"
#include "geom/angle.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Depths do not matter here, only names and numbers: the facets are placed by hand, each at 0.4 of
 * the width from the middle, in a stone of 10 mm. */
static const char every_rule[] =
    "wheel 96\n"
    "fold 4 mirror\n"
    "setting share = 40 % from 10 to 90\n"
    "pavilion\n"
    "main at 43 on 96 to temporary point\n"
    "girdle at 90 on 96 to size 80 %\n"
    "girdle at 90 on 12, 36, 70 to size 80 %\n"
    "break at 45 on 6 to meet left main, left girdle, 2nd right main\n"
    "break at 45 on 6 to line left main, 2nd right main\n"
    "lower-half at 44 on 6 only to apex\n"
    "lower-half at 44 on 6 to share share from meet left main, right main, left girdle towards "
    "apex\n"
    "lower-half at 44 on 6 to share 1/4 from line left main, right main towards apex on left main\n"
    "lower-half at 44 on 12, 36 to level on own girdle\n"
    "lower-half at 44 on 12 to level on own girdle by meet left main, right main, own girdle\n"
    "keel at 40 on 24 only to reach 20 % along left main, right main\n"
    "keel at 40 on 24, 72 to reach 0 along left main, right main\n"
    "culet at 0 to culet 2 %\n"
    "transfer\n"
    "crown\n"
    "main at 42 on 12 to girdle 2.5 %\n"
    "main at 42 on 18 only to girdle 0.3 mm\n"
    "star at 27 on 6 to edge with left main 12 %\n"
    "star at 27 on 6 only to width 10 %\n"
    "star at 27 on 6 to equal with left girdle as between left girdle, left main\n"
    "star at 27 on 12 only to match opposite main\n"
    "star at 27 on 6 to distance 40 %\n"
    "star at 27 on 6, 18 to distance 41 %, 42 %\n"
    "star at free on 6 to meet left main, right main, left pavilion main and apex\n"
    "table at 0 to table 52 % across main@12\n"
    "table at 0 to height 14 %\n"
    "main at 42 on 12 to point 45 %\n";

static double angle_of(const lw_cut *cut, const lw_values *values, const lw_step *step)
{
    lw_value value = {LW_UNIT_NUMBER, 30.0};
    if (step->angle != NULL) {
        assert_int_equal(lw_value_of(cut, values, step->angle, &value, NULL), LW_OK);
    }
    return value.value;
}

static lw_facet place_facet(const lw_cut *cut, int at, double angle, double tooth)
{
    const lw_step *step = &cut->steps[at];
    lw_sincos e = lw_sincos_deg(angle);
    lw_sincos a = lw_tooth_sincos(tooth, cut->wheel);
    double up = step->side == LW_SIDE_CROWN ? 1.0 : -1.0;
    return (lw_facet){.step = at,
                      .side = angle == 90.0 ? LW_SIDE_GIRDLE : step->side,
                      .tooth = tooth,
                      .angle_deg = angle,
                      .plane = {{e.sin * a.cos, e.sin * a.sin, up * e.cos}, 0.4}};
}

typedef struct hand_made {
    lw_cut cut;
    lw_values values;
    lw_stone stone;
    lw_facet facets[400];
    lw_tier tiers[64];
} hand_made;

static void make(const char *text, hand_made *out)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    if (lw_cut_read(&memory, text, strlen(text), &out->cut, &problem) != LW_OK) {
        char words[600];
        (void)lw_problem_write(&problem, words, sizeof words);
        fail_msg("%s", words);
    }
    assert_int_equal(lw_values_make(&out->cut, NULL, 0, &out->values, NULL), LW_OK);
    int count = 0;
    for (int i = 0; i < out->cut.step_count; i++) {
        const lw_step *step = &out->cut.steps[i];
        lw_tooth_image images[96];
        int teeth = 0;
        if (step->kind == LW_STEP_FACETS) {
            teeth = lw_step_teeth(&out->cut, step, images, 96);
        }
        double angle = teeth > 0 ? angle_of(&out->cut, &out->values, step) : 0.0;
        out->tiers[i] = (lw_tier){count, teeth, angle};
        for (int k = 0; k < teeth; k++) {
            out->facets[count++] = place_facet(&out->cut, i, angle, images[k].tooth);
        }
    }
    out->stone = (lw_stone){.facet_count = count,
                            .facets = out->facets,
                            .tier_count = out->cut.step_count,
                            .tiers = out->tiers,
                            .unit_mm = 10.0};
}

static lw_scene scene_of(const hand_made *made, int step)
{
    return (lw_scene){.cut = &made->cut,
                      .stone = &made->stone,
                      .values = &made->values,
                      .kit = {.wheel = made->cut.wheel},
                      .step = step};
}

#define MM "\u00a0mm"
#define _ "\u00a0"

typedef struct expected {
    const char *title, *until;
} expected;

/* One for each step of the text above, in order. */
static const expected sentences[] = {
    {"Pavilion mains", "until all four run into one temporary point."},
    {"Girdle flats", "until opposite flats are 8.00" MM " apart."},
    {"Girdle flats", "until they lie 4.00" MM " from the axis."},
    {"Pavilion breaks", "until they reach the point where main" _ "96, girdle flat" _
                        "96 and main" _ "48 meet (told for tooth 6; the others alike)."},
    {"Pavilion breaks",
     "until they reach the edge between mains" _ "96 and 48 (told for tooth 6; the others alike)."},
    {"Pavilion lower half", "until it reaches the centre point."},
    {"Pavilion lower halves", "until they reach a place 40.0" _ "% ("},
    {"Pavilion lower halves",
     "until the edge on main" _ "96 lies at the height of a place 25.0" _ "% ("},
    {"Pavilion lower halves",
     "until the edge on girdle flat" _
     "12 is level at the girdle line (told for tooth 12; the others alike)."},
    {"Pavilion lower halves",
     "until the edge on girdle flat" _ "12 is level at the height of the point where mains" _
     "96 and 24 and girdle flat" _ "12 meet (told for tooth 12; the others alike)."},
    {"Pavilion keel",
     "until it reaches the line of mains" _ "96 and 48, 2.00" MM " from the axis."},
    {"Pavilion keels", "until they reach the line of mains" _ "96 and 48 on the axis."},
    {"Culet", "until it is 0.20" MM " across."},
    {NULL, NULL},
    {"Crown mains", "until the girdle is 0.25" MM " thick where they come to it."},
    {"Crown main", "until the girdle is 0.30" MM " thick where it comes to it."},
    {"Crown stars",
     "until the edge with main" _ "12 is 1.20" MM " long (told for tooth 90; the others alike)."},
    {"Crown star", "until it is 1.00" MM " wide."},
    {"Crown stars",
     "until the edge with girdle flat" _ "96 is as long as the edge between girdle flat" _
     "96 and main" _ "12 (told for tooth 90; the others alike)."},
    {"Crown star", "until it is as deep as main" _ "36."},
    {"Crown stars",
     "until they lie 4.00" MM
     " from the middle of the stone, straight out; the height on the mast shows it."},
    {"Crown stars", "until each lies as far from the middle of the stone, straight out, as is told "
                    "with its tooth; the height on the mast shows it."},
    {"Crown stars", "until they reach the point where mains" _ "12 and 84 and pavilion main" _
                    "96 meet and they reach the centre point (told for tooth 90; the others "
                    "alike)."},
    {"Table", "until it is 52.0" _ "% as wide as the stone, measured across main" _ "84."},
    {"Table", "until it lies 1.40" MM " above the girdle line."},
    {"Crown mains", "until all four run into one point, 4.50" MM " above the girdle line."},
};

static void test_every_rule(void **state)
{
    (void)state;
    static hand_made made;
    make(every_rule, &made);
    size_t count = sizeof sentences / sizeof sentences[0];
    assert_int_equal(count, made.cut.step_count);
    bool said[LW_RULE_DISTANCE + 1] = {false};
    for (size_t i = 0; i < count; i++) {
        lw_scene scene = scene_of(&made, (int)i);
        if (sentences[i].title == NULL) {
            assert_int_not_equal(lw_scene_step(&scene)->kind, LW_STEP_FACETS);
            continue;
        }
        lw_phrase phrase;
        lw_say_title(&scene, &phrase);
        assert_string_equal(phrase.text, sentences[i].title);
        lw_say_until(&scene, &phrase);
        if (strncmp(phrase.text, sentences[i].until, strlen(sentences[i].until)) != 0) {
            fail_msg("step %zu says \"%s\"\nexpected \"%s\"", i + 1, phrase.text,
                     sentences[i].until);
        }
        for (int r = 0; r < lw_scene_step(&scene)->rule_count; r++) {
            said[lw_scene_step(&scene)->rules[r].kind] = true;
        }
    }
    for (int kind = 0; kind <= LW_RULE_DISTANCE; kind++) {
        assert_true(said[kind]);
    }
    lw_cut_destroy(&made.cut);
}

/* Without a size, lengths are told as a share of the width. */
static void test_without_size(void **state)
{
    (void)state;
    static hand_made made;
    make(every_rule, &made);
    made.stone.unit_mm = 0.0;
    lw_scene scene = scene_of(&made, 14);
    lw_phrase phrase;
    lw_say_until(&scene, &phrase);
    assert_string_equal(phrase.text, "until the girdle is 2.5\u00a0% of the width thick where they "
                                     "come to it.");
    lw_cut_destroy(&made.cut);
}

/* worked: a fifth of 96 is 19.2: tooth 19 and 0.2 x 3.75 = 0.75 degrees; on the crown 76.8, that is
 * 77 less 0.75. */
static void test_cheater(void **state)
{
    (void)state;
    static hand_made made;
    make(
        "wheel 96\nfold 5\npavilion\nmain at 43 on 96 to point\ncrown\nmain at 40 on 96 to point\n",
        &made);
    lw_scene scene = scene_of(&made, 0);
    lw_phrase phrase;
    lw_phrase_clear(&phrase);
    lw_say_dial(&phrase, lw_scene_dial(&scene, 1));
    assert_string_equal(phrase.text, "19\u00a0+0.75\u00b0");
    scene = scene_of(&made, 1);
    lw_phrase_clear(&phrase);
    lw_say_dial(&phrase, lw_scene_dial(&scene, made.tiers[1].first + 1));
    assert_string_equal(phrase.text, "77\u00a0\u22120.75\u00b0");
    lw_cut_destroy(&made.cut);
}

/* A tier opens when nothing of its side is cut yet; the girdle is a side of its own. */
static void test_openings(void **state)
{
    (void)state;
    static hand_made made;
    make(every_rule, &made);
    for (int step = 0; step < made.cut.step_count; step++) {
        lw_scene scene = scene_of(&made, step);
        bool opens = step == 0 || step == 1 || step == 14;
        assert_true(lw_scene_opens(&scene) == opens);
    }
    lw_cut_destroy(&made.cut);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_rule),
        cmocka_unit_test(test_without_size),
        cmocka_unit_test(test_cheater),
        cmocka_unit_test(test_openings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
