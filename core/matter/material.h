/* The materials that people facet: one record a species, with where each figure comes from.
 *
 * Indices are relative to air, at 589.3 nm and room temperature; specific gravity is against water
 * at 4 degrees C (so that it is g/cm3 to 3 parts in 100,000). Typical figures are picks inside the
 * published spread: natural stones vary, and lw_material_with_index takes a stone's own reading.
 * Figures and sources: data/species.txt, data/sources.txt, built into a table. All strings are
 * static. Everything here is pure and safe from any thread.
 */
#ifndef LW_MATTER_MATERIAL_H
#define LW_MATTER_MATERIAL_H

#include "base/status.h"
#include "matter/caution.h"
#include "matter/formula.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum lw_crystal {
    LW_CRYSTAL_CUBIC,
    LW_CRYSTAL_TETRAGONAL,
    LW_CRYSTAL_HEXAGONAL,
    LW_CRYSTAL_TRIGONAL,
    LW_CRYSTAL_ORTHORHOMBIC,
    LW_CRYSTAL_MONOCLINIC,
    LW_CRYSTAL_TRICLINIC,
    LW_CRYSTAL_AGGREGATE, /* grains too fine to see */
    LW_CRYSTAL_METAMICT,  /* once a crystal, broken down by its own radiation */
    LW_CRYSTAL_AMORPHOUS,
    LW_CRYSTAL_COUNT
} lw_crystal;

typedef enum lw_optic {
    LW_OPTIC_ISOTROPIC, /* one index: no doubling */
    LW_OPTIC_UNIAXIAL_POSITIVE,
    LW_OPTIC_UNIAXIAL_NEGATIVE,
    LW_OPTIC_BIAXIAL_POSITIVE,
    LW_OPTIC_BIAXIAL_NEGATIVE,
    LW_OPTIC_BIAXIAL, /* axes near 90 degrees: the sign goes either way */
    LW_OPTIC_COUNT
} lw_optic;

/* How much stands behind a figure. */
typedef enum lw_trust {
    LW_TRUST_AGREED,      /* two or more sources, not always independent */
    LW_TRUST_SINGLE,      /* one source */
    LW_TRUST_SINGLE_PLUS, /* one, and a second for the birefringence */
    LW_TRUST_MEMORY_PLUS, /* a source for the birefringence alone */
    LW_TRUST_MEMORY,      /* recalled, not looked up */
    LW_TRUST_FORMULA,     /* computed from the species' published formula */
    LW_TRUST_CONFLICT,    /* sources disagree: see remark */
    LW_TRUST_ESTIMATED,   /* nothing found; set to the middle of its relatives */
    LW_TRUST_NONE,        /* not known; the figure is 0 */
    LW_TRUST_USER,        /* given by the user */
    LW_TRUST_COUNT
} lw_trust;

typedef enum lw_cleavage {
    LW_CLEAVAGE_NONE,
    LW_CLEAVAGE_POOR,
    LW_CLEAVAGE_FAIR,
    LW_CLEAVAGE_GOOD,
    LW_CLEAVAGE_PERFECT,
    LW_CLEAVAGE_COUNT
} lw_cleavage;

/* Where a figure comes from: the words of sources, separated by blanks, are lw_source words. */
typedef struct lw_origin {
    lw_trust trust;
    const char *sources, *remark;
} lw_origin;

typedef struct lw_source {
    const char *word, *citation;
} lw_source;

/* Another name for a material or a part of it; cautions that hold for this part alone. */
typedef struct lw_variety {
    const char *name;
    unsigned cautions;
} lw_variety;

typedef struct lw_material {
    const char *key, *name; /* key: lower case, digits and '_'; name: for people */
    const lw_variety *varieties;
    size_t variety_count;
    lw_crystal crystal;
    lw_optic optic;
    int ray_count;                  /* 1, 2 (o, e) or 3 (x <= y <= z) */
    double index[3];                /* principal indices of a typical stone */
    double index_least, index_most; /* over the whole species and all rays */
    lw_origin index_origin;
    double sg_low, sg, sg_high; /* sg: typical */
    lw_origin sg_origin;
    double dispersion;     /* B-G: index at 430.8 nm less that at 686.7 nm; 0 when unknown */
    double oscillator_um2; /* the constant c of the one-oscillator curve; 0 when unknown */
    lw_origin dispersion_origin;
    const lw_formula *formulas; /* ray_count of them, in the order of index; NULL for none */
    bool formula_fitted;        /* its n^2 - 1 is scaled to meet index at 589.3 nm */
    double mohs_low, mohs_high;
    lw_cleavage cleavage;       /* the best developed one */
    const char *cleavage_where; /* "" when there is nothing to say */
    unsigned cautions;          /* lw_caution bits */
    const char *polish;         /* "cerium", "alumina", "diamond" or "" (common practice) */
    bool seldom;                /* met with as a cut stone (ours, from memory) */
    const char *note;           /* sentences for the cutter, or "" */
} lw_material;

size_t lw_material_count(void);
/* In the order of the table, i < lw_material_count(). */
const lw_material *lw_material_at(size_t i);
/* By the exact key; NULL when there is none. For what a person types, see lookup.h. */
const lw_material *lw_material_by_key(const char *key);

const char *lw_crystal_text(lw_crystal crystal);
const char *lw_optic_text(lw_optic optic);
const char *lw_cleavage_text(lw_cleavage cleavage);
/* A short phrase such as "two or more sources". */
const char *lw_trust_text(lw_trust trust);
/* "n", "o", "e", "x", "y" or "z"; 0 <= ray < material->ray_count. */
const char *lw_ray_text(const lw_material *material, int ray);

size_t lw_source_count(void);
/* i < lw_source_count(). */
const lw_source *lw_source_at(size_t i);

/* What a list of materials may be narrowed to. Zero-initialised: everything passes. A pair of
 * limits counts where most > 0, and passes a species whose spread overlaps it. */
typedef struct lw_material_filter {
    double index_least, index_most;
    double sg_least, sg_most;
    double mohs_least;         /* the species' lowest hardness must reach it */
    unsigned with, without;    /* cautions: any of these; none of these */
    bool singly_refracting;    /* isotropic alone */
    lw_cleavage cleavage_most; /* with cleavage_limited: no better developed than this */
    bool cleavage_limited;
    bool formula_only; /* those with a published formula */
} lw_material_filter;

bool lw_material_passes(const lw_material *material, const lw_material_filter *filter);

/* How far an index may be given by a user. */
#define LW_INDEX_LEAST 1.05
#define LW_INDEX_MOST 4.0
/* And a specific gravity: pumice floats at 0.6; nothing on Earth passes osmium's 22.6. */
#define LW_SG_LEAST 0.5
#define LW_SG_MOST 25.0

/* The material with a stone's own mean index at 589.3 nm in place of the typical one: n^2 - 1 of
 * every ray is scaled by one factor and c is kept, so that the dispersion curve keeps its shape.
 * LW_BAD_INPUT outside LW_INDEX_LEAST .. LW_INDEX_MOST. out may be the same object. */
lw_status lw_material_with_index(const lw_material *material, double mean_index, lw_material *out);

/* A material of which nothing is known but an index and a specific gravity: key "custom",
 * isotropic, c = 0.0100 um2 (the estimate for species without published dispersion). LW_BAD_INPUT
 * for an index out of limits or an sg outside LW_SG_LEAST .. LW_SG_MOST. */
lw_status lw_material_custom(double index, double sg, lw_material *out);

#endif
