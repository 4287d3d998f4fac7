/* What the expressions of a cut come to. */
#ifndef LW_CUT_VALUE_H
#define LW_CUT_VALUE_H

#include "cut/cut.h"

/* A value from outside for one setting (--set): in the setting's own unit, degrees, percent as a
 * share, mm or bare. */
typedef struct lw_override {
    const char *name;
    lw_unit unit; /* LW_UNIT_NUMBER is taken as the setting's unit: "53" for a setting in percent is
                     53 % */
    double value; /* as written: 53 for 53 % */
} lw_override;

/* A number with its kind: degrees, a length in mm, or bare (a percentage is bare: 53 % is 0.53). */
typedef struct lw_value {
    lw_unit unit; /* NUMBER, DEG or MM; never PERCENT */
    double value;
} lw_value;

/* All settings and lets of a cut, evaluated. values[i] belongs to cut->settings[i]. */
typedef struct lw_values {
    int count;
    lw_value values[LW_CUT_MOST_SETTINGS];
} lw_values;

/* Evaluates settings in order, with the overrides in place of the defaults. LW_NOT_FOUND when an
 * override names no setting; LW_BAD_INPUT when one passes its limits, names a let, comes twice or
 * has another unit, when an expression has no value (division by zero, root of a negative) or mixes
 * kinds. The problem has the setting's place. */
lw_status lw_values_make(const lw_cut *cut, const lw_override *overrides, int override_count,
                         lw_values *out, lw_problem *problem);

/* The unit in which a setting is stated and shown: that of its default. PERCENT when the default is
 * a percentage, the name of such a setting or a sum that begins with one, else what its value is.
 */
lw_unit lw_setting_unit(const lw_cut *cut, const lw_values *values, int setting);

/* The limits of a setting that is no let (asserted), as its value is: 0.4 for 40 %. values: of this
 * cut. Fails as lw_value_of. */
lw_status lw_setting_limits(const lw_cut *cut, const lw_values *values, int setting,
                            lw_value *lowest, lw_value *highest);

/* "43 deg", "52 %", "0.3 mm" or "1.5": a value in a unit, rounded to 10 figures, for messages and
 * sheets. unit PERCENT shows a bare value as a percentage. Same return as snprintf. */
size_t lw_value_write(lw_value value, lw_unit unit, char *text, size_t capacity);

/* One expression. values may cover the first settings only: names further down are not found.
 * Kinds: + and - want the same kind; * and / a bare number on one side, or two of
 * a kind for /; ^ a bare number to a whole or half power up to 64; sin cos tan take degrees (a bare
 * number is degrees); asin acos atan give degrees; sqrt of a bare number; abs, min and max of any
 * kind, of one. LW_BAD_INPUT, with the place of what is wrong. */
lw_status lw_value_of(const lw_cut *cut, const lw_values *values, const lw_expr *expr,
                      lw_value *out, lw_problem *problem);

#endif
