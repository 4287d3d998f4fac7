/* Stretched outlines, and adapt when memory runs out. */
#include "cut/adapt.h"
#include "cut/adapt_help.h"
#include "cut/write.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static lw_memory memory;

static void stretch(const solved_cut *from, double ratio, bool whole_teeth, lw_adapted *out)
{
    lw_problem problem = {0};
    lw_status status =
        lw_adapt_to_outline(&memory, &from->cut, &from->stone, ratio, whole_teeth, out, &problem);
    if (status != LW_OK) {
        fail_msg("%d: %s; %s", problem.line, problem.found, problem.expected);
    }
    check_promises(out);
}

static lw_vec3 stretched_place(const void *context, lw_vec3 p)
{
    const lw_vec3 *ratio = context;
    return (lw_vec3){p.x * ratio->x, p.y * ratio->y, p.z};
}

static double extent(const lw_stone *stone, lw_vec3 axis)
{
    return lw_polyhedron_support(&stone->solid, axis, NULL) +
           lw_polyhedron_support(&stone->solid, lw_vec3_scale(axis, -1.0), NULL);
}

/* How much longer x and y have become; checked to be true of every vertex. */
static lw_vec3 expect_linear(const lw_stone *was, const lw_stone *is)
{
    lw_vec3 x = {1.0, 0.0, 0.0};
    lw_vec3 y = {0.0, 1.0, 0.0};
    lw_vec3 ratio = {extent(is, x) / extent(was, x), extent(is, y) / extent(was, y), 1.0};
    assert_true(vertices_differ(was, is, stretched_place, &ratio) < 1e-12);
    return ratio;
}

/* worked: a linear map keeps volume over area in plan: the volume grows by the ratio, depth and
 * girdle stay, and every vertex is where the map puts it. */
static void test_every_cut(void **state)
{
    (void)state;
    for (int i = 0; built_in_cuts[i] != NULL; i++) {
        solved_cut from;
        lw_adapted to;
        solve_file(built_in_cuts[i], i % 2 ? 7.0 : 0.0, &from);
        double ratio = 1.25 * from.stone.measures.length / from.stone.measures.width;
        stretch(&from, ratio, false, &to);
        assert_true(to.exact);
        assert_true(to.deviation < 1e-12);
        lw_vec3 grown = expect_linear(&from.stone, &to.stone);
        const lw_measures *was = &from.stone.measures;
        const lw_measures *is = &to.stone.measures;
        assert_true(fabs(is->length / is->width - ratio) < 1e-9);
        assert_true(fabs(is->depth - was->depth) < 1e-12);
        assert_true(fabs(is->mass.volume / was->mass.volume - grown.x * grown.y) < 1e-12);
        assert_true((grown.x > 1.0 + 1e-9) != (grown.y > 1.0 + 1e-9));
        assert_true(fabs(to.stone.unit_mm - from.stone.unit_mm) < 1e-12);
        assert_int_equal(is->facet_count, was->facet_count);
        assert_int_equal(is->girdle_facet_count, was->girdle_facet_count);
        lw_adapted_destroy(&to);
        lw_adapted_destroy(&from);
    }
}

/* How often the words stand in the cut's text. */
static int times_in_text(const lw_cut *cut, const char *words)
{
    static char text[1 << 16];
    int times = 0;
    assert_true(lw_cut_write(cut, text, sizeof text) < sizeof text);
    for (const char *at = strstr(text, words); at != NULL; at = strstr(at + 1, words)) {
        times++;
    }
    return times;
}

/* An oval from the round: half a turn and the mirror are what is left of its symmetry, and the cut
 * says so; meets stay meets. A triangle keeps its mirror alone. */
static void test_oval_from_round(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to;
    solve_file("cuts/classic-quartz-round.cut", 0.0, &from);
    stretch(&from, 1.3, false, &to);
    assert_true(text_has(&to.cut, "fold     2 mirror"));
    /* Eight breaks a side become four tiers, of eight stars two. */
    assert_int_equal(times_in_text(&to.cut, "to meet left main, own girdle, left girdle"), 8);
    assert_int_equal(
        times_in_text(&to.cut, "to meet left main, right main, left break, right break"), 2);
    assert_int_equal(times_in_text(&to.cut, "to distance"), 2);
    assert_true(text_has(&to.cut, "on 24 to girdle girdle"));
    assert_true(text_has(&to.cut, "note     \"Stretched until the length is 1.3 times the width, "
                                  "along tooth 96; fractions of a tooth are the cheater's.\""));
    /* worked: the mains at 24 face along the width, which does not change. */
    assert_true(text_has(&to.cut, "at 43 "));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
    solve_file("cuts/triangle-brilliant.cut", 0.0, &from);
    stretch(&from, 1.2, false, &to);
    assert_true(text_has(&to.cut, "fold     mirror\n"));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&from);
}

/* worked: a normal at azimuth a stretched by s along x stands at atan2(sin a, cos a / s), and its
 * tangent of e becomes tan e x sqrt(cos^2 a / s^2 + sin^2 a). */
static void test_angles_worked(void **state)
{
    (void)state;
    solved_cut from;
    lw_stone to;
    double pi = acos(-1.0);
    solve_file("cuts/pinwheel.cut", 0.0, &from);
    assert_int_equal(lw_stone_stretch(&memory, &from.stone, 96, 1.5, 1.0, &to), LW_OK);
    for (int i = 0; i < to.facet_count; i++) {
        const lw_facet *was = &from.stone.facets[i];
        const lw_facet *is = &to.facets[i];
        double a = was->tooth / 48.0 * pi;
        double e = was->angle_deg / 180.0 * pi;
        double azimuth = atan2(sin(a), cos(a) / 1.5) * 48.0 / pi;
        double tangent = tan(e) * hypot(cos(a) / 1.5, sin(a));
        if (was->angle_deg > 0.0) {
            double off = fabs(azimuth - is->tooth);
            assert_true(fmin(off, fabs(96.0 - off)) < 1e-9);
        }
        if (was->angle_deg > 0.0 && was->angle_deg < 90.0) {
            assert_true(fabs(atan(tangent) * 180.0 / pi - is->angle_deg) < 1e-9);
        } else {
            assert_true(is->angle_deg == was->angle_deg);
        }
    }
    lw_stone_destroy(&to);
    lw_adapted_destroy(&from);
}

/* Rounded to the wheel every tooth is whole; the stone closes, keeps its facets, and comes near to
 * what was asked for. */
static void test_whole_teeth(void **state)
{
    (void)state;
    static const char *const cuts[] = {"cuts/classic-quartz-round.cut", "cuts/single-cut.cut",
                                       "cuts/step-octagon.cut", "cuts/pinwheel.cut"};
    for (int i = 0; i < 4; i++) {
        solved_cut from;
        lw_adapted to;
        solve_file(cuts[i], 0.0, &from);
        double ratio = 1.2 * from.stone.measures.length / from.stone.measures.width;
        stretch(&from, ratio, true, &to);
        assert_false(to.exact);
        for (int k = 0; k < to.stone.facet_count; k++) {
            double tooth = to.stone.facets[k].tooth;
            assert_true(floor(tooth) == tooth);
        }
        const lw_measures *m = &to.stone.measures;
        assert_true(fabs(m->length / m->width - ratio) < 0.03);
        assert_int_equal(m->facet_count, from.stone.measures.facet_count);
        lw_adapted_destroy(&to);
        lw_adapted_destroy(&from);
    }
}

/* The middle of a face's corners. */
static lw_vec3 middle_of(const lw_polyhedron *solid, int plane)
{
    lw_vec3 sum = {0.0, 0.0, 0.0};
    int first = solid->face_start[plane];
    int end = solid->face_start[plane + 1];
    for (int k = first; k < end; k++) {
        sum = lw_vec3_add(sum, solid->vertices[solid->face_vertex[k]]);
    }
    return lw_vec3_scale(sum, 1.0 / (double)(end - first));
}

/* A girdle facet whose tooth is rounded is turned about the middle of its face, so that it stays
 * where it is: far from the axis even a small turn about that would move it out or in. worked: the
 * faces of a girdle are rectangles, so their middle is that of their corners. */
static void test_turned_where_it_is(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted exact;
    lw_adapted whole;
    int turned = 0;
    solve_file("cuts/classic-quartz-round.cut", 0.0, &from);
    stretch(&from, 1.5, false, &exact);
    stretch(&from, 1.5, true, &whole);
    for (int i = 0; i < exact.stone.facet_count; i++) {
        const lw_facet *was = &exact.stone.facets[i];
        const lw_facet *is = &whole.stone.facets[i];
        if (was->side != LW_SIDE_GIRDLE) {
            continue;
        }
        lw_vec3 middle = middle_of(&exact.stone.solid, i);
        assert_true(fabs(lw_plane_height(is->plane, middle)) < 1e-12);
        turned += lw_vec3_length(lw_vec3_sub(was->plane.normal, is->plane.normal)) > 1e-3;
    }
    assert_int_equal(turned, 16);
    assert_true(text_has(&whole.cut, "to meet left main, right main, left break"));
    lw_adapted_destroy(&whole);
    lw_adapted_destroy(&exact);
    lw_adapted_destroy(&from);
}

/* A left-handed, mirrorless cut: names of neighbours and teeth go the text's way. */
static void test_left_handed(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted left;
    lw_adapted to;
    solve_file("cuts/pinwheel.cut", 0.0, &from);
    assert_int_equal(lw_adapt_to_mirror(&memory, &from.cut, &from.stone, &left, NULL), LW_OK);
    stretch(&left, 1.4, false, &to);
    assert_true(to.exact);
    (void)expect_linear(&left.stone, &to.stone);
    assert_true(text_has(&to.cut, "hand     left"));
    lw_adapted_destroy(&to);
    lw_adapted_destroy(&left);
    lw_adapted_destroy(&from);
}

static void test_refused(void **state)
{
    (void)state;
    solved_cut from;
    lw_adapted to = {0};
    lw_problem problem = {0};
    static const double bad[] = {0.9, NAN, INFINITY, -2.0, 0.0};
    solve_file("cuts/single-cut.cut", 0.0, &from);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        assert_int_equal(
            lw_adapt_to_outline(&memory, &from.cut, &from.stone, bad[i], false, &to, &problem),
            LW_BAD_INPUT);
    }
    /* Sixteen flats are 1.0196 as long as wide: 1 cannot be had. */
    assert_int_equal(lw_adapt_to_outline(&memory, &from.cut, &from.stone, 1.0, false, &to, NULL),
                     LW_NO_SOLUTION);
    assert_int_equal(lw_adapt_to_outline(&memory, &from.cut, &from.stone, 50.0, false, &to, NULL),
                     LW_NO_SOLUTION);
    assert_null(to.stone.facets);
    lw_adapted_destroy(&from);
}

/* ---- memory that runs out ---- */

typedef struct ration {
    long left;  /* so many are given */
    long given; /* blocks out at present */
} ration;

static void *rationed(void *context, void *block, size_t old_size, size_t new_size)
{
    ration *r = context;
    (void)old_size;
    if (new_size == 0) {
        r->given -= block != NULL;
        free(block);
        return NULL;
    }
    if (r->left-- <= 0) {
        return NULL;
    }
    void *fresh = realloc(block, new_size);
    r->given += block == NULL;
    return fresh;
}

typedef lw_status change(const lw_memory *m, const solved_cut *from, lw_adapted *out);

static lw_status other_angles(const lw_memory *m, const solved_cut *from, lw_adapted *out)
{
    lw_adapt_angles angles = {41.0, 35.0};
    return lw_adapt_to_angles(m, &from->cut, &from->stone, &angles, out, NULL);
}

static lw_status other_wheel(const lw_memory *m, const solved_cut *from, lw_adapted *out)
{
    lw_wheel_fit fit = {.wheel = 80, .offset = 0.25};
    return lw_adapt_to_wheel(m, &from->cut, &from->stone, &fit, out, NULL);
}

static lw_status other_outline(const lw_memory *m, const solved_cut *from, lw_adapted *out)
{
    return lw_adapt_to_outline(m, &from->cut, &from->stone, 1.2, false, out, NULL);
}

static lw_status other_hand(const lw_memory *m, const solved_cut *from, lw_adapted *out)
{
    return lw_adapt_to_mirror(m, &from->cut, &from->stone, out, NULL);
}

/* The n-th allocation fails, for every n until the work is done: the answer is that memory is out,
 * the output is untouched, and nothing is kept. */
static void test_memory(void **state)
{
    (void)state;
    static change *const changes[] = {other_angles, other_wheel, other_outline, other_hand};
    solved_cut from;
    solve_file("cuts/single-cut.cut", 0.0, &from);
    for (size_t c = 0; c < sizeof changes / sizeof *changes; c++) {
        lw_status status = LW_NO_MEMORY;
        for (long n = 0; status != LW_OK; n++) {
            assert_true(n < 3000);
            ration r = {.left = n, .given = 0};
            lw_memory scarce = {rationed, &r};
            lw_adapted to = {.deviation = 17.0};
            status = changes[c](&scarce, &from, &to);
            if (status != LW_OK) {
                assert_int_equal(status, LW_NO_MEMORY);
                assert_true(to.deviation == 17.0 && to.stone.facets == NULL);
            } else {
                assert_true(n > 10);
                lw_adapted_destroy(&to);
                lw_adapted_destroy(&to);
            }
            assert_int_equal(r.given, 0);
        }
    }
    lw_adapted_destroy(&from);
}

int main(void)
{
    memory = lw_memory_standard();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_cut),
        cmocka_unit_test(test_oval_from_round),
        cmocka_unit_test(test_angles_worked),
        cmocka_unit_test(test_whole_teeth),
        cmocka_unit_test(test_turned_where_it_is),
        cmocka_unit_test(test_left_handed),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
