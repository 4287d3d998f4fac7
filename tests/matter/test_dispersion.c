/* Index by wavelength: matter/formula.h and matter/refraction.h. */
#include "matter/near.h"
#include "matter/refraction.h"

#include <stdlib.h>
#include <string.h>

static double index_at(const lw_material *material, int ray, double wavelength_um)
{
    double n = 0.0;
    assert_int_equal(lw_material_index(material, ray, wavelength_um, &n, NULL), LW_OK);
    return n;
}

static double formula_at(const char *key, const char *ray, double wavelength_um)
{
    const lw_formula *formula = lw_formula_find(key, ray);
    double n = 0.0;
    assert_non_null(formula);
    assert_int_equal(lw_formula_index(formula, wavelength_um, &n), LW_OK);
    return n;
}

/* A line of handbook.txt. */
typedef struct figure {
    double low, high, unit, ours; /* ours 0: the two agree */
} figure;

static double span(const lw_material *material, int ray, double short_um, double long_um)
{
    double at_short = 0.0;
    double at_long = 0.0;
    if (ray >= 0) {
        return lw_material_dispersion(material, ray, short_um, long_um);
    }
    assert_int_equal(lw_material_mean_index(material, short_um, &at_short), LW_OK);
    assert_int_equal(lw_material_mean_index(material, long_um, &at_long), LW_OK);
    return at_short - at_long;
}

static int ray_named(const lw_material *material, const char *name)
{
    for (int ray = 0; ray < material->ray_count; ray++) {
        if (strcmp(lw_ray_text(material, ray), name) == 0) {
            return ray;
        }
    }
    assert_string_equal(name, "mean");
    assert_null(material->formulas);
    return -1;
}

/* ".008-.017" or ".13": the range and one unit of its last place. */
static void read_figure(const char *text, figure *out)
{
    char *end = NULL;
    out->low = strtod(text, &end);
    out->high = *end == '-' ? strtod(end + 1, NULL) : out->low;
    size_t decimals = strspn(text + 1, "0123456789");
    assert_true(text[0] == '.' && decimals >= 2 && decimals <= 3);
    out->unit = decimals == 2 ? 0.01 : 0.001;
    out->ours = 0.0;
}

static void compare(const char *line, const char *what, double computed, const figure *f)
{
    double apart = fmax(fmax(f->low - computed, computed - f->high), 0.0);
    if (f->ours > 0.0) {
        if (fabs(computed - f->ours) > 0.0001 || apart <= f->unit) {
            fail_msg("%s: %s is %.5f, expected %.4f, and not the handbook's", line, what, computed,
                     f->ours);
        }
    } else if (apart > f->unit + 1e-9) {
        fail_msg("%s: %s is %.5f", line, what, computed);
    }
}

/* Compares one line; returns 1 for a line that says the two differ. */
static int compare_line(char *line)
{
    char shown[128];
    snprintf(shown, sizeof shown, "%.100s", line);
    char *reason = strchr(line, ';');
    if (reason != NULL) {
        *reason++ = '\0';
    }
    const lw_material *material = lw_material_by_key(strtok(line, " "));
    assert_non_null(material);
    int ray = ray_named(material, strtok(NULL, " "));
    bool differs = false;
    char *word = strtok(NULL, " \n");
    while (word != NULL) {
        bool bg = strcmp(word, "B-G") == 0;
        assert_true(bg || strcmp(word, "C-F") == 0);
        figure f;
        read_figure(strtok(NULL, " \n"), &f);
        char *next = strtok(NULL, " \n");
        if (next != NULL && strcmp(next, "ours") == 0) {
            f.ours = strtod(strtok(NULL, " \n"), NULL);
            differs = true;
            next = strtok(NULL, " \n");
        }
        compare(shown, word,
                bg ? span(material, ray, LW_LINE_G_UM, LW_LINE_B_UM)
                   : span(material, ray, LW_LINE_F_UM, LW_LINE_C_UM),
                &f);
        word = next;
    }
    assert_int_equal(differs, reason != NULL && strlen(reason) > 20);
    return differs ? 1 : 0;
}

/* published: see the head of handbook.txt. */
static void handbook(void **state)
{
    (void)state;
    FILE *file = fopen("tests/matter/handbook.txt", "r");
    assert_non_null(file);
    char line[512];
    int lines = 0;
    int differing = 0;
    while (fgets(line, sizeof line, file) != NULL) {
        if (line[0] != '#' && line[0] != '\n') {
            differing += compare_line(line);
            lines++;
        }
    }
    fclose(file);
    assert_int_equal(lines, 74);
    assert_int_equal(differing, 33);
}

/* The figures that the project knows to differ must be among those that say so. */
static void handbook_covers_formulas(void **state)
{
    (void)state;
    static const char *const keys[] = {
        "rutile",    "strontium_titanate", "moissanite",  "calcite",   "apatite",
        "scheelite", "sphalerite",         "chrysoberyl", "wulfenite", "ggg"};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        FILE *file = fopen("tests/matter/handbook.txt", "r");
        assert_non_null(file);
        char line[512];
        bool found = false;
        size_t length = strlen(keys[i]);
        while (fgets(line, sizeof line, file) != NULL) {
            found = found || (strncmp(line, keys[i], length) == 0 && line[length] == ' ' &&
                              strstr(line, " ours ") != NULL);
        }
        fclose(file);
        assert_true(found);
    }
}

/* Every formula used as published gives the table's index at D; those that were fitted differ from
 * it, each by a known amount, because the stone differs from the crystal measured. */
static void index_at_d(void **state)
{
    (void)state;
    const struct {
        const char *key;
        double o, e; /* table less formula */
    } fitted[] = {
        {"apatite", 0.0046,
         0.0027}, /* the gem holds chlorine and hydroxyl; fluorapatite does not */
        {"sphalerite", 0.0021, 0.0},     /* iron; the formula is of pure zinc sulfide */
        {"spinel", 0.0019, 0.0},         /* iron and chromium; the formula is of pure spinel */
        {"powellite", -0.0182, -0.0179}, /* tungsten in place of molybdenum */
        {"wulfenite", -0.0038, 0.0063},  /* natural against grown crystals */
        {"zincite", 0.0103, 0.0098},     /* manganese; the formula is of pure zinc oxide */
    };
    size_t with_formula = 0;
    size_t with_fitted = 0;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        for (int ray = 0; material->formulas != NULL && ray < material->ray_count; ray++) {
            double raw = 0.0;
            assert_int_equal(lw_formula_index(&material->formulas[ray], LW_LINE_D_UM, &raw), LW_OK);
            if (!material->formula_fitted) {
                assert_near(raw, material->index[ray], 0.0005);
                continue;
            }
            assert_near(index_at(material, ray, LW_LINE_D_UM), material->index[ray], 1e-12);
            for (size_t j = 0; j < sizeof fitted / sizeof fitted[0]; j++) {
                if (strcmp(fitted[j].key, material->key) == 0) {
                    assert_near(material->index[ray] - raw, ray == 0 ? fitted[j].o : fitted[j].e,
                                0.00006);
                    with_fitted++;
                }
            }
        }
        with_formula += material->formulas != NULL ? 1 : 0;
    }
    assert_int_equal(with_formula, 37);
    assert_int_equal(with_fitted, 10);
}

/* published: the coefficients against index values printed elsewhere. Optical glasses: the six
 * figures of their code are n_d - 1 in thousandths and ten times the Abbe number (n_d at 587.56 nm,
 * Abbe number by 486.13 and 656.27 nm; ISO 7944). */
static void glass_codes(void **state)
{
    (void)state;
    int glasses = 0;
    for (size_t i = 0; i < lw_formula_count(); i++) {
        const lw_formula *formula = lw_formula_at(i);
        int code = 0;
        if (sscanf(formula->key, "glass_%6d", &code) != 1) {
            continue;
        }
        double d = formula_at(formula->key, "iso", 0.5875618);
        double f = formula_at(formula->key, "iso", 0.4861327);
        double c = formula_at(formula->key, "iso", 0.6562725);
        assert_int_equal(lround(1000.0 * (d - 1.0)) % 1000, code / 1000);
        assert_int_equal(lround(10.0 * (d - 1.0) / (f - c)), code % 1000);
        glasses++;
    }
    assert_int_equal(glasses, 9);
}

/* from memory: tables of the papers and handbooks themselves, to the figures given. */
static void known_indices(void **state)
{
    (void)state;
    assert_near(formula_at("glass_silica", "iso", 0.5875618), 1.458464, 2e-6);
    assert_near(formula_at("glass_517642", "iso", 0.5875618), 1.516800, 2e-6);
    assert_near(formula_at("fluorite", "iso", 0.5875618), 1.433849, 5e-6);
    assert_near(formula_at("corundum", "o", 0.5892938), 1.76808, 2e-5);
    assert_near(formula_at("corundum", "e", 0.5892938), 1.76000, 2e-5);
    assert_near(formula_at("quartz", "o", 0.5892938), 1.54424, 5e-5);
    assert_near(formula_at("quartz", "e", 0.5892938), 1.55335, 5e-5);
    assert_near(formula_at("calcite", "o", 0.5892938), 1.65835, 5e-5);
    assert_near(formula_at("calcite", "e", 0.5892938), 1.48640, 3e-4);
    assert_near(formula_at("diamond", "iso", 0.5892938), 2.4173, 1e-4);
}

/* c is nothing but the constant that gives B-G back at the mean index. */
static void oscillator_gives_dispersion(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        if (material->oscillator_um2 <= 0.0) {
            assert_true(material->dispersion_origin.trust == LW_TRUST_NONE);
            assert_near(index_at(material, 0, 0.43), material->index[0], 1e-15);
            continue;
        }
        lw_material plain;
        double mean = lw_mean_of_rays(material->ray_count, material->index);
        assert_int_equal(lw_material_custom(mean, 3.0, &plain), LW_OK);
        plain.oscillator_um2 = material->oscillator_um2;
        assert_near(lw_material_dispersion(&plain, 0, LW_LINE_G_UM, LW_LINE_B_UM),
                    material->dispersion, 0.00011);
    }
}

/* worked: one oscillator by hand, n = 1.63, c = 0.01, at 0.45 um:
 * n2 - 1 = 1.6569 * (0.3372744900 / 0.3472744900) * (0.2025 / 0.1925) = 1.692783...  */
static void one_oscillator(void **state)
{
    (void)state;
    lw_material material;
    lw_index_basis basis = LW_INDEX_FORMULA;
    double n = 0.0;
    assert_int_equal(lw_material_custom(1.63, 3.06, &material), LW_OK);
    assert_int_equal(lw_material_index(&material, 0, 0.45, &n, &basis), LW_OK);
    assert_int_equal(basis, LW_INDEX_CURVE);
    double by_hand = 1.6569 * (0.33727449 / 0.34727449) * (0.2025 / 0.1925);
    assert_near(n * n - 1.0, by_hand, 1e-12);
    assert_near(by_hand, 1.692783, 2e-6);
}

/* The index never rises with wavelength, has no step (at a formula's end above all) and says what
 * it rests on. */
static void smooth_and_falling(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        for (int ray = 0; ray < material->ray_count; ray++) {
            double before = index_at(material, ray, LW_VISIBLE_FROM_UM);
            for (int step = 1; step <= 4700; step++) {
                double at = LW_VISIBLE_FROM_UM + 0.0001 * step;
                double n = index_at(material, ray, fmin(at, LW_VISIBLE_TO_UM));
                bool constant = material->oscillator_um2 <= 0.0;
                if (!(constant ? n <= before : n < before) || before - n > 0.003) {
                    fail_msg("%s %s: %.6f before %.4f um, %.6f there", material->key,
                             lw_ray_text(material, ray), before, at, n);
                }
                before = n;
            }
        }
    }
}

static void out_of_range(void **state)
{
    (void)state;
    const lw_material *quartz = lw_material_by_key("quartz");
    const lw_material *moissanite = lw_material_by_key("moissanite");
    const double bad[] = {0.0, -0.5, 0.3599, 0.8301, 5893.0, NAN, INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        double n = 7.0;
        lw_index_basis basis = LW_INDEX_CONSTANT;
        assert_int_equal(lw_material_index(quartz, 0, bad[i], &n, &basis), LW_BAD_INPUT);
        assert_int_equal(lw_material_mean_index(quartz, bad[i], &n), LW_BAD_INPUT);
        assert_true(n > 6.9 && basis == LW_INDEX_CONSTANT);
    }
    const double outside[] = {0.0, -0.5, 0.1979, 2.0532, NAN, INFINITY};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        double untouched = 7.0;
        assert_int_equal(lw_formula_index(quartz->formulas, outside[i], &untouched), LW_BAD_INPUT);
        assert_near(untouched, 7.0, 0.0);
    }
    double n = 0.0;
    lw_index_basis basis = LW_INDEX_CONSTANT;
    assert_int_equal(lw_formula_index(moissanite->formulas, 0.4357, &n), LW_BAD_INPUT);
    assert_int_equal(lw_formula_index(moissanite->formulas, 0.4358, &n), LW_OK);
    assert_int_equal(lw_material_index(moissanite, 0, 0.4358, &n, &basis), LW_OK);
    assert_int_equal(basis, LW_INDEX_FORMULA);
    assert_int_equal(lw_material_index(moissanite, 0, 0.4357, &n, &basis), LW_OK);
    assert_int_equal(basis, LW_INDEX_EXTENDED);
    assert_null(lw_formula_find("moissanite", "iso"));
    assert_null(lw_formula_find("nothing", "o"));
}

/* Cinnabar's formula begins in the red: the species must not use it. */
static void cinnabar_has_no_visible_formula(void **state)
{
    (void)state;
    assert_true(lw_formula_find("cinnabar", "o")->from_um > LW_LINE_D_UM);
    assert_null(lw_material_by_key("cinnabar")->formulas);
    for (size_t i = 0; i < lw_material_count(); i++) {
        const lw_material *material = lw_material_at(i);
        for (int ray = 0; material->formulas != NULL && ray < material->ray_count; ray++) {
            assert_true(material->formulas[ray].from_um < 0.4862);
            assert_true(material->formulas[ray].to_um > 0.6868);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(handbook),       cmocka_unit_test(handbook_covers_formulas),
        cmocka_unit_test(index_at_d),     cmocka_unit_test(glass_codes),
        cmocka_unit_test(known_indices),  cmocka_unit_test(oscillator_gives_dispersion),
        cmocka_unit_test(one_oscillator), cmocka_unit_test(smooth_and_falling),
        cmocka_unit_test(out_of_range),   cmocka_unit_test(cinnabar_has_no_visible_formula),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
