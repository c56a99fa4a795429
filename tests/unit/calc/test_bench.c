/* test_bench.c - what belongs to a thread or screw at the bench: holes, drills,
 * the FAA's torques, tapping and wood screws. The tables are compared row by
 * row in test_reference.c. */
#include "calc/bolt_torque.h"
#include "calc/hole.h"
#include "calc/screw.h"

#include "joints.h"

static void test_holes(void **state) {
    (void)state;
    const char *source, *drill;
    struct thread m8 = thread_of("M8"), quarter = thread_of("1/4-20");
    assert_near(hole_clearance(&m8, HOLE_MEDIUM, &source), 9e-3, 1e-12);
    assert_string_equal(source, "ISO 273");
    assert_near(hole_clearance(&quarter, HOLE_CLOSE, &source), 0.257 * 0.0254,
                1e-12);
    assert_true(isnan(hole_clearance(&quarter, HOLE_COARSE, &source)));
    struct thread m9 = thread_of("M9"), big = thread_of("1-8");
    assert_true(isnan(hole_clearance(&m9, HOLE_CLOSE, &source)));
    assert_true(isnan(hole_clearance(&big, HOLE_CLOSE, &source)));
    assert_near(hole_tap(&m8, &drill, &source), 6.75e-3, 1e-12);
    assert_null(drill);
    assert_near(hole_tap(&quarter, &drill, &source), 0.201 * 0.0254, 1e-12);
    assert_string_equal(drill, "7");
    assert_near(hole_thread_share(&quarter, 0.201 * 0.0254), 0.75, 6e-3);
    struct thread odd = thread_of("1/4-32");
    assert_true(isnan(hole_tap(&odd, &drill, &source)));
    assert_null(drill);
    /* A number 1 screw is no 1 inch screw. */
    struct thread one = thread_of("#1-64");
    assert_true(isnan(hole_tap(&one, &drill, &source)));
}

static void test_faa(void **state) {
    (void)state;
    struct bolt_torque b;
    struct thread t = thread_of("1/4-28");
    assert_true(bolt_torque_faa(&t, false, &b));
    assert_near(b.low, 50 * LBF_IN, 1e-12);
    assert_near(b.high, 70 * LBF_IN, 1e-12);
    assert_near(b.most, 100 * LBF_IN, 1e-12);
    assert_true(bolt_torque_faa(&t, true, &b));
    assert_near(b.low, 30 * LBF_IN, 1e-12);
    t = thread_of("M6");
    assert_false(bolt_torque_faa(&t, false, &b));
    t = thread_of("1/4-32");
    assert_false(bolt_torque_faa(&t, false, &b));
    assert_non_null(bolt_torque_source());
}

static const struct tapping_screw *screw(const char *name) {
    const struct tapping_screw *s = tapping_screw_find(name, strlen(name));
    assert_non_null(s);
    return s;
}

static void test_screws(void **state) {
    (void)state;
    assert_ptr_equal(screw("ST4.2"), screw("#8"));
    assert_ptr_not_equal(screw("#8 AB"), screw("#8"));
    assert_null(tapping_screw_find("ST9", 3));
    size_t n = 0;
    for (; tapping_screw_at(n); n++) {
        const struct tapping_screw *s = tapping_screw_at(n);
        assert_true(s->root < s->diameter && s->pitch < s->diameter);
        assert_ptr_equal(screw(s->name), s);
    }
    assert_int_equal(n, 17);
    assert_near(screw_pilot_sheet(screw("ST4.2"), 1e-3), 3.2e-3, 1e-12);
    assert_near(screw_pilot_sheet(screw("ST2.9"), 0.3e-3), 2.2e-3, 1e-12);
    assert_near(screw_pilot_sheet(screw("ST2.9"), 0.56e-3), 2.2e-3, 1e-12);
    assert_near(screw_pilot_sheet(screw("ST2.9"), 0.57e-3), 2.3e-3, 1e-12);
    assert_true(isnan(screw_pilot_sheet(screw("ST4.2"), 9e-3)));
    assert_true(isnan(screw_pilot_sheet(screw("ST8"), 1e-3)));
    assert_near(screw_pilot_plastic(screw("ST4.2"), true), 3.8e-3, 1e-12);
    assert_near(screw_pilot_plastic(screw("ST4.2"), false), 3.7e-3, 1e-12);
    assert_true(isnan(screw_pilot_plastic(screw("ST8"), false)));
    assert_near(screw_pilot_inch(screw("#8 AB"), true), 0.1405 * 0.0254, 1e-12);
    assert_near(screw_pilot_inch(screw("#8 AB"), false), 0.136 * 0.0254, 1e-12);
    assert_true(isnan(screw_pilot_inch(screw("ST4.2"), false)));
    assert_non_null(screw_pilot_source());
}

static void test_calculations(void **state) {
    (void)state;
    const struct tapping_screw *s = screw("ST4.2");
    struct bounds pull[] = {{0, 60e6}, {0, 0.03}};
    assert_trends(screw_calculation(SCREW_PULL_OUT), s, pull, 80);
    struct bounds strip[] = {{0, 3000}, {0, 0.5}};
    assert_trends(screw_calculation(SCREW_STRIP_TORQUE), s, strip, 81);
    struct bounds wood[] = {{0.3, 0.8}, {2e-3, 8e-3}, {0, 0.05}};
    assert_trends(screw_calculation(SCREW_WOOD), NULL, wood, 82);
    double dp = (4.22e-3 + 3.1e-3) / 2;
    double in[] = {30e6, 0.01};
    assert_near(screw_calculation(SCREW_PULL_OUT)->value(s, in),
                acos(-1) * dp * 30e6 * 0.01, 1e-12);
    /* Without friction the work of a turn lifts the load by the lead. */
    double smooth[] = {1000, 0};
    assert_near(screw_calculation(SCREW_STRIP_TORQUE)->value(s, smooth),
                1000 * 1.4e-3 / (2 * acos(-1)), 1e-12);
    double rough[] = {1000, 0.3};
    double angle = atan(1.4e-3 / (acos(-1) * dp)) + atan(0.3);
    assert_near(screw_calculation(SCREW_STRIP_TORQUE)->value(s, rough),
                1000 * dp / 2 * tan(angle), 1e-12);
    double locked[] = {1000, 100};
    assert_true(isnan(screw_calculation(SCREW_STRIP_TORQUE)->value(s, locked)));
    for (int k = 0; k < 3; k++) {
        double bad[] = {0.5, 0.005, 0.02};
        bad[k] = -1;
        assert_true(isnan(screw_calculation(SCREW_WOOD)->value(NULL, bad)));
        if (k == 2)
            continue;
        assert_true(isnan(screw_calculation(SCREW_PULL_OUT)->value(s, bad)));
        assert_true(
            isnan(screw_calculation(SCREW_STRIP_TORQUE)->value(s, bad)));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_holes),
        cmocka_unit_test(test_faa),
        cmocka_unit_test(test_screws),
        cmocka_unit_test(test_calculations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
