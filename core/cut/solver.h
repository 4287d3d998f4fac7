/* What the solver and the check share: the stone as far as it is cut, and how names, points and
 * rules are read from it. Private to core/cut. */
#ifndef LW_CUT_SOLVER_H
#define LW_CUT_SOLVER_H

#include "cut/stone.h"
#include "cut/value.h"

/* How a question to a half-cut stone ends. */
typedef enum lw_outcome {
    LW_GOT,   /* answered */
    LW_WAITS, /* it hangs on a step that is not solved yet */
    LW_FAILED /* solver->status and *solver->problem tell why */
} lw_outcome;

typedef struct lw_solver {
    const lw_cut *cut;
    lw_values values;
    double unit_mm; /* 0 without a size */
    lw_problem *problem;
    lw_status status;
    lw_arena arena; /* everything below that is a pointer */
    int facet_count;
    lw_facet *facets;
    bool *mirrored; /* facets[i] is a mirror image: its left and right change places */
    lw_tier *tiers;
    bool *known;      /* a step's planes are worked out */
    bool any_waiting; /* a step before the present one waits, so the solid lacks planes */
    bool tentative;   /* depths are guesses: a meet need not be there yet */
    lw_solid *solid;  /* of the steps before the one in hand */
    lw_solid *trial;
    lw_polyhedron shape; /* of solid */
    int plane_count;     /* planes cut into solid so far */
    int *plane_of;       /* facet -> plane of the solid, -1 when it is not in it */
    int *facet_of;       /* plane -> facet */
} lw_solver;

/* The facet being cut: what own, left and right start from. */
typedef struct lw_cutting {
    int step;
    int facet;
} lw_cutting;

/* ---- setting up (solver.c) ---- */

/* Expands the steps to facets (angles and teeth that are given; planes without a depth) and makes
 * room for everything. Destroy after any status. */
lw_status lw_solver_init(lw_solver *solver, const lw_memory *memory, const lw_cut *cut,
                         const lw_values *values, lw_problem *problem);
void lw_solver_destroy(lw_solver *solver);

/* Fills in a problem at this place and gives LW_FAILED. */
lw_outcome lw_solver_fail(lw_solver *solver, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint);

/* A plain solid again, then every facet of the known steps before this one. */
void lw_solver_shape_before(lw_solver *solver, int step);
/* Adds a step's facets to the solid. Fails when they leave nothing. */
lw_outcome lw_solver_add_step(lw_solver *solver, int step);

/* +1 on the crown, -1 on the pavilion: the step's own side. */
double lw_solver_sign(const lw_solver *solver, int step);
/* The outward normal for an angle given by sine and cosine, at a tooth as the text counts. */
lw_vec3 lw_solver_normal(const lw_solver *solver, int step, double sin_angle, double cos_angle,
                         double text_tooth);
/* The horizontal unit vector at the facet's azimuth (for level facets: at their tooth). */
lw_vec3 lw_solver_outward(const lw_solver *solver, int facet);
/* The facet's tooth as the text counts (a left-handed stone runs the other way). */
double lw_solver_text_tooth(const lw_solver *solver, int facet);

/* An expression as an angle in degrees (a bare number is degrees), or as a length in the unit
 * (millimetres need unit_mm), or bare. */
lw_outcome lw_solver_angle(lw_solver *solver, const lw_expr *expr, double *degrees);
lw_outcome lw_solver_length(lw_solver *solver, const lw_expr *expr, double *length);
lw_outcome lw_solver_bare(lw_solver *solver, const lw_expr *expr, double *value);

/* ---- names (find.c) ---- */

/* The facet that a reference names. LW_WAITS when its step is not known yet (*facet is set). */
lw_outcome lw_solver_find(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref, int *facet);

/* ---- the stone as it stands (shape.c) ---- */

/* The height of the girdle line of a side (sign +1 crown, -1 pavilion): where the girdle meets that
 * side, nearest to mid-girdle. False while the side does not meet a girdle. */
bool lw_solver_girdle_line(const lw_solver *solver, double sign, double *z);
/* Whether any face of the solid belongs to that side. */
bool lw_solver_side_begun(const lw_solver *solver, double sign);
/* The vertex on the axis on that side; false when there is none. */
bool lw_solver_apex(const lw_solver *solver, double sign, lw_vec3 *point);
/* How far the outline reaches in a horizontal direction. False while the solid is open that way. */
bool lw_solver_outline(const lw_solver *solver, lw_vec3 outward, double *reach);
/* Whether a point lies in the solid (not cut away), within LW_MEET_HOLDS; else the facet that cut
 * it away. */
bool lw_solver_holds(const lw_solver *solver, lw_vec3 point, int *cut_by);
/* The length of the edge between two planes of a polyhedron; 0 when they share none. */
double lw_shape_edge(const lw_polyhedron *shape, int plane, int other);
/* The extent of a face along a horizontal direction; 0 without a face. */
double lw_shape_extent(const lw_polyhedron *shape, int plane, lw_vec3 along);

/* ---- points and rules (point.c, rule.c) ---- */

/* The girdle line of the side being cut; z = 0 on a stone with nothing but a girdle, where it may
 * be put anywhere. Fails at that place when there is none. */
lw_outcome lw_solver_level(lw_solver *solver, lw_cutting now, lw_place place, double *z);

lw_outcome lw_solver_point(lw_solver *solver, lw_cutting now, const lw_point *point, lw_vec3 *out);

/* What a rule asks of the facet being cut. */
typedef enum lw_demand_kind {
    LW_DEMAND_POINT,    /* pass through a point */
    LW_DEMAND_DISTANCE, /* lie at a distance from the origin */
    LW_DEMAND_SHAPE     /* make some length on the stone zero: see lw_solver_shape_miss */
} lw_demand_kind;

typedef struct lw_demand {
    lw_demand_kind kind;
    lw_vec3 point;
    double distance;
} lw_demand;

/* nth is the place of the facet in its tier, for a list of distances. */
lw_outcome lw_solver_demand(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out);
/* For shape rules: how much too large the length is when the tier (or with "each" the facet) lies
 * as its planes now say; the solid must be that before the step. */
lw_outcome lw_solver_shape_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                                double *miss);

/* ---- solving (tier.c, joint.c) ---- */

/* One step whose rules hang only on known ones: its angle, tooth and depths. */
lw_outcome lw_solver_tier(lw_solver *solver, int step);
/* All steps that wait, together. */
lw_outcome lw_solver_joint(lw_solver *solver);
/* Turns all facets of a step to an angle, given by its sine and cosine; their depths stay. */
void lw_solver_set_angle(lw_solver *solver, int step, double sin_angle, double cos_angle);
/* Turns the one facet of a step with a free tooth to a tooth, as the text counts. */
void lw_solver_set_tooth(lw_solver *solver, int step, double text_tooth);
void lw_solver_set_distance(lw_solver *solver, int step, double distance);

#endif
