/* test_interval.c - arithmetic on closed intervals: infinite ends, undefined
 * ones, and calculations over ranges of their inputs. */
#include "base/arena.h"
#include "values/interval.h"
#include "values/range.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>

#include <cmocka.h>

static void expect(struct ends got, double low, double high) {
    if (!(got.low == low && got.high == high))
        fail_msg("%g to %g, wanted %g to %g", got.low, got.high, low, high);
}

static void expect_undefined(struct ends got) {
    if (!isnan(got.low) || !isnan(got.high))
        fail_msg("%g to %g, wanted none", got.low, got.high);
}

static struct ends ends(double low, double high) {
    return (struct ends){low, high};
}

static void test_sums(void **state) {
    (void)state;
    expect(interval_add(ends(1, 2), ends(10, 30)), 11, 32);
    expect(interval_subtract(ends(1, 2), ends(10, 30)), -29, -8);
    expect(interval_add(ends(-INFINITY, 1), ends(2, INFINITY)), -INFINITY,
           INFINITY);
    expect(interval_add(ends(-INFINITY, 0), ends(INFINITY, INFINITY)),
           -INFINITY, INFINITY);
    expect(interval_add(ends(0, INFINITY), ends(-INFINITY, -INFINITY)),
           -INFINITY, INFINITY);
}

static void test_products(void **state) {
    (void)state;
    expect(interval_multiply(ends(-2, 3), ends(-5, 7)), -15, 21);
    expect(interval_multiply(ends(-3, -2), ends(5, 7)), -21, -10);
    expect(interval_multiply(ends(0, 2), ends(0, INFINITY)), 0, INFINITY);
    expect(interval_multiply(ends(0, 0), ends(-INFINITY, INFINITY)), 0, 0);
    expect(interval_divide(ends(-6, 12), ends(2, 3)), -3, 6);
    expect(interval_divide(ends(6, 12), ends(-3, -2)), -6, -2);
    expect(interval_divide(ends(1, 1), ends(-1, 1)), -INFINITY, INFINITY);
    expect(interval_divide(ends(1, 1), ends(0, 1)), -INFINITY, INFINITY);
    expect(interval_divide(ends(1, 1), ends(-1, 0)), -INFINITY, INFINITY);
}

static void test_powers(void **state) {
    (void)state;
    expect(interval_power(ends(-2, 3), 2, 1), 0, 9);
    expect(interval_power(ends(-4, 3), 2, 1), 0, 16);
    expect(interval_power(ends(-3, -2), 2, 1), 4, 9);
    expect(interval_power(ends(-3, 2), 3, 1), -27, 8);
    expect(interval_power(ends(2, 4), -1, 1), 0.25, 0.5);
    expect(interval_power(ends(-4, -2), -2, 1), 1.0 / 16, 0.25);
    expect(interval_power(ends(4, 9), 1, 2), 2, 3);
    expect(interval_power(ends(-5, 9), 0, 1), 1, 1);
    assert_true(isnan(interval_power(ends(-1, 4), 1, 2).low));
}

static void test_choices(void **state) {
    (void)state;
    expect(interval_abs(ends(-2, 3)), 0, 3);
    expect(interval_abs(ends(-5, 3)), 0, 5);
    expect(interval_abs(ends(-5, -3)), 3, 5);
    expect(interval_min(ends(1, 5), ends(2, 3)), 1, 3);
    expect(interval_max(ends(1, 5), ends(2, 3)), 2, 5);
    expect(interval_within(ends(1, 5), ends(2, 9)), 2, 5);
    expect(interval_within(ends(1, 5), ends(-1, 3)), 1, 3);
    /* Parted by rounding: no empty set, the value itself. */
    expect(interval_within(ends(1, 1), ends(2, 3)), 1, 1);
    expect(interval_within(ends(4, 4), ends(2, 3)), 4, 4);
}

/* What is undefined somewhere must not vanish behind a number. */
static void test_undefined_stays(void **state) {
    (void)state;
    struct ends none = {NAN, NAN}, one = {1, 1}, zero = {0, 0};
    expect_undefined(interval_add(none, one));
    expect_undefined(interval_subtract(one, none));
    expect_undefined(interval_multiply(none, one));
    expect_undefined(interval_multiply(zero, none));
    expect_undefined(interval_divide(none, one));
    expect_undefined(interval_divide(one, none));
    expect_undefined(interval_power(none, 2, 1));
    expect_undefined(interval_abs(none));
    expect_undefined(interval_min(none, one));
    expect_undefined(interval_min(one, none));
    expect_undefined(interval_max(none, one));
    expect_undefined(interval_max(one, none));
    expect_undefined(interval_within(none, one));
}

/* Rises with a, falls with b, has a valley at c = 2; defined up to c = 9. */
static double value(const void *fixed, const double *in) {
    const double *scale = fixed;
    if (in[2] > 9)
        return NAN;
    return *scale * (in[0] - in[1] + (in[2] - 2) * (in[2] - 2));
}

static const struct calculation valley = {
    .name = "a valley",
    .unit = "1",
    .input_count = 3,
    .input = {{"a", "first", NULL, TREND_RISING},
              {"b", "second", NULL, TREND_FALLING},
              {"c", "third", NULL, TREND_NEITHER}},
    .value = value,
};

struct call_bench {
    struct arena *arena;
    struct quantity_maker maker;
    struct quantity *call;
};

static struct call_bench call_over(struct ends a, struct ends b,
                                   struct ends c) {
    static const double scale = 2;
    const struct dim none = {{0}, false};
    struct call_bench t = {.arena = arena_new()};
    t.maker.arena = t.arena;
    const struct ends range[] = {a, b, c};
    const struct quantity *arg[3];
    for (int i = 0; i < 3; i++)
        arg[i] = quantity_root(&t.maker, ROOT_LITERAL,
                               (range[i].low + range[i].high) / 2, range[i],
                               none, NULL);
    t.call = quantity_call(&t.maker, &valley, &scale, arg);
    return t;
}

static void test_trends_are_corners(void **state) {
    (void)state;
    struct call_bench t = call_over(ends(1, 2), ends(3, 5), ends(2, 2));
    assert_true(t.call->nominal == 2 * (1.5 - 4));
    expect(range_ends(t.call), 2 * (1 - 5), 2 * (2 - 3));
    arena_free(t.arena);
}

/* Neither trend: never too narrow, and close. */
static void test_valley_is_found(void **state) {
    (void)state;
    struct call_bench t = call_over(ends(1, 2), ends(3, 3), ends(0.3, 3.1));
    struct ends e = range_ends(t.call);
    double low = 2 * (1 - 3), high = 2 * (2 - 3 + 1.7 * 1.7);
    assert_true(e.low <= low && e.low > low - 1e-6);
    assert_true(e.high >= high && e.high < high + 1e-6);
    arena_free(t.arena);
}

static void test_outside_validity(void **state) {
    (void)state;
    struct call_bench t = call_over(ends(1, 2), ends(3, 3), ends(8, 9.5));
    assert_true(isfinite(t.call->nominal));
    expect_undefined(range_ends(t.call));
    const struct dim none = {{0}, false};
    struct quantity *big = quantity_exact(&t.maker, 100, none, NULL);
    struct quantity *most =
        quantity_binary(&t.maker, QUANTITY_MAX, t.call, big);
    expect_undefined(range_ends(most));
    arena_free(t.arena);
}

/* A calculation that is stepped through costs its steps. */
static void test_cost(void **state) {
    (void)state;
    struct call_bench t = call_over(ends(1, 2), ends(3, 5), ends(2, 2));
    assert_int_equal(interval_cost(t.call), 2);
    assert_int_equal(interval_cost(t.call->arg[0]), 1);
    arena_free(t.arena);
    t = call_over(ends(1, 2), ends(3, 5), ends(2, 3));
    assert_int_equal(interval_cost(t.call), 2 * 33);
    arena_free(t.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sums),
        cmocka_unit_test(test_products),
        cmocka_unit_test(test_powers),
        cmocka_unit_test(test_choices),
        cmocka_unit_test(test_undefined_stays),
        cmocka_unit_test(test_trends_are_corners),
        cmocka_unit_test(test_valley_is_found),
        cmocka_unit_test(test_outside_validity),
        cmocka_unit_test(test_cost),
    };
    return cmocka_run_group_tests_name("values/interval", tests, NULL, NULL);
}
