/* test_constants.c - the figures that stand behind a formula on the page are
 * enough to follow it by hand: put into the formula as it is printed they give
 * the result of the library. */
#include "calc/heating.h"
#include "calc/strip.h"
#include "calc/wire.h"

#include "joints.h"
#include "wires.h"

#define PI 3.14159265358979323846

struct shown {
    struct calculation_constant list[CALCULATION_CONSTANTS];
    size_t count;
};

static struct shown shown_by(const struct calculation *c, const void *fixed) {
    struct shown s;
    assert_non_null(c->constants);
    s.count = c->constants(fixed, s.list);
    assert_true(s.count > 0 && s.count <= CALCULATION_CONSTANTS);
    return s;
}

static double of(const struct shown *s, const char *name) {
    for (size_t i = 0; i < s->count; i++)
        if (strcmp(s->list[i].name, name) == 0)
            return s->list[i].value;
    fail_msg("no constant '%s'", name);
    return NAN;
}

/* 10 AWG, 105 degC, three bundled, in 50 degC outside and inside the engine
 * space: by hand 60 A x 0.7 x min(sqrt(55/75), 0.85). */
static void test_ampacity(void **state) {
    (void)state;
    for (int engine = 0; engine < 2; engine++) {
        struct wire_run run = {
            ampacity(AMPACITY_33CFR, awg("10 AWG"), 105, 3, engine)};
        const struct calculation *c = wire_calculation(WIRE_AMPACITY);
        struct shown s = shown_by(c, &run);
        double ta = CELSIUS(50);
        double root =
            sqrt((of(&s, "Tc") - ta) / (of(&s, "Tc") - of(&s, "Tref")));
        if (engine)
            root = fmin(root, of(&s, "engine space"));
        double wanted = of(&s, "table") * of(&s, "bundle") * root;
        assert_near(c->value(&run, &ta), wanted, 1e-12);
        assert_near(wanted, 60 * 0.7 * (engine ? 0.85 : sqrt(55.0 / 75)), 1e-9);
        assert_int_equal(s.count, engine ? 5 : 4);
    }
}

/* The balance holds with the temperature that the library finds. */
static void test_loaded_wire(void **state) {
    (void)state;
    struct wire_run run = {
        ampacity(AMPACITY_33CFR, awg("12 AWG"), 105, 4, false)};
    const struct calculation *c = wire_calculation(WIRE_TEMPERATURE);
    struct shown s = shown_by(c, &run);
    double in[] = {18, CELSIUS(40), 6, 5.3e-3, 2e-3};
    double t = c->value(&run, in), b = of(&s, "b") - 273.15;
    double share = in[0] / of(&s, "I0");
    double rise = (of(&s, "Tc") - of(&s, "Tref")) * share * share * (b + t) /
                  (b + of(&s, "Tc"));
    assert_near(t - in[1], rise, 1e-9);
    double hot = in[2] * in[3] * (b + t) / (b + CELSIUS(20));
    assert_near(wire_calculation(WIRE_RESISTANCE)->value(&run, in), hot, 1e-9);
    assert_near(wire_calculation(WIRE_DROP)->value(&run, in),
                in[0] * (hot + in[4]), 1e-9);
    assert_near(wire_calculation(WIRE_HEAT)->value(&run, in),
                in[0] * in[0] * hot, 1e-9);
    static const enum wire_result all[] = {
        WIRE_TEMPERATURE_SQUARE, WIRE_RESISTANCE,   WIRE_DROP,
        WIRE_DROP_SHARE,         WIRE_LOAD_VOLTAGE, WIRE_HEAT,
        WIRE_HEAT_PER_METRE,     WIRE_LONGEST};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        struct shown one = shown_by(wire_calculation(all[i]), &run);
        assert_int_equal(one.count, 4);
        assert_true(of(&one, "I0") == of(&s, "I0"));
    }
}

static void test_fault_and_heating(void **state) {
    (void)state;
    enum material m = MATERIAL_COPPER;
    const struct calculation *c = wire_calculation(WIRE_FAULT);
    struct shown s = shown_by(c, &m);
    double in[] = {12.8, 5e-3, 3.3e-3, 6, CELSIUS(105), 5e-3};
    double b = of(&s, "b") - 273.15;
    double loop = in[2] * in[3] * (b + in[4]) / (b + CELSIUS(20));
    assert_near(c->value(&m, in), in[0] / (in[1] + loop + in[5]), 1e-12);
    assert_int_equal(s.count, 1);

    struct heated h = {awg("4 AWG"), MATERIAL_COPPER};
    c = heating_calculation(HEATING_TEMPERATURE);
    s = shown_by(c, &h);
    double heat[] = {600, 4, CELSIUS(30)};
    double x = heat[0] / of(&s, "C * S");
    b = of(&s, "b") - 273.15;
    assert_near(c->value(&h, heat), (b + heat[2]) * exp(x * x * heat[1]) - b,
                1e-12);
    assert_int_equal(s.count, 2);
}

static void test_torque(void **state) {
    (void)state;
    static const double part[TARGETS] = {0.75, 0.9, 0.9, 0.7};
    for (int t = 0; t < TARGETS; t++) {
        struct torque_joint j =
            joint_of("M8 x 1.25", "8.8", (enum preload_target)t);
        const struct calculation *c = torque_calculation(PRELOAD_TARGET);
        struct shown s = shown_by(c, &j);
        double mu = 0.12, f = of(&s, "share") * of(&s, "As") * of(&s, "stress");
        if (t == TARGET_90_YIELD) {
            double d2 = of(&s, "d2"),
                   twist = 1.5 * d2 / of(&s, "d0") *
                           (of(&s, "P") / (PI * d2) + 1.155 * mu);
            f /= sqrt(1 + 3 * twist * twist);
        }
        assert_true(of(&s, "share") == part[t]);
        assert_int_equal(s.count, t == TARGET_90_YIELD ? 6 : 3);
        assert_near(c->value(&j, &mu), f, 1e-12);
    }
    struct torque_joint j = joint_of("M8 x 1.25", "8.8", TARGET_75_PROOF);
    struct shown s = shown_by(torque_calculation(TORQUE_SHORT), &j);
    double in[] = {0.2, 16000};
    assert_near(torque_value(TORQUE_SHORT, &j, in), 0.2 * 16000 * of(&s, "d"),
                1e-12);
    assert_true(of(&s, "d") == 0.008);
    s = shown_by(torque_calculation(PRELOAD_SHORT), &j);
    assert_true(of(&s, "d") == 0.008);
    double friction[] = {16000, 0.12, 0.14};
    s = shown_by(torque_calculation(TORQUE_LONG), &j);
    assert_near(torque_value(TORQUE_LONG, &j, friction),
                16000 * (0.16 * of(&s, "P") + 0.58 * 0.12 * of(&s, "d2") +
                         0.14 * of(&s, "Dkm") / 2),
                1e-12);
    assert_int_equal(s.count, 3);
    s = shown_by(torque_calculation(PROOF_LOAD), &j);
    assert_near(torque_value(PROOF_LOAD, &j, NULL), of(&s, "As") * of(&s, "Sp"),
                1e-12);
    s = shown_by(torque_calculation(TENSILE_LOAD), &j);
    assert_near(torque_value(TENSILE_LOAD, &j, NULL),
                of(&s, "As") * of(&s, "Rm"), 1e-12);
    assert_int_equal(s.count, 2);
    s = shown_by(torque_calculation(YIELD_LOAD), &j);
    assert_near(torque_value(YIELD_LOAD, &j, NULL), of(&s, "As") * of(&s, "Re"),
                1e-12);
}

static void test_strip(void **state) {
    (void)state;
    struct engagement e = {thread_of("M8"), 800e6, 130e6};
    const struct calculation *c = strip_calculation(STRIP_HOLE);
    struct shown s = shown_by(c, &e);
    double length = 0.016;
    assert_near(c->value(&e, &length), of(&s, "ASn") * length * of(&s, "tau"),
                1e-12);
    assert_int_equal(s.count, 2);
    e.thread = (struct thread){.diameter = 0.0081, .pitch = 0.00125};
    assert_true(isnan(c->value(&e, &length)) ==
                (c->constants(&e, s.list) == 0));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ampacity),
        cmocka_unit_test(test_loaded_wire),
        cmocka_unit_test(test_fault_and_heating),
        cmocka_unit_test(test_torque),
        cmocka_unit_test(test_strip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
