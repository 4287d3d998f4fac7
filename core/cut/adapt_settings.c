/* Values from outside, written into the settings. */
#include "cut/adapt_parts.h"

#include "cut/value.h"

#include <string.h>

static int setting_called(const lw_cut *cut, const char *name)
{
    for (int i = 0; i < cut->setting_count; i++) {
        if (strcmp(cut->settings[i].name, name) == 0) {
            return i;
        }
    }
    return -1;
}

/* Writes the edit's cut and reads it back, so that places in it are those of its own text. */
static lw_status read_back(lw_edit *edit, const lw_memory *memory, lw_cut *out, lw_problem *problem)
{
    lw_edit again;
    if (edit->out_of_memory) {
        return LW_NO_MEMORY;
    }
    lw_status status = lw_edit_begin(memory, &edit->cut, &again, problem);
    if (status == LW_OK) {
        *out = again.cut;
    }
    return status;
}

lw_status lw_adapt_settings(const lw_memory *memory, const lw_cut *cut,
                            const lw_override *overrides, int override_count, lw_cut *out,
                            lw_problem *problem)
{
    lw_values values;
    lw_edit edit;
    lw_status status = lw_values_make(cut, overrides, override_count, &values, problem);
    if (status == LW_OK) {
        status = lw_edit_begin(memory, cut, &edit, problem);
    }
    if (status != LW_OK) {
        return status;
    }
    for (int i = 0; i < override_count; i++) {
        int at = setting_called(cut, overrides[i].name);
        lw_unit unit = overrides[i].unit;
        if (unit == LW_UNIT_NUMBER) {
            unit = lw_setting_unit(cut, &values, at);
        }
        edit.settings[at].value = lw_edit_number(&edit, overrides[i].value, unit);
    }
    status = read_back(&edit, memory, out, problem);
    lw_edit_destroy(&edit);
    return status;
}
