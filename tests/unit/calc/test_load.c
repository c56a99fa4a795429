/* test_load.c - the current of a load at another voltage. */
#include "calc/circuit_law.h"
#include "calc/load.h"

#include "check.h"

static double at(enum load_kind kind, double amp, double volt, double now) {
    const double in[] = {amp, volt, now};
    return load_calculation(kind)->value(NULL, in);
}

/* By hand: 6 A at 12 V are 2 ohm, 7 A at 14 V; 72 W are 5.142857 A at 14 V. */
static void test_by_hand(void **state) {
    (void)state;
    assert_near(at(LOAD_RESISTIVE, 6, 12, 14), 7, 1e-14);
    assert_near(at(LOAD_POWER, 6, 12, 14), 72.0 / 14, 1e-14);
    assert_near(at(LOAD_LAMP, 6, 12, 12), 6, 1e-14);
    /* A lamp draws between a resistance and a constant current. */
    assert_true(at(LOAD_LAMP, 6, 12, 14) > 6);
    assert_true(at(LOAD_LAMP, 6, 12, 14) < 7);
    assert_null(load_calculation(LOAD_LEVEL));
}

/* The circuit, which solves the same loads, must agree. */
static void test_like_the_circuit(void **state) {
    (void)state;
    static const struct {
        enum load_kind kind;
        struct circuit_part_law law;
    } one[] = {{LOAD_RESISTIVE, {LAW_RESISTANCE, {13.2 / 8.8, 0, 0}}},
               {LOAD_LAMP, {LAW_LAMP, {8.8, 13.2, 0}}},
               {LOAD_POWER, {LAW_POWER, {8.8 * 13.2, 0, 0}}}};
    double slope;
    for (size_t i = 0; i < 3; i++)
        for (double u = 9; u < 16; u += 0.1)
            assert_near(at(one[i].kind, 8.8, 13.2, u),
                        circuit_law_current(&one[i].law, u, &slope), 1e-12);
}

static void test_trends(void **state) {
    (void)state;
    const struct bounds b[] = {{0, 200}, {1, 30}, {1, 30}};
    for (int kind = LOAD_RESISTIVE; kind < LOAD_LEVEL; kind++) {
        const struct calculation *c = load_calculation((enum load_kind)kind);
        assert_described(c);
        assert_trends(c, NULL, b, (uint64_t)(80 + kind));
        assert_true(isnan(at((enum load_kind)kind, 5, 0, 12)));
        assert_true(isnan(at((enum load_kind)kind, 5, 12, 0)));
        assert_true(isnan(at((enum load_kind)kind, -1, 12, 12)));
    }
}

static void test_kinds(void **state) {
    (void)state;
    assert_int_equal(load_kind_find("heater", 6), LOAD_RESISTIVE);
    assert_int_equal(load_kind_find("resistive", 9), LOAD_RESISTIVE);
    assert_int_equal(load_kind_find("lamp", 4), LOAD_LAMP);
    assert_int_equal(load_kind_find("constant power", 14), LOAD_POWER);
    assert_int_equal(load_kind_find("constant current", 16), LOAD_LEVEL);
    assert_int_equal(load_kind_find("motor", 5), LOAD_LEVEL);
    assert_int_equal(load_kind_find("lam", 3), LOAD_LEVEL);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_like_the_circuit),
        cmocka_unit_test(test_trends),
        cmocka_unit_test(test_kinds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
