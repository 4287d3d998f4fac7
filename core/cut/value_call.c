/* Functions and powers. Only + - * / and the correctly rounded square root take part, so that a cut
 * comes out the same on every machine. */
#include "cut/value_parts.h"

#include "geom/angle.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

enum { MOST_POWER = 64 };

static const double most_degrees = 1e9; /* what lw_sincos_deg takes */

static const char *const names[] = {"sin",  "cos",  "tan", "asin", "acos",
                                    "atan", "sqrt", "abs", "min",  "max"};
enum { NAME_COUNT = sizeof names / sizeof names[0] };

const char *const *lw_function_names(int *count)
{
    *count = NAME_COUNT;
    return names;
}

int lw_function_arguments(const char *name)
{
    for (int i = 0; i < NAME_COUNT; i++) {
        if (strcmp(name, names[i]) == 0) {
            return i >= NAME_COUNT - 2 ? 2 : 1;
        }
    }
    return 0;
}

static lw_status fail(const lw_expr *expr, lw_problem *problem, const char *found,
                      const char *expected, const char *hint)
{
    return lw_problem_set(problem, LW_BAD_INPUT, expr->place.line, expr->place.column, found,
                          expected, hint);
}

static lw_status of_angle(const lw_expr *call, lw_value angle, lw_value *out, lw_problem *problem)
{
    if (angle.unit == LW_UNIT_MM) {
        return fail(call, problem, "millimetres", "an angle in degrees", "");
    }
    if (fabs(angle.value) > most_degrees) {
        return fail(call, problem, "an angle beyond all bounds", "at most 1e9 degrees", "");
    }
    lw_sincos turn = lw_sincos_deg(angle.value);
    out->unit = LW_UNIT_NUMBER;
    if (call->name[0] == 's') {
        out->value = turn.sin;
    } else if (call->name[0] == 'c') {
        out->value = turn.cos;
    } else if (turn.cos == 0.0) {
        return fail(call, problem, "the tangent of a right angle", "an angle that has one", "");
    } else {
        out->value = lw_tan_deg(angle.value);
    }
    return LW_OK;
}

static lw_status of_bare(const lw_expr *call, lw_value number, lw_value *out, lw_problem *problem)
{
    double x = number.value;
    if (number.unit != LW_UNIT_NUMBER) {
        return fail(call, problem, lw_unit_text(number.unit), "a bare number",
                    "divide by a length or an angle of the same kind first");
    }
    if (strcmp(call->name, "sqrt") == 0) {
        if (x < 0.0) {
            return fail(call, problem, "the root of a negative number", "a number from 0", "");
        }
        *out = (lw_value){LW_UNIT_NUMBER, sqrt(x)};
        return LW_OK;
    }
    if (strcmp(call->name, "atan") == 0) {
        *out = (lw_value){LW_UNIT_DEG, lw_atan2_deg(x, 1.0)};
        return LW_OK;
    }
    if (fabs(x) > 1.0) {
        return fail(call, problem, "a number beyond -1 and 1", "the sine or cosine of an angle",
                    "");
    }
    *out = (lw_value){LW_UNIT_DEG, call->name[1] == 's' ? lw_asin_deg(x) : lw_acos_deg(x)};
    return LW_OK;
}

static lw_status of_two(const lw_expr *call, const lw_value argument[2], lw_value *out,
                        lw_problem *problem)
{
    if (argument[0].unit != argument[1].unit) {
        return fail(call, problem, "two values of different kinds", "two of one kind",
                    "give both their unit");
    }
    bool first_less = argument[0].value < argument[1].value;
    *out = first_less == (strcmp(call->name, "min") == 0) ? argument[0] : argument[1];
    return LW_OK;
}

lw_status lw_value_call(const lw_expr *call, const lw_value argument[2], lw_value *out,
                        lw_problem *problem)
{
    const char *name = call->name;
    if (lw_function_arguments(name) == 2) {
        return of_two(call, argument, out, problem);
    }
    if (strcmp(name, "abs") == 0) {
        *out = (lw_value){argument[0].unit, fabs(argument[0].value)};
        return LW_OK;
    }
    if (strcmp(name, "sin") == 0 || strcmp(name, "cos") == 0 || strcmp(name, "tan") == 0) {
        return of_angle(call, argument[0], out, problem);
    }
    assert(lw_function_arguments(name) == 1);
    return of_bare(call, argument[0], out, problem);
}

lw_status lw_value_power(const lw_expr *expr, double base, double exponent, double *out,
                         lw_problem *problem)
{
    double size = fabs(exponent);
    double whole = floor(size);
    bool half = size - whole == 0.5;
    if (!(size <= MOST_POWER) || (size != whole && !half)) {
        return fail(expr, problem, "a power that is neither whole nor half",
                    "a whole number, or a half as in 1.5, from -64 to 64", "");
    }
    if (half && base < 0.0) {
        return fail(expr, problem, "the root of a negative number", "a number from 0", "");
    }
    if (base == 0.0 && exponent < 0.0) {
        return fail(expr, problem, "a division by zero", "a number other than 0", "");
    }
    double result = half ? sqrt(base) : 1.0;
    for (int i = 0; i < (int)whole; i++) {
        result *= base;
    }
    *out = exponent < 0.0 ? 1.0 / result : result;
    return LW_OK;
}
