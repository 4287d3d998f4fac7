/* Every tolerance of the project: a ratio of a stated length or angle, with its purpose and its
 * size on a stone 10 mm wide. Nothing else in core spells an epsilon. */
#ifndef LW_GEOM_TOLERANCE_H
#define LW_GEOM_TOLERANCE_H

/* Two points closer than this share of the solid's half extent are one vertex, and a vertex this
 * close to a plane lies on it. 1e-7 um on 10 mm. Rounding in a vertex of three well-set planes is
 * a thousand times smaller; the finest true edge of a cut a thousand times larger. */
#define LW_SAME_POINT 2e-11

/* Facets that a cut names as meeting in a point must do so within this share of the width:
 * 1e-5 um on 10 mm. Far below what an eye or a lap can tell. */
#define LW_MEET_HOLDS 1e-9

/* Teeth closer than this share of one tooth are the same tooth. */
#define LW_SAME_TOOTH 1e-6

/* Angles (degrees) closer than this are equal where a rule asks whether a facet is vertical or
 * level. */
#define LW_SAME_ANGLE_DEG 1e-9

/* A line is level when its ends differ in height by less than this share of the width. */
#define LW_LEVEL_LINE 1e-9

/* A facet with an area below this share of the width squared is no facet: 1e-4 um2 on 10 mm. */
#define LW_NO_AREA 1e-12

/* An edge shorter than this share of the width is a meet that nearly holds, unless the user states
 * another share: 20 um on 10 mm, the finest that a cutter reports for a meet at polish. */
#define LW_NEAR_MISS 2e-3

#endif
