/* test_expression.c - the grammar of values: precedence, blanks, functions,
 * what may stand where, and that one slip gives one message. */
#include "bench.h"

#include "values/figure.h"

#include <math.h>

static const char known[] = "```values\n"
                            "press = 12 V\n"
                            "flow = 3 A\n"
                            "run = 2 m\n"
                            "rear.run = 5 m\n"
                            "hot = 80 degC\n"
                            "cold = 30 degC\n"
                            "word = \"starter battery\"\n"
                            "sure = yes\n"
                            "size = 10 AWG\n"
                            "least = >= 11.4 V\n"
                            "most = \xE2\x89\xA4 0.1 V\n"
                            "%s\n"
                            "```\n";

static struct guide_bench open_value(const char *definition) {
    struct arena *a = arena_new();
    struct guide_bench b = bench_open(arena_printf(a, known, definition));
    arena_free(a);
    return b;
}

static void test_arithmetic(void **state) {
    (void)state;
    static const struct {
        const char *text;
        double value; /* SI */
    } rows[] = {
        {"1 + 2 * 3", 7},
        {"(1 + 2) * 3", 9},
        {"2 * 3 ^ 2", 18},
        {"(2 * 3) ^ 2", 36},
        {"8 / 4 / 2", 1},
        {"8 - 4 - 2", 2},
        {"8 / 4 * 2", 4},
        {"2 ^ -2", 0.25},
        {"2 ^12", 4096},
        {"2^3", 8},
        {"2 mm^2 / 1 mm2", 2},
        {"(2 mm)^2 / 1 mm2", 4},
        {"1 - -2", 3},
        {"1 \xE2\x88\x92 2", -1},
        {"3 \xC3\x97 2", 6},
        {"( ( 7 ) )", 7},
        {"press / flow / 1 ohm", 4},
        {"press * flow / 1 W", 36},
        {"run + rear.run * 2 - 1 m", 11},
        {"min(run, rear.run)", 2},
        {"max(run, rear.run, 7 m)", 7},
        {"min(3)", 3},
        {"max( 1 , 2 ) + 1", 3},
        {"abs(run - rear.run)", 3},
        {"sqrt(run * rear.run * 10)", 10},
        {"sqrt(4 * (2 + 2))", 4},
        {"hot - cold + 1 K", 51},
        {"cold + (hot - cold)", 353.15},
        {"50 K + cold", 353.15},
        {"min(hot, cold)", 303.15},
        {"5/16 in * 16 / 1 in", 5},
        {"2 m * 3 + 1 m", 7},
        {"80 % * 10", 8},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b =
            open_value(arena_printf(a, "tried = %s", rows[i].text));
        bench_expect_quiet(&b);
        double got = bench_quantity(&b, "tried")->nominal;
        if (fabs(got - rows[i].value) > 1e-12 * fabs(rows[i].value))
            fail_msg("%s: %.17g", rows[i].text, got);
        bench_close(&b);
        arena_free(a);
    }
}

/* Each slip is told once, and makes nothing that is used. */
static void test_slips(void **state) {
    (void)state;
    static const struct {
        const char *text, *message;
    } rows[] = {
        {"1 +", "something is missing here"},
        {"1 + * 2", "at '*'"},
        {"1 2", "at '2'"},
        {"2 1", "at '1'"},
        {"2 ^", "exponent is a whole number"},
        {"(1 + 2", "parenthesis is not closed"},
        {"1 + 2)", "at ')'"},
        {"max(1, 2", "parenthesis is not closed"},
        {"max(1,, 2)", "something is missing here"},
        {"max()", "something is missing here"},
        {"min(run, press)", "comparing length and voltage"},
        {"max(hot, 5 K)", "temperature with a difference"},
        {"run+run", "one word"},
        {"run -run", "'-run' is one word"},
        {"rum", "did you mean 'run'"},
        {"quite.unheard.of", "unknown name: 'quite.unheard.of'"},
        {"run + press", "adding length and voltage"},
        {"run - 2", "subtracting length and"},
        {"run * word", "multiplying a text"},
        {"run + sure", "adding yes or no"},
        {"size * 2", "multiplying a wire size"},
        {"least + 1 V", "adding a limit"},
        {"abs(word)", "a text"},
        {"sqrt(size)", "a wire size"},
        {"sqrt(run)", "square root of length"},
        {"sqrt(run * (1 m - rear.run))", "square root of a negative"},
        {"sqrt(hot)", "square root of temperature"},
        {"run ^ 0", "exponent is a whole number"},
        {"run ^ 13", "exponent is a whole number"},
        {"run ^ 1.5", "exponent is a whole number"},
        {"run ^ x", "exponent is a whole number"},
        {"run ^ /", "exponent is a whole number"},
        {"run ^ -:", "exponent is a whole number"},
        {"run ^ 100", "exponent is a whole number"},
        {"(1 A - 1 A) ^ -1", "division by zero"},
        {"1 V / (2 A - 2 A)", "division by zero"},
        {"1 V / (1 A \xC2\xB1 2 A)", "the divisor's range has 0 in it"},
        {"(1 V to 9999999999999999999999999999999 V) ^ 12", "not a number"},
        {"hot * 2", "used as an amount"},
        {"2 / hot", "used as an amount"},
        {"hot ^ 2", "used as an amount"},
        {"hot + cold", "adding temperatures"},
        {"5 K - cold", "subtracting temperatures"},
        {"word word", "at 'word'"},
        {"\"shut\" more", "more"},
        {">= size", "a limit of a wire size"},
        {"<= ", "something is missing here"},
        {"30-87", "30-87"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b = open_value(
            arena_printf(a, "tried = %s\nalso = tried", rows[i].text));
        const char *messages = bench_messages(&b);
        if (strstr(messages, rows[i].message) == NULL ||
            diag_count(b.c.diags, LEVEL_WARNING) != 1)
            fail_msg("%s: wanted '%s', got %s", rows[i].text, rows[i].message,
                     messages);
        bench_close(&b);
        arena_free(a);
    }
}

static void test_other_values(void **state) {
    (void)state;
    struct guide_bench b = open_value("same = word\nother = no");
    bench_expect_quiet(&b);
    assert_int_equal(bench_value(&b, "word", 0)->type, VALUE_TEXT);
    assert_true(text_is(bench_value(&b, "same", 0)->text, "starter battery"));
    assert_int_equal(bench_value(&b, "sure", 0)->type, VALUE_TRUTH);
    assert_true(bench_value(&b, "sure", 0)->truth);
    assert_false(bench_value(&b, "other", 0)->truth);
    assert_int_equal(bench_value(&b, "size", 0)->type, VALUE_SIZE);
    const struct value *least = bench_value(&b, "least", 0);
    assert_int_equal(least->type, VALUE_LIMIT);
    assert_true(least->low->nominal == 11.4 && least->high == NULL);
    const struct value *most = bench_value(&b, "most", 0);
    assert_true(most->high->nominal == 0.1 && most->low == NULL);
    bench_close(&b);
}

static void test_dimensions(void **state) {
    (void)state;
    struct guide_bench b = open_value("power = press * flow\n"
                                      "ratio = run / rear.run\n"
                                      "area = run ^ 2\n"
                                      "side = sqrt(area)\n"
                                      "rise = hot - cold\n"
                                      "odd = run ^ 2 * flow\n");
    bench_expect_quiet(&b);
    char name[UNIT_TEXT];
    struct arena *a = b.c.arena;
    assert_string_equal(dim_name(bench_quantity(&b, "power")->dim, name),
                        "power");
    assert_true(dim_none(bench_quantity(&b, "ratio")->dim));
    assert_string_equal(dim_name(bench_quantity(&b, "side")->dim, name),
                        "length");
    assert_false(bench_quantity(&b, "rise")->dim.point);
    assert_true(bench_quantity(&b, "hot")->dim.point);
    assert_string_equal(
        figure_plain(a, figure_of(a, bench_quantity(&b, "odd"), FIGURE_PLAIN)),
        "12.0 m2\xC2\xB7"
        "A");
    bench_close(&b);
}

/* Relations: each sign, and sizes against sizes. */
static void test_comparisons(void **state) {
    (void)state;
    static const struct {
        const char *text;
        enum relation relation;
    } rows[] = {
        {"run <= 3 m", RELATION_AT_MOST},
        {"run \xE2\x89\xA4 3 m", RELATION_AT_MOST},
        {"run >= 1 m", RELATION_AT_LEAST},
        {"run \xE2\x89\xA5 1 m", RELATION_AT_LEAST},
        {"run < 3 m", RELATION_BELOW},
        {"run > 1 m", RELATION_ABOVE},
        {"run = 2 m", RELATION_EQUAL},
        {"size >= 12 AWG", RELATION_AT_LEAST},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b = open_value(
            arena_printf(a, "```\n\n```check\n%s  \"why\"", rows[i].text));
        bench_expect_quiet(&b);
        assert_int_equal(requirement_count(b.values), 1);
        const struct requirement *r = requirement_at(b.values, 0);
        assert_int_equal(r->relation, rows[i].relation);
        assert_string_equal(r->source, "why");
        bench_close(&b);
        arena_free(a);
    }
}

static void test_comparisons_that_fail(void **state) {
    (void)state;
    static const struct {
        const char *text, *message;
    } rows[] = {
        {"run", "a check compares"},
        {"run <=", "something is missing here"},
        {"run<=3 m", "one word"},
        {"run <= 3 m <= 4 m", "'<='"},
        {"run <= press", "comparing length and voltage"},
        {"run <= word", "comparing a text"},
        {"hot <= 20 K", "temperature with a difference"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct guide_bench b =
            open_value(arena_printf(a, "```\n\n```check\n%s", rows[i].text));
        if (strstr(bench_messages(&b), rows[i].message) == NULL ||
            diag_count(b.c.diags, LEVEL_WARNING) != 1 ||
            requirement_count(b.values) != 0)
            fail_msg("%s: wanted '%s', got %s", rows[i].text, rows[i].message,
                     bench_messages(&b));
        bench_close(&b);
        arena_free(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_arithmetic),
        cmocka_unit_test(test_slips),
        cmocka_unit_test(test_other_values),
        cmocka_unit_test(test_dimensions),
        cmocka_unit_test(test_comparisons),
        cmocka_unit_test(test_comparisons_that_fail),
    };
    return cmocka_run_group_tests_name("values/expression", tests, NULL, NULL);
}
