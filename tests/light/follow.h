/* Beams followed for a test, with a watcher of its own. */
#ifndef LW_TESTS_LIGHT_FOLLOW_H
#define LW_TESTS_LIGHT_FOLLOW_H

#include "light/measures.h"

/* The whole face as seen from an eye in any direction (length 1; not only from above), under the
 * options' place; the options' bound is a share of that face. Asserts that it works. */
lw_beam_totals follow_from(const lw_optic_solid *solid, const lw_light_options *options,
                           lw_vec3 eye, const lw_beam_watch *watch);

/* From where the options' tilt and turn say. */
lw_beam_totals follow(const lw_optic_solid *solid, const lw_light_options *options,
                      const lw_beam_watch *watch);

/* Area of a solid's outline as seen from a direction. */
double outline_area(const lw_optic_solid *solid, lw_vec3 eye);

#endif
