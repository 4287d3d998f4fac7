/* The search over rotations, against the largest regular solids in regular solids: H. T. Croft, "On
 * maximal regular polyhedra inscribed in a regular polyhedron", Proc. London Math. Soc. 41, 1980
 * (published; values from memory). */
#include "fit_shapes.h"
#include "random.h"
#include "rough/habit.h"
#include "rough/search.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static lw_rough make(lw_habit habit, double a, double b, double c)
{
    lw_memory memory = lw_memory_standard();
    lw_rough rough;
    lw_readings readings = {{a, b, c}};
    assert_int_equal(lw_habit_rough(&memory, habit, &readings, &rough, NULL), LW_OK);
    return rough;
}

static lw_search run(const lw_rough *rough, const test_shape *stone, double margin, int budget)
{
    lw_memory memory = lw_memory_standard();
    lw_fitter *fitter = NULL;
    assert_int_equal(lw_fitter_new(&memory, rough, &stone->shape, margin, &fitter), LW_OK);
    lw_search_effort effort = lw_search_effort_usual();
    lw_search search;
    lw_search_start(&search, fitter, &effort);
    double progress = 0;
    while (!search.done) {
        assert_int_equal(lw_search_step(&search, budget), LW_OK);
        assert_true(lw_search_progress(&search) >= progress);
        progress = lw_search_progress(&search);
    }
    assert_true(progress == 1.0);
    lw_fitter_destroy(fitter);
    lw_fit_evidence evidence;
    lw_fit_verify(rough, &stone->shape, margin, &search.best, NULL, 0, &evidence);
    assert_true(evidence.sound);
    search.fitter = NULL;
    return search;
}

static void assert_reaches(double value, double best)
{
    print_message("reached %.6f of %.6f after all\n", value, best);
    assert_true(value <= best * (1 + 1e-9)); /* none is larger than the largest */
    assert_true(value >= best * 0.9995);     /* the promise of this search */
}

static void regular_solids_in_regular_solids(void **state)
{
    (void)state;
    test_shape cube, octahedron, tetrahedron;
    test_cube(&cube);
    test_octahedron(&octahedron);
    test_tetrahedron(&tetrahedron);
    lw_rough in_cube = make(LW_HABIT_CUBE, 10, 10, 10);
    assert_reaches(run(&in_cube, &octahedron, 0, 64).best.scale_mm, 10 * 0.75 * sqrt(2.0));
    assert_reaches(run(&in_cube, &tetrahedron, 0, 64).best.scale_mm, 10 * sqrt(2.0));
    assert_reaches(run(&in_cube, &cube, 0, 64).best.scale_mm, 10);
    lw_rough_destroy(&in_cube);
    double edge = 10 / sqrt(2.0);
    lw_rough in_octahedron = make(LW_HABIT_OCTAHEDRON, 10, 10, 10);
    assert_reaches(run(&in_octahedron, &cube, 0, 64).best.scale_mm, edge * (2 - sqrt(2.0)));
    assert_reaches(run(&in_octahedron, &tetrahedron, 0, 64).best.scale_mm, edge);
    lw_rough_destroy(&in_octahedron);
}

/* A flat pebble holds a round lying flat: z of the stone along the third reading, either way up. */
static void a_round_lies_flat_in_a_flat_pebble(void **state)
{
    (void)state;
    test_shape stone;
    test_round(&stone, 0);
    lw_rough rough = make(LW_HABIT_PEBBLE, 20, 19, 9);
    lw_search search = run(&rough, &stone, 0, 64);
    assert_true(fabs(search.best.rotation[8]) > 0.97);
    lw_rough_destroy(&rough);
}

static void steps_of_any_size_give_the_same_bits(void **state)
{
    (void)state;
    test_shape stone;
    test_round(&stone, 0);
    lw_rough rough = make(LW_HABIT_COBBED, 14, 11, 9);
    lw_search one = run(&rough, &stone, 0.3, 1), many = run(&rough, &stone, 0.3, 100000);
    assert_memory_equal(&one.best, &many.best, sizeof one.best);
    assert_int_equal(one.tried, many.tried);
    print_message("%d placements\n", one.tried);
    lw_rough_destroy(&rough);
}

/* What no search tried at random should beat by much, and what must not be worse than it. */
static void random_rotations_do_not_beat_it(void **state)
{
    (void)state;
    lw_memory memory = lw_memory_standard();
    test_random random = {99};
    test_shape stone;
    test_round(&stone, 0);
    const lw_habit habits[] = {LW_HABIT_PEBBLE, LW_HABIT_COBBED, LW_HABIT_POINTED_PRISM,
                               LW_HABIT_RHOMBOHEDRON, LW_HABIT_BARREL};
    for (int i = 0; i < 5; i++) {
        lw_rough rough = make(habits[i], 19, 11, 9);
        lw_search search = run(&rough, &stone, 0.2, 1000);
        lw_fitter *fitter = NULL;
        assert_int_equal(lw_fitter_new(&memory, &rough, &stone.shape, 0.2, &fitter), LW_OK);
        double best = 0;
        for (int k = 0; k < 4000; k++) {
            lw_vec3 v = {test_between(&random, -3, 3), test_between(&random, -3, 3),
                         test_between(&random, -3, 3)};
            double rotation[9];
            lw_placement placement;
            lw_turn_matrix(lw_turn_by(v), rotation);
            assert_int_equal(lw_fitter_place(fitter, rotation, &placement), LW_OK);
            best = fmax(best, placement.scale_mm);
        }
        print_message("%s: search %.4f, 4000 at random %.4f\n", lw_habit_describe(habits[i])->key,
                      search.best.scale_mm, best);
        assert_true(search.best.scale_mm >= best);
        lw_fitter_destroy(fitter);
        lw_rough_destroy(&rough);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(regular_solids_in_regular_solids),
        cmocka_unit_test(a_round_lies_flat_in_a_flat_pebble),
        cmocka_unit_test(steps_of_any_size_give_the_same_bits),
        cmocka_unit_test(random_rotations_do_not_beat_it),
    };
    return cmocka_run_group_tests_name("rough/search", tests, NULL, NULL);
}
