/* Inside the room: how a plan is put together. */
#ifndef LW_STUDY_PLAN_PARTS_H
#define LW_STUDY_PLAN_PARTS_H

#include "plan.h"

typedef enum plan_phase {
    PLAN_PREPARE, /* angles, stone, fitter */
    PLAN_SEARCH,
    PLAN_SIZE, /* the three cases, and the stone at its size */
    PLAN_LIGHT,
    PLAN_BENCH,
    PLAN_NEXT
} plan_phase;

struct lw_plan {
    lw_memory memory;
    lw_plan_request request;
    lw_rough roughs[LW_CASE_COUNT];
    double margins_mm[LW_CASE_COUNT];
    double rough_ct;
    lw_plan_entry *entries;
    int at; /* the entry being worked on */
    plan_phase phase;
    lw_fit_shape shape; /* of that entry */
    lw_fitter *fitter;
    lw_search search;
    bool done;
    double progress;
};

/* Each fills a part of the entry; a status other than LW_OK is the cut's own failure, but for
 * LW_NO_MEMORY. */
lw_status lw_plan_prepare_stone(const lw_memory *memory, const lw_plan_request *request,
                                lw_plan_entry *entry);
lw_status lw_plan_size(lw_plan *plan, lw_plan_entry *entry);
lw_status lw_plan_light(const lw_memory *memory, const lw_plan_request *request,
                        lw_plan_entry *entry);
void lw_plan_bench(const lw_plan_request *request, lw_plan_entry *entry);

/* What each part of a score counts: size, light, ease, bench, suits. */
enum { LW_PLAN_PARTS = 5 };
extern const double lw_plan_weights[LW_PLAN_PARTS];

/* Scores all entries that have a stone; then puts them in order. */
void lw_plan_score_all(const lw_plan_request *request, lw_plan_entry *entries, int count);
void lw_plan_order_all(lw_plan_entry *entries, int count);

/* The corners of a stone as a shape; they belong to the stone. */
lw_fit_shape lw_plan_shape(const lw_stone *stone);

#endif
