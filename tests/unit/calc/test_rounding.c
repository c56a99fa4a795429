/* test_rounding.c - from a double to the decimal that is printed. */
#include "calc/rounding.h"

#include "check.h"

static void assert_text(double x, int decimals, enum round_way way,
                        const char *wanted) {
    char text[ROUND_TEXT_MAX];
    round_text(text, x, decimals, way);
    assert_string_equal(text, wanted);
}

/* Source: NIST SP 811 B.7.1, ISO 80000-1 Annex B rule A; more rows in
 * tests/reference/rounding.csv. */
static void test_half_to_even(void **state) {
    (void)state;
    assert_text(0.5, 0, ROUND_HALF_EVEN, "0");
    assert_text(1.5, 0, ROUND_HALF_EVEN, "2");
    assert_text(2.5, 0, ROUND_HALF_EVEN, "2");
    assert_text(-2.5, 0, ROUND_HALF_EVEN, "-2");
    assert_text(-3.5, 0, ROUND_HALF_EVEN, "-4");
    assert_text(2.675, 2, ROUND_HALF_EVEN, "2.68");
    assert_text(2.665, 2, ROUND_HALF_EVEN, "2.66");
    assert_text(1.005, 2, ROUND_HALF_EVEN, "1.00");
    assert_text(0.05, 1, ROUND_HALF_EVEN, "0.0");
    assert_text(0.15, 1, ROUND_HALF_EVEN, "0.2");
    assert_text(0.25, 1, ROUND_HALF_EVEN, "0.2");
    assert_text(0.250000001, 1, ROUND_HALF_EVEN, "0.3");
    assert_text(2.51, 0, ROUND_HALF_EVEN, "3");
    assert_text(2.50000000000001, 0, ROUND_HALF_EVEN, "3");
    assert_text(0.06, 1, ROUND_HALF_EVEN, "0.1");
    assert_text(0.04, 1, ROUND_HALF_EVEN, "0.0");
    assert_text(0.009, 1, ROUND_HALF_EVEN, "0.0");
    assert_text(99.5, 0, ROUND_HALF_EVEN, "100");
    assert_text(9.995, 2, ROUND_HALF_EVEN, "10.00");
}

/* 0.405 written as the double behind it is a tie all the same. */
static void test_snap(void **state) {
    (void)state;
    assert_text(0.40500000000000003, 2, ROUND_HALF_EVEN, "0.40");
    assert_text(0.1 + 0.2, 1, ROUND_UP, "0.3");
    assert_text(0.3 - 1e-17, 1, ROUND_DOWN, "0.3");
    assert_true(round_snap(0.1 + 0.2) == 0.3);
    assert_true(round_snap(-1e-300) == -1e-300);
    assert_true(round_snap(0) == 0);
    assert_true(round_snap(123456789012345678.0) == 123456789012346000.0);
}

/* The digits that are worked out are those that the C library prints. */
static void test_as_printed(void **state) {
    (void)state;
    struct dice d = {77};
    for (int i = 0; i < 10 * SAMPLES; i++) {
        double x = pow(10, roll(&d, -9, 16));
        if (i % 4 == 1) /* ties and what is next to them */
            x = (floor(x * 64) + 0.5) / 64;
        else if (i % 4 == 2)
            x = nextafter(pow(10, floor(roll(&d, -9, 16))),
                          i % 8 < 4 ? 0 : INFINITY);
        else if (i % 4 == 3) /* 14 digits and a five */
            x = (floor(roll(&d, 1e13, 1e14)) + 0.5) /
                pow(10, floor(roll(&d, 0, 20)));
        char text[40];
        snprintf(text, sizeof text, "%.14e", x);
        if (round_snap(x) != strtod(text, NULL) ||
            round_snap(-x) != -strtod(text, NULL))
            fail_msg("%.17g: %.17g, printed %s", x, round_snap(x), text);
        int decimals = 14 - (int)strtol(strchr(text, 'e') + 1, NULL, 10);
        char fixed[400];
        if (decimals < 0 || decimals > 15)
            continue;
        snprintf(fixed, sizeof fixed, "%.*f", decimals, x);
        char ours[ROUND_TEXT_MAX];
        round_text(ours, x, decimals, ROUND_HALF_EVEN);
        if (strcmp(ours, fixed) != 0)
            fail_msg("%.17g: %s, printed %s", x, ours, fixed);
    }
}

static void test_directed(void **state) {
    (void)state;
    assert_text(0.4004, 2, ROUND_UP, "0.41");
    assert_text(0.4004, 2, ROUND_DOWN, "0.40");
    assert_text(0.40, 2, ROUND_UP, "0.40");
    assert_text(-0.4004, 2, ROUND_UP, "-0.40");
    assert_text(-0.4004, 2, ROUND_DOWN, "-0.41");
    assert_text(1e-9, 2, ROUND_UP, "0.01");
    assert_text(1e-9, 2, ROUND_DOWN, "0.00");
    assert_text(-1e-9, 2, ROUND_DOWN, "-0.01");
    assert_text(-1e-9, 2, ROUND_UP, "0.00");
    assert_text(0.03, 1, ROUND_UP, "0.1");
    assert_text(9.91, 1, ROUND_UP, "10.0");
    assert_text(-9.91, 1, ROUND_DOWN, "-10.0");
    assert_text(9.99, 1, ROUND_DOWN, "9.9");
}

static void test_text(void **state) {
    (void)state;
    assert_text(0, 0, ROUND_HALF_EVEN, "0");
    assert_text(-0.0, 2, ROUND_HALF_EVEN, "0.00");
    assert_text(-0.001, 2, ROUND_HALF_EVEN, "0.00");
    assert_text(1234.5, -2, ROUND_HALF_EVEN, "1200");
    assert_text(1250, -2, ROUND_HALF_EVEN, "1200");
    assert_text(1350, -2, ROUND_HALF_EVEN, "1400");
    assert_text(49, -2, ROUND_UP, "100");
    assert_text(49, -2, ROUND_HALF_EVEN, "0");
    assert_text(960, -3, ROUND_HALF_EVEN, "1000");
    assert_text(3, 4, ROUND_HALF_EVEN, "3.0000");
    assert_text(0.000123, 5, ROUND_HALF_EVEN, "0.00012");
    assert_text(1e15, 1, ROUND_HALF_EVEN, "1000000000000000.0");
    assert_text(12.25, 20, ROUND_UP, "12.25000000000000000000");
    char text[ROUND_TEXT_MAX];
    round_text(text, 1.7976931348623157e308, 300, ROUND_UP);
    assert_int_equal(strlen(text), ROUND_TEXT_MAX - 1);
    assert_int_equal(strcspn(text, "."), 309);
    round_text(text, -5e-324, 326, ROUND_HALF_EVEN);
    assert_string_equal(text + strlen(text) - 3, "494");
    assert_int_equal(strlen(text), 3 + 326);
}

static void test_decimals(void **state) {
    (void)state;
    assert_int_equal(round_decimals(0, 3), 0);
    assert_int_equal(round_decimals(3.677, 3), 2);
    assert_int_equal(round_decimals(0.0123, 2), 3);
    assert_int_equal(round_decimals(1234, 2), -2);
    assert_int_equal(round_decimals(9.96, 2), 0); /* 10, not 10.0 */
    assert_int_equal(round_decimals(9.94, 2), 1);
    assert_int_equal(round_decimals(-9.96, 2), 0);
    assert_int_equal(round_decimals(10, 2), 0);
}

static void test_digits(void **state) {
    (void)state;
    assert_true(round_digits(0, 3, 9) == 0);
    assert_true(round_digits(3.6775, 3, 9) == 3.68);
    assert_true(round_digits(1234, 2, 9) == 1200);
    assert_true(round_digits(-9.96, 2, 9) == -10);
    assert_true(round_digits(0.0012345, 4, 9) == 0.001234); /* a tie */
    assert_true(round_digits(0.0012345, 4, 5) == 0.00123);
    assert_true(round_digits(4e-12, 8, 9) == 0);
    assert_true(round_digits(0.04, 8, 0) == 0);
    assert_true(round_digits(0.5, 8, 0) == 0 && round_digits(1.5, 8, 0) == 2);
    assert_true(round_digits(0.7, 8, 0) == 1 && round_digits(-0.7, 8, 0) == -1);
    assert_true(round_digits(99999999.7, 8, 9) == 1e8);
    assert_true(round_digits(0.1, 20, 20) == 0.1);
}

/* The C library rounds to so many digits as well; ties apart, which no figure
 * of these is. */
static void test_digits_as_printed(void **state) {
    (void)state;
    double x = 1.2345e-11;
    char text[40];
    for (int i = 0; i < 2000; i++, x *= -1.0319) {
        int digits = 1 + i % 12;
        snprintf(text, sizeof text, "%.*e", digits - 1, x);
        assert_true(round_digits(x, digits, 40) == strtod(text, NULL));
    }
}

static void test_step(void **state) {
    (void)state;
    assert_true(round_step(15.3, 1, ROUND_HALF_EVEN) == 15);
    assert_true(round_step(15.3, 0.5, ROUND_HALF_EVEN) == 15.5);
    assert_true(round_step(15.25, 0.5, ROUND_HALF_EVEN) == 15);
    assert_true(round_step(15.75, 0.5, ROUND_HALF_EVEN) == 16);
    /* 5, 7, 9 ...; 10, 12, 14 ... is 0, 2, 4 ... */
    assert_true(round_step_from(45, 2, 5, ROUND_HALF_EVEN) == 45);
    assert_true(round_step_from(45.9, 2, 5, ROUND_DOWN) == 45);
    assert_true(round_step_from(44.2, 2, 5, ROUND_HALF_EVEN) == 45);
    assert_true(round_step_from(4.1, 2, 5, ROUND_DOWN) == 3);
    assert_true(round_step_from(13, 2, 10, ROUND_HALF_EVEN) == 12);
    assert_true(round_step_from(3.2, 0.5, 0.3, ROUND_HALF_EVEN) == 3.3);
    assert_true(round_step(0.3, 0.1, ROUND_UP) == 0.3);
    assert_true(round_step(0.31, 0.1, ROUND_UP) == 0.4);
    assert_true(round_step(0.39, 0.1, ROUND_DOWN) == 0.3);
    assert_true(round_step(23, 5, ROUND_UP) == 25);
}

/* Random figures: the printed value lies on the right side, within a unit (half
 * a unit) of the last place, and printing it again changes nothing. */
static void test_properties(void **state) {
    (void)state;
    struct dice d = {1};
    for (int n = 0; n < SAMPLES; n++) {
        double x = roll(&d, -1, 1) * roll_log(&d, 1e-6, 1e6);
        int decimals = (int)roll(&d, -3, 9);
        double unit = pow(10, -decimals);
        double slack = 1e-12 * fmax(fabs(x), unit);
        double even = round_value(x, decimals, ROUND_HALF_EVEN);
        double up = round_value(x, decimals, ROUND_UP);
        double down = round_value(x, decimals, ROUND_DOWN);
        assert_true(fabs(even - x) <= unit / 2 + slack);
        assert_true(up >= x - slack && up < x + unit + slack);
        assert_true(down <= x + slack && down > x - unit - slack);
        assert_true(even == up || even == down);
        assert_true(round_value(even, decimals, ROUND_UP) == even);
        assert_true(round_value(up, decimals, ROUND_DOWN) == up);
        assert_true(round_value(-x, decimals, ROUND_UP) == -down);
    }
}

/* The value is the double that the printed text reads as. */
static void test_value_of_text(void **state) {
    (void)state;
    struct dice d = {2};
    for (int n = 0; n < SAMPLES; n++) {
        double x = roll(&d, -1, 1) * roll_log(&d, 1e-25, 1e25);
        int decimals = (int)roll(&d, -3, 25);
        enum round_way way = (enum round_way)(n % 3);
        char text[ROUND_TEXT_MAX];
        round_text(text, x, decimals, way);
        double value = round_value(x, decimals, way), read = strtod(text, NULL);
        assert_true(value == read && signbit(value) == signbit(read));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_half_to_even),
        cmocka_unit_test(test_snap),
        cmocka_unit_test(test_as_printed),
        cmocka_unit_test(test_directed),
        cmocka_unit_test(test_text),
        cmocka_unit_test(test_decimals),
        cmocka_unit_test(test_digits),
        cmocka_unit_test(test_digits_as_printed),
        cmocka_unit_test(test_step),
        cmocka_unit_test(test_properties),
        cmocka_unit_test(test_value_of_text),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
