/* One path: light/path.h. */
#include "geom/angle.h"
#include "light/field.h"
#include "light/near.h"
#include "light/shape.h"
#include "meter.h"

#include <string.h>

/* splitmix64; 0 <= number < 1. */
static double random_share(uint64_t *seed)
{
    uint64_t z = (*seed += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static lw_vec3 random_direction(uint64_t *seed)
{
    double z = 2.0 * random_share(seed) - 1.0;
    lw_sincos turn = lw_sincos_turns(random_share(seed));
    double r = sqrt(1.0 - z * z);
    return (lw_vec3){r * turn.cos, r * turn.sin, z};
}

/* A ray from anywhere around a stone of diameter 1. */
static void random_ray(uint64_t *seed, lw_vec3 *from, lw_vec3 *direction)
{
    lw_vec3 target = {random_share(seed) - 0.5, random_share(seed) - 0.5,
                      0.5 * random_share(seed) - 0.4};
    *direction = random_direction(seed);
    *from = lw_vec3_sub(target, lw_vec3_scale(*direction, 5.0));
}

static shape practical_round(void)
{
    return shape_round(40.8, 33.2, 0.56, 0.5, 0.78);
}

static const double indices[] = {1.3, 1.544, 1.77, 2.417};

/* worked: the field in three-space (field.h) knows no Stokes parameters; both must agree to
 * rounding, surface by surface, whatever mixture of partial and total reflections came before. */
static void stokes_against_fields(void **state)
{
    (void)state;
    shape round = practical_round();
    uint64_t seed = 1;
    int compared = 0;
    for (int i = 0; i < 4000; i++) {
        lw_vec3 from, direction;
        random_ray(&seed, &from, &direction);
        lw_optics optics = {.index = indices[i % 4]};
        lw_path path;
        lw_leaving glare, leaving;
        if (!lw_path_enter(&round.optic, &optics, from, direction, &path, &glare))
            continue;
        double weights[40], away;
        field_trace(&round.optic, optics.index, from, direction, 40, weights, &away);
        assert_near(glare.weight, away, 1e-14);
        for (int k = 0; k < 40; k++) {
            lw_path_next(&round.optic, &optics, &path, &leaving);
            assert_near(leaving.weight, weights[k], 1e-11);
            compared += leaving.weight > 1e-6;
        }
    }
    assert_true(compared > 5000);
    shape_destroy(&round);
}

/* worked: the same with polarisation forgotten differs, or nothing was carried. */
static void polarisation_matters(void **state)
{
    (void)state;
    shape round = practical_round();
    uint64_t seed = 2;
    double most = 0.0;
    for (int i = 0; i < 1000; i++) {
        lw_vec3 from, direction;
        random_ray(&seed, &from, &direction);
        lw_optics both[2] = {{.index = 2.417}, {.index = 2.417, .unpolarised = true}};
        lw_path path[2];
        lw_leaving leaving[2];
        if (!lw_path_enter(&round.optic, &both[0], from, direction, &path[0], &leaving[0]))
            continue;
        lw_path_enter(&round.optic, &both[1], from, direction, &path[1], &leaving[1]);
        for (int k = 0; k < 10; k++) {
            for (int j = 0; j < 2; j++)
                lw_path_next(&round.optic, &both[j], &path[j], &leaving[j]);
            most = fmax(most, fabs(leaving[0].weight - leaving[1].weight));
            assert_near(path[1].state.q, 0.0, 0.0);
        }
    }
    assert_true(most > 0.01 && most < 0.5);
    shape_destroy(&round);
}

/* worked: what comes back outside, leaves, is absorbed and is still inside is 1. */
static void energy_of_a_path(void **state)
{
    (void)state;
    shape round = practical_round();
    uint64_t seed = 3;
    for (int i = 0; i < 4000; i++) {
        lw_vec3 from, direction;
        random_ray(&seed, &from, &direction);
        lw_optics optics = {indices[i % 4], i % 3 == 0 ? 0.7 : 0.0, i % 5 == 0};
        lw_path path;
        lw_leaving part;
        if (!lw_path_enter(&round.optic, &optics, from, direction, &path, &part))
            continue;
        double sum = part.weight;
        for (int k = 0; k < 300; k++) {
            lw_path_next(&round.optic, &optics, &path, &part);
            sum += part.weight;
            assert_true(part.weight >= 0.0);
        }
        assert_near(sum + path.absorbed + path.state.i, 1.0, 1e-12);
        assert_near(lw_vec3_length(path.direction), 1.0, 1e-15);
    }
    shape_destroy(&round);
}

/* Follows a ray until some part leaves after at least three surfaces. */
static bool find_exit(const shape *round, const lw_optics *optics, lw_vec3 from, lw_vec3 direction,
                      lw_vec3 *at, lw_leaving *part, int *surfaces)
{
    lw_path path;
    if (!lw_path_enter(&round->optic, optics, from, direction, &path, part))
        return false;
    while (path.surfaces < 12) {
        lw_path_next(&round->optic, optics, &path, part);
        lw_vec3 normal = lw_optic_solid_normal(&round->optic, part->facet);
        bool grazes = part->total || lw_vec3_dot(part->direction, normal) < 0.05;
        if (path.surfaces >= 3 && part->weight > 1e-3 && !grazes) {
            *at = path.at;
            *surfaces = path.surfaces;
            return true;
        }
    }
    return false;
}

/* worked: sent back along the way it came, unpolarised light makes its way with the same weight;
 * that is why paths may be followed from the eye. */
static void reciprocity(void **state)
{
    (void)state;
    shape round = practical_round();
    uint64_t seed = 4;
    int compared = 0;
    for (int i = 0; i < 4000; i++) {
        lw_vec3 from, direction, at;
        random_ray(&seed, &from, &direction);
        lw_optics optics = {indices[i % 4], 0.4, i % 7 == 0};
        lw_leaving part, back = {0};
        lw_path path;
        int surfaces;
        if (!find_exit(&round, &optics, from, direction, &at, &part, &surfaces))
            continue;
        lw_vec3 start = lw_vec3_add(at, part.direction);
        lw_vec3 reversed = lw_vec3_scale(part.direction, -1.0);
        assert_true(lw_path_enter(&round.optic, &optics, start, reversed, &path, &back));
        for (int k = 0; k < surfaces; k++)
            lw_path_next(&round.optic, &optics, &path, &back);
        lw_vec3 first = lw_optic_solid_normal(&round.optic, back.facet);
        if (fabs(lw_vec3_dot(direction, first)) < 0.05)
            continue; /* entered at a glance: the way back is as sensitive */
        assert_near(back.weight, part.weight, 1e-11);
        assert_near(lw_vec3_dot(back.direction, direction), -1.0, 1e-11);
        compared++;
    }
    assert_true(compared > 500);
    shape_destroy(&round);
}

/* worked: from the vertices and the middles of the edges, where rounding puts a start outside half
 * its planes, every direction finds a facet, and the end lies on the stone. */
static void starts_on_edges(void **state)
{
    (void)state;
    shape round = practical_round();
    uint64_t seed = 5;
    const lw_polyhedron *solid = &round.solid;
    for (int i = 0; i < solid->vertex_count * 40; i++) {
        lw_vec3 a = solid->vertices[i % solid->vertex_count];
        int face = (int)(random_share(&seed) * solid->plane_count);
        int first = solid->face_start[face], sides = solid->face_start[face + 1] - first;
        if (i % 2 == 0 && sides > 0)
            a = lw_vec3_mix(solid->vertices[solid->face_vertex[first]],
                            solid->vertices[solid->face_vertex[first + 1]], random_share(&seed));
        lw_vec3 direction = random_direction(&seed);
        double length;
        int exit = lw_optic_solid_exit(&round.optic, a, direction, &length);
        lw_vec3 end = lw_vec3_add(a, lw_vec3_scale(direction, length));
        assert_true(length >= 0.0);
        assert_true(lw_vec3_dot(lw_optic_solid_normal(&round.optic, exit), direction) > 0.0);
        for (int k = 0; k < round.optic.facet_count; k++) {
            lw_vec3 normal = lw_optic_solid_normal(&round.optic, k);
            double before = lw_vec3_dot(normal, a) - round.optic.distance[k];
            double after = lw_vec3_dot(normal, end) - round.optic.distance[k];
            assert_true(after <= fmax(before, 0.0) + 1e-15);
        }
    }
    shape_destroy(&round);
}

/* worked: a ray that is seen from inside to leave at a place enters there on its way back, and one
 * that passes outside the silhouette misses. */
static void entry(void **state)
{
    (void)state;
    shape box = shape_box(1.0, 2.0, 0.5);
    int facet = -1;
    double length = 7.0;
    lw_vec3 down = {0, 0, -1};
    assert_true(lw_optic_solid_entry(&box.optic, (lw_vec3){0.99, -1.99, 3}, down, &facet, &length));
    assert_near(length, 2.5, 1e-15);
    assert_int_equal(box.optic.plane[facet], 4);
    length = 7.0;
    assert_false(lw_optic_solid_entry(&box.optic, (lw_vec3){1.01, 0, 3}, down, &facet, &length));
    assert_false(lw_optic_solid_entry(&box.optic, (lw_vec3){0, 0, -3}, down, &facet, &length));
    assert_near(length, 7.0, 0.0);
    shape_destroy(&box);
}

/* worked: square through a plate, T^2 exp(-a d) passes at once; Beer and Lambert's law. */
static void absorption(void **state)
{
    (void)state;
    shape box = shape_box(1.0, 1.0, 0.3);
    lw_optics optics = {.index = 1.544, .absorption = 1.7};
    lw_path path;
    lw_leaving part;
    lw_vec3 from = {0.1, 0.2, 4.0}, down = {0, 0, -1};
    assert_true(lw_path_enter(&box.optic, &optics, from, down, &path, &part));
    double r = (0.544 / 2.544) * (0.544 / 2.544);
    assert_near(part.weight, r, 1e-15);
    lw_path_next(&box.optic, &optics, &path, &part);
    assert_near(part.weight, (1 - r) * (1 - r) * exp(-1.7 * 0.6), 1e-15);
    assert_near(path.absorbed, (1 - r) * (1 - exp(-1.7 * 0.6)), 1e-15);
    shape_destroy(&box);
}

/* worked: through a plate at any angle light leaves the way it came (Snell's law twice). */
static void plate_keeps_direction(void **state)
{
    (void)state;
    shape box = shape_box(50.0, 50.0, 0.01);
    for (double tilt = 0.0; tilt < 89.0; tilt += 3.7) {
        lw_sincos a = lw_sincos_deg(tilt);
        lw_vec3 direction = {a.sin * 0.6, a.sin * 0.8, -a.cos};
        lw_optics optics = {.index = 1.9};
        lw_path path;
        lw_leaving part;
        lw_vec3 from = lw_vec3_scale(direction, -2.0);
        assert_true(lw_path_enter(&box.optic, &optics, from, direction, &path, &part));
        assert_near(path.direction.z, -sqrt(1.0 - a.sin * a.sin / (1.9 * 1.9)), 1e-15);
        lw_path_next(&box.optic, &optics, &path, &part);
        assert_near(lw_vec3_length(lw_vec3_sub(part.direction, direction)), 0.0, 1e-14);
    }
    shape_destroy(&box);
}

static void what_is_refused(void **state)
{
    (void)state;
    shape box = shape_box(1.0, 1.0, 1.0);
    lw_optic_solid out, before;
    memset(&out, 0x5a, sizeof out);
    memcpy(&before, &out, sizeof out);
    meter whole = {0};
    lw_memory memory = meter_memory(&whole);
    lw_optic_solid made;
    assert_int_equal(lw_optic_solid_make(&memory, &box.solid, &made), LW_OK);
    lw_optic_solid_destroy(&made);
    assert_true(whole.asked > 0 && whole.held == 0);
    for (int n = 1; n <= whole.asked; n++) {
        meter m = {.refuse_at = n};
        memory = meter_memory(&m);
        assert_int_equal(lw_optic_solid_make(&memory, &box.solid, &out), LW_NO_MEMORY);
        assert_memory_equal(&out, &before, sizeof out);
        assert_int_equal(m.held, 0);
    }
    lw_polyhedron open;
    lw_solid_start(box.workshop, 2.0);
    lw_plane planes[5] = {
        {{0, 0, 1}, 1}, {{0, 0, -1}, 1}, {{1, 0, 0}, 1}, {{-1, 0, 0}, 1}, {{0, 1, 0}, 1}};
    for (int i = 0; i < 5; i++)
        assert_int_equal(lw_solid_cut(box.workshop, planes[i], NULL), LW_OK);
    lw_solid_extract(box.workshop, &open);
    assert_int_equal(lw_optic_solid_make(&box.memory, &open, &out), LW_NOT_CLOSED);
    assert_memory_equal(&out, &before, sizeof out);
    shape_destroy(&box);
    shape_destroy(&box); /* twice is fine */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stokes_against_fields),
        cmocka_unit_test(polarisation_matters),
        cmocka_unit_test(energy_of_a_path),
        cmocka_unit_test(reciprocity),
        cmocka_unit_test(starts_on_edges),
        cmocka_unit_test(entry),
        cmocka_unit_test(absorption),
        cmocka_unit_test(plate_keeps_direction),
        cmocka_unit_test(what_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
