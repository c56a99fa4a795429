/* test_present.c - values as the page prints them: settings with a second part,
 * marks in their units and variants, cells of tables. */
#include "bench.h"

#include "source/kind.h"

#include <math.h>

/* Blanks for U+00A0; "(none)" for NULL. */
static const char *plain(struct guide_bench *b, const char *s) {
    struct buf t = buf_in(b->c.arena);
    for (; s != NULL && *s != '\0'; s++)
        if (strncmp(s, "\xC2\xA0", 2) == 0) {
            buf_puts(&t, " ");
            s++;
        } else {
            buf_add(&t, s, 1);
        }
    return s == NULL ? "(none)" : buf_cstr(&t);
}

static const struct named *named(struct guide_bench *b, const char *name) {
    for (size_t i = 0; i < values_count(b->values); i++)
        if (text_is(values_at(b->values, i)->name, name))
            return values_at(b->values, i);
    fail_msg("no value '%s'", name);
    return NULL;
}

static void test_each_type(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\n"
                                      "text = \"a word\"\n"
                                      "sure = yes\n"
                                      "not.so = no\n"
                                      "size = 2/0 AWG\n"
                                      "least = >= 11.4 V\n"
                                      "most = <= 0.1 V\n"
                                      "wide = 12.6 V \xC2\xB1 0.25 V\n"
                                      "long.run = 2.6 m \xC2\xB1 0.1 m\n"
                                      "gone = 1 V / 0\n"
                                      "```\n");
    static const struct {
        const char *name;
        enum print_form form;
        const char *text;
    } rows[] = {
        {"text", PRINT_PLAIN, "a word"},
        {"sure", PRINT_PLAIN, "yes"},
        {"not.so", PRINT_PLAIN, "no"},
        {"size", PRINT_PLAIN, "2/0 AWG"},
        {"least", PRINT_PLAIN, "\xE2\x89\xA5 11.4 V"},
        {"most", PRINT_PLAIN, "\xE2\x89\xA4 0.1 V"},
        {"wide", PRINT_PLAIN, "12.6 V"},
        {"wide", PRINT_RANGE, "12.6 V (12.35 V to 12.85 V)"},
        {"wide", PRINT_LOW, "12.35 V"},
        {"wide", PRINT_HIGH, "12.85 V"},
        {"long.run", PRINT_PLAIN, "2.6 m (8.5 ft)"},
        {"long.run", PRINT_RANGE,
         "2.6 m (2.5 m to 2.7 m); 8.5 ft (8.2 ft to 8.9 ft)"},
        {"gone", PRINT_PLAIN, "(none)"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *got =
            plain(&b, values_print(b.values, b.c.arena, named(&b, rows[i].name),
                                   0, rows[i].form));
        if (strcmp(got, rows[i].text) != 0)
            fail_msg("%s: '%s'", rows[i].name, got);
    }
    bench_close(&b);
}

static void test_settings_of_two_parts(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open("```load pump\n"
                   "kind: motor\n"
                   "current: 7.6 A \xC2\xB1 0.8 A at 13.2 V\n"
                   "starting: 28 A for 60 ms\n"
                   "```\n\n"
                   "```wire feed\n"
                   "load: pump\n"
                   "loop: 2 m\n"
                   "supply: 13.2 V\n"
                   "bundle: 10\n"
                   "ampacity: AC 43.13\n"
                   "drop limit: 3 % of 13.8 V\n"
                   "conductor: AWG stranded\n"
                   "```\n\n"
                   "```fuse F1\n"
                   "protects: feed\n"
                   "place: 5 in from  battery +\n"
                   "style: strip SF30\n"
                   "interrupt: 20 kA\n"
                   "```\n\n"
                   "```torque T1\n"
                   "condition: clean, dry\n"
                   "thread: \"M8 x 1.25\"\n"
                   "figure: 20 lbf.ft  \"a sheet\"\n"
                   "wrench: 5 lbf.ft to 75 lbf.ft, step 1 lbf.ft\n"
                   "```\n");
    static const char *const rows[][2] = {
        {"pump.current", "7.6 A at 13.2 V"},
        {"pump.starting", "28 A for 60 ms"},
        {"feed.bundle", "10"},
        {"feed.ampacity setting", "AC 43.13"},
        {"feed.drop.limit", "3 % of 13.8 V"},
        {"F1.place", "5 in (127 mm) from battery +"},
        {"T1.wrench", "5 lbf\xC2\xB7"
                      "ft to 75 lbf\xC2\xB7"
                      "ft, step 1 lbf\xC2\xB7"
                      "ft"},
        {"T1.thread", "M8 x 1.25"},
        {"T1.setting", "20 lbf\xC2\xB7"
                       "ft (27 N\xC2\xB7m)"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *got =
            plain(&b, values_print(b.values, b.c.arena, named(&b, rows[i][0]),
                                   0, PRINT_PLAIN));
        if (strcmp(got, rows[i][1]) != 0)
            fail_msg("%s: '%s'; %s", rows[i][0], got, bench_messages(&b));
    }
    bench_close(&b);
}

static void test_marks(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using(
        "bench", "```values\n"
                 "run = 2 m [short] 3 m [others]\n"
                 "lost = 0.31 V \xC2\xB1 0.02 V\n"
                 "hot = 60 degC \xC2\xB1 5 K\n"
                 "```\n\n"
                 "{run} {lost in mV} {lost range} {lost * 2 in mV range} "
                 "{hot in degF} {5/16 in}\n\n"
                 "{for short} {run}\n");
    bench_expect_quiet(&b);
    static const char *const wanted[] = {
        "3 m (10 ft); short: 2 m (6.6 ft)",
        "310 mV",
        "0.31 V (0.29 V to 0.33 V)",
        "620 mV (580 mV to 660 mV)",
        ("140 \xC2\xB0"
         "F"),
        "5/16 in",
        "2 m (6.6 ft)",
    };
    size_t n = 0;
    for (size_t i = 0; i < b.guide->mark_count; i++) {
        const struct mark *m = b.guide->marks[i];
        if (m->kind != MARK_VALUE)
            continue;
        assert_string_equal(
            plain(&b, values_print_mark(b.values, b.c.arena, m,
                                        values_readers(b.values, m->node))),
            wanted[n++]);
    }
    assert_int_equal(n, 7);
    bench_close(&b);
}

/* A range that stands between the braces is what its author tells the reader:
 * it prints as written. Behind a name, and worked out, the figure alone. */
static void test_ranges_as_written(void **state) {
    (void)state;
    static const char *const rows[][2] = {
        {"{12 in to 18 in}", "12 in to 18 in (305 mm to 457 mm)"},
        {"{12 to 18 in}", "12 in to 18 in (305 mm to 457 mm)"},
        {"{11.4 V to 12.6 V}", "11.4 V to 12.6 V"},
        {"{28 A to 33 A}", "28 A to 33 A"},
        {"{10 in to 3 ft}", "10 in to 3 ft (254 mm to 914 mm)"},
        {"{45 N.m \xC2\xB1 5 N.m}", /* 29.50 to 36.88 lbf·ft */
         "45 N\xC2\xB7m \xC2\xB1 5 N\xC2\xB7m (33 lbf\xC2\xB7"
         "ft \xC2\xB1 3 lbf\xC2\xB7"
         "ft)"},
        {"{45 N.m \xC2\xB1 10 %}", "45 N\xC2\xB7m \xC2\xB1 10 % (33 lbf\xC2\xB7"
                                   "ft \xC2\xB1 10 %)"},
        {"{12.6 V +/- 0.25 V}", "12.6 V \xC2\xB1 0.25 V"},
        {"{20 degC \xC2\xB1 5 K}", "20 \xC2\xB0"
                                   "C \xC2\xB1 5 K (68 \xC2\xB0"
                                   "F \xC2\xB1 9 \xC2\xB0"
                                   "F)"},
        {"{-10 degC to 5 degC}", "\xE2\x88\x92"
                                 "10 \xC2\xB0"
                                 "C to 5 \xC2\xB0"
                                 "C (14 \xC2\xB0"
                                 "F to 41 \xC2\xB0"
                                 "F)"},
        {"{13.8 V (13.2 V to 14.4 V)}", "13.8 V (13.2 V to 14.4 V)"},
        {"{2.6 m (2.5 m to 2.7 m)}",
         "2.6 m (2.5 m to 2.7 m); 8.5 ft (8.3 ft to 8.8 ft)"},
        {"{5/16 in to 3/8 in}", "5/16 in to 3/8 in"},
        {"{2 to 3}", "2 to 3"},
        {"{4 \xC2\xB1 1}", "4 \xC2\xB1 1"},
        {"{12 in to 18 in in mm}", "305 mm to 457 mm"},
        {"{45 N.m \xC2\xB1 5 N.m in lbf.ft}", "33 lbf\xC2\xB7"
                                              "ft \xC2\xB1 3 lbf\xC2\xB7"
                                              "ft"},
        {"{10 mm \xC2\xB1 0.1 mm}",
         "10 mm \xC2\xB1 0.1 mm (0.394 in \xC2\xB1 0.003 in)"},
        {"{12 in to 18 in range}",
         "15 in (12 in to 18 in); 381 mm (304.8 mm to 457.2 mm)"},
        {"{clip}", "15 in (381 mm)"},
        {"{(12 in to 18 in) * 2}", "30.0 in (762 mm)"},
    };
    enum { ROWS = sizeof rows / sizeof rows[0] };
    struct arena *a = arena_new();
    struct buf text = buf_in(a);
    buf_puts(&text, "```values\nclip = 12 in to 18 in\n```\n\n");
    for (size_t i = 0; i < ROWS; i++)
        buf_printf(&text, "%s\n", rows[i][0]);
    struct guide_bench b = bench_open(buf_cstr(&text));
    bench_expect_quiet(&b);
    size_t n = 0;
    for (size_t i = 0; i < b.guide->mark_count; i++) {
        const struct mark *m = b.guide->marks[i];
        if (m->kind != MARK_VALUE)
            continue;
        const char *got =
            plain(&b, values_print_mark(b.values, b.c.arena, m, 1));
        assert_true(n < ROWS);
        if (strcmp(got, rows[n][1]) != 0)
            fail_msg("%s: '%s'", rows[n][0], got);
        n++;
    }
    assert_int_equal(n, ROWS);
    bench_close(&b);
    arena_free(a);
}

static const struct block *limits_of(struct guide_bench *b) {
    for (size_t i = 0; i < b->guide->block_count; i++)
        if (strcmp(b->guide->blocks[i]->kind->name, "limits") == 0)
            return b->guide->blocks[i];
    fail_msg("no limits");
    return NULL;
}

/* The ends of a band round inward, whatever that takes. */
static void test_cells(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using(
        "bench",
        "```values\n"
        "rest = 12.6 V \xC2\xB1 0.25 V\n"
        "tight = (6.3002 V \xC2\xB1 0.0004 V) * 2\n"
        "least = 10 V [short] 11 V [others]\n"
        "```\n\n"
        "```limits\n"
        "id | characteristic | limit | instrument\n"
        "R1 | at rest | rest | meter, 0.01 V\n"
        "R2 | tight | tight | meter\n"
        "R3 | lost | <= 0.405 V | meter\n"
        "R4 | least | >= least | meter\n"
        "R5 | thirds | >= 1 V / 3 | meter\n"
        "R6 | only | <= 2 V [long] | meter\n"
        "R7 | some | rest [short] | meter\n"
        "```\n\n"
        "1. {reading R1} {reading R2} {reading R3} {reading R4} {reading R5} "
        "{reading R6} {reading R7}\n");
    static const char *const wanted[] = {
        "12.35 V to 12.85 V",   "12.600 V to 12.601 V",
        "\xE2\x89\xA4 0.405 V", "\xE2\x89\xA5 11 V; short: \xE2\x89\xA5 10 V",
        "\xE2\x89\xA5 0.334 V", "(none)",
        "12.35 V to 12.85 V",
    };
    const struct block *limits = limits_of(&b);
    for (size_t i = 0; i < 5; i++)
        assert_string_equal(
            plain(&b, values_print_cell(b.values, b.c.arena, limits,
                                        &limits->entries[i], "limit", 7)),
            wanted[i]);
    assert_string_equal(values_print_cell(b.values, b.c.arena, limits,
                                          &limits->entries[0], "instrument", 7),
                        "meter, 0.01 V");
    assert_null(values_print_cell(b.values, b.c.arena, limits,
                                  &limits->entries[0], "nothing", 7));
    bench_close(&b);
}

static void test_range_in_a_cell(void **state) {
    (void)state;
    struct guide_bench b = bench_open("```values\nlength = 2 m to 3 m\n```\n\n"
                                      "```parts\n"
                                      "item | quantity\n"
                                      "loom | 2 m to 3 m\n"
                                      "tape | length\n"
                                      "```\n");
    bench_expect_quiet(&b);
    const struct block *parts = b.guide->blocks[b.guide->block_count - 1];
    assert_string_equal(parts->kind->name, "parts");
    static const char *const wanted[] = {"2 m to 3 m (6.6 ft to 9.8 ft)",
                                         "2.5 m (8.2 ft)"};
    for (size_t i = 0; i < 2; i++)
        assert_string_equal(
            plain(&b, values_print_cell(b.values, b.c.arena, parts,
                                        &parts->entries[i], "quantity", 1)),
            wanted[i]);
    bench_close(&b);
}

static void test_numbers_of_cells(void **state) {
    (void)state;
    struct guide_bench b = bench_open_using("lift", "");
    const struct variant *list;
    assert_int_equal(values_variants(b.values, &list), 2);
    assert_true(values_cell_number(b.values, list[1].vehicle, list[1].row,
                                   "axle load rear", 1) == 2150);
    assert_true(isnan(values_cell_number(b.values, list[1].vehicle, list[1].row,
                                         "years", 1)));
    assert_true(isnan(values_cell_number(b.values, list[1].vehicle, list[1].row,
                                         "axle load middle", 1)));
    bench_close(&b);
}

static void test_assumptions(void **state) {
    (void)state;
    struct guide_bench b =
        bench_open_using("bench", "```wire feed\n"
                                  "load: lamps\nloop: 2 m\nsupply: battery\n"
                                  "```\n");
    const struct assumption *list;
    size_t count = values_assumptions(b.values, &list);
    assert_true(count > 0);
    for (size_t i = 0; i < count; i++) /* alike in all three: told once */
        assert_int_equal(list[i].variants, 7);
    assert_true(values_assumed(b.values, list[0].block, "ambient"));
    assert_false(values_assumed(b.values, list[0].block, "insulation"));
    bench_close(&b);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_type),
        cmocka_unit_test(test_settings_of_two_parts),
        cmocka_unit_test(test_marks),
        cmocka_unit_test(test_ranges_as_written),
        cmocka_unit_test(test_cells),
        cmocka_unit_test(test_range_in_a_cell),
        cmocka_unit_test(test_numbers_of_cells),
        cmocka_unit_test(test_assumptions),
    };
    return cmocka_run_group_tests_name("values/present", tests, NULL, NULL);
}
