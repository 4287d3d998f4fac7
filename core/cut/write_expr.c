#include "cut/write_parts.h"

#include <math.h>

/* How tightly an expression holds together, as the grammar has it. */
enum { SUM = 1, PRODUCT, FACTOR, POWER, ATOM };

static int tightness(const lw_expr *expr)
{
    switch (expr->kind) {
    case LW_EXPR_ADD:
    case LW_EXPR_SUBTRACT:
        return SUM;
    case LW_EXPR_MULTIPLY:
    case LW_EXPR_DIVIDE:
        return PRODUCT;
    case LW_EXPR_NEGATE:
        return FACTOR;
    case LW_EXPR_POWER:
        return POWER;
    case LW_EXPR_NUMBER:
        return signbit(expr->value) ? FACTOR : ATOM;
    default:
        return ATOM;
    }
}

/* In brackets where the grammar would otherwise read another expression: never for one that was
 * read, which keeps its own brackets. */
static void part(lw_out *out, const lw_expr *expr, int wanted)
{
    bool brackets = tightness(expr) < wanted;
    lw_out_text(out, brackets ? "(" : "");
    lw_out_expr(out, expr);
    lw_out_text(out, brackets ? ")" : "");
}

static bool is_plain(const lw_expr *expr)
{
    return expr->kind == LW_EXPR_NUMBER && expr->unit == LW_UNIT_NUMBER && !signbit(expr->value);
}

static void pair(lw_out *out, const lw_expr *expr, const char *sign, int left, int right)
{
    bool close = expr->kind == LW_EXPR_POWER ||
                 (expr->kind == LW_EXPR_DIVIDE && is_plain(expr->left) && is_plain(expr->right));
    part(out, expr->left, left);
    lw_out_text(out, close ? "" : " ");
    lw_out_text(out, sign);
    lw_out_text(out, close ? "" : " ");
    part(out, expr->right, right);
}

static void number(lw_out *out, const lw_expr *expr)
{
    static const char *const units[] = {[LW_UNIT_NUMBER] = "",
                                        [LW_UNIT_PERCENT] = " %",
                                        [LW_UNIT_DEG] = " deg",
                                        [LW_UNIT_MM] = " mm"};
    lw_out_number(out, expr->value);
    lw_out_text(out, units[expr->unit]);
}

static void call(lw_out *out, const lw_expr *expr)
{
    lw_out_text(out, expr->name);
    lw_out_text(out, "(");
    lw_out_expr(out, expr->left);
    if (expr->right != NULL) {
        lw_out_text(out, ", ");
        lw_out_expr(out, expr->right);
    }
    lw_out_text(out, ")");
}

void lw_out_expr(lw_out *out, const lw_expr *expr)
{
    switch (expr->kind) {
    case LW_EXPR_NUMBER:
        number(out, expr);
        break;
    case LW_EXPR_NAME:
        lw_out_text(out, expr->name);
        break;
    case LW_EXPR_NEGATE:
        lw_out_text(out, "-");
        part(out, expr->left, FACTOR);
        break;
    case LW_EXPR_ADD:
        pair(out, expr, "+", SUM, PRODUCT);
        break;
    case LW_EXPR_SUBTRACT:
        pair(out, expr, "-", SUM, PRODUCT);
        break;
    case LW_EXPR_MULTIPLY:
        pair(out, expr, "*", PRODUCT, FACTOR);
        break;
    case LW_EXPR_DIVIDE:
        pair(out, expr, "/", PRODUCT, FACTOR);
        break;
    case LW_EXPR_POWER:
        pair(out, expr, "^", ATOM, FACTOR);
        break;
    case LW_EXPR_CALL:
        call(out, expr);
        break;
    case LW_EXPR_GROUP:
        lw_out_text(out, "(");
        lw_out_expr(out, expr->left);
        lw_out_text(out, ")");
        break;
    }
}

size_t lw_expr_write(const lw_expr *expr, char *text, size_t capacity)
{
    lw_out out = lw_out_make(text, capacity);
    lw_out_expr(&out, expr);
    return lw_out_end(&out);
}
