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
    struct arena *a = arena_new();
    for (int i = 0; i < count; i++) {
        double at[16];
        assert_true(roots <= 16);
        for (size_t k = 0; k < roots; k++)
            at[k] = sample(&seed, root[k]->range);
        double y = range_sample(a, q, at);
        if (y < e.low - 1e-12 * fabs(e.low) ||
            y > e.high + 1e-12 * fabs(e.high))
            fail_msg("%s: %.17g outside %.17g to %.17g", name, y, e.low,
                     e.high);
    }
    arena_free(a);
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
    struct guide_bench b = bench_open(
        "```values\n"
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

/* A sum of 3000 terms is 3000 nodes deep: no recursion may follow it. */
static void test_long_sum(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf text = buf_in(a);
    buf_puts(&text, "```values\nx = 1 V ± 0.1 V\nsum = x");
    for (int i = 0; i < 3000; i++)
        buf_puts(&text, " + x");
    buf_puts(&text, "\n```\n");
    struct guide_bench b = bench_open(buf_cstr(&text));
    bench_expect_quiet(&b);
    near_to(ends_of(&b, "sum").high, 3001 * 1.1, 1e-12);
    bench_close(&b);
    arena_free(a);
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

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_difference_is_zero),
        cmocka_unit_test(test_equal_literals_differ),
        cmocka_unit_test(test_corners_are_exact),
        cmocka_unit_test(test_heat_peaks_inside),
        cmocka_unit_test(test_ranges_contain_samples),
        cmocka_unit_test(test_corner_is_told),
        cmocka_unit_test(test_long_sum),
        cmocka_unit_test(test_low_end_keeps_the_size),
    };
    return cmocka_run_group_tests_name("values/range", tests, NULL, NULL);
}
