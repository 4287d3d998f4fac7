/* Memory of the solid: none is asked for after set-up, and every refusal is survived. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "geom/solid.h"
#include "geom/stones.h"
#include "meter.h"

#include <stdlib.h>

/* All that a search does with a workshop, ten times over. */
static void work(lw_solid *solid, lw_solid *other, stone_random *random)
{
    lw_plane planes[400];
    for (int i = 0; i < 10; i++) {
        lw_polyhedron out;
        stone_rough_ball(random, 400, 0.1, planes);
        assert_int_equal(lw_solid_build(solid, 2.0, planes, 400), LW_OK);
        lw_solid_extract(solid, &out);
        assert_null(lw_polyhedron_fault(&out));
        lw_solid_copy(other, solid);
        stone_brilliant(planes);
        lw_solid_start(solid, 2.0);
        for (int k = 0; k < STONE_BRILLIANT_FACETS; k++) {
            assert_int_equal(lw_solid_cut(solid, planes[k], NULL), LW_OK);
        }
        lw_solid_extract(solid, &out);
        assert_int_equal(out.vertex_count, 57);
    }
}

static void nothing_is_asked_for_after_set_up(void **state)
{
    (void)state;
    meter c = {0};
    lw_memory memory = meter_memory(&c);
    lw_solid *solid = NULL, *other = NULL;
    stone_random random = {31};
    assert_int_equal(lw_solid_new(&memory, 400, &solid), LW_OK);
    assert_int_equal(lw_solid_new(&memory, 400, &other), LW_OK);
    long asked = c.asked, held = c.held;
    assert_true(asked > 0);
    work(solid, other, &random);
    assert_int_equal(c.asked, asked);
    assert_int_equal(c.held, held);
    lw_solid_destroy(solid);
    lw_solid_destroy(other);
    assert_int_equal(c.held, 0);
}

/* Makes a workshop and a copy of a polyhedron; gives the first failure. */
static lw_status make_all(meter *c)
{
    lw_memory memory = meter_memory(c);
    lw_solid *solid = NULL;
    lw_status status = lw_solid_new(&memory, 100, &solid);
    if (status != LW_OK) {
        assert_null(solid);
        return status;
    }
    lw_plane planes[STONE_BRILLIANT_FACETS];
    lw_polyhedron out, copy = {0};
    stone_brilliant(planes);
    assert_int_equal(lw_solid_build(solid, 2.0, planes, STONE_BRILLIANT_FACETS), LW_OK);
    lw_solid_extract(solid, &out);
    status = lw_polyhedron_copy(&memory, &out, &copy);
    lw_solid_destroy(solid);
    if (status == LW_OK) { /* it outlives the workshop */
        assert_null(lw_polyhedron_fault(&copy));
        assert_int_equal(copy.vertex_count, 57);
    } else {
        assert_null(copy.planes);
    }
    lw_polyhedron_destroy(&memory, &copy);
    lw_polyhedron_destroy(&memory, &copy);
    return status;
}

static void every_refusal_is_survived(void **state)
{
    (void)state;
    meter whole = {0};
    assert_int_equal(make_all(&whole), LW_OK);
    assert_int_equal(whole.held, 0);
    assert_true(whole.asked >= 3);
    for (long n = 1; n <= whole.asked; n++) {
        meter c = {.refuse_at = n};
        assert_int_equal(make_all(&c), LW_NO_MEMORY);
        assert_int_equal(c.held, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_asked_for_after_set_up),
        cmocka_unit_test(every_refusal_is_survived),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
