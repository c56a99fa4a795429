/* test_strip.c - stripping loads, engagement rules, wire inserts. Areas are
 * compared with published ones in test_reference.c. */
#include "calc/strip.h"

#include "joints.h"

static double value(enum strip_result r, const struct engagement *e,
                    double length) {
    return strip_calculation(r)->value(e, &length);
}

/* At the computed length the weaker thread just holds what breaks the bolt. */
static void test_length(void **state) {
    (void)state;
    static const char *const threads[] = {"M6", "M8", "M12", "1/4-20",
                                          "1/2-13"};
    for (size_t i = 0; i < 5; i++) {
        for (double shear = 80e6; shear < 900e6; shear *= 1.3) {
            struct engagement e = {thread_of(threads[i]), 800e6, shear};
            double length = value(STRIP_LENGTH, &e, 0);
            double hole = value(STRIP_HOLE, &e, length);
            double bolt = value(STRIP_BOLT, &e, length);
            double breaks = e.thread.stress_area * 800e6;
            assert_near(fmin(hole, bolt), breaks, 1e-12);
            assert_true(length > 0.5 * e.thread.diameter);
        }
    }
    /* 8.8 into 200 MPa: M12 needs 12.9 mm (reference thread_strip_metric). */
    struct engagement m12 = {thread_of("M12"), 800e6, 200e6};
    assert_near(value(STRIP_LENGTH, &m12, 0), 12.9e-3, 5e-3);
}

static void test_trends_and_limits(void **state) {
    (void)state;
    struct engagement e = {thread_of("M8"), 800e6, 200e6};
    struct bounds b[] = {{0, 0.05}};
    assert_trends(strip_calculation(STRIP_HOLE), &e, b, 70);
    assert_trends(strip_calculation(STRIP_BOLT), &e, b, 71);
    assert_described(strip_calculation(STRIP_LENGTH));
    for (int r = 0; r < STRIP_RESULTS; r++) {
        enum strip_result s = (enum strip_result)r;
        struct engagement none = {thread_of("M2"), 800e6, 200e6};
        assert_true(isnan(value(s, &none, 0.01))); /* no limits kept */
        if (s != STRIP_LENGTH)
            assert_true(isnan(value(s, &e, -0.01)));
        struct engagement soft = {thread_of("M8"), 800e6, 0};
        assert_true(isnan(value(s, &soft, 0.01)) == (s != STRIP_BOLT));
        struct engagement weak = {thread_of("M8"), 0, 200e6};
        assert_true(isnan(value(s, &weak, 0.01)) == (s != STRIP_HOLE));
    }
}

static void test_rules(void **state) {
    (void)state;
    assert_true(engagement_find("steel", 5)->diameters == 1);
    assert_true(engagement_find("aluminium", 9)->diameters == 2);
    assert_true(engagement_find("aluminium", 9)->torque == 0.7);
    assert_true(engagement_find("plastic", 7)->diameters == 2.5);
    assert_null(engagement_find("cheese", 6));
    size_t n = 0;
    for (; engagement_at(n); n++)
        assert_true(engagement_at(n)->diameters >= 1);
    assert_int_equal(n, 6);
}

/* Between rows the weaker parent, between columns the stronger bolt. */
static void test_insert(void **state) {
    (void)state;
    assert_true(insert_length(200e6, 790e6) == 1.5);
    assert_true(insert_length(249e6, 790e6) == 1.5);
    assert_true(insert_length(250e6, 791e6) == 1.5);
    assert_true(insert_length(249e6, 791e6) == 2);
    assert_true(insert_length(1000e6, 100e6) == 1);
    static const double parent[] = {70, 100, 150, 200, 250, 300, 350};
    static const double bolt[] = {390, 490, 590, 790, 980, 1180, 1370};
    for (int p = 1; p < 7; p++)
        for (int b = 0; b < 6; b++) {
            double lower = insert_length(parent[p - 1] * 1e6, bolt[b] * 1e6);
            double got = insert_length((parent[p] - 0.5) * 1e6, bolt[b] * 1e6);
            assert_true(got == lower || (isnan(got) && isnan(lower)));
            lower = insert_length(parent[p] * 1e6, bolt[b + 1] * 1e6);
            got = insert_length(parent[p] * 1e6, (bolt[b] + 0.5) * 1e6);
            assert_true(got == lower || (isnan(got) && isnan(lower)));
        }
    assert_true(isnan(insert_length(69e6, 390e6)));
    assert_true(isnan(insert_length(70e6, 790e6)));
    assert_true(isnan(insert_length(350e6, 1400e6)));
    assert_non_null(insert_source());
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_length),
        cmocka_unit_test(test_trends_and_limits),
        cmocka_unit_test(test_rules),
        cmocka_unit_test(test_insert),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
