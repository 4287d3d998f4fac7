/* A cut from any bytes. What is read can be written and read again and is the same; what is not
 * read has a problem that tells where and why. */
#include "fuzz.h"

#include "cut/read.h"
#include "cut/same_cut.h"
#include "cut/value.h"
#include "cut/write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static char *written(const lw_cut *cut, size_t *length)
{
    *length = lw_cut_write(cut, NULL, 0);
    char *text = malloc(*length + 1);
    LW_FUZZ_HOLDS(text != NULL);
    LW_FUZZ_HOLDS(lw_cut_write(cut, text, *length + 1) == *length);
    LW_FUZZ_HOLDS(strlen(text) == *length);
    return text;
}

static void check_cut(const lw_memory *memory, const lw_cut *cut)
{
    lw_cut again = {0};
    size_t once_length = 0, twice_length = 0;
    char *once = written(cut, &once_length);
    LW_FUZZ_HOLDS(lw_cut_read(memory, once, once_length, &again, NULL) == LW_OK);
    LW_FUZZ_HOLDS(cut_difference(cut, &again) == NULL);
    char *twice = written(&again, &twice_length);
    LW_FUZZ_HOLDS(once_length == twice_length && memcmp(once, twice, once_length) == 0);
    free(once);
    free(twice);
    lw_cut_destroy(&again);
}

/* The defaults of a cut that was read always have values. */
static void check_values(const lw_cut *cut)
{
    lw_values values;
    lw_problem problem = {0};
    LW_FUZZ_HOLDS(lw_values_make(cut, NULL, 0, &values, &problem) == LW_OK);
    LW_FUZZ_HOLDS(values.count == cut->setting_count);
    for (int i = 0; i < values.count; i++) {
        char text[64];
        LW_FUZZ_HOLDS(isfinite(values.values[i].value));
        LW_FUZZ_HOLDS(values.values[i].unit != LW_UNIT_PERCENT);
        lw_unit unit = lw_setting_unit(cut, &values, i);
        LW_FUZZ_HOLDS(lw_value_write(values.values[i], unit, text, sizeof text) < sizeof text);
    }
}

static void check_problem(lw_status status, const lw_problem *problem)
{
    char text[4 * LW_PROBLEM_TEXT];
    LW_FUZZ_HOLDS(status == problem->status);
    LW_FUZZ_HOLDS(status == LW_BAD_INPUT || status == LW_TOO_LARGE || status == LW_UNSUPPORTED);
    LW_FUZZ_HOLDS(problem->line >= 0 && problem->column >= 0);
    LW_FUZZ_HOLDS(problem->found[0] != '\0' && problem->expected[0] != '\0');
    LW_FUZZ_HOLDS(lw_problem_write(problem, text, sizeof text) < sizeof text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    lw_memory memory = lw_memory_standard();
    lw_cut cut = {0}, untouched = {0};
    lw_problem problem = {0};
    lw_status status = lw_cut_read(&memory, (const char *)data, size, &cut, &problem);
    if (status != LW_OK) {
        check_problem(status, &problem);
        LW_FUZZ_HOLDS(memcmp(&cut, &untouched, sizeof cut) == 0);
        return 0;
    }
    check_cut(&memory, &cut);
    check_values(&cut);
    lw_cut_destroy(&cut);
    return 0;
}
