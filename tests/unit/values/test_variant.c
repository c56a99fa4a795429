/* test_variant.c - one value for each variant: gaps, overlaps, `others`, and
 * whom a node or a row is for. */
#include "bench.h"

#include <math.h>

/* tests/golden/procedures/facts/bench.md: short, long, tall. */
static struct guide_bench open_bench(const char *text) {
    return bench_open_using("bench", text);
}

static double number(struct guide_bench *b, const char *name, size_t variant) {
    const struct value *v = bench_value(b, name, variant);
    return v->type == VALUE_QUANTITY ? v->quantity->nominal : NAN;
}

static void test_choices(void **state) {
    (void)state;
    static const struct {
        const char *text;
        double value[3]; /* NAN: none */
    } rows[] = {
        {"1 m", {1, 1, 1}},
        {"1 m [short] 2 m [long] 3 m [tall]", {1, 2, 3}},
        {"1 m [short, tall] 2 m [others]", {1, 2, 1}},
        {"1 m [others] 2 m [long]", {1, 2, 1}},
        {"1 m [short] 2 m [long] 3 m [others]", {1, 2, 3}},
        {"2 m [tall, others] 1 m [short]", {1, 2, 2}},
        {"1 m [short, short] 2 m [others]", {1, 2, 2}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b = open_bench(
            arena_printf(a, "```values\nrun = %s\n```\n", rows[i].text));
        bench_expect_quiet(&b);
        for (size_t k = 0; k < 3; k++)
            if (number(&b, "run", k) != rows[i].value[k])
                fail_msg("%s, variant %zu: %g", rows[i].text, k,
                         number(&b, "run", k));
        bench_close(&b);
        arena_free(a);
    }
}

static void test_choices_that_fail(void **state) {
    (void)state;
    static const struct {
        const char *text, *message;
    } rows[] = {
        {"1 m [short] 2 m [long]", "no value for tall"},
        {"1 m [short]", "no value for long, tall"},
        {"1 m [short, long] 2 m [long, tall]", "two values for long"},
        {"1 m [shrot] 2 m [others]", "did you mean 'short'"},
        {"1 m [others] 2 m [others]", "two values for short"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b = open_bench(arena_printf(
            a, "```values\nrun = %s\ntwice = run * 2\n```\n", rows[i].text));
        if (strstr(bench_messages(&b), rows[i].message) == NULL)
            fail_msg("%s: wanted '%s', got %s", rows[i].text, rows[i].message,
                     bench_messages(&b));
        bench_close(&b);
        arena_free(a);
    }
}

/* A variant that the guide is not for needs no value. */
static void test_only_what_applies(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open_using("bench\napplies: short, tall",
                         "```values\nrun = 1 m [short] 2 m [tall]\n```\n");
    bench_expect_quiet(&b);
    assert_int_equal(values_applies(b.values), 1 | 4);
    assert_true(number(&b, "run", 2) == 2);
    assert_int_equal(bench_value(&b, "run", 1)->type, VALUE_BAD);
    bench_close(&b);
}

static void test_without_a_vehicle(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\nrun = 1 m\n```\n");
    const struct variant *list;
    assert_int_equal(values_variants(b.values, &list), 1);
    assert_int_equal(list[0].name.len, 0);
    assert_int_equal(values_applies(b.values), 1);
    assert_string_equal(values_variant_names(b.values, b.c.arena, 1), "");
    bench_close(&b);
}

static void test_names_of_a_set(void **state) {
    (void)state;
    struct guide_bench b = open_bench("");
    struct arena *a = b.c.arena;
    assert_string_equal(values_variant_names(b.values, a, 5), "short, tall");
    assert_string_equal(values_variant_names(b.values, a, 2), "long");
    bench_close(&b);
}

/* {for} on a section, a step and a paragraph in it: all of them must agree. */
static void test_readers_of_a_node(void **state) {
    (void)state;
    struct guide_bench b = open_bench("## {for short, long} Procedure\n\n"
                                      "1. {for long, tall} One.\n"
                                      "2. Two.\n\n"
                                      "## Test\n\n"
                                      "1. {for tall} Three.\n"
                                      "   1. {for short} Never.\n");
    bench_expect_quiet(&b);
    variant_set wanted[] = {2, 3, 4, 0};
    size_t steps = 0;
    for (size_t i = 0; i < b.guide->node_count; i++)
        if (b.guide->nodes[i]->kind == NODE_STEP)
            assert_int_equal(values_readers(b.values, b.guide->nodes[i]),
                             wanted[steps++]);
    assert_int_equal(steps, 4);
    bench_close(&b);
}

/* The commonest text bare, the others behind their names. */
static void test_printed_over_variants(void **state) {
    (void)state;
    struct guide_bench b =
        open_bench("```values\n"
                   "same = 1 m\n"
                   "most = 1 V [short, tall] 2 V [long]\n"
                   "each = 1 V [short] 2 V [long] 3 V [tall]\n"
                   "last = 1 V [short] 2 V [long, tall]\n"
                   "```\n");
    static const struct {
        const char *name;
        variant_set set;
        const char *text;
    } rows[] = {
        {"most", 7, "1 V; long: 2 V"},
        {"most", 2, "2 V"},
        {"most", 5, "1 V"},
        {"each", 7, "short: 1 V; long: 2 V; tall: 3 V"},
        {"each", 6, "long: 2 V; tall: 3 V"},
        {"last", 7, "2 V; short: 1 V"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct named *n =
            values_find(b.values, b.guide->scopes[1], text_of(rows[i].name));
        const char *got =
            values_print_over(b.values, b.c.arena, n, rows[i].set, PRINT_PLAIN);
        /* U+00A0 in the figures */
        struct buf plain = buf_in(b.c.arena);
        for (const char *s = got; *s != '\0'; s++)
            if (strncmp(s, "\xC2\xA0", 2) == 0) {
                buf_puts(&plain, " ");
                s++;
            } else {
                buf_add(&plain, s, 1);
            }
        assert_string_equal(buf_cstr(&plain), rows[i].text);
    }
    bench_close(&b);
}

/* As many as a set has bits. */
static void test_sixty_four_variants(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using(
        "many", "```values\nrun = 1 m [v63] 2 m [others]\n```\n");
    bench_expect_quiet(&b);
    const struct variant *list;
    assert_int_equal(values_variants(b.values, &list), 64);
    assert_true(values_applies(b.values) == ~(variant_set)0);
    assert_true(number(&b, "run", 63) == 1);
    assert_true(number(&b, "run", 62) == 2);
    const struct named *n =
        values_find(b.values, b.guide->scopes[1], text_of("run"));
    assert_non_null(strstr(
        values_print_over(b.values, b.c.arena, n, ~(variant_set)0, PRINT_PLAIN),
        "; v63: 1"));
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_choices),
        cmocka_unit_test(test_choices_that_fail),
        cmocka_unit_test(test_only_what_applies),
        cmocka_unit_test(test_without_a_vehicle),
        cmocka_unit_test(test_names_of_a_set),
        cmocka_unit_test(test_readers_of_a_node),
        cmocka_unit_test(test_printed_over_variants),
        cmocka_unit_test(test_sixty_four_variants),
    };
    return cmocka_run_group_tests_name("values/variant", tests, NULL, NULL);
}
