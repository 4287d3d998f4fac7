/* How much a cut asks of the hand: one number, and what it is made from.
 *
 *     difficulty = facets / 20 + settings / 4 + (chain - 1) / 2 + min(2, 2 / closest)
 *
 * facets    every facet with an area, the girdle's too, and each temporary one: so many times the
 *           stone goes to the lap at each grit
 * settings  different angles, each side for itself, the girdle's 90 and a level facet each once
 * chain     the longest run of steps in which each is cut to a meet of the one before: an error in
 *           the first is carried to the last
 * closest   degrees between the two nearest angles of one side (vertical and level ones left
 *           out): the nearer they are, the further a meet runs for a breath of height
 *
 * The weights are ours, chosen so that a single cut comes to about 3 and a round brilliant to
 * about 8.
 */
#ifndef LW_CRAFT_DIFFICULTY_H
#define LW_CRAFT_DIFFICULTY_H

#include "cut/stone.h"

typedef struct lw_difficulty {
    int facets, settings, chain;
    double closest_deg; /* 0: no side has two such angles */
    double value;
} lw_difficulty;

lw_difficulty lw_difficulty_of(const lw_cut *cut, const lw_stone *stone);

/* "a first stone" below 4.5, "an ordinary stone" below 7.5, "asks for practice" below 11, else
 * "for a patient hand". Static storage. */
const char *lw_difficulty_text(double value);

#endif
