/* test_peak.c - the largest value of a function. */
#include "calc/peak.h"

#include "check.h"

#include <math.h>

struct divider {
    double feed; /* ohm */
    int calls;
};

/* Heat at 1 V in e^x ohm behind `feed`. */
static double heat(void *of, double x) {
    struct divider *d = of;
    double r = exp(x), i = 1 / (r + d->feed);
    d->calls++;
    return r * i * i;
}

/* Source: the maximum power theorem; 1 / (4 R) where both are R. */
static void test_most_heat(void **state) {
    (void)state;
    for (int i = 0; i <= 200; i++) {
        struct divider d = {0.0501 * pow(9.98 / 0.0501, i / 200.0), 0};
        struct peak p = peak_find(heat, &d, log(0.05), log(10));
        double most = 1 / (4 * d.feed);
        if (fabs(p.value / most - 1) > 1e-7 || fabs(p.at - log(d.feed)) > 1e-3)
            fail_msg("behind %g ohm: %.12g at %g, wanted %.12g", d.feed,
                     p.value, exp(p.at), most);
        assert_true(d.calls <= PEAK_STEPS + 2 + 12);
    }
}

/* At an end nothing more is looked for. */
static void test_ends(void **state) {
    (void)state;
    struct divider small = {0.01, 0}, large = {50, 0};
    struct peak p = peak_find(heat, &small, log(0.05), log(10));
    assert_true(p.at == log(0.05));
    assert_int_equal(small.calls, PEAK_STEPS + 2);
    p = peak_find(heat, &large, log(0.05), log(10));
    assert_true(p.at == log(10));
    assert_int_equal(large.calls, PEAK_STEPS + 2);
}

static double nothing(void *of, double x) {
    (void)of;
    (void)x;
    return NAN;
}

/* Rises until it has no value any more. */
static double broken(void *of, double x) {
    return x > *(double *)of ? NAN : x;
}

static double roof(void *of, double x) {
    return -fabs(x - *(double *)of);
}

static double flat(void *of, double x) {
    (void)x;
    return *(double *)of;
}

static void test_rough(void **state) {
    (void)state;
    assert_true(peak_find(nothing, NULL, 0, 1).value == -INFINITY);
    for (int i = 1; i < 100; i++) {
        double at = i / 100.0;
        struct peak p = peak_find(broken, &at, 0, 1);
        assert_true(p.value <= at && p.value > at - 1.0 / PEAK_STEPS);
        p = peak_find(roof, &at, 0, 1);
        assert_true(p.at >= 0 && p.at <= 1 && p.value > -0.5 / PEAK_STEPS);
        assert_true(peak_find(flat, &at, 0, 1).value == at);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_most_heat),
        cmocka_unit_test(test_ends),
        cmocka_unit_test(test_rough),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
