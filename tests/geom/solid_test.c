/* The convex solid: structure, meets, and what each cut does. Expected values: worked, unless
 * another source stands beside them. */
#include "geom/workshop.h"

#include "geom/angle.h"

#include <stdlib.h>
#include <string.h>

static const lw_plane cube[6] = {{{1, 0, 0}, 1},  {{-1, 0, 0}, 1}, {{0, 1, 0}, 1},
                                 {{0, -1, 0}, 1}, {{0, 0, 1}, 1},  {{0, 0, -1}, 1}};

static lw_cut_effect cut(double x, double y, double z, double distance)
{
    lw_vec3 n = {x, y, z};
    double length = lw_vec3_length(n);
    lw_cut_effect effect = LW_CUT_MISSED;
    lw_plane plane = {lw_vec3_scale(n, 1.0 / length), distance / length};
    assert_int_equal(lw_solid_cut(workshop, plane, &effect), LW_OK);
    return effect;
}

/* Table corners, crown tips, girdle corners and culet: counted by hand from what each facet meets.
 * 8 table corners: table, 2 stars, main. 8 star tips: star, 2 mains, 2 upper halves. 16 + 16 girdle
 * corners: 2 girdle flats, 2 halves, and on every second azimuth a main. 8 lower-half tips: 2
 * mains, 2 lower halves. Culet: 8 mains. */
static void brilliant_has_its_meets(void **state)
{
    (void)state;
    lw_plane planes[STONE_BRILLIANT_FACETS];
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    int with[10] = {0};
    for (int i = 0; i < p.vertex_count; i++) {
        assert_true(vertex_planes(&p, i) < 10);
        with[vertex_planes(&p, i)]++;
    }
    assert_int_equal(face_count(&p), 73);
    assert_int_equal(with[4], 8 + 8 + 8 + 8);
    assert_int_equal(with[5], 8 + 8 + 8);
    assert_int_equal(with[8], 1);
    assert_int_equal(p.vertex_count, 57);
    assert_int_equal(face_sides(&p, 0), 8);  /* table */
    assert_int_equal(face_sides(&p, 1), 3);  /* star */
    assert_int_equal(face_sides(&p, 9), 4);  /* main, a kite */
    assert_int_equal(face_sides(&p, 17), 3); /* upper half */
    assert_int_equal(face_sides(&p, 33), 4); /* girdle flat */
    assert_int_equal(face_sides(&p, 49), 3); /* lower half */
    assert_int_equal(face_sides(&p, 65), 4); /* pavilion main */
}

static void assert_has_image(const lw_polyhedron *p, lw_vec3 image)
{
    vertex_at(p, image); /* fails when there is none within 1e-12 */
}

static void brilliant_is_symmetric(void **state)
{
    (void)state;
    lw_plane planes[STONE_BRILLIANT_FACETS];
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    lw_sincos turn = lw_sincos_share(1.0, 8.0);
    for (int i = 0; i < p.vertex_count; i++) {
        lw_vec3 v = p.vertices[i];
        assert_has_image(
            &p, (lw_vec3){v.x * turn.cos - v.y * turn.sin, v.x * turn.sin + v.y * turn.cos, v.z});
        assert_has_image(&p, (lw_vec3){v.x, -v.y, v.z});
    }
}

/* A turned stone has the same volume, area and principal moments' sum, and as many vertices. */
static void turning_changes_nothing(void **state)
{
    (void)state;
    lw_plane planes[STONE_BRILLIANT_FACETS], turned[STONE_BRILLIANT_FACETS];
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    lw_mass m;
    lw_polyhedron_mass(&p, &m);
    double trace = m.inertia[0][0] + m.inertia[1][1] + m.inertia[2][2];
    stone_random random = {21};
    for (int i = 0; i < 500; i++) {
        lw_vec3 x = random_direction(&random), other = random_direction(&random);
        lw_vec3 z = lw_vec3_cross(x, other);
        z = lw_vec3_scale(z, 1.0 / lw_vec3_length(z));
        lw_vec3 y = lw_vec3_cross(z, x);
        for (int k = 0; k < STONE_BRILLIANT_FACETS; k++) {
            lw_vec3 n = planes[k].normal;
            lw_vec3 t = lw_vec3_add(lw_vec3_scale(x, n.x), lw_vec3_scale(y, n.y));
            t = lw_vec3_add(t, lw_vec3_scale(z, n.z));
            turned[k].normal = lw_vec3_scale(t, 1.0 / lw_vec3_length(t));
            turned[k].distance = planes[k].distance;
        }
        lw_polyhedron q = workshop_build(2.0, turned, STONE_BRILLIANT_FACETS);
        lw_mass n;
        lw_polyhedron_mass(&q, &n);
        assert_int_equal(q.vertex_count, 57);
        assert_close(n.volume, m.volume, 1e-12);
        assert_close(n.area, m.area, 1e-12);
        assert_close(n.inertia[0][0] + n.inertia[1][1] + n.inertia[2][2], trace, 1e-12);
    }
}

/* Powers of two scale every number exactly: the same bits, shifted. */
static void scale_changes_nothing(void **state)
{
    (void)state;
    lw_plane planes[STONE_BRILLIANT_FACETS], scaled[STONE_BRILLIANT_FACETS];
    lw_polyhedron kept;
    lw_memory memory = lw_memory_standard();
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    assert_int_equal(lw_polyhedron_copy(&memory, &p, &kept), LW_OK);
    for (int power = -40; power <= 40; power += 8) {
        for (int i = 0; i < STONE_BRILLIANT_FACETS; i++) {
            scaled[i] = (lw_plane){planes[i].normal, ldexp(planes[i].distance, power)};
        }
        lw_polyhedron q = workshop_build(ldexp(2.0, power), scaled, STONE_BRILLIANT_FACETS);
        assert_int_equal(q.vertex_count, kept.vertex_count);
        for (int i = 0; i < q.vertex_count; i++) {
            assert_true(q.vertices[i].x == ldexp(kept.vertices[i].x, power));
            assert_true(q.vertices[i].z == ldexp(kept.vertices[i].z, power));
        }
    }
    lw_polyhedron_destroy(&memory, &kept);
}

/* Whatever the order, and whether one by one or at once. */
static void order_changes_nothing(void **state)
{
    (void)state;
    lw_plane planes[STONE_BRILLIANT_FACETS];
    stone_random random = {22};
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    lw_mass whole, m;
    lw_polyhedron_mass(&p, &whole);
    for (int i = 0; i < 500; i++) {
        stone_shuffle(&random, STONE_BRILLIANT_FACETS, planes);
        p = workshop_cut(2.0, planes, STONE_BRILLIANT_FACETS);
        lw_polyhedron_mass(&p, &m);
        assert_close(m.volume, whole.volume, 1e-13);
        assert_int_equal(p.vertex_count, 57);
        assert_int_equal(face_count(&p), 73);
    }
}

/* The half extent is only a start: a stone in a larger cube is the same stone. */
static void start_cube_leaves_no_trace(void **state)
{
    (void)state;
    for (double half = 1.0; half < 50.0; half *= 1.7) {
        lw_polyhedron p = workshop_cut(half, cube, 6);
        assert_true(lw_solid_is_closed(workshop));
        assert_int_equal(p.vertex_count, 8);
        for (int i = 0; i < 6; i++) {
            assert_int_equal(face_sides(&p, i), 4);
        }
    }
}

static void open_stone_names_the_start_faces(void **state)
{
    (void)state;
    lw_polyhedron p = workshop_cut(3.0, cube, 1);
    assert_false(lw_solid_is_closed(workshop));
    assert_int_equal(p.vertex_count, 8);
    assert_int_equal(face_sides(&p, 0), 4);
    for (int i = 0; i < 4; i++) {
        assert_in_range(p.face_across[i], 1, 6);   /* plane_count + 0 .. 5 */
        assert_int_not_equal(p.face_across[i], 1); /* the +x face is gone */
    }
    assert_close(lw_solid_height_above(workshop, cube[1]), 2.0, 1e-15);
}

static void each_cut_tells_what_it_did(void **state)
{
    (void)state;
    workshop_cut(3.0, cube, 6);
    assert_int_equal(cut(1, 1, 1, 3.0), LW_CUT_TOUCHED);   /* 6: the corner 1, 1, 1 */
    assert_int_equal(cut(1, 1, 0, 2.0), LW_CUT_TOUCHED);   /* 7: the edge x = y = 1 */
    assert_int_equal(cut(1, 0, 0, 1.0), LW_CUT_COINCIDES); /* 8: with plane 0 */
    assert_int_equal(cut(1, 1, 1, 3.1), LW_CUT_MISSED);    /* 9 */
    assert_int_equal(cut(1, -1, 0, 1.0), LW_CUT_REMOVED);  /* 10 */
    lw_polyhedron p;
    lw_solid_extract(workshop, &p);
    assert_null(lw_polyhedron_fault(&p));
    assert_int_equal(p.plane_count, 11);
    assert_int_equal(p.vertex_count, 10);
    int corner = vertex_at(&p, (lw_vec3){1, 1, 1}), below = vertex_at(&p, (lw_vec3){1, 1, -1});
    assert_int_equal(vertex_planes(&p, corner), 5);
    assert_true(vertex_has(&p, corner, 6) && vertex_has(&p, corner, 7));
    assert_true(vertex_has(&p, below, 7) && !vertex_has(&p, below, 6));
    for (int i = 0; i < p.plane_count; i++) {
        assert_int_equal(p.same_as[i], i == 8 ? 0 : i);
        assert_true((face_sides(&p, i) > 0) == (i < 6 || i == 10));
    }
}

/* A plane that leaves nothing is counted, and changes nothing. */
static void emptying_is_refused(void **state)
{
    (void)state;
    workshop_cut(3.0, cube, 6);
    assert_int_equal(cut(0, 0, 1, -1.0), LW_CUT_EMPTIED); /* only the lower face is left */
    assert_int_equal(cut(0, 0, 1, -2.0), LW_CUT_EMPTIED); /* nothing at all */
    assert_int_equal(cut(1, 1, 1, -3.0), LW_CUT_EMPTIED); /* only a corner */
    lw_polyhedron p;
    lw_solid_extract(workshop, &p);
    assert_int_equal(p.plane_count, 9);
    assert_int_equal(p.vertex_count, 8);
    assert_int_equal(face_sides(&p, 6) + face_sides(&p, 7) + face_sides(&p, 8), 0);
    assert_int_equal(cut(1, 1, 1, 2.0), LW_CUT_REMOVED);
    assert_non_null(lw_polyhedron_fault(&p)); /* it does stand above those planes */
}

/* An edge that a plane touches is cut: the new corner is on that plane too. */
static void what_touches_an_edge_touches_its_parts(void **state)
{
    (void)state;
    workshop_cut(3.0, cube, 6);
    assert_int_equal(cut(1, 1, 0, 2.0), LW_CUT_TOUCHED);
    assert_int_equal(cut(0, 0, 1, 0.25), LW_CUT_REMOVED);
    lw_polyhedron p;
    lw_solid_extract(workshop, &p);
    int corner = vertex_at(&p, (lw_vec3){1, 1, 0.25});
    assert_int_equal(vertex_planes(&p, corner), 4);
    assert_true(vertex_has(&p, corner, 6));
    assert_null(lw_polyhedron_fault(&p));
}

/* Facets that later ones cut away down to a corner or an edge: a point of the pavilion, then
 * deeper mains through the same point. */
static void what_loses_its_area_still_touches(void **state)
{
    (void)state;
    workshop_cut(3.0, cube, 6);
    for (int i = 0; i < 8; i++) {
        lw_plane first = stone_facet(i, 8, 30.0, -1.0, 0.0, -0.9);
        assert_int_equal(lw_solid_cut(workshop, first, NULL), LW_OK); /* 6 .. 13 */
    }
    for (int i = 0; i < 8; i++) {
        lw_plane main = stone_facet(i, 8, 50.0, -1.0, 0.0, -0.9);
        assert_int_equal(lw_solid_cut(workshop, main, NULL), LW_OK); /* 14 .. 21 */
    }
    lw_polyhedron p;
    lw_solid_extract(workshop, &p);
    assert_null(lw_polyhedron_fault(&p));
    int apex = vertex_at(&p, (lw_vec3){0, 0, -0.9});
    assert_int_equal(vertex_planes(&p, apex), 16);
    for (int i = 6; i < 22; i++) {
        assert_true((face_sides(&p, i) > 0) == (i >= 14));
    }
    /* An edge: a roof whose ridge is kept while a steeper one replaces it. */
    workshop_cut(3.0, cube, 6);
    assert_int_equal(cut(1, 0, 4, 2.0), LW_CUT_REMOVED);  /* 6: passes z = 1/2 at x = 0 */
    assert_int_equal(cut(-1, 0, 4, 2.0), LW_CUT_REMOVED); /* 7 */
    assert_int_equal(cut(1, 0, 1, 0.5), LW_CUT_REMOVED);  /* 8 */
    assert_int_equal(cut(-1, 0, 1, 0.5), LW_CUT_REMOVED); /* 9 */
    lw_solid_extract(workshop, &p);
    assert_null(lw_polyhedron_fault(&p));
    int ridge = vertex_at(&p, (lw_vec3){0, 1, 0.5});
    assert_int_equal(vertex_planes(&p, ridge), 5); /* y = 1, and all four */
    assert_int_equal(face_sides(&p, 6), 0);
}

/* Built at once, the lower number keeps the face whatever the inner order. */
static void coincident_planes_keep_the_lowest_number(void **state)
{
    (void)state;
    lw_plane planes[24];
    for (int i = 0; i < 24; i++) {
        planes[i] = cube[i % 6];
    }
    lw_polyhedron p = workshop_build(2.0, planes, 24);
    assert_int_equal(p.vertex_count, 8);
    for (int i = 0; i < 24; i++) {
        assert_int_equal(face_sides(&p, i), i < 6 ? 4 : 0);
        assert_int_equal(p.same_as[i], i % 6);
    }
}

static void limits_are_told(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_solid *small = NULL;
    assert_int_equal(lw_solid_new(&memory, LW_SOLID_MOST_PLANES + 1, &small), LW_TOO_LARGE);
    assert_null(small);
    assert_int_equal(lw_solid_new(&memory, 6, &small), LW_OK);
    assert_int_equal(lw_solid_build(small, 2.0, cube, 6), LW_OK);
    lw_cut_effect effect = LW_CUT_EMPTIED;
    assert_int_equal(lw_solid_cut(small, cube[0], &effect), LW_TOO_LARGE);
    assert_int_equal(effect, LW_CUT_EMPTIED);
    assert_true(lw_solid_is_closed(small));
    lw_plane none[2] = {cube[0], {{-1, 0, 0}, -1.5}};
    assert_int_equal(lw_solid_build(small, 2.0, none, 2), LW_EMPTY);
    assert_false(lw_solid_is_closed(small));
    lw_plane seven[7] = {{{1, 0, 0}, 1}};
    assert_int_equal(lw_solid_build(small, 2.0, seven, 7), LW_TOO_LARGE);
    lw_solid_destroy(small);
    lw_solid_destroy(NULL);
}

/* A copy goes its own way. */
static void copies_are_independent(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    lw_solid *other = NULL;
    assert_int_equal(lw_solid_new(&memory, WORKSHOP_PLANES, &other), LW_OK);
    lw_polyhedron p = workshop_cut(2.0, cube, 6);
    lw_solid_copy(other, workshop);
    assert_int_equal(cut(1, 1, 1, 2.0), LW_CUT_REMOVED);
    lw_polyhedron q;
    lw_solid_extract(other, &q);
    assert_int_equal(q.plane_count, 6);
    assert_int_equal(q.vertex_count, 8);
    lw_solid_extract(workshop, &p);
    assert_int_equal(p.vertex_count, 10);
    lw_solid_copy(other, workshop);
    lw_solid_extract(other, &q);
    assert_int_equal(q.vertex_count, 10);
    assert_memory_equal(q.vertices, p.vertices, 10 * sizeof(lw_vec3));
    lw_solid_destroy(other);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(brilliant_has_its_meets),
        cmocka_unit_test(brilliant_is_symmetric),
        cmocka_unit_test(turning_changes_nothing),
        cmocka_unit_test(scale_changes_nothing),
        cmocka_unit_test(order_changes_nothing),
        cmocka_unit_test(start_cube_leaves_no_trace),
        cmocka_unit_test(open_stone_names_the_start_faces),
        cmocka_unit_test(each_cut_tells_what_it_did),
        cmocka_unit_test(emptying_is_refused),
        cmocka_unit_test(what_touches_an_edge_touches_its_parts),
        cmocka_unit_test(what_loses_its_area_still_touches),
        cmocka_unit_test(coincident_planes_keep_the_lowest_number),
        cmocka_unit_test(limits_are_told),
        cmocka_unit_test(copies_are_independent),
    };
    return cmocka_run_group_tests(tests, workshop_open, workshop_close);
}
