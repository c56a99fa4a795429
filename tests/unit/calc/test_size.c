/* test_size.c - wire sizes: reading, refusing, ordering. */
#include "calc/size.h"

#include "check.h"

static void assert_read(const char *text, enum wire_system declared,
                        enum size_found wanted, const char *name) {
    const struct wire_size *s = NULL;
    char *copy = exact(text);
    enum size_found found = size_read(copy, strlen(text), declared, &s);
    free(copy);
    if (found != wanted)
        fail_msg("'%s': %d, wanted %d", text, (int)found, (int)wanted);
    assert_true((s != NULL) == (wanted == SIZE_FOUND));
    if (s) {
        assert_string_equal(s->name, name);
        assert_true(declared == WIRE_UNDECLARED || s->system == declared);
    }
}

static void test_read(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum wire_system declared;
        enum size_found found;
        const char *name;
    } row[] = {
        {"10 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "10 AWG"},
        {"10AWG", WIRE_AWG_SOLID, SIZE_FOUND, "10 AWG"},
        {"AWG 10", WIRE_AWG_SOLID, SIZE_FOUND, "10 AWG"},
        {" 10  awg ", WIRE_AWG_SOLID, SIZE_FOUND, "10 AWG"},
        {"2/0 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "2/0 AWG"},
        {"00 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "2/0 AWG"},
        {"0000 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "4/0 AWG"},
        {"0 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "1/0 AWG"},
        {"1/0 AWG", WIRE_AWG_STRANDED, SIZE_FOUND, "1/0 AWG"},
        {"SAE 10", WIRE_SAE, SIZE_FOUND, "SAE 10"},
        {"10 SAE", WIRE_SAE, SIZE_FOUND, "SAE 10"},
        {"SAE 10", WIRE_UNDECLARED, SIZE_FOUND, "SAE 10"},
        {"SAE 2/0", WIRE_UNDECLARED, SIZE_FOUND, "SAE 2/0"},
        {"2.5 mm2", WIRE_ISO6722, SIZE_FOUND, "2.5 mm2"},
        {"2.5 mm²", WIRE_CLASS5, SIZE_FOUND, "2.5 mm2"},
        {"2.50 mm2", WIRE_CLASS2, SIZE_FOUND, "2.5 mm2"},
        {"1.0 mm2", WIRE_CLASS2, SIZE_FOUND, "1 mm2"},
        {"10 sq mm", WIRE_CLASS2, SIZE_FOUND, "10 mm2"},
        {"3 mm2", WIRE_JIS, SIZE_FOUND, "AV 3"},
        {"AV 3", WIRE_UNDECLARED, SIZE_FOUND, "AV 3"},
        {"AV 0.5f", WIRE_JIS, SIZE_FOUND, "AV 0.5f"},
        {"AV 0.50f", WIRE_JIS, SIZE_FOUND, "AV 0.5f"},
        {"AV 0.5fx", WIRE_JIS, SIZE_UNREADABLE, NULL},
        {"AV 50f", WIRE_JIS, SIZE_UNKNOWN, NULL},
        {"6 mm", WIRE_AU, SIZE_FOUND, "6 mm"},
        {"6 mm", WIRE_UNDECLARED, SIZE_FOUND, "6 mm"},

        {"10 AWG", WIRE_UNDECLARED, SIZE_AMBIGUOUS, NULL},
        {"2.5 mm2", WIRE_UNDECLARED, SIZE_AMBIGUOUS, NULL},
        {"10 gauge", WIRE_AWG_STRANDED, SIZE_AMBIGUOUS, NULL},
        {"10 ga", WIRE_SAE, SIZE_AMBIGUOUS, NULL},

        {"10 AWG", WIRE_SAE, SIZE_MISMATCH, NULL},
        {"SAE 10", WIRE_AWG_STRANDED, SIZE_MISMATCH, NULL},
        {"6 mm", WIRE_ISO6722, SIZE_MISMATCH, NULL},
        {"6 mm2", WIRE_AU, SIZE_MISMATCH, NULL},
        {"4 mm2", WIRE_AWG_STRANDED, SIZE_MISMATCH, NULL},

        {"99 AWG", WIRE_AWG_SOLID, SIZE_UNKNOWN, NULL},
        {"3 mm2", WIRE_CLASS5, SIZE_UNKNOWN, NULL},
        {"5/0 AWG", WIRE_AWG_SOLID, SIZE_UNKNOWN, NULL},
        {"SAE 3", WIRE_SAE, SIZE_UNKNOWN, NULL},
        {"2.5.1 mm2", WIRE_CLASS2, SIZE_UNKNOWN, NULL},
        {"00000 AWG", WIRE_AWG_SOLID, SIZE_UNKNOWN, NULL},

        {"", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"10", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"AWG", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"ten AWG", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"10 AWG AWG", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"10 A", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"1234567 AWG", WIRE_AWG_SOLID, SIZE_UNKNOWN, NULL},
        {"12345678 AWG", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"AWG 12345678", WIRE_AWG_SOLID, SIZE_UNREADABLE, NULL},
        {"2,5 mm2", WIRE_CLASS2, SIZE_UNREADABLE, NULL},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_read(row[i].text, row[i].declared, row[i].found, row[i].name);
}

/* Every size is found by its own name and label in its own system, and stands
 * by rising area. */
static void test_tables(void **state) {
    (void)state;
    for (int y = 0; y < WIRE_SYSTEMS; y++) {
        enum wire_system system = (enum wire_system)y;
        const char *name = size_system_name(system);
        assert_int_equal(size_system_find(name, strlen(name)), system);
        const struct wire_size *last = NULL, *s;
        for (size_t i = 0; (s = size_at(system, i)) != NULL; i++) {
            assert_int_equal(s->system, system);
            assert_read(s->name, system, SIZE_FOUND, s->name);
            if (system != WIRE_AU)
                assert_read(s->label, system, SIZE_FOUND, s->name);
            assert_non_null(s->source);
            if (last) {
                assert_true(s->area > last->area);
                assert_true(size_compare(s, last) > 0);
                assert_true(size_compare(last, s) < 0);
            }
            assert_int_equal(size_compare(s, s), 0);
            for (int m = 0; m < MATERIALS; m++)
                assert_true(isnan(s->most[m]) || s->most[m] > 0);
            last = s;
        }
        assert_non_null(last);
        assert_null(size_up(last));
        assert_null(size_down(size_at(system, 0)));
    }
    assert_int_equal(size_system_find("AWG", 3), WIRE_UNDECLARED);
    assert_string_equal(size_system_name(WIRE_UNDECLARED), "undeclared");
    assert_null(size_at(WIRE_UNDECLARED, 0));
}

/* Going up never falls into a gauge that nobody draws as cable. */
static void test_walk(void **state) {
    (void)state;
    const struct wire_size *s;
    assert_int_equal(size_read("18 AWG", 6, WIRE_AWG_STRANDED, &s), SIZE_FOUND);
    static const char *const up[] = {"16 AWG",  "14 AWG", "12 AWG",  "10 AWG",
                                     "8 AWG",   "6 AWG",  "4 AWG",   "3 AWG",
                                     "2 AWG",   "1 AWG",  "1/0 AWG", "2/0 AWG",
                                     "3/0 AWG", "4/0 AWG"};
    for (size_t i = 0; i < sizeof up / sizeof up[0]; i++) {
        const struct wire_size *next = size_up(s);
        assert_string_equal(next->name, up[i]);
        assert_ptr_equal(size_down(next), s);
        s = next;
    }
    assert_null(size_up(s));
    assert_string_equal(size_of_area(WIRE_ISO6722, 2.6e-6)->name, "3 mm2");
    assert_string_equal(size_of_area(WIRE_CLASS5, 2.6e-6)->name, "4 mm2");
    assert_string_equal(size_of_area(WIRE_CLASS5, 2.5e-6)->name, "2.5 mm2");
    assert_string_equal(size_of_area(WIRE_AWG_STRANDED, 4e-6)->name, "10 AWG");
    assert_null(size_of_area(WIRE_AU, 1));
    assert_null(size_of_area(WIRE_UNDECLARED, 1e-6));
}

/* The definition: 36 AWG is 0.005 in, 4/0 AWG 0.46 in. ASTM B258. */
static void test_awg_formula(void **state) {
    (void)state;
    const struct wire_size *s;
    int n = 30;
    for (size_t i = 0; (s = size_at(WIRE_AWG_SOLID, i)) != NULL; i++, n--) {
        double d = 0.000127 * pow(92, (36 - n) / 39.0);
        assert_near(s->area, acos(-1) / 4 * d * d, 1e-13);
        assert_true(s->area == size_at(WIRE_AWG_STRANDED, i)->area);
        assert_true(s->usual == size_at(WIRE_AWG_STRANDED, i)->usual);
    }
    assert_int_equal(n, -4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_read),
        cmocka_unit_test(test_tables),
        cmocka_unit_test(test_walk),
        cmocka_unit_test(test_awg_formula),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
