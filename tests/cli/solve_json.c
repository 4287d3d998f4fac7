/* What lapwing solve --json promises, looked at from outside for every built-in cut: the facets are
 * planes of the stone, the faces go round counter-clockwise and close it, the measures agree with
 * the corners, and azimuth and tooth with the normal. Needs nothing of core: only what is printed.
 *
 * solve_json LAPWING
 */
#include <jansson.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { MOST_CUTS = 100 };

#define ASSERT_NEAR(found, expected, within)                                                       \
    do {                                                                                           \
        double found_ = (found), expected_ = (expected);                                           \
        if (!(fabs(found_ - expected_) <= (within))) {                                             \
            fail_msg("found %.17g, expected %.17g", found_, expected_);                            \
        }                                                                                          \
    } while (0)

static const char *lapwing;

typedef struct point {
    double x, y, z;
} point;

static json_t *ask(const char *rest)
{
    char command[1000];
    snprintf(command, sizeof command, "'%s' %s", lapwing, rest);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    json_t *object = json_loadf(pipe, JSON_REJECT_DUPLICATES, NULL);
    assert_int_equal(pclose(pipe), 0);
    assert_true(json_is_object(object));
    return object;
}

static double number(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    assert_true(json_is_number(value));
    return json_number_value(value);
}

static point triple(const json_t *list)
{
    assert_int_equal(json_array_size(list), 3);
    return (point){json_number_value(json_array_get(list, 0)),
                   json_number_value(json_array_get(list, 1)),
                   json_number_value(json_array_get(list, 2))};
}

static point minus(point a, point b)
{
    return (point){a.x - b.x, a.y - b.y, a.z - b.z};
}

static point cross(point a, point b)
{
    return (point){a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

static double dot(point a, point b)
{
    return a.x * b.x + a.y * b.y + a.z * b.z;
}

static point corner(const json_t *stone, const json_t *face, size_t i)
{
    size_t n = json_array_size(face);
    size_t at = (size_t)json_integer_value(json_array_get(face, i % n));
    return triple(json_array_get(json_object_get(stone, "vertices_mm"), at));
}

/* Twice the face's area along its normal, and six times its share of the volume. */
static void walk_face(const json_t *stone, const json_t *face, point normal, double *area,
                      double *volume)
{
    point first = corner(stone, face, 0);
    *area = 0.0;
    for (size_t i = 1; i + 1 < json_array_size(face); i++) {
        point a = corner(stone, face, i), b = corner(stone, face, i + 1);
        *area += 0.5 * dot(cross(minus(a, first), minus(b, first)), normal);
        *volume += dot(cross(first, a), b) / 6.0;
    }
}

static void check_normal(const json_t *facet, int wheel)
{
    const double turn = 2.0 * acos(-1.0);
    point n = triple(json_object_get(facet, "normal"));
    double e = number(facet, "angle_deg") / 360.0 * turn;
    double azimuth = number(facet, "azimuth_deg");
    const char *side = json_string_value(json_object_get(facet, "side"));
    ASSERT_NEAR(azimuth, number(facet, "tooth") / wheel * 360.0, 1e-9);
    ASSERT_NEAR(n.x, sin(e) * cos(azimuth / 360.0 * turn), 1e-12);
    ASSERT_NEAR(n.y, sin(e) * sin(azimuth / 360.0 * turn), 1e-12);
    ASSERT_NEAR(n.z, (strcmp(side, "pavilion") == 0 ? -1.0 : 1.0) * cos(e), 1e-12);
}

/* Every corner of the face on its plane, every other corner of the stone inside. */
static void check_plane(const json_t *stone, const json_t *facet, const json_t *face)
{
    point n = triple(json_object_get(facet, "normal"));
    double distance = number(facet, "distance_mm"), width = number(stone, "width_mm");
    const json_t *vertices = json_object_get(stone, "vertices_mm");
    for (size_t i = 0; i < json_array_size(face); i++) {
        ASSERT_NEAR(dot(n, corner(stone, face, i)), distance, 1e-9 * width);
    }
    for (size_t i = 0; i < json_array_size(vertices); i++) {
        assert_true(dot(n, triple(json_array_get(vertices, i))) < distance + 1e-9 * width);
    }
}

/* Each side of a face is a side of exactly one other, walked the other way: the stone is closed. */
static void check_closed(const json_t *faces, size_t vertex_count)
{
    signed char *seen = calloc(vertex_count * vertex_count, 1);
    assert_non_null(seen);
    for (size_t f = 0; f < json_array_size(faces); f++) {
        const json_t *face = json_array_get(faces, f);
        size_t n = json_array_size(face);
        for (size_t i = 0; i < n; i++) {
            size_t a = (size_t)json_integer_value(json_array_get(face, i));
            size_t b = (size_t)json_integer_value(json_array_get(face, (i + 1) % n));
            assert_true(a < vertex_count && b < vertex_count && a != b);
            assert_int_equal(seen[a * vertex_count + b]++, 0);
        }
    }
    for (size_t a = 0; a < vertex_count; a++) {
        for (size_t b = 0; b < vertex_count; b++) {
            assert_int_equal(seen[a * vertex_count + b], seen[b * vertex_count + a]);
        }
    }
    free(seen);
}

/* Least and greatest distance between jaws in plan, over the directions of all pairs of corners. */
static void check_widths(const json_t *stone)
{
    const json_t *vertices = json_object_get(stone, "vertices_mm");
    size_t n = json_array_size(vertices);
    double least = 1e300, greatest = 0.0, farthest = 0.0, top = -1e300, bottom = 1e300;
    for (size_t i = 0; i < n; i++) {
        point a = triple(json_array_get(vertices, i));
        farthest = fmax(farthest, hypot(a.x, a.y));
        top = fmax(top, a.z);
        bottom = fmin(bottom, a.z);
        for (size_t j = 0; j < i; j++) {
            point b = triple(json_array_get(vertices, j));
            double length = hypot(a.x - b.x, a.y - b.y);
            greatest = fmax(greatest, length);
            if (length < 1e-3) {
                continue;
            }
            double low = 1e300, high = -1e300;
            for (size_t k = 0; k < n; k++) {
                point c = triple(json_array_get(vertices, k));
                double across = (c.x * (a.y - b.y) - c.y * (a.x - b.x)) / length;
                low = fmin(low, across);
                high = fmax(high, across);
            }
            least = fmin(least, high - low);
        }
    }
    ASSERT_NEAR(number(stone, "width_mm"), least, 1e-9);
    ASSERT_NEAR(number(stone, "length_mm"), greatest, 1e-9);
    ASSERT_NEAR(number(stone, "diameter_mm"), 2.0 * farthest, 1e-9);
    ASSERT_NEAR(number(stone, "depth_mm"), top - bottom, 1e-9);
}

static void check_stone(const json_t *stone)
{
    const json_t *facets = json_object_get(stone, "facets");
    const json_t *faces = json_object_get(stone, "faces");
    size_t vertex_count = json_array_size(json_object_get(stone, "vertices_mm"));
    int wheel = (int)number(stone, "wheel");
    double volume = 0.0, surface = 0.0, plan = 0.0;
    long long girdle = 0;
    assert_int_equal(json_array_size(facets), json_array_size(faces));
    for (size_t i = 0; i < json_array_size(facets); i++) {
        const json_t *facet = json_array_get(facets, i), *face = json_array_get(faces, i);
        double area = 0.0;
        point normal = triple(json_object_get(facet, "normal"));
        walk_face(stone, face, normal, &area, &volume);
        assert_true(area > 0.0);
        ASSERT_NEAR(area, number(facet, "area_mm2"), 1e-9);
        surface += area;
        plan += area * normal.z;
        girdle += strcmp(json_string_value(json_object_get(facet, "side")), "girdle") == 0;
        check_normal(facet, wheel);
        check_plane(stone, facet, face);
    }
    check_closed(faces, vertex_count);
    check_widths(stone);
    ASSERT_NEAR(plan, 0.0, 1e-9);
    ASSERT_NEAR(surface, number(stone, "surface_mm2"), 1e-8);
    ASSERT_NEAR(volume, number(stone, "volume_mm3"), 1e-8);
    /* ct = mm3 x SG / 200; quartz 2.65 (published, mineralogies) */
    ASSERT_NEAR(number(stone, "weight_ct"), volume * 2.65 / 200.0, 1e-9);
    assert_int_equal(girdle, json_integer_value(json_object_get(stone, "girdle_facet_count")));
    assert_int_equal((long long)json_array_size(facets) - girdle,
                     json_integer_value(json_object_get(stone, "facet_count")));
    assert_int_equal(json_array_size(json_object_get(stone, "problems")), 0);
}

static void every_built_in_cut(void **state)
{
    (void)state;
    json_t *list = ask("cuts --json");
    json_t *cuts = json_object_get(list, "cuts");
    assert_true(json_array_size(cuts) >= 9 && json_array_size(cuts) < MOST_CUTS);
    for (size_t i = 0; i < json_array_size(cuts); i++) {
        char rest[200];
        const char *name = json_string_value(json_object_get(json_array_get(cuts, i), "cut"));
        snprintf(rest, sizeof rest, "solve %s --width-mm 7.3 --material quartz --json", name);
        json_t *stone = ask(rest);
        ASSERT_NEAR(number(stone, "width_mm"), 7.3, 1e-9);
        check_stone(stone);
        json_decref(stone);
    }
    json_decref(list);
}

/* Each way to give the size gives that size. */
static void every_size(void **state)
{
    (void)state;
    static const char *const sizes[] = {"width_mm", "length_mm", "diameter_mm", "weight_ct"};
    static const char *const options[] = {"--width-mm", "--length-mm", "--diameter-mm",
                                          "--weight-ct"};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        char rest[200];
        snprintf(rest, sizeof rest, "solve oval-brilliant %s 6.25 --material quartz --json",
                 options[i]);
        json_t *stone = ask(rest);
        ASSERT_NEAR(number(stone, sizes[i]), 6.25, 1e-9);
        json_decref(stone);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_built_in_cut),
        cmocka_unit_test(every_size),
    };
    if (argc != 2) {
        return 2;
    }
    lapwing = argv[1];
    return cmocka_run_group_tests(tests, NULL, NULL);
}
