/* What the solver and the check share: the stone as far as it is cut, and how names, points and
 * rules are read from it. Private to core/cut.
 *
 * All memory is taken by lw_solver_init; nothing else here allocates. */
#ifndef LW_CUT_SOLVER_H
#define LW_CUT_SOLVER_H

#include "cut/stone.h"
#include "cut/teeth.h"
#include "cut/value.h"

/* How a question to a half-cut stone ends. */
typedef enum lw_outcome {
    LW_GOT,   /* answered */
    LW_WAITS, /* it hangs on a step that is not solved yet; solver->waits_for tells which */
    LW_FAILED /* solver->status and *solver->problem tell why */
} lw_outcome;

/* Steps and facets by name, so that a name costs a search among its own. */
typedef struct lw_names {
    int count;
    int *steps;       /* those that cut facets, by name, then in their order */
    int *facets;      /* by name, then by tooth, then in their order */
    int *first_step;  /* [count + 1] into steps */
    int *first_facet; /* [count + 1] into facets */
} lw_names;

/* The solid of the known steps before one step, built when it is first asked about. */
typedef struct lw_standing {
    lw_solid *solid;
    int before;     /* the step it is to stand before */
    int built;      /* steps are cut into solid up to this one, not included */
    bool extracted; /* shape and what is read off it are those of solid */
    lw_polyhedron shape;
    int plane_count;
    int *first_plane; /* step -> plane of its first facet, -1 when it is not in the solid */
    int *facet_of;    /* plane -> facet */
    int trouble;      /* the first step that leaves nothing of the stone, or does not fit in; -1 */
    lw_status trouble_status;
    /* Of the pavilion and of the crown: whether a face is there, where it meets the girdle nearest
     * to mid-girdle, and its vertex on the axis. */
    bool begun[2], has_line[2], has_apex[2];
    double line[2];
    lw_vec3 apex[2];
} lw_standing;

/* Room for the steps that are solved together (joint.c), and for one face (trial.c). */
typedef struct lw_joint lw_joint;
typedef struct lw_outline {
    lw_vec3 *points, *clipped; /* they change places with every plane */
    int capacity;
} lw_outline;

typedef struct lw_solver {
    const lw_cut *cut;
    lw_values values;
    double unit_mm; /* 0 without a size */
    lw_problem *problem;
    lw_status status;
    lw_arena arena; /* everything below that is a pointer, but for the solid */
    int facet_count;
    lw_facet *facets;
    double *text_teeth; /* facets[i].tooth as the text counts */
    bool *mirrored;     /* facets[i] is a mirror image: its left and right change places */
    lw_tier *tiers;
    bool *known; /* a step's planes are worked out; change it by lw_solver_set_known */
    int *hangs;  /* the step that one waits for */
    int waits_for;
    int first_waiting;      /* the first step that is not known */
    bool tentative;         /* depths are guesses: a meet need not be there yet */
    double work;            /* done so far, see LW_SOLVER_MOST_WORK */
    lw_tooth_image *images; /* room for the teeth of one step */
    lw_names names;
    lw_standing standing;
    lw_outline outline;
    lw_joint *joint;
} lw_solver;

/* Bounds the time that a stranger's text can take. The unit is about what it takes to cut a plane
 * from a solid, a third of a microsecond in 2026; a cut of 57 facets takes some 300 of them, one of
 * 2,000 some 10,000. */
#define LW_SOLVER_MOST_WORK 3e6

/* Room for the text of a number. */
enum { LW_SOLVER_FIGURE = 32 };

/* The rough before the first facet is a cube so large, in widths: larger than any stone, small
 * enough for the tolerance that hangs on it. */
#define LW_ROUGH_HALF_EXTENT 4.0

/* The facet being cut: what own, left and right start from. */
typedef struct lw_cutting {
    int step;
    int facet;
} lw_cutting;

/* ---- setting up (solver.c, expand.c) ---- */

/* Makes room for everything and expands the steps to facets. Destroy after any status. */
lw_status lw_solver_init(lw_solver *solver, const lw_memory *memory, const lw_cut *cut,
                         const lw_values *values, lw_problem *problem);
void lw_solver_destroy(lw_solver *solver);

/* Facets as the text gives them: their teeth, the angles that are stated, no depths; nothing known
 * but actions. init has done it once. */
lw_outcome lw_solver_expand(lw_solver *solver);

/* Fills in a problem at this place and gives LW_FAILED. */
lw_outcome lw_solver_fail(lw_solver *solver, lw_status status, lw_place place, const char *found,
                          const char *expected, const char *hint);
/* Notes work; lw_solver_demand refuses when too much was done. */
void lw_solver_spend(lw_solver *solver, double work);
bool lw_solver_is_spent(const lw_solver *solver);

void lw_solver_set_known(lw_solver *solver, int step, bool known);
/* LW_WAITS for a step; what to return when it is not known yet. */
lw_outcome lw_solver_wait_for(lw_solver *solver, int step);

/* +1 on the crown, -1 on the pavilion: the step's own side. */
double lw_solver_sign(const lw_solver *solver, int step);
/* The outward normal for an angle given by sine and cosine, at a tooth as the text counts. */
lw_vec3 lw_solver_normal(const lw_solver *solver, int step, double sin_angle, double cos_angle,
                         double text_tooth);
/* The horizontal unit vector at the facet's azimuth (for level facets: at their tooth). */
lw_vec3 lw_solver_outward(const lw_solver *solver, int facet);

/* Turns all facets of a step to an angle, given by its sine and cosine, exactly level or vertical
 * where it is within LW_SAME_ANGLE_DEG of that; their depths stay. */
void lw_solver_set_angle(lw_solver *solver, int step, double sin_angle, double cos_angle);
/* Turns the one facet of a step with a free tooth to a tooth, as the text counts. */
void lw_solver_set_tooth(lw_solver *solver, int step, double text_tooth);
/* The depth of one facet, and of all facets of a step. */
void lw_solver_set_depth(lw_solver *solver, int facet, double distance);
void lw_solver_set_distance(lw_solver *solver, int step, double distance);

/* An expression as an angle in degrees (a bare number is degrees), or as a length in the unit
 * (millimetres need unit_mm), or bare. */
lw_outcome lw_solver_angle(lw_solver *solver, const lw_expr *expr, double *degrees);
lw_outcome lw_solver_length(lw_solver *solver, const lw_expr *expr, double *length);
lw_outcome lw_solver_bare(lw_solver *solver, const lw_expr *expr, double *value);

/* A number of so many figures for a message, with a point in every locale. Returns text. */
const char *lw_solver_figure(double value, int figures, char text[LW_SOLVER_FIGURE]);

/* ---- names (names.c, find.c) ---- */

bool lw_names_make(lw_names *names, lw_arena *arena, const lw_cut *cut, int facets);
/* Sorts the facets in, once they have their teeth, and again when one has moved. */
void lw_names_sort(lw_solver *solver);
/* The number of a name, -1 when no step has it. */
int lw_names_find(const lw_solver *solver, const char *name);

/* The facet that a reference names. LW_WAITS when its step is not known yet (*facet is set). */
lw_outcome lw_solver_find(lw_solver *solver, lw_cutting now, const lw_facet_ref *ref, int *facet);

/* ---- the stone as it stands (standing.c, shape.c) ---- */

/* From now on the questions below are about the known steps before this one. */
void lw_solver_stand_before(lw_solver *solver, int step);
/* Planes of a step have changed. */
void lw_solver_changed(lw_solver *solver, int step);
/* Cuts up to where the stone stands. Fails when a step leaves nothing. */
lw_outcome lw_solver_cut_up(lw_solver *solver);
/* Whether some step before this place is not known, so that the solid lacks its planes. */
bool lw_solver_lacks(const lw_solver *solver);
/* LW_GOT, or LW_WAITS for the first step that the solid lacks. */
lw_outcome lw_solver_whole(lw_solver *solver);
const lw_polyhedron *lw_solver_shape(lw_solver *solver);
/* The solid's plane for a facet, -1 when it is not cut. */
int lw_solver_plane(lw_solver *solver, int facet);
/* Whether a facet is among those cut; asks nothing of the solid. */
bool lw_solver_is_cut(const lw_solver *solver, int facet);
/* Whether a facet that is cut has an area, or coincides with one that has. */
bool lw_solver_has_face(lw_solver *solver, int facet);

/* The height of the girdle line of a side (sign +1 crown, -1 pavilion): where the girdle meets that
 * side, nearest to mid-girdle. False while the side does not meet a girdle. */
bool lw_solver_girdle_line(lw_solver *solver, double sign, double *z);
/* Whether any face of the solid belongs to that side; to either. */
bool lw_solver_side_begun(lw_solver *solver, double sign);
bool lw_solver_begun(lw_solver *solver);
/* The vertex on the axis on that side; false when there is none. */
bool lw_solver_apex(lw_solver *solver, double sign, lw_vec3 *point);
/* How far the outline reaches in a horizontal direction. False while the solid is open that way. */
bool lw_solver_outline(lw_solver *solver, lw_vec3 outward, double *reach);
/* Whether a point lies in the solid (not cut away), within LW_MEET_HOLDS; else the facet that cut
 * it away. */
bool lw_solver_holds(lw_solver *solver, lw_vec3 point, int *cut_by);
/* The length of the edge between two planes of a polyhedron; 0 when they share none. */
double lw_shape_edge(const lw_polyhedron *shape, int plane, int other);

/* ---- points and rules (point.c, rule.c, trial.c) ---- */

/* The girdle line of the side being cut; z = 0 on a stone with nothing but a girdle, where it may
 * be put anywhere. Fails at that place when there is none. */
lw_outcome lw_solver_level(lw_solver *solver, lw_cutting now, lw_place place, double *z);

/* Whether the line of two planes runs level, by their normals. */
bool lw_solver_line_is_level(lw_vec3 a, lw_vec3 b);

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

lw_outcome lw_solver_demand(lw_solver *solver, lw_cutting now, const lw_rule *rule, lw_demand *out);
/* For shape rules: how much too large the length is when the tier (or with "each" the facet) is cut
 * as its planes now say from the stone as it stands. */
lw_outcome lw_solver_shape_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                                double *miss);
/* How far any rule is from true with the facet as it lies now: the signed distance, or too great a
 * length. */
lw_outcome lw_solver_rule_miss(lw_solver *solver, lw_cutting now, const lw_rule *rule,
                               double *miss);

/* ---- solving (tier.c, joint.c, solve.c) ---- */

/* Whether every tooth of a step has a depth of its own. */
bool lw_step_has_own_depths(const lw_step *step);
/* One step whose rules hang only on known ones: its angle, tooth and depths. */
lw_outcome lw_solver_tier(lw_solver *solver, int step);
/* Some steps that wait for one another, together; which makes them known. Every step that is not
 * known must wait for another (hangs). */
lw_joint *lw_joint_new(lw_arena *arena, const lw_cut *cut);
lw_outcome lw_solver_joint(lw_solver *solver);
/* Every step of an expanded solver, with millimetres counted as unit_mm says, to a closed stone.
 * Gives its measures, in the frame of its rules, and the way along z to the frame in which
 * mid-girdle is at 0. */
lw_outcome lw_solver_run(lw_solver *solver, double unit_mm, double *raised, lw_measures *measures);

#endif
