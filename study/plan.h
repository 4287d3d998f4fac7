/* The main job: rough, material and kit in; cuts out, ranked, with why.
 *
 * For each cut: its angles are set for the material, the stone is solved and checked to be one, the
 * largest that fits the rough is searched for, and it is weighed, lit, and held against the kit.
 * What is asked of the search is the likely case; the least and the most are the same placement in
 * a smaller and a larger rough, so that the three lie in order. docs/plan.md has the method and the
 * score.
 *
 * A step function: no thread, no clock, the same answer however the work is cut into steps.
 */
#ifndef LW_STUDY_PLAN_H
#define LW_STUDY_PLAN_H

#include "craft/difficulty.h"
#include "craft/need.h"
#include "cut/adapt.h"
#include "matter/material.h"
#include "rough/range.h"
#include "rough/search.h"

enum { LW_PLAN_MOST_CUTS = 200, LW_PLAN_TOUCHES = 8 };

typedef struct lw_plan_cut {
    const char *name; /* "round-brilliant" */
    const lw_cut *cut;
} lw_plan_cut;

typedef struct lw_plan_request {
    const lw_plan_cut *cuts;
    int cut_count;
    lw_habit habit;
    lw_readings readings;
    const lw_material *material;
    lw_kit kit;
    lw_allowances allowances;
    double rough_ct;       /* as weighed; 0: from the habit and the material's typical SG */
    double least_width_mm; /* a stone narrower than this is of no use; 0: any */
    bool keep_cuts;        /* cuts as they are: angles and wheel are not touched */
} lw_plan_request;

/* How far an entry came. The order is that of the ranking. */
typedef enum lw_plan_state {
    LW_PLAN_GOOD,      /* fits, is wide enough, and can be indexed */
    LW_PLAN_NO_WHEEL,  /* fits, but none of the kit's wheels has its teeth */
    LW_PLAN_TOO_SMALL, /* fits, narrower than asked for */
    LW_PLAN_NO_ROOM,   /* nothing is left once the margins are off */
    LW_PLAN_FAILED,    /* the cut has no stone in this material: see status and problem */
    LW_PLAN_WAITING    /* not looked at yet */
} lw_plan_state;

/* The parts of a score, each 0..1: as good as the best of the plan, or as it could be. */
typedef struct lw_plan_score {
    double size;  /* likely weight over the heaviest's */
    double light; /* (brightness - window) over the best's */
    double ease;  /* least difficulty over this one's */
    double bench; /* 1, less 1/4 for each thing missing and 1/4 for the cheater; not below 0 */
    double suits; /* 1 when the cut names this material, else 0 */
    double total; /* 0..100: 40 size, 30 light, 10 ease, 15 bench, 5 suits */
} lw_plan_score;

typedef struct lw_plan_entry {
    const char *name;
    const lw_cut *given;
    lw_plan_state state;
    lw_status status;   /* FAILED: why */
    lw_problem problem; /* FAILED: in words */

    lw_adapted adapted;                    /* cut and stone as planned, at the likely size */
    double pavilion_was_deg, pavilion_deg; /* the main angles: 0 when a side has none */
    double crown_was_deg, crown_deg;
    double critical_margin_deg; /* pavilion mains above the material's critical angle */
    double tilt_deg; /* how far it turns before the far pavilion opens a window; 0: at once */

    lw_placement placement; /* of the likely case */
    lw_fit_evidence evidence;
    int touches[LW_PLAN_TOUCHES]; /* faces of the rough that hold it */
    int touch_count;              /* of those in touches[] */
    int tried;                    /* placements looked at */
    lw_range width_mm, length_mm, depth_mm, weight_ct, yield;

    double brightness, window, light_error;
    lw_difficulty difficulty;
    lw_wheel_choice wheel;
    int need_count;
    lw_need needs[LW_NEED_COUNT];
    lw_plan_score score;
} lw_plan_entry;

typedef struct lw_plan lw_plan;

/* Reads the request (copied; cuts, their names and the material must outlive the plan).
 * LW_BAD_INPUT with problem for readings or a kit that are none, LW_TOO_LARGE, LW_NO_MEMORY.
 * Destroy takes NULL. */
lw_status lw_plan_new(const lw_memory *memory, const lw_plan_request *request, lw_plan **out,
                      lw_problem *problem);
void lw_plan_destroy(lw_plan *plan);

/* About budget placements' worth of work. LW_NO_MEMORY alone ends a plan; what is wrong with one
 * cut stays in its entry. */
lw_status lw_plan_step(lw_plan *plan, int budget);
bool lw_plan_is_done(const lw_plan *plan);
/* 0..1, never falling. */
double lw_plan_progress(const lw_plan *plan);

/* All entries: in the order given while the plan runs, ranked once it is done. */
int lw_plan_count(const lw_plan *plan);
const lw_plan_entry *lw_plan_at(const lw_plan *plan, int i);
/* The best so far, by score among those looked at; NULL when none is good. */
const lw_plan_entry *lw_plan_best(const lw_plan *plan);

const lw_plan_request *lw_plan_asked(const lw_plan *plan);
/* The rough as understood, likely case. */
const lw_rough *lw_plan_rough(const lw_plan *plan);
/* What yields are taken of. */
double lw_plan_rough_ct(const lw_plan *plan);

#endif
