/* test_judge.c - verdicts: the worst end, the printed figures, what is told of
 * them, and which variants and overrides they meet. */
#include "../values/bench.h"

#include "checks/findings.h"

#include <math.h>

struct judged {
    struct guide_bench bench;
    struct findings *f;
};

static struct judged judge_using(const char *facts, const char *text) {
    struct judged j = {.bench = bench_open_using(facts, text)};
    j.f = checks_run(&j.bench.c, j.bench.guide, j.bench.values);
    return j;
}

/* Some values and one check. */
static struct judged judge(const char *check) {
    static const char text[] = "```values\n"
                               "x = 5 V \xC2\xB1 1 V\n"
                               "y = 2 V \xC2\xB1 0.5 V\n"
                               "low = 0.4 V\n"
                               "fine = 0.40004 V\n"
                               "coarse = 12.6 V \xC2\xB1 0.37 %%\n"
                               "third = 1 V / 3\n"
                               "warm = 40 degC \xC2\xB1 2 K\n"
                               "debt = -2 A\n"
                               "```\n\n"
                               "```check\n%s\n```\n";
    struct arena *a = arena_new();
    struct judged j = judge_using(NULL, arena_printf(a, text, check));
    arena_free(a);
    return j;
}

static void close(struct judged *j) {
    bench_close(&j->bench);
}

/* Blanks for U+00A0. */
static const char *plain(struct judged *j, const char *s) {
    struct buf b = buf_in(j->bench.c.arena);
    for (; s != NULL && *s != '\0'; s++)
        if (strncmp(s, "\xC2\xA0", 2) == 0) {
            buf_puts(&b, " ");
            s++;
        } else {
            buf_add(&b, s, 1);
        }
    return buf_cstr(&b);
}

static void test_what_holds(void **state) {
    (void)state;
    static const struct {
        const char *check;
        bool holds;
    } rows[] = {
        {"x <= 6 V", true},
        {"x < 6 V", false},
        {"x <= 5.9999 V", false},
        {"x >= 4 V", true},
        {"x > 4 V", false},
        {"x > 3.9 V", true},
        {"x < 6.1 V", true},
        {"x = 5 V", false},
        {"x = x", true},
        {"x <= x", true},
        {"x < x", false},
        {"x + y <= x + 2.5 V", true},
        {"x + y <= x + 2.49 V", false},
        {"x * 2 >= x + 4 V", true},
        {"x * 2 >= x + 4.1 V", false},
        {"y <= x", true},
        {"x <= y", false},
        {"x - y >= 1.5 V", true},
        {"low * 3 <= 1.2 V", true}, /* 1.2000000000000002 */
        {"low * 3 >= 1.2 V", true},
        {"low * 3 = 1.2 V", true},
        {"low * 3 < 1.2 V", false},
        {"low * 3 > 1.2 V", false},
        {"1 ft = 12 in", true},
        {"0.3 V - 0.1 V = 0.2 V", true},
        {"debt <= -2 A", true},
        {"debt < -1.9 A", true},
        {"debt >= -1.9 A", false},
        {"0 V <= 0 V", true},
        {"0 V < 0 V", false},
        /* as printed: 0.333 V up is 0.334 V */
        {"third <= 0.3334 V", false},
        {"third <= 0.334 V", true},
        {"third >= 0.3333 V", false},
        {"third >= 0.333 V", true},
        {"fine <= 0.40004 V", true},
        {"fine <= 0.40003 V", false},
        {"coarse <= 12.647 V", true}, /* 12.64662 V prints as 12.647 V */
        {"coarse <= 12.6467 V", false},
        {"warm <= 42 degC", true},
        {"warm < 108 degF", true},
        {"warm <= 107 degF", false},
        {"14 AWG < 12 AWG", true},
        {"14 AWG >= 12 AWG", false},
        {"12 AWG = 12 AWG", true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct judged j = judge(rows[i].check);
        if (j.f->verdict_count != 1 || j.f->verdict[0].holds != rows[i].holds ||
            (diag_status(j.bench.c.diags) == 0) != rows[i].holds)
            fail_msg("%s: %s", rows[i].check, bench_messages(&j.bench));
        close(&j);
    }
}

static void test_what_is_told(void **state) {
    (void)state;
    static const struct {
        const char *check, *value, *limit, *margin;
        double slack;
    } rows[] = {
        {"x <= 8 V", "6 V", "8 V", "25 %", 0.25},
        {"x >= 2 V", "4 V", "2 V", "100 %", 1},
        {"x <= 6 V", "6 V", "6 V", "0 %", 0},
        {"x <= 5 V", "6 V", "5 V", "1 V", -0.2},
        {"x >= 5 V", "4 V", "5 V", "1 V", -0.2},
        {"8 V >= x", "8 V", "6 V", "33 %", 1.0 / 3},
        {"8 V <= x * 2", "8 V", "8.00 V", "0 %", 0},
        {"3 V >= x", "3 V", "6 V", "3 V", -0.5},
        {"x <= 0 V", "6 V", "0 V", "6 V", -INFINITY},
        {"x >= 0 V", "4 V", "0 V", "", INFINITY},
        {"debt <= -1 A",
         "\xE2\x88\x92"
         "2 A",
         "\xE2\x88\x92"
         "1 A",
         "100 %", 1},
        /* a temperature: the degrees between the figures as printed */
        {"warm <= 60 degC",
         "42 \xC2\xB0"
         "C",
         "60 \xC2\xB0"
         "C",
         "18 \xC2\xB0"
         "C",
         18 / 333.15},
        {"warm >= 20 degC",
         "38 \xC2\xB0"
         "C",
         "20 \xC2\xB0"
         "C",
         "18 \xC2\xB0"
         "C",
         18 / 293.15},
        {"warm <= 60.5 degC",
         "42 \xC2\xB0"
         "C",
         "60.5 \xC2\xB0"
         "C",
         "18.5 \xC2\xB0"
         "C",
         18.5 / 333.65},
        {"warm <= 140 degF",
         "42 \xC2\xB0"
         "C",
         "140 \xC2\xB0"
         "F",
         "18 \xC2\xB0"
         "C",
         18 / 333.15},
        {"warm + 0.6 K <= 60 degC",
         "43 \xC2\xB0"
         "C",
         "60 \xC2\xB0"
         "C",
         "17 \xC2\xB0"
         "C",
         17.4 / 333.15},
        {"warm <= 42 degC",
         "42 \xC2\xB0"
         "C",
         "42 \xC2\xB0"
         "C",
         "0 \xC2\xB0"
         "C",
         0},
        {"warm - warm + 2 K <= 4 K", "2.00 K", "4 K", "50 %", 0.5},
        /* both sides at x = 6 V */
        {"x <= x * 1.5", "4 V", "6 V", "33 %", 1.0 / 3},
        {"x * 1.5 <= x", "9.00 V", "6.00 V", "3.00 V", -0.5},
        {"third <= 0.3334 V", "0.334 V", "0.3334 V",
         "less than the last printed digit", 0.0002},
        {"fine <= 0.4 V", "0.40004 V", "0.40000 V", "0.00004 V", -0.0001},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct judged j = judge(rows[i].check);
        const struct verdict *v = &j.f->verdict[0];
        if (strcmp(plain(&j, v->value), rows[i].value) != 0 ||
            strcmp(plain(&j, v->limit), rows[i].limit) != 0 ||
            strcmp(plain(&j, v->margin), rows[i].margin) != 0 ||
            !(v->slack == rows[i].slack ||
              fabs(v->slack - rows[i].slack) < 1e-4))
            fail_msg("%s: %s, %s, %s, %g", rows[i].check, plain(&j, v->value),
                     plain(&j, v->limit), plain(&j, v->margin), v->slack);
        close(&j);
    }
}

static void test_messages(void **state) {
    (void)state;
    static const struct {
        const char *check, *message;
    } rows[] = {
        {"x <= 5 V", "6 V must be at most 5 V, it is 1 V too much; worst at x "
                     "6 V"},
        {"x >= 5 V", "4 V must be at least 5 V, it is 1 V too little; worst at "
                     "x 4 V"},
        {"x + y <= 8 V", "8.50 V must be at most 8.00 V, it is 0.50 V too "
                         "much; worst at x 6 V, y 2.5 V"},
        {"x = 6 V", "4 V must be equal to 6 V, it is 2 V too little"},
        {"x = 4 V", "6 V must be equal to 4 V, it is 2 V too much"},
        {"x < x", "must be below 4 V, not equal to it"},
        {"third <= 0.3334 V", "holds unrounded but not as printed, 0.334 V "
                              "against 0.3334 V"},
        {"14 AWG >= 12 AWG", "14 AWG against 12 AWG"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct judged j = judge(rows[i].check);
        const char *messages = plain(&j, bench_messages(&j.bench));
        if (strstr(messages, rows[i].message) == NULL)
            fail_msg("%s: wanted '%s', got %s", rows[i].check, rows[i].message,
                     messages);
        close(&j);
    }
}

/* Variants that print alike are one verdict, with the least slack of them. */
static void test_variants(void **state) {
    (void)state;
    struct judged j =
        judge_using("bench", "```values\n"
                             "run = 2 m [short, tall] 4 m [long]\n"
                             "fine = 2.0001 m [short] 2.0002 m [others]\n"
                             "size = 10 AWG [short] 8 AWG [others]\n"
                             "```\n\n"
                             "```check\n"
                             "run <= 3 m\n"
                             "run * 1.00001 <= 9 m\n"
                             "size >= 10 AWG\n"
                             "```\n");
    assert_int_equal(j.f->verdict_count, 6);
    const struct verdict *v = j.f->verdict;
    assert_int_equal(v[0].variants, 1 | 4);
    assert_true(v[0].holds);
    assert_int_equal(v[1].variants, 2);
    assert_false(v[1].holds);
    assert_int_equal(v[4].variants, 1);
    assert_string_equal(v[4].what, "size >= 10 AWG: 10 AWG against 10 AWG");
    assert_int_equal(v[5].variants, 2 | 4);
    assert_string_equal(v[5].what, "size >= 10 AWG: 8 AWG against 10 AWG");
    assert_non_null(strstr(bench_messages(&j.bench), "; in long\n"));
    close(&j);
}

static const char fused[] = "```wire feed\n"
                            "load: 10 A\n"
                            "loop: 4 m\n"
                            "supply: 12 V\n"
                            "insulation: 105 degC\n"
                            "ambient: 20 degC\n"
                            "conductor: AWG stranded\n"
                            "use: %s\n"
                            "```\n\n"
                            "```fuse F1\n"
                            "protects: feed\n"
                            "place: 5 in from battery +\n"
                            "style: strip SF30\n"
                            "interrupt: 20 kA\n"
                            "use: 30 A\n"
                            "```\n\n"
                            "```override H06\n"
                            "%s"
                            "reason: a test\n"
                            "approver: J. Thorne\n"
                            "```\n";

static struct judged judge_fuse(const char *size, const char *at) {
    struct arena *a = arena_new();
    struct judged j = judge_using(NULL, arena_printf(a, fused, size, at));
    arena_free(a);
    return j;
}

static const struct verdict *find_rule(const struct judged *j,
                                       const char *rule) {
    for (size_t i = 0; i < j->f->verdict_count; i++)
        if (j->f->verdict[i].rule != NULL &&
            strcmp(j->f->verdict[i].rule, rule) == 0)
            return &j->f->verdict[i];
    return NULL;
}

/* 16 AWG at 105 degC carries 25 A, 18 AWG 20 A: 33 CFR 183.425 Table 5. An
 * override reaches to 150 % of it, 30 A against 20 A included. */
static void test_overrides(void **state) {
    (void)state;
    struct judged j = judge_fuse("16 AWG", "");
    assert_true(find_rule(&j, "H06")->overridden);
    assert_int_equal(diag_status(j.bench.c.diags), 0);
    assert_int_equal(j.f->waiver_count, 1);
    assert_string_equal(j.f->waiver[0].reason, "a test");
    close(&j);
    j = judge_fuse("16 AWG", "at: F1\n");
    assert_true(find_rule(&j, "H06")->overridden);
    assert_string_equal(j.f->waiver[0].at, "F1");
    close(&j);
    j = judge_fuse("16 AWG", "at: feed\n"); /* the rule belongs to the fuse */
    assert_false(find_rule(&j, "H06")->overridden);
    assert_int_equal(diag_status(j.bench.c.diags), 1);
    assert_non_null(
        strstr(bench_messages(&j.bench), "override sets nothing aside"));
    close(&j);
    j = judge_fuse("18 AWG", "");
    assert_true(find_rule(&j, "H06")->overridden);
    close(&j);
    j = judge_fuse("18 AWG\nbundle: 4", "");
    assert_false(find_rule(&j, "H06")->overridden);
    assert_non_null(strstr(bench_messages(&j.bench), "150 %"));
    assert_null(strstr(bench_messages(&j.bench), "sets nothing aside"));
    close(&j);
    j = judge_fuse("8 AWG", "");
    assert_true(find_rule(&j, "H06")->holds);
    assert_non_null(
        strstr(bench_messages(&j.bench), "override sets nothing aside"));
    close(&j);
}

/* The size that would pass, of the wire that the check rests on. */
static void test_remedies(void **state) {
    (void)state;
    static const char text[] = "```wire one\n"
                               "load: 10 A\nloop: 4 m\nsupply: 12 V\n"
                               "ambient: 20 degC\ninsulation: 105 degC\n"
                               "conductor: AWG stranded\nuse: 16 AWG\n"
                               "```\n\n"
                               "```wire two\n"
                               "load: 5 A\nloop: 1 m\nsupply: 12 V\n"
                               "ambient: 20 degC\ninsulation: 105 degC\n"
                               "conductor: AWG stranded\nuse: 16 AWG\n"
                               "```\n\n"
                               "```values\nlost = one.drop + 0.1 V\n```\n\n"
                               "```check\n%s\n```\n";
    static const struct {
        const char *check, *cure;
    } rows[] = {
        {"one.drop <= 0.3 V", "one in 12 AWG passes"},
        {"lost <= 0.3 V", "one in 10 AWG passes"},
        {"two.drop <= 0.05 V", "two in 14 AWG passes"},
        {"0.3 V >= one.drop", "one in 12 AWG passes"},
        {"one.drop >= 9 V", NULL},
        {"one.drop <= 0.0001 V", NULL},
        {"2 V <= 1 V", NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct arena *a = arena_new();
        struct judged j =
            judge_using(NULL, arena_printf(a, text, rows[i].check));
        const char *messages = bench_messages(&j.bench);
        if (rows[i].cure == NULL ? strstr(messages, " passes") != NULL
                                 : strstr(messages, rows[i].cure) == NULL)
            fail_msg("%s: %s", rows[i].check, messages);
        close(&j);
        arena_free(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_holds), cmocka_unit_test(test_what_is_told),
        cmocka_unit_test(test_messages),   cmocka_unit_test(test_variants),
        cmocka_unit_test(test_overrides),  cmocka_unit_test(test_remedies),
    };
    return cmocka_run_group_tests_name("checks/judge", tests, NULL, NULL);
}
