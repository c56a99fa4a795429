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

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_wire)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
