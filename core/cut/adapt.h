/* A cut made to suit: another material, wheel, outline, or the other hand.
 *
 * Each function takes a cut and the stone that it solves to, and gives a new cut, which is read,
 * solved and checked against what the change promises before it is handed over. The text of the new
 * cut (lw_cut_write) is a cut like any other: its comments are kept, a note says what was changed,
 * and it can be adapted again.
 *
 * Settings: bake the values in first (lw_adapt_settings) where the stone was solved with overrides,
 * so that text and stone agree.
 *
 * On failure the output is untouched and *problem (may be NULL) says why. Everything may fail with
 * LW_NO_MEMORY, and with what lw_cut_solve fails with when the changed cut has no stone.
 */
#ifndef LW_CUT_ADAPT_H
#define LW_CUT_ADAPT_H

#include "cut/solve.h"
#include "cut/stone.h"
#include "cut/wheel.h"

typedef struct lw_adapted {
    lw_cut cut;
    lw_stone stone;   /* of this cut, with the size that the first one had */
    bool exact;       /* the change is an exact map of the stone, and this is its image */
    double deviation; /* exact: how far the new cut's facets lie from that image, at most, as a
                         share of the width (below LW_MEET_HOLDS) */
    const char
        *note; /* what was changed, the note added to the cut, in its arena; "" for nothing */
} lw_adapted;

/* Takes a zeroed one, and twice. */
void lw_adapted_destroy(lw_adapted *adapted);

/* ---- settings ----------------------------------------------------------- */

/* The cut with its settings at these values. LW_NOT_FOUND, LW_BAD_INPUT as lw_values_make. No note
 * is added. */
lw_status lw_adapt_settings(const lw_memory *memory, const lw_cut *cut,
                            const lw_override *overrides, int override_count, lw_cut *out,
                            lw_problem *problem);

/* ---- material ----------------------------------------------------------- */

/* The usual angle for a pavilion's mains in a material of this refractive index, in degrees: 42;
 * 43 below 1.6; 41 from 1.9 (source: common practice of cutters). Kept within the band in which a
 * ray from straight above is reflected totally at both sides, crit..(180 - crit) / 3 (after M.
 * Tolkowsky, Diamond Design, 1919), margin_deg (>= 0) inside it, or in its middle where it is
 * narrower than that. LW_NO_SOLUTION below the square root of 2, where there is no such band. */
lw_status lw_main_angle_deg(double refractive_index, double margin_deg, double *out);

/* Degrees by which an angle should exceed the critical one unless a cutter says otherwise: what a
 * protractor and a tilted table leave. */
#define LW_MAIN_MARGIN_DEG 1.0

/* The step whose angle stands for a side (PAVILION or CROWN): one whose angle is the setting
 * "pavilion" or "crown"; where there is none, one called "main"; else any; of several the flattest.
 * Steps that are level, upright or temporary do not count; -1 when no step is left. Its angle is
 * stone->tiers[step].angle_deg. */
int lw_main_step(const lw_cut *cut, const lw_stone *stone, lw_side side);

typedef struct lw_adapt_angles {
    double pavilion_deg; /* new angle of the pavilion's main step; 0: as it is */
    double crown_deg;    /* of the crown's; 0: as it is */
} lw_adapt_angles;

/* The angles that suit a material: the pavilion's flattest facets go to lw_main_angle_deg, and its
 * main step by the tangent ratio with them; the crown stays as it is. Nothing changes where the cut
 * names the material (its key; may be NULL) among those it suits and its pavilion is nowhere
 * flatter than the critical angle and the margin. Fails as lw_main_angle_deg; LW_BAD_INPUT without
 * a slanting pavilion. */
lw_status lw_angles_for_material(const lw_cut *cut, const lw_stone *stone, const char *material,
                                 double refractive_index, double margin_deg, lw_adapt_angles *out);

/* The tangent ratio, each side for itself: tan(new) = k tan(old), from the side's own girdle edge,
 * so that every meet and the plan view stay (source: cutters' rule, published by Long & Steele; it
 * is a stretch along the axis). exact is true where a vertical girdle runs all round and the meets
 * came out as promised; where crown and pavilion meet, the cut is solved again with these angles
 * and the plan may move. A setting that drives a side by itself is set; otherwise angles become
 * numbers, and depths that are stated along the axis are scaled.
 * LW_BAD_INPUT for an angle that is not between 0 and 90, or a side without a main step. */
lw_status lw_adapt_to_angles(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                             const lw_adapt_angles *angles, lw_adapted *out, lw_problem *problem);

/* The stone alone, each side scaled along the axis by its ratio from its girdle line, at the place
 * where the cut says how thick the girdle is (else at its thickest place); no text is touched.
 * LW_UNSUPPORTED where no vertical girdle runs all round, or where the sides would run into one
 * another. */
lw_status lw_stone_scale_sides(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                               double pavilion_ratio, double crown_ratio, lw_stone *out);

/* ---- wheel -------------------------------------------------------------- */

/* The cut stated for another wheel (or the same), the stone turned by the fit's offset, which may
 * be any: the same stone. Teeth that the wheel lacks become fractions, which lw_dial_of turns into
 * number and cheater. Symmetric steps stay symmetric; where the stone is turned, mirrored ones
 * become lists, for a cut's mirror is at tooth 0. */
lw_status lw_adapt_to_wheel(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                            const lw_wheel_fit *fit, lw_adapted *out, lw_problem *problem);

/* ---- outline ------------------------------------------------------------ */

/* The stone stretched in plan, along its longer axis of x and y (x when equal), until its length
 * is ratio (>= 1) times its width: an oval from a round. Depths stay. A linear map, so meets stay
 * exactly; but azimuths change, so teeth become fractions, and what was one tier becomes several.
 * With whole_teeth the teeth are then rounded to the wheel and the meets solved again: exact is
 * false. LW_BAD_INPUT for a ratio below 1 or not finite, LW_NO_SOLUTION when no stretch gives it.
 */
lw_status lw_adapt_to_outline(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                              double length_over_width, bool whole_teeth, lw_adapted *out,
                              lw_problem *problem);

/* The stone alone, x and y multiplied; the unit of length stays what it was. */
lw_status lw_stone_stretch(const lw_memory *memory, const lw_stone *stone, int wheel,
                           double x_ratio, double y_ratio, lw_stone *out);

/* ---- hand --------------------------------------------------------------- */

/* The mirror image, through the plane of tooth 0 and the axis: "hand left" is put in or out. */
lw_status lw_adapt_to_mirror(const lw_memory *memory, const lw_cut *cut, const lw_stone *stone,
                             lw_adapted *out, lw_problem *problem);

/* The stone alone. */
lw_status lw_stone_mirror(const lw_memory *memory, const lw_stone *stone, int wheel, lw_stone *out);

#endif
