/* Numbers: read and written the same in every locale, and back to the last bit. Expected values:
 * worked, or the C library's own reading in the "C" locale. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/number.h"

#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static uint64_t next(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    return *state;
}

static void assert_round_trip(double value)
{
    char text[LW_NUMBER_TEXT];
    double back = (double)NAN;
    size_t length = lw_number_write(value, text);
    assert_int_equal(length, strlen(text));
    assert_true(length < LW_NUMBER_TEXT);
    assert_null(strchr(text, ','));
    if (!lw_number_read_all(text, &back) || back != value || signbit(back) != signbit(value)) {
        fail_msg("%a became \"%s\" became %a", value, text, back);
    }
}

static void round_trips(void)
{
    uint64_t state = 0x9E3779B97F4A7C15u;
    for (int i = 0; i < 100000; i++) {
        uint64_t bits = next(&state);
        double any = 0.0;
        memcpy(&any, &bits, sizeof any);
        if (isfinite(any)) {
            assert_round_trip(any);
        }
        assert_round_trip((double)(bits >> 40) / 1000.0); /* what people write */
        assert_round_trip((double)(int64_t)bits * 0x1p-53);
    }
    static const double corners[] = {0.0,
                                     -0.0,
                                     1.0,
                                     DBL_MAX,
                                     DBL_MIN,
                                     DBL_TRUE_MIN,
                                     DBL_EPSILON,
                                     1e-5,
                                     9.999999999999999e-6,
                                     1e15,
                                     999999999999999.9,
                                     0.1,
                                     1.0 / 3.0,
                                     -42.25};
    for (size_t i = 0; i < sizeof corners / sizeof corners[0]; i++) {
        assert_round_trip(corners[i]);
    }
}

static void numbers_come_back(void **state)
{
    (void)state;
    round_trips();
}

static void assert_written(double value, const char *expected)
{
    char text[LW_NUMBER_TEXT];
    lw_number_write(value, text);
    assert_string_equal(text, expected);
}

static void shortest_text_is_written(void **state)
{
    (void)state;
    assert_written(0.0, "0");
    assert_written(0.1, "0.1");
    assert_written(42.5, "42.5");
    assert_written(-43.0, "-43");
    assert_written(1.0 / 3.0, "0.3333333333333333");
    assert_written(100000.0, "100000");
    assert_written(123456789012345.0, "123456789012345");
    assert_written(0.00001, "0.00001");
    assert_written(5e-324, "5e-324");
    assert_written(1e15, "1e+15");
    assert_written(2.5e-7, "2.5e-07");
}

static void assert_read(const char *text, double expected, size_t expected_used)
{
    double value = (double)NAN;
    size_t used = 0;
    assert_true(lw_number_read(text, strlen(text), &value, &used));
    assert_true(value == expected);
    assert_int_equal(used, expected_used);
}

static void assert_refused(const char *text)
{
    double value = 7.0;
    size_t used = 99;
    assert_false(lw_number_read(text, strlen(text), &value, &used));
    assert_true(value == 7.0 && used == 99);
}

static void reads_what_stands_there(void **state)
{
    (void)state;
    assert_read("42", 42.0, 2);
    assert_read("42.50deg", 42.5, 5);
    assert_read("1e3x", 1000.0, 3);
    assert_read("2E-2", 0.02, 4);
    assert_read(".5", 0.5, 2);
    assert_read("5.", 5.0, 2);
    assert_read("1,5", 1.0, 1); /* a comma never is a point */
    assert_read("3em", 3.0, 1); /* no exponent without digits */
    assert_read("1.2.3", 1.2, 3);
    assert_read("0x10", 0.0, 1); /* no hexadecimal */
    double value = 0.0;
    size_t used = 0;
    assert_true(lw_number_read("123456", 3, &value, &used)); /* no further than it is told */
    assert_true(value == 123.0 && used == 3);
}

static void refuses_the_rest(void **state)
{
    (void)state;
    static const char *const wrong[] = {"",    ".",   "e5",  "-1",    "+1",
                                        "inf", "nan", "abc", "1e999", " 1"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        assert_refused(wrong[i]);
    }
    char longest[66];
    memset(longest, '1', 65);
    longest[65] = '\0';
    assert_refused(longest); /* 65 digits */
    assert_read(longest + 1, 1.1111111111111112e63, 64);
}

static void reads_all_or_nothing(void **state)
{
    (void)state;
    double value = 7.0;
    assert_true(lw_number_read_all("-2.5", &value) && value == -2.5);
    assert_true(lw_number_read_all("+2.5e1", &value) && value == 25.0);
    static const char *const wrong[] = {"", "-", "--1", "1 ", " 1", "1,5", "0x1", "1.5.", "-inf"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        value = 7.0;
        assert_false(lw_number_read_all(wrong[i], &value));
        assert_true(value == 7.0);
    }
}

/* Where the locale has a comma for a point nothing changes. */
static void commas_change_nothing(void **state)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "fr_FR.utf8"};
    const char *found = NULL;
    for (size_t i = 0; found == NULL && i < sizeof names / sizeof names[0]; i++) {
        found = setlocale(LC_ALL, names[i]);
    }
    if (found == NULL) {
        print_message("no locale with decimal commas is installed\n");
        skip();
    }
    char text[16];
    snprintf(text, sizeof text, "%.1f", 0.5);
    assert_string_equal(text, "0,5"); /* else this test would show nothing */
    round_trips();
    shortest_text_is_written(state);
    reads_what_stands_there(state);
    refuses_the_rest(state);
    reads_all_or_nothing(state);
    setlocale(LC_ALL, "C");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_come_back),       cmocka_unit_test(shortest_text_is_written),
        cmocka_unit_test(reads_what_stands_there), cmocka_unit_test(refuses_the_rest),
        cmocka_unit_test(reads_all_or_nothing),    cmocka_unit_test(commas_change_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
