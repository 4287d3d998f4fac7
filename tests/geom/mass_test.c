/* Solids whose volume, area, centroid and inertia are known in closed form. Expected values:
 * worked, by elementary integration; stated beside each. */
#include "geom/workshop.h"

#include "geom/angle.h"

static const double tolerance = 1e-13;

static void assert_diagonal(const lw_mass *m, double xx, double yy, double zz)
{
    assert_close(m->inertia[0][0], xx, tolerance);
    assert_close(m->inertia[1][1], yy, tolerance);
    assert_close(m->inertia[2][2], zz, tolerance);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++) {
            assert_true(m->inertia[i][j] == m->inertia[j][i]);
            assert_true(i == j || fabs(m->inertia[i][j]) <= tolerance * xx);
        }
    }
}

static void assert_centroid(const lw_mass *m, lw_vec3 at)
{
    assert_true(lw_vec3_length(lw_vec3_sub(m->centroid, at)) <= tolerance);
}

static void assert_all_but_inertia(const lw_mass *m, double volume, double area, lw_vec3 centroid)
{
    assert_close(m->volume, volume, tolerance);
    assert_close(m->area, area, tolerance);
    assert_centroid(m, centroid);
}

/* A box a x b x c with a corner at the origin: m (b^2 + c^2) / 12. */
static void box(void **state)
{
    (void)state;
    const double a = 0.7, b = 0.4, c = 1.1;
    const lw_plane planes[] = {{{1, 0, 0}, a},  {{-1, 0, 0}, 0}, {{0, 1, 0}, b},
                               {{0, -1, 0}, 0}, {{0, 0, 1}, c},  {{0, 0, -1}, 0}};
    lw_polyhedron p = workshop_build(2.0, planes, 6);
    lw_mass m;
    lw_polyhedron_mass(&p, &m);
    double v = a * b * c;
    assert_all_but_inertia(&m, v, 2.0 * (a * b + b * c + c * a), (lw_vec3){a / 2, b / 2, c / 2});
    assert_diagonal(&m, v * (b * b + c * c) / 12.0, v * (c * c + a * a) / 12.0,
                    v * (a * a + b * b) / 12.0);
    assert_close(lw_polyhedron_face_area(&p, 4), a * b, tolerance);
    assert_int_equal(p.vertex_count, 8);
}

/* The regular tetrahedron in the cube of half edge 1: edge sqrt 8, m edge^2 / 20. */
static void tetrahedron(void **state)
{
    (void)state;
    const double k = 1.0 / sqrt(3.0);
    const lw_plane planes[] = {
        {{k, k, k}, k}, {{k, -k, -k}, k}, {{-k, k, -k}, k}, {{-k, -k, k}, k}};
    lw_polyhedron p = workshop_build(2.0, planes, 4);
    lw_mass m;
    lw_polyhedron_mass(&p, &m);
    double edge = sqrt(8.0), v = edge * edge * edge / (6.0 * sqrt(2.0));
    assert_all_but_inertia(&m, v, sqrt(3.0) * edge * edge, (lw_vec3){0, 0, 0});
    assert_diagonal(&m, v * edge * edge / 20.0, v * edge * edge / 20.0, v * edge * edge / 20.0);
    assert_int_equal(p.vertex_count, 4);
}

/* The regular octahedron with corners at distance 1: edge sqrt 2, m edge^2 / 10. */
static void octahedron(void **state)
{
    (void)state;
    const double k = 1.0 / sqrt(3.0);
    lw_plane planes[8];
    for (int i = 0; i < 8; i++) {
        planes[i] =
            (lw_plane){{(i & 1) != 0 ? k : -k, (i & 2) != 0 ? k : -k, (i & 4) != 0 ? k : -k}, k};
    }
    lw_polyhedron p = workshop_build(2.0, planes, 8);
    lw_mass m;
    lw_polyhedron_mass(&p, &m);
    double v = 4.0 / 3.0;
    assert_all_but_inertia(&m, v, 4.0 * sqrt(3.0), (lw_vec3){0, 0, 0});
    assert_diagonal(&m, v / 5.0, v / 5.0, v / 5.0);
    assert_int_equal(p.vertex_count, 6);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(vertex_planes(&p, i), 4);
    }
    int at = -1;
    assert_close(lw_polyhedron_support(&p, (lw_vec3){0, 0, 1}, &at), 1.0, 1e-15);
    assert_close(p.vertices[at].z, 1.0, 1e-15);
}

/* The n-gon with corners at radius 1: area, and its polar second moment about the middle. */
static void polygon(int n, double *area, double *polar)
{
    lw_sincos step = lw_sincos_share(1.0, n);
    *area = 0.5 * n * step.sin;
    *polar = *area * (2.0 + step.cos) / 6.0;
}

/* Height h between -h/2 and h/2: Izz = polar h; Ixx = Izz / 2 + m h^2 / 12. */
static void prisms(void **state)
{
    (void)state;
    for (int n = 3; n <= 100; n++) {
        lw_plane planes[102];
        double h = 0.8, area = 0.0, polar = 0.0, apothem = lw_sincos_share(0.5, n).cos;
        polygon(n, &area, &polar);
        for (int i = 0; i < n; i++) {
            planes[i] = stone_facet(i, n, 90.0, 1.0, apothem, 0.0);
        }
        planes[n] = (lw_plane){{0, 0, 1}, h / 2};
        planes[n + 1] = (lw_plane){{0, 0, -1}, h / 2};
        lw_polyhedron p = workshop_build(2.5, planes, n + 2);
        lw_mass m;
        lw_polyhedron_mass(&p, &m);
        double side = 2.0 * lw_sincos_share(0.5, n).sin, v = area * h;
        assert_all_but_inertia(&m, v, 2.0 * area + n * side * h, (lw_vec3){0, 0, 0});
        double zz = polar * h, xx = 0.5 * zz + v * h * h / 12.0;
        assert_diagonal(&m, xx, xx, zz);
        assert_int_equal(p.vertex_count, 2 * n);
    }
}

/* n facets meet at each apex, at height h above and below the n-gon: a slice at share s of the way
 * from the apex has s^4 of the polar moment. Izz = 2/5 polar h; Ixx = Izz / 2 + m h^2 / 10. */
static void bipyramids(void **state)
{
    (void)state;
    for (int n = 3; n <= 100; n++) {
        lw_plane planes[200];
        double area = 0.0, polar = 0.0, apothem = lw_sincos_share(0.5, n).cos;
        polygon(n, &area, &polar);
        double h = apothem * lw_tan_deg(40.0);
        for (int i = 0; i < n; i++) {
            planes[i] = stone_facet(i, n, 40.0, 1.0, apothem, 0.0);
            planes[n + i] = stone_facet(i, n, 40.0, -1.0, apothem, 0.0);
        }
        lw_polyhedron p = workshop_build(2.5, planes, 2 * n);
        lw_mass m;
        lw_polyhedron_mass(&p, &m);
        double v = 2.0 * area * h / 3.0;
        assert_all_but_inertia(&m, v, 2.0 * area / lw_sincos_deg(40.0).cos, (lw_vec3){0, 0, 0});
        double zz = 0.4 * polar * h, xx = 0.5 * zz + v * h * h / 10.0;
        assert_diagonal(&m, xx, xx, zz);
        assert_int_equal(p.vertex_count, n + 2);
        assert_int_equal(vertex_planes(&p, vertex_at(&p, (lw_vec3){0, 0, h})), n);
        assert_int_equal(vertex_planes(&p, vertex_at(&p, (lw_vec3){0, 0, -h})), n);
    }
}

/* A pyramid's centroid is a quarter of the way up. */
static void pyramid(void **state)
{
    (void)state;
    for (int n = 3; n <= 30; n += 9) {
        lw_plane planes[31];
        for (int i = 0; i < n; i++) {
            planes[i] = stone_facet(i, n, 50.0, 1.0, 0.5, 0.0);
        }
        planes[n] = (lw_plane){{0, 0, -1}, 0};
        lw_polyhedron p = workshop_build(2.5, planes, n + 1);
        lw_mass m;
        lw_polyhedron_mass(&p, &m);
        assert_centroid(&m, (lw_vec3){0, 0, 0.5 * lw_tan_deg(50.0) / 4.0});
    }
}

/* A needle askew: 0.8 long, its section a right triangle with legs of a millionth. Worked: volume
 * 0.8 t^2 / 2. Corners are rounded to 1e-16, so the legs are good to 1e-10 of themselves; length
 * cubed is rounded to more than the whole volume's 1e-5. */
static void needle(void **state)
{
    (void)state;
    const double t = 1e-6, h = sqrt(0.5), k = sqrt(1.0 / 3.0);
    const lw_vec3 d = {k, k, k}, u = {h, -h, 0.0}, v = lw_vec3_cross(d, u);
    const lw_plane planes[] = {{lw_vec3_scale(u, -1.0), 0.0},
                               {lw_vec3_scale(v, -1.0), 0.0},
                               {lw_vec3_scale(lw_vec3_add(u, v), h), t * h},
                               {d, 0.4},
                               {lw_vec3_scale(d, -1.0), 0.4}};
    lw_polyhedron p = workshop_build(1.0, planes, 5);
    lw_mass m;
    lw_polyhedron_mass(&p, &m);
    assert_int_equal(p.vertex_count, 6);
    assert_close(m.volume, 0.8 * t * t / 2.0, 1e-8);
    assert_close(m.area, 0.8 * t * (2.0 + sqrt(2.0)) + t * t, 1e-8);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(box),    cmocka_unit_test(tetrahedron), cmocka_unit_test(octahedron),
        cmocka_unit_test(prisms), cmocka_unit_test(bipyramids),  cmocka_unit_test(pyramid),
        cmocka_unit_test(needle),
    };
    return cmocka_run_group_tests(tests, workshop_open, workshop_close);
}
