/* Every tolerance of the project: a ratio of a stated length or angle, with its purpose and its
 * size on a stone 10 mm wide. Nothing else in core spells an epsilon. */
#ifndef LW_GEOM_TOLERANCE_H
#define LW_GEOM_TOLERANCE_H

/* Two points closer than this share of the solid's half extent are one vertex, and a vertex lies on
 * a plane that comes this close to it and cuts its edges no further away. 1e-7 um on 10 mm.
 * Rounding in a vertex of three well-set planes is a thousand times smaller; the finest true edge
 * of a cut a thousand times larger. */
#define LW_SAME_POINT 2e-11

/* A climb that ends no more than so many LW_SAME_POINT above its surroundings may have been stopped
 * by rounding, and looks further: a corner can be off its place by twice LW_SAME_POINT. */
#define LW_PLATEAU 64.0

/* The most that three unit normals may be stretched, together, to sum up to a direction for the
 * meet of their planes to count as proof that nothing is further in it: LW_PLATEAU, by the most
 * that corners stray from their planes. */
#define LW_STEEPEST 16.0

/* Two facets whose normals differ by less (in radians) can be one: 2e-5 of the width on a facet of
 * the smallest size that LW_SAME_POINT can tell from a point. */
#define LW_SAME_DIRECTION 1e-6

/* Three planes whose normals span less than this volume (the product of the sines between them)
 * meet in a point that double precision finds to no better than 1e-11 of the half extent: it is
 * worked out again with twice the digits. */
#define LW_ILL_SET 1e-4

/* Below this volume even that leaves nothing to be gained. */
#define LW_TOO_ILL_SET 1e-13

/* A corner of ill-set planes that gains a better one is put where that one says, if it need not
 * move further than so many LW_SAME_POINT. The first three of 600 facets through one point leave
 * it open by three; planes that all but run alike would send it anywhere. */
#define LW_SETTLES 4.0

/* A generous bound of what rounding alone does to a corner of well-set planes, as a share of the
 * half extent. */
#define LW_ROUNDING 1e-14

/* A sound polyhedron has its vertices on their planes, and below all others, within so many
 * LW_SAME_POINT: one is what a corner that keeps its place may be off, and what all but a few come
 * to; 3.3 was the most among a million stones made to be difficult. */
#define LW_SOUND_POINT 4.0

/* Facets that a cut names as meeting in a point must do so within this share of the width:
 * 1e-5 um on 10 mm. Far below what an eye or a lap can tell. */
#define LW_MEET_HOLDS 1e-9

/* Two directions whose sine is below this run alike: lines and planes along them have no point in
 * common worth naming. Three planes likewise, by the product of the sines between them. */
#define LW_RUNS_ALIKE 1e-9

/* Teeth closer than this share of one tooth are the same tooth. */
#define LW_SAME_TOOTH 1e-6

/* Angles (degrees) closer than this are equal where a rule asks whether a facet is vertical or
 * level. */
#define LW_SAME_ANGLE_DEG 1e-9

/* A line is level when its ends differ in height by less than this share of the width. */
#define LW_LEVEL_LINE 1e-9

/* Steps that hang on one another are solved by Newton's method: equations hold to LW_SOLVED
 * (widths); derivatives are differences over LW_DIFFERENCE (widths, degrees or teeth), so good to
 * about 1e-11; a pivot below LW_OPEN_PIVOT of the first leaves its unknown open; a step shortened
 * below LW_SHORTEST_STEP of itself leads nowhere; and solutions that differ by more than
 * LW_OTHER_SOLUTION in some unknown are different ones. */
#define LW_SOLVED 1e-13
#define LW_DIFFERENCE 1e-5
#define LW_OPEN_PIVOT 1e-9
#define LW_SHORTEST_STEP 1e-3
#define LW_OTHER_SOLUTION 1e-6

/* A facet with an area below this share of the width squared is no facet: 1e-4 um2 on 10 mm. */
#define LW_NO_AREA 1e-12

/* An edge shorter than this share of the width is a meet that nearly holds, unless the user states
 * another share: 20 um on 10 mm, the finest that a cutter reports for a meet at polish. */
#define LW_NEAR_MISS 2e-3

/* A ray meets a surface squarely when the sine of its angle of incidence is below this: the plane
 * of incidence has no direction there, and s and p fare alike to the square of it. Ten thousand
 * times the rounding in a direction. */
#define LW_SQUARE_ON 1e-12

/* A stone looks the same after a turn or in a mirror when each facet's normal and distance (in half
 * extents) come as close as this to another's: 1e-5 um on 10 mm. What is left is cast over the
 * whole face, and changes a measure by no more than so little. */
#define LW_SAME_SHAPE 1e-9

/* Light runs along a facet rather than at it when the sine between them is below this: what is seen
 * of the facet then is below so much of its area. */
#define LW_GRAZING 1e-9

/* A beam is not split off by an edge that it passes over by less than this share of the half
 * extent: 5e-6 um on 10 mm; the light of such a sliver is no more than this share of the whole. */
#define LW_SLIVER 1e-12

/* A piece of a beam is too thin for its middle to be told from its area when that is below this
 * share of its length squared: rounding of the corners (1e-16 of a length) then leaves the middle
 * good to a millionth of the length, still on the facet's own side of its edges. */
#define LW_TOO_THIN 1e-9

/* A picture's axes are of length 1 and square to the eye within this: a hundredth of a pixel over a
 * picture as wide as they come is a thousand times more. */
#define LW_SQUARE_TO 1e-9

/* The mean of a pixel's samples is good enough when it is expected to lie this share of itself, and
 * of LW_PICTURE_DARK of what a screen's white is, beside the truth: some three steps of the 255
 * that a screen has, in its middle. */
#define LW_PICTURE_SETTLED 0.03
#define LW_PICTURE_DARK 0.02

/* Two edges of patches of sky and wall are one when their planes differ by less than this (unit
 * normals and distances from the middle of the unit sphere): a strip between them is taken for
 * either's. 2e-4 seconds of arc. */
#define LW_SAME_BOUNDARY 1e-9

/* An absorption has the colour asked for when red, green and blue, as light, come this close to
 * it: far below what any picture shows, and what is left of rounding. The way there from grey is
 * taken in steps no shorter than LW_SHORTEST_COLOUR_STEP of it. */
#define LW_SAME_COLOUR 1e-12
#define LW_SHORTEST_COLOUR_STEP 1e-4

/* A row of a placement's linear programme holds when it is passed by no more than this share of the
 * rough's size: 1e-5 um on 10 mm. A hundred times the rounding in a row of four products. */
#define LW_LP_SLACK 1e-12

/* Two rows of that programme tie when they differ by less than this share of the largest number
 * they are made from, and a number below LW_LP_PIVOT of its row's largest is no pivot: the first is
 * a thousand times rounding, the second keeps a basis far from singular. */
#define LW_LP_TIE 1e-12
#define LW_LP_PIVOT 1e-10

/* A stone touches a face of its rough when it comes this close, as a share of the rough's size:
 * 0.1 um on 10 mm; and a placement is sound when no corner passes the limit by more than
 * LW_FIT_SOUND: 1e-4 um. */
#define LW_FIT_TOUCH 1e-5
#define LW_FIT_SOUND 1e-11

/* Two sizes of a stone in its rough are the same, for a search over rotations, when they differ by
 * less than this share: 1e-5 um on 10 mm. */
#define LW_SEARCH_SAME 1e-9

/* Two figures worked out from one rule by different ways are the same when they differ by less than
 * this share: some thousand units in the last place. */
#define LW_SAME_FIGURE 1e-12

/* A stone whose shape hangs on its size is as large as it can be when it falls short by no more
 * than this share, twice: 0.02 um on 10 mm. */
#define LW_PLAN_SAME_SIZE 1e-6

/* Tracing in single precision: facets stand outward by LW_WIDE_SKIN half extents, 6e-3 um on 10 mm,
 * so that a start on a facet or an edge is inside; the rounding in a distance from a facet is
 * half of that at most. A surface counts as met squarely, as LW_SQUARE_ON says, below a sine of
 * LW_WIDE_SQUARE_ON, a hundred times the rounding in a direction. No cosine of incidence is taken
 * to be below LW_WIDE_FLATTEST: rounding can make a grazing ray's nothing. A facet is seen edge on
 * when the line of sight rises above it by a sine below LW_WIDE_EDGE_ON: so much of its area is
 * what a picture can lose. Where a folded stone's exits are searched
 * from, a box, it is larger than the stone by LW_WIDE_BOX half extents, so that every start lies
 * well beyond. */
#define LW_WIDE_SKIN 1e-6
#define LW_WIDE_BOX 1e-4
#define LW_WIDE_SQUARE_ON 1e-5
#define LW_WIDE_FLATTEST 1e-9
#define LW_WIDE_EDGE_ON 1e-7

/* A ray in single precision agrees with the same in double within LW_WIDE_AGREES in every share
 * of its energy, unless an edge or a critical angle lies so near that rounding decides; and so does
 * the mean over all rays. A surface changes a share by some 1e-7, ten times that where the angle is
 * near the critical one and what passes, and the phase of what returns, grow like a root; a path
 * that keeps its energy meets fifty of those. Half of it was the most among 10,000 rays. The shares
 * of a ray add to 1 within LW_WIDE_SUMS: a few roundings for each surface that still counts. */
#define LW_WIDE_AGREES 1e-4
#define LW_WIDE_SUMS 2e-6

#endif
