/* register.c - tests of `bayleaf register`: where each figure is printed, what
 * says otherwise, which issued sheets are out of date, what a sheet is. */
#define ROOM BUILD "/register"

#include "support/library.h"

#include <sys/stat.h>

#include <ctype.h>

#define GUIDE "procedures/headlamp-relay.md"
#define FACTS "procedures/facts/fen.md"

static const char *said(const struct library *l) {
    return command_read(l->arena, l->out).start;
}

static const char *ask(const struct library *l, const char *one,
                       const char *two, int status) {
    expect_status(l, bayleaf(l, "register", one, two), status);
    return said(l);
}

static void test_where_it_is_printed(void **state) {
    (void)state;
    struct library l = library_new("where");
    const char *all = ask(&l, NULL, NULL, 0);
    const char *at = strstr(all, FACTS "\n");
    assert_non_null(at);
    at = strstr(at, "  battery.resting = 12.6 V (12.2 V to 12.8 V)  \"rested "
                    "overnight, half charged to full, 9 vehicles\"  line 18\n"
                    "    charge-cable: ");
    assert_non_null(at);
    at = strchr(strchr(at, '\n') + 1, '\n');
    assert_true(strncmp(at, "\n    headlamp-relay: ", 21) == 0);
    /* A step's own figure, with its page. */
    assert_non_null(strstr(all, "  ground.figure = 15 lbf\xC2\xB7"
                                "ft (20 N\xC2\xB7m)"));
    const char *step = strstr(all, "headlamp-relay: step 17 (page ");
    assert_non_null(step);
    int page = atoi(strstr(step, "page ") + 5);
    const char *pdf[] = {"pdftotext",
                         "-f",
                         arena_printf(l.arena, "%d", page),
                         "-l",
                         arena_printf(l.arena, "%d", page),
                         path_in(&l, "build/headlamp-relay.pdf"),
                         "-",
                         NULL};
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_int_equal(command_run(pdf, ".", l.out, l.err), 0);
    assert_non_null(strstr(said(&l), "\n17\n"));
    assert_null(strstr(all, "conflicts"));
    arena_free(l.arena);
}

/* The lists before the work and of the parts print together, in whatever
 * section they were typed. */
static void test_figures_of_lists(void **state) {
    (void)state;
    struct library l = library_new("lists");
    const char *guide = "procedures/water-pump-circuit.md";
    edit(&l, guide, "safety: goggles and a mask for glass fibre",
         "safety: goggles and a mask for glass fibre below {0.7 mm}");
    edit(&l, guide, "```parts\n",
         "```parts\nitem | description | quantity\n"
         "hose 11 | of {11 mm} bore | 1\n```\n\n```parts\n");
    const char *all = ask(&l, NULL, NULL, 0);
    assert_non_null(strstr(all, "written in the text  line 69\n"
                                "    water-pump-circuit: Before you start"));
    assert_non_null(strstr(all, "written in the text  line 74\n"
                                "    water-pump-circuit: Parts (page "));
    arena_free(l.arena);
}

/* A run of one guide is not the run of that name in another. */
static void test_whose_run(void **state) {
    (void)state;
    struct library l = library_new("whose");
    const char *all = ask(&l, NULL, NULL, 0);
    const char *plug = strstr(all, "\nprocedures/trailer-plug.md\n");
    assert_non_null(plug);
    const char *end = strstr(plug, "\n\n");
    assert_non_null(end);
    const char *other = strstr(plug, "water-pump-circuit");
    assert_true(strstr(plug, "  feed.drop.limit = 5 %") < end);
    assert_true(other > end);
    arena_free(l.arena);
}

/* Two files that state one name differently; the same figure is none. */
static void test_conflict(void **state) {
    (void)state;
    struct library l = library_new("conflict");
    static const char *const guides[] = {"procedures/wheel-fitting.md",
                                         "procedures/water-pump-circuit.md"};
    for (int i = 0; i < 2; i++)
        edit(&l, guides[i], "## Purpose",
             "```values\nbay.heat = 18 degC\n```\n\n## Purpose");
    assert_null(strstr(ask(&l, NULL, NULL, 0), "conflicts"));
    edit(&l, guides[0], "bay.heat = 18 degC", "bay.heat = 20 degC");
    const char *all = ask(&l, NULL, NULL, 1);
    assert_non_null(strstr(all, "\nconflicts\n  bay.heat is 18 "));
    assert_non_null(strstr(all, " at procedures/water-pump-circuit.md:"));
    assert_non_null(strstr(all, " at procedures/wheel-fitting.md:"));
    arena_free(l.arena);
}

/* What a guide prints and nobody gave a name: limits, results, figures in the
 * text and in the lines of its circuits. */
static void test_all_that_is_printed(void **state) {
    (void)state;
    struct library l = library_new("printed-all");
    const char *all = ask(&l, NULL, NULL, 0);
    static const char *const listed[] = {
        "  R2 lost in the ground joint, one tap open = \xE2\x89\xA4 0.1 V, "
        "limit "
        "of a reading  line 123\n    water-pump-circuit: Limits (page ",
        "  {7/16 in} = 7/16 in, written in the text  line 140\n    "
        "water-pump-circuit: step 6 (page ",
        "  {upgraded.M1.voltage at 13.8 V} = mark 1: 13.29 V; ",
        "  factory.G4 = 0.2 ohm to 0.5 ohm, line of a circuit  \"4-wire meter, "
        "4 "
        "vehicles\"  line 35\n    water-pump-circuit: Electrical data (page ",
        "  feed.use = 10 AWG; mark 1: 12 AWG  line 92\n",
        "  feed.size = 10 AWG; mark 1: 12 AWG, worked out  line 90\n    "
        "water-pump-circuit: step 7 (page ",
        /* A value in the words of a row is printed, not its name. */
        "  R2 lost, battery \xE2\x88\x92 to alternator case, engine at 1500 "
        "r/min, headlamps on = \xE2\x89\xA4 0.2 V, limit of a reading  line ",
        /* By the table of its block alone. */
        "  feed.drop = 0.087 V (0.081 V to 0.093 V); mark 3: 0.125 V (0.119 V "
        "to 0.131 V), worked out  line 43\n    charge-cable: Purpose (page 1), "
        "Calculations, Electrical data (page ",
        "  post.setting = 75 lbf\xC2\xB7in (8.5 N\xC2\xB7m), worked out  "
        "line "};
    for (size_t i = 0; i < sizeof listed / sizeof listed[0]; i++)
        if (strstr(all, listed[i]) == NULL)
            fail_msg("not listed: %s", listed[i]);
    /* Each step that takes the reading, after the table. */
    const char *reading = strstr(strstr(all, listed[0]), "), step 2 (page ");
    assert_non_null(reading);
    assert_true(strstr(reading, "), step 16 (page ") < strchr(reading, '\n'));
    arena_free(l.arena);
}

/* The same measured in the same state, and another limit; whose rows are called
 * R1 in both is none. */
static void test_limits_that_differ(void **state) {
    (void)state;
    struct library l = library_new("limits");
    assert_null(strstr(ask(&l, NULL, NULL, 0), "conflicts"));
    edit(&l, "procedures/trailer-plug.md", "joint | <= 0.05 V | the same",
         "joint | <= 0.1 V | one tap open");
    assert_null(strstr(ask(&l, NULL, NULL, 0), "conflicts"));
    edit(&l, "procedures/trailer-plug.md", "joint | <= 0.1 V",
         "joint | <= 0.05 V");
    assert_non_null(strstr(
        ask(&l, NULL, NULL, 1),
        "\nconflicts\n  lost in the ground joint, one tap open is \xE2\x89\xA4 "
        "0.05 V at procedures/trailer-plug.md:127 and \xE2\x89\xA4 0.1 V at "
        "procedures/water-pump-circuit.md:123\n"));
    arena_free(l.arena);
}

static void copy_file(const struct library *l, const char *from,
                      const char *to) {
    assert_true(command_write(path_in(l, to),
                              command_read(l->arena, path_in(l, from))));
}

/* Each vehicle has its own battery and its own wheel nuts. */
static void test_two_vehicles(void **state) {
    (void)state;
    struct library l = library_new("vehicles");
    static const char wheels[] = "procedures/wheel-heron.md";
    static const char facts[] = "procedures/facts/heron.md";
    copy_file(&l, "procedures/wheel-fitting.md", wheels);
    copy_file(&l, FACTS, facts);
    edit(&l, facts, "vehicle fen", "vehicle heron");
    edit(&l, facts, "12.6 V (12.2 V", "12.7 V (12.2 V");
    edit(&l, wheels, "WH-007", "WH-008");
    edit(&l, wheels, "uses: fen,", "uses: heron,");
    edit(&l, wheels, "110 lbf", "115 lbf");
    edit(&l, wheels, "<= 1.5 mm", "<= 1.2 mm");
    assert_null(strstr(ask(&l, NULL, NULL, 0), "conflicts"));
    edit(&l, wheels, "uses: heron,", "uses: fen,");
    const char *all = ask(&l, NULL, NULL, 1);
    assert_non_null(strstr(all, "\n  nuts.figure is "));
    assert_non_null(strstr(all, "\n  run-out of the wheel at the rim, wheel "
                                "turned by hand is "));
    /* Guides of the same vehicle, for variants that do not meet. */
    edit(&l, wheels, "applies: mark 1, mark 2, mark 3", "applies: mark 3");
    edit(&l, "procedures/wheel-fitting.md", "applies: mark 1, mark 2, mark 3",
         "applies: mark 1, mark 2");
    all = ask(&l, NULL, NULL, 0);
    assert_null(strstr(all, "conflicts"));
    /* A fact of which they print different parts is one fact. */
    const char *run = strstr(strstr(all, FACTS "\n"), "\n  lamp.run = ");
    assert_non_null(run);
    run = strstr(run + 1, "\n  lamp.run = ");
    assert_true(run == NULL ||
                run > strstr(all, "procedures/headlamp-relay.md\n"));
    arena_free(l.arena);
}

/* Which guide is done before which: somebody must be able to begin. */
static void test_order(void **state) {
    (void)state;
    struct library l = library_new("order");
    static const char house[] = "procedures/house-battery-feed.md";
    assert_null(strstr(ask(&l, NULL, NULL, 0), "no guide of this library"));
    edit(&l, house, "status: draft",
         "status: draft\nafter: WH-007, ZZ-900 winter check");
    const char *all = ask(&l, NULL, NULL, 0);
    assert_null(strstr(all, "conflicts"));
    assert_non_null(strstr(all, "\nno guide of this library\n  ZZ-900, which "
                                "HB-004 comes after\n"));
    edit(&l, "procedures/wheel-fitting.md", "id: WH-007",
         "id: WH-007\nafter: LT-012");
    all = ask(&l, NULL, NULL, 1);
    assert_non_null(strstr(
        all, "\nconflicts\n  each comes after the one before it, and the first "
             "after the last: HB-004, LT-012, WH-007\n"));
    /* The same said the other way about. */
    edit(&l, "procedures/wheel-fitting.md", "after: LT-012", "before: CH-009");
    ask(&l, NULL, NULL, 0);
    edit(&l, "procedures/charge-cable.md", "status: draft",
         "status: draft\nbefore: WH-007");
    assert_non_null(strstr(ask(&l, NULL, NULL, 1),
                           "the first after the last: CH-009, WH-007\n"));
    arena_free(l.arena);
}

/* The same on paper. */
static void test_printed(void **state) {
    (void)state;
    struct library l = library_new("printed");
    static const char pdf[] = "build/register/figures.pdf";
    assert_non_null(strstr(ask(&l, "--print", NULL, 0), pdf));
    const char *read[] = {"pdftotext", "-layout", path_in(&l, pdf), "-", NULL};
    const char *whole[] = {"qpdf", "--check", path_in(&l, pdf), NULL};
    assert_int_equal(command_run(whole, ".", l.out, l.err), 0);
    assert_int_equal(command_run(read, ".", l.out, l.err), 0);
    static const char *const parts[] = {"Register of figures", FACTS,
                                        "battery.resting",     "rested",
                                        "wheel-fitting",       "6 guides"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        if (strstr(said(&l), parts[i]) == NULL)
            fail_msg("not printed: %s", parts[i]);
    assert_null(strstr(said(&l), "Conflicts"));
    /* The ranges of a figure by variants: none is parted, in either unit. */
    static const char *const ranges[] = {
        "(1.8 m to 2.0 m)", "(5.9 ft to 6.6 ft)", "(3.3 m to 3.5 m)"};
    for (size_t i = 0; i < sizeof ranges / sizeof ranges[0]; i++)
        if (strstr(said(&l), ranges[i]) == NULL)
            fail_msg("parted: %s", ranges[i]);
    struct text first = command_read(l.arena, path_in(&l, pdf));
    ask(&l, "--print", NULL, 0);
    assert_true(text_equal(first, command_read(l.arena, path_in(&l, pdf))));
    edit(&l, "procedures/charge-cable.md", "id: CH-009",
         "id: CH-009\nafter: CH-009, ZZ-900");
    ask(&l, "--print", "--paper=A4", 1);
    assert_int_equal(command_run(read, ".", l.out, l.err), 0);
    assert_non_null(strstr(said(&l), "Guides in a circle"));
    assert_non_null(strstr(said(&l), "ZZ-900"));
    expect_status(&l, bayleaf(&l, "register", "--print", "--changed"), 2);
    expect_status(&l, bayleaf(&l, "register", "--paper=A4", NULL), 2);
    arena_free(l.arena);
}

static void test_changed(void **state) {
    (void)state;
    struct library l = library_new("changed");
    assert_string_equal(ask(&l, "--changed", NULL, 0), "nothing was issued\n");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, "wheel-fitting"), 0);
    const char *both = ask(&l, "--changed", NULL, 0);
    assert_non_null(
        strstr(both, "LT-012 revision 1, headlamp-relay\n  as it is now\n"));
    edit(&l, FACTS, "12.6 V (12.2 V to 12.8 V)", "12.6 V (12.3 V to 12.8 V)");
    const char *now = ask(&l, "--changed", NULL, 1);
    assert_non_null(strstr(now, "LT-012 revision 1, headlamp-relay\n  "
                                "battery.resting was 12.6 V (12.2 V to 12.8 "
                                "V), is 12.6 V (12.3 V to 12.8 V)\n"));
    assert_non_null(strstr(now, ", wheel-fitting\n  as it is now\n"));
    arena_free(l.arena);
}

static void test_sheet_in_the_hand(void **state) {
    (void)state;
    struct library l = library_new("sheet");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    const char *code = arena_copy(l.arena, strstr(said(&l), "  ") + 2, 8);
    const char *first = ask(&l, "--sheet", code, 0);
    assert_non_null(strstr(first, "is LT-012 revision 1, Fit headlamp relays"));
    assert_non_null(strstr(first, "  the last revision that was issued\n  it "
                                  "says what the guide says now\n"));
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    edit(&l, GUIDE, "red from F1 to terminals",
         "red wire from F1 to terminals");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    const char *second = arena_copy(l.arena, strstr(said(&l), "  ") + 2, 8);
    assert_string_not_equal(code, second);
    const char *old = ask(&l, "--sheet", code, 0);
    assert_non_null(strstr(old, "  superseded by revision 2\n"));
    assert_non_null(strstr(old, "  reads otherwise: step "));
    assert_non_null(strstr(ask(&l, "--sheet", second, 0),
                           "  the last revision that was issued\n"));
    assert_non_null(strstr(ask(&l, "--sheet", "ABCDEFGH", 1),
                           "ABCDEFGH is no sheet of this library"));
    expect_status(&l, bayleaf(&l, "register", "--sheet", "AB"), 2);
    arena_free(l.arena);
}

static void test_refused_and_damaged(void **state) {
    (void)state;
    struct library l = library_new("refused");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    edit(&l, GUIDE, "use: 10 AWG [mark 1, mark 2] 8 AWG [mark 3]",
         "use: 18 AWG");
    ask(&l, NULL, NULL, 1);
    assert_non_null(strstr(messages(&l), "procedures/headlamp-relay.md is left "
                                         "out of the register\n"));
    assert_non_null(strstr(ask(&l, "--changed", NULL, 1),
                           "  its guide is no more, or is refused\n"));
    assert_true(command_write(path_in(&l, "procedures/issued/LT-012-1.txt"),
                              text_of("bayleaf issued revision, form 1\n")));
    ask(&l, "--changed", NULL, 2);
    assert_non_null(strstr(messages(&l), "issued file is damaged"));
    arena_free(l.arena);
}

/* A job that stays with an older revision is named, its owner is not. */
static void test_old_jobs(void **state) {
    (void)state;
    struct library l = library_new("jobs");
#define LAMPS "procedures/jobs/fen-lamps-2027.md"
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    assert_null(strstr(ask(&l, "--changed", NULL, 0), "job 2027"));
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    edit(&l, GUIDE, "red from F1", "red wire from F1");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    const char *all = ask(&l, "--changed", NULL, 1);
    assert_non_null(strstr(all, "job 2027, headlamp-relay revision 1, " LAMPS
                                "\n  its guide was issued as revision 2\n"));
    /* One ahead of the issued is in work, not old; so is "02". */
    edit(&l, LAMPS, "revision: 1", "revision: 3");
    assert_null(strstr(ask(&l, "--changed", NULL, 0), "job 2027"));
    edit(&l, LAMPS, "revision: 3", "revision: 02");
    assert_null(strstr(ask(&l, "--changed", NULL, 0), "job 2027"));
    arena_free(l.arena);
}

/* A fleet's sheets are issued sheets, too: the table is named, and its rows. */
static void test_old_fleets(void **state) {
    (void)state;
    struct library l = library_new("fleets");
    static const char table[] = "procedures/jobs/lamps.csv";
    assert_true(command_write(
        path_in(&l, table),
        text_of(
            "number,guide,revision,variant,vehicle,owner,date\n"
            "L-1,headlamp-relay,,mark 1,Fen 1,Lakeside Hire,1 May 2026\n"
            "L-2,headlamp-relay,1,mark 1,Fen 2,Lakeside Hire,1 May 2026\n"
            "L-3,wheel-fitting,,mark 1,Fen 3,Lakeside Hire,1 May 2026\n"
            "L-4,headlamp-relay,,mark 2,Fen 4,Lakeside Hire,1 May 2026\n"
            "L-5,headlamp-relay,,mark 3,Fen 5,Lakeside Hire,1 May 2026\n"
            "L-6,headlamp-relay,,mark 1,Fen 6,Lakeside Hire,1 May 2026\n"
            "L-7,headlamp-relay,,mark 1,Fen 7,Lakeside Hire,1 May 2026\n"
            "L-8,headlamp-relay,,mark 1,Fen 8,Lakeside Hire,1 May 2026\n"
            "L-9,headlamp-relay,2,mark 1,Fen 9,Lakeside Hire,1 May 2026\n")));
    expect_status(&l, bayleaf(&l, "issue", GUIDE, "wheel-fitting"), 0);
    assert_null(strstr(ask(&l, "--changed", NULL, 0), "fleet "));
    edit(&l, FACTS, "12.6 V (12.2 V to 12.8 V)", "12.6 V (12.3 V to 12.8 V)");
    const char *all = ask(&l, "--changed", NULL, 1);
    assert_non_null(strstr(
        all, "fleet procedures/jobs/lamps.csv, headlamp-relay, 6 of 9 rows: "
             "L-1, L-4, L-5, L-6, L-7 and 1 more\n"
             "  its guide says otherwise now than revision 1; print again what "
             "was printed before\n"));
    assert_non_null(strstr(
        all, "fleet procedures/jobs/lamps.csv, headlamp-relay revision 1, 1 of "
             "9 rows: L-2\n  its guide says otherwise now than revision 1\n"));
    assert_non_null(strstr(
        all, "job 2027, headlamp-relay revision 1, procedures/jobs/"
             "fen-lamps-2027.md\n  its guide says otherwise now than revision "
             "1\n"));
    assert_null(strstr(all, "L-3"));
    assert_null(strstr(all, "L-9"));
    assert_null(strstr(all, "Lakeside"));
    /* Issued anew, only who stays with the older one is out of date. */
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    all = ask(&l, "--changed", NULL, 1);
    assert_non_null(strstr(
        all, "fleet procedures/jobs/lamps.csv, headlamp-relay revision 1, 1 of "
             "9 rows: L-2\n  its guide was issued as revision 2\n"));
    assert_null(strstr(all, "L-1"));
    /* What cannot be read is not passed over in silence. */
    edit(&l, table, "L-7,headlamp-relay,", "L-7,=headlamp-relay,");
    assert_non_null(strstr(ask(&l, "--changed", NULL, 2),
                           "fleet procedures/jobs/lamps.csv, 1 of 9 rows\n"
                           "  cannot be read; `bayleaf sheet` says why\n"));
    /* Nor waited for. */
    assert_int_equal(mkfifo(path_in(&l, "procedures/jobs/pipe.csv"), 0600), 0);
    expect_status(&l, bayleaf(&l, "sheet", "--from", "procedures/jobs"), 2);
    assert_non_null(strstr(messages(&l), "reading stopped: Is a directory"));
    assert_non_null(strstr(ask(&l, "--changed", NULL, 2),
                           "fleet procedures/jobs/pipe.csv\n"
                           "  cannot be read; `bayleaf sheet` says why\n"));
    arena_free(l.arena);
}

/* For one vehicle, by another template, typed in small letters; and of a
 * revision that is no longer the last. */
static void test_other_prints(void **state) {
    (void)state;
    struct library l = library_new("prints");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    expect_status(&l, bayleaf(&l, "build", "--template=bench", GUIDE), 0);
    expect_status(&l, bayleaf(&l, "build", "--for=mark 3", GUIDE), 0);
    const char *bench = code_of(&l, "build/headlamp-relay.bench.pdf");
    const char *mark = code_of(&l, "build/headlamp-relay.mark-3.pdf");
    char small[9];
    for (size_t i = 0; i < sizeof small; i++)
        small[i] = (char)tolower((unsigned char)mark[i]);
    const char *said_of = ask(&l, "--sheet", bench, 0);
    assert_non_null(strstr(said_of, ", by the template bench\n  the last "
                                    "revision that was issued\n"));
    said_of = ask(&l, "--sheet", small, 0);
    assert_non_null(strstr(said_of, ", for mark 3 alone\n"));
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    edit(&l, GUIDE, "red from F1", "red wire from F1");
    said_of = ask(&l, "--sheet", mark, 0);
    assert_non_null(strstr(said_of, "LT-012 revision 1, "));
    assert_non_null(strstr(said_of, ", for mark 3 alone\n"));
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_where_it_is_printed),
        cmocka_unit_test(test_figures_of_lists),
        cmocka_unit_test(test_whose_run),
        cmocka_unit_test(test_conflict),
        cmocka_unit_test(test_all_that_is_printed),
        cmocka_unit_test(test_limits_that_differ),
        cmocka_unit_test(test_two_vehicles),
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_printed),
        cmocka_unit_test(test_changed),
        cmocka_unit_test(test_sheet_in_the_hand),
        cmocka_unit_test(test_old_jobs),
        cmocka_unit_test(test_old_fleets),
        cmocka_unit_test(test_other_prints),
        cmocka_unit_test(test_refused_and_damaged),
    };
    return cmocka_run_group_tests_name("register", tests, NULL, NULL);
}
