/* test_conductor.c - resistance of a metre of wire. Published tables are
 * compared row by row in test_reference.c. */
#include "calc/conductor.h"

#include "wires.h"

static struct resistance of(const struct wire_size *s, enum material m) {
    struct resistance r;
    if (!conductor_resistance(s, m, &r))
        fail_msg("%s: no resistance", s->name);
    return r;
}

static void test_materials(void **state) {
    (void)state;
    for (int m = 0; m < MATERIALS; m++) {
        const char *name = material_name((enum material)m);
        enum material found = MATERIALS;
        assert_true(material_find(name, strlen(name), &found));
        assert_int_equal(found, m);
    }
    enum material metal = MATERIALS, none;
    assert_true(material_find("Aluminum", 8, &metal));
    assert_int_equal(metal, MATERIAL_ALUMINIUM);
    assert_false(material_find("alumnium", 8, &none));
    assert_false(material_find("iron", 4, &none));
    /* IEC 60028; IEC 60364-5-54; ITS-90 */
    assert_near(conductor_resistivity(MATERIAL_COPPER), 0.017241379e-6, 1e-7);
    assert_near(conductor_resistivity(MATERIAL_TINNED), 0.017241379e-6, 1e-7);
    assert_near(conductor_resistivity(MATERIAL_ALUMINIUM), 0.028264e-6, 1e-12);
    assert_true(conductor_beta(MATERIAL_COPPER) == 234.5);
    assert_true(conductor_beta(MATERIAL_TINNED) == 234.5);
    assert_true(conductor_beta(MATERIAL_ALUMINIUM) == 228);
    assert_near(conductor_melting(MATERIAL_COPPER), CELSIUS(1084.62), 1e-9);
    assert_near(conductor_melting(MATERIAL_TINNED), CELSIUS(1084.62), 1e-9);
    assert_near(conductor_melting(MATERIAL_ALUMINIUM), CELSIUS(660.323), 1e-9);
}

static void test_nominal_to_most(void **state) {
    (void)state;
    for (int y = 0; y < WIRE_SYSTEMS; y++) {
        const struct wire_size *s;
        for (size_t i = 0; (s = size_at((enum wire_system)y, i)); i++) {
            for (int m = 0; m < MATERIALS; m++) {
                struct resistance r;
                if (!conductor_resistance(s, (enum material)m, &r))
                    continue;
                assert_true(r.nominal > 0 && r.most >= r.nominal);
                assert_true(r.most <= r.nominal * 1.4);
                assert_non_null(r.source);
                if (!isnan(s->most[m]))
                    assert_true(r.most == s->most[m]);
            }
        }
    }
    /* Lay: stranded AWG 2 % above solid of the same area. */
    struct resistance solid = of(wire("10 AWG", WIRE_AWG_SOLID), 0);
    struct resistance stranded = of(awg("10 AWG"), MATERIAL_COPPER);
    assert_near(stranded.nominal, solid.nominal * 1.02, 1e-14);
    assert_true(solid.most == solid.nominal && solid.lay == 1);
    assert_true(stranded.most == stranded.nominal && stranded.lay == 1.02);
    /* 1/58 ohm mm2/m over 5.2612 mm2. */
    assert_near(solid.nominal, 1 / (58 * 5.26115), 1e-3);
    /* SAE 10 has 10 % less copper than 10 AWG: C01 of the contradictions. */
    assert_near(of(wire("SAE 10", WIRE_SAE), 0).nominal / stranded.nominal,
                10383.0 / 9343, 1e-4);
    /* From memory: ASTM B33, 94.16 % conductivity. */
    assert_near(of(wire("SAE 10", WIRE_SAE), MATERIAL_TINNED).most,
                of(wire("SAE 10", WIRE_SAE), 0).most / 0.9416, 1e-12);
    assert_near(of(wire("6 mm", WIRE_AU), 0).nominal, 1.02 / (58 * 4.59), 1e-9);
}

static void test_not_made(void **state) {
    (void)state;
    struct resistance r;
    assert_false(conductor_resistance(wire("2.5 mm2", WIRE_CLASS5),
                                      MATERIAL_ALUMINIUM, &r));
    assert_false(conductor_resistance(wire("6 mm2", WIRE_CLASS2),
                                      MATERIAL_ALUMINIUM, &r));
    assert_true(conductor_resistance(wire("10 mm2", WIRE_CLASS2),
                                     MATERIAL_ALUMINIUM, &r));
    assert_false(
        conductor_resistance(wire("SAE 10", WIRE_SAE), MATERIAL_ALUMINIUM, &r));
    assert_false(conductor_resistance(wire("2.5 mm2", WIRE_ISO6722),
                                      MATERIAL_TINNED, &r));
    assert_false(
        conductor_resistance(wire("AV 3", WIRE_JIS), MATERIAL_TINNED, &r));
    assert_true(conductor_resistance(awg("10 AWG"), MATERIAL_ALUMINIUM, &r));
}

/* Source: FAA AC 43.13-1B p. 11-22; electrical reference 11d_peukert_and_heat:
 * 1.216 to 75 degC, 1.334 to 105 degC, 0.843 to -20 degC. */
static void test_temperature(void **state) {
    (void)state;
    assert_near(conductor_ratio(MATERIAL_COPPER, CELSIUS(20), CELSIUS(75)),
                309.5 / 254.5, 1e-12);
    assert_near(conductor_ratio(MATERIAL_COPPER, CELSIUS(20), CELSIUS(105)),
                1.334, 4e-4);
    assert_near(conductor_ratio(MATERIAL_COPPER, CELSIUS(20), CELSIUS(-20)),
                0.843, 4e-4);
    assert_near(conductor_ratio(MATERIAL_ALUMINIUM, CELSIUS(20), CELSIUS(75)),
                303.0 / 248, 1e-12);
    assert_true(
        isnan(conductor_ratio(MATERIAL_COPPER, CELSIUS(-234.5), CELSIUS(20))));
    assert_true(
        isnan(conductor_ratio(MATERIAL_COPPER, CELSIUS(20), CELSIUS(-240))));
    assert_true(isnan(conductor_ratio(MATERIAL_COPPER, NAN, CELSIUS(20))));
    assert_true(conductor_ratio(MATERIAL_COPPER, CELSIUS(20), CELSIUS(-234.4)) >
                0);
}

static void test_calculation(void **state) {
    (void)state;
    const struct calculation *c = conductor_calculation(CONDUCTOR_RESISTANCE);
    static const enum material metal[] = {MATERIAL_COPPER, MATERIAL_ALUMINIUM};
    struct bounds b[] = {{0, 0.1}, {0, 100}, {CELSIUS(-60), CELSIUS(200)}};
    for (size_t i = 0; i < 2; i++)
        assert_trends(c, &metal[i], b, 3 + i);
    double in[] = {0.01, 5, CELSIUS(75)};
    assert_near(c->value(&metal[0], in), 0.05 * 309.5 / 254.5, 1e-12);
    double bad[] = {-0.01, 5, CELSIUS(75)};
    assert_true(isnan(c->value(&metal[0], bad)));
    double short_one[] = {0.01, -5, CELSIUS(75)};
    assert_true(isnan(c->value(&metal[0], short_one)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_materials),
        cmocka_unit_test(test_nominal_to_most),
        cmocka_unit_test(test_not_made),
        cmocka_unit_test(test_temperature),
        cmocka_unit_test(test_calculation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
