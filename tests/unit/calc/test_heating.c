/* test_heating.c - short currents: adiabatic law, melting currents. */
#include "calc/heating.h"

#include "wires.h"

static double value(enum heating_result r, const struct heated *h,
                    const double *in) {
    return heating_calculation(r)->value(h, in);
}

/* IEC 60949: 226 and 148 A s^0.5/mm2. */
static void test_capacity(void **state) {
    (void)state;
    assert_true(heating_capacity(MATERIAL_COPPER) == 226e6);
    assert_true(heating_capacity(MATERIAL_TINNED) == 226e6);
    assert_true(heating_capacity(MATERIAL_ALUMINIUM) == 148e6);
    /* k = 115 of IEC 60364-4-43 Table 43A, PVC 70 (from memory). */
    assert_near(heating_k(MATERIAL_COPPER, CELSIUS(70), CELSIUS(160)), 115e6,
                2e-3);
    double ti = CELSIUS(70);
    assert_true(isnan(heating_k(MATERIAL_COPPER, ti, ti)));
    assert_true(isnan(heating_k(MATERIAL_COPPER, ti, CELSIUS(60))));
    assert_true(isnan(heating_k(MATERIAL_COPPER, 30, ti)));
    assert_true(isnan(heating_k(MATERIAL_COPPER, ti, INFINITY)));
}

static void test_insulations(void **state) {
    (void)state;
    const struct insulation *k;
    size_t n = 0;
    for (; (k = insulation_at(n)) != NULL; n++) {
        assert_ptr_equal(insulation_find(k->name, strlen(k->name)), k);
        assert_true(k->limit > k->rated);
    }
    assert_int_equal(n, 8);
    assert_null(insulation_find("paper", 5));
    static const struct {
        double rated;
        const char *name;
    } row[] = {{60, "rubber 60"}, {70, "PVC 70"},    {75, "PVC 70"},
               {80, "PVC 70"},    {85, "rubber 85"}, {90, "PVC 90"},
               {105, "PVC 105"},  {125, "XLPE 125"}, {150, "XLPE 125"},
               {200, "XLPE 125"}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_string_equal(insulation_rated(CELSIUS(row[i].rated))->name,
                            row[i].name);
    assert_null(insulation_rated(CELSIUS(40)));
}

/* The forms of one law agree: the current that does it in t takes t, and ends
 * where it should. */
static void test_one_law(void **state) {
    (void)state;
    struct dice d = {20};
    for (int n = 0; n < SAMPLES; n++) {
        struct heated h = {awg("12 AWG"),
                           n % 2 ? MATERIAL_COPPER : MATERIAL_ALUMINIUM};
        double ti = CELSIUS(roll(&d, -40, 100));
        double tf = ti + roll(&d, 5, 300);
        double t = roll_log(&d, 0.01, 5);
        double by_time[] = {t, ti, tf};
        double current = value(HEATING_CURRENT, &h, by_time);
        double by_current[] = {current, ti, tf};
        assert_near(value(HEATING_TIME, &h, by_current), t, 1e-9);
        double end[] = {current, t, ti};
        assert_near(value(HEATING_TEMPERATURE, &h, end), tf, 1e-9);
    }
}

/* By hand: k = 87.57 from 105 to 160 degC; 2.08 mm2 at 90 A. */
static void test_by_hand(void **state) {
    (void)state;
    struct heated h = {awg("14 AWG"), MATERIAL_COPPER};
    double in[] = {90, CELSIUS(105), CELSIUS(160)};
    assert_near(value(HEATING_TIME, &h, in),
                87.57 * 87.57 * 2.0809 * 2.0809 / 8100, 1e-3);
    double long_one[] = {90, 1e6, CELSIUS(20)};
    assert_near(value(HEATING_TEMPERATURE, &h, long_one), 1357.77, 1e-12);
    double zero[] = {0, 10, CELSIUS(20)};
    assert_near(value(HEATING_TEMPERATURE, &h, zero), CELSIUS(20), 1e-12);
}

static void test_outside(void **state) {
    (void)state;
    struct heated h = {awg("14 AWG"), MATERIAL_COPPER};
    double still[] = {0, CELSIUS(20), CELSIUS(30)};
    assert_true(isnan(value(HEATING_TIME, &h, still)));
    assert_true(isnan(value(HEATING_CURRENT, &h, still)));
    double back[] = {-1, 1, CELSIUS(20)};
    assert_true(isnan(value(HEATING_TEMPERATURE, &h, back)));
    double before[] = {1, -1, CELSIUS(20)};
    assert_true(isnan(value(HEATING_TEMPERATURE, &h, before)));
    double cold[] = {1, 1, 30};
    assert_true(isnan(value(HEATING_TEMPERATURE, &h, cold)));
    double zero_time[] = {0, CELSIUS(25)};
    assert_true(isnan(value(HEATING_ONDERDONK, &h, zero_time)));
    double molten[] = {1, CELSIUS(1083)};
    assert_true(isnan(value(HEATING_ONDERDONK, &h, molten)));
    double frozen[] = {1, CELSIUS(-234)};
    assert_true(isnan(value(HEATING_ONDERDONK, &h, frozen)));
    h.material = MATERIAL_ALUMINIUM;
    double one[] = {1, CELSIUS(25)};
    assert_true(isnan(value(HEATING_ONDERDONK, &h, one)));
}

/* The worked case of the hazard catalogue: 95 A in 18 AWG to 150 degC by
 * Onderdonk's law takes about 1.3 s from 20 degC. Adiabatic by IEC: the same.
 */
static void test_hazard_case(void **state) {
    (void)state;
    struct heated h = {wire("18 AWG", WIRE_AWG_SOLID), MATERIAL_COPPER};
    double in[] = {95, CELSIUS(20), CELSIUS(150)};
    assert_near(value(HEATING_TIME, &h, in), 1.5, 0.15);
}

static void test_trends(void **state) {
    (void)state;
    struct heated h = {awg("8 AWG"), MATERIAL_COPPER};
    struct bounds current = {1, 5000}, start = {CELSIUS(-40), CELSIUS(100)},
                  end = {CELSIUS(101), CELSIUS(350)}, time = {0.01, 5};
    struct bounds a[] = {current, start, end};
    assert_trends(heating_calculation(HEATING_TIME), &h, a, 21);
    struct bounds b[] = {time, start, end};
    assert_trends(heating_calculation(HEATING_CURRENT), &h, b, 22);
    struct bounds c[] = {{0, 5000}, {0, 5}, start};
    assert_trends(heating_calculation(HEATING_TEMPERATURE), &h, c, 23);
    struct bounds e[] = {time, start};
    assert_trends(heating_calculation(HEATING_ONDERDONK), &h, e, 24);
    assert_described(heating_calculation(HEATING_PREECE));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_capacity), cmocka_unit_test(test_insulations),
        cmocka_unit_test(test_one_law),  cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_outside),  cmocka_unit_test(test_hazard_case),
        cmocka_unit_test(test_trends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
