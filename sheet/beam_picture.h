/* The face of a stone as the patches that each send one beam, and the sky that their light comes
 * from, on one page.
 *
 * A patch is filled by its brightness; one whose strongest part is the viewer's head is lined, one
 * that shows what lies below the girdle is crossed, so that no ink alone tells them. The sky's dial
 * has a dot for each direction that light comes from, as large as what it brings to the eye.
 */
#ifndef LW_SHEET_BEAM_PICTURE_H
#define LW_SHEET_BEAM_PICTURE_H

#include "geom/solid.h"
#include "light/beam_map.h"
#include "sheet/display_list.h"

/* All borrowed. */
typedef struct lw_beam_picture {
    const lw_polyhedron *solid;
    const lw_beam_map *map; /* of that solid */
    const lw_surroundings *surroundings;
    double tilt_deg, turn_deg; /* of the eye, as the map was made */
    int wheel;
    double index;        /* refractive */
    const char *heading; /* one line, UTF-8: what is seen, and how */
    const char *place;   /* its name; NULL for the even sky */
} lw_beam_picture;

/* Adds the page. Errors of the list and LW_NO_MEMORY. */
lw_status lw_beam_picture_compose(const lw_memory *memory, const lw_beam_picture *picture,
                                  const lw_metrics *metrics, lw_display_list *list);

#endif
