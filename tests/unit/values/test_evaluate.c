/* test_evaluate.c - names on demand: order, cycles, depth; what blocks leave.
 */
#include "bench.h"

#include "values/requirement.h"

static const char *chain(struct arena *a, int names, int parentheses) {
    struct buf b = buf_in(a);
    buf_puts(&b, "```values\n");
    for (int i = names; i > 0; i--) {
        buf_printf(&b, "a%d = ", i);
        for (int k = 0; k < parentheses; k++)
            buf_puts(&b, "(");
        buf_printf(&b, "a%d", i - 1);
        for (int k = 0; k < parentheses; k++)
            buf_puts(&b, ")");
        buf_puts(&b, " + 1 V\n");
    }
    buf_puts(&b, "a0 = 1 V\n```\n");
    return buf_cstr(&b);
}

/* The order in the source does not matter, down to the stack's end. */
static void test_chain_of_names(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct guide_bench b = bench_open(chain(a, 199, 0));
    bench_expect_quiet(&b);
    assert_true(bench_quantity(&b, "a199")->nominal == 200);
    bench_close(&b);
    b = bench_open(chain(a, 200, 0));
    assert_non_null(strstr(bench_messages(&b), "nested too deeply"));
    assert_int_equal(diag_count(b.c.diags, LEVEL_WARNING), 1);
    bench_close(&b);
    arena_free(a);
}

/* 190 names in 190 parentheses each would be 36,000 deep. */
static void test_names_in_parentheses(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct guide_bench b = bench_open(chain(a, 190, 190));
    assert_non_null(strstr(bench_messages(&b), "nested too deeply"));
    bench_close(&b);
    b = bench_open(chain(a, 3, 98));
    bench_expect_quiet(&b);
    bench_close(&b);
    arena_free(a);
}

static void test_cycles(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "a = b + 1 V\n"
                                      "b = c + 1 V\n"
                                      "c = a + 1 V\n"
                                      "good = 1 V\n"
                                      "uses.it = good + c\n"
                                      "```\n");
    assert_int_equal(diag_count(b.c.diags, LEVEL_WARNING), 1);
    assert_non_null(strstr(bench_messages(&b), "depends on itself: 'a'"));
    assert_int_equal(bench_value(&b, "c", 0)->type, VALUE_BAD);
    assert_int_equal(bench_value(&b, "uses.it", 0)->type, VALUE_BAD);
    assert_int_equal(bench_value(&b, "good", 0)->type, VALUE_QUANTITY);
    bench_close(&b);
}

/* A block that needs its own field, and two blocks that need each other's. */
static void test_cycles_through_blocks(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```wire one\n"
                                      "supply: 13 V\n"
                                      "load: 5 A\n"
                                      "loop: one.drop / 1 V * 1 m\n"
                                      "conductor: AWG stranded\n"
                                      "```\n");
    assert_int_equal(diag_count(b.c.diags, LEVEL_WARNING), 1);
    assert_non_null(strstr(bench_messages(&b), "'one.loop'"));
    assert_int_equal(bench_value(&b, "one.drop", 0)->type, VALUE_BAD);
    bench_close(&b);
    b = bench_open("```wire one\n"
                   "supply: 13 V\n"
                   "load: 5 A\n"
                   "loop: two.drop / 1 V * 1 m\n"
                   "conductor: AWG stranded\n"
                   "```\n\n"
                   "```wire two\n"
                   "supply: 13 V\n"
                   "load: 5 A\n"
                   "loop: one.drop / 1 V * 1 m\n"
                   "conductor: AWG stranded\n"
                   "```\n");
    assert_int_equal(diag_count(b.c.diags, LEVEL_WARNING), 1);
    bench_close(&b);
}

/* A name keeps its place and source; a second name for it changes neither. */
static void test_labels(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "run = 2 m  \"taped\"\n"
                                      "same = run  \"not this\"\n"
                                      "twice = run * 2\n"
                                      "```\n\n"
                                      "```wire feed\n"
                                      "supply: 13 V\n"
                                      "load: 5 A\n"
                                      "loop: twice\n"
                                      "conductor: AWG stranded\n"
                                      "```\n");
    const struct quantity *q = bench_quantity(&b, "same");
    assert_true(q == bench_quantity(&b, "run"));
    assert_true(text_is(q->name, "run"));
    assert_true(text_is(q->note, "taped"));
    assert_true(text_is(bench_quantity(&b, "twice")->name, "twice"));
    bench_expect_quiet(&b);
    bench_close(&b);
}

/* A block prints an author's value in the author's unit, and leaves it so. */
static void test_author_keeps_the_unit(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "half = 4 ft\n"
                                      "way = half * 2\n"
                                      "```\n\n"
                                      "```wire feed\n"
                                      "supply: 13 V\n"
                                      "load: 5 A\n"
                                      "loop: way\n"
                                      "conductor: AWG stranded\n"
                                      "```\n");
    bench_expect_quiet(&b);
    assert_string_equal(bench_quantity(&b, "way")->unit->name, "ft");
    assert_string_equal(bench_quantity(&b, "feed.loop")->unit->name, "ft");
    assert_string_equal(bench_quantity(&b, "feed.drop")->unit->name, "V");
    bench_close(&b);
}

static size_t count_rule(struct guide_bench *b, const char *rule) {
    size_t n = 0;
    for (size_t i = 0; i < requirement_count(b->values); i++) {
        const struct requirement *r = requirement_at(b->values, i);
        n += r->rule != NULL && strcmp(r->rule, rule) == 0;
    }
    return n;
}

/* A fuse is held against every wire behind it, however many. */
static void test_fuse_of_many_wires(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf t = buf_in(a);
    for (int i = 0; i < 40; i++)
        buf_printf(&t,
                   "```wire w%d\nload: 5 A\nloop: 2 m\nsupply: 12 V\n"
                   "conductor: AWG stranded\n```\n\n",
                   i);
    buf_puts(&t, "```fuse F1\nprotects: w0");
    for (int i = 1; i < 40; i++)
        buf_printf(&t, ", w%d", i);
    buf_puts(&t, "\nplace: 5 in from battery +\nstyle: blade\n"
                 "interrupt: 20 kA\n```\n");
    struct guide_bench b = bench_open(buf_cstr(&t));
    bench_expect_quiet(&b);
    assert_int_equal(count_rule(&b, "H06"), 40);
    assert_int_equal(count_rule(&b, "ampacity"), 40);
    /* no fuse misses: only the distance of F1 itself */
    assert_int_equal(count_rule(&b, "H05"), 1);
    bench_close(&b);
    arena_free(a);
}

/* What the compiler or `use` chooses is said to be chosen. */
static void test_decisions(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```wire feed\n"
                                      "load: 5 A\nloop: 2 m\nsupply: 12 V\n"
                                      "conductor: AWG stranded\n"
                                      "```\n\n"
                                      "```fuse F1\n"
                                      "protects: feed\n"
                                      "place: 5 in from battery +\n"
                                      "style: strip SF30\n"
                                      "interrupt: 20 kA\n"
                                      "```\n");
    assert_true(bench_value(&b, "feed.size", 0)->decision);
    assert_true(bench_value(&b, "F1.rating", 0)->decision);
    assert_false(bench_value(&b, "feed.drop", 0)->decision);
    bench_close(&b);
}

/* 14 AWG loses 0.3996 V at the most, but the page would say 0.400 V against
 * 0.399 V: a size that is chosen passes as printed too. */
static void test_choice_as_printed(void **state) {
    (void)state;
    static const char text[] = "```wire feed\n"
                               "load: 10 A\nloop: %s\nsupply: 12 V\n"
                               "ambient: 20 degC\ninsulation: 105 degC\n"
                               "drop limit: 0.3996 V * 1\n"
                               "conductor: AWG stranded\n"
                               "```\n";
    static const char *const rows[][2] = {
        {"4.63 m", "14 AWG"}, {"4.64 m", "12 AWG"}, {"4.65 m", "12 AWG"}};
    for (size_t i = 0; i < 3; i++) {
        struct arena *a = arena_new();
        struct guide_bench b = bench_open(arena_printf(a, text, rows[i][0]));
        bench_expect_quiet(&b);
        assert_string_equal(bench_value(&b, "feed.size", 0)->size->name,
                            rows[i][1]);
        bench_close(&b);
        arena_free(a);
    }
}

/* A check in a section, or with a tag, is for those variants. */
static void test_checks_by_variant(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using(
        "bench", "```values\nrun = 1 m [short] 3 m [long] 5 m [tall]\n```\n\n"
                 "```check\nrun <= 9 m\n```\n\n"
                 "## {for long} Procedure\n\n"
                 "```check\nrun <= 4 m\n```\n");
    bench_expect_quiet(&b);
    assert_int_equal(requirement_count(b.values), 4);
    const struct requirement *r = requirement_at(b.values, 3);
    assert_int_equal(r->variant, 1);
    assert_string_equal(r->what, "run <= 4 m");
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_chain_of_names),
        cmocka_unit_test(test_names_in_parentheses),
        cmocka_unit_test(test_cycles),
        cmocka_unit_test(test_cycles_through_blocks),
        cmocka_unit_test(test_labels),
        cmocka_unit_test(test_author_keeps_the_unit),
        cmocka_unit_test(test_fuse_of_many_wires),
        cmocka_unit_test(test_decisions),
        cmocka_unit_test(test_choice_as_printed),
        cmocka_unit_test(test_checks_by_variant),
    };
    return cmocka_run_group_tests_name("values/evaluate", tests, NULL, NULL);
}
