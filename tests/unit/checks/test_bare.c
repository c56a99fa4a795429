/* test_bare.c - numbers with a unit that stand in running text by themselves.
 */
#include "../values/bench.h"

#include "checks/findings.h"

/* How many bare numbers a paragraph has. */
static size_t bare(const char *text) {
    struct guide_bench b = bench_open(text);
    checks_run(&b.c, b.guide, b.values);
    size_t count = 0;
    for (const char *s = bench_messages(&b); (s = strstr(s, "write {")) != NULL;
         s++)
        count++;
    bench_close(&b);
    return count;
}

static void test_what_is_a_bare_number(void **state) {
    (void)state;
    static const struct {
        const char *text;
        size_t count;
    } rows[] = {
        {"Run 5 A through it.", 1},
        {"Run 5A through it.", 1},
        {"Run 2.5 V and 3 A.", 2},
        {"Use a 1/2 in drill.", 1},
        {"Use 10 AWG wire.", 1},
        {"Use 10 AWGs.", 0},
        {"Cut 3\" off.", 1},
        {"Cut 3' off.", 1},
        {"Heat to 60 \xC2\xB0"
         "C.",
         1},
        {"At 80 %.", 1},
        {"Run {5 A} through it.", 0},
        {"Turn it 3 times.", 0},
        {"See 2 in the manual.", 0},
        {"Cut 2 in off.", 1},
        {"Terminal 30-87.", 0},
        {"Bolt M8 V.", 0},
        {"The 1980s and 5ths.", 0},
        {"`5 A` in code.", 0},
        {"*5 A* and **6 A**.", 2},
        {"Fuse F5 A.", 0},
        {"In 5 ways.", 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        size_t got = bare(rows[i].text);
        if (got != rows[i].count)
            fail_msg("%s: %zu", rows[i].text, got);
    }
}

static void test_where_it_is_looked_for(void **state) {
    (void)state;
    assert_int_equal(
        bare("## Fit 5 A\n\n1. At 6 A.\n   1. And 7 A.\n\n- 8 A\n\n"
             "> 9 A\n"),
        5);
    /* a table's cells of running text, not its limits */
    assert_int_equal(bare("```limits\n"
                          "id | characteristic | limit | instrument | if out\n"
                          "R1 | at 5 A | <= 0.4 V | meter, 1 mV | add 2 A\n"
                          "```\n\n1. {reading R1}\n"),
                     2);
    assert_int_equal(bare("```warning\n"
                          "hazard: 120 V inside.\n"
                          "consequence: It can kill.\n"
                          "avoidance: Stay 2 m away.\n"
                          "```\n"),
                     2);
    /* names of parts; a reason that quotes the rule that it sets aside */
    assert_int_equal(bare("```parts\n"
                          "item | description | quantity\n"
                          "P1 | relay 30 A | 1\n"
                          "```\n\n"
                          "```override H15\n"
                          "reason: 2 L are left\n"
                          "approver: J. Thorne\n"
                          "```\n\n"
                          "1. {touches fuel} Open it.\n"),
                     0);
}

/* A warning in a draft; refused in a released guide. */
static void test_status(void **state) {
    (void)state;
    static const char *const status[] = {"draft", "released", "withdrawn"};
    static const int wanted[] = {0, 1, 0};
    for (int i = 0; i < 3; i++) {
        struct arena *a = arena_new();
        struct compile c = {.arena = a, .diags = diag_new(a), .library = "."};
        const char *text =
            arena_printf(a,
                         "# Try it\n\n```guide\nid: T-1\nrevision: 1\n"
                         "status: %s\napprover: J. Thorne\n```\n\nRun 5 A.\n",
                         status[i]);
        struct guide *g = source_read_text(&c, "bare.md", text_of(text));
        checks_run(&c, g, values_evaluate(&c, g));
        assert_int_equal(diag_count(c.diags, LEVEL_REFUSED) > 0, wanted[i]);
        assert_int_equal(diag_count(c.diags, LEVEL_WARNING), 1);
        arena_free(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_is_a_bare_number),
        cmocka_unit_test(test_where_it_is_looked_for),
        cmocka_unit_test(test_status),
    };
    return cmocka_run_group_tests_name("checks/bare", tests, NULL, NULL);
}
