/* The table of materials: matter/material.h, matter/caution.h, and the angles that follow. */
#include "matter/material.h"
#include "matter/near.h"
#include "matter/refraction.h"

#include <string.h>

static const lw_material *key(const char *name)
{
    const lw_material *material = lw_material_by_key(name);
    assert_non_null(material);
    return material;
}

static bool source_known(const char *word, size_t length)
{
    for (size_t i = 0; i < lw_source_count(); i++) {
        const char *own = lw_source_at(i)->word;
        if (strlen(own) == length && memcmp(own, word, length) == 0) {
            return true;
        }
    }
    return false;
}

/* Every figure names sources that sources.txt explains. */
static void check_origin(const lw_origin *origin)
{
    const char *at = origin->sources;
    size_t words = 0;
    while (*at != '\0') {
        size_t length = strcspn(at, " ");
        assert_true(source_known(at, length));
        at += length + strspn(at + length, " ");
        words++;
    }
    assert_true(words > 0 || origin->trust == LW_TRUST_ESTIMATED || origin->trust == LW_TRUST_NONE);
    assert_true(origin->trust != LW_TRUST_CONFLICT || origin->remark[0] != '\0');
    assert_true(strlen(lw_trust_text(origin->trust)) > 3);
}

static void check_optics(const lw_material *m)
{
    static const int rays[LW_OPTIC_COUNT] = {1, 2, 2, 3, 3, 3};
    assert_int_equal(m->ray_count, rays[m->optic]);
    for (int ray = 0; ray < m->ray_count; ray++) {
        assert_true(m->index[ray] >= m->index_least && m->index[ray] <= m->index_most);
    }
    assert_true(m->index_least > 1.3 && m->index_most < 3.4);
    if (m->optic == LW_OPTIC_UNIAXIAL_POSITIVE) {
        assert_true(m->index[1] > m->index[0]);
    } else if (m->optic == LW_OPTIC_UNIAXIAL_NEGATIVE) {
        assert_true(m->index[1] < m->index[0]);
    } else if (m->ray_count == 3) {
        assert_true(m->index[0] <= m->index[1] && m->index[1] <= m->index[2]);
    }
}

/* worked: a biaxial crystal is positive when its optic angle about z is acute,
 * tan^2 V = (1/x^2 - 1/y^2) / (1/y^2 - 1/z^2) < 1 (Born & Wolf, 7th ed., 15.3). */
static void check_optic_sign(const lw_material *m)
{
    if (m->ray_count != 3) {
        return;
    }
    double x = 1.0 / (m->index[0] * m->index[0]);
    double y = 1.0 / (m->index[1] * m->index[1]);
    double z = 1.0 / (m->index[2] * m->index[2]);
    double tan_square = (x - y) / (y - z);
    /* Indices to .001 leave the sign open where the angle is near 90 degrees. */
    if (m->optic == LW_OPTIC_BIAXIAL_POSITIVE) {
        assert_true(tan_square < 1.05);
    } else if (m->optic == LW_OPTIC_BIAXIAL_NEGATIVE) {
        assert_true(tan_square > 0.95);
    }
}

static void every_species_is_sane(void **state)
{
    (void)state;
    assert_int_equal(lw_material_count(), 148);
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *m = lw_material_at(i);
        assert_ptr_equal(lw_material_by_key(m->key), m);
        assert_true(strlen(m->name) >= 3);
        check_optics(m);
        check_optic_sign(m);
        assert_true(m->sg_low <= m->sg && m->sg <= m->sg_high);
        assert_true(m->sg_low > 1.0 && m->sg_high < 8.5);
        assert_true(m->mohs_low <= m->mohs_high && m->mohs_low >= 1.5 && m->mohs_high <= 10.0);
        assert_true(m->dispersion >= 0.0 && m->dispersion <= 0.4);
        assert_true((m->dispersion > 0.0) == (m->oscillator_um2 > 0.0));
        assert_true(m->oscillator_um2 < 0.07);
        assert_true((m->cautions >> LW_CAUTION_COUNT) == 0);
        /* What cleaves well says so among its cautions. */
        assert_true(m->cleavage < LW_CLEAVAGE_PERFECT || (m->cautions & LW_CAUTION_CLEAVES) != 0);
        assert_true(m->mohs_high > 4.5 || (m->cautions & LW_CAUTION_SOFT) != 0 ||
                    m->cautions & LW_CAUTION_MERCURY);
        check_origin(&m->index_origin);
        check_origin(&m->sg_origin);
        check_origin(&m->dispersion_origin);
    }
}

/* Critical angle by its definition, from the lowest index of the stone; Snell's law at it. */
static void critical_angle_follows_index(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *m = lw_material_at(i);
        double lowest = m->index[0];
        for (int ray = 1; ray < m->ray_count; ray++) {
            lowest = fmin(lowest, m->index[ray]);
        }
        double angle = lw_material_critical_angle_deg(m);
        assert_near(sin(angle * 3.14159265358979323846 / 180.0), 1.0 / lowest, 1e-14);
        assert_near(lw_material_birefringence(m), lw_material_highest_index(m) - lowest, 1e-15);
    }
}

/* published: critical angles and reflectances of diamond and quartz (handbooks); worked: the
 * others, asin(1/n) and ((n-1)/(n+1))^2. */
static void known_angles(void **state)
{
    (void)state;
    const struct {
        double n, critical_deg, reflectance;
    } rows[] = {{2.417, 24.44, 0.172}, {1.544, 40.37, 0.0457}, {1.77, 34.40, 0.0773},
                {1.62, 38.12, 0.0560}, {2.16, 27.58, 0.1348},  {1.434, 44.21, 0.0318}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_near(lw_critical_angle_deg(rows[i].n), rows[i].critical_deg, 0.005);
        assert_near(lw_normal_reflectance(rows[i].n), rows[i].reflectance,
                    rows[i].n > 2.4 ? 0.0005 : 0.00005);
    }
    assert_near(lw_critical_angle_deg(sqrt(2.0)), 45.0, 1e-12);
    assert_near(lw_critical_angle_deg(2.0), 30.0, 1e-12);
    assert_near(lw_normal_reflectance(1.0), 0.0, 0.0);
    assert_near(lw_material_critical_angle_deg(key("diamond")), 24.44, 0.005);
    assert_near(lw_material_critical_angle_deg(key("quartz")), 40.36, 0.005);
    assert_near(lw_material_critical_angle_deg(key("corundum")), 34.62, 0.005);
}

/* A few rows against handbooks (from memory), as a guard against a slipped line. */
static void known_species(void **state)
{
    (void)state;
    const struct {
        const char *key;
        double low, high, sg, mohs;
    } rows[] = {
        {"diamond", 2.417, 2.417, 3.52, 10.0},    {"corundum", 1.76, 1.768, 4.0, 9.0},
        {"topaz", 1.61, 1.62, 3.56, 8.0},         {"quartz", 1.544, 1.553, 2.65, 7.0},
        {"tourmaline", 1.62, 1.64, 3.06, 7.0},    {"peridot", 1.654, 1.69, 3.34, 6.5},
        {"fluorite", 1.434, 1.434, 3.18, 4.0},    {"calcite", 1.486, 1.658, 2.71, 3.0},
        {"spinel", 1.718, 1.718, 3.6, 8.0},       {"zircon_high", 1.925, 1.984, 4.7, 7.0},
        {"glass_crown", 1.517, 1.517, 2.51, 6.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const lw_material *m = key(rows[i].key);
        assert_near(lw_material_lowest_index(m), rows[i].low, 0.0006);
        assert_near(lw_material_highest_index(m), rows[i].high, 0.0006);
        assert_near(m->sg, rows[i].sg, 0.001);
        assert_near(m->mohs_low, rows[i].mohs, 0.001);
    }
    assert_near(lw_mean_of_rays(2, key("quartz")->index), 1.5472, 0.00005);
    assert_near(lw_mean_of_rays(3, key("peridot")->index), 1.6717, 0.00005);
}

/* The species that can hurt say so. common practice, and the minerals' formulas. */
static void dangerous_species_say_so(void **state)
{
    (void)state;
    const struct {
        const char *key;
        unsigned caution;
    } rows[] = {
        {"cinnabar", LW_CAUTION_MERCURY},
        {"proustite", LW_CAUTION_ARSENIC},
        {"cerussite", LW_CAUTION_LEAD},
        {"anglesite", LW_CAUTION_LEAD},
        {"wulfenite", LW_CAUTION_LEAD},
        {"crocoite", LW_CAUTION_LEAD},
        {"glass_flint", LW_CAUTION_LEAD},
        {"glass_flint_heavy", LW_CAUTION_LEAD},
        {"cuprite", LW_CAUTION_COPPER},
        {"dioptase", LW_CAUTION_COPPER},
        {"ekanite", LW_CAUTION_RADIOACTIVE},
        {"zircon_low", LW_CAUTION_RADIOACTIVE},
        {"bastnaesite", LW_CAUTION_RADIOACTIVE},
        {"beryl", LW_CAUTION_BERYLLIUM},
        {"emerald", LW_CAUTION_BERYLLIUM},
        {"morganite", LW_CAUTION_BERYLLIUM},
        {"pezzottaite", LW_CAUTION_BERYLLIUM},
        {"chrysoberyl", LW_CAUTION_BERYLLIUM},
        {"alexandrite_synthetic", LW_CAUTION_BERYLLIUM},
        {"phenakite", LW_CAUTION_BERYLLIUM},
        {"euclase", LW_CAUTION_BERYLLIUM},
        {"hambergite", LW_CAUTION_BERYLLIUM},
        {"beryllonite", LW_CAUTION_BERYLLIUM},
        {"herderite", LW_CAUTION_BERYLLIUM},
        {"taaffeite", LW_CAUTION_BERYLLIUM},
        {"tugtupite", LW_CAUTION_BERYLLIUM},
        {"rhodizite", LW_CAUTION_BERYLLIUM},
        {"bromellite", LW_CAUTION_BERYLLIUM},
        {"quartz", LW_CAUTION_SILICA},
        {"opal", LW_CAUTION_SILICA},
        {"obsidian", LW_CAUTION_SILICA},
        {"fluorite", LW_CAUTION_FLUORIDE},
        {"villiaumite", LW_CAUTION_WATER},
        {"topaz", LW_CAUTION_CLEAVES},
        {"tanzanite", LW_CAUTION_HEAT},
        {"calcite", LW_CAUTION_ACID},
        {"paratellurite", LW_CAUTION_METALS},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_true((key(rows[i].key)->cautions & rows[i].caution) != 0);
    }
    assert_int_equal(key("spinel")->cautions & LW_CAUTION_HEALTH, 0);
    assert_int_equal(key("corundum")->cautions, 0);
}

static void cautions_have_words(void **state)
{
    (void)state;
    unsigned seen = 0;
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        assert_int_equal(caution->bit, 1u << i);
        assert_ptr_equal(lw_caution_find(caution->word), caution);
        assert_true(strlen(caution->title) > 3);
        assert_true(caution->advice[strlen(caution->advice) - 1] == '.');
        seen |= caution->bit;
    }
    assert_int_equal(seen & LW_CAUTION_HEALTH, LW_CAUTION_HEALTH);
    assert_null(lw_caution_find("none"));
    unsigned used = 0;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *m = lw_material_at(i);
        used |= m->cautions;
        for (size_t j = 0; j < m->variety_count; j++) {
            used |= m->varieties[j].cautions;
        }
    }
    assert_int_equal(used, seen);
}

/* A stone's own index: the mean is met, n^2 - 1 of all rays scales alike, and c stays. */
static void own_index(void **state)
{
    (void)state;
    const char *const keys[] = {"quartz", "calcite", "peridot", "diamond", "cinnabar", "spinel"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        const lw_material *m = key(keys[i]);
        for (double n = 1.3; n < 3.0; n += 0.17) {
            lw_material own;
            double mean = 0.0;
            assert_int_equal(lw_material_with_index(m, n, &own), LW_OK);
            assert_int_equal(lw_material_mean_index(&own, LW_LINE_D_UM, &mean), LW_OK);
            assert_near(mean, n, 1e-12);
            double ratio = 0.0;
            for (int ray = 0; ray < m->ray_count; ray++) {
                double before = m->index[ray] * m->index[ray] - 1.0;
                double after = own.index[ray] * own.index[ray] - 1.0;
                assert_near(after / before, ray == 0 ? after / before : ratio, 1e-12);
                ratio = after / before;
            }
            assert_true(own.oscillator_um2 == m->oscillator_um2);
            assert_int_equal(own.index_origin.trust, LW_TRUST_USER);
        }
    }
    lw_material own = *key("quartz");
    double red = 0.0;
    double typical_red = 0.0;
    assert_int_equal(lw_material_with_index(&own, 1.60, &own), LW_OK);
    assert_int_equal(lw_material_index(&own, 0, 0.6867, &red, NULL), LW_OK);
    assert_int_equal(lw_material_index(key("quartz"), 0, 0.6867, &typical_red, NULL), LW_OK);
    double raw = key("quartz")->formulas != NULL ? 1.5442061 : 0.0; /* Ghosh's o at D */
    double scale = (own.index[0] * own.index[0] - 1.0) / (raw * raw - 1.0);
    assert_near((red * red - 1.0) / (typical_red * typical_red - 1.0), scale, 1e-6);
}

static void bad_index_is_refused(void **state)
{
    (void)state;
    const double bad[] = {1.0, 0.0, -1.5, 1.049, 4.01, NAN, INFINITY};
    lw_material out = *key("topaz");
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_int_equal(lw_material_with_index(key("quartz"), bad[i], &out), LW_BAD_INPUT);
        assert_int_equal(lw_material_custom(bad[i], 3.0, &out), LW_BAD_INPUT);
        assert_string_equal(out.key, "topaz");
    }
    assert_int_equal(lw_material_custom(1.6, 0.4, &out), LW_BAD_INPUT);
    assert_int_equal(lw_material_custom(1.6, NAN, &out), LW_BAD_INPUT);
    assert_string_equal(out.key, "topaz");
    assert_int_equal(lw_material_custom(1.6, 3.0, &out), LW_OK);
    assert_true(out.dispersion > 0.016 && out.dispersion < 0.018);
}

static size_t count(const lw_material_filter *filter)
{
    size_t passing = 0;
    for (size_t i = 0; i < lw_material_count(); i++) {
        passing += lw_material_passes(lw_material_at(i), filter) ? 1 : 0;
    }
    return passing;
}

static void filters(void **state)
{
    (void)state;
    lw_material_filter all = {0};
    assert_int_equal(count(&all), 148);
    lw_material_filter diamond = {.index_least = 2.41, .index_most = 2.42, .mohs_least = 9.5};
    assert_int_equal(count(&diamond), 1);
    assert_true(lw_material_passes(key("diamond"), &diamond));
    lw_material_filter light = {.sg_least = 1.0, .sg_most = 1.3};
    assert_int_equal(count(&light), 3); /* amber and the two plastics */
    lw_material_filter beryllium = {.with = LW_CAUTION_BERYLLIUM};
    lw_material_filter no_beryllium = {.without = LW_CAUTION_BERYLLIUM};
    assert_int_equal(count(&beryllium), 15);
    assert_int_equal(count(&beryllium) + count(&no_beryllium), 148);
    lw_material_filter uncleaving = {.cleavage_limited = true, .cleavage_most = LW_CLEAVAGE_NONE};
    assert_true(lw_material_passes(key("quartz"), &uncleaving));
    assert_false(lw_material_passes(key("topaz"), &uncleaving));
    lw_material_filter single = {.singly_refracting = true};
    assert_true(lw_material_passes(key("spinel"), &single));
    assert_false(lw_material_passes(key("quartz"), &single));
    lw_material_filter published = {.formula_only = true};
    assert_int_equal(count(&published), 37);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_species_is_sane),
        cmocka_unit_test(critical_angle_follows_index),
        cmocka_unit_test(known_angles),
        cmocka_unit_test(known_species),
        cmocka_unit_test(dangerous_species_say_so),
        cmocka_unit_test(cautions_have_words),
        cmocka_unit_test(own_index),
        cmocka_unit_test(bad_index_is_refused),
        cmocka_unit_test(filters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
