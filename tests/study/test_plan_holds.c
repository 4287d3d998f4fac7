/* A plan however it is stepped, refused memory, or asked nonsense. */
#include "meter.h"
#include "plan_case.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void steps_of_any_size_give_the_same_bits(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "corundum");
    plan_case_add_builtin(&c, "single-cut");
    plan_case_add_builtin(&c, "step-octagon");
    lw_plan *one = plan_case_run(&c, 1), *many = plan_case_run(&c, 1 << 30);
    for (int i = 0; i < lw_plan_count(one); i++) {
        const lw_plan_entry *a = lw_plan_at(one, i), *b = lw_plan_at(many, i);
        assert_string_equal(a->name, b->name);
        assert_memory_equal(&a->placement, &b->placement, sizeof a->placement);
        assert_memory_equal(&a->weight_ct, &b->weight_ct, sizeof a->weight_ct);
        assert_memory_equal(&a->score, &b->score, sizeof a->score);
    }
    lw_plan_destroy(one);
    lw_plan_destroy(many);
    plan_case_drop(&c);
}

static void a_best_so_far(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_builtin(&c, "single-cut");
    plan_case_add_builtin(&c, "step-octagon");
    lw_plan *plan = NULL;
    c.request.cuts = c.named;
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, NULL), LW_OK);
    assert_null(lw_plan_best(plan));
    while (lw_plan_best(plan) == NULL) {
        assert_false(lw_plan_is_done(plan));
        assert_int_equal(lw_plan_step(plan, 100), LW_OK);
    }
    assert_string_equal(lw_plan_best(plan)->name, "single-cut");
    assert_int_equal(lw_plan_at(plan, 1)->state, LW_PLAN_WAITING);
    lw_plan_destroy(plan); /* half way: nothing leaks (seen under the address sanitizer) */
    plan_case_drop(&c);
}

/* Without errors and margins the three cases are one. */
static void a_range_of_nothing(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    plan_case_add_builtin(&c, "single-cut");
    c.request.allowances = (lw_allowances){0};
    c.request.rough_ct = 20;
    lw_plan *plan = plan_case_run(&c, 5000);
    const lw_plan_entry *e = lw_plan_at(plan, 0);
    assert_true(e->weight_ct.value[0] == e->weight_ct.value[1]);
    assert_true(e->weight_ct.value[1] == e->weight_ct.value[2]);
    assert_true(fabs(e->yield.value[1] - e->weight_ct.value[1] / 20) < 1e-15); /* as weighed */
    double before = e->weight_ct.value[1];
    lw_plan_destroy(plan);
    c.request.allowances.wanted_mm = 0.5;
    plan = plan_case_run(&c, 5000);
    assert_true(lw_plan_at(plan, 0)->weight_ct.value[1] < before);
    lw_plan_destroy(plan);
    plan_case_drop(&c);
}

static void nonsense_is_refused(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "quartz");
    lw_plan *plan = NULL;
    lw_problem problem = {0};
    c.request.readings.mm[1] = -4;
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_BAD_INPUT);
    assert_string_equal(problem.found, "-4 mm as the second reading");
    c.request.readings.mm[1] = 0.55; /* sound as read, not with 0.1 mm less */
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_BAD_INPUT);
    assert_string_equal(problem.found, "0.45 mm as the second reading");
    assert_string_equal(problem.hint, "the caliper's error is counted in");
    c.request.readings.mm[1] = 13;
    c.request.allowances.wanted_mm = -1;
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_BAD_INPUT);
    c.request.allowances.wanted_mm = (double)NAN;
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_BAD_INPUT);
    c.request.allowances.wanted_mm = 0;
    c.request.kit = (lw_kit){.wheel_count = 1, .wheels = {3}};
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_BAD_INPUT);
    assert_null(plan);
    c.request.kit = (lw_kit){0};
    assert_int_equal(lw_plan_new(&c.memory, &c.request, &plan, &problem), LW_OK);
    assert_true(lw_plan_is_done(plan)); /* no cuts: nothing to do */
    assert_null(lw_plan_best(plan));
    lw_plan_destroy(plan);
    lw_plan_destroy(NULL);
}

/* Runs a plan with the n-th allocation refused; true when it came to its end. */
static bool run_refusing(plan_case *c, long n)
{
    meter m = {.refuse_at = n};
    lw_memory memory = meter_memory(&m);
    lw_plan *plan = NULL;
    c->request.cuts = c->named;
    lw_status status = lw_plan_new(&memory, &c->request, &plan, NULL);
    while (status == LW_OK && !lw_plan_is_done(plan)) {
        status = lw_plan_step(plan, 1 << 20);
    }
    bool finished = status == LW_OK;
    if (finished && lw_plan_at(plan, 0)->state == LW_PLAN_FAILED) {
        fail_msg("allocation %ld: taken for a fault of the cut", n);
    }
    assert_true(finished || status == LW_NO_MEMORY);
    lw_plan_destroy(plan);
    assert_int_equal(m.held, 0);
    return finished;
}

static void every_allocation_may_fail(void **state)
{
    (void)state;
    plan_case c;
    plan_case_start(&c, "corundum");
    plan_case_add_builtin(&c, "single-cut");
    long stride = getenv("LW_LONG") != NULL ? 1 : 5, n = 1;
    while (!run_refusing(&c, n)) {
        n += stride;
    }
    print_message("%ld allocations\n", n);
    assert_true(n > 30);
    plan_case_drop(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(steps_of_any_size_give_the_same_bits),
        cmocka_unit_test(a_best_so_far),
        cmocka_unit_test(a_range_of_nothing),
        cmocka_unit_test(nonsense_is_refused),
        cmocka_unit_test(every_allocation_may_fail),
    };
    return cmocka_run_group_tests_name("study/plan holds", tests, NULL, NULL);
}
