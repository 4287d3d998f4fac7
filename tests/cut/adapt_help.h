/* Cuts read and solved, for the tests of adapt. */
#ifndef LW_TESTS_ADAPT_HELP_H
#define LW_TESTS_ADAPT_HELP_H

#include "cut/adapt.h"

/* A cut and its stone; both are the test's to destroy, with lw_adapted_destroy. exact, deviation
 * and note mean nothing. */
typedef lw_adapted solved_cut;

/* Fails the test when the text cannot be read or solved. width_mm 0: no size. */
void solve_text(const char *text, double width_mm, solved_cut *out);
void solve_file(const char *path, double width_mm, solved_cut *out);

/* Checks that a result is what adapt promises: its text reads, is laid out as it stands, and
 * solves to its stone again. */
void check_promises(const lw_adapted *adapted);

/* The greatest difference of the planes of facets that have a face, in order; fails when there are
 * not as many facets. */
double planes_differ(const lw_stone *a, const lw_stone *b);

/* How far the vertices of b are, at most, from the images of those of a under the map; both ways
 * round by number: fails when there are not as many. */
typedef lw_vec3 vertex_map(const void *context, lw_vec3 p);
double vertices_differ(const lw_stone *a, const lw_stone *b, vertex_map *map, const void *context);

/* Whether the cut's text has these words. */
bool text_has(const lw_cut *cut, const char *words);

/* The names of all built-in cuts' files, ended by NULL. */
extern const char *const built_in_cuts[];

#endif
