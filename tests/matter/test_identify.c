/* What a stone can be: matter/identify.h. */
#include "matter/identify.h"
#include "matter/near.h"
#include "matter/refraction.h"

#include <string.h>

enum { MOST = 160 };

static size_t run(const lw_readings *readings, lw_match matches[MOST])
{
    size_t total = 0;
    assert_int_equal(lw_identify(readings, matches, MOST, &total, NULL), LW_OK);
    assert_true(total <= lw_material_count());
    for (size_t i = 1; i < total; i++) {
        assert_true(matches[i].distance >= matches[i - 1].distance);
    }
    return total;
}

static const lw_match *find(const lw_match *matches, size_t count, const char *key)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(matches[i].material->key, key) == 0) {
            return &matches[i];
        }
    }
    return NULL;
}

static lw_readings readings(int count, double first, double second, double sg)
{
    lw_readings r = lw_readings_none();
    r.index_count = count;
    r.index[0] = first;
    r.index[1] = second;
    r.has_sg = sg > 0.0;
    r.sg = sg;
    return r;
}

/* common practice: readings as handbooks print them for the species, and what they must lead to. */
static void handbook_readings(void **state)
{
    (void)state;
    const struct {
        int count;
        double first, second, sg;
        const char *key;
        size_t among; /* the species stands among so many at the head: emerald is a beryl */
    } rows[] = {
        {2, 1.544, 1.553, 2.65, "quartz", 1},     {2, 1.762, 1.770, 4.00, "corundum", 1},
        {2, 1.624, 1.644, 3.06, "tourmaline", 1}, {2, 1.654, 1.690, 3.34, "peridot", 1},
        {2, 1.610, 1.620, 3.56, "topaz", 1},      {1, 1.718, 0.0, 3.60, "spinel", 1},
        {1, 1.434, 0.0, 3.18, "fluorite", 1},     {2, 1.577, 1.583, 2.72, "beryl", 2},
        {2, 1.691, 1.700, 3.35, "tanzanite", 1},  {1, 1.62, 0.0, 3.06, "tourmaline", 1},
        {2, 1.660, 1.676, 3.18, "spodumene", 1},  {2, 1.486, 1.658, 2.71, "calcite", 1},
        {1, 1.45, 0.0, 2.15, "opal", 1},          {2, 1.745, 1.754, 3.73, "chrysoberyl", 1},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_match matches[MOST];
        lw_readings r = readings(rows[i].count, rows[i].first, rows[i].second, rows[i].sg);
        size_t count = run(&r, matches);
        if (find(matches, count < rows[i].among ? count : rows[i].among, rows[i].key) == NULL) {
            fail_msg("%s is not at the head of %zu; %s is", rows[i].key, count,
                     count > 0 ? matches[0].material->key : "nothing");
        }
    }
}

/* Each species' own typical figures lead to it with nothing against it, however read. */
static void every_species_finds_itself(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *m = lw_material_at(i);
        double low = lw_material_lowest_index(m);
        double high = lw_material_highest_index(m);
        lw_match matches[MOST];
        for (int read = 0; read < 4; read++) {
            lw_readings r = readings(read % 3, low, high, read == 2 ? 0.0 : m->sg);
            if (read == 3) {
                r.over_limit = high > LW_REFRACTOMETER_LIMIT;
            }
            const lw_match *match = find(matches, run(&r, matches), m->key);
            assert_non_null(match);
            assert_near(match->worst, 0.0, 1e-9);
        }
    }
}

/* worked: spinel's index runs from 1.712 to 1.736, its SG from 3.58 to 3.64. A reading of 1.7405 +-
 * .003 lies .0045 above, 1.5 units; 3.55 +- .02 lies .03 below, 1.5 units. */
static void distances_are_in_units_of_error(void **state)
{
    (void)state;
    lw_match matches[MOST];
    lw_readings r = readings(1, 1.7405, 0.0, 3.55);
    const lw_match *match = find(matches, run(&r, matches), "spinel");
    assert_non_null(match);
    assert_near(match->clues[LW_CLUE_INDEX].off, 1.5, 1e-9);
    assert_near(match->clues[LW_CLUE_SG].off, 1.5, 1e-9);
    assert_near(match->distance, 1.5 * sqrt(2.0), 1e-9);
    assert_near(match->worst, 1.5, 1e-9);
    assert_false(lw_clue_speaks_for(&match->clues[LW_CLUE_INDEX]));
    assert_false(match->clues[LW_CLUE_BIREFRINGENCE].given);
    r.index_error = 0.006;
    match = find(matches, run(&r, matches), "spinel");
    assert_near(match->clues[LW_CLUE_INDEX].off, 0.75, 1e-9);
    assert_true(lw_clue_speaks_for(&match->clues[LW_CLUE_INDEX]));
    r.index_error = 0.001; /* now 4.5 units: out of the list */
    assert_null(find(matches, run(&r, matches), "spinel"));
    r.accept = 4.6;
    assert_non_null(find(matches, run(&r, matches), "spinel"));
}

/* Two readings well apart speak against a singly refracting stone, and their size decides. */
static void doubling_counts(void **state)
{
    (void)state;
    lw_match matches[MOST];
    lw_readings r = readings(2, 1.62, 1.64, 0.0);
    r.accept = 1000.0;
    size_t count = run(&r, matches);
    assert_int_equal(count, 148);
    /* worked: .020 read, 0 in glass, error .003 sqrt 2: 4.714 units. */
    const lw_match *glass = find(matches, count, "glass_flint");
    assert_near(glass->clues[LW_CLUE_BIREFRINGENCE].off, 0.02 / (0.003 * sqrt(2.0)), 1e-9);
    assert_near(find(matches, count, "tourmaline")->distance, 0.0, 1e-9);
    /* topaz, .010: (.020 - .0125) / (.003 sqrt 2) = 1.768 */
    assert_near(find(matches, count, "topaz")->clues[LW_CLUE_BIREFRINGENCE].off, 1.7678, 1e-3);
    r = readings(2, 1.64, 1.62, 0.0); /* the order does not matter */
    lw_match swapped[MOST];
    r.accept = 1000.0;
    assert_int_equal(run(&r, swapped), count);
    for (size_t i = 0; i < count; i++) {
        assert_ptr_equal(swapped[i].material, matches[i].material);
    }
}

/* common practice: what a refractometer cannot read. */
static void over_the_limit(void **state)
{
    (void)state;
    lw_match matches[MOST];
    lw_readings r = lw_readings_none();
    r.over_limit = true;
    r.has_sg = true;
    r.sg = 4.70;
    size_t count = run(&r, matches);
    assert_string_equal(matches[0].material->key, "zircon_high");
    assert_null(find(matches, count, "corundum"));
    r.sg = 3.52;
    count = run(&r, matches);
    assert_non_null(find(matches, count, "diamond"));
    assert_non_null(find(matches, count, "titanite"));
    assert_null(find(matches, count, "topaz")); /* right SG, but it would have been read */
    r.has_sg = false;
    count = run(&r, matches);
    for (size_t i = 0; i < count; i++) {
        const lw_clue_result *clue = &matches[i].clues[LW_CLUE_OVER_LIMIT];
        assert_true(clue->given);
        assert_true(matches[i].material->index_most + 2.0 * r.index_error >= r.limit);
    }
    /* worked: spessartine, 1.79 to 1.82, stays possible when the liquid ends at 1.81. */
    r.limit = 1.81;
    assert_non_null(find(matches, run(&r, matches), "garnet_spessartine"));
    /* corundum reaches 1.779: .011 below the limit of 1.79, 3.67 units of .003. */
    r.limit = 1.79;
    r.accept = 4.0;
    const lw_match *corundum = find(matches, run(&r, matches), "corundum");
    assert_near(corundum->clues[LW_CLUE_OVER_LIMIT].off, 11.0 / 3.0, 1e-6);
}

/* A species seldom met with comes after one that agrees as well and is met with often. */
static void common_species_come_first(void **state)
{
    (void)state;
    lw_match matches[MOST];
    lw_readings r = lw_readings_none();
    r.over_limit = r.has_sg = true;
    r.sg = 4.013;
    size_t count = run(&r, matches);
    const lw_match *almandine = find(matches, count, "garnet_almandine");
    const lw_match *painite = find(matches, count, "painite");
    assert_true(painite->material->seldom && !almandine->material->seldom);
    assert_near(painite->distance, almandine->distance, 0.0);
    assert_true(almandine < painite);
    /* worked: painite 4.00, 4.01, 4.03, error .02: u = .035, z = .003 / .035 */
    double z = 0.003 / 0.035;
    assert_near(painite->plausible, LW_SELDOM * 0.02 / 0.035 / (1.0 + z * z), 1e-9);
}

static void buffers_may_be_short(void **state)
{
    (void)state;
    lw_match all[MOST];
    lw_match few[3];
    lw_readings r = readings(1, 1.62, 0.0, 0.0);
    size_t total = run(&r, all);
    size_t same = 0;
    assert_true(total > 10);
    assert_int_equal(lw_identify(&r, NULL, 0, &same, NULL), LW_OK);
    assert_int_equal(same, total);
    for (size_t capacity = 1; capacity <= 3; capacity++) {
        assert_int_equal(lw_identify(&r, few, capacity, &same, NULL), LW_OK);
        assert_int_equal(same, total);
        for (size_t i = 0; i < capacity; i++) {
            assert_ptr_equal(few[i].material, all[i].material);
        }
    }
}

static void bad_readings_are_refused(void **state)
{
    (void)state;
    lw_readings bad[12];
    for (size_t i = 0; i < 12; i++) {
        bad[i] = readings(1, 1.62, 0.0, 3.06);
    }
    bad[0] = lw_readings_none();
    bad[1].index[0] = 0.99;
    bad[2].index[0] = NAN;
    bad[3].sg = 0.1;
    bad[4].sg = INFINITY;
    bad[5].index_error = 0.0;
    bad[6].sg_error = -0.02;
    bad[7].accept = 0.0;
    bad[8].over_limit = true;
    bad[9].index_count = 2;
    bad[9].index[1] = 5.0;
    bad[10].index_count = 0;
    bad[10].over_limit = true;
    bad[10].limit = 0.5;
    bad[11].sg_error = NAN;
    for (size_t i = 0; i < 12; i++) {
        lw_match match;
        size_t total = 77;
        lw_problem problem = {0};
        assert_int_equal(lw_identify(&bad[i], &match, 1, &total, &problem), LW_BAD_INPUT);
        assert_int_equal(total, 77);
        assert_true(problem.found[0] != '\0' && problem.expected[0] != '\0');
        assert_int_equal(lw_identify(&bad[i], &match, 1, &total, NULL), LW_BAD_INPUT);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(handbook_readings),
        cmocka_unit_test(every_species_finds_itself),
        cmocka_unit_test(distances_are_in_units_of_error),
        cmocka_unit_test(doubling_counts),
        cmocka_unit_test(over_the_limit),
        cmocka_unit_test(common_species_come_first),
        cmocka_unit_test(buffers_may_be_short),
        cmocka_unit_test(bad_readings_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
