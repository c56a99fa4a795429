/* test_thread.c - reading threads, their profile, limits, shear areas.
 * Published tables are compared in test_reference.c. */
#include "calc/thread.h"

#include "check.h"

static void assert_read(const char *text, enum thread_found wanted,
                        const char *name) {
    struct thread t;
    char *copy = exact(text);
    enum thread_found found = thread_read(copy, strlen(text), &t);
    free(copy);
    if (found != wanted)
        fail_msg("'%s': %d, wanted %d", text, (int)found, (int)wanted);
    if (found == THREAD_FOUND && strcmp(t.name, name) != 0)
        fail_msg("'%s': %s, wanted %s", text, t.name, name);
}

static void test_read(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum thread_found found;
        const char *name;
    } row[] = {
        {"M8 x 1.25", THREAD_FOUND, "M8 x 1.25"},
        {"M8x1.25", THREAD_FOUND, "M8 x 1.25"},
        {"M8×1.25", THREAD_FOUND, "M8 x 1.25"},
        {"M8 X 1.25", THREAD_FOUND, "M8 x 1.25"},
        {"M8-1.25", THREAD_FOUND, "M8 x 1.25"},
        {"M8", THREAD_FOUND, "M8 x 1.25"},
        {"m8", THREAD_FOUND, "M8 x 1.25"},
        {" M8 ", THREAD_FOUND, "M8 x 1.25"},
        {"M8-6g", THREAD_FOUND, "M8 x 1.25"},
        {"M8  6g", THREAD_FOUND, "M8 x 1.25"},
        {"M8 x 1", THREAD_FOUND, "M8 x 1"},
        {"M8x1.0-6H", THREAD_FOUND, "M8 x 1"},
        {"M12x1.5", THREAD_FOUND, "M12 x 1.5"},
        {"M22x1.5", THREAD_FOUND, "M22 x 1.5"},
        {"M3.5", THREAD_FOUND, "M3.5 x 0.6"},
        {"M2", THREAD_FOUND, "M2 x 0.4"},
        {"M30", THREAD_FOUND, "M30 x 3.5"},
        {"M64x4", THREAD_FOUND, "M64 x 4"},
        {"1/2-20 UNF", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2-20", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2 - 20", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2-20 UNF-2A", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2-20UNF", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2-13 NC", THREAD_FOUND, "1/2-13 UNC"},
        {"1/2\"-13", THREAD_FOUND, "1/2-13 UNC"},
        {"1/2 UNC", THREAD_FOUND, "1/2-13 UNC"},
        {"1/2 UNF", THREAD_FOUND, "1/2-20 UNF"},
        {"1/2 UNEF", THREAD_FOUND, "1/2-28 UNEF"},
        {"#10-32", THREAD_FOUND, "#10-32 UNF"},
        {"10-32", THREAD_FOUND, "#10-32 UNF"},
        {"No. 10-32", THREAD_FOUND, "#10-32 UNF"},
        {"no 10-24", THREAD_FOUND, "#10-24 UNC"},
        {"#10-24 UNC-2B", THREAD_FOUND, "#10-24 UNC"},
        {"8-32", THREAD_FOUND, "#8-32 UNC"},
        {"8-36", THREAD_FOUND, "#8-36 UNF"},
        {"12-28", THREAD_FOUND, "#12-28 UNF"},
        {"5/16-18", THREAD_FOUND, "5/16-18 UNC"},
        {"0.250-20", THREAD_FOUND, "1/4-20 UNC"},
        {".3125-18", THREAD_FOUND, "5/16-18 UNC"},
        {"1-8", THREAD_FOUND, "1-8 UNC"},
        {"1-12", THREAD_FOUND, "1-12 UNF"},
        {"1-14", THREAD_FOUND, "1-14 UNS"},
        {"1-14 UNS", THREAD_FOUND, "1-14 UNS"},
        {"1-64", THREAD_FOUND, "#1-64 UNC"},
        {"1\"-64", THREAD_UNKNOWN, NULL},
        {"2-4.5", THREAD_FOUND, "2-4.5 UNC"},
        {"2-56", THREAD_FOUND, "#2-56 UNC"},
        {"1-8/8-8", THREAD_UNREADABLE, NULL},
        {"1/1-8", THREAD_FOUND, "1-8 UNC"},
        {"1/0-8", THREAD_UNREADABLE, NULL},
        {"1-1/8-12", THREAD_FOUND, "1-1/8-12 UNF"},
        {"1 1/8-12", THREAD_FOUND, "1-1/8-12 UNF"},
        {"1-1/8-8", THREAD_FOUND, "1-1/8-8 UN"},
        {"1-1/8-16 UN", THREAD_FOUND, "1-1/8-16 UN"},
        {"1.125-7", THREAD_FOUND, "1-1/8-7 UNC"},
        {"3/4-16", THREAD_FOUND, "3/4-16 UNF"},
        {"7/16-24 UNS", THREAD_FOUND, "7/16-24 UNS"},

        {"1/2-13-1A", THREAD_FOUND, "1/2-13 UNC"},
        {"1-3/4-6", THREAD_FOUND, "1-3/4-6 UN"},
        {"1-1/4-6", THREAD_UNKNOWN, NULL},

        {"1/2", THREAD_PITCH_MISSING, NULL},
        {"1/2\"", THREAD_PITCH_MISSING, NULL},
        {"#10", THREAD_PITCH_MISSING, NULL},
        {"3/8 in", THREAD_UNREADABLE, NULL},
        {"1/2 UN", THREAD_PITCH_MISSING, NULL},
        {"M5.5", THREAD_PITCH_MISSING, NULL},
        {"M25", THREAD_PITCH_MISSING, NULL},

        {"M8x1.5", THREAD_UNKNOWN, NULL},
        {"M8.5", THREAD_UNKNOWN, NULL},
        {"M10x2", THREAD_UNKNOWN, NULL},
        {"1/2-21", THREAD_UNKNOWN, NULL},
        {"7/16-24", THREAD_UNKNOWN, NULL},
        {"11/16 UNC", THREAD_UNKNOWN, NULL},
        {"5/17-18", THREAD_UNKNOWN, NULL},
        {"#7-32", THREAD_UNKNOWN, NULL},
        {"1/2-8", THREAD_UNKNOWN, NULL},

        {"1/2-20 UNC", THREAD_SERIES_WRONG, NULL},
        {"1/2-13 UNF", THREAD_SERIES_WRONG, NULL},
        {"1-14 UNF", THREAD_SERIES_WRONG, NULL},

        {"", THREAD_UNREADABLE, NULL},
        {"6g", THREAD_UNREADABLE, NULL},
        {"-6g", THREAD_UNREADABLE, NULL},
        {"M-6g", THREAD_UNREADABLE, NULL},
        {"M", THREAD_UNREADABLE, NULL},
        {"M8x", THREAD_UNREADABLE, NULL},
        {"M8 x 0", THREAD_UNREADABLE, NULL},
        {"M8x1,25", THREAD_UNREADABLE, NULL},
        {"M8x1.25 long", THREAD_UNREADABLE, NULL},
        {"bolt", THREAD_UNREADABLE, NULL},
        {"1/2-", THREAD_UNREADABLE, NULL},
        {"1/2-20 XYZ", THREAD_UNREADABLE, NULL},
        {"1/0-20", THREAD_UNREADABLE, NULL},
        {"#", THREAD_UNREADABLE, NULL},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
        assert_read(row[i].text, row[i].found, row[i].name);
}

/* ISO 68-1 by hand for M8: d2 7.188, d3 6.466, D1 6.647, As 36.6. ASME B1.1 for
 * 1/2-13: As 0.1419 in2 with the sharp root (K15: never the metric constant).
 */
static void test_profile(void **state) {
    (void)state;
    struct thread t;
    assert_int_equal(thread_read("M8", 2, &t), THREAD_FOUND);
    assert_false(t.unified);
    assert_int_equal(t.series, THREAD_COARSE);
    assert_near(t.diameter, 8e-3, 1e-12);
    assert_near(t.pitch, 1.25e-3, 1e-12);
    assert_near(t.pitch_diameter, 7.188e-3, 1e-4);
    assert_near(t.root, 6.466e-3, 1e-4);
    assert_near(t.minor, 6.647e-3, 1e-4);
    assert_near(t.stress_area, 36.6085e-6, 1e-5);
    assert_int_equal(thread_read("1/2-13", 6, &t), THREAD_FOUND);
    assert_true(t.unified);
    assert_near(t.stress_area / 6.4516e-4, 0.14190, 5e-5);
    assert_near(t.root, (0.5 - 1.299038 / 13) * 0.0254, 1e-12);
    assert_near(t.minor, 0.4167 * 0.0254, 1e-4);
    assert_int_equal(thread_read("M8x1", 4, &t), THREAD_FOUND);
    assert_int_equal(t.series, THREAD_FINE);
}

/* Limits printed in ASME B1.1 (from memory) and in the reference rows. */
static void test_limits(void **state) {
    (void)state;
    static const struct {
        const char *thread;
        double major, pitch_ext, pitch_int, minor; /* in */
    } inch[] = {
        {"1/4-20", 0.2408, 0.2127, 0.2224, 0.207},
        {"#10-24", 0.1818, 0.1586, 0.1672, 0.156},
        {"1/2-13", 0.4876, 0.4435, 0.4565, 0.434},
        {"7/8-9", 0.8592, 0.7946, 0.8110, 0.778},
        {"3/8-24", 0.3667, 0.3430, 0.3528, 0.340},
    };
    struct thread t;
    struct thread_limits l;
    for (size_t i = 0; i < 5; i++) {
        thread_read(inch[i].thread, strlen(inch[i].thread), &t);
        assert_true(thread_limits(&t, &l));
        assert_near(l.external_major_min, inch[i].major * 0.0254, 1e-12);
        assert_near(l.external_pitch_min, inch[i].pitch_ext * 0.0254, 1e-12);
        assert_near(l.internal_pitch_max, inch[i].pitch_int * 0.0254, 1e-12);
        assert_near(l.internal_minor_max, inch[i].minor * 0.0254, 1e-12);
    }
    thread_read("M12", 3, &t);
    assert_true(thread_limits(&t, &l));
    assert_near(l.external_major_min, 11.701e-3, 1e-9);
    assert_near(l.external_pitch_min, 10.679e-3, 1e-4);
    assert_near(l.internal_pitch_max, 11.063e-3, 1e-4);
    assert_near(l.internal_minor_max, 10.441e-3, 1e-4);
    thread_read("M2", 2, &t);
    assert_false(thread_limits(&t, &l)); /* below the tables kept here */
    struct thread_shear s;
    assert_false(thread_shear(&t, &s));
}

/* Every thread that can be read has a sound profile, and where it has limits,
 * these are in order. */
static void test_all(void **state) {
    (void)state;
    static const char *const metric[] = {
        "M1",  "M1.6",    "M3",    "M4",      "M5",       "M6",  "M7",
        "M8",  "M9",      "M10",   "M10x1",   "M10x1.25", "M12", "M12x1.25",
        "M14", "M14x1.5", "M16",   "M16x1.5", "M18",      "M20", "M20x1.5",
        "M22", "M24",     "M24x2", "M27",     "M30",      "M33", "M36",
        "M39", "M42",     "M48",   "M56",     "M64"};
    static const char *const inch[] = {
        "#0-80",   "#4-40",  "#6-32",   "#8-32",   "#10-32",  "1/4-28",
        "5/16-24", "3/8-16", "7/16-20", "1/2-13",  "9/16-18", "5/8-11",
        "3/4-16",  "7/8-14", "1-8",     "1-1/4-7", "1-1/2-6", "2-4.5"};
    int with_limits = 0;
    for (size_t i = 0;
         i < sizeof metric / sizeof metric[0] + sizeof inch / sizeof inch[0];
         i++) {
        size_t m = sizeof metric / sizeof metric[0];
        const char *text = i < m ? metric[i] : inch[i - m];
        struct thread t;
        if (thread_read(text, strlen(text), &t) != THREAD_FOUND)
            fail_msg("'%s' was not read", text);
        assert_true(t.root < t.minor && t.minor < t.pitch_diameter &&
                    t.pitch_diameter < t.diameter);
        double d0 = sqrt(4 * t.stress_area / acos(-1));
        assert_true(d0 > t.root && d0 < t.pitch_diameter);
        struct thread_limits l;
        struct thread_shear s;
        if (!thread_limits(&t, &l))
            continue;
        with_limits++;
        assert_true(l.external_major_min < t.diameter);
        assert_true(l.external_pitch_min < t.pitch_diameter);
        assert_true(l.internal_pitch_max > t.pitch_diameter);
        assert_true(l.internal_minor_max > t.minor);
        assert_true(l.internal_minor_max < l.external_major_min);
        assert_true(thread_shear(&t, &s));
        assert_true(s.external > 0 && s.internal > s.external);
    }
    assert_true(with_limits > 45);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_read),
        cmocka_unit_test(test_profile),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
