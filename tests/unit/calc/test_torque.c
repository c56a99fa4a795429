/* test_torque.c - torque and preload: forms against each other, trends, tables
 * of conditions. Worked examples are compared in test_reference.c. */
#include "joints.h"

/* K and the friction form are one calculation seen from two sides. */
static void test_forms_agree(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M10", "8.8", TARGET_75_PROOF);
    struct dice d = {40};
    for (int n = 0; n < SAMPLES; n++) {
        double mg = roll(&d, 0.04, 0.4), mk = roll(&d, 0.04, 0.4);
        double force = roll(&d, 0, 60e3);
        double friction[] = {force, mg, mk};
        double torque = torque_value(TORQUE_LONG, &j, friction);
        double both[] = {mg, mk};
        double k = torque_value(TORQUE_K, &j, both);
        double short_form[] = {k, force};
        assert_near(torque_value(TORQUE_SHORT, &j, short_form), torque, 1e-12);
        double back[] = {torque, mg, mk};
        assert_near(torque_value(PRELOAD_LONG, &j, back), force, 1e-12);
        double back_short[] = {torque, k};
        assert_near(torque_value(PRELOAD_SHORT, &j, back_short), force, 1e-12);
    }
}

/* VDI 2230 by hand, M10 8.8, mu 0.12: FM 29.6 kN, MA 48.5 N m. */
static void test_vdi_by_hand(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M10", "8.8", TARGET_90_YIELD);
    assert_near(j.bearing, (14.63e-3 + 11e-3) / 2, 1e-12);
    double mu[] = {0.12, 0.12};
    double force = torque_value(PRELOAD_TARGET, &j, mu);
    assert_near(force, 29.60e3, 1e-3);
    assert_near(torque_value(TORQUE_TARGET, &j, mu), 48.46, 1e-3);
    double one[] = {0.12};
    assert_near(torque_value(TORQUE_TARGET_EQUAL, &j, one), 48.46, 1e-3);
    double at[] = {force, 0.12};
    /* At that preload the thread stands at 90 % of 640 MPa. */
    assert_near(torque_value(TORQUE_STRESS, &j, at), 576e6, 1e-12);
}

/* The formulas written out once more, in the units of the bench. */
static void test_by_hand(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M8", "8.8", TARGET_90_YIELD);
    double pi = acos(-1), mm = 1e-3, d2 = 8 - 0.649519 * 1.25;
    double d0 = 8 - 0.938194 * 1.25, as = pi / 4 * d0 * d0;
    double twist = 1.5 * d2 / d0 * (1.25 / (pi * d2) + 1.155 * 0.12);
    double factor = sqrt(1 + 3 * twist * twist);
    double stress[] = {10e3, 0.12};
    assert_near(torque_value(TORQUE_STRESS, &j, stress),
                10e3 / as * factor * 1e6, 1e-9);
    double mu[] = {0.12};
    assert_near(torque_value(PRELOAD_TARGET, &j, mu), 576 * as / factor, 1e-9);
    double dm = 8 - 1.226869 * 1.25 / 2, lead = 1.25 / (pi * dm);
    double sec = 1 / cos(pi / 6);
    double screw[] = {10e3, 0.12, 0.1};
    assert_near(torque_value(TORQUE_SCREW, &j, screw),
                10e3 * mm *
                    (dm / 2 * (lead + 0.12 * sec) / (1 - 0.12 * lead * sec) +
                     0.625 * 8 * 0.1),
                1e-9);
    double reduced[] = {10e3, 0.12};
    assert_near(torque_value(TORQUE_REDUCED, &j, reduced),
                10e3 * mm * (0.159 * 1.25 + 1.156 * 0.12 * 8), 1e-12);
}

/* Four targets, four figures, one name each. */
static void test_targets(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M10", "8.8", TARGET_75_PROOF);
    double no_friction[] = {0};
    double area = j.thread.stress_area;
    static const double share_mpa[] = {0.75 * 580, 0.90 * 580, 0, 0.70 * 800};
    for (int t = 0; t < TARGETS; t++) {
        enum preload_target found = TARGETS, want = (enum preload_target)t;
        const char *name = target_name(want);
        assert_true(target_find(name, strlen(name), &found));
        assert_int_equal(found, t);
        assert_non_null(target_source(want));
        j.target = want;
        if (want != TARGET_90_YIELD)
            assert_near(torque_value(PRELOAD_TARGET, &j, no_friction),
                        share_mpa[t] * 1e6 * area, 1e-12);
    }
    enum preload_target none;
    assert_false(target_find("75 %", 4, &none));
    j.grade = NULL;
    assert_true(isnan(torque_value(PRELOAD_TARGET, &j, no_friction)));
    assert_true(isnan(torque_value(PROOF_LOAD, &j, NULL)));
    assert_true(isnan(torque_value(TENSILE_LOAD, &j, NULL)));
    assert_true(isnan(torque_value(YIELD_LOAD, &j, NULL)));
}

/* M10 of 10.9: 940 MPa and 1040 MPa (ISO 898-1 Table 3) on 58.0 mm2. The table
 * of least breaking loads has 60.3 kN (from memory: ISO 898-1 Table 4). */
static void test_strength(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M10", "10.9", TARGET_75_PROOF);
    assert_near(torque_value(YIELD_LOAD, &j, NULL), 940 * 58.0, 1e-3);
    assert_near(torque_value(TENSILE_LOAD, &j, NULL), 60300, 1e-3);
}

static void test_trends(void **state) {
    (void)state;
    struct bounds mu = {0, 0.5}, force = {0, 1e5}, torque = {0, 1e3},
                  k = {0.05, 0.6};
    static const char *const joints[][2] = {
        {"M8", "8.8"}, {"M24x2", "10.9"}, {"3/8-16", "SAE 5"}, {"M6", "A2-70"}};
    for (size_t i = 0; i < 4; i++) {
        struct torque_joint j =
            joint_of(joints[i][0], joints[i][1], TARGET_90_YIELD);
        uint64_t seed = 50 + i;
        struct bounds kf[] = {k, force}, fmm[] = {force, mu, mu},
                      tk[] = {torque, k}, tmm[] = {torque, mu, mu},
                      mm[] = {mu, mu};
        assert_trends(torque_calculation(TORQUE_SHORT), &j, kf, seed);
        assert_trends(torque_calculation(TORQUE_LONG), &j, fmm, seed);
        assert_trends(torque_calculation(TORQUE_REDUCED), &j, fmm, seed);
        assert_trends(torque_calculation(TORQUE_SCREW), &j, fmm, seed);
        assert_trends(torque_calculation(PRELOAD_SHORT), &j, tk, seed);
        assert_trends(torque_calculation(PRELOAD_LONG), &j, tmm, seed);
        assert_trends(torque_calculation(TORQUE_STRESS), &j, fmm, seed);
        assert_trends(torque_calculation(TORQUE_K), &j, mm, seed);
        for (int t = 0; t < TARGETS; t++) {
            j.target = (enum preload_target)t;
            assert_trends(torque_calculation(PRELOAD_TARGET), &j, mm, seed);
            assert_trends(torque_calculation(TORQUE_TARGET), &j, mm, seed);
            assert_trends(torque_calculation(TORQUE_TARGET_EQUAL), &j, mm,
                          seed);
        }
    }
    assert_described(torque_calculation(PROOF_LOAD));
    assert_described(torque_calculation(TENSILE_LOAD));
    assert_described(torque_calculation(YIELD_LOAD));
}

/* Why thread friction is declared neither: more of it lowers the preload that
 * the thread may have, and with much friction under the head that wins. */
static void test_neither(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M10", "8.8", TARGET_90_YIELD);
    double low[] = {0.05, 0.08}, more[] = {0.10, 0.08};
    assert_true(torque_value(TORQUE_TARGET, &j, more) >
                torque_value(TORQUE_TARGET, &j, low));
    double high[] = {0.30, 0.4}, higher[] = {0.35, 0.4};
    assert_true(torque_value(TORQUE_TARGET, &j, higher) <
                torque_value(TORQUE_TARGET, &j, high));
}

static void test_outside(void **state) {
    (void)state;
    struct torque_joint j = joint_of("M8", "8.8", TARGET_75_PROOF);
    double bad[][3] = {
        {-1, 0.1, 0.1}, {1, -0.1, 0.1}, {1, 0.1, -0.1}, {NAN, 0.1, 0.1}};
    for (size_t i = 0; i < 4; i++) {
        assert_true(isnan(torque_value(TORQUE_LONG, &j, bad[i])));
        assert_true(isnan(torque_value(PRELOAD_LONG, &j, bad[i])));
        assert_true(isnan(torque_value(TORQUE_SCREW, &j, bad[i])));
        if (i == 2)
            continue; /* two inputs only */
        assert_true(isnan(torque_value(TORQUE_REDUCED, &j, bad[i])));
        assert_true(isnan(torque_value(TORQUE_STRESS, &j, bad[i])));
    }
    /* A stud without a head rubs in its thread only. */
    struct torque_joint stud = j;
    stud.bearing = 0;
    double turned[] = {1000, 0.1, 0.1};
    assert_near(torque_value(TORQUE_LONG, &stud, turned),
                1000 * (0.16 * 1.25e-3 + 0.058 * j.thread.pitch_diameter),
                1e-12);
    stud.bearing = -1;
    assert_true(isnan(torque_value(TORQUE_LONG, &stud, turned)));
    double locked[] = {1, 100, 0.1}; /* 1 - m tan l sec a below 0 */
    assert_true(isnan(torque_value(TORQUE_SCREW, &j, locked)));
    double no_k[] = {0, 100}, no_k_back[] = {100, 0}, back[] = {-1, 0.2};
    assert_true(isnan(torque_value(TORQUE_SHORT, &j, no_k)));
    assert_true(isnan(torque_value(PRELOAD_SHORT, &j, no_k_back)));
    assert_true(isnan(torque_value(PRELOAD_SHORT, &j, back)));
    double pull[] = {0.2, -100};
    assert_true(isnan(torque_value(TORQUE_SHORT, &j, pull)));
    double slippery[] = {-0.1, 0.1};
    assert_true(isnan(torque_value(TORQUE_K, &j, slippery)));
    assert_true(isnan(torque_value(PRELOAD_TARGET, &j, slippery)));
    assert_true(isnan(torque_value(TORQUE_TARGET_EQUAL, &j, slippery)));
}

static void test_bearing(void **state) {
    (void)state;
    bool from_table = false;
    struct thread m12 = thread_of("M12x1.25");
    assert_near(torque_bearing(&m12, &from_table), (16.63e-3 + 13.5e-3) / 2,
                1e-12);
    assert_true(from_table);
    struct thread inch = thread_of("1/2-13");
    assert_near(torque_bearing(&inch, &from_table), 1.3 * 12.7e-3, 1e-12);
    assert_false(from_table);
    /* 1/8 inch threads near a metric size stay inch threads. */
    static const char *const sizes[] = {
        "M3",  "M4",  "M5",  "M6",  "M7",  "M8",  "M10", "M12", "M14", "M16",
        "M18", "M20", "M22", "M24", "M27", "M30", "M33", "M36", "M39"};
    double last = 0;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        struct thread t = thread_of(sizes[i]);
        double b = torque_bearing(&t, &from_table);
        assert_true(from_table && b > last);
        assert_true(b > 1.1 * t.diameter && b < 1.4 * t.diameter);
        last = b;
    }
}

static const struct nut_factor *condition(const char *name) {
    return nut_factor_find(name, strlen(name));
}

static void test_conditions(void **state) {
    (void)state;
    size_t n = 0;
    for (const struct nut_factor *f; (f = nut_factor_at(n)) != NULL; n++) {
        assert_ptr_equal(condition(f->condition), f);
        assert_true(0 < f->low && f->low <= f->nominal &&
                    f->nominal <= f->high && f->high < 1);
        assert_non_null(f->source);
        assert_true(f->galls == (strcmp(f->condition, "stainless, dry") == 0));
    }
    assert_int_equal(n, 15);
    assert_ptr_equal(condition("dry, clean"), condition("clean, dry"));
    assert_ptr_equal(condition("Dry,clean"), condition("clean, dry"));
    assert_ptr_equal(condition("oiled, phosphated"),
                     condition("phosphated, oiled"));
    assert_ptr_not_equal(condition("dry"), condition("clean, dry"));
    static const char *const none[] = {
        "",
        "wet",
        "clean",
        "clean, dry, cold",
        "zinc",
        "clean,, dry",
        "dry dry",
        "dry, dry",
        "clean, clean",
        ",",
        "dry,",
        ",dry",
        "a condition that is far too long to be"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        char *copy = exact(none[i]);
        if (nut_factor_find(copy, strlen(none[i])))
            fail_msg("'%s' was read", none[i]);
        free(copy);
    }
}

/* The factor of any condition spans the table, and what is near to a word of
 * the shop is in it. */
static void test_unlisted_conditions(void **state) {
    (void)state;
    const struct nut_factor *any = nut_factor_any();
    double low = 1, high = 0;
    for (size_t i = 0; nut_factor_at(i) != NULL; i++) {
        low = fmin(low, nut_factor_at(i)->low);
        high = fmax(high, nut_factor_at(i)->high);
    }
    assert_true(any->low == low && any->high == high && any->nominal == high);
    static const char *const near[][2] = {
        {"oil", "oiled"},
        {"engine oil", "oiled"},
        {"Grease", "lubricated"},
        {"degreased", "clean, dry"},
        {"zinc plated, oiled", "zinc plated"},
        {"copper grease", "anti-seize"},
        {"thread lock", "locking compound"},
        {"hot-dip galvanised", "zinc plated"},
        {"oiled stainless", "stainless, anti-seize"},
    };
    for (size_t i = 0; i < sizeof near / sizeof near[0]; i++) {
        char *copy = exact(near[i][0]);
        assert_ptr_equal(nut_factor_near(copy, strlen(near[i][0])),
                         condition(near[i][1]));
        free(copy);
    }
    assert_null(nut_factor_near("as delivered", 12));
    assert_null(nut_factor_near("soiled", 6));
    assert_null(nut_factor_near("", 0));
}

static void test_friction_and_scatter(void **state) {
    (void)state;
    size_t n = 0;
    for (; friction_at(n); n++)
        assert_true(friction_at(n)->low < friction_at(n)->high);
    assert_int_equal(n, 5);
    for (n = 0; tightening_at(n); n++) {
        const struct tightening *w = tightening_at(n);
        assert_ptr_equal(tightening_find(w->name, strlen(w->name)), w);
        assert_true(w->minus > 0 && w->minus < 1 && w->plus > 0 && w->source);
    }
    assert_int_equal(n, 13);
    assert_true(tightening_find("torque wrench", 13)->plus == 0.25);
    assert_null(tightening_find("hope", 4));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_forms_agree),
        cmocka_unit_test(test_vdi_by_hand),
        cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_targets),
        cmocka_unit_test(test_strength),
        cmocka_unit_test(test_trends),
        cmocka_unit_test(test_neither),
        cmocka_unit_test(test_outside),
        cmocka_unit_test(test_bearing),
        cmocka_unit_test(test_conditions),
        cmocka_unit_test(test_unlisted_conditions),
        cmocka_unit_test(test_friction_and_scatter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
