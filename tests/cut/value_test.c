/* What expressions and settings come to. Expected values: worked by hand unless told otherwise. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cut/read.h"
#include "cut/value.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char tail[] = "wheel 96\npavilion\nmain at 43 on 96 to point\n";

static lw_status try_read(const char *settings, lw_cut *cut, lw_problem *problem)
{
    char text[2048];
    lw_memory memory = lw_memory_standard();
    snprintf(text, sizeof text, "%s\n%s", settings, tail);
    return lw_cut_read(&memory, text, strlen(text), cut, problem);
}

/* The value of the last setting of a text. */
static lw_value last_value(const char *settings)
{
    lw_cut cut = {0};
    lw_problem problem = {0};
    lw_values values;
    if (try_read(settings, &cut, &problem) != LW_OK) {
        fail_msg("%s: %s, %s", settings, problem.found, problem.expected);
    }
    assert_int_equal(lw_values_make(&cut, NULL, 0, &values, &problem), LW_OK);
    lw_value value = values.values[values.count - 1];
    lw_cut_destroy(&cut);
    return value;
}

static void check(const char *expression, lw_unit unit, double expected)
{
    char text[256];
    snprintf(text, sizeof text, "let a = %s", expression);
    lw_value value = last_value(text);
    assert_int_equal(value.unit, unit);
    if (!(fabs(value.value - expected) <= 4e-16 * fabs(expected))) {
        fail_msg("%s gives %.17g, not %.17g", expression, value.value, expected);
    }
}

static void test_arithmetic(void **state)
{
    (void)state;
    check("1 + 2 * 3", LW_UNIT_NUMBER, 7.0);
    check("(1 + 2) * 3", LW_UNIT_NUMBER, 9.0);
    check("10 - 4 - 3", LW_UNIT_NUMBER, 3.0);
    check("24 / 4 / 2", LW_UNIT_NUMBER, 3.0);
    check("2 ^ 3 ^ 2", LW_UNIT_NUMBER, 512.0);
    check("-2 ^ 2", LW_UNIT_NUMBER, -4.0);
    check("2 ^ -2", LW_UNIT_NUMBER, 0.25);
    check("4 ^ 1.5", LW_UNIT_NUMBER, 8.0);
    check("4 ^ -0.5", LW_UNIT_NUMBER, 0.5);
    check("0 ^ 0", LW_UNIT_NUMBER, 1.0);
    check("- - 3", LW_UNIT_NUMBER, 3.0);
    check("6 - -3", LW_UNIT_NUMBER, 9.0);
}

static void test_units(void **state)
{
    (void)state;
    check("53 %", LW_UNIT_NUMBER, 0.53);
    check("43 deg + 2deg", LW_UNIT_DEG, 45.0);
    check("2 * 3 mm", LW_UNIT_MM, 6.0);
    check("3 mm / 2", LW_UNIT_MM, 1.5);
    check("3 mm / 2 mm", LW_UNIT_NUMBER, 1.5);
    check("50 % * 90 deg", LW_UNIT_DEG, 45.0);
    check("-3 mm", LW_UNIT_MM, -3.0);
}

/* Sines, cosines and tangents of 30, 45 and 60 degrees: published (any table). */
static void test_functions(void **state)
{
    (void)state;
    check("sin(30 deg)", LW_UNIT_NUMBER, 0.5);
    check("sin(30)", LW_UNIT_NUMBER, 0.5);
    check("cos(60 deg)", LW_UNIT_NUMBER, 0.5);
    check("tan(60 deg) ^ 2", LW_UNIT_NUMBER, 3.0);
    check("asin(0.5)", LW_UNIT_DEG, 30.0);
    check("acos(0.5)", LW_UNIT_DEG, 60.0);
    check("atan(1)", LW_UNIT_DEG, 45.0);
    check("sqrt(2) * sqrt(2) / 2", LW_UNIT_NUMBER, 1.0);
    check("abs(-3 mm)", LW_UNIT_MM, 3.0);
    check("min(3 deg, 2 deg)", LW_UNIT_DEG, 2.0);
    check("max(3 deg, 2 deg)", LW_UNIT_DEG, 3.0);
    check("min(2, 3)", LW_UNIT_NUMBER, 2.0);
    check("max(2, 3)", LW_UNIT_NUMBER, 3.0);
}

static void test_names(void **state)
{
    (void)state;
    lw_value value =
        last_value("setting p = 43 deg from 41 to 47\nlet q = p + 2 deg\nlet r = q / p");
    assert_int_equal(value.unit, LW_UNIT_NUMBER);
    assert_true(value.value == 45.0 / 43.0);
}

/* A bare limit takes the unit of the default, by way of a name too. */
static void test_limits(void **state)
{
    (void)state;
    lw_cut cut;
    lw_problem problem;
    assert_int_equal(try_read("setting t = 52 % from 40 to 65", &cut, &problem), LW_OK);
    lw_cut_destroy(&cut);
    assert_int_equal(try_read("setting t = 52 % from 40 % to 0.65 %", &cut, &problem),
                     LW_BAD_INPUT);
    assert_int_equal(try_read("setting t = 52 % from 40 to 51.9", &cut, &problem), LW_BAD_INPUT);
    assert_int_equal(try_read("let a = 40 %\nsetting t = 52 % from a to 65", &cut, &problem),
                     LW_OK);
    lw_cut_destroy(&cut);
    assert_int_equal(try_read("setting t = 2 mm from 1 to 3 mm", &cut, &problem), LW_OK);
    lw_cut_destroy(&cut);
    assert_int_equal(try_read("setting t = 2 mm from 1 % to 3 mm", &cut, &problem), LW_BAD_INPUT);
}

static const char three[] = "setting pavilion = 43 deg from 41 to 47\n"
                            "setting table = 52 % from 40 to 65\nlet half = table / 2";

static lw_status with_override(const char *name, lw_unit unit, double value, lw_values *values,
                               lw_problem *problem)
{
    lw_cut cut = {0};
    lw_override override = {name, unit, value};
    assert_int_equal(try_read(three, &cut, problem), LW_OK);
    lw_status status = lw_values_make(&cut, &override, 1, values, problem);
    lw_cut_destroy(&cut);
    return status;
}

static void test_overrides(void **state)
{
    (void)state;
    lw_values values;
    lw_problem problem;
    assert_int_equal(with_override("table", LW_UNIT_NUMBER, 60.0, &values, &problem), LW_OK);
    assert_true(values.values[1].value == 0.6);
    assert_true(values.values[2].value == 0.3);
    assert_int_equal(with_override("table", LW_UNIT_PERCENT, 60.0, &values, &problem), LW_OK);
    assert_true(values.values[1].value == 0.6);
    assert_int_equal(with_override("pavilion", LW_UNIT_DEG, 41.0, &values, &problem), LW_OK);
    assert_int_equal(with_override("pavilion", LW_UNIT_NUMBER, 47.0, &values, &problem), LW_OK);
    assert_true(values.values[0].value == 47.0);
}

static void expect_problem(lw_problem *problem, int line, int column, const char *found,
                           const char *expected)
{
    assert_int_equal(problem->line, line);
    assert_int_equal(problem->column, column);
    assert_string_equal(problem->found, found);
    assert_string_equal(problem->expected, expected);
}

static void test_refused_overrides(void **state)
{
    (void)state;
    lw_values values, before;
    lw_problem problem;
    memset(&values, 0xA5, sizeof values);
    memcpy(&before, &values, sizeof values);
    assert_int_equal(with_override("table", LW_UNIT_NUMBER, 65.001, &values, &problem),
                     LW_BAD_INPUT);
    expect_problem(&problem, 2, 9, "table = 65.001 %", "a value from 40 % to 65 %");
    assert_int_equal(with_override("pavilion", LW_UNIT_PERCENT, 43.0, &values, &problem),
                     LW_BAD_INPUT);
    expect_problem(&problem, 1, 9, "a percentage for 'pavilion'", "degrees");
    assert_int_equal(with_override("table", LW_UNIT_MM, 4.0, &values, &problem), LW_BAD_INPUT);
    assert_int_equal(with_override("half", LW_UNIT_NUMBER, 0.3, &values, &problem), LW_BAD_INPUT);
    expect_problem(&problem, 3, 5, "a value for 'half'", "a value for a setting");
    assert_int_equal(with_override("table", LW_UNIT_NUMBER, (double)NAN, &values, &problem),
                     LW_BAD_INPUT);
    assert_int_equal(with_override("tabel", LW_UNIT_NUMBER, 50.0, &values, &problem), LW_NOT_FOUND);
    expect_problem(&problem, 0, 0, "'tabel'", "a setting of this cut");
    assert_string_equal(problem.hint, "did you mean 'table'?");
    assert_memory_equal(&values, &before, sizeof values);
}

static void test_override_twice(void **state)
{
    (void)state;
    lw_cut cut = {0};
    lw_values values;
    lw_problem problem;
    lw_override twice[] = {{"table", LW_UNIT_NUMBER, 50.0}, {"table", LW_UNIT_NUMBER, 51.0}};
    assert_int_equal(try_read(three, &cut, &problem), LW_OK);
    assert_int_equal(lw_values_make(&cut, twice, 2, &values, &problem), LW_BAD_INPUT);
    lw_cut_destroy(&cut);
}

static void check_shown(double value, lw_unit kind, lw_unit unit, const char *expected)
{
    char text[64];
    size_t length = lw_value_write((lw_value){kind, value}, unit, text, sizeof text);
    assert_string_equal(text, expected);
    assert_int_equal(length, strlen(expected));
}

static void test_shown(void **state)
{
    (void)state;
    check_shown(0.57, LW_UNIT_NUMBER, LW_UNIT_PERCENT, "57 %");
    check_shown(43.0, LW_UNIT_DEG, LW_UNIT_DEG, "43 deg");
    check_shown(0.1 + 0.2, LW_UNIT_MM, LW_UNIT_MM, "0.3 mm");
    check_shown(-1.5, LW_UNIT_NUMBER, LW_UNIT_NUMBER, "-1.5");
    check_shown(0.0, LW_UNIT_NUMBER, LW_UNIT_NUMBER, "0");
    check_shown(1e300, LW_UNIT_NUMBER, LW_UNIT_NUMBER, "1e+300");
}

static void test_unit_of_a_setting(void **state)
{
    (void)state;
    lw_cut cut = {0};
    lw_values values;
    lw_problem problem;
    const char *text =
        "let a = 5 %\nlet b = (a)\nlet c = a * 2\nlet d = 3 deg\nlet e = -a\nlet f = 7 % - a";
    const lw_unit units[] = {LW_UNIT_PERCENT, LW_UNIT_PERCENT, LW_UNIT_NUMBER,
                             LW_UNIT_DEG,     LW_UNIT_PERCENT, LW_UNIT_PERCENT};
    assert_int_equal(try_read(text, &cut, &problem), LW_OK);
    assert_int_equal(lw_values_make(&cut, NULL, 0, &values, &problem), LW_OK);
    for (int i = 0; i < 6; i++) {
        assert_int_equal(lw_setting_unit(&cut, &values, i), units[i]);
    }
    lw_cut_destroy(&cut);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_arithmetic),
        cmocka_unit_test(test_units),
        cmocka_unit_test(test_functions),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_overrides),
        cmocka_unit_test(test_refused_overrides),
        cmocka_unit_test(test_override_twice),
        cmocka_unit_test(test_shown),
        cmocka_unit_test(test_unit_of_a_setting),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
