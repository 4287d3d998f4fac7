/* Where rules meet their limits: angles that come out level or upright, names spread over lines,
 * facets cut away again, stones without a girdle or off the axis, frames begun from the crown. */
#include "cut/bench.h"

#include "geom/angle.h"

#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#define SQUARE                                                                                     \
    "wheel 96\nfold 4 mirror\ndop crown\npavilion\n"                                               \
    "girdle at 90 on 96 to size\n"
#define PYRAMID SQUARE "main at 45 on 96 to level on own girdle\n"
#define LID "transfer\ncrown\nlid at 40 on 96 to girdle 10 %\n"

static const double tiny = 1e-13;

static void near_to(double found, double wanted)
{
    bench_near(found, wanted, tiny);
}

static const lw_facet *facet_of(const bench_stone *made, const char *name, int nth)
{
    for (int i = 0; i < made->stone.facet_count; i++) {
        const lw_step *step = &made->cut.steps[made->stone.facets[i].step];
        if (strcmp(step->name, name) == 0 && nth-- == 0) {
            return &made->stone.facets[i];
        }
    }
    fail_msg("no facet %s", name);
    return NULL;
}

static lw_sight sight_of(const bench_stone *made, const char *name)
{
    return made->check.sights[facet_of(made, name, 0)->step];
}

static void expect_problem(const char *text, lw_status wanted, const char *words)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut;
    lw_stone stone;
    assert_int_equal(lw_cut_read(&memory, text, strlen(text), &cut, &problem), LW_OK);
    assert_int_equal(lw_cut_solve(&memory, &cut, NULL, &stone, &problem), wanted);
    if (strstr(problem.found, words) == NULL && strstr(problem.hint, words) == NULL) {
        fail_msg("%s (%s) does not say %s", problem.found, problem.hint, words);
    }
    lw_cut_destroy(&cut);
}

/* ---- angles that come out ----------------------------------------------- */

/* Through two points that lie above one another, up to rounding: a girdle facet. */
static void free_angle_upright(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(PYRAMID LID
               "wall at free on 12 to share 30 % from meet left girdle, right girdle, left "
               "lid towards meet lid@0, lid@24, lid@48 and share 30 % from meet left "
               "girdle, right girdle, left pavilion main towards meet pavilion main@0, "
               "main@24, main@48\n",
               NULL, &made);
    const lw_facet *wall = facet_of(&made, "wall", 0);
    assert_true(wall->angle_deg == 90.0 && wall->plane.normal.z == 0.0);
    assert_int_equal(wall->side, LW_SIDE_GIRDLE);
    near_to(wall->plane.distance, 0.7 * sqrt(0.5));
    assert_int_equal(made.stone.measures.girdle_facet_count, 8);
    assert_true(made.check.every_meet);
    bench_drop(&made);
}

/* Through two points of one height, up to rounding: a table, a third of the way up. */
static void free_angle_level(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(PYRAMID LID "adapter\ntop at free on 96 to share 1/3 from line own girdle, own lid "
                           "towards apex and share 1/3 from line girdle@48, lid@48 towards apex\n",
               NULL, &made);
    const lw_facet *top = facet_of(&made, "top", 0);
    assert_true(top->angle_deg == 0.0 && top->plane.normal.z == 1.0);
    assert_true(top->plane.normal.x == 0.0 && top->plane.normal.y == 0.0);
    near_to(made.stone.measures.crown, 0.5 * lw_tan_deg(40.0) / 3.0);
    bench_drop(&made);
}

/* As deep as the table's width asks for, on that facet, whatever the angle: a level rule gives a
 * point too. Worked: half of 60 % of the width from the axis, 0.2 tan 40 above the girdle line. */
static void free_angle_by_a_table(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(PYRAMID LID
               "cap at free on 96 to table 60 % across lid@96 and reach 0 along lid@24, "
               "lid@72\n",
               NULL, &made);
    const lw_facet *cap = facet_of(&made, "cap", 0);
    near_to(cap->angle_deg, lw_atan2_deg(0.5 * lw_tan_deg(40.0) - 0.2 * lw_tan_deg(40.0), 0.3));
    bench_drop(&made);
}

/* A free tooth whose three points stand on an upright plane faces outward. */
static void free_tooth_upright(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(PYRAMID LID
               "wall at free on free near 12 to meet lid@0, girdle@0, girdle@24 and meet "
               "lid@24, girdle@24, girdle@48 and meet pavilion main@24, girdle@24, "
               "girdle@48\n",
               NULL, &made);
    const lw_facet *wall = facet_of(&made, "wall", 0);
    assert_true(wall->angle_deg == 90.0);
    near_to(wall->tooth, 24.0);
    near_to(wall->plane.distance, 0.5);
    near_to(wall->plane.normal.y, 1.0);
    bench_drop(&made);
}

/* ---- names -------------------------------------------------------------- */

/* The girdle stands on three lines; left and right are the nearest of all of them. */
static void a_name_spread_over_lines(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 4 mirror\ndop crown\npavilion\n"
               "girdle at 90 on 96 to size\ngirdle at 90 on 12 to size 110 %\n"
               "girdle at 90 on 6 to size 104 %\n"
               "main at 45 on 96 to level on own girdle\n"
               "corner at 44 on 12 to meet own girdle, left girdle, left main\n" LID,
               NULL, &made);
    /* On the line of girdle@12 and girdle@6, where main@96 meets it. */
    double c = lw_sincos_deg(22.5).cos, s = lw_sincos_deg(22.5).sin;
    /* x + y = 0.55 sqrt 2 and c x + s y = 0.52. */
    double sum = 0.55 * sqrt(2.0);
    double x = (0.52 - s * sum) / (c - s);
    double z = x - 0.5; /* on main@96: x - z = 0.5 at 45 degrees, in the frame of the rules */
    double raised = made.stone.raised;
    const lw_plane corner = facet_of(&made, "corner", 0)->plane;
    lw_sincos e = lw_sincos_deg(44.0);
    double worked = e.sin * sum * sqrt(0.5) - e.cos * z;
    near_to(corner.distance - corner.normal.z * raised, worked);
    bench_drop(&made);
}

/* A facet that was cut away again is nothing to measure from: blind. */
static void a_facet_cut_away_cannot_be_seen(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(SQUARE "temporary first at 30 on 96 to temporary point 60 %\n"
                      "main at 45 on 96 to distance 35 %\n"
                      "twin at 30 on 12 to match first@0\n" LID,
               NULL, &made);
    assert_int_equal(sight_of(&made, "twin"), LW_SIGHT_BLIND);
    assert_false(made.check.cuttable);
    bench_drop(&made);
}

/* ---- outlines and girdles ----------------------------------------------- */

/* Pavilion and crown of a square without a girdle: the edge where they meet is at mid-girdle. */
static void a_knife_edge(void **state)
{
    (void)state;
    bench_stone made;
    double s = sqrt(0.5);
    bench_make("wheel 96\nfold 4 mirror\ndop crown\npavilion\nmain at 45 on 96 to point 50 %\n"
               "transfer\ncrown\nlid at 45 on 96 to distance 50 %\n",
               NULL, &made);
    /* |x| - z <= 0.5 and |x| + z <= 0.5 sqrt 2: the edge at half the sum, half the difference up.
     */
    const lw_measures *m = &made.stone.measures;
    double edge = 0.25 + 0.5 * s;
    near_to(m->width, 2.0 * edge);
    near_to(m->depth, 0.5 + s);
    near_to(m->girdle_thick, 0.0);
    near_to(m->girdle_thin, 0.0);
    near_to(m->crown, edge);
    near_to(m->pavilion, edge);
    assert_int_equal(m->girdle_facet_count, 0);
    bench_drop(&made);
}

/* The same thickness is asked for at a flat and at a corner: each where its facet comes to the
 * outline. The pavilion's mains rise from 0 at the flats' middles; corners stand lower. */
static void girdle_thickness_at_flat_and_corner(void **state)
{
    (void)state;
    bench_stone made;
    bench_make(
        "wheel 96\nfold 4 mirror\ndop crown\npavilion\n"
        "girdle at 90 on 96 to size\nmain at 45 on 12 to point 60 %\n"
        "transfer\ncrown\nflat at 40 on 96 to girdle 10 %\ncorner at 40 on 12 to girdle 10 %\n",
        NULL, &made);
    double raised = made.stone.raised;
    const lw_plane flat = facet_of(&made, "flat", 0)->plane;
    const lw_plane corner = facet_of(&made, "corner", 0)->plane;
    lw_sincos e = lw_sincos_deg(40.0);
    /* The main on the diagonal: r - z = 0.6 along it. In the middle of a flat r = 0.5 sqrt(1/2), at
     * the corner r = sqrt(1/2). On the flat the girdle is thinnest at its corners. */
    double low_corner = sqrt(0.5) - 0.6;
    near_to(corner.distance - corner.normal.z * raised,
            e.sin * sqrt(0.5) + e.cos * (low_corner + 0.1));
    near_to(flat.distance - flat.normal.z * raised, e.sin * 0.5 + e.cos * (low_corner + 0.1));
    bench_drop(&made);
}

/* A block moved off the axis: 0.6 one way, 0.3 the other, 0.5 to the sides. */
static void an_outline_off_the_axis(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\ndop crown\npavilion\n"
               "girdle at 90 on 0, 24, 48, 72 to distance 60 %, 50 %, 30 %, 50 %\n"
               "main at 45 on 0, 24, 48, 72 to each level on own girdle\n"
               "transfer\ncrown\nlid at 0 to height 10 %\n",
               NULL, &made);
    const lw_measures *m = &made.stone.measures;
    near_to(m->width, 0.9);
    near_to(m->length_across, 1.0);
    near_to(m->length, sqrt(0.81 + 1.0));
    near_to(m->diameter, 2.0 * sqrt(0.36 + 0.25));
    bench_drop(&made);
}

/* The long side of an oblong, the diagonal, and an equilateral triangle (worked: all its widths are
 * its height, and it is as long as its side both ways). */
static void long_sides(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 2 mirror\ndop crown\npavilion\n"
               "girdle at 90 on 24 to size\ngirdle at 90 on 0 to size 150 %\n"
               "main at 45 on 24 to level on own girdle\nend at 45 on 0 to level on own girdle\n"
               "transfer\ncrown\nlid at 0 to height 10 %\n",
               NULL, &made);
    near_to(made.stone.measures.width, 1.0);
    near_to(made.stone.measures.length_across, 1.5);
    near_to(made.stone.measures.length, sqrt(3.25));
    bench_drop(&made);
    bench_make("wheel 96\nfold 3\ndop crown\npavilion\ngirdle at 90 on 0 to size\n"
               "main at 45 on 0 to level on own girdle\ntransfer\ncrown\nlid at 0 to height 10 %\n",
               NULL, &made);
    near_to(made.stone.measures.width, 1.5);
    near_to(made.stone.measures.length, sqrt(3.0));
    near_to(made.stone.measures.length_across, sqrt(3.0));
    bench_drop(&made);
}

/* ---- frames ------------------------------------------------------------- */

/* A table's height counts from the frame's zero before there is a girdle, from the crown's girdle
 * line after. */
static void heights_before_and_after_the_girdle(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 4 mirror\ndop pavilion\ncrown\nadapter\ntable at 0 to height 14 %\n"
               "adapter off\nlid at 45 on 96 to distance 43 %\ngirdle at 90 on 96 to size\n"
               "transfer\npavilion\nmain at 45 on 96 to girdle 10 %\n",
               NULL, &made);
    /* The lid comes to the girdle at 0.43 sqrt 2 - 0.5. */
    near_to(made.stone.measures.crown, 0.14 - (0.43 * sqrt(2.0) - 0.5));
    near_to(made.stone.measures.girdle_thick, 0.1);
    bench_drop(&made);
    bench_make("wheel 96\nfold 4 mirror\ndop pavilion\ncrown\n"
               "lid at 45 on 96 to distance 43 %\ngirdle at 90 on 96 to size\n"
               "adapter\ntable at 0 to height 14 %\n"
               "transfer\npavilion\nmain at 45 on 96 to girdle 10 %\n",
               NULL, &made);
    near_to(made.stone.measures.crown, 0.14);
    bench_drop(&made);
}

/* ---- the check ---------------------------------------------------------- */

/* A stone whose table was lost is not closed, and is said not to be. */
static void an_open_stone_is_not_closed(void **state)
{
    (void)state;
    bench_stone made;
    lw_memory memory = lw_memory_standard();
    lw_solid *solid = NULL;
    lw_polyhedron open;
    lw_check check;
    bench_make(PYRAMID "transfer\ncrown\nadapter\ntable at 0 to height 10 %\n", NULL, &made);
    assert_true(made.check.closed);
    assert_int_equal(lw_solid_new(&memory, made.stone.facet_count, &solid), LW_OK);
    lw_solid_start(solid, 4.0);
    for (int i = 0; i < made.stone.facet_count; i++) {
        lw_plane plane = made.stone.facets[i].plane;
        plane.distance = plane.normal.z == 1.0 ? 5.0 : plane.distance;
        assert_int_equal(lw_solid_cut(solid, plane, NULL), LW_OK);
    }
    lw_solid_extract(solid, &open);
    lw_polyhedron_destroy(&memory, &made.stone.solid);
    assert_int_equal(lw_polyhedron_copy(&memory, &open, &made.stone.solid), LW_OK);
    lw_solid_destroy(solid);
    assert_int_equal(lw_cut_check(&memory, &made.cut, &made.stone, NULL, &check), LW_OK);
    assert_false(check.closed);
    assert_int_equal(check.findings[0].kind, LW_FINDING_NOT_CLOSED);
    lw_check_destroy(&check);
    bench_drop(&made);
}

/* ---- words -------------------------------------------------------------- */

static void numbers_in_messages_have_a_point(void **state)
{
    (void)state;
    const char *text = PYRAMID LID "odd at 30 on 96 to meet lid@0, lid@24, girdle@0, girdle@12.5\n";
    expect_problem(text, LW_NOT_FOUND, "no girdle at that tooth");
    static const char misses[] = PYRAMID LID "low at 35 on 4.5 only to distance 30.125 %\n"
                                             "odd at 30 on 96 to meet lid@0, lid@24, low\n";
    expect_problem(misses, LW_NOT_FOUND, "");
    if (setlocale(LC_ALL, "de_DE.UTF-8") == NULL) {
        skip();
    }
    assert_string_equal(localeconv()->decimal_point, ",");
    static const char two_ends[] = PYRAMID "thin at 46 on 4.5 to distance 36 %\n" LID
                                           "odd at 30 on 4.5 only to meet thin@96, girdle@0\n";
    expect_problem(two_ends, LW_NOT_FOUND, "4.5");
    setlocale(LC_ALL, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(free_angle_upright),
        cmocka_unit_test(free_angle_level),
        cmocka_unit_test(free_angle_by_a_table),
        cmocka_unit_test(free_tooth_upright),
        cmocka_unit_test(a_name_spread_over_lines),
        cmocka_unit_test(a_facet_cut_away_cannot_be_seen),
        cmocka_unit_test(a_knife_edge),
        cmocka_unit_test(girdle_thickness_at_flat_and_corner),
        cmocka_unit_test(an_outline_off_the_axis),
        cmocka_unit_test(long_sides),
        cmocka_unit_test(heights_before_and_after_the_girdle),
        cmocka_unit_test(an_open_stone_is_not_closed),
        cmocka_unit_test(numbers_in_messages_have_a_point),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
