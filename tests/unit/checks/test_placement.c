/* test_placement.c - where cautions stand: once in a section, before the first
 * step concerned, for each variant that does it. */
#include "../values/bench.h"

#include "checks/hazards.h"

struct placed {
    struct guide_bench bench;
    struct findings *f;
};

static struct placed place_using(const char *facts, const char *text) {
    struct placed p = {.bench = bench_open_using(facts, text)};
    p.f = checks_run(&p.bench.c, p.bench.guide, p.bench.values);
    return p;
}

static struct placed place(const char *text) {
    return place_using(NULL, text);
}

static void close(struct placed *p) {
    bench_close(&p->bench);
}

/* "2 all, 4 long": before which steps a row stands, and for which variants. */
static void expect(struct placed *p, const char *row, const char *wanted) {
    struct arena *a = p->bench.c.arena;
    struct buf b = buf_in(a);
    for (size_t i = 0; i < p->f->caution_count; i++) {
        const struct caution *c = &p->f->caution[i];
        if (strcmp(c->row, row) != 0)
            continue;
        bool all = c->variants == values_applies(p->bench.values);
        buf_printf(&b, "%s%s %s", b.len == 0 ? "" : "; ", c->before->number,
                   all ? "all"
                       : values_variant_names(p->bench.values, a, c->variants));
    }
    if (strcmp(buf_cstr(&b), wanted) != 0)
        fail_msg("%s: got '%s', wanted '%s'; %s", row, buf_cstr(&b), wanted,
                 bench_messages(&p->bench));
}

static void test_once_in_a_section(void **state) {
    (void)state;
    struct placed p = place("## Procedure\n\n"
                            "1. Look.\n"
                            "2. {touches fuel} Open the line.\n"
                            "3. {touches fuel} Drain it.\n\n"
                            "Text.\n\n"
                            "1. {touches fuel} Close it.\n\n"
                            "## Test\n\n"
                            "1. Look.\n"
                            "2. {touches fuel} Run it.\n");
    expect(&p, "H15", "2 all; 6 all");
    close(&p);
}

/* A step for some hides nothing from the others. */
static void test_once_for_each_variant(void **state) {
    (void)state;
    struct placed p =
        place_using("bench", "## Procedure\n\n"
                             "1. {for long} {touches fuel} One.\n"
                             "2. {for long} {touches fuel} Two.\n"
                             "3. {touches fuel} Three.\n"
                             "4. {for short} {touches fuel} Four.\n"
                             "5. {touches fuel} Five.\n\n"
                             "## Test\n\n"
                             "1. {for long} {touches fuel} Six.\n"
                             "2. {for short} {touches fuel} Seven.\n"
                             "3. {for long, short} {touches fuel} Eight.\n"
                             "4. {for tall} Nine.\n");
    expect(&p, "H15", "1 long; 3 all; 6 long; 7 short");
    close(&p);
}

static void test_marks_of_headings(void **state) {
    (void)state;
    struct placed p = place("## {touches fuel} Procedure\n\n"
                            "1. One.\n\n"
                            "## Test\n\n"
                            "1. Two.\n\n"
                            "### {touches solvent} Under it\n\n"
                            "1. Three.\n\n"
                            "#### Deeper\n\n"
                            "1. Four.\n\n"
                            "### Another\n\n"
                            "1. Five.\n\n"
                            "## Close-up\n\n"
                            "1. Six\n"
                            "   1. {touches solvent} A substep.\n");
    expect(&p, "H15", "1 all");
    expect(&p, "H21", "3 all; 6 all");
    close(&p);
}

static const char wired[] = "```supply battery\n"
                            "chemistry: lithium\n"
                            "resting: 13.2 V\n"
                            "resistance: 100 mohm\n"
                            "```\n\n"
                            "```wire feed\n"
                            "load: 5 A\n"
                            "loop: 2 m\n"
                            "%s"
                            "insulation: 105 degC\n"
                            "ambient: 20 degC\n"
                            "conductor: AWG stranded\n"
                            "use: 14 AWG\n"
                            "```\n\n"
                            "```fuse F1\n"
                            "protects: feed\n"
                            "place: 5 in from battery +\n"
                            "style: strip SF30\n"
                            "use: 30 A\n"
                            "interrupt: 20 kA\n"
                            "```\n\n"
                            "%s";

static struct placed place_wired(const char *supply, const char *facts,
                                 const char *steps) {
    struct arena *a = arena_new();
    struct placed p = place_using(facts, arena_printf(a, wired, supply, steps));
    arena_free(a);
    return p;
}

/* The step that names the wire comes before the step that has the word. */
static void test_words_and_figures_together(void **state) {
    (void)state;
    struct placed p = place_wired("supply: battery\n", NULL,
                                  "## Procedure\n\n"
                                  "1. Look at the feed.\n"
                                  "2. Run {feed.size}.\n"
                                  "3. {does disconnect} Take it off.\n\n"
                                  "## Test\n\n"
                                  "1. {touches battery} Measure.\n"
                                  "2. Look at {feed.drop}.\n");
    expect(&p, "H01", "2 all; 4 all");
    expect(&p, "H04", ""); /* 132 A at the most, and measured */
    close(&p);
}

/* No step names what fires: before the first of the Procedure, for each. */
static void test_named_by_no_step(void **state) {
    (void)state;
    struct placed p = place_wired("supply: battery\n", "bench",
                                  "## As found\n\n"
                                  "1. Look.\n\n"
                                  "## Procedure\n\n"
                                  "1. {for long} Route it.\n"
                                  "2. {for short} Route it.\n"
                                  "3. Fit the feed and F10.\n"
                                  "4. Fit the feed.\n");
    expect(&p, "H01", "2 long; 3 short; 4 all");
    close(&p);
    p = place_wired("supply: battery\n", "bench",
                    "## As found\n\n1. {for long} Look.\n2. Look.\n");
    expect(&p, "H01", "1 long; 2 all");
    close(&p);
}

/* Placed by a word for some: the others are warned at their first step. */
static void test_word_for_some(void **state) {
    (void)state;
    struct placed p =
        place_wired("supply: battery\n", "bench",
                    "## Procedure\n\n"
                    "1. Look.\n"
                    "2. {for long} {does disconnect} Take it off.\n");
    expect(&p, "H01", "1 all; 2 long");
    close(&p);
}

static void test_what_a_step_names(void **state) {
    (void)state;
    struct placed p = place_wired("", NULL,
                                  "## Procedure\n\n"
                                  "1. The feed of aF1, F1a and F12.\n"
                                  "2. Fit *(F1)*.\n\n"
                                  "## Test\n\n"
                                  "1. At {2 V} and {12 V} feed.size.\n"
                                  "2. At {feed.drop * 2}.\n");
    /* Without a supply nobody knows what feeds a short. */
    expect(&p, "H04", "2 all");
    expect(&p, "H01", "4 all");
    bool told = false;
    for (size_t i = 0; i < p.f->caution_count; i++)
        told = told || strstr(p.f->caution[i].hazard, "a high current") != NULL;
    assert_true(told);
    close(&p);
}

static void test_line_voltage_of_a_supply(void **state) {
    (void)state;
    struct placed p = place("```supply shore\n"
                            "chemistry: none\n"
                            "resting: 120 V\n"
                            "resistance: 1 ohm\n"
                            "```\n\n"
                            "```wire hot\n"
                            "load: 5 A\n"
                            "loop: 2 m\n"
                            "supply: shore\n"
                            "insulation: 105 degC\n"
                            "conductor: AWG stranded\n"
                            "```\n\n"
                            "## Procedure\n\n"
                            "1. Look.\n"
                            "2. Run {hot.size}.\n\n"
                            "## Test\n\n"
                            "1. Measure {shore.resting}.\n");
    expect(&p, "H09", "2 all; 3 all");
    expect(&p, "H01", "");
    expect(&p, "H07", "2 all"); /* ambient is not stated */
    close(&p);
}

static void test_joint_counts_as_its_tag(void **state) {
    (void)state;
    struct placed p = place("```torque nuts\n"
                            "joint: wheel\n"
                            "re-check: 50 miles\n"
                            "condition: clean, dry\n"
                            "figure: 80 lbf.ft  \"a sheet\"\n"
                            "```\n\n"
                            "```torque lid\n"
                            "joint: other\n"
                            "condition: clean, dry\n"
                            "figure: 8 lbf.ft  \"a sheet\"\n"
                            "```\n\n"
                            "## Procedure\n\n"
                            "1. Close the lid to {lid.torque}.\n"
                            "2. Tighten to {nuts.torque}. {initial}\n");
    bench_expect_quiet(&p.bench);
    expect(&p, "H26", "2 all");
    close(&p);
}

/* An override sets a row aside everywhere; for one block it does not. */
static void test_overrides(void **state) {
    (void)state;
    static const char text[] = "## Procedure\n\n"
                               "1. {does disconnect} Take the cable off.\n"
                               "2. {touches fuel} Open it.\n\n"
                               "```override H15\n"
                               "%s"
                               "reason: the line is dry\n"
                               "approver: J. Thorne\n"
                               "```\n\n"
                               "```override reconnect\n"
                               "reason: the next guide does it\n"
                               "approver: J. Thorne\n"
                               "```\n";
    struct arena *a = arena_new();
    struct placed p = place(arena_printf(a, text, ""));
    bench_expect_quiet(&p.bench);
    expect(&p, "H15", "");
    close(&p);
    p = place(arena_printf(a, text, "at: line\n"));
    expect(&p, "H15", "2 all");
    assert_int_equal(diag_count(p.bench.c.diags, LEVEL_WARNING), 1);
    close(&p);
    arena_free(a);
}

/* The higher signal word first, then by row. */
static void test_order_before_one_step(void **state) {
    (void)state;
    static const struct {
        const char *row;
        enum signal signal;
    } wanted[] = {
        {"H17", SIGNAL_DANGER},  {"H13b", SIGNAL_WARNING},
        {"H15", SIGNAL_WARNING}, {"H21", SIGNAL_CAUTION},
        {"H30", SIGNAL_NOTICE},
    };
    struct placed p =
        place("## Procedure\n\n"
              "1. {touches electronics, solvent, fuel, engine running} Do.\n");
    assert_int_equal(p.f->caution_count, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_string_equal(p.f->caution[i].row, wanted[i].row);
        assert_int_equal(p.f->caution[i].signal, wanted[i].signal);
    }
    close(&p);
}

/* What `help` lists is what a does-mark may say. */
static void test_deeds(void **state) {
    (void)state;
    size_t count = 0;
    for (const char *deed; (deed = hazards_deed(count)) != NULL; count++) {
        struct arena *a = arena_new();
        struct placed p = place(
            arena_printf(a, "## Procedure\n\n1. {does %s} Do it.\n", deed));
        assert_null(strstr(bench_messages(&p.bench), "unknown word"));
        close(&p);
        arena_free(a);
    }
    assert_int_equal(count, 17);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_once_in_a_section),
        cmocka_unit_test(test_once_for_each_variant),
        cmocka_unit_test(test_marks_of_headings),
        cmocka_unit_test(test_words_and_figures_together),
        cmocka_unit_test(test_named_by_no_step),
        cmocka_unit_test(test_word_for_some),
        cmocka_unit_test(test_what_a_step_names),
        cmocka_unit_test(test_line_voltage_of_a_supply),
        cmocka_unit_test(test_joint_counts_as_its_tag),
        cmocka_unit_test(test_overrides),
        cmocka_unit_test(test_order_before_one_step),
        cmocka_unit_test(test_deeds),
    };
    return cmocka_run_group_tests_name("checks/placement", tests, NULL, NULL);
}
