/* A traced picture of a stone, a rectangle of pixels at a time.
 *
 * The eye is far away, in the surroundings' direction of it, so that all its rays run side by side.
 * Rays are followed from it into the stone (light/wide/trace.h); what misses the stone ends on what
 * the surroundings have behind it. A pixel is the mean over its square. A pixel's light hangs on
 * its place in the picture alone: a picture is the same, to the last bit, however it is cut into
 * rectangles and whoever does them, as long as the lanes are the same.
 *
 * Samples lie on the points of the (0,2)-sequence of van der Corput and Sobol' (I. M. Sobol', USSR
 * Comp. Math. and Math. Phys. 7(4), 1967; any 4^k points from a multiple of 4^k on have one in each
 * cell of every grid of that many equal rectangles), shifted digit by digit by a number made from
 * the pixel's place. Where they differ, four times as many are taken, and again.
 *
 * Frame and lengths: the stone's. A scene may be read by many threads; a room is one thread's.
 */
#ifndef LW_LIGHT_PICTURE_H
#define LW_LIGHT_PICTURE_H

#include "light/optic_solid.h"
#include "light/picture/develop.h"
#include "light/picture/optics.h"
#include "light/wide/trace.h"

enum {
    LW_PICTURE_MOST_SIDE = 16384,    /* pixels */
    LW_PICTURE_MOST_SAMPLES = 65536, /* of a pixel */
    LW_PICTURE_TILE = 32             /* a rectangle is no larger than this squared */
};

typedef struct lw_picture {
    int width, height; /* pixels, 1..LW_PICTURE_MOST_SIDE */
    lw_vec3 right;     /* what lies to the right in the picture; length 1, square to the eye */
    lw_vec3 centre;    /* what lies in its middle */
    double pixel;      /* a pixel's side; > 0 */
    int samples;       /* of each pixel, 1..most_samples; 1 of 1 lies in the pixel's middle */
    int most_samples;  /* where they differ; <= LW_PICTURE_MOST_SAMPLES */
    double ground;    /* share of the light on it that a matt ground under the stone sends back, …
                       */
    bool with_ground; /* … which then stands before all else that is below the horizon */
    double level;     /* linear luminance that a white card is shown with; > 0 */
    double used_to;   /* 0..1: how much the eye is used to the card's colour */
    bool unpolarised;
    double least_energy; /* a path is given up when the brightest light there is could add no more
                            than this share of a white card's; > 0 */
    int most_surfaces;   /* or after this many; > 0 */
    lw_lanes lanes;      /* usable, asserted */
} lw_picture;

/* 4 samples, up to 64 where they differ; a card at LW_DEVELOP_LEVEL, an eye used to it; down to
 * 1e-4 or 1,000 surfaces; the best lanes. */
lw_picture lw_picture_defaults(int width, int height);

/* What lies to the right for an eye tilted so (see lw_surroundings_pose): the stone's +x, carried
 * along from where the table faces the eye. */
lw_vec3 lw_picture_right(double tilt_deg, double turn_deg);

/* How far a solid reaches, seen from the eye. */
typedef struct lw_picture_extent {
    double left, right, below, above; /* along right and up, from the frame's origin */
} lw_picture_extent;
lw_picture_extent lw_picture_extent_of(const lw_optic_solid *solid, lw_vec3 eye, lw_vec3 right);

/* Puts the middle of an extent into the middle of the picture, and lets it fill a share (0..1) of
 * the picture's width or height, whichever is the tighter. */
void lw_picture_frame(lw_picture *picture, lw_vec3 eye, const lw_picture_extent *extent,
                      double fill);

/* All that is worked out before the first ray. Destroy takes a zeroed one, and twice. */
typedef struct lw_picture_scene {
    lw_picture picture;
    lw_picture_optics optics;
    lw_surroundings surroundings;
    lw_picture_scale scale[LW_SPECTRUM_MOST_BANDS]; /* of patches and head */
    lw_wide_solid solid;
    lw_vec3 up, corner;  /* the top left corner, before the stone */
    lw_xyz background;   /* what lies behind the stone */
    double least_energy; /* so of its own light a path is given up below this */
    lw_develop develop;
} lw_picture_scene;

/* LW_BAD_INPUT for a number out of its range or not finite, LW_TOO_LARGE for a ground where the
 * surroundings have no patch to spare, LW_NO_MEMORY. Nothing of what is given need last. */
lw_status lw_picture_scene_make(const lw_memory *memory, const lw_optic_solid *solid,
                                const lw_picture *picture, const lw_picture_optics *optics,
                                const lw_surroundings *surroundings, lw_picture_scene *out);
void lw_picture_scene_destroy(const lw_memory *memory, lw_picture_scene *scene);

/* Room for one thread to work in; half a megabyte. Make and destroy as above. */
typedef struct lw_picture_room lw_picture_room;
lw_status lw_picture_room_make(const lw_memory *memory, lw_picture_room **out);
void lw_picture_room_destroy(const lw_memory *memory, lw_picture_room *room);

/* A rectangle of pixels; row 0 is the top. */
typedef struct lw_picture_tile {
    int x, y, width, height; /* within the picture; each side 1..LW_PICTURE_TILE: asserted */
} lw_picture_tile;

/* Numbers of a pixel, means over its samples: CIE XYZ as radiance relative to what the surroundings
 * call bright, not exposed; the share of it that the stone covers; and linear sRGB as a screen is
 * to show it (lw_develop_seen), which is pressed together sample by sample, so that the edge of a
 * lamp's image is as smooth as any other. */
enum { LW_PICTURE_COVER = 3, LW_PICTURE_SEEN = 4, LW_PICTURE_NUMBERS = 7 };

/* Traces one. out: its top left pixel; stride: floats from one row to the next. */
void lw_picture_trace(const lw_picture_scene *scene, lw_picture_room *room,
                      const lw_picture_tile *tile, float *out, size_t stride);

#endif
