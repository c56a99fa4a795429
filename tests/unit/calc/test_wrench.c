/* test_wrench.c - prevailing torque, extension, setting. */
#include "joints.h"

static double prevailing(enum prevailing_rule r, double torque, double drag) {
    double in[] = {torque, drag};
    return prevailing_calculation(r, torque, drag)->value(NULL, in);
}

/* TB 43-0218 para 7c: 50 to 70 lbf in with 30 of drag gives 80 to 100. */
static void test_prevailing(void **state) {
    (void)state;
    assert_near(prevailing(PREVAILING_THIRD, 50 * LBF_IN, 30 * LBF_IN),
                80 * LBF_IN, 1e-12);
    assert_near(prevailing(PREVAILING_THIRD, 70 * LBF_IN, 30 * LBF_IN),
                100 * LBF_IN, 1e-12);
    assert_near(prevailing(PREVAILING_THIRD, 100, 33), 100, 1e-12);
    assert_near(prevailing(PREVAILING_THIRD, 99, 33), 132, 1e-12);
    /* A third, written in another unit, is a third. */
    assert_near(prevailing(PREVAILING_THIRD, 30 * LBF_FT, 120 * LBF_IN),
                40 * LBF_FT, 1e-12);
    assert_near(prevailing(PREVAILING_ALWAYS, 100, 5), 105, 1e-12);
    assert_near(prevailing(PREVAILING_INCLUDED, 100, 50), 100, 1e-12);
    for (int r = 0; r < PREVAILING_RULES; r++) {
        enum prevailing_rule rule = (enum prevailing_rule)r,
                             found = PREVAILING_RULES;
        const char *name = prevailing_name(rule);
        assert_true(prevailing_find(name, strlen(name), &found));
        assert_int_equal(found, r);
        assert_true(isnan(prevailing(rule, -1, 1)));
        assert_true(isnan(prevailing(rule, 1, -1)));
        struct bounds b[] = {{0, 100}, {0, 60}};
        assert_trends(prevailing_calculation(rule, 100, 60), NULL, b,
                      60 + (uint64_t)r);
        assert_trends(prevailing_calculation(rule, 100, 20), NULL, b,
                      60 + (uint64_t)r);
    }
    enum prevailing_rule none;
    assert_false(prevailing_find("sometimes", 9, &none));
}

/* What is shown less the drag clamps, by AC 43.13-1B 7-40 read the other way
 * round; with Shigley Eq. 8-27, K 0.20 and M10: 45 N m with 20 in it make 12.5
 * kN, not 22.5. */
static void test_what_clamps(void **state) {
    (void)state;
    const struct calculation *clamps = clamping_calculation();
    double in[] = {45, 20};
    double torque = clamps->value(NULL, in);
    assert_near(torque, 25, 1e-12);
    assert_near(torque / (0.20 * 0.010), 12500, 1e-12);
    double above[] = {45, 60};
    assert_true(isnan(clamps->value(NULL, above)));
    struct bounds b[] = {{30, 100}, {0, 30}};
    assert_trends(clamps, NULL, b, 70);
}

/* AC 43.13-1B Table 7-2; all rows in test_reference.c. */
static void test_least_drag(void **state) {
    (void)state;
    struct thread t = thread_of("1/2-20");
    assert_near(prevailing_least(&t), 10 * LBF_IN, 1e-12);
    t = thread_of("1-1/8-8");
    assert_near(prevailing_least(&t), 68 * LBF_IN, 1e-12);
    t = thread_of("1/4-28");
    assert_true(isnan(prevailing_least(&t)));
    t = thread_of("M12");
    assert_true(isnan(prevailing_least(&t)));
    assert_non_null(prevailing_least_source());
}

static double extended(enum extension_result r, double torque, double lever,
                       double extension, double degrees) {
    double in[] = {torque, lever, extension, degrees / 360};
    return extension_calculation(r)->value(NULL, in);
}

/* 90 degrees change nothing, pointing back raises the setting; rows of the
 * manuals in test_reference.c. */
static void test_extension(void **state) {
    (void)state;
    assert_near(extended(EXTENSION_SETTING, 100, 0.5, 0.1, 0), 83.3333333,
                1e-8);
    assert_near(extended(EXTENSION_SETTING, 100, 0.5, 0.1, 90), 100, 1e-12);
    assert_near(extended(EXTENSION_SETTING, 100, 0.5, 0.1, 180), 125, 1e-12);
    assert_near(extended(EXTENSION_SETTING, 100, 0.5, 0.1, 60),
                100 * 0.5 / 0.55, 1e-12);
    assert_near(extended(EXTENSION_SETTING, 100, 0.5, 0, 0), 100, 1e-12);
    struct dice d = {61};
    for (int n = 0; n < SAMPLES; n++) {
        double torque = roll(&d, 1, 300), lever = roll(&d, 0.2, 1);
        double e = roll(&d, 0, 0.19), a = roll(&d, 0, 360);
        double setting = extended(EXTENSION_SETTING, torque, lever, e, a);
        assert_near(extended(EXTENSION_TORQUE, setting, lever, e, a), torque,
                    1e-12);
    }
    for (int r = 0; r < EXTENSION_RESULTS; r++) {
        enum extension_result x = (enum extension_result)r;
        assert_true(isnan(extended(x, -1, 0.5, 0.1, 0)));
        assert_true(isnan(extended(x, 1, 0, 0.1, 0)));
        assert_true(isnan(extended(x, 1, 0.5, -0.1, 0)));
        assert_true(isnan(extended(x, 1, 0.5, 0.5, 180)));
        assert_true(isnan(extended(x, 1, 0.5, 0.1, NAN)));
        struct bounds b[] = {{0, 300}, {0.2, 1}, {0, 0.19}, {0, 1}};
        assert_trends(extension_calculation(x), NULL, b, 62);
    }
}

/* ISO 6789:2003: 4 %, 6 % up to 10 N m; used from 20 % up. TM 1-1500-204-23-9:
 * best from 30 to 80 %, step at most a tenth. */
static void test_setting(void **state) {
    (void)state;
    struct wrench w = {5 * LBF_FT, 75 * LBF_FT, LBF_FT};
    struct wrench_setting s = wrench_set(&w, 15 * LBF_FT);
    assert_near(s.setting, 15 * LBF_FT, 1e-12);
    assert_true(s.in_range && s.checked && !s.best && s.step_fine);
    assert_true(s.tolerance == 0.04);
    s = wrench_set(&w, 20.4 * LBF_FT);
    assert_near(s.setting, 20 * LBF_FT, 1e-12);
    s = wrench_set(&w, 22.5 * LBF_FT);
    assert_near(s.setting, 22 * LBF_FT, 1e-12);
    assert_false(s.best);
    s = wrench_set(&w, 23 * LBF_FT);
    assert_true(s.best);
    s = wrench_set(&w, 60 * LBF_FT);
    assert_true(s.best);
    s = wrench_set(&w, 61 * LBF_FT);
    assert_true(!s.best && s.in_range);
    s = wrench_set(&w, 14 * LBF_FT);
    assert_true(s.in_range && !s.checked);
    s = wrench_set(&w, 9 * LBF_FT);
    assert_true(s.in_range && !s.step_fine);
    s = wrench_set(&w, 10 * LBF_FT);
    assert_true(s.step_fine);
    s = wrench_set(&w, 4 * LBF_FT);
    assert_true(!s.in_range && !s.checked);
    s = wrench_set(&w, 5 * LBF_FT);
    assert_true(s.in_range);
    s = wrench_set(&w, 75 * LBF_FT);
    assert_true(s.in_range);
    s = wrench_set(&w, 76 * LBF_FT);
    assert_false(s.in_range || s.checked);
    /* The edges of the best range count, whatever the last bits say. */
    for (double to = 10; to < 300; to *= 1.37) {
        struct wrench w2 = {to / 100, to, to / 100};
        assert_true(wrench_set(&w2, 0.3 * to).best);
        assert_true(wrench_set(&w2, 0.8 * to).best);
        assert_false(wrench_set(&w2, 0.29 * to).best);
        assert_false(wrench_set(&w2, 0.81 * to).best);
    }
    struct wrench odd = {5, 75, 2};
    assert_near(wrench_set(&odd, 45).setting, 45, 1e-12);
    struct wrench small = {2, 10, 0.1};
    assert_true(wrench_set(&small, 5).tolerance == 0.06);
    struct wrench larger = {2, 10.1, 0.1};
    assert_true(wrench_set(&larger, 5).tolerance == 0.04);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_prevailing), cmocka_unit_test(test_what_clamps),
        cmocka_unit_test(test_least_drag), cmocka_unit_test(test_extension),
        cmocka_unit_test(test_setting),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
