/* test_hazards.c - rows of the catalogue: what fires, where it stands, what an
 * override does. */
#include "../values/bench.h"

#include "checks/findings.h"

/* A guide that is sound but for what a test changes. */
static const char sound[] = "```supply battery\n"
                            "chemistry: %s\n"
                            "resting: 12.6 V\n"
                            "charging: 13.8 V\n"
                            "%s"
                            "```\n\n"
                            "```wire feed\n"
                            "load: 10 A\n"
                            "loop: 4 m\n"
                            "supply: battery\n"
                            "insulation: 105 degC\n"
                            "%s"
                            "conductor: AWG stranded\n"
                            "use: 12 AWG\n"
                            "```\n\n"
                            "```fuse F1\n"
                            "protects: feed\n"
                            "%s"
                            "style: strip SF30\n"
                            "interrupt: 20 kA\n"
                            "use: 30 A\n"
                            "```\n\n"
                            "## Procedure\n\n"
                            "1. Look at the lamp.\n"
                            "2. {does disconnect} Take off the cable.\n"
                            "3. Run {feed.size} from F1.\n"
                            "4. {does reconnect} Fit the cable.\n\n"
                            "## Test\n\n"
                            "1. {touches battery} Measure.\n"
                            "%s";

struct parts {
    const char *chemistry, *resistance, *ambient, *place, *more;
};

static const struct parts usual = {"flooded", "resistance: 8 mohm\n",
                                   "ambient: 20 degC\n",
                                   "place: 5 in from battery +\n", ""};

static struct guide_bench open_with(struct parts p, struct findings **f) {
    struct arena *a = arena_new();
    const char *text = arena_printf(a, sound, p.chemistry, p.resistance,
                                    p.ambient, p.place, p.more);
    struct guide_bench b = bench_open(text);
    *f = checks_run(&b.c, b.guide, b.values);
    arena_free(a);
    return b;
}

static const struct caution *find(const struct findings *f, const char *row) {
    for (size_t i = 0; i < f->caution_count; i++)
        if (strcmp(f->caution[i].row, row) == 0)
            return &f->caution[i];
    return NULL;
}

static size_t count(const struct findings *f, const char *row) {
    size_t n = 0;
    for (size_t i = 0; i < f->caution_count; i++)
        n += strcmp(f->caution[i].row, row) == 0;
    return n;
}

static void test_sound_guide(void **state) {
    (void)state;
    struct findings *f;
    struct guide_bench b = open_with(usual, &f);
    bench_expect_quiet(&b);
    /* Live battery before the first step that takes a cable off, once in each
     * section; gas where a cable goes on again. */
    assert_non_null(find(f, "H01"));
    assert_string_equal(find(f, "H01")->before->number, "2");
    assert_int_equal(count(f, "H01"), 2);
    assert_string_equal(find(f, "H02")->before->number, "4");
    /* 13.8 V over 8 mohm and 5 in of 12 AWG: far above 200 A. */
    assert_non_null(find(f, "H04"));
    assert_non_null(strstr(find(f, "H04")->hazard, "kA"));
    assert_string_equal(find(f, "H04")->before->number, "3");
    /* 10 A in a 12 AWG wire at 20 degC is not hot. */
    assert_null(find(f, "H07"));
    bench_close(&b);
}

static void test_missing_ambient_counts_as_hot(void **state) {
    (void)state;
    struct parts p = usual;
    p.ambient = "";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    bench_expect_quiet(&b);
    assert_non_null(find(f, "H07"));
    assert_string_equal(find(f, "H07")->before->number, "3");
    bench_close(&b);
}

static void test_hot_wire(void **state) {
    (void)state;
    struct parts p = usual;
    p.ambient = "ambient: 62 degC\n";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    assert_non_null(find(f, "H07"));
    bench_close(&b);
}

static void test_missing_place_is_unfused(void **state) {
    (void)state;
    struct parts p = usual;
    p.place = "";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    assert_int_equal(diag_status(b.c.diags), LEVEL_REFUSED);
    assert_non_null(strstr(bench_messages(&b), "counts as unfused"));
    assert_null(find(f, "H05"));
    bench_close(&b);
}

/* Refused, unless it is overridden by name: then it is warned of. */
static void test_unfused_overridden(void **state) {
    (void)state;
    struct parts p = usual;
    p.place = "";
    p.more = "\n```override H05\n"
             "at: F1\n"
             "reason: the holder is part of the terminal\n"
             "approver: J. Thorne\n"
             "```\n";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    bench_expect_quiet(&b);
    assert_non_null(find(f, "H05"));
    assert_int_equal(f->waiver_count, 1);
    assert_string_equal(f->waiver[0].approver, "J. Thorne");
    bench_close(&b);
}

static void test_missing_resistance_counts(void **state) {
    (void)state;
    struct parts p = usual;
    p.resistance = "";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    assert_non_null(find(f, "H04"));
    bench_close(&b);
}

/* No gas from a lithium battery; a battery not described may give some. */
static void test_gas_by_chemistry(void **state) {
    (void)state;
    struct parts p = usual;
    p.chemistry = "lithium";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    assert_null(find(f, "H02"));
    bench_close(&b);
    p.chemistry = "AGM";
    b = open_with(p, &f);
    assert_non_null(find(f, "H02"));
    bench_close(&b);
}

static void test_inserted_row_overridden(void **state) {
    (void)state;
    struct parts p = usual;
    p.more = "\n```override H02\n"
             "reason: the battery stands outdoors\n"
             "approver: J. Thorne\n"
             "```\n";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    bench_expect_quiet(&b);
    assert_null(find(f, "H02"));
    assert_int_equal(f->waiver_count, 1);
    bench_close(&b);
}

static void test_unused_override_is_questioned(void **state) {
    (void)state;
    struct parts p = usual;
    p.more = "\n```override H06\n"
             "at: F1\n"
             "reason: none\n"
             "approver: J. Thorne\n"
             "```\n";
    struct findings *f;
    struct guide_bench b = open_with(p, &f);
    assert_int_equal(diag_status(b.c.diags), 0);
    assert_int_equal(diag_count(b.c.diags, LEVEL_WARNING), 1);
    bench_close(&b);
}

static void test_line_voltage(void **state) {
    (void)state;
    struct findings *f;
    struct guide_bench b = bench_open("```wire outlet\n"
                                      "load: 5 A\n"
                                      "loop: 6 m\n"
                                      "supply: 120 V\n"
                                      "insulation: 90 degC\n"
                                      "ambient: 20 degC\n"
                                      "conductor: AWG stranded\n"
                                      "```\n\n"
                                      "```fuse B1\n"
                                      "protects: outlet\n"
                                      "place: 5 in from inlet\n"
                                      "style: breaker\n"
                                      "interrupt: 200 kA\n"
                                      "```\n\n"
                                      "## Procedure\n\n"
                                      "1. Open the inlet.\n"
                                      "2. Run {outlet.size}.\n");
    f = checks_run(&b.c, b.guide, b.values);
    assert_non_null(find(f, "H09"));
    assert_string_equal(find(f, "H09")->before->number, "2");
    bench_close(&b);
}

#define JOINT(name, when)                                                      \
    "```torque " name "\nthread: M14 x 1.5\ngrade: 10.9\n"                     \
    "condition: clean, dry\nfigure: 90 lbf.ft  \"a sheet\"\njoint: "           \
    "seat\n" when "```\n\n"
#define TIGHTEN                                                                \
    "## Procedure\n\n1. {touches seat} Tighten to {n.torque}. {initial}\n"

/* The panel of a joint says when to tighten it again, and else nothing of it.
 */
static void test_tightened_again(void **state) {
    (void)state;
    static const struct {
        const char *guide, *end;
    } cases[] = {
        {JOINT("n", "") TIGHTEN, "Let a second person sign."},
        {JOINT("n", "re-check: 50 miles\n") TIGHTEN,
         "sign. Tighten again after 50 miles."},
        {JOINT("n", "re-check: after {500 km}\n") TIGHTEN,
         "sign. Tighten again after 500\xC2\xA0km (311\xC2\xA0mi)."},
        {JOINT("n", "re-check: 50 miles\n") JOINT("m", "re-check: 30 days\n")
             TIGHTEN,
         "sign. Tighten again as the torque table says."},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct guide_bench b = bench_open(cases[i].guide);
        struct findings *f = checks_run(&b.c, b.guide, b.values);
        const struct caution *one = find(f, "H26");
        assert_non_null(one);
        size_t all = strlen(one->avoidance), end = strlen(cases[i].end);
        assert_true(all >= end);
        assert_string_equal(one->avoidance + all - end, cases[i].end);
        bench_close(&b);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sound_guide),
        cmocka_unit_test(test_missing_ambient_counts_as_hot),
        cmocka_unit_test(test_hot_wire),
        cmocka_unit_test(test_missing_place_is_unfused),
        cmocka_unit_test(test_unfused_overridden),
        cmocka_unit_test(test_missing_resistance_counts),
        cmocka_unit_test(test_gas_by_chemistry),
        cmocka_unit_test(test_inserted_row_overridden),
        cmocka_unit_test(test_unused_override_is_questioned),
        cmocka_unit_test(test_line_voltage),
        cmocka_unit_test(test_tightened_again),
    };
    return cmocka_run_group_tests_name("checks/hazards", tests, NULL, NULL);
}
