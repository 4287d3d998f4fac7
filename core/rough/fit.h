/* The largest stone at one rotation, and what holds it there.
 *
 * A stone is turned by R, scaled by s (mm a unit) and shifted by t (mm): a point p of it comes to
 * s R p + t. For each rough face a.x <= b that is s h(R' a) + a.t <= b - margin, with h the
 * greatest value over the stone's corners: a linear programme in s and t, whatever the number of
 * facets. A girdle of fixed thickness g (mm) keeps it one: the crown's corners are lifted by g/2
 * and the pavilion's lowered by it, which are constants of the rows (one row a face and half).
 *
 * Where the stone has room to spare it is set in the middle of that room.
 *
 * Set-up allocates; placing does not. A fitter is not shared between threads; the rough and the
 * shape must outlive it.
 */
#ifndef LW_ROUGH_FIT_H
#define LW_ROUGH_FIT_H

#include "rough/rough.h"

enum { LW_FIT_MOST_CORNERS = 20000 };

/* A stone for fitting: its corners, in units. With a fixed girdle the two halves are given as they
 * meet at z = 0, without it, and the halves' corners are in this order. */
typedef struct lw_fit_shape {
    const lw_vec3 *corners; /* crown first, then pavilion */
    int crown_count;        /* with girdle_mm > 0: how many belong to the crown; else not read */
    int corner_count;
    double girdle_mm; /* 0: the girdle scales with the stone, and the corners are the whole stone's
                       */
} lw_fit_shape;

typedef struct lw_placement {
    double scale_mm;    /* mm a unit; <= 0 when it does not fit */
    double rotation[9]; /* row by row; rough_from_stone, determinant 1 */
    lw_vec3 shift_mm;
} lw_placement;

typedef struct lw_fitter lw_fitter;

/* margin_mm (>= 0) of material is kept clear between the stone and every face. LW_TOO_LARGE,
 * LW_NO_MEMORY. Destroy takes NULL. */
lw_status lw_fitter_new(const lw_memory *memory, const lw_rough *rough, const lw_fit_shape *shape,
                        double margin_mm, lw_fitter **out);
void lw_fitter_destroy(lw_fitter *fitter);

/* The largest scale at this rotation (orthonormal within 1e-9: asserted), with any shift that
 * reaches it. LW_NOT_CLOSED, LW_NO_SOLUTION: see lp4.h; neither comes from a rough that was made
 * and a shape with the origin inside. */
lw_status lw_fitter_place(lw_fitter *fitter, const double rotation[9], lw_placement *out);

/* Moves a placement's shift to the middle of the room it has, at the same scale. */
void lw_fitter_center(lw_fitter *fitter, lw_placement *placement);

/* A placement looked at afresh, from the corners and the faces alone. */
typedef struct lw_fit_evidence {
    bool sound;          /* every corner keeps the margin from every face, within LW_FIT_SOUND */
    double clearance_mm; /* the least distance of a corner from a face; negative outside */
    int touch_count;     /* faces that the stone comes within the margin of, to LW_FIT_TOUCH */
} lw_fit_evidence;

/* touches may be NULL; else the numbers of the first most_touches touched faces, ascending. */
void lw_fit_verify(const lw_rough *rough, const lw_fit_shape *shape, double margin_mm,
                   const lw_placement *placement, int *touches, int most_touches,
                   lw_fit_evidence *out);

/* A corner of the shape, placed. */
lw_vec3 lw_fit_place_corner(const lw_fit_shape *shape, const lw_placement *placement, int corner);

#endif
