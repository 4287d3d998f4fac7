#include "material.h"

#include "text.h"

#include "matter/refraction.h"

#include <stdio.h>
#include <string.h>

enum { MOST_SHOWN = 8, LIST_TEXT = 240 };

/* "a, b, c" of the keys found, cut short when there are many. */
static void list_keys(const lw_found_material *found, size_t count, char text[LIST_TEXT])
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 0; i < count && used + 40 < LIST_TEXT; i++) {
        used += (size_t)snprintf(text + used, LIST_TEXT - used, "%s%s", i == 0 ? "" : ", ",
                                 found[i].material->key);
    }
}

static size_t carriers(const lw_found_material *found, size_t count)
{
    size_t carrying = 0;
    while (carrying < count && found[carrying].distance == 0) {
        carrying++;
    }
    return carrying;
}

bool cli_material_named(const char *where, const char *name, lw_found_material *found)
{
    lw_status status = lw_material_find(name, found);
    if (status == LW_OK) {
        return true;
    }
    lw_found_material near[MOST_SHOWN];
    char keys[LIST_TEXT];
    size_t count = lw_material_suggest(name, near, MOST_SHOWN);
    if (status == LW_AMBIGUOUS) {
        list_keys(near, carriers(near, count), keys);
        cli_fail("%s: found '%.80s', which several materials are called; expected one of %s", where,
                 name, keys);
    } else if (count > 0) {
        list_keys(near, count < 3 ? count : 3, keys);
        cli_fail("%s: found '%.80s'; expected the name of a material (did you mean %s?)", where,
                 name, keys);
    } else {
        cli_fail(
            "%s: found '%.80s'; expected the name of a material (lapwing materials lists them)",
            where, name);
    }
    return false;
}

/* ---- JSON ---- */

static json_t *words_of(const char *text)
{
    json_t *list = json_array();
    while (*text != '\0') {
        size_t length = strcspn(text, " ");
        json_array_append_new(list, json_stringn(text, length));
        text += length + strspn(text + length, " ");
    }
    return list;
}

static json_t *caution_words(unsigned cautions)
{
    json_t *list = json_array();
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        if ((cautions & caution->bit) != 0) {
            json_array_append_new(list, json_string(caution->word));
        }
    }
    return list;
}

static json_t *origin_of(const lw_origin *origin)
{
    return json_pack("{s:s, s:o, s:s}", "trust", lw_trust_text(origin->trust), "sources",
                     words_of(origin->sources), "remark", origin->remark);
}

/* A number, or null where 0 stands for unknown. */
static json_t *known(double value)
{
    return value > 0.0 ? json_real(value) : json_null();
}

json_t *cli_material_row(const lw_material *material)
{
    return json_pack(
        "{s:s, s:s, s:[f,f], s:[f,f], s:f, s:f, s:[f,f], s:[f,f], s:f, s:o, s:s, s:o, s:b}", "key",
        material->key, "name", material->name, "refractive_index",
        lw_material_lowest_index(material), lw_material_highest_index(material),
        "refractive_index_spread", material->index_least, material->index_most, "birefringence",
        lw_material_birefringence(material), "sg", material->sg, "sg_spread", material->sg_low,
        material->sg_high, "mohs", material->mohs_low, material->mohs_high, "critical_angle_deg",
        lw_material_critical_angle_deg(material), "dispersion_bg", known(material->dispersion),
        "cleavage", lw_cleavage_text(material->cleavage), "cautions",
        caution_words(material->cautions), "seldom", (int)material->seldom);
}

static json_t *rays_of(const lw_material *material)
{
    json_t *rays = json_object();
    for (int ray = 0; ray < material->ray_count; ray++) {
        json_object_set_new(rays, lw_ray_text(material, ray), json_real(material->index[ray]));
    }
    return rays;
}

static json_t *advice_of(unsigned cautions)
{
    json_t *list = json_array();
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        if ((cautions & caution->bit) != 0) {
            json_array_append_new(list,
                                  json_pack("{s:s, s:s, s:s}", "caution", caution->word, "title",
                                            caution->title, "advice", caution->advice));
        }
    }
    return list;
}

static json_t *also_of(const lw_material *material)
{
    json_t *list = json_array();
    for (size_t i = 0; i < material->variety_count; i++) {
        json_array_append_new(list, json_string(material->varieties[i].name));
    }
    return list;
}

json_t *cli_material_whole(const lw_found_material *found)
{
    const lw_material *m = found->material;
    json_t *whole = cli_material_row(m);
    json_t *more = json_pack(
        "{s:o, s:s, s:s, s:o, s:o, s:o, s:o, s:o, s:f, s:f, s:s, s:s, s:s, s:o}", "also",
        also_of(m), "crystal", lw_crystal_text(m->crystal), "optic", lw_optic_text(m->optic),
        "rays", rays_of(m), "refractive_index_origin", origin_of(&m->index_origin), "sg_origin",
        origin_of(&m->sg_origin), "dispersion_origin", origin_of(&m->dispersion_origin),
        "oscillator_um2", known(m->oscillator_um2), "critical_angle_of_lowest_deg",
        lw_critical_angle_deg(m->index_least), "reflectance",
        lw_normal_reflectance(lw_mean_of_rays(m->ray_count, m->index)), "cleavage_where",
        m->cleavage_where, "polish", m->polish, "note", m->note, "advice",
        advice_of(lw_found_cautions(found)));
    if (more != NULL) {
        json_object_set_new(more, "cautions", caution_words(lw_found_cautions(found)));
        json_object_set_new(more, "asked_for", json_string(found->matched));
        json_object_set_new(more, "dispersion_formula",
                            m->formulas == NULL ? json_null() : json_string(m->formulas->paper));
    }
    if (whole == NULL || more == NULL || json_object_update(whole, more) != 0) {
        json_decref(whole);
        whole = NULL;
    }
    json_decref(more);
    return whole;
}

json_t *cli_material_at_wavelength(const lw_material *material, double wavelength_um)
{
    json_t *rays = json_object();
    for (int ray = 0; ray < material->ray_count; ray++) {
        double n = 0.0;
        lw_index_basis basis = LW_INDEX_CONSTANT;
        if (lw_material_index(material, ray, wavelength_um, &n, &basis) == LW_OK) {
            json_object_set_new(
                rays, lw_ray_text(material, ray),
                json_pack("{s:f, s:s}", "refractive_index", n, "by", lw_index_basis_text(basis)));
        }
    }
    return json_pack("{s:f, s:o}", "wavelength_nm", 1000.0 * wavelength_um, "rays", rays);
}

/* ---- print ---- */

static void tell_origin(const lw_origin *origin)
{
    printf(" (%s%s%s%s%s)\n", lw_trust_text(origin->trust), origin->sources[0] ? ": " : "",
           origin->sources, origin->remark[0] ? "; " : "", origin->remark);
}

static void tell_optics(const lw_material *m)
{
    printf("  refractive index   ");
    for (int ray = 0; ray < m->ray_count; ray++) {
        printf("%s%s%s%s", ray == 0 ? "" : ", ", m->ray_count == 1 ? "" : lw_ray_text(m, ray),
               m->ray_count == 1 ? "" : " ", CLI_FIXED(m->index[ray], 4));
    }
    printf("; known from %s to %s", CLI_FIXED(m->index_least, 3), CLI_FIXED(m->index_most, 3));
    tell_origin(&m->index_origin);
    if (m->ray_count > 1) {
        printf("  birefringence      %s\n", CLI_FIXED(lw_material_birefringence(m), 4));
    }
    if (m->dispersion > 0.0) {
        printf("  dispersion B-G     %s", CLI_FIXED(m->dispersion, 4));
    } else {
        printf("  dispersion B-G     -");
    }
    tell_origin(&m->dispersion_origin);
    if (m->formulas != NULL) {
        printf("  index by colour    %s%s\n", m->formulas->paper,
               m->formula_fitted ? " (scaled to the index above)" : "");
    }
    printf("  critical angle     %s deg; at the lowest index known %s deg\n",
           CLI_FIXED(lw_material_critical_angle_deg(m), 2),
           CLI_FIXED(lw_critical_angle_deg(m->index_least), 2));
}

static void tell_body(const lw_material *m)
{
    printf("  specific gravity   %s; from %s to %s", CLI_FIXED(m->sg, 2), CLI_FIXED(m->sg_low, 2),
           CLI_FIXED(m->sg_high, 2));
    tell_origin(&m->sg_origin);
    printf("  hardness (Mohs)    %s", CLI_SHORT(m->mohs_low));
    if (m->mohs_high > m->mohs_low) {
        printf(" to %s", CLI_SHORT(m->mohs_high));
    }
    printf("\n  cleavage           %s%s%s\n", lw_cleavage_text(m->cleavage),
           m->cleavage_where[0] ? ", " : "", m->cleavage_where);
    if (m->polish[0]) {
        printf("  polish             %s (common practice)\n", m->polish);
    }
}

void cli_material_tell(const lw_found_material *found)
{
    const lw_material *m = found->material;
    unsigned cautions = lw_found_cautions(found);
    printf("%s (%s): %s, %s\n", m->name, m->key, lw_crystal_text(m->crystal),
           lw_optic_text(m->optic));
    for (size_t i = 0; i < m->variety_count; i++) {
        printf("%s%s%s", i == 0 ? "  also called        " : ", ", m->varieties[i].name,
               i + 1 == m->variety_count ? "\n" : "");
    }
    tell_optics(m);
    tell_body(m);
    if (m->note[0] || m->seldom) {
        printf("\n%s%s%s\n", m->note, m->note[0] && m->seldom ? " " : "",
               m->seldom ? "Seldom met with as a cut stone." : "");
    }
    printf("\nCautions: cut it wet, as every stone.\n");
    for (size_t i = 0; i < LW_CAUTION_COUNT; i++) {
        const lw_caution *caution = lw_caution_at(i);
        if ((cautions & caution->bit) != 0) {
            printf("- %s: %s\n", caution->title, caution->advice);
        }
    }
}

void cli_material_tell_at_wavelength(const lw_material *material, double wavelength_um)
{
    printf("\nAt %s nm:\n", CLI_SHORT(1000.0 * wavelength_um));
    for (int ray = 0; ray < material->ray_count; ray++) {
        double n = 0.0;
        lw_index_basis basis = LW_INDEX_CONSTANT;
        if (lw_material_index(material, ray, wavelength_um, &n, &basis) == LW_OK) {
            printf("  %s  %s  (%s)\n", lw_ray_text(material, ray), CLI_FIXED(n, 5),
                   lw_index_basis_text(basis));
        }
    }
}
