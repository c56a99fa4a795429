/* test_names.c - which names there are, where they are seen, what is refused.
 */
#include "bench.h"

static void expect_message(const char *text, const char *message) {
    struct guide_bench b = bench_open(text);
    if (strstr(bench_messages(&b), message) == NULL ||
        diag_count(b.c.diags, LEVEL_WARNING) != 1)
        fail_msg("wanted one '%s', got %s", message, bench_messages(&b));
    bench_close(&b);
}

static void test_forms(void **state) {
    (void)state;
    static const struct {
        const char *name, *message;
    } rows[] = {
        {"a..b", "not a name"},          {"a.", "not a name"},
        {"2nd", "not a name"},           {"a-b", "not a name"},
        {"a_b", "not a name"},           {"range", "word of the language"},
        {"min", "word of the language"}, {"AWG", "word of the language"},
        {"A", "unit used as a name"},    {"lbf.ft", "unit used as a name"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        expect_message(
            arena_printf(a, "```values\n%s = 1 V\n```\n", rows[i].name),
            rows[i].message);
        arena_free(a);
    }
    struct guide_bench b = bench_open("```values\n"
                                      "a1.b2.c3 = 1 V\nRange = 1 V\n"
                                      "rangefinder = 1 V\nkilovolt.a = 1 V\n"
                                      "```\n");
    bench_expect_quiet(&b);
    bench_close(&b);
}

static void test_defined_twice(void **state) {
    (void)state;
    expect_message("```values\nrun = 1 m\nlast = 2 m\nrun = 2 m\n```\n",
                   "name defined twice: 'run'");
    expect_message("```values\nfeed.drop = 1 V\n```\n\n"
                   "```wire feed\nload: 5 A\nloop: 1 m\nsupply: 9 V\n"
                   "conductor: AWG stranded\n```\n",
                   "name defined twice: 'feed.drop'");
    /* blocks: once, not for each field; whatever their kinds */
    expect_message("```load one\nkind: lamp\ncurrent: 1 A\n```\n\n"
                   "```load one\nkind: lamp\ncurrent: 1 A\n```\n",
                   "name defined twice: 'one'");
    expect_message("```load one\nkind: lamp\ncurrent: 1 A\n```\n\n"
                   "```supply one\nresting: 12 V\n```\n",
                   "name defined twice: 'one'");
}

/* A setting with a blank has a dot in its name. */
static void test_settings_and_fields(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```wire feed\n"
                                      "load: 5 A\nloop: 1 m\n"
                                      "supply: 12 V\n"
                                      "drop limit: 0.4 V\n"
                                      "conductor: AWG stranded\n"
                                      "```\n\n"
                                      "```values\n"
                                      "share = feed.drop / feed.drop.limit\n"
                                      "left = feed.drop.limit - feed.drop\n"
                                      "```\n");
    bench_expect_quiet(&b);
    assert_true(bench_quantity(&b, "left")->nominal > 0);
    /* its own `loop`: the setting and the field share the name */
    const struct named *n =
        values_find(b.values, b.guide->scopes[1], text_of("feed.loop"));
    assert_true(n->computed);
    assert_null(values_find(b.values, b.guide->scopes[1],
                            text_of("feed.conductor.nothing")));
    bench_close(&b);
}

/* Defaults: the file's own unnamed block first, then that of the facts. */
static void test_defaults(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open_using("bench", "```wire\n"
                                  "ambient: 40 degC\n"
                                  "```\n\n"
                                  "```wire feed\n"
                                  "load: 5 A\nloop: 1 m\nsupply: 9 V\n"
                                  "```\n\n"
                                  "```wire rear\n"
                                  "load: 5 A\nloop: 1 m\nsupply: 9 V\n"
                                  "insulation: 90 degC\n"
                                  "ambient: 20 degC\n"
                                  "```\n");
    bench_expect_quiet(&b);
    assert_true(bench_quantity(&b, "feed.ambient")->nominal == 313.15);
    assert_true(bench_quantity(&b, "feed.insulation")->nominal == 378.15);
    assert_true(bench_quantity(&b, "rear.ambient")->nominal == 293.15);
    assert_true(bench_quantity(&b, "rear.insulation")->nominal == 363.15);
    bench_close(&b);
}

/* What a shared file is given is known there only, and read outside. */
static void test_scopes(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open_using("bench", "```values\n"
                                  "wide = 2 in\n"
                                  "```\n\n"
                                  "1. One.\n\n"
                                  "   ```include crimp\n"
                                  "   size = 10 AWG\n"
                                  "   pull = wide * 40 lbf / 1 in\n"
                                  "   ```\n"
                                  "2. Two.\n\n"
                                  "   ```include crimp\n"
                                  "   size = 12 AWG\n"
                                  "   pull = 40 lbf\n"
                                  "   ```\n");
    bench_expect_quiet(&b);
    assert_null(values_find(b.values, b.guide->scopes[1], text_of("pull")));
    const struct named *one =
        values_find(b.values, b.guide->scopes[2], text_of("pull"));
    const struct named *two =
        values_find(b.values, b.guide->scopes[3], text_of("pull"));
    assert_true(one->by_variant[0].quantity->nominal >
                1.9 * two->by_variant[0].quantity->nominal);
    /* nothing of the guide by itself, all of the facts */
    assert_null(values_find(b.values, b.guide->scopes[2], text_of("wide")));
    assert_non_null(
        values_find(b.values, b.guide->scopes[2], text_of("battery.resting")));
    bench_close(&b);
}

static void test_a_block_by_name(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using("bench", "```load lamp\n"
                                                     "kind: lamp\n"
                                                     "current: 1 A\n"
                                                     "```\n");
    const struct scope *guide = b.guide->scopes[1];
    const struct block *lamp =
        values_block(b.values, guide, text_of("lamp"), "load");
    assert_non_null(lamp);
    assert_true(lamp ==
                values_block(b.values, guide, text_of("lamp"), "wire|load"));
    assert_null(values_block(b.values, guide, text_of("lamp"), "wire|fuse"));
    assert_null(values_block(b.values, guide, text_of("lam"), "load"));
    /* of the facts, from the guide; not the other way round */
    assert_non_null(values_block(b.values, guide, text_of("lamps"), "load"));
    assert_null(
        values_block(b.values, b.guide->scopes[0], text_of("lamp"), "load"));
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_forms),
        cmocka_unit_test(test_defined_twice),
        cmocka_unit_test(test_settings_and_fields),
        cmocka_unit_test(test_defaults),
        cmocka_unit_test(test_scopes),
        cmocka_unit_test(test_a_block_by_name),
    };
    return cmocka_run_group_tests_name("values/names", tests, NULL, NULL);
}
