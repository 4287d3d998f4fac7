/* What stands around the stone: how bright each direction is, seen from it.
 *
 * A place is made of patches of sky, wall and lamp, each a region of directions with a radiance; a
 * later patch stands before the earlier ones; the viewer's head, a cone around the eye, stands
 * before them all. Radiance is relative: 1 is what the place calls bright.
 *
 * Frames: a place has its own (z up, x and y as the place says). Surroundings are a place as one
 * stone in one pose sees it, in the stone's frame (z up through the table), so that nothing is
 * turned while light is followed. The eye is far away.
 *
 * The default place, and the one that the measures are defined by, is an even sky of radiance 1
 * above the girdle plane with nothing below. It goes with the stone: tilting the stone under the
 * eye is told by moving eye and head. Every other place stays where it is, and so do eye and head:
 * the stone is turned.
 *
 * Formulas and what the shapes stand for: docs/places.md. Pure; safe from any thread.
 */
#ifndef LW_LIGHT_SURROUNDINGS_H
#define LW_LIGHT_SURROUNDINGS_H

#include "base/status.h"
#include "geom/vec.h"

#include <stdbool.h>

enum { LW_LIGHT_MOST_PATCHES = 32, LW_LIGHT_PLACE_NAME = 64 };

typedef enum lw_patch_shape {
    LW_PATCH_CONE, /* within an angle of a direction: a lamp, the sun, a half space, everything */
    LW_PATCH_PANE  /* a rectangle on a level or upright wall: a window, a panel */
} lw_patch_shape;

/* The spectrum that a patch shines with; all are scaled to its radiance at 560 nm. */
typedef enum lw_glow {
    LW_GLOW_DAYLIGHT, /* CIE standard illuminant D65 */
    LW_GLOW_EVEN,     /* the same energy at every wavelength */
    LW_GLOW_BLACKBODY /* Planck's law at kelvin */
} lw_glow;

typedef struct lw_patch {
    lw_patch_shape shape;
    lw_vec3 toward;   /* its middle, length 1 */
    double least_cos; /* CONE: directions whose cosine with toward is above this; a half
                         space has 0, everything -2 */
    /* PANE: directions w with |right . w| <= tan_width (toward . w) and |above . w| <= tan_tall
     * (toward . w). For a pane whose middle lies toward, three axes of length 1 at right angles and
     * the tangents of half its width and height; one that lies elsewhere on its wall, toward being
     * the wall's own direction, has right and above leaning by as much: right - shift toward. */
    lw_vec3 right, above;
    double tan_width, tan_tall;
    /* radiance of direction w = even + slope (w . zenith), never below 0; zenith: lw_surroundings
     */
    double even, slope;
    lw_glow glow;
    double kelvin; /* BLACKBODY */
} lw_patch;

/* As described in a file, or the default. */
typedef struct lw_light_place {
    char name[LW_LIGHT_PLACE_NAME]; /* for people, UTF-8 */
    bool with_stone;                /* sky goes with the stone (the default place); else it stays */
    lw_vec3 eye;          /* where the viewer looks from, in the place's frame, length 1 */
    double head_deg;      /* half-angle of the head, 0..90; 0: no head */
    double head_radiance; /* of the face that looks at the stone */
    lw_glow head_glow;
    double head_kelvin;
    int patch_count;
    lw_patch patches[LW_LIGHT_MOST_PATCHES];
} lw_light_place;

/* The default: with_stone, eye at the zenith, head of 10 degrees. */
lw_light_place lw_light_place_even_sky(void);

typedef struct lw_surroundings {
    lw_vec3 eye;     /* direction from the stone to the eye, length 1 */
    lw_vec3 zenith;  /* the place's z */
    double cos_head; /* of the head's half-angle; above 1 when there is no head */
    double head_radiance;
    lw_glow head_glow;
    double head_kelvin;
    int patch_count;
    lw_patch patches[LW_LIGHT_MOST_PATCHES];
} lw_surroundings;

/* The direction to an eye tilted tilt_deg from the table's normal (0..180) toward the azimuth
 * turn_deg, counter-clockwise from +x as seen from the table. */
lw_vec3 lw_eye_direction(double tilt_deg, double turn_deg);

/* A place as the stone sees it when the eye stands tilt_deg off its table's normal, from the
 * azimuth turn_deg of the stone. At tilt 0 and turn 0 the table faces the eye and the stone's +x
 * points to the viewer's right: the horizontal right as one looks from the eye, or the place's +x
 * for an eye at the zenith. For a place that stays, the stone is turned from there about the
 * horizontal axis of its own that lies at turn + 90 degrees. head_deg below 0: the place's own. */
lw_surroundings lw_surroundings_pose(const lw_light_place *place, double tilt_deg, double turn_deg,
                                     double head_deg);

/* The default place, posed; eye of length 1. head_deg: half-angle, 0..90; 0 takes no head out. */
lw_surroundings lw_surroundings_even_sky(lw_vec3 eye, double head_deg);

/* Whether a direction (length 1, away from the stone) ends on the head. */
bool lw_surroundings_is_head(const lw_surroundings *surroundings, lw_vec3 direction);

/* What a direction ends on: the number of the patch that stands foremost, LW_ON_HEAD, or LW_ON_DARK
 * where nothing is. */
enum { LW_ON_DARK = -1, LW_ON_HEAD = -2 };
int lw_surroundings_patch(const lw_surroundings *surroundings, lw_vec3 direction);

/* Radiance in a direction, >= 0. */
double lw_surroundings_radiance(const lw_surroundings *surroundings, lw_vec3 direction);

/* How bright a white card looks that lies under the stone's table plane, facing as the table does:
 * (1 / pi) x the integral of radiance x cosine over the half space above it, without the head (what
 * stands behind it shows). 1 under the even sky. Good to LW_SAME_BOUNDARY of the brightest patch:
 * white_card.c. */
double lw_surroundings_white_card(const lw_surroundings *surroundings);

#endif
