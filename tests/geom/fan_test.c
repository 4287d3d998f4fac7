/* Very many facets through one point, in the order in which a wheel brings them: neighbours are so
 * nearly parallel that three of them hardly say where the point is. */
#include "geom/workshop.h"

enum { MOST_FAN = 990, MOST = 2 * MOST_FAN + 1 };

/* A pointed pavilion of so many mains under as many girdle flats, and a table: two corners at each
 * flat's edge, and the point. */
static void fan_of(int teeth)
{
    lw_memory memory = lw_memory_standard();
    lw_solid *solid = NULL;
    lw_polyhedron p;
    static lw_plane planes[MOST];
    for (int i = 0; i < teeth; i++) {
        planes[i] = stone_facet(i, teeth, 43.0, -1.0, 0.5, 0.0);
        planes[teeth + i] = stone_facet(i, teeth, 90.0, 1.0, 0.5, 0.0);
    }
    planes[2 * teeth] = (lw_plane){{0.0, 0.0, 1.0}, 0.2};
    assert_int_equal(lw_solid_new(&memory, MOST, &solid), LW_OK);
    lw_solid_start(solid, 4.0);
    for (int i = 0; i <= 2 * teeth; i++) {
        assert_int_equal(lw_solid_cut(solid, planes[i], NULL), LW_OK);
    }
    lw_solid_extract(solid, &p);
    if (p.vertex_count != 2 * teeth + 1) {
        fail_msg("%d corners with %d teeth", p.vertex_count, teeth);
    }
    assert_null(lw_polyhedron_fault(&p));
    lw_solid_destroy(solid);
}

/* Every size from a triangle to what the solid is made for would take long: a sample that has the
 * sizes in it that once came apart (600, 900). */
static void fans_come_to_one_point(void **state)
{
    (void)state;
    for (int teeth = 3; teeth <= MOST_FAN; teeth += teeth < 100 ? 1 : 25) {
        fan_of(teeth);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(fans_come_to_one_point)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
