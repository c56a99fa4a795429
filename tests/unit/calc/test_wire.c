/* test_wire.c - a loaded wire: balance, drop, limits, trends, fault current. */
#include "calc/conductor.h"
#include "calc/heating.h"
#include "calc/wire.h"

#include "wires.h"

static struct wire_run run_of(const char *size, double insulation_c,
                              int bundled) {
    return (struct wire_run){
        ampacity(AMPACITY_33CFR, awg(size), insulation_c, bundled, false)};
}

static double value(enum wire_result r, const void *fixed, const double *in) {
    return wire_calculation(r)->value(fixed, in);
}

static double temperature(const struct wire_run *run, double current,
                          double ambient_c) {
    double in[] = {current, CELSIUS(ambient_c)};
    return value(WIRE_TEMPERATURE, run, in) - 273.15;
}

/* What the table says is what the balance gives: at its ampacity the wire is at
 * its insulation temperature, at any ambient and with any bundle. */
static void test_balance_meets_table(void **state) {
    (void)state;
    static const double insulation[] = {60, 75, 90, 105, 125, 200};
    struct dice d = {4};
    for (int n = 0; n < SAMPLES; n++) {
        size_t i = (size_t)roll(&d, 0, 6);
        int bundled = (int)roll(&d, 1, 30);
        struct wire_run run = run_of("10 AWG", insulation[i], bundled);
        double ambient = roll(&d, 30, insulation[i] - 1);
        double limit = ampacity_at(&run.ampacity, CELSIUS(ambient));
        assert_near(temperature(&run, limit, ambient), insulation[i], 1e-9);
    }
}

/* The fixed point: rise and resistance agree with each other. */
static void test_fixed_point(void **state) {
    (void)state;
    struct wire_run run = run_of("12 AWG", 105, 4);
    struct dice d = {5};
    for (int n = 0; n < SAMPLES; n++) {
        double current = roll(&d, 0, 40), ambient = roll(&d, -40, 100);
        double t = temperature(&run, current, ambient);
        double load = current / (45 * 0.6);
        double rise = 75 * load * load * (234.5 + t) / (234.5 + 105);
        if (t < 1000)
            assert_true(fabs(t - ambient - rise) < 1e-8 * (1 + fabs(t)));
    }
    assert_near(temperature(&run, 0, 45), 45, 1e-12);
}

static void test_square_law(void **state) {
    (void)state;
    struct wire_run run = run_of("10 AWG", 105, 1);
    double in[] = {30, CELSIUS(50)};
    /* hazards: T = Ta + (Trated - Tref)(I/Ia)^2: 50 + 75/4 */
    assert_near(value(WIRE_TEMPERATURE_SQUARE, &run, in), CELSIUS(68.75),
                1e-12);
    /* 18.75 (234.5 + T)/339.5 = T - 50 by hand: T = 66.6 degC */
    assert_near(temperature(&run, 30, 50), 66.63, 1e-3);
    in[0] = 1e6;
    assert_near(value(WIRE_TEMPERATURE_SQUARE, &run, in), 1357.77, 1e-12);
}

/* Far too much current is a figure that fails a check, not a NAN. */
static void test_overload(void **state) {
    (void)state;
    struct wire_run run = run_of("18 AWG", 105, 1);
    assert_near(temperature(&run, 1000, 30), 1084.62, 1e-9);
    assert_near(temperature(&run, 42.5, 30), 1084.62, 1e-9);
    assert_true(temperature(&run, 30, 30) > 200);
    double bad[][2] = {{-1, 300}, {1, NAN},      {NAN, 300},
                       {1, 30},   {1, INFINITY}, {INFINITY, 300}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        assert_true(isnan(value(WIRE_TEMPERATURE, &run, bad[i])));
        if (bad[i][1] != 30)
            assert_true(isnan(value(WIRE_TEMPERATURE_SQUARE, &run, bad[i])));
    }
    struct ampacity_use al = {
        AMPACITY_NEC, awg("8 AWG"), MATERIAL_ALUMINIUM, CELSIUS(75), 1, false};
    struct wire_run a;
    const char *why;
    assert_true(ampacity_find(&al, &a.ampacity, &why));
    assert_near(temperature(&a, 500, 30), 660.323, 1e-9);
}

/* By hand: 30 A, 16 ft of 10 AWG stranded, 105 degC insulation, 50 degC. */
static void test_drop_by_hand(void **state) {
    (void)state;
    struct wire_run run = run_of("10 AWG", 105, 1);
    struct resistance r;
    assert_true(conductor_resistance(awg("10 AWG"), MATERIAL_COPPER, &r));
    double length = 16 * 0.3048,
           t = (50 + 18.75 / 339.5 * 234.5) / (1 - 18.75 / 339.5);
    double hot = r.nominal * length * (234.5 + t) / 254.5;
    double in[] = {30, CELSIUS(50), length, r.nominal, 0.002, 13.5};
    assert_near(value(WIRE_RESISTANCE, &run, in), hot, 1e-12);
    assert_near(value(WIRE_DROP, &run, in), 30 * (hot + 0.002), 1e-6);
    assert_near(value(WIRE_DROP_SHARE, &run, in), 30 * (hot + 0.002) / 13.5,
                1e-6);
    assert_near(value(WIRE_HEAT, &run, in), 900 * hot, 1e-6);
    double metre[] = {30, CELSIUS(50), r.nominal};
    assert_near(value(WIRE_HEAT_PER_METRE, &run, metre), 900 * hot / length,
                1e-6);
    double load[] = {13.5, 30, CELSIUS(50), length, r.nominal, 0.002};
    assert_near(value(WIRE_LOAD_VOLTAGE, &run, load), 13.5 - 30 * (hot + 0.002),
                1e-6);
    double longest[] = {30 * (hot + 0.002), 30, CELSIUS(50), r.nominal, 0.002};
    assert_near(value(WIRE_LONGEST, &run, longest), length, 1e-6);
    longest[0] = 0.05; /* the joints alone drop 0.06 V */
    assert_true(value(WIRE_LONGEST, &run, longest) == 0);
}

/* At the temperature that the balance gives, the same as by the balance. */
static void test_at_a_temperature(void **state) {
    (void)state;
    struct wire_run run = run_of("2 AWG", 105, 1);
    enum material copper = MATERIAL_COPPER;
    double steady[] = {150, CELSIUS(40), 3, 5.4e-4, 0.001};
    double at[] = {150, temperature(&run, 150, 40), 3, 5.4e-4, 0.001};
    at[1] += 273.15;
    assert_near(value(WIRE_DROP_AT, &copper, at),
                value(WIRE_DROP, &run, steady), 1e-12);
    assert_near(value(WIRE_HEAT_AT, &copper, at),
                value(WIRE_HEAT, &run, steady), 1e-12);
    assert_near(value(WIRE_RESISTANCE_AT, &copper, at + 1),
                value(WIRE_RESISTANCE, &run, steady), 1e-12);
    for (int i = 0; i < 5; i++) {
        double bad[] = {150, CELSIUS(60), 3, 5.4e-4, 0.001};
        bad[i] = i == 1 ? NAN : -1;
        assert_true(isnan(value(WIRE_DROP_AT, &copper, bad)));
        assert_int_equal(isnan(value(WIRE_HEAT_AT, &copper, bad)), i < 4);
    }
}

static void test_outside(void **state) {
    (void)state;
    struct wire_run run = run_of("10 AWG", 105, 1);
    static const enum wire_result of[] = {WIRE_RESISTANCE, WIRE_DROP,
                                          WIRE_DROP_SHARE, WIRE_HEAT};
    for (size_t i = 0; i < 4; i++) {
        size_t count = wire_calculation(of[i])->input_count;
        for (size_t k = 0; k < count; k++) {
            double in[] = {30, CELSIUS(50), 5, 0.003, 0, 13.5};
            in[k] = k == 1 ? 20 : -1; /* 20 K is below copper's zero point */
            assert_true(isnan(value(of[i], &run, in)));
            in[k] = NAN;
            assert_true(isnan(value(of[i], &run, in)));
        }
    }
    double zero[] = {30, CELSIUS(50), 5, 0.003, 0, 0};
    assert_true(isnan(value(WIRE_DROP_SHARE, &run, zero)));
    double dead[] = {0.5, 0, CELSIUS(50), 0.003, 0};
    assert_true(isnan(value(WIRE_LONGEST, &run, dead)));
    double perfect[] = {0.5, 1, CELSIUS(50), 0, 0};
    assert_true(isnan(value(WIRE_LONGEST, &run, perfect)));
    double joints[] = {0.5, 1, CELSIUS(50), 0.003, -1};
    assert_true(isnan(value(WIRE_LONGEST, &run, joints)));
    double drop[] = {-0.5, 1, CELSIUS(50), 0.003, 0};
    assert_true(isnan(value(WIRE_LONGEST, &run, drop)));
    double no_ambient[] = {NAN};
    assert_true(isnan(value(WIRE_AMPACITY, &run, no_ambient)));
}

static void test_trends(void **state) {
    (void)state;
    struct wire_run run = run_of("14 AWG", 105, 7);
    struct bounds current = {0, 60}, ambient = {CELSIUS(-40), CELSIUS(120)},
                  length = {0, 50}, r = {1e-5, 0.02}, joints = {0, 0.05},
                  supply = {6, 60};
    struct bounds b[] = {current, ambient, length, r, joints, supply};
    assert_trends(wire_calculation(WIRE_AMPACITY), &run, &ambient, 6);
    assert_trends(wire_calculation(WIRE_TEMPERATURE), &run, b, 7);
    assert_trends(wire_calculation(WIRE_TEMPERATURE_SQUARE), &run, b, 8);
    assert_trends(wire_calculation(WIRE_RESISTANCE), &run, b, 9);
    assert_trends(wire_calculation(WIRE_DROP), &run, b, 10);
    assert_trends(wire_calculation(WIRE_DROP_SHARE), &run, b, 11);
    assert_trends(wire_calculation(WIRE_HEAT), &run, b, 12);
    struct bounds metre[] = {current, ambient, r};
    assert_trends(wire_calculation(WIRE_HEAT_PER_METRE), &run, metre, 13);
    struct bounds load[] = {supply, current, ambient, length, r, joints};
    assert_trends(wire_calculation(WIRE_LOAD_VOLTAGE), &run, load, 14);
    struct bounds longest[] = {{0, 3}, {0.1, 60}, ambient, r, joints};
    assert_trends(wire_calculation(WIRE_LONGEST), &run, longest, 15);
    enum material copper = MATERIAL_COPPER;
    struct bounds fault[] = {supply, {1e-3, 0.02}, r, length, ambient, joints};
    assert_trends(wire_calculation(WIRE_FAULT), &copper, fault, 16);
    struct bounds at[] = {current, ambient, length, r, joints};
    assert_trends(wire_calculation(WIRE_RESISTANCE_AT), &copper, at + 1, 17);
    assert_trends(wire_calculation(WIRE_DROP_AT), &copper, at, 18);
    assert_trends(wire_calculation(WIRE_HEAT_AT), &copper, at, 19);
}

/* Worked case of the hazard catalogue (our own arithmetic): 20 ft of loop,
 * solid copper at 20 degC, on a 12.6 V battery of 5 mohm: 95, 227, 504 A. */
static void test_fault(void **state) {
    (void)state;
    static const struct {
        const char *size;
        double amp;
    } row[] = {{"18 AWG", 95}, {"14 AWG", 227}, {"10 AWG", 504}};
    enum material copper = MATERIAL_COPPER;
    for (size_t i = 0; i < 3; i++) {
        struct resistance r;
        conductor_resistance(wire(row[i].size, WIRE_AWG_SOLID), copper, &r);
        double in[] = {12.6, 0.005, r.nominal, 20 * 0.3048, CELSIUS(20), 0};
        assert_near(value(WIRE_FAULT, &copper, in), row[i].amp, 5e-3);
        double hot[] = {12.6,        0.005,        r.nominal,
                        20 * 0.3048, CELSIUS(105), 0.004};
        double loop = r.nominal * 20 * 0.3048 * 339.5 / 254.5;
        assert_near(value(WIRE_FAULT, &copper, hot), 12.6 / (0.009 + loop),
                    1e-12);
    }
    double nothing[] = {12.6, 0, 0, 1, CELSIUS(20), 0};
    assert_true(isnan(value(WIRE_FAULT, &copper, nothing)));
    for (int k = 0; k < 6; k++) {
        double in[] = {12.6, 0.005, 0.003, 6, CELSIUS(20), 0};
        in[k] = k == 4 ? 10 : -1e-4;
        assert_true(isnan(value(WIRE_FAULT, &copper, in)));
    }
}

/* The transient meets the adiabatic law when short, the balance when long. */
static void test_time(void **state) {
    (void)state;
    struct wire_run run = run_of("10 AWG", 105, 1);
    struct heated heated = {awg("10 AWG"), MATERIAL_COPPER};
    double ti = CELSIUS(30), ta = CELSIUS(30), tf = CELSIUS(160);
    double in[] = {3000, ti, tf};
    double adiabatic = heating_calculation(HEATING_TIME)->value(&heated, in);
    assert_near(wire_time(&run, 3000, ti, ta, tf), adiabatic, 1e-3);
    double last = INFINITY;
    for (double current = 1; current < 3000; current *= 1.01) {
        double t = wire_time(&run, current, ti, ta, tf);
        double settled = temperature(&run, current, 30);
        assert_true(isinf(t) == (settled <= 160));
        assert_true(t <= last && t > 0);
        last = t;
        in[0] = current;
        assert_true(t >= heating_calculation(HEATING_TIME)->value(&heated, in));
    }
    /* Euler's method on the same equation, for one case. */
    double t = 30, cs = 226e6 * awg("10 AWG")->area;
    double loss = 60 / cs * (60 / cs) * 339.5 / 75, step = 0.001;
    double clock = 0;
    while (t < 160) {
        t += step * (100 / cs * (100 / cs) * (234.5 + t) - loss * (t - 30));
        clock += step;
    }
    assert_near(wire_time(&run, 100, ti, ta, tf), clock, 1e-3);
    for (t = 70, clock = 0; t < 150; clock += step)
        t += step * (90 / cs * (90 / cs) * (234.5 + t) - loss * (t - 45));
    assert_near(wire_time(&run, 90, CELSIUS(70), CELSIUS(45), CELSIUS(150)),
                clock, 1e-3);
    assert_true(wire_time(&run, 100, tf, ta, tf) == 0);
    assert_true(wire_time(&run, 100, CELSIUS(170), ta, tf) == 0);
    assert_true(isnan(wire_time(&run, -1, ti, ta, tf)));
    assert_true(isnan(wire_time(&run, 1, 1, ta, tf)));
    assert_true(isnan(wire_time(&run, 1, ti, 1, tf)));
    assert_true(isnan(wire_time(&run, 1, ti, ta, NAN)));
    /* Where gain and loss change alike the equation is a straight line. */
    double even = sqrt(loss) * cs;
    assert_near(wire_time(&run, even, ti, ta, tf),
                wire_time(&run, even * (1 + 1e-6), ti, ta, tf), 1e-4);
}

/* Common practice, no source: a cab blower motor may draw 30 A; 18 or 16 AWG is
 * refused, 8 AWG out and back passes with margin. */
static void test_blower(void **state) {
    (void)state;
    static const struct {
        const char *size;
        bool passes;
    } row[] = {{"18 AWG", false}, {"16 AWG", false}, {"8 AWG", true}};
    for (size_t i = 0; i < 3; i++) {
        struct wire_run run = run_of(row[i].size, 105, 1);
        struct resistance r;
        conductor_resistance(awg(row[i].size), MATERIAL_COPPER, &r);
        double in[] = {30, CELSIUS(45), 6, r.most, 0.004};
        bool carries = ampacity_at(&run.ampacity, CELSIUS(45)) >= 30;
        bool drops_little = value(WIRE_DROP, &run, in) <= 0.10 * 13.5;
        assert_true((carries && drops_little) == row[i].passes);
        if (row[i].passes)
            assert_true(ampacity_at(&run.ampacity, CELSIUS(45)) > 2 * 30);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_balance_meets_table),
        cmocka_unit_test(test_fixed_point),
        cmocka_unit_test(test_square_law),
        cmocka_unit_test(test_overload),
        cmocka_unit_test(test_drop_by_hand),
        cmocka_unit_test(test_at_a_temperature),
        cmocka_unit_test(test_outside),
        cmocka_unit_test(test_trends),
        cmocka_unit_test(test_fault),
        cmocka_unit_test(test_time),
        cmocka_unit_test(test_blower),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
