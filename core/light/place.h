/* A place from its text: docs/places.md has the language.
 *
 * The viewer sits behind the stone and looks ahead: in the place's frame he is on the side of -y, y
 * is ahead, x to his right, z up. Lines are painted in their order, later ones before earlier ones.
 * Light is given in candela per square metre and kept relative to what the place calls bright: a
 * patch's radiance at 560 nm is such that its luminance comes out right for its spectrum.
 *
 * Pure; safe from any thread; nothing is allocated.
 */
#ifndef LW_LIGHT_PLACE_H
#define LW_LIGHT_PLACE_H

#include "base/problem.h"
#include "light/surroundings.h"

enum { LW_PLACE_MOST_BYTES = 65536, LW_PLACE_MOST_LINE = 500 };

/* LW_BAD_INPUT for what is not expected or out of its range; LW_TOO_LARGE for a text, a line or a
 * number of lights past the limits. problem may be NULL. */
lw_status lw_light_place_read(const char *text, size_t length, lw_light_place *out,
                              lw_problem *problem);

#endif
