#include "matter/material.h"

#include "matter/refraction.h"
#include "matter/tables.h"

#include <assert.h>
#include <math.h>
#include <string.h>

size_t lw_material_count(void)
{
    return lw_table_material_count;
}

const lw_material *lw_material_at(size_t i)
{
    assert(i < lw_table_material_count);
    return &lw_table_materials[i];
}

const lw_material *lw_material_by_key(const char *key)
{
    for (size_t i = 0; i < lw_table_material_count; i++) {
        if (strcmp(lw_table_materials[i].key, key) == 0) {
            return &lw_table_materials[i];
        }
    }
    return NULL;
}

size_t lw_source_count(void)
{
    return lw_table_source_count;
}

const lw_source *lw_source_at(size_t i)
{
    assert(i < lw_table_source_count);
    return &lw_table_sources[i];
}

const char *lw_crystal_text(lw_crystal crystal)
{
    static const char *const texts[LW_CRYSTAL_COUNT] = {
        [LW_CRYSTAL_CUBIC] = "cubic",
        [LW_CRYSTAL_TETRAGONAL] = "tetragonal",
        [LW_CRYSTAL_HEXAGONAL] = "hexagonal",
        [LW_CRYSTAL_TRIGONAL] = "trigonal",
        [LW_CRYSTAL_ORTHORHOMBIC] = "orthorhombic",
        [LW_CRYSTAL_MONOCLINIC] = "monoclinic",
        [LW_CRYSTAL_TRICLINIC] = "triclinic",
        [LW_CRYSTAL_AGGREGATE] = "aggregate",
        [LW_CRYSTAL_METAMICT] = "metamict",
        [LW_CRYSTAL_AMORPHOUS] = "amorphous",
    };
    assert((unsigned)crystal < LW_CRYSTAL_COUNT);
    return texts[crystal];
}

const char *lw_optic_text(lw_optic optic)
{
    static const char *const texts[LW_OPTIC_COUNT] = {
        [LW_OPTIC_ISOTROPIC] = "isotropic",
        [LW_OPTIC_UNIAXIAL_POSITIVE] = "uniaxial positive",
        [LW_OPTIC_UNIAXIAL_NEGATIVE] = "uniaxial negative",
        [LW_OPTIC_BIAXIAL_POSITIVE] = "biaxial positive",
        [LW_OPTIC_BIAXIAL_NEGATIVE] = "biaxial negative",
        [LW_OPTIC_BIAXIAL] = "biaxial of either sign",
    };
    assert((unsigned)optic < LW_OPTIC_COUNT);
    return texts[optic];
}

const char *lw_cleavage_text(lw_cleavage cleavage)
{
    static const char *const texts[LW_CLEAVAGE_COUNT] = {
        [LW_CLEAVAGE_NONE] = "none", [LW_CLEAVAGE_POOR] = "poor",       [LW_CLEAVAGE_FAIR] = "fair",
        [LW_CLEAVAGE_GOOD] = "good", [LW_CLEAVAGE_PERFECT] = "perfect",
    };
    assert((unsigned)cleavage < LW_CLEAVAGE_COUNT);
    return texts[cleavage];
}

const char *lw_trust_text(lw_trust trust)
{
    static const char *const texts[LW_TRUST_COUNT] = {
        [LW_TRUST_AGREED] = "two or more sources",
        [LW_TRUST_SINGLE] = "one source",
        [LW_TRUST_SINGLE_PLUS] = "one source, and a second for the birefringence",
        [LW_TRUST_MEMORY_PLUS] = "from memory; a source for the birefringence",
        [LW_TRUST_MEMORY] = "from memory",
        [LW_TRUST_FORMULA] = "computed from a published formula",
        [LW_TRUST_CONFLICT] = "sources disagree",
        [LW_TRUST_ESTIMATED] = "estimated",
        [LW_TRUST_NONE] = "not known",
        [LW_TRUST_USER] = "given by the user",
    };
    assert((unsigned)trust < LW_TRUST_COUNT);
    return texts[trust];
}

const char *lw_ray_text(const lw_material *material, int ray)
{
    static const char *const texts[3][3] = {{"n", "", ""}, {"o", "e", ""}, {"x", "y", "z"}};
    assert(ray >= 0 && ray < material->ray_count);
    return texts[material->ray_count - 1][ray];
}

/* Whether low .. high meets the limits; most <= 0 means there are none. */
static bool overlaps(double low, double high, double least, double most)
{
    return most <= 0.0 || (high >= least && low <= most);
}

bool lw_material_passes(const lw_material *material, const lw_material_filter *filter)
{
    return overlaps(material->index_least, material->index_most, filter->index_least,
                    filter->index_most) &&
           overlaps(material->sg_low, material->sg_high, filter->sg_least, filter->sg_most) &&
           material->mohs_low >= filter->mohs_least &&
           (filter->with == 0 || (material->cautions & filter->with) != 0) &&
           (material->cautions & filter->without) == 0 &&
           (!filter->singly_refracting || material->optic == LW_OPTIC_ISOTROPIC) &&
           (!filter->cleavage_limited || material->cleavage <= filter->cleavage_most) &&
           (!filter->formula_only || material->formulas != NULL);
}

/* The mean index after n^2 - 1 of every ray is scaled. */
static double scaled_mean(const lw_material *material, double factor, lw_material *out)
{
    for (int ray = 0; ray < material->ray_count; ray++) {
        double n = material->index[ray];
        out->index[ray] = sqrt(1.0 + factor * (n * n - 1.0));
    }
    return lw_mean_of_rays(out->ray_count, out->index);
}

lw_status lw_material_with_index(const lw_material *material, double mean_index, lw_material *out)
{
    if (!(mean_index >= LW_INDEX_LEAST && mean_index <= LW_INDEX_MOST)) {
        return LW_BAD_INPUT;
    }
    lw_material tuned = *material;
    double factor = 1.0;
    /* The mean of roots is all but the root of the mean: each round leaves a small share of the
     * error of the one before (a hundredth in the most strongly doubling stones). */
    for (int round = 0; round < 12; round++) {
        double mean = scaled_mean(material, factor, &tuned);
        factor *= (mean_index * mean_index - 1.0) / (mean * mean - 1.0);
    }
    (void)scaled_mean(material, factor, &tuned);
    tuned.index_least = lw_material_lowest_index(&tuned);
    tuned.index_most = lw_material_highest_index(&tuned);
    tuned.index_origin = (lw_origin){LW_TRUST_USER, "", ""};
    tuned.formula_fitted = true;
    *out = tuned;
    return LW_OK;
}

lw_status lw_material_custom(double index, double sg, lw_material *out)
{
    if (!(index >= LW_INDEX_LEAST && index <= LW_INDEX_MOST) ||
        !(sg >= LW_SG_LEAST && sg <= LW_SG_MOST)) {
        return LW_BAD_INPUT;
    }
    *out = (lw_material){
        .key = "custom",
        .name = "Material of given index and specific gravity",
        .crystal = LW_CRYSTAL_AMORPHOUS,
        .optic = LW_OPTIC_ISOTROPIC,
        .ray_count = 1,
        .index = {index, 0.0, 0.0},
        .index_least = index,
        .index_most = index,
        .index_origin = {LW_TRUST_USER, "", ""},
        .sg_low = sg,
        .sg = sg,
        .sg_high = sg,
        .sg_origin = {LW_TRUST_USER, "", ""},
        .oscillator_um2 = 0.0100,
        .dispersion_origin = {LW_TRUST_ESTIMATED, "", ""},
        .cleavage_where = "",
        .polish = "",
        .note = "",
    };
    out->dispersion = lw_material_dispersion(out, 0, LW_LINE_G_UM, LW_LINE_B_UM);
    return LW_OK;
}
