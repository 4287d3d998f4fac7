/* Plans for the tests: cuts from texts or all that are built in, and a plan run to its end. */
#ifndef LW_TEST_STUDY_PLAN_CASE_H
#define LW_TEST_STUDY_PLAN_CASE_H

#include "plan.h"

enum { PLAN_CASE_CUTS = 64 };

typedef struct plan_case {
    lw_memory memory;
    lw_cut cuts[PLAN_CASE_CUTS];
    lw_plan_cut named[PLAN_CASE_CUTS];
    lw_plan_request request;
} plan_case;

/* Starts with no cuts: a pebble of 16 by 13 by 10.5 mm, practised, nothing said of the kit. */
void plan_case_start(plan_case *out, const char *material);
void plan_case_add_text(plan_case *out, const char *name, const char *text);
void plan_case_add_builtin(plan_case *out, const char *name);
void plan_case_add_all(plan_case *out);
void plan_case_drop(plan_case *out);

/* A finished plan; destroyed by the caller. budget: of each step. */
lw_plan *plan_case_run(const plan_case *from, int budget);
/* The entry of that name. */
const lw_plan_entry *plan_case_find(const lw_plan *plan, const char *name);

#endif
