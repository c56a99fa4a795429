/* test_unit.c - units and dimensions: spellings, exact factors, composing. */
#include "calc/rounding.h"
#include "calc/unit.h"

#include "check.h"

static const struct unit *find(const char *spelling) {
    char *copy = exact(spelling);
    const struct unit *u = unit_find(copy, strlen(spelling));
    free(copy);
    return u;
}

static const struct unit *unit(const char *spelling) {
    const struct unit *u = find(spelling);
    if (!u)
        fail_msg("no unit '%s'", spelling);
    return u;
}

/* Letters of every length, to the edges of what is kept of a spelling. */
static void test_long_spellings(void **state) {
    (void)state;
    char text[64] = "";
    for (size_t n = 1; n + 1 < sizeof text; n++) {
        strcat(text, "z");
        assert_null(find(text));
    }
}

static void assert_is(const char *spelling, const char *name) {
    assert_string_equal(unit(spelling)->name, name);
}

/* The spellings that the trade writes, straight from manuals and shop talk:
 * common practice, no source. */
static void test_spellings(void **state) {
    (void)state;
    static const char *const same[][2] = {
        {"N·m", "N.m"},        {"N⋅m", "N.m"},
        {"Nm", "N.m"},         {"N-m", "N.m"},
        {"N*m", "N.m"},        {"N.m", "N.m"},
        {"ft-lb", "lbf.ft"},   {"lb-ft", "lbf.ft"},
        {"lbf·ft", "lbf.ft"},  {"lbf.ft", "lbf.ft"},
        {"ft lb", "lbf.ft"},   {"lb·ft", "lbf.ft"},
        {"ft-lbs", "lbf.ft"},  {"ft·lbf", "lbf.ft"},
        {"in-lb", "lbf.in"},   {"lb-in", "lbf.in"},
        {"lbf·in", "lbf.in"},  {"in lb", "lbf.in"},
        {"oz-in", "ozf.in"},   {"kgf.m", "kgf.m"},
        {"kgf·cm", "kgf.cm"},  {"mm²", "mm2"},
        {"mm2", "mm2"},        {"mm^2", "mm2"},
        {"sq mm", "mm2"},      {"in²", "in2"},
        {"sq in", "in2"},      {"Ω", "ohm"},
        {"Ω", "ohm"},          {"ohms", "ohm"},
        {"mΩ", "mohm"},        {"kΩ", "kohm"},
        {"µA", "uA"},          {"μA", "uA"},
        {"µF", "uF"},          {"°C", "degC"},
        {"degC", "degC"},      {"deg C", "degC"},
        {"℃", "degC"},         {"° C", "degC"},
        {"°F", "degF"},        {"deg F", "degF"},
        {"\"", "in"},          {"″", "in"},
        {"'", "ft"},           {"′", "ft"},
        {"fl oz", "fl.oz"},    {"floz", "fl.oz"},
        {"Ah", "Ah"},          {"A·h", "Ah"},
        {"A h", "Ah"},         {"kWh", "kWh"},
        {"W·h", "Wh"},         {"hr", "h"},
        {"mins", "min"},       {"mile", "mi"},
        {"lbs", "lb"},         {"kgf/cm²", "kgf/cm2"},
        {"kg/cm2", "kgf/cm2"}, {"inHg", "inHg"},
        {"inH₂O", "inH2O"},    {"mi/h", "mph"},
        {"mph", "mph"},        {"r/min", "rpm"},
        {"RPM", "rpm"},        {"gal/min", "gal/min"},
        {"gpm", "gal/min"},    {"L/min", "L/min"},
        {"l/min", "L/min"},    {"Ω/km", "ohm/km"},
        {"mΩ/m", "mohm/m"},    {"ohm/1000ft", "ohm/kft"},
        {"°", "deg"},          {"%", "%"},
        {"per cent", "%"},     {"tonne", "t"},
        {"imp gal", "UKgal"},  {"PSI", "psi"},
        {"lbf/in²", "psi"},    {"N/mm²", "MPa"},
        {"cc", "cm3"},
    };
    for (size_t i = 0; i < sizeof same / sizeof same[0]; i++)
        assert_is(same[i][0], same[i][1]);
}

/* Case counts where the SI says so; an unknown word is no unit. */
static void test_refused(void **state) {
    (void)state;
    static const char *const none[] = {
        "",
        "a",
        "v",
        "mw",
        "Kg",
        "KM",
        "x",
        "AWG",
        "degX",
        "m m",
        "lb/ft",
        "N,m",
        " A",
        "A ",
        "..",
        "°K",
        "A/",
        "ftt",
        "a very long word that is surely no unit at all, believe me"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        if (find(none[i]))
            fail_msg("'%s' was read", none[i]);
    assert_ptr_not_equal(unit("mV"), unit("mF"));
    assert_ptr_not_equal(unit("mohm"), unit("Mohm"));
    assert_ptr_not_equal(unit("kN"), unit("kn"));
}

static void test_table(void **state) {
    (void)state;
    size_t n = 0;
    for (const struct unit *u; (u = unit_at(n)) != NULL; n++) {
        assert_ptr_equal(unit_find(u->name, strlen(u->name)), u);
        assert_true(u->factor > 0);
        assert_true(u->dim.point == (u->offset != 0));
        if (u->label[0] && strcmp(u->name, "degF.diff") != 0)
            assert_ptr_equal(unit(u->label), u);
        for (size_t m = 0; m < n; m++)
            assert_string_not_equal(unit_at(m)->name, u->name);
    }
    assert_true(n > 120);
    const struct unit *of;
    size_t s = 0;
    for (const char *t; (t = unit_spelling_at(s, &of)) != NULL; s++) {
        assert_non_null(of);
        assert_ptr_equal(unit_find(t, strlen(t)), of);
    }
    assert_true(s > n + 150);
    const char *last = "";
    for (s = 0; unit_spelling_at(s, &of); s++) { /* binary search */
        assert_true(strcmp(last, unit_spelling_at(s, &of)) < 0);
        last = unit_spelling_at(s, &of);
    }
}

static void test_prefix(void **state) {
    (void)state;
    static const struct {
        const char *text;
        size_t used;
        const char *name;
    } row[] = {
        {"A to 32 A", 1, "A"},
        {"A", 1, "A"},
        {"deg C", 5, "degC"},
        {"deg C (40 deg C to 50 deg C)", 5, "degC"},
        {"°C ± 2 °C", 3, "degC"},
        {"fl oz, then stop", 5, "fl.oz"},
        {"ft lb, step 1 ft lb", 5, "lbf.ft"},
        {"ft, then more", 2, "ft"},
        {"in from battery +", 2, "in"},
        {"\" from the post", 1, "in"},
        {"\"x", 1, "in"},
        {"N·m", 4, "N.m"},
        {"mm² [mark 1]", 4, "mm2"},
        {"sq mm", 5, "mm2"},
        {"V.", 1, "V"},
        {"Ω;", 2, "ohm"},
        {"%", 1, "%"},
        {"h", 1, "h"},
        {"L/min.", 5, "L/min"},
        {"V@", 1, "V"},
        {"V[", 1, "V"},
        {"V`", 1, "V"},
        {"V{", 1, "V"},
        {"V:", 1, "V"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        size_t used = 99;
        char *copy = exact(row[i].text);
        const struct unit *u = unit_prefix(copy, strlen(row[i].text), &used);
        free(copy);
        if (!u || used != row[i].used || strcmp(u->name, row[i].name) != 0)
            fail_msg("'%s': %s, %zu bytes", row[i].text, u ? u->name : "none",
                     used);
    }
    static const char *const none[] = {"",      " A",   "AWG", "Ax", "V/m",
                                       "m/s^3", "mm^4", "10",  "(A", "N.m.s"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        size_t used = 99;
        char *copy = exact(none[i]);
        if (unit_prefix(copy, strlen(none[i]), &used) || used != 0)
            fail_msg("'%s' was taken for a unit", none[i]);
        free(copy);
    }
}

static void test_convert(void **state) {
    (void)state;
    assert_true(unit_to_si(unit("A"), 30) == 30);
    assert_near(unit_to_si(unit("ft"), 16), 4.8768, 1e-15);
    assert_near(unit_to_si(unit("degC"), 45), 318.15, 1e-15);
    assert_true(round_snap(unit_from_si(unit("degF"), CELSIUS(60))) == 140);
    assert_near(unit_from_si(unit("degC"), unit_to_si(unit("degF"), -40)), -40,
                1e-12);
    /* A difference has no offset: 9 degF are 5 K. */
    assert_near(unit_to_si(unit_difference(unit("degF")), 9), 5, 1e-15);
    assert_near(unit_to_si(unit_difference(unit("degC")), 5), 5, 1e-15);
    assert_ptr_equal(unit_difference(unit("V")), unit("V"));
    /* 12 times apart, never confused. */
    assert_near(unit("lbf.ft")->factor / unit("lbf.in")->factor, 12, 1e-15);
}

/* The same figure written in any unit of a dimension is the same quantity. */
static void test_round_trip(void **state) {
    (void)state;
    struct dice d = {2};
    size_t count = 0;
    while (unit_at(count))
        count++;
    for (int n = 0; n < SAMPLES; n++) {
        const struct unit *a = unit_at((size_t)roll(&d, 0, (double)count));
        const struct unit *b = unit_at((size_t)roll(&d, 0, (double)count));
        double x = roll(&d, -1000, 1000);
        double back = unit_from_si(a, unit_to_si(a, x));
        assert_true(fabs(back - x) <= 1e-9 * fmax(1, fabs(a->offset)));
        if (!dim_equal(a->dim, b->dim))
            continue;
        double y = unit_from_si(b, unit_to_si(a, x));
        double again = unit_from_si(a, unit_to_si(b, y));
        assert_true(fabs(again - x) <= 1e-9 * fmax(1, fabs(x)));
    }
}

static void test_dimensions(void **state) {
    (void)state;
    char text[UNIT_TEXT];
    struct dim v = unit("V")->dim, a = unit("A")->dim;
    assert_true(dim_equal(dim_quotient(v, a), unit("ohm")->dim));
    assert_true(dim_equal(dim_product(v, a), unit("W")->dim));
    assert_true(dim_equal(dim_product(a, unit("h")->dim), unit("Ah")->dim));
    assert_true(dim_equal(dim_quotient(unit("N")->dim, unit("mm2")->dim),
                          unit("MPa")->dim));
    assert_true(dim_none(dim_quotient(v, v)));
    assert_false(dim_none(v));
    static const char *const bases[] = {"m", "kg", "s", "A", "K", "turn"};
    for (size_t i = 0; i < DIM_BASES; i++)
        assert_false(dim_none(unit(bases[i])->dim));
    assert_false(dim_equal(unit("degC")->dim, unit("K")->dim));
    assert_true(dim_same(unit("degC")->dim, unit("K")->dim));
    assert_false(dim_product(unit("degC")->dim, a).point);

    struct dim out;
    assert_true(dim_power(unit("m2")->dim, 1, 2, &out));
    assert_true(dim_equal(out, unit("m")->dim));
    assert_true(dim_power(unit("m")->dim, 3, 1, &out));
    assert_true(dim_equal(out, unit("m3")->dim));
    assert_false(dim_power(unit("m")->dim, 1, 2, &out));
    assert_false(dim_power(unit("m")->dim, 1, 0, &out));
    assert_true(dim_power(unit("m")->dim, 60, 1, &out));
    assert_true(dim_power(unit("m")->dim, -60, 1, &out));
    assert_false(dim_power(unit("m")->dim, 61, 1, &out));
    assert_false(dim_power(unit("m")->dim, -61, 1, &out));

    assert_string_equal(dim_name(v, text), "voltage");
    assert_string_equal(dim_name(unit("lbf.ft")->dim, text),
                        "torque or energy");
    assert_string_equal(dim_name(unit("degC")->dim, text), "temperature");
    assert_string_equal(dim_name(unit("K")->dim, text),
                        "temperature difference");
    assert_string_equal(dim_name(unit("1")->dim, text), "plain number");
    assert_string_equal(
        dim_name(dim_product(unit("m2")->dim,
                             dim_quotient(unit("kg")->dim, unit("s")->dim)),
                 text),
        "m2·kg/s");
    assert_string_equal(
        dim_name(dim_quotient(unit("1")->dim, unit("m")->dim), text), "1/m");
    struct dim many =
        dim_quotient(a, dim_product(unit("m2")->dim, unit("K")->dim));
    assert_string_equal(dim_name(many, text), "A/(m2·K)");
}

/* Each quantity that is computed has a unit to print it in, of its own kind. */
static void test_usual(void **state) {
    (void)state;
    for (size_t i = 0; unit_at(i); i++) {
        struct dim d = unit_at(i)->dim;
        const struct unit *si = unit_usual(d, UNIT_SI);
        const struct unit *us = unit_usual(d, UNIT_CUSTOMARY);
        if (!si)
            continue;
        assert_true(dim_equal(si->dim, d) && dim_equal(us->dim, d));
        assert_true(si->system != UNIT_CUSTOMARY);
        assert_true(us->system != UNIT_SI || us == si);
    }
    assert_string_equal(unit_usual(unit("ft")->dim, UNIT_SI)->name, "m");
    assert_string_equal(unit_usual(unit("m")->dim, UNIT_CUSTOMARY)->name, "ft");
    assert_string_equal(unit_usual(unit("J")->dim, UNIT_CUSTOMARY)->name,
                        "lbf.ft");
    assert_string_equal(unit_usual(unit("bar")->dim, UNIT_BOTH)->name, "kPa");
    struct dim odd = dim_product(unit("V")->dim, unit("m3")->dim);
    assert_null(unit_usual(odd, UNIT_SI));
}

static void test_compose(void **state) {
    (void)state;
    static const struct {
        const char *spelling, *name, *label;
        double factor;
    } row[] = {
        {"V/m", "V/m", "V/m", 1},
        {"mV/A", "mV/A", "mV/A", 1e-3},
        {"N/mm", "N/mm", "N/mm", 1e3},
        {"m/s2", "m/s2", "m/s²", 1},
        {"m/s²", "m/s2", "m/s²", 1},
        {"m/s^2", "m/s2", "m/s²", 1},
        {"mm4", "mm4", "mm⁴", 1e-12},
        {"kg/m3", "kg/m3", "kg/m³", 1},
        {"mV/A.m", "mV/A.m", "mV/(A·m)", 1e-3},
        {"V/degC", "V/K", "V/K", 1},
        {"mA.s", "mA.s", "mA·s", 1e-3},
        {"mA⋅s", "mA.s", "mA·s", 1e-3},
        {"mA·s", "mA.s", "mA·s", 1e-3},
        {"mA*s", "mA.s", "mA·s", 1e-3},
        {"m/s³", "m/s3", "m/s³", 1},
        {"mm^4", "mm4", "mm⁴", 1e-12},
        {"lbf·ft/deg", "lbf.ft/deg", "lbf·ft/°", 1.3558179483314004 * 360},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct unit u;
        char name[UNIT_TEXT], label[UNIT_TEXT];
        char *copy = exact(row[i].spelling);
        if (!unit_compose(copy, strlen(row[i].spelling), &u, name, label))
            fail_msg("'%s' was not read", row[i].spelling);
        free(copy);
        assert_string_equal(u.name, row[i].name);
        assert_near(u.factor, row[i].factor, 1e-14);
        assert_string_equal(u.label, row[i].label);
        assert_true(u.offset == 0 && !u.dim.point);
    }
    static const char *const none[] = {"",      "/",    "V/",  "/m", "V//m",
                                       "V/m/s", "x/m",  "V.",  "m5", "2",
                                       "m/s1",  "m/s5", "m/s0"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        struct unit u;
        char name[UNIT_TEXT], label[UNIT_TEXT];
        char *copy = exact(none[i]);
        if (unit_compose(copy, strlen(none[i]), &u, name, label))
            fail_msg("'%s' was read", none[i]);
        free(copy);
    }
    static const struct {
        const char *spelling;
        enum unit_system system;
    } side[] = {{"lbf/in", UNIT_CUSTOMARY},
                {"V/ft", UNIT_CUSTOMARY},
                {"V/m", UNIT_SI},
                {"V/A", UNIT_BOTH},
                {"N/in", UNIT_SI}};
    for (size_t i = 0; i < sizeof side / sizeof side[0]; i++) {
        struct unit u;
        char name[UNIT_TEXT], label[UNIT_TEXT];
        assert_true(unit_compose(side[i].spelling, strlen(side[i].spelling), &u,
                                 name, label));
        assert_int_equal(u.system, side[i].system);
    }
    char long_one[200];
    memset(long_one, 0, sizeof long_one);
    for (int i = 0; i < 40; i++)
        strcat(long_one, i ? ".m" : "m");
    struct unit u;
    char name[UNIT_TEXT], label[UNIT_TEXT];
    assert_false(unit_compose(long_one, strlen(long_one), &u, name, label));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_long_spellings),
        cmocka_unit_test(test_spellings),
        cmocka_unit_test(test_refused),
        cmocka_unit_test(test_table),
        cmocka_unit_test(test_prefix),
        cmocka_unit_test(test_convert),
        cmocka_unit_test(test_round_trip),
        cmocka_unit_test(test_dimensions),
        cmocka_unit_test(test_usual),
        cmocka_unit_test(test_compose),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
