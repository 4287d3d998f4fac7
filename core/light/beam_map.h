/* The face of a stone as the patches that each send one beam.
 *
 * A patch is a piece of the face whose light runs one and the same way up to where its strongest
 * part leaves the stone: how bright it is, and where that part comes from. It is cut off as soon as
 * what is left inside is less than the strongest part so far, for nothing that follows can then be
 * stronger; what does follow still counts in its brightness. Patches do not overlap and cover the
 * face.
 */
#ifndef LW_LIGHT_BEAM_MAP_H
#define LW_LIGHT_BEAM_MAP_H

#include "light/measures.h"

typedef struct lw_beam_patch {
    size_t first; /* of its corners, in the map's, counter-clockwise as the eye sees them or not */
    int count;
    double area;       /* share of the face */
    double brightness; /* mean over it of sum W L */
    double strongest;  /* W of its strongest part, 0 when nothing leaves … */
    double radiance;   /* … the surroundings' L there, … */
    lw_vec3 way;       /* … the direction that light comes from (where it leaves to), … */
    bool head;         /* … whether that is the viewer's head, … */
    int surfaces;      /* … how many surfaces it meets inside, the last included, … */
    int exit;          /* … and by which plane of the polyhedron; -1: none */
    int entry;         /* plane of the polyhedron that it is seen through */
} lw_beam_patch;

typedef struct lw_beam_map {
    lw_memory memory;
    lw_screen screen; /* what corners lie on; lengths are the solid's */
    lw_beam_patch *patches;
    size_t patch_count, patch_capacity;
    lw_spot2 *corners;
    size_t corner_count, corner_capacity;
} lw_beam_map;

/* Where a patch's strongest part comes from. */
typedef enum lw_patch_source {
    LW_PATCH_LIT,    /* something that shines */
    LW_PATCH_HEAD,   /* the viewer's head */
    LW_PATCH_BELOW,  /* below the girdle plane, where nothing shines */
    LW_PATCH_DARK,   /* above it, where nothing shines */
    LW_PATCH_NOTHING /* nothing leaves before the rest is left to a ray */
} lw_patch_source;

lw_patch_source lw_patch_source_of(const lw_beam_patch *patch);

/* The whole face, whatever the symmetry. options->bound says how small a patch may be. Errors as
 * lw_light_measure. Destroy takes a zeroed one, and twice. */
lw_status lw_beam_map_make(const lw_memory *memory, const lw_polyhedron *polyhedron,
                           const lw_light_options *options, lw_beam_map *out);
void lw_beam_map_destroy(lw_beam_map *map);

#endif
