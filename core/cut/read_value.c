/* Is the value of an expression, at the defaults, of the kind and in the range that its place asks
 * for? */
#include "cut/read_parts.h"

#include "cut/value_parts.h"

#include <stdio.h>

/* No length of a stone is ten times its width. */
static const double most_widths = 10.0;
/* No stone is a metre wide. */
static const double most_mm = 1000.0;

static const struct {
    const char *expected;
    double lowest, highest; /* of a bare number or of degrees */
    bool above;             /* the lowest itself is not in */
    bool millimetres;
} wants[] = {
    [LW_WANT_ANGLE] = {"an angle from 0 to 90 deg", 0.0, 90.0, false, false},
    [LW_WANT_LENGTH] = {"a length above 0: a share of the width up to 1000 %, or up to 1000 mm",
                        0.0, most_widths, true, true},
    [LW_WANT_SMALL] = {"a length above 0: a share of the width up to 100 %, or up to 1000 mm", 0.0,
                       1.0, true, true},
    [LW_WANT_RATIO] = {"a share above 0 and up to 100 %", 0.0, 1.0, true, false},
    [LW_WANT_SHARE] = {"a share from 0 to 100 %", 0.0, 1.0, false, false},
    [LW_WANT_RADIUS] = {"a length from 0: a share of the width up to 1000 %, or up to 1000 mm", 0.0,
                        most_widths, false, true},
};

static bool right_kind(lw_want want, lw_unit unit, bool percent)
{
    if (want == LW_WANT_ANGLE) {
        return unit == LW_UNIT_DEG || (unit == LW_UNIT_NUMBER && !percent);
    }
    return unit == LW_UNIT_NUMBER || (unit == LW_UNIT_MM && wants[want].millimetres);
}

static bool in_range(lw_want want, lw_value value)
{
    double lowest = wants[want].lowest;
    bool high_enough = wants[want].above ? value.value > lowest : value.value >= lowest;
    return high_enough && value.value <= (value.unit == LW_UNIT_MM ? most_mm : wants[want].highest);
}

/* "53" for a share, where 53 % was meant. */
static void percent_hint(lw_want want, lw_value value, char *hint)
{
    char shown[48];
    bool likely = want != LW_WANT_ANGLE && value.unit == LW_UNIT_NUMBER && value.value > 1.0 &&
                  value.value <= 100.0;
    if (likely) {
        lw_value_write((lw_value){LW_UNIT_NUMBER, value.value / 100.0}, LW_UNIT_PERCENT, shown,
                       sizeof shown);
        snprintf(hint, LW_PROBLEM_TEXT, "did you mean %s?", shown);
    }
}

lw_status lw_read_check_value(lw_reader *r, const lw_expr *expr, lw_want want, double *out)
{
    lw_value value;
    lw_status status = lw_value_of(&r->cut, &r->values, expr, &value, r->problem);
    if (status != LW_OK) {
        return status;
    }
    bool percent = lw_expr_is_percent(&r->cut, r->values.count, expr);
    char found[LW_PROBLEM_TEXT], hint[LW_PROBLEM_TEXT] = "";
    if (right_kind(want, value.unit, percent) && in_range(want, value)) {
        if (out != NULL) {
            *out = value.value;
        }
        return LW_OK;
    }
    lw_unit unit = percent                                                 ? LW_UNIT_PERCENT
                   : want == LW_WANT_ANGLE && value.unit == LW_UNIT_NUMBER ? LW_UNIT_DEG
                                                                           : value.unit;
    lw_value_write(value, unit, found, sizeof found);
    percent_hint(want, value, hint);
    return lw_read_fail_as(r, LW_BAD_INPUT, lw_expr_start(expr), found, wants[want].expected, hint);
}
