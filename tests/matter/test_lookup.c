/* What a person types: matter/lookup.h. */
#include "matter/lookup.h"
#include "matter/near.h"

#include <string.h>

/* common practice: which species the trade's names belong to. */
static void names_are_found(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"quartz", "quartz"},
        {"Amethyst", "quartz"},
        {"citrine", "quartz"},
        {"rock crystal", "quartz"},
        {"ruby", "corundum"},
        {"SAPPHIRE", "corundum"},
        {"aquamarine", "beryl"},
        {"cz", "cubic_zirconia"},
        {"CZ", "cubic_zirconia"},
        {"Cubic Zirconia", "cubic_zirconia"},
        {"cubic-zirconia", "cubic_zirconia"},
        {"pyrope", "garnet_pyrope"},
        {"pyrope garnet", "garnet_pyrope"},
        {"Garnet, pyrope", "garnet_pyrope"},
        {"tsavorite", "garnet_grossular"},
        {"demantoid", "garnet_andradite"},
        {"sphene", "titanite"},
        {"kunzite", "spodumene"},
        {"zircon", "zircon_high"},
        {"moonstone", "orthoclase"},
        {"cat's eye", "chrysoberyl"},
        {"cat\xE2\x80\x99s-eye", "chrysoberyl"},
        {"alexandrite", "chrysoberyl"},
        {"synthetic alexandrite", "alexandrite_synthetic"},
        {"spinel", "spinel"},
        {"synthetic spinel", "spinel_synthetic"},
        {"topaz", "topaz"},
        {"imperial topaz", "topaz_imperial"},
        {"tourmaline", "tourmaline"},
        {"rubellite", "tourmaline"},
        {"sulphur", "sulfur"},
        {"barite", "baryte"},
        {"yttrium aluminum garnet", "yag"},
        {"fire opal", "opal_fire"},
        {"  window   glass ", "glass_soda_lime"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_found_material found;
        if (lw_material_find(rows[i][0], &found) != LW_OK ||
            strcmp(found.material->key, rows[i][1]) != 0) {
            fail_msg("'%s' is not found as %s", rows[i][0], rows[i][1]);
        }
        assert_int_equal(found.distance, 0);
    }
}

/* Every key and every name that one species alone carries leads to it. */
static void every_name_leads_home(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *m = lw_material_at(i);
        lw_found_material found;
        assert_int_equal(lw_material_find(m->key, &found), LW_OK);
        assert_ptr_equal(found.material, m);
        assert_int_equal(lw_material_find(m->name, &found), LW_OK);
        assert_ptr_equal(found.material, m);
        for (size_t j = 0; j < m->variety_count; j++) {
            lw_status status = lw_material_find(m->varieties[j].name, &found);
            if (status == LW_OK) {
                assert_ptr_equal(found.material, m);
            } else {
                assert_int_equal(status, LW_AMBIGUOUS);
            }
        }
    }
}

static void shared_names_are_ambiguous(void **state)
{
    (void)state;
    const struct {
        const char *name;
        size_t carriers;
    } rows[] = {{"garnet", 8}, {"glass", 6}, {"feldspar", 7}, {"sunstone", 2}, {"plastic", 2}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_found_material untouched = {.distance = 77};
        lw_found_material found[64];
        assert_int_equal(lw_material_find(rows[i].name, &untouched), LW_AMBIGUOUS);
        assert_int_equal(untouched.distance, 77);
        size_t count = lw_material_suggest(rows[i].name, found, 64);
        size_t carriers = 0;
        while (carriers < count && found[carriers].distance == 0) {
            carriers++;
        }
        assert_int_equal(carriers, rows[i].carriers);
    }
}

static void misspelt_names_are_guessed(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"quarz", "quartz"},
        {"amethist", "quartz"},
        {"saphire", "corundum"},
        {"torumaline", "tourmaline"},
        {"peridott", "peridot"},
        {"zirconn", "zircon_high"},
        {"aquamarin", "beryl"},
        {"fluorit", "fluorite"},
        {"emrald", "emerald"},
        {"tanzinite", "tanzanite"},
        {"spessartin", "garnet_spessartine"},
        {"green amethyst stone", "quartz"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_found_material found[3];
        assert_int_equal(lw_material_find(rows[i][0], &found[0]), LW_NOT_FOUND);
        size_t count = lw_material_suggest(rows[i][0], found, 3);
        assert_true(count >= 1 && count <= 3);
        assert_string_equal(found[0].material->key, rows[i][1]);
        for (size_t j = 1; j < count; j++) {
            assert_true(found[j].distance >= found[j - 1].distance);
        }
    }
}

/* worked: how many letters are put in, left out, changed or swapped. */
static void distances(void **state)
{
    (void)state;
    const struct {
        const char *name;
        int distance;
    } rows[] = {{"torumaline", 1}, {"quarz", 1}, {"quartzz", 1}, {"qaurtz", 1}, {"qurtaz", 2}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_found_material found[1];
        assert_int_equal(lw_material_suggest(rows[i].name, found, 1), 1);
        assert_int_equal(found[0].distance, rows[i].distance);
    }
}

static void nonsense_is_not_found(void **state)
{
    (void)state;
    char long_name[4096];
    memset(long_name, 'q', sizeof long_name - 1);
    long_name[sizeof long_name - 1] = '\0';
    char many_words[4096];
    for (size_t i = 0; i < sizeof many_words; i++) {
        many_words[i] = i % 2 ? ' ' : 'a';
    }
    many_words[sizeof many_words - 1] = '\0';
    const char *const rows[] = {"", " ", "---", "\xFF\xFE", "xyzzyplugh", long_name, many_words};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_found_material found[4] = {{.distance = 77}};
        assert_int_equal(lw_material_find(rows[i], &found[0]), LW_NOT_FOUND);
        assert_int_equal(found[0].distance, 77);
        assert_int_equal(lw_material_suggest(rows[i], found, 4), 0);
    }
    assert_int_equal(lw_material_suggest("garnet", NULL, 0), 0);
}

/* The cautions of a variety join those of its species. */
static void varieties_bring_cautions(void **state)
{
    (void)state;
    lw_found_material found;
    assert_int_equal(lw_material_find("tiger's eye", &found), LW_OK);
    assert_string_equal(found.material->key, "quartz");
    assert_true((lw_found_cautions(&found) & LW_CAUTION_ASBESTOS) != 0);
    assert_true((lw_found_cautions(&found) & LW_CAUTION_SILICA) != 0);
    assert_int_equal(lw_material_find("citrine", &found), LW_OK);
    assert_true((lw_found_cautions(&found) & LW_CAUTION_ASBESTOS) == 0);
    assert_int_equal(lw_material_find("chrysocolla chalcedony", &found), LW_OK);
    assert_true((lw_found_cautions(&found) & LW_CAUTION_COPPER) != 0);
    assert_int_equal(lw_material_find("quartz", &found), LW_OK);
    assert_null(found.variety);
    assert_int_equal(lw_found_cautions(&found), found.material->cautions);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_are_found),
        cmocka_unit_test(every_name_leads_home),
        cmocka_unit_test(shared_names_are_ambiguous),
        cmocka_unit_test(misspelt_names_are_guessed),
        cmocka_unit_test(distances),
        cmocka_unit_test(nonsense_is_not_found),
        cmocka_unit_test(varieties_bring_cautions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
