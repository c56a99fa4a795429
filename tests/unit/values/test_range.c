/* test_range.c - the ends of computed values: exact where a root's slope keeps
 * its sign, never too narrow where it does not. */
#include "bench.h"

#include <math.h>

static struct ends ends_of(struct guide_bench *b, const char *name) {
    return range_ends(bench_quantity(b, name));
}

static void near_to(double got, double wanted, double share) {
    if (fabs(got - wanted) > share * fabs(wanted) + 1e-300)
        fail_msg("%.17g, wanted %.17g", got, wanted);
}

/* A value used twice stays one value. */
static void test_difference_is_zero(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "x = 5 V ± 1 V\n"
                                      "zero = x - x\n"
                                      "twice = x + x - 2 * x\n"
                                      "one = x / x\n"
                                      "y = x * 3 - x\n"
                                      "```\n");
    bench_expect_quiet(&b);
    struct ends zero = ends_of(&b, "zero");
    assert_true(zero.low == 0 && zero.high == 0);
    struct ends twice = ends_of(&b, "twice");
    assert_true(twice.low == 0 && twice.high == 0);
    struct ends one = ends_of(&b, "one");
    near_to(one.low, 1, 1e-6);
    near_to(one.high, 1, 1e-6);
    struct ends y = ends_of(&b, "y");
    near_to(y.low, 8, 1e-15);
    near_to(y.high, 12, 1e-15);
    bench_close(&b);
}

/* Two literals with the same figures are two roots. */
static void test_equal_literals_differ(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "left = 5 V ± 1 V\n"
                                      "right = 5 V ± 1 V\n"
                                      "gap = left - right\n"
                                      "```\n");
    bench_expect_quiet(&b);
    struct ends d = ends_of(&b, "gap");
    near_to(d.low, -2, 1e-15);
    near_to(d.high, 2, 1e-15);
    bench_close(&b);
}

static void test_corners_are_exact(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "u = 12 V ± 1 V\n"
                                      "r = 4 ohm ± 1 ohm\n"
                                      "i = u / r\n"
                                      "p = u ^ 2 / r\n"
                                      "back = sqrt(p * r)\n"
                                      "most = max(u, 12.5 V)\n"
                                      "away = abs(u - 14 V)\n"
                                      "```\n");
    bench_expect_quiet(&b);
    near_to(ends_of(&b, "i").low, 11.0 / 5, 1e-15);
    near_to(ends_of(&b, "i").high, 13.0 / 3, 1e-15);
    near_to(ends_of(&b, "p").low, 121.0 / 5, 1e-14);
    near_to(ends_of(&b, "p").high, 169.0 / 3, 1e-14);
    /* r falls out of s: only u is left */
    near_to(ends_of(&b, "back").low, 11, 1e-6);
    near_to(ends_of(&b, "back").high, 13, 1e-6);
    near_to(ends_of(&b, "most").low, 12.5, 1e-15);
    near_to(ends_of(&b, "most").high, 13, 1e-15);
    near_to(ends_of(&b, "away").low, 1, 1e-15);
    near_to(ends_of(&b, "away").high, 3, 1e-15);
    bench_close(&b);
}

/* A small generator with a fixed seed: the same samples on each machine. */
static double sample(unsigned *seed, struct ends e) {
    *seed = *seed * 1664525u + 1013904223u;
    return e.low + (e.high - e.low) * ((double)(*seed >> 8) / (1u << 24));
}

static void contains_samples(struct guide_bench *b, const char *name,
                             int count) {
    const struct quantity *q = bench_quantity(b, name);
    struct ends e = range_ends(q);
    const struct quantity *const *root;
    size_t roots = range_roots(b->c.arena, q, &root);
    unsigned seed = 12345;
    for (int i = 0; i < count; i++) {
        struct corner at[16];
        assert_true(roots <= 16);
        for (size_t k = 0; k < roots; k++)
            at[k] = (struct corner){root[k], sample(&seed, root[k]->range)};
        double y = range_at(q, at, roots);
        if (y < e.low - 1e-12 * fabs(e.low) ||
            y > e.high + 1e-12 * fabs(e.high))
            fail_msg("%s: %.17g outside %.17g to %.17g", name, y, e.low,
                     e.high);
    }
}

/* Heat in a joint ahead of a lamp: it peaks where the joint's resistance equals
 * the lamp's, inside the joint's range. With U = 12 V and R = 2 ohm the peak is
 * U^2 / (4 R) = 18 W at 2 ohm. */
static void test_heat_peaks_inside(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "u = 12 V\n"
                                      "lamp = 2 ohm\n"
                                      "joint = 0.05 ohm to 10 ohm\n"
                                      "i = u / (lamp + joint)\n"
                                      "heat = i ^ 2 * joint\n"
                                      "light = i ^ 2 * lamp\n"
                                      "```\n");
    bench_expect_quiet(&b);
    struct ends heat = ends_of(&b, "heat");
    near_to(heat.high, 18, 1e-6);
    assert_true(heat.high >= 18);
    double at_low = 144 * 0.05 / (2.05 * 2.05);
    double at_high = 144 * 10 / (12.0 * 12.0);
    near_to(heat.low, fmin(at_low, at_high), 1e-6);
    struct ends light = ends_of(&b, "light");
    near_to(light.low, 144 * 2 / 144.0, 1e-6);
    near_to(light.high, 144 * 2 / (2.05 * 2.05), 1e-6);
    contains_samples(&b, "heat", 2000);
    bench_close(&b);
}

static void test_ranges_contain_samples(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open("```values\n"
                   "u = 13.2 V to 14.4 V\n"
                   "lamp = 2 ohm ± 0.4 ohm\n"
                   "joint = 0.05 ohm to 10 ohm\n"
                   "wire = 0.02 ohm ± 10 %\n"
                   "i = u / (lamp + joint + wire)\n"
                   "heat = i ^ 2 * joint\n"
                   "share = heat / (u * i)\n"
                   "odd = (joint - 3 ohm) ^ 2 * i / lamp - i * wire\n"
                   "least = min(heat / 1 W, odd / 1 V)\n"
                   "```\n");
    bench_expect_quiet(&b);
    contains_samples(&b, "i", 2000);
    contains_samples(&b, "heat", 2000);
    contains_samples(&b, "share", 2000);
    contains_samples(&b, "odd", 2000);
    contains_samples(&b, "least", 2000);
    /* Not much wider than the truth either: joint / (lamp + joint + wire). */
    near_to(ends_of(&b, "share").high, 10 / (1.6 + 10 + 0.018), 1e-6);
    near_to(ends_of(&b, "share").low, 0.05 / (2.4 + 0.05 + 0.022), 1e-6);
    bench_close(&b);
}

static void test_corner_is_told(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "u = 12 V ± 1 V\n"
                                      "r = 4 ohm ± 1 ohm\n"
                                      "i = u / r\n"
                                      "```\n");
    const struct corner *corner;
    size_t count =
        range_corner(b.c.arena, bench_quantity(&b, "i"), true, &corner);
    assert_int_equal(count, 2);
    assert_true(text_is(corner[0].root->name, "u"));
    assert_true(corner[0].value == 13);
    assert_true(corner[1].value == 3);
    bench_close(&b);
}

/* A sum of 20,000 terms is 20,000 nodes deep: no recursion may follow it, nor
 * may each term be bounded by itself. */
static void test_long_sum(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf text = buf_in(a);
    buf_puts(&text, "```values\nx = 1 V ± 0.1 V\nsum = x");
    for (int i = 0; i < 20000; i++)
        buf_puts(&text, " + x");
    buf_puts(&text, "\n```\n");
    struct guide_bench b = bench_open(buf_cstr(&text));
    bench_expect_quiet(&b);
    near_to(ends_of(&b, "sum").high, 20001 * 1.1, 1e-12);
    bench_close(&b);
    arena_free(a);
}

/* Where interval arithmetic alone sees 0 in a divisor or below a root. */
static void test_known_ends_are_used(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "x = 5 V ± 4 V\n"
                                      "y = 1 V ± 0.5 V\n"
                                      "half = x - x / 2\n"
                                      "inverse = 10 V / half\n"
                                      "square = x * x - x * y\n"
                                      "far = x + 3 V\n"
                                      "away = far ^ 2 - 2 * far * y + y ^ 2\n"
                                      "gap = sqrt(away)\n"
                                      "power = half ^ -2 * (1 V ^ 2)\n"
                                      "```\n");
    bench_expect_quiet(&b);
    near_to(ends_of(&b, "inverse").low, 20.0 / 9, 1e-12);
    near_to(ends_of(&b, "inverse").high, 20, 1e-12);
    near_to(ends_of(&b, "gap").low, 4 - 1.5, 1e-6);
    near_to(ends_of(&b, "gap").high, 12 - 0.5, 1e-6);
    near_to(ends_of(&b, "power").high, 4, 1e-6);
    contains_samples(&b, "inverse", 500);
    contains_samples(&b, "gap", 500);
    contains_samples(&b, "power", 500);
    bench_close(&b);
}

/* A root has no finite slope at 0, and still never falls. */
static void test_root_from_zero(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "x = 0 m to 4 m\n"
                                      "y = sqrt(x * 1 m) + x\n"
                                      "```\n");
    bench_expect_quiet(&b);
    assert_true(ends_of(&b, "y").low == 0);
    assert_true(ends_of(&b, "y").high == 6);
    bench_close(&b);
}

/* Extremes that no end of a root gives: of a cubic, and at kinks. */
static void test_inner_extremes(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open("```values\n"
                   "x = 0 to 6\n"
                   "y = 1 to 2\n"
                   "f = x * (x - 2) * (x - 5) * y ^ 2\n"
                   "steps = abs(x - 3) - abs(x - 4) + min(x, 5 - x)\n"
                   "```\n");
    bench_expect_quiet(&b);
    /* f' = 3 x^2 - 14 x + 10 = 0 at x = (7 -+ sqrt(19)) / 3 */
    double at = (7 - sqrt(19)) / 3, low_at = (7 + sqrt(19)) / 3;
    near_to(ends_of(&b, "f").low, 4 * low_at * (low_at - 2) * (low_at - 5),
            1e-6);
    near_to(ends_of(&b, "f").high, 24 * 4, 1e-6);
    assert_true(24 * 4 > 4 * at * (at - 2) * (at - 5));
    /* -1 + x up to 2.5, 4 - x to 3, x - 2 to 4 (the peak), 6 - x to 6 */
    near_to(ends_of(&b, "steps").high, 2, 1e-6);
    near_to(ends_of(&b, "steps").low, -1, 1e-6);
    contains_samples(&b, "f", 2000);
    contains_samples(&b, "steps", 2000);
    bench_close(&b);
}

/* Steep on one side of a kink: a bound by the other slope would cut it off. */
static void test_steep_kinks(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "x = -1 m to 1.3 m\n"
                                      "ridge = x / 100 - 10 * max(x, 0 m)\n"
                                      "valley = 10 * max(x, 0 m) - x / 100\n"
                                      "slope = 10 * min(x, 0 m) - x / 100\n"
                                      "```\n");
    bench_expect_quiet(&b);
    assert_true(fabs(ends_of(&b, "ridge").high) < 1e-7);
    assert_true(ends_of(&b, "ridge").high >= 0);
    assert_true(fabs(ends_of(&b, "valley").low) < 1e-7);
    assert_true(ends_of(&b, "valley").low <= 0);
    assert_true(fabs(ends_of(&b, "slope").high) < 1e-7);
    assert_true(ends_of(&b, "slope").high >= 0);
    bench_close(&b);
}

/* The sides of a comparison at the corner of their difference. */
static void test_value_at_a_corner(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "x = 5 V ± 1 V\n"
                                      "y = 2 V ± 0.5 V\n"
                                      "left = x * 1.1 + y\n"
                                      "room = x - left\n"
                                      "```\n");
    const struct corner *corner;
    size_t count =
        range_corner(b.c.arena, bench_quantity(&b, "room"), false, &corner);
    assert_int_equal(count, 2);
    near_to(range_at(bench_quantity(&b, "left"), corner, count), 9.1, 1e-15);
    near_to(range_at(bench_quantity(&b, "x"), corner, count), 6, 1e-15);
    /* What no corner names is at its nominal. */
    near_to(range_at(bench_quantity(&b, "left"), NULL, 0), 7.5, 1e-15);
    near_to(range_at(bench_quantity(&b, "left"), corner + 1, 1), 8, 1e-15);
    bench_close(&b);
}

static const char wire_text[] = "```wire feed\n"
                                "load: 28 A to 32 A\n"
                                "loop: 5 m ± 0.2 m\n"
                                "supply: 13.5 V\n"
                                "drop limit: 3 %\n"
                                "insulation: 105 degC\n"
                                "ambient: 20 degC to 50 degC\n"
                                "conductor: AWG stranded\n"
                                "```\n";

/* The size is chosen at the high end, then the low end is computed with it. */
static void test_low_end_keeps_the_size(void **state) {
    (void)state;
    struct guide_bench b = bench_open(wire_text);
    bench_expect_quiet(&b);
    assert_string_equal(bench_value(&b, "feed.size", 0)->size->name, "6 AWG");
    struct ends drop = ends_of(&b, "feed.drop");
    /* By hand: 6 AWG stranded, 13.30 mm2 at 1.02/58 ohm mm2/m is 1.3224 mohm/m.
     * Low: 28 A, 4.8 m, 20 degC, and the rise of 28 A in a wire that carries
     * 120 A (33 CFR 183.425, 105 degC): 75 K (28/120)^2 = 4.1 K at most. */
    double r = 1.3224e-3;
    assert_true(drop.low > 28 * 4.8 * r);
    assert_true(drop.low < 28 * 4.8 * r * (234.5 + 24.1) / 254.5);
    assert_true(drop.high > 32 * 5.2 * r * (234.5 + 50) / 254.5);
    assert_true(drop.high < 32 * 5.2 * r * (234.5 + 55.4) / 254.5);
    contains_samples(&b, "feed.drop", 2000);
    contains_samples(&b, "feed.temperature", 2000);
    bench_close(&b);
}

/* The low end alone is that of both, whichever is asked first; y is not
 * monotone, so that each end takes a search. */
static void test_low_end_alone(void **state) {
    (void)state;
    for (int first = 0; first < 2; first++) {
        struct guide_bench b = bench_open("```values\n"
                                          "x = 3 V ± 2 V\n"
                                          "y = x * (8 V - x)\n"
                                          "```\n");
        bench_expect_quiet(&b);
        const struct quantity *y = bench_quantity(&b, "y");
        *y->bounds = (struct bounds){.within = y->bounds->within,
                                     .first = y->bounds->first,
                                     .last = y->bounds->last};
        double low = first ? range_low(y) : 0;
        struct ends both = range_ends(y);
        low = first ? low : range_low(y);
        near_to(low, 7, 1e-7);
        assert_true(low == both.low);
        near_to(both.high, 16, 1e-7);
        bench_close(&b);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_difference_is_zero),
        cmocka_unit_test(test_equal_literals_differ),
        cmocka_unit_test(test_corners_are_exact),
        cmocka_unit_test(test_heat_peaks_inside),
        cmocka_unit_test(test_ranges_contain_samples),
        cmocka_unit_test(test_corner_is_told),
        cmocka_unit_test(test_long_sum),
        cmocka_unit_test(test_known_ends_are_used),
        cmocka_unit_test(test_root_from_zero),
        cmocka_unit_test(test_inner_extremes),
        cmocka_unit_test(test_steep_kinks),
        cmocka_unit_test(test_value_at_a_corner),
        cmocka_unit_test(test_low_end_keeps_the_size),
        cmocka_unit_test(test_low_end_alone),
    };
    return cmocka_run_group_tests_name("values/range", tests, NULL, NULL);
}
