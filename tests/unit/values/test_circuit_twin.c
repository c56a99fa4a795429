/* test_circuit_twin.c - variants share the results of a circuit only where all
 * its figures are the same and hang on each other in the same way. */
#include "bench.h"

#include "values/circuit_block.h"
#include "values/circuit_solve.h"

#define CIRCUIT(VALUES, SUPPLY)                                                \
    "```values\nrun = 2 m ± 0.2 m\n" VALUES "\n```\n"                          \
    "```supply pack\nchemistry: none\ncharging: " SUPPLY "\n"                  \
    "resistance: 1 mohm\n```\n"                                                \
    "```circuit one\nas found: yes\nsupply: pack charging\n"                   \
    "state: on\nstate: off, S1 open\nfrom pack +\n"                            \
    "switch S1 2 mohm\n"                                                       \
    "load E1 resistive, 10 A at 12 V\nwire W1 16 AWG, run, red\n"              \
    "to middle\nwire W2 16 AWG, other, black\n"                                \
    "load E2 resistive, 10 A at 12 V\nto pack -\n```\n"

#define ALIKE "other = run"
#define APART "other = run [short, long] 2 m ± 0.2 m [tall]"

static struct circuit_work *work(struct guide_bench *b, size_t variant) {
    bench_expect_quiet(b);
    const struct block *block =
        values_block(b->values, b->guide->scopes[1], text_of("one"), "circuit");
    assert_non_null(block);
    struct circuit_work *w = b->values->of_block[block->index].circuit[variant];
    assert_non_null(w);
    return w;
}

/* Width of the voltage between the two wires. */
static double width(struct guide_bench *b, size_t variant) {
    const struct value *v = bench_value(b, "one.middle.voltage", variant);
    assert_int_equal(v->type, VALUE_QUANTITY);
    struct ends e = range_ends(v->quantity);
    return e.high - e.low;
}

static void expect(const char *text, bool of_long, bool of_tall) {
    struct guide_bench b = bench_open_using("bench", text);
    struct circuit_work *first = work(&b, 0);
    assert_null(first->twin);
    assert_ptr_equal(work(&b, 1)->twin, of_long ? first : NULL);
    assert_ptr_equal(work(&b, 2)->twin, of_tall ? first : NULL);
    bench_close(&b);
}

static void test_alike(void **state) {
    (void)state;
    expect(CIRCUIT(ALIKE, "12 V"), true, true);
}

/* As long, but not one length: what lies between the wires then moves. */
static void test_apart(void **state) {
    (void)state;
    expect(CIRCUIT(APART, "12 V"), true, false);
    struct guide_bench b = bench_open_using("bench", CIRCUIT(APART, "12 V"));
    assert_true(width(&b, 0) == width(&b, 1));
    assert_true(width(&b, 2) > 100 * width(&b, 0));
    bench_close(&b);
}

static void test_one_figure(void **state) {
    (void)state;
    expect(CIRCUIT(ALIKE, "12 V [short, tall] 12 V ± 0.1 V [long]"), false,
           true);
    expect(CIRCUIT("other = run [short, long] 3 m [tall]", "12 V"), true,
           false);
}

/* Nominal figure, low and high end, each by itself. */
static void test_one_end(void **state) {
    (void)state;
    expect(CIRCUIT("other = 2 m (1.8 m to 2.3 m)", "12 V"), true, true);
    expect(CIRCUIT("other = 2 m (1.8 m to 2.3 m) [short, long] "
                   "2.1 m (1.8 m to 2.3 m) [tall]",
                   "12 V"),
           true, false);
    expect(CIRCUIT("other = 2 m (1.8 m to 2.3 m) [short, long] "
                   "2 m (1.9 m to 2.3 m) [tall]",
                   "12 V"),
           true, false);
    expect(CIRCUIT("other = 2 m (1.8 m to 2.3 m) [short, long] "
                   "2 m (1.8 m to 2.2 m) [tall]",
                   "12 V"),
           true, false);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_alike),
        cmocka_unit_test(test_apart),
        cmocka_unit_test(test_one_figure),
        cmocka_unit_test(test_one_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
