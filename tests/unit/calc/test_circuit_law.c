/* test_circuit_law.c - the laws of a circuit's parts against the calculations
 * of a single wire, and their beginnings. */
#include "calc/circuit_law.h"
#include "calc/conductor.h"
#include "calc/wire.h"

#include "wires.h"

/* A wire of a circuit is as warm as the same wire alone, and no wire has more
 * resistance than one that melts. */
static void test_wire(void **state) {
    (void)state;
    struct wire_run run = {
        ampacity(AMPACITY_33CFR, awg("12 AWG"), 105, 1, false)};
    const double ta = CELSIUS(40), r20 = 0.02, base = run.ampacity.amp;
    for (int m = MATERIAL_COPPER; m <= MATERIAL_ALUMINIUM; m++) {
        enum material material = (enum material)m;
        run.ampacity.use.material = material;
        struct circuit_part_law law =
            circuit_law_wire(r20, ta, run.ampacity.rated,
                             run.ampacity.reference, base, material);
        for (double i = 0; i < 3 * base; i += base / 7) {
            double in[] = {i, ta};
            double wanted = wire_calculation(WIRE_TEMPERATURE)->value(&run, in);
            assert_near(circuit_law_temperature(&law, i, ta, material), wanted,
                        1e-12);
        }
        double melts = conductor_melting(material);
        assert_near(law.figure[0],
                    r20 * conductor_ratio(material, CELSIUS(20), ta), 1e-12);
        assert_near(law.figure[2],
                    r20 * conductor_ratio(material, CELSIUS(20), melts), 1e-12);
    }
}

/* The slope that comes with a current is its derivative, on both sides of every
 * corner; the current falls back to 0 at 0 V, but for a supply. */
static void test_slopes(void **state) {
    (void)state;
    static const struct circuit_part_law laws[] = {
        {LAW_RESISTANCE, {3.3}},
        {LAW_SUPPLY, {12.6, 0.008}},
        {LAW_LIMITED, {12.6, 0.008, 20}},
        {LAW_WIRE, {0.02, 1e-4, 0.08}},
        {LAW_LAMP, {4.2, 13.2}},
        {LAW_CURRENT, {5}},
        {LAW_POWER, {60}},
        {LAW_DIODE, {LAW_DIODE_SATURATION, LAW_DIODE_SLOPE}},
    };
    static const double volts[] = {-14,  -3,  -1.2, -0.7, -0.3, -0.01,
                                   0.01, 0.3, 0.7,  1.2,  3,    14};
    for (size_t i = 0; i < sizeof laws / sizeof laws[0]; i++) {
        for (size_t k = 0; k < sizeof volts / sizeof volts[0]; k++) {
            double u = volts[k], slope, unused;
            double step = fmax(fabs(u), 1) * 1e-5;
            circuit_law_current(&laws[i], u, &slope);
            double rise = circuit_law_current(&laws[i], u + step, &unused) -
                          circuit_law_current(&laws[i], u - step, &unused);
            double wanted = rise / (2 * step);
            if (circuit_law_is_at_limit(&laws[i], u)) {
                assert_true(fabs(wanted) < 1e-9);
                wanted = LAW_LIMIT_SLOPE / laws[i].figure[1];
            }
            if (fabs(slope - wanted) > 1e-6 * fabs(wanted) + 1e-9)
                fail_msg("law %zu at %g V: %g for %g", i, u, slope, wanted);
        }
        if (!circuit_law_is_supply(laws[i].law))
            assert_true(circuit_law_current(&laws[i], 0, &(double){0}) == 0);
    }
    /* By hand: 0.02 ohm and k = 1e-4 at 1 V: I = 2/(0.02 + sqrt(0.0004 +
     * 0.0004)), 41.42 A. */
    double slope;
    assert_near(circuit_law_current(&laws[3], 1, &slope),
                2 / (0.02 + sqrt(0.0008)), 1e-12);
    /* The derivatives by a figure, against the law itself. */
    assert_near(circuit_law_moves(&laws[0], 6.6, 0), -6.6 / (3.3 * 3.3), 1e-5);
    assert_near(circuit_law_moves(&laws[6], 12, 0), 1 / 12.0, 1e-5);
    assert_near(circuit_law_moves(&laws[1], 0, 0), 1 / 0.008, 1e-5);
}

/* A 28 V charger of 20 A behind 0.1 ohm holds its voltage, then its current,
 * and is where the two meet at its knee, 26 V; backwards it takes what comes.
 */
static void test_limited(void **state) {
    (void)state;
    struct circuit_part_law p = {LAW_LIMITED, {28, 0.1, 20}};
    static const double volts[] = {30, 28, 27, 26, 24, 12, 0, -3};
    static const double amps[] = {-20, 0, 10, 20, 20, 20, 20, 20};
    double slope, before = -INFINITY;
    for (size_t i = 0; i < sizeof volts / sizeof volts[0]; i++) {
        double current = circuit_law_current(&p, -volts[i], &slope);
        assert_true(fabs(current - amps[i]) <= 1e-9);
        assert_true(current > before && slope > 0);
        before = current;
    }
    assert_near(circuit_law_current(&p, -26, &slope), 20, 1e-12);
    assert_false(circuit_law_is_at_limit(&p, -26.01));
    assert_true(circuit_law_is_at_limit(&p, -25.99));
    assert_near(circuit_law_rest(&p), -28, 1e-12);
    assert_near(circuit_law_knee(&p), 2, 1e-12);
    struct circuit_part_law plain = {LAW_SUPPLY, {28, 0.1}};
    assert_false(circuit_law_is_at_limit(&plain, 0));
    assert_near(circuit_law_rest(&plain), -28, 1e-12);
    assert_true(isinf(circuit_law_knee(&plain)));
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_wire),
                                       cmocka_unit_test(test_limited),
                                       cmocka_unit_test(test_slopes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
