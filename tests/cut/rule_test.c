/* Every depth rule, on stones simple enough to work out by hand. */
#include "cut/bench.h"

#include "geom/angle.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* A square block: girdle of four flats, one wide, open above and below. */
#define SQUARE                                                                                     \
    "wheel 96\nfold 4 mirror\ndop crown\npavilion\n"                                               \
    "girdle at 90 on 96 to size\n"
/* A pyramid below it, its girdle line at z = 0 of the frame, its point 0.5 tan 45 = 0.5 down. */
#define PYRAMID SQUARE "main at 45 on 96 to level on own girdle\n"
/* A crown to close it: a level facet 0.2 above the pavilion's girdle line. */
#define LID "transfer\ncrown\nadapter\ntable at 0 to height 20 %\n"

static const double tiny = 1e-14;

static void near_to(double found, double wanted)
{
    bench_near(found, wanted, tiny);
}

static const lw_facet *first_of(const bench_stone *made, const char *name)
{
    for (int i = 0; i < made->stone.facet_count; i++) {
        const lw_step *step = &made->cut.steps[made->stone.facets[i].step];
        if (strcmp(step->name, name) == 0) {
            return &made->stone.facets[i];
        }
    }
    fail_msg("no facet %s", name);
    return NULL;
}

/* The depth of that facet in the frame that the rules speak of, before the stone is centred. */
static double depth_of(const bench_stone *made, const char *name)
{
    lw_plane plane = first_of(made, name)->plane;
    return plane.distance - plane.normal.z * made->stone.raised;
}

static void expect_depth(const char *text, const char *name, double wanted)
{
    bench_stone made;
    bench_make(text, NULL, &made);
    near_to(depth_of(&made, name), wanted);
    bench_drop(&made);
}

static void expect_angle(const char *text, const char *name, double wanted)
{
    bench_stone made;
    bench_make(text, NULL, &made);
    double found = bench_angle(&made, name, 0);
    if (!(fabs(found - wanted) <= 1e-12)) {
        fail_msg("%s at %.17g, wanted %.17g", name, found, wanted);
    }
    bench_drop(&made);
}

static void size_is_half_the_width(void **state)
{
    (void)state;
    expect_depth(PYRAMID LID, "girdle", 0.5);
    expect_depth("wheel 96\nfold 4\npavilion\ngirdle at 90 on 96 to size 92 %\n"
                 "main at 45 on 96 to level on own girdle\n" LID,
                 "girdle", 0.46);
}

static void level_line_on_the_girdle(void **state)
{
    (void)state;
    /* Through (0.5, z = 0) at 45 degrees. */
    expect_depth(PYRAMID LID, "main", 0.5 * sqrt(0.5));
}

static void point_on_the_axis(void **state)
{
    (void)state;
    double s = sqrt(0.5);
    /* Without a value the first tier stands half a width out at z = 0. */
    expect_depth("wheel 96\nfold 4\npavilion\nmain at 45 on 96 to point\n"
                 "girdle at 90 on 96 to size\n" LID,
                 "main", 0.5 * s);
    /* With one it is that far below. */
    expect_depth("wheel 96\nfold 4\npavilion\nmain at 45 on 96 to point 40 %\n"
                 "girdle at 90 on 96 to size\n" LID,
                 "main", 0.4 * s);
    /* On the crown it counts from the girdle line: 0.1 up, then 0.3. */
    expect_depth(PYRAMID "transfer\ncrown\nlid at 45 on 96 to girdle 10 %\n"
                         "cap at 30 on 96 to point 30 %\n",
                 "cap", 0.4 * sqrt(0.75));
}

static void meet_of_three(void **state)
{
    (void)state;
    /* Through the corner of the block at z = 0, (0.5, 0.5): 45 degrees along the diagonal. */
    expect_depth(PYRAMID "corner at 60 on 12 to meet left main, right main, left girdle\n" LID,
                 "corner", sqrt(0.5) * sqrt(0.75));
}

static void free_angle_by_two_meets(void **state)
{
    (void)state;
    /* From the corner to the point: 0.5 down over 0.5 sqrt 2 out. */
    expect_angle(PYRAMID
                 "corner at free on 12 to apex and meet left main, right main, left girdle\n" LID,
                 "corner", lw_atan2_deg(0.5, sqrt(0.5)));
}

static void free_tooth_by_three_meets(void **state)
{
    (void)state;
    bench_stone made;
    /* Through three points of the block's girdle line and point: the main at tooth 24 itself. */
    bench_make(PYRAMID "again at free on free near 20 to apex and meet main@96, main@24, girdle@24 "
                       "and meet main@24, main@48, girdle@24\n" LID,
               NULL, &made);
    const lw_facet *again = first_of(&made, "again");
    near_to(again->plane.normal.x, 0.0);
    assert_true(fabs(again->tooth - 24.0) < 1e-9);
    assert_true(fabs(again->angle_deg - 45.0) < 1e-9);
    assert_int_equal(bench_findings(&made, LW_FINDING_NO_AREA), 1);
    bench_drop(&made);
}

static void line_and_share(void **state)
{
    (void)state;
    /* Half way down the main's slope: (0.25, -0.25), at 30 degrees. */
    const char *half = PYRAMID "lower at 30 on 96 to share 50 % from line own girdle, own main "
                               "towards apex\n" LID;
    expect_depth(half, "lower", 0.25 * 0.5 + 0.25 * sqrt(0.75));
    /* The same by level, on the facet. */
    const char *on = PYRAMID "lower at 30 on 96 to share 50 % from line own girdle, own main "
                             "towards apex on own main\n" LID;
    expect_depth(on, "lower", 0.25 * 0.5 + 0.25 * sqrt(0.75));
}

static void outline_corner_at_the_level(void **state)
{
    (void)state;
    expect_angle(PYRAMID "corner at free on 12 to apex and line left girdle, right girdle\n" LID,
                 "corner", lw_atan2_deg(0.5, sqrt(0.5)));
}

static void girdle_thickness(void **state)
{
    (void)state;
    /* The lid passes 0.07 above the girdle line at x = 0.5. */
    expect_depth(PYRAMID "transfer\ncrown\nlid at 30 on 96 to girdle 7 %\n", "lid",
                 0.5 * 0.5 + 0.07 * sqrt(0.75));
    bench_stone made;
    bench_make(PYRAMID "transfer\ncrown\nlid at 30 on 96 to girdle 0.35 mm\n",
               &(lw_solve_options){.size_kind = LW_SIZE_WIDTH_MM, .size = 5.0}, &made);
    near_to(made.stone.measures.girdle_thick * made.stone.unit_mm, 0.35);
    near_to(made.stone.measures.girdle_thin * made.stone.unit_mm, 0.35);
    bench_drop(&made);
}

static void table_by_percent(void **state)
{
    (void)state;
    /* A 45 degree lid from 0.1 at x = 0.5; at x = 0.3 it is 0.2 higher. */
    expect_depth(PYRAMID "transfer\ncrown\nlid at 45 on 96 to girdle 10 %\nadapter\n"
                         "table at 0 to table 60 % across lid@96\n",
                 "table", 0.3);
}

static void height_from_the_girdle_line(void **state)
{
    (void)state;
    expect_depth(PYRAMID "transfer\ncrown\nlid at 45 on 96 to girdle 10 %\nadapter\n"
                         "table at 0 to height 15 %\n",
                 "table", 0.25);
}

/* Two sides at 45 degrees make a keel along y, 0.5 down; an end at 45 through its point 0.2 out. */
static void along_a_keel(void **state)
{
    (void)state;
    expect_depth("wheel 96\nfold 2 mirror\npavilion\ngirdle at 90 on 96 to size\n"
                 "girdle at 90 on 24 to size 150 %\nside at 45 on 96 to level on own girdle\n"
                 "end at 45 on 24 to reach 20 % along side@96, side@48\n" LID,
                 "end", (0.2 + 0.5) * sqrt(0.5));
}

/* Corners cut from a square until all eight sides are equal: the regular octagon. */
static void equal_edges(void **state)
{
    (void)state;
    expect_depth(PYRAMID LID "adapter off\ncorner at 90 on 12 to equal with table as between left "
                             "girdle, table\n",
                 "corner", 0.5);
}

static void edge_and_facet_width(void **state)
{
    (void)state;
    /* A corner of width w cut from the unit square lies at sqrt(1/2) - w / 2 from the axis. */
    expect_depth(SQUARE "corner at 90 on 12 to width 20 %\n"
                        "main at 45 on 96 to level on own girdle\n" LID,
                 "corner", sqrt(0.5) - 0.1);
    /* The same corner by the length of its edge with a level lid is the same width. */
    expect_depth(PYRAMID LID "adapter off\ncorner at 90 on 12 to edge with table 20 %\n", "corner",
                 sqrt(0.5) - 0.1);
}

/* A culet 0.1 across on a 45 degree pyramid lies 0.05 above its point. */
static void culet_by_width(void **state)
{
    (void)state;
    expect_depth("wheel 96\nfold 4 mirror\npavilion\ngirdle at 90 on 96 to size\n"
                 "main at 45 on 96 to level on own girdle\nadapter\nculet at 0 to culet 10 %\n" LID,
                 "culet", 0.45);
}

static void match_and_distance(void **state)
{
    (void)state;
    const char *text = "wheel 96\npavilion\ngirdle at 90 on 96, 24, 48, 72 to distance 50 %, 60 %, "
                       "50 %, 60 %\nmain at 45 on 96 only to level on girdle@96\n"
                       "twin at 45 on 48 only to match main\n"
                       "end at 45 on 24, 72 to distance 0.5\n" LID;
    expect_depth(text, "twin", 0.5 * sqrt(0.5));
    expect_depth(text, "end", 0.5);
}

/* With "each" every tooth has its own depth; a brick's four sides on one level line. */
static void each_tooth_its_own(void **state)
{
    (void)state;
    bench_stone made;
    bench_make("wheel 96\nfold 2 mirror\npavilion\ngirdle at 90 on 96 to size\n"
               "girdle at 90 on 24 to size 140 %\n"
               "main at 45 on 96, 24, 48, 72 to each level on own girdle\n" LID,
               NULL, &made);
    const lw_tier *tier = &made.stone.tiers[2];
    double s = sqrt(0.5);
    double raised = made.stone.raised * -s;
    near_to(made.stone.facets[tier->first].plane.distance - raised, 0.5 * s);
    near_to(made.stone.facets[tier->first + 1].plane.distance - raised, 0.7 * s);
    bench_drop(&made);
}

/* The right-handed stone's mirror image, tooth by tooth. */
static void left_handed_is_the_mirror_image(void **state)
{
    (void)state;
    const char *rule =
        "fold 3\npavilion\nmain at 45 on 2 to point\ngirdle at 90 on 5 to size\n" LID;
    char right[400] = "wheel 96\n";
    char left[400] = "wheel 96\nhand left\n";
    bench_stone a;
    bench_stone b;
    bench_make(strcat(right, rule), NULL, &a);
    bench_make(strcat(left, rule), NULL, &b);
    assert_int_equal(a.stone.facet_count, b.stone.facet_count);
    for (int i = 0; i < a.stone.facet_count; i++) {
        lw_plane p = a.stone.facets[i].plane;
        lw_plane q = b.stone.facets[i].plane;
        assert_true(p.normal.x == q.normal.x && p.normal.y == -q.normal.y);
        assert_true(p.normal.z == q.normal.z && p.distance == q.distance);
    }
    assert_true(b.stone.facets[0].tooth == 94.0);
    bench_drop(&a);
    bench_drop(&b);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(size_is_half_the_width),
        cmocka_unit_test(level_line_on_the_girdle),
        cmocka_unit_test(point_on_the_axis),
        cmocka_unit_test(meet_of_three),
        cmocka_unit_test(free_angle_by_two_meets),
        cmocka_unit_test(free_tooth_by_three_meets),
        cmocka_unit_test(line_and_share),
        cmocka_unit_test(outline_corner_at_the_level),
        cmocka_unit_test(girdle_thickness),
        cmocka_unit_test(table_by_percent),
        cmocka_unit_test(height_from_the_girdle_line),
        cmocka_unit_test(along_a_keel),
        cmocka_unit_test(equal_edges),
        cmocka_unit_test(edge_and_facet_width),
        cmocka_unit_test(culet_by_width),
        cmocka_unit_test(match_and_distance),
        cmocka_unit_test(each_tooth_its_own),
        cmocka_unit_test(left_handed_is_the_mirror_image),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
