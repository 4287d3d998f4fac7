#include "craft_cut.h"

#include "builtin.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static void fail_with(const lw_problem *problem)
{
    char text[800];
    lw_problem_write(problem, text, sizeof text);
    fail_msg("%s", text);
}

void craft_cut_of_text(const char *text, craft_cut *out)
{
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_solve_options options = {0};
    if (lw_cut_read(&memory, text, strlen(text), &out->cut, &problem) != LW_OK) {
        fail_with(&problem);
    }
    if (lw_cut_solve(&memory, &out->cut, &options, &out->stone, &problem) != LW_OK) {
        fail_with(&problem);
    }
}

void craft_cut_of_name(const char *name, craft_cut *out)
{
    const lw_builtin *builtin = lw_builtin_find(name);
    assert_non_null(builtin);
    craft_cut_of_text(builtin->text, out);
}

void craft_cut_drop(craft_cut *cut)
{
    lw_stone_destroy(&cut->stone);
    lw_cut_destroy(&cut->cut);
}
