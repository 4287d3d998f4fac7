/* What the reader shares with the evaluation of settings. Internal to core/cut. */
#ifndef LW_CUT_VALUE_PARTS_H
#define LW_CUT_VALUE_PARTS_H

#include "cut/value.h"

/* Evaluates the next setting (number values->count), with override (may be NULL) in place of its
 * default, checks it against its limits and adds it to values. */
lw_status lw_values_add(const lw_cut *cut, const lw_override *override, lw_values *values,
                        lw_problem *problem);

/* The first character of an expression: a sum's own place is its sign. */
lw_place lw_expr_start(const lw_expr *expr);

/* Does an expression state a percentage, itself, by the name of one of the first before settings,
 * or as a sum that begins with one? */
bool lw_expr_is_percent(const lw_cut *cut, int before, const lw_expr *expr);

/* "degrees", "millimetres", "a bare number". */
const char *lw_unit_text(lw_unit unit);

/* A function's value. argument[1] is looked at where it takes two. */
lw_status lw_value_call(const lw_expr *call, const lw_value argument[2], lw_value *out,
                        lw_problem *problem);
/* How many arguments a function takes; 0 when there is no such function. */
int lw_function_arguments(const char *name);
/* The functions' names; count of them. */
const char *const *lw_function_names(int *count);

lw_status lw_value_power(const lw_expr *expr, double base, double exponent, double *out,
                         lw_problem *problem);

#endif
