#include "cut/value_parts.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* What an evaluation works with. */
typedef struct context {
    const lw_cut *cut;
    const lw_values *values;
    lw_problem *problem;
} context;

static lw_status evaluate(const context *c, const lw_expr *expr, lw_value *out);

static lw_status fail(const context *c, const lw_expr *expr, const char *found,
                      const char *expected, const char *hint)
{
    return lw_problem_set(c->problem, LW_BAD_INPUT, expr->place.line, expr->place.column, found,
                          expected, hint);
}

const char *lw_unit_text(lw_unit unit)
{
    return unit == LW_UNIT_DEG ? "degrees" : unit == LW_UNIT_MM ? "millimetres" : "a bare number";
}

lw_place lw_expr_start(const lw_expr *expr)
{
    while (expr->kind >= LW_EXPR_ADD && expr->kind <= LW_EXPR_POWER) {
        expr = expr->left;
    }
    return expr->place;
}

static lw_status of_name(const context *c, const lw_expr *expr, lw_value *out)
{
    for (int i = 0; i < c->values->count; i++) {
        if (strcmp(c->cut->settings[i].name, expr->name) == 0) {
            *out = c->values->values[i];
            return LW_OK;
        }
    }
    char found[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "'%s'", expr->name);
    return lw_problem_set(c->problem, LW_NOT_FOUND, expr->place.line, expr->place.column, found,
                          "a setting or let that is given above", "");
}

static lw_value of_number(const lw_expr *expr)
{
    if (expr->unit == LW_UNIT_PERCENT) {
        return (lw_value){LW_UNIT_NUMBER, expr->value / 100.0};
    }
    return (lw_value){expr->unit, expr->value};
}

static lw_status mixed(const context *c, const lw_expr *expr, lw_value left, lw_value right,
                       const char *expected)
{
    char found[LW_PROBLEM_TEXT];
    snprintf(found, sizeof found, "%s and %s", lw_unit_text(left.unit), lw_unit_text(right.unit));
    const char *hint = "";
    if (expr->kind == LW_EXPR_ADD || expr->kind == LW_EXPR_SUBTRACT) {
        bool angle = left.unit == LW_UNIT_DEG || right.unit == LW_UNIT_DEG;
        hint = angle ? "an angle in a sum has its deg" : "a share of the width is no length in mm";
    }
    return fail(c, expr, found, expected, hint);
}

static lw_status of_sum(const context *c, const lw_expr *expr, lw_value left, lw_value right,
                        lw_value *out)
{
    if (left.unit != right.unit) {
        return mixed(c, expr, left, right, "two values of one kind");
    }
    double value = expr->kind == LW_EXPR_ADD ? left.value + right.value : left.value - right.value;
    *out = (lw_value){left.unit, value};
    return LW_OK;
}

static lw_status of_product(const context *c, const lw_expr *expr, lw_value left, lw_value right,
                            lw_value *out)
{
    if (left.unit != LW_UNIT_NUMBER && right.unit != LW_UNIT_NUMBER) {
        return mixed(c, expr, left, right, "a bare number on one side of *");
    }
    lw_unit unit = left.unit == LW_UNIT_NUMBER ? right.unit : left.unit;
    *out = (lw_value){unit, left.value * right.value};
    return LW_OK;
}

static lw_status of_quotient(const context *c, const lw_expr *expr, lw_value left, lw_value right,
                             lw_value *out)
{
    if (right.unit != LW_UNIT_NUMBER && right.unit != left.unit) {
        return mixed(c, expr, left, right, "a bare number below, or two of one kind");
    }
    if (right.value == 0.0) {
        return fail(c, expr, "a division by zero", "a number other than 0", "");
    }
    lw_unit unit = right.unit == LW_UNIT_NUMBER ? left.unit : LW_UNIT_NUMBER;
    *out = (lw_value){unit, left.value / right.value};
    return LW_OK;
}

static lw_status of_power(const context *c, const lw_expr *expr, lw_value left, lw_value right,
                          lw_value *out)
{
    if (left.unit != LW_UNIT_NUMBER || right.unit != LW_UNIT_NUMBER) {
        return mixed(c, expr, left, right, "bare numbers on both sides of ^");
    }
    out->unit = LW_UNIT_NUMBER;
    return lw_value_power(expr, left.value, right.value, &out->value, c->problem);
}

static lw_status of_pair(const context *c, const lw_expr *expr, lw_value *out)
{
    lw_value left, right;
    lw_status status = evaluate(c, expr->left, &left);
    if (status == LW_OK) {
        status = evaluate(c, expr->right, &right);
    }
    if (status != LW_OK) {
        return status;
    }
    switch (expr->kind) {
    case LW_EXPR_MULTIPLY:
        return of_product(c, expr, left, right, out);
    case LW_EXPR_DIVIDE:
        return of_quotient(c, expr, left, right, out);
    case LW_EXPR_POWER:
        return of_power(c, expr, left, right, out);
    default:
        return of_sum(c, expr, left, right, out);
    }
}

static lw_status of_call(const context *c, const lw_expr *expr, lw_value *out)
{
    lw_value arguments[2] = {{LW_UNIT_NUMBER, 0.0}, {LW_UNIT_NUMBER, 0.0}};
    lw_status status = evaluate(c, expr->left, &arguments[0]);
    if (status == LW_OK && expr->right != NULL) {
        status = evaluate(c, expr->right, &arguments[1]);
    }
    return status == LW_OK ? lw_value_call(expr, arguments, out, c->problem) : status;
}

static lw_status of_kind(const context *c, const lw_expr *expr, lw_value *out)
{
    lw_status status = LW_OK;
    switch (expr->kind) {
    case LW_EXPR_NUMBER:
        *out = of_number(expr);
        return LW_OK;
    case LW_EXPR_NAME:
        return of_name(c, expr, out);
    case LW_EXPR_NEGATE:
        status = evaluate(c, expr->left, out);
        out->value = status == LW_OK ? -out->value : 0.0;
        return status;
    case LW_EXPR_GROUP:
        return evaluate(c, expr->left, out);
    case LW_EXPR_CALL:
        return of_call(c, expr, out);
    default:
        return of_pair(c, expr, out);
    }
}

/* Recursion is as deep as the expression, which the reader bounds by LW_CUT_MOST_DEPTH. */
static lw_status evaluate(const context *c, const lw_expr *expr, lw_value *out)
{
    lw_value value = {LW_UNIT_NUMBER, 0.0};
    lw_status status = of_kind(c, expr, &value);
    if (status == LW_OK && !isfinite(value.value)) {
        status = fail(c, expr, "a value beyond all bounds", "a number below 1e308", "");
    }
    if (status == LW_OK) {
        *out = value;
    }
    return status;
}

lw_status lw_value_of(const lw_cut *cut, const lw_values *values, const lw_expr *expr,
                      lw_value *out, lw_problem *problem)
{
    assert(expr != NULL);
    return evaluate(&(context){cut, values, problem}, expr, out);
}
