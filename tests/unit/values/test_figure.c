/* test_figure.c - figures as printed: digits, rounding by side, conversion. */
#include "bench.h"
#include "values/electrical.h"
#include "values/figure.h"

/* Blanks for U+00A0, so that the expectations can be read. */
static const char *plain(struct arena *a, const char *s) {
    char *out = arena_copy(a, s, strlen(s)), *to = out;
    for (const char *from = out; *from != '\0'; from++) {
        if (strncmp(from, "\xC2\xA0", 2) == 0) {
            *to++ = ' ';
            from++;
        } else {
            *to++ = *from;
        }
    }
    *to = '\0';
    return out;
}

static void expect(struct guide_bench *b, const char *name,
                   enum figure_form form, const char *wanted) {
    const struct quantity *q = bench_quantity(b, name);
    assert_string_equal(plain(b->c.arena, figure_of(b->c.arena, q, form)),
                        wanted);
}

static void expect_both(struct guide_bench *b, const char *name,
                        const char *wanted) {
    const struct quantity *q = bench_quantity(b, name);
    assert_string_equal(
        plain(b->c.arena, figure_both(b->c.arena, q, FIGURE_PLAIN)), wanted);
}

static void test_literals_print_as_written(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "one = 30 A\n"
                                      "two = 13.80 V\n"
                                      "three = 12.6 V ± 0.25 V\n"
                                      "four = 13.8 V (13.2 V to 14.4 V)\n"
                                      "five = 28 A to 33 A\n"
                                      "six = 5/16 in\n"
                                      "seven = 1 1/2 in\n"
                                      "eight = -5 degC\n"
                                      "nine = 0.4 kohm\n"
                                      "ten = 30A\n"
                                      "many = 2\n"
                                      "eleven = 12.5 V ± 10 %\n"
                                      "```\n");
    bench_expect_quiet(&b);
    expect(&b, "one", FIGURE_PLAIN, "30 A");
    expect(&b, "one", FIGURE_RANGE, "30 A");
    expect(&b, "two", FIGURE_PLAIN, "13.80 V");
    expect(&b, "three", FIGURE_RANGE, "12.6 V (12.35 V to 12.85 V)");
    expect(&b, "four", FIGURE_RANGE, "13.8 V (13.2 V to 14.4 V)");
    expect(&b, "five", FIGURE_RANGE, "30.5 A (28.0 A to 33.0 A)");
    expect(&b, "six", FIGURE_PLAIN, "5/16 in");
    expect(&b, "seven", FIGURE_PLAIN, "1 1/2 in");
    expect(&b, "eight", FIGURE_PLAIN,
           "\xE2\x88\x92"
           "5 \xC2\xB0"
           "C");
    expect(&b, "ten", FIGURE_PLAIN, "30 A");
    expect(&b, "many", FIGURE_PLAIN, "2");
    expect(&b, "eleven", FIGURE_RANGE, "12.5 V (11.25 V to 13.75 V)");
    bench_close(&b);
}

/* Ends of results round outward, limits inward. */
static void test_rounding_by_side(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "lost = 1 V / 3\n"
                                      "wide = lost * factor\n"
                                      "factor = 1 ± 0.1\n"
                                      "high = 40 V / 3\n"
                                      "```\n");
    bench_expect_quiet(&b);
    expect(&b, "lost", FIGURE_PLAIN, "0.333 V");
    expect(&b, "lost", FIGURE_AT_MOST, "0.333 V");
    expect(&b, "lost", FIGURE_AT_LEAST, "0.334 V");
    /* 0.3 exactly and 0.3666...: only what is not exact moves. */
    expect(&b, "wide", FIGURE_RANGE, "0.333 V (0.300 V to 0.367 V)");
    expect(&b, "high", FIGURE_PLAIN, "13.33 V");
    bench_close(&b);
}

/* The converted figure has the precision of the first: checked by hand against
 * 1 lbf·ft = 1.355 818 N·m, 1 in = 25.4 mm, NIST SP 811 B.8. */
static void test_conversion(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "t1 = 15 lbf.ft\n"
                                      "t2 = 13.5 N.m\n"
                                      "l1 = 2.6 m\n"
                                      "l2 = 6 in\n"
                                      "l3 = 5/16 in\n"
                                      "c1 = 45 degC\n"
                                      "c2 = 113 degF\n"
                                      "w1 = 2150 kg\n"
                                      "d1 = 50 mile\n"
                                      "a1 = 30 A\n"
                                      "```\n");
    bench_expect_quiet(&b);
    expect_both(&b, "t1", "15 lbf·ft (20 N·m)");
    expect_both(&b, "t2", "13.5 N·m (10.0 lbf·ft)");
    expect_both(&b, "l1", "2.6 m (8.5 ft)");
    expect_both(&b, "l2", "6 in (152 mm)");
    expect_both(&b, "l3", "5/16 in");
    expect_both(&b, "c1", "45 °C (113 °F)");
    expect_both(&b, "c2", "113 °F (45 °C)");
    expect_both(&b, "w1", "2150 kg (4740 lb)");
    expect_both(&b, "d1", "50 mi (80 km)");
    expect_both(&b, "a1", "30 A");
    bench_close(&b);
}

/* A difference of temperatures is no point on a scale. */
static void test_temperatures(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "hot = 105 degC\n"
                                      "cold = 68 degF\n"
                                      "rise = hot - cold\n"
                                      "back = cold + rise\n"
                                      "wide = 45 degC ± 9 degF\n"
                                      "```\n");
    bench_expect_quiet(&b);
    assert_true(range_ends(bench_quantity(&b, "rise")).low > 84.9999);
    assert_true(range_ends(bench_quantity(&b, "rise")).high < 85.0001);
    expect(&b, "wide", FIGURE_RANGE, "45 °C (40 °C to 50 °C)");
    expect(&b, "back", FIGURE_PLAIN, "221 °F");
    bench_close(&b);
}

static void test_told_apart(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const struct unit *volt = unit_find("V", 1);
    const char *left, *right, *gap;
    figure_apart(a, 0.4004, 0.40, volt, volt->dim, 2, &left, &right, &gap);
    assert_string_equal(plain(a, left), "0.4004 V");
    assert_string_equal(plain(a, right), "0.4000 V");
    assert_string_equal(plain(a, gap), "0.0004 V");
    arena_free(a);
}

static void test_a_figure_among_words(void **state) {
    (void)state;
    static const char *const in[][2] = {
        {"fuse 5 A, 30 V", "5 A"},
        {"5 A", "5 A"},
        {"at 5 A.", "5 A"},
        {"15 A or 5 A", "5 A"},
        {"5 A\xE2\x80\x93 6 A", "5 A"},
        {"12.5", "12.5"},
    };
    static const char *const out[][2] = {
        {"15 A", "5 A"},         {"0.5 A", "5 A"}, {"4 AWG", "4 A"},
        {"30.5", "30"},          {"305", "30"},    {"4 m\xCE\xA9", "4 m"},
        {"2 N\xC2\xB7m", "2 N"},
    };
    for (size_t i = 0; i < sizeof in / sizeof in[0]; i++)
        if (!figure_is_in(in[i][0], in[i][1]))
            fail_msg("'%s' is not in '%s'", in[i][1], in[i][0]);
    for (size_t i = 0; i < sizeof out / sizeof out[0]; i++)
        if (figure_is_in(out[i][0], out[i][1]))
            fail_msg("'%s' is in '%s'", out[i][1], out[i][0]);
}

/* Computed values in the unit in which they have few figures; what the author
 * wrote stays in his. */
static void test_handy_units(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "joint = 1.28 ohm / 1000\n"
                                      "coil = 85000 mohm * 1\n"
                                      "seen = 85000 mohm\n"
                                      "drop = 8.03 V / 1000\n"
                                      "spread = 12 V * factor / 10000\n"
                                      "factor = 1 ± 0.3\n"
                                      "told = 0.008 V\n"
                                      "none = 0 V * 2\n"
                                      "heat = 7.294 W / 1000\n"
                                      "warm = 7.294 W / 100\n"
                                      "```\n");
    bench_expect_quiet(&b);
    expect(&b, "joint", FIGURE_PLAIN, "1.28 m\xCE\xA9");
    expect(&b, "coil", FIGURE_PLAIN, "85.0 \xCE\xA9");
    expect(&b, "seen", FIGURE_PLAIN, "85000 m\xCE\xA9");
    expect(&b, "drop", FIGURE_PLAIN, "8.0 mV");
    expect(&b, "spread", FIGURE_RANGE, "1.2 mV (0.8 mV to 1.6 mV)");
    expect(&b, "told", FIGURE_PLAIN, "0.008 V");
    expect(&b, "none", FIGURE_PLAIN, "0.000 V");
    expect(&b, "heat", FIGURE_PLAIN, "7.3 mW");
    expect(&b, "warm", FIGURE_PLAIN, "0.073 W");
    bench_close(&b);
}

/* A current into a short: two digits, and kA from 1000 A on; its ends outward.
 */
static void test_fault_currents_are_estimates(void **state) {
    (void)state;
    static const struct {
        double nominal, low, high;
        const char *wanted;
    } row[] = {
        {706, 549, 960, "710 A (540 A to 960 A)"},
        {884, 601, 1381, "880 A (600 A to 1390 A)"},
        {1669, 1424, 1982, "1.7 kA (1.4 kA to 2.0 kA)"},
        {12345, 12345, 12345, "12 kA"},
        {16.3, 16.3, 16.3, "16 A"},
        {4.26, 4.26, 4.26, "4.3 A"},
    };
    struct arena *a = arena_new();
    struct quantity_maker m = {a, 1};
    const struct unit *ampere = unit_find("A", 1);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const struct quantity *q = electrical_fault(quantity_root(
            &m, ROOT_TABLE, row[i].nominal,
            (struct ends){row[i].low, row[i].high}, ampere->dim, ampere));
        assert_string_equal(plain(a, figure_of(a, q, FIGURE_RANGE)),
                            row[i].wanted);
    }
    const struct quantity *q = electrical_fault(quantity_root(
        &m, ROOT_TABLE, 2290, (struct ends){2290, 2290}, ampere->dim, ampere));
    assert_string_equal(plain(a, figure_in(a, q, ampere, FIGURE_PLAIN)),
                        "2300 A");
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_literals_print_as_written),
        cmocka_unit_test(test_rounding_by_side),
        cmocka_unit_test(test_conversion),
        cmocka_unit_test(test_temperatures),
        cmocka_unit_test(test_told_apart),
        cmocka_unit_test(test_a_figure_among_words),
        cmocka_unit_test(test_handy_units),
        cmocka_unit_test(test_fault_currents_are_estimates),
    };
    return cmocka_run_group_tests_name("values/figure", tests, NULL, NULL);
}
