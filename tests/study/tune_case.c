#include "tune_case.h"

#include "builtin.h"
#include "cut/read.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

void tune_case_make(const char *builtin, const lw_solve_options *options, tune_case *out)
{
    const lw_builtin *found = lw_builtin_find(builtin);
    lw_problem problem = {0};
    assert_non_null(found);
    *out = (tune_case){.memory = lw_memory_standard()};
    assert_int_equal(
        lw_cut_read(&out->memory, found->text, strlen(found->text), &out->cut, &problem), LW_OK);
    if (lw_vary_make(&out->memory, &out->cut, options, &out->vary, &problem) != LW_OK) {
        fail_msg("%s: %s; expected %s", builtin, problem.found, problem.expected);
    }
    assert_int_equal(lw_vary_side(&out->vary, LW_SIDE_PAVILION, &out->handles[0]), LW_OK);
    assert_int_equal(lw_vary_side(&out->vary, LW_SIDE_CROWN, &out->handles[1]), LW_OK);
}

void tune_case_drop(tune_case *made)
{
    lw_vary_destroy(&made->vary);
    lw_cut_destroy(&made->cut);
}

lw_look tune_case_look(double yellow, double blue, double red)
{
    lw_look look = {.light = lw_light_defaults(yellow)};
    look.light.index = (lw_light_index){yellow, blue, red};
    look.light.bound = LW_LIGHT_COARSE;
    return look;
}
