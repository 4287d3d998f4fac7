/* The checker of polyhedra must find what is wrong: each kind of damage, done to a sound one. */
#include "geom/workshop.h"

#include <string.h>

/* A brilliant with arrays of its own, free to be damaged. */
typedef struct patient {
    lw_polyhedron p;
    lw_plane planes[80];
    lw_vec3 vertices[80];
    int same_as[80], face_start[80], face_vertex[400], face_across[400], vertex_start[80],
        vertex_plane[400];
} patient;

static void put(void *to, const void *from, int count, size_t size)
{
    memcpy(to, from, (size_t)count * size);
}

static patient *healthy(void)
{
    static patient it;
    lw_plane planes[STONE_BRILLIANT_FACETS];
    stone_brilliant(planes);
    lw_polyhedron p = workshop_build(2.0, planes, STONE_BRILLIANT_FACETS);
    int sides = p.face_start[p.plane_count], pairs = p.vertex_start[p.vertex_count];
    put(it.planes, p.planes, p.plane_count, sizeof(lw_plane));
    put(it.vertices, p.vertices, p.vertex_count, sizeof(lw_vec3));
    put(it.same_as, p.same_as, p.plane_count, sizeof(int));
    put(it.face_start, p.face_start, p.plane_count + 1, sizeof(int));
    put(it.face_vertex, p.face_vertex, sides, sizeof(int));
    put(it.face_across, p.face_across, sides, sizeof(int));
    put(it.vertex_start, p.vertex_start, p.vertex_count + 1, sizeof(int));
    put(it.vertex_plane, p.vertex_plane, pairs, sizeof(int));
    it.p = p;
    it.p.planes = it.planes;
    it.p.vertices = it.vertices;
    it.p.same_as = it.same_as;
    it.p.face_start = it.face_start;
    it.p.face_vertex = it.face_vertex;
    it.p.face_across = it.face_across;
    it.p.vertex_start = it.vertex_start;
    it.p.vertex_plane = it.vertex_plane;
    assert_null(lw_polyhedron_fault(&it.p));
    return &it;
}

static void damage_to_places(void **state)
{
    (void)state;
    for (int i = 0; i < 57; i++) {
        patient *it = healthy();
        it->vertices[i].z += 1e-9; /* either off a plane or outside one */
        assert_non_null(lw_polyhedron_fault(&it->p));
    }
    patient *it = healthy();
    it->vertices[3].x = (double)NAN;
    assert_non_null(lw_polyhedron_fault(&it->p));
    it = healthy();
    it->planes[0].distance -= 1e-9;
    assert_non_null(lw_polyhedron_fault(&it->p));
}

static void damage_to_rings(void **state)
{
    (void)state;
    int sides = healthy()->p.face_start[73];
    for (int i = 0; i < sides; i++) {
        patient *it = healthy();
        it->face_vertex[i] = (it->face_vertex[i] + 1) % 57;
        assert_non_null(lw_polyhedron_fault(&it->p));
        it = healthy();
        it->face_across[i] = (it->face_across[i] + 1) % 73;
        assert_non_null(lw_polyhedron_fault(&it->p));
        it = healthy();
        it->face_vertex[i] = -1;
        assert_non_null(lw_polyhedron_fault(&it->p));
    }
    patient *it = healthy(); /* clockwise */
    int second = it->face_vertex[1];
    it->face_vertex[1] = it->face_vertex[7];
    it->face_vertex[7] = second;
    assert_non_null(lw_polyhedron_fault(&it->p));
}

static void damage_to_lists(void **state)
{
    (void)state;
    int pairs = healthy()->p.vertex_start[57];
    for (int i = 0; i < pairs; i++) {
        patient *it = healthy();
        it->vertex_plane[i] = (it->vertex_plane[i] + 1) % 73;
        assert_non_null(lw_polyhedron_fault(&it->p));
    }
    patient *it = healthy();
    it->p.vertex_count = 56;
    assert_non_null(lw_polyhedron_fault(&it->p));
    it = healthy();
    it->same_as[4] = 2;
    assert_non_null(lw_polyhedron_fault(&it->p));
    it = healthy();
    it->p.vertex_count = 0;
    assert_non_null(lw_polyhedron_fault(&it->p));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(damage_to_places),
        cmocka_unit_test(damage_to_rings),
        cmocka_unit_test(damage_to_lists),
    };
    return cmocka_run_group_tests(tests, workshop_open, workshop_close);
}
