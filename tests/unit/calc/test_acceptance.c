/* test_acceptance.c - limits drawn in by the error of an instrument. */
#include "calc/acceptance.h"
#include "calc/rounding.h"
#include "check.h"

/* A display of 100.0 V at ±(1 % of the reading + 2 digits of 0.1 V): the value
 * is between 98.8 V and 101.2 V. Common worked example of meter makers; so is
 * 120 V at ±(1 % + 3 digits of 0.1 V), which is off by 1.5 V. */
static void test_worked_examples(void **state) {
    (void)state;
    struct accuracy a = {0.01, 0.2}, b = {0.01, 0.3};
    assert_near(acceptance_most(101.2, a, 0), 100, 1e-12);
    assert_near(acceptance_least(98.8, a, 0), 100, 1e-12);
    assert_near(acceptance_most(121.5, b, 0), 120, 1e-12);
    assert_near(acceptance_least(118.5, b, 0), 120, 1e-12);
}

/* To the display's step, inward. */
static void test_steps(void **state) {
    (void)state;
    struct accuracy a = {0.005, 0.02}, none = {0, 0};
    assert_near(acceptance_most(0.45, a, 0.01), 0.42, 1e-12);
    assert_near(acceptance_least(11.4, a, 0.01), 11.48, 1e-12);
    assert_near(acceptance_most(0.45, none, 0.01), 0.45, 1e-12);
    assert_near(acceptance_most(0.45, none, 0.1), 0.4, 1e-12);
    assert_near(acceptance_least(-0.05, none, 0.1), 0, 1e-12);
}

/* Whatever is off by no more than the accuracy and shows an accepted reading is
 * within the limit; one step more need not be. */
static void test_no_value_slips_through(void **state) {
    (void)state;
    for (int i = -40; i <= 40; i++)
        for (int k = 0; k < 5; k++) {
            double limit = i * 0.37, step = 0.01 * (k + 1);
            struct accuracy a = {0.004 * k, step * k / 2};
            double most = acceptance_most(limit, a, step);
            double least = acceptance_least(limit, a, step);
            double above = most + a.share * fabs(most) + a.fixed;
            double below = least - a.share * fabs(least) - a.fixed;
            assert_true(above <= limit + 1e-12 && below >= limit - 1e-12);
            double next = most + step;
            assert_true(next + a.share * fabs(next) + a.fixed > limit - 1e-12);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_worked_examples),
        cmocka_unit_test(test_steps),
        cmocka_unit_test(test_no_value_slips_through),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
