#include "light/built_in.h"

#include "builtin.h"
#include "cut/read.h"
#include "light/near.h"
#include "light/spectrum.h"
#include "matter/refraction.h"

#include <string.h>

/* "from 38 to 48" becomes "from 1 to 89" where a setting has it. */
static void widen_limits(char *text)
{
    const char wide[] = " from 1 to 89";
    for (char *line = strstr(text, "\nsetting "); line != NULL;
         line = strstr(line + 1, "\nsetting ")) {
        char *from = strstr(line, " from "), *quote = strchr(line, '"');
        assert_true(from != NULL && quote != NULL && quote - from >= (long)sizeof wide);
        memset(from, ' ', (size_t)(quote - from));
        memcpy(from, wide, sizeof wide - 1);
    }
}

lw_cut built_in_cut(const char *name, bool widened)
{
    const lw_builtin *found = lw_builtin_find(name);
    assert_non_null(found);
    char text[1 << 14];
    assert_true(found->length < sizeof text);
    memcpy(text, found->text, found->length + 1);
    if (widened)
        widen_limits(text);
    lw_memory memory = lw_memory_standard();
    lw_problem problem = {0};
    lw_cut cut;
    if (lw_cut_read(&memory, text, found->length, &cut, &problem) != LW_OK)
        fail_msg("%s: %s; expected %s", name, problem.found, problem.expected);
    return cut;
}

lw_stone built_in_stone(const lw_cut *cut, const lw_override *overrides, int count)
{
    lw_memory memory = lw_memory_standard();
    lw_solve_options options = {.overrides = overrides,
                                .override_count = count,
                                .size_kind = LW_SIZE_WIDTH_MM,
                                .size = 8.0};
    lw_problem problem = {0};
    lw_stone stone;
    if (lw_cut_solve(&memory, cut, &options, &stone, &problem) != LW_OK)
        fail_msg("%s: %s; expected %s", cut->title, problem.found, problem.expected);
    return stone;
}

lw_light_index built_in_index(const char *material)
{
    const lw_material *m = lw_material_by_key(material);
    assert_non_null(m);
    lw_light_index index;
    assert_int_equal(lw_material_mean_index(m, LW_LINE_D_UM, &index.yellow), LW_OK);
    assert_int_equal(lw_material_mean_index(m, LW_LINE_G_UM, &index.blue), LW_OK);
    assert_int_equal(lw_material_mean_index(m, LW_LINE_B_UM, &index.red), LW_OK);
    return index;
}
