/* test_ampacity.c - finding a row and column, and the factors. The figures
 * themselves are compared in test_reference.c. */
#include "calc/ampacity.h"

#include "wires.h"

static bool find(struct ampacity_use use, struct ampacity *a) {
    const char *why = NULL;
    bool found = ampacity_find(&use, a, &why);
    assert_true(found == (why == NULL));
    return found;
}

static void test_names(void **state) {
    (void)state;
    for (int t = 0; t < AMPACITY_TABLES; t++) {
        const char *name = ampacity_table_name((enum ampacity_table)t);
        enum ampacity_table found = AMPACITY_TABLES;
        assert_true(ampacity_table_find(name, strlen(name), &found));
        assert_int_equal(found, t);
    }
    enum ampacity_table none;
    assert_false(ampacity_table_find("NEC", 3, &none));
}

/* Where a table has no aluminium, the one that is named has it. */
static void test_tables_with_aluminium(void **state) {
    (void)state;
    struct ampacity a;
    for (int t = 0; t < AMPACITY_TABLES; t++) {
        struct ampacity_use use = {.table = (enum ampacity_table)t,
                                   .size = awg("4 AWG"),
                                   .material = MATERIAL_ALUMINIUM,
                                   .insulation = 273.15 + 105,
                                   .bundled = 1};
        const char *why = NULL, *name = ampacity_table_name(use.table);
        bool found = ampacity_find(&use, &a, &why);
        assert_true(found || strcmp(name, "NEC 310.16") != 0);
        assert_true(found || strstr(why, "NEC 310.16") != NULL);
    }
}

/* 10 AWG is 60, 40, 17 A depending on the document (C10). */
static void test_same_gauge(void **state) {
    (void)state;
    const struct wire_size *ten = awg("10 AWG");
    assert_true(ampacity(AMPACITY_33CFR, ten, 105, 1, false).amp == 60);
    assert_true(ampacity(AMPACITY_NEC, ten, 105, 1, false).amp == 40);
    assert_true(ampacity(AMPACITY_NEC, ten, 75, 1, false).amp == 35);
    assert_true(ampacity(AMPACITY_AC4313, ten, 105, 1, false).amp == 17);
    struct ampacity iso = ampacity(AMPACITY_ISO10133, ten, 105, 1, false);
    assert_true(iso.amp == 45); /* the 4 mm2 row: 5.26 mm2 is below 6 mm2 */
    assert_string_equal(iso.row, "4 mm2");
    assert_true(iso.row_smaller && !iso.verified);
}

/* The column is the highest not above the insulation; its temperature, not the
 * insulation's, enters the factors. */
static void test_column(void **state) {
    (void)state;
    const struct wire_size *ten = awg("10 AWG");
    static const struct {
        double insulation, column, amp;
    } row[] = {{60, 60, 40},   {74.9, 60, 40}, {75, 75, 40},   {85, 80, 50},
               {90, 90, 55},   {104, 90, 55},  {105, 105, 60}, {125, 125, 70},
               {150, 125, 70}, {200, 200, 70}, {250, 200, 70}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct ampacity a =
            ampacity(AMPACITY_33CFR, ten, row[i].insulation, 1, false);
        assert_near(a.rated, CELSIUS(row[i].column), 1e-12);
        assert_true(a.amp == row[i].amp);
        assert_near(a.reference, CELSIUS(30), 1e-12);
        assert_true(a.verified && !a.row_smaller);
        assert_string_equal(a.row, "10 AWG");
    }
    struct ampacity a;
    assert_false(find(
        (struct ampacity_use){AMPACITY_33CFR, ten, 0, CELSIUS(59), 1, false},
        &a));
    assert_false(find(
        (struct ampacity_use){AMPACITY_AC4313, ten, 0, CELSIUS(90), 1, false},
        &a));
    assert_near(ampacity(AMPACITY_AC4313, ten, 150, 1, false).reference,
                CELSIUS(70), 1e-12);
}

/* A size that the table does not name: largest row not larger, and it says so.
 */
static void test_rows(void **state) {
    (void)state;
    static const struct {
        const char *size;
        enum wire_system system;
        const char *row;
        bool smaller;
    } row[] = {
        {"SAE 10", WIRE_SAE, "12 AWG", true},
        {"6 mm2", WIRE_ISO6722, "10 AWG", true},
        {"5 mm2", WIRE_ISO6722, "12 AWG", true},
        {"0.75 mm2", WIRE_CLASS5, NULL, true},
        {"1 mm2", WIRE_CLASS5, "18 AWG", true},
        {"AV 3", WIRE_JIS, "14 AWG", true},
        {"5 AWG", WIRE_AWG_SOLID, "6 AWG", true},
        {"4/0 AWG", WIRE_AWG_SOLID, "4/0 AWG", false},
        {"240 mm2", WIRE_CLASS2, "4/0 AWG", true},
        {"20 AWG", WIRE_AWG_STRANDED, NULL, true},
        {"SAE 20", WIRE_SAE, NULL, true},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        struct ampacity a;
        const struct wire_size *s = wire(row[i].size, row[i].system);
        struct ampacity_use use = {AMPACITY_33CFR, s, MATERIAL_TINNED,
                                   CELSIUS(105),   1, false};
        assert_true(find(use, &a) == (row[i].row != NULL));
        if (!row[i].row)
            continue;
        assert_string_equal(a.row, row[i].row);
        assert_true(a.row_smaller == row[i].smaller);
    }
    struct ampacity a;
    const struct wire_size *ten = awg("10 AWG");
    struct ampacity_use al = {AMPACITY_33CFR, ten, MATERIAL_ALUMINIUM,
                              CELSIUS(105),   1,   false};
    assert_false(find(al, &a)); /* the table has copper only */
    al.table = AMPACITY_NEC;
    assert_true(find(al, &a) && a.amp == 35 && !a.verified);
    struct ampacity iso = ampacity(
        AMPACITY_ISO10133, wire("2.5 mm2", WIRE_ISO6722), 105, 1, false);
    assert_true(iso.amp == 35 && !iso.row_smaller);
}

/* Bundle factors belong to their table (C14). */
static void test_bundle(void **state) {
    (void)state;
    static const struct {
        int bundled;
        double boat, nec, iso;
    } row[] = {{1, 1, 1, 1},         {2, 1, 1, 1},         {3, 0.7, 1, 1},
               {4, 0.6, 0.8, 0.7},   {6, 0.6, 0.8, 0.7},   {7, 0.5, 0.7, 0.6},
               {9, 0.5, 0.7, 0.6},   {10, 0.5, 0.5, 0.6},  {20, 0.5, 0.5, 0.6},
               {21, 0.5, 0.45, 0.6}, {24, 0.5, 0.45, 0.6}, {25, 0.4, 0.45, 0.5},
               {30, 0.4, 0.45, 0.5}, {31, 0.4, 0.4, 0.5},  {40, 0.4, 0.4, 0.5},
               {41, 0.4, 0.35, 0.5}, {400, 0.4, 0.35, 0.5}};
    const struct wire_size *ten = awg("10 AWG");
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        int n = row[i].bundled;
        assert_true(ampacity(AMPACITY_33CFR, ten, 105, n, false).bundle ==
                    row[i].boat);
        assert_true(ampacity(AMPACITY_NEC, ten, 90, n, false).bundle ==
                    row[i].nec);
        assert_true(ampacity(AMPACITY_ISO10133, ten, 105, n, false).bundle ==
                    row[i].iso);
        assert_true(ampacity(AMPACITY_AC4313, ten, 105, n, false).bundle == 1);
    }
    struct ampacity a;
    assert_false(find(
        (struct ampacity_use){AMPACITY_33CFR, ten, 0, CELSIUS(105), 0, false},
        &a));
}

static void test_ambient(void **state) {
    (void)state;
    const struct wire_size *ten = awg("10 AWG");
    struct ampacity a = ampacity(AMPACITY_33CFR, ten, 105, 1, false);
    assert_true(ampacity_ambient_factor(&a, NAN) == 1);
    assert_near(ampacity_ambient_factor(&a, CELSIUS(50)), sqrt(55.0 / 75),
                1e-12);
    assert_near(ampacity_at(&a, CELSIUS(50)), 60 * sqrt(55.0 / 75), 1e-12);
    assert_true(ampacity_ambient_factor(&a, CELSIUS(10)) == 1); /* no gain */
    assert_true(ampacity_ambient_factor(&a, CELSIUS(105)) == 0);
    assert_true(ampacity_ambient_factor(&a, CELSIUS(120)) == 0);
    assert_near(ampacity_assumed_ambient(&a), CELSIUS(30), 1e-12);

    /* Engine space: the printed factor, and never better than it. */
    struct ampacity e = ampacity(AMPACITY_33CFR, ten, 105, 5, true);
    assert_true(e.engine == 0.85 && e.bundle == 0.6);
    assert_near(ampacity_at(&e, NAN), 30.6, 1e-12);
    assert_near(ampacity_at(&e, CELSIUS(50)), 30.6, 1e-12);
    assert_near(ampacity_at(&e, CELSIUS(20)), 30.6, 1e-12);
    assert_near(ampacity_at(&e, CELSIUS(60)), 36 * sqrt(45.0 / 75), 1e-12);
    assert_near(ampacity_assumed_ambient(&e), CELSIUS(50), 1e-12);

    /* 200 degC wire: printed 1.00, though the formula gives 0.94 (C38). */
    struct ampacity hot = ampacity(AMPACITY_33CFR, ten, 200, 1, true);
    assert_true(ampacity_ambient_factor(&hot, NAN) == 1);
    assert_near(ampacity_ambient_factor(&hot, CELSIUS(50)), sqrt(150.0 / 170),
                1e-12);

    /* NEC gains below 30 degC, down to 10 degC; it has no engine space of its
     * own, so 50 degC stands for it. */
    struct ampacity n = ampacity(AMPACITY_NEC, ten, 60, 1, false);
    assert_near(ampacity_ambient_factor(&n, CELSIUS(10)), 1.29, 2e-3);
    assert_true(ampacity_ambient_factor(&n, CELSIUS(-20)) ==
                ampacity_ambient_factor(&n, CELSIUS(10)));
    struct ampacity ne = ampacity(AMPACITY_NEC, ten, 60, 1, true);
    assert_near(ampacity_ambient_factor(&ne, NAN), 0.577, 1e-3);
    assert_near(ampacity_assumed_ambient(&ne), CELSIUS(50), 1e-12);
    struct ampacity air = ampacity(AMPACITY_AC4313, ten, 105, 1, true);
    assert_true(ampacity_ambient_factor(&air, NAN) == 1);
    assert_near(ampacity_assumed_ambient(&air), CELSIUS(70), 1e-12);
}

/* A larger wire never carries less; a higher column never either. */
static void test_monotone_tables(void **state) {
    (void)state;
    static const double insulation[] = {60, 70,  75,  80,  85,
                                        90, 105, 125, 150, 200};
    for (int t = 0; t < AMPACITY_TABLES; t++) {
        double last_size[10] = {0};
        for (size_t i = 0; size_at(WIRE_AWG_STRANDED, i); i++) {
            double last = 0;
            for (size_t k = 0; k < 10; k++) {
                struct ampacity_use use = {(enum ampacity_table)t,
                                           size_at(WIRE_AWG_STRANDED, i),
                                           MATERIAL_COPPER,
                                           CELSIUS(insulation[k]),
                                           1,
                                           false};
                struct ampacity a;
                const char *why;
                if (!ampacity_find(&use, &a, &why))
                    continue;
                assert_true(a.amp >= last && a.amp >= last_size[k]);
                last = last_size[k] = a.amp;
            }
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_tables_with_aluminium),
        cmocka_unit_test(test_same_gauge),
        cmocka_unit_test(test_column),
        cmocka_unit_test(test_rows),
        cmocka_unit_test(test_bundle),
        cmocka_unit_test(test_ambient),
        cmocka_unit_test(test_monotone_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
