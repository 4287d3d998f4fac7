/* What a material asks of the person who cuts it.
 *
 * Cautions are bits, so that a set of them fits in one unsigned; each has a word (used in the data
 * and on the command line), a title and a sentence of advice. Common practice and general
 * knowledge, not medical advice; docs/materials.md says what was read where. Every stone is cut
 * wet, whatever its set says.
 */
#ifndef LW_MATTER_CAUTION_H
#define LW_MATTER_CAUTION_H

#include <stdbool.h>
#include <stddef.h>

/* In the order in which they are told: what harms the cutter first, what harms the stone after. */
enum lw_caution_bit {
    LW_CAUTION_MERCURY = 1u << 0,
    LW_CAUTION_ARSENIC = 1u << 1,
    LW_CAUTION_ASBESTOS = 1u << 2,
    LW_CAUTION_RADIOACTIVE = 1u << 3,
    LW_CAUTION_BERYLLIUM = 1u << 4,
    LW_CAUTION_LEAD = 1u << 5,
    LW_CAUTION_COPPER = 1u << 6,
    LW_CAUTION_METALS = 1u << 7,
    LW_CAUTION_SILICA = 1u << 8,
    LW_CAUTION_FLUORIDE = 1u << 9,
    LW_CAUTION_CLEAVES = 1u << 10,
    LW_CAUTION_HEAT = 1u << 11,
    LW_CAUTION_MELTS = 1u << 12,
    LW_CAUTION_DRIES = 1u << 13,
    LW_CAUTION_WATER = 1u << 14,
    LW_CAUTION_ACID = 1u << 15,
    LW_CAUTION_SOLVENT = 1u << 16,
    LW_CAUTION_FILLED = 1u << 17,
    LW_CAUTION_ULTRASONIC = 1u << 18,
    LW_CAUTION_FADES = 1u << 19,
    LW_CAUTION_BRITTLE = 1u << 20,
    LW_CAUTION_SOFT = 1u << 21
};
enum { LW_CAUTION_COUNT = 22 };

/* Those that harm the cutter or the household. */
#define LW_CAUTION_HEALTH 0x3FFu

typedef struct lw_caution {
    unsigned bit;
    const char *word, *title, *advice; /* static, English; advice is whole sentences */
} lw_caution;

/* The i-th caution in the order of telling, i < LW_CAUTION_COUNT. */
const lw_caution *lw_caution_at(size_t i);

/* The caution with that word; NULL when there is none. */
const lw_caution *lw_caution_find(const char *word);

#endif
