#include "plan_case.h"

#include "builtin.h"
#include "cut/read.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

void plan_case_start(plan_case *out, const char *material)
{
    *out = (plan_case){.memory = lw_memory_standard()};
    out->request = (lw_plan_request){.habit = LW_HABIT_PEBBLE,
                                     .readings = {{16, 13, 10.5}},
                                     .material = lw_material_by_key(material),
                                     .allowances = lw_allowances_for(LW_SKILL_PRACTISED)};
    assert_non_null(out->request.material);
}

void plan_case_add_text(plan_case *out, const char *name, const char *text)
{
    int at = out->request.cut_count++;
    lw_problem problem = {0};
    if (lw_cut_read(&out->memory, text, strlen(text), &out->cuts[at], &problem) != LW_OK) {
        fail_msg("%s: %s; expected %s", name, problem.found, problem.expected);
    }
    out->named[at] = (lw_plan_cut){name, &out->cuts[at]};
}

void plan_case_add_builtin(plan_case *out, const char *name)
{
    const lw_builtin *builtin = lw_builtin_find(name);
    assert_non_null(builtin);
    plan_case_add_text(out, builtin->name, builtin->text);
}

void plan_case_add_all(plan_case *out)
{
    for (int i = 0; i < lw_builtin_count(); i++) {
        plan_case_add_builtin(out, lw_builtin_at(i)->name);
    }
}

void plan_case_drop(plan_case *out)
{
    for (int i = 0; i < out->request.cut_count; i++) {
        lw_cut_destroy(&out->cuts[i]);
    }
}

lw_plan *plan_case_run(const plan_case *from, int budget)
{
    lw_plan *plan = NULL;
    lw_plan_request request = from->request;
    request.cuts = from->named;
    lw_problem problem = {0};
    assert_int_equal(lw_plan_new(&from->memory, &request, &plan, &problem), LW_OK);
    double progress = 0.0;
    while (!lw_plan_is_done(plan)) {
        assert_int_equal(lw_plan_step(plan, budget), LW_OK);
        assert_true(lw_plan_progress(plan) >= progress && lw_plan_progress(plan) <= 1.0);
        progress = lw_plan_progress(plan);
    }
    assert_true(lw_plan_progress(plan) == 1.0);
    return plan;
}

const lw_plan_entry *plan_case_find(const lw_plan *plan, const char *name)
{
    for (int i = 0; i < lw_plan_count(plan); i++) {
        if (strcmp(lw_plan_at(plan, i)->name, name) == 0) {
            return lw_plan_at(plan, i);
        }
    }
    fail_msg("no entry %s", name);
    return NULL;
}
