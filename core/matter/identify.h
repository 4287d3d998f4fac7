/* What a stone can be, by its readings.
 *
 * Each reading is compared with the whole spread of each species; what is left is told in units of
 * the reading's own error, so that 0 means within the spread, 1 just reached by the error, and 2
 * that the reading would have to be twice as wrong as it was said to be. Every species is listed
 * whose worst reading lies within `accept` of these units. Ranking: by the root of the summed
 * squares of these, then by how plausible the readings are for the species: for each, error / u /
 * (1 + z^2), where u is half the species' spread and the error, z the distance from the typical
 * stone in units of u, so that a wide spread does not win by being wide; a tenth of it for species
 * seldom met with.
 *
 * A refractometer's readings are the least and the greatest seen while the stone is turned on it:
 * then any facet shows the whole birefringence (a spot reading does not: give one index). Colour,
 * spectrum, doubling seen through the stone and inclusions are not asked about here, and decide
 * between many of the species that remain. Pure; no allocation.
 */
#ifndef LW_MATTER_IDENTIFY_H
#define LW_MATTER_IDENTIFY_H

#include "base/problem.h"
#include "matter/material.h"

/* Errors assumed where none is given (common practice): a refractometer read on a flat facet, and
 * a specific gravity by weighing. */
#define LW_INDEX_READING_ERROR 0.003
#define LW_SG_READING_ERROR 0.02
/* Contact liquids end between 1.79 and 1.81: 'over the limit' says for sure only that the index
 * lies above the lower of these (common practice). */
#define LW_REFRACTOMETER_LIMIT 1.79
/* Birefringence differs within a species by about this share of its typical value (estimated). */
#define LW_BIREFRINGENCE_SPREAD 0.25
#define LW_ACCEPT 2.0
/* How much less a species is expected that is seldom met with as a cut stone (estimated). */
#define LW_SELDOM 0.1

typedef struct lw_readings {
    int index_count;    /* 0, 1 or 2 */
    double index[2];    /* any order */
    double index_error; /* +-, of each */
    bool over_limit;    /* the refractometer shows nothing below its limit; index_count is 0 */
    double limit;
    bool has_sg;
    double sg, sg_error; /* +- */
    double accept;       /* units of error, above 0 */
} lw_readings;

/* No readings yet; the errors, the limit and accept as above. */
lw_readings lw_readings_none(void);

typedef enum lw_clue {
    LW_CLUE_INDEX,         /* the one reading, or the lower of two */
    LW_CLUE_INDEX_HIGHER,  /* the higher of two */
    LW_CLUE_BIREFRINGENCE, /* their difference */
    LW_CLUE_OVER_LIMIT,
    LW_CLUE_SG,
    LW_CLUE_COUNT
} lw_clue;

/* "refractive index", ... */
const char *lw_clue_text(lw_clue clue);

typedef struct lw_clue_result {
    bool given;
    double reading;     /* what was read; the limit for LW_CLUE_OVER_LIMIT */
    double least, most; /* what the species allows */
    double typical;     /* of what is typical for the species, the nearest to the reading */
    double error;       /* +-, of the reading */
    double off;         /* distance of reading from least .. most in units of error, >= 0 */
} lw_clue_result;

typedef struct lw_match {
    const lw_material *material;
    lw_clue_result clues[LW_CLUE_COUNT];
    double worst;     /* the largest off */
    double distance;  /* root of the summed squares of off */
    double plausible; /* above 0, at most 1: for the order of equals */
} lw_match;

/* A clue speaks for the species when off <= 1, against it otherwise. */
bool lw_clue_speaks_for(const lw_clue_result *clue);

/* Writes the best capacity matches in order, and to *total how many there are (at most
 * lw_material_count()); matches may be NULL with capacity 0. LW_BAD_INPUT, with a problem, when no
 * reading is given, an index lies outside LW_INDEX_LEAST .. LW_INDEX_MOST, an sg outside
 * LW_SG_LEAST .. LW_SG_MOST, an error is not above 0, or both an index and over_limit are given.
 * problem may be NULL. */
lw_status lw_identify(const lw_readings *readings, lw_match *matches, size_t capacity,
                      size_t *total, lw_problem *problem);

#endif
