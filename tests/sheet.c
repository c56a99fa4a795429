/* sheet.c - jobs: `bayleaf sheet`, `bayleaf start job`. */
#define ROOM BUILD "/sheet"

#include "support/library.h"

#include <sys/stat.h>

#define GUIDE "procedures/headlamp-relay.md"
#define LAMPS "procedures/jobs/fen-lamps-2027.md"
#define LAMPS_PDF "build/jobs/fen-lamps-2027.pdf"
#define PUMP "procedures/jobs/fen-pump-2031.md"
#define PUMP_PDF "build/jobs/fen-pump-2031.pdf"

/* What a reader of the PDF finds in it. */
static const char *told(const struct library *l, const char *tool,
                        const char *pdf) {
    const char *argv[] = {tool, path_in(l, pdf), "-", NULL};
    if (strcmp(tool, "pdfinfo") == 0)
        argv[2] = NULL;
    assert_int_equal(command_run(argv, ".", l->out, l->err), 0);
    return text_cstr(l->arena, command_read(l->arena, l->out));
}

static void test_what_the_owner_reads(void **state) {
    (void)state;
    struct library l = library_new("owner");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    assert_non_null(strstr(output(&l), PUMP_PDF));
    const char *text = printed(&l, PUMP_PDF);
    static const char *const parts[] = {
        "2031",   "R. Harlow", "mark 2",     "26 November 2025",
        "3.4",    "0.62",      "passes",     "pump run",
        "5.3",    "outside",   "tape along", "11 m of 10 AWG wire",
        "15",     "blue",      "M. Arkle",   "in a year",
        "before", "after"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        expect_text(text, parts[i]);
    /* What is for the shop alone stays there. */
    assert_null(strstr(text, "Cut the old feed"));
    arena_free(l.arena);
}

/* An id of a reading stands nowhere on the sheet: there it is named in words,
 * with what was measured. The shop's guide keeps the id. */
static void test_a_reading_is_told_in_words(void **state) {
    (void)state;
    struct library l = library_new("words");
    edit(&l, "procedures/water-pump-circuit.md",
         "The pump now has its own wire and a bolted ground.",
         "Measured: {reading R3}; by the limit of {see R1}.\n\n"
         "1. Write it down again in a year: {reading R2}\n\nSo much.");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    const char *text = printed(&l, PUMP_PDF);
    expect_text(text,
                "Measured: starting current (24 A); by the limit of “lost");
    expect_text(text, "in a year: lost in the ground joint (0.03 V)");
    expect_text(text, "\nlost in the ground joint: ≤ 0.1 V");
    assert_null(strstr(text, "R1"));
    assert_null(strstr(text, "R2"));
    assert_null(strstr(text, "R3"));
    expect_status(&l, bayleaf(&l, "build", "water-pump-circuit", NULL), 0);
    expect_text(printed(&l, "build/water-pump-circuit.pdf"),
                "Measured: R3; by the");
    arena_free(l.arena);
}

/* A step or section that the sheet leaves out stands in the guide; one that it
 * holds has its page. */
static void test_what_is_not_on_the_sheet(void **state) {
    (void)state;
    struct library l = library_new("elsewhere");
    edit(&l, "procedures/water-pump-circuit.md",
         "The pump now has its own wire and a bolted ground.",
         "The ground was made in {see ground}, by {see procedure}.\n\n"
         "1. {step again} Look at it in a year.\n\nSo {see again}.");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    const char *text = printed(&l, PUMP_PDF);
    expect_text(text, "11 of guide WP-021, by");
    expect_text(text, "Procedure\xE2\x80\x9D of\nguide WP-021.");
    expect_text(text, " (page 1).");
    expect_status(&l, bayleaf(&l, "build", "water-pump-circuit", NULL), 0);
    assert_null(
        strstr(printed(&l, "build/water-pump-circuit.pdf"), "of guide"));
    arena_free(l.arena);
}

/* "none" is an answer for the shop's file; the owner is told nothing by it.
 * That no parts were fitted he is told. */
static void test_none_is_not_told(void **state) {
    (void)state;
    struct library l = library_new("none");
    edit(&l, PUMP,
         "complaint: The pump ran slowly, and only with one tap open."
         " Its ground screw was warm to the hand.",
         "complaint: none");
    edit(&l, PUMP,
         "remarks: The strip of foil was left in place and feeds "
         "nothing any more.",
         "remarks: none");
    edit(&l, PUMP,
         "parts used: 11 m of 10 AWG wire, fuse holder, ring "
         "terminals M8, ground bolt and star washer",
         "parts used: none");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    const char *text = printed(&l, PUMP_PDF);
    assert_null(strstr(text, "What was wrong"));
    const char *none = strstr(text, "none");
    assert_non_null(none);
    assert_null(strstr(none + 1, "none"));
    arena_free(l.arena);
}

/* A figure that the guide states in stages is set in stages; each is told
 * beside its own. */
static void test_an_angle_in_stages_is_set(void **state) {
    (void)state;
    struct library l = library_new("stages");
    edit(&l, "procedures/water-pump-circuit.md", "## Purpose",
         "## Purpose\n\n```torque stay\ncondition: oiled\n"
         "figure: 30 N.m  \"maker's sheet\"\n"
         "angle: 85 deg to 95 deg, then 60 deg\n```\n");
    edit(&l, PUMP, "set: pump.run = 5.3 m  \"tape along the new loom\"",
         "set: stay.angle = 90 deg, then 60 deg  \"dial\"");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    const char *text = printed(&l, PUMP_PDF);
    expect_text(text, "90\xC2\xB0, then 60\xC2\xB0");
    expect_text(text, "90\xC2\xB0 (85\xC2\xB0 to 95\xC2\xB0), then 60\xC2\xB0");
    assert_null(strstr(text, "outside"));
    /* As much together, but neither as it is stated. */
    edit(&l, PUMP, "90 deg, then 60 deg", "60 deg, then 90 deg");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    expect_text(printed(&l, PUMP_PDF), "outside");
    edit(&l, PUMP, "60 deg, then 90 deg", "90 deg, then 2 * 30 deg");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 2);
    expect_text(
        messages(&l),
        "'stay.angle' takes a figure as it was measured, no expression");
    arena_free(l.arena);
}

/* Its number is no name that a file system takes: it is listed nowhere, and
 * the others are. */
static void test_a_sheet_that_cannot_be_written(void **state) {
    (void)state;
    struct library l = library_new("unwritten");
    struct buf b = buf_in(l.arena);
    buf_puts(&b, "number,guide,variant,date\n");
    for (int i = 0; i < 300; i++)
        buf_puts(&b, "A");
    buf_puts(&b, ",water-pump-circuit,mark 2,26 November 2025\n"
                 "H-90,water-pump-circuit,mark 2,26 November 2025\n"
                 ",,,\n");
    assert_true(command_write(path_in(&l, "long.csv"), buf_as_text(&b)));
    expect_status(&l, bayleaf(&l, "sheet", "--from", "long.csv"), 3);
    assert_string_equal(output(&l), "build/jobs/H-90.pdf  2 pages\n");
    expect_text(messages(&l), "error: cannot write: build/jobs/AAA");
    expect_text(messages(&l), "bayleaf: no sheet of long.csv row 2\n");
    assert_null(strstr(messages(&l), "row 4"));
    expect_status(&l, bayleaf(&l, "sheet", "--json", "--from=long.csv"), 3);
    expect_text(output(&l), "\"pdf\": null");
    expect_text(output(&l), "\"status\": 3");
    expect_text(output(&l), "\"pdf\": \"build/jobs/H-90.pdf\"");
    arena_free(l.arena);
}

/* Names of people are on the paper only. */
static void test_nobody_in_the_file(void **state) {
    (void)state;
    struct library l = library_new("nobody");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    assert_null(strstr(told(&l, "pdfinfo", PUMP_PDF), "Harlow"));
    expect_status(&l, bayleaf(&l, "register", NULL, NULL), 0);
    assert_null(strstr(output(&l), "Harlow"));
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_null(strstr(printed(&l, "build/headlamp-relay.pdf"), "Tarn"));
    arena_free(l.arena);
}

static const char *what_is(const struct library *l, const char *code,
                           int status) {
    expect_status(l, bayleaf(l, "register", "--sheet", code), status);
    return output(l);
}

/* An owner comes back with the paper: which job it is, and nobody's name. */
static void test_sheet_in_the_hand(void **state) {
    (void)state;
    struct library l = library_new("hand");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    expect_status(
        &l, bayleaf(&l, "sheet", "--from", "procedures/jobs/hire-fleet.csv"),
        0);
    const char *pump = code_of(&l, PUMP_PDF);
    const char *row = code_of(&l, "build/jobs/H-07.pdf");
    const char *said = what_is(&l, pump, 0);
    expect_text(said, " is the owner's sheet of job 2031, water-pump-circuit "
                      "revision 1, " PUMP "\n");
    assert_null(strstr(said, "Harlow"));
    said = what_is(&l, row, 0);
    expect_text(said, " is the owner's sheet of job H-07, water-pump-circuit "
                      "revision 1, procedures/jobs/hire-fleet.csv row ");
    assert_null(strstr(said, "Lakeside"));
    /* What it says was changed since. */
    edit(&l, PUMP, "pump.run = 5.3 m", "pump.run = 5.2 m");
    expect_text(what_is(&l, pump, 1), "is no sheet of this library");
    expect_text(what_is(&l, row, 0), "job H-07");
    arena_free(l.arena);
}

/* What no figure limits is not said to pass. */
static void test_limit_in_words(void **state) {
    (void)state;
    struct library l = library_new("words");
    edit(&l, PUMP, "R1 | 3.4 V | 0.62 V\n", "");
    edit(&l, PUMP, "R3 | | 24 A\n", "");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    expect_text(printed(&l, PUMP_PDF), "passes");
    edit(&l, "procedures/water-pump-circuit.md",
         "lost in the ground joint | <= 0.1 V",
         "lost in the ground joint | \"as when new\"");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    expect_text(printed(&l, PUMP_PDF), "as when new");
    assert_null(strstr(printed(&l, PUMP_PDF), "passes"));
    arena_free(l.arena);
}

/* All is computed again with the figures of this vehicle. */
static void test_computed_again(void **state) {
    (void)state;
    struct library l = library_new("again");
    edit(&l, PUMP, "set: pump.run = 5.3 m  \"tape along the new loom\"\n",
         "set: pump.run = 40 m  \"to the trailer\"\n");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 1);
    assert_non_null(strstr(messages(&l), "check failed"));
    assert_false(there(&l, PUMP_PDF));
    arena_free(l.arena);
}

static void test_refused_sheet_is_withdrawn(void **state) {
    (void)state;
    struct library l = library_new("withdrawn");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    assert_true(there(&l, PUMP_PDF));
    edit(&l, PUMP, "set: pump.run = 5.3 m", "set: pump.run = 40 m");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 1);
    assert_false(there(&l, PUMP_PDF));
    assert_true(there(&l, "build/jobs/withdrawn/fen-pump-2031.pdf"));
    assert_non_null(strstr(messages(&l), "its last sheet is now"));
    edit(&l, PUMP, "set: pump.run = 40 m", "set: pump.run = 5.3 m");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    assert_true(there(&l, PUMP_PDF));
    assert_false(there(&l, "build/jobs/withdrawn/fen-pump-2031.pdf"));
    arena_free(l.arena);
}

/* A current whose voltage was forgotten: the line that sets it is to blame, and
 * no override of a circuit that could not be solved. */
static void test_set_that_lacks_its_voltage(void **state) {
    (void)state;
    struct library l = library_new("no-voltage");
    edit(&l, LAMPS, "set: battery.resistance = 10 mohm",
         "set: high.current = 18 A");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 2);
    expect_text(messages(&l),
                LAMPS ":12:1: error: figure of an element missing or "
                      "wrong: circuit factory needs the voltage at "
                      "which load high was measured");
    assert_null(strstr(messages(&l), "override sets nothing aside"));
    arena_free(l.arena);
}

/* A job keeps to the revision by which it was done, as it was issued. */
static void test_issued_revision(void **state) {
    (void)state;
    struct library l = library_new("issued");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    const char *first = printed(&l, LAMPS_PDF);
    assert_null(strstr(first, "NOT ISSUED"));
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    edit(&l, GUIDE, "| <= 0.45 V", "| <= 0.55 V");
    edit(&l, "procedures/facts/fen.md", "17.6 A", "17.7 A");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    assert_string_equal(printed(&l, LAMPS_PDF), first);
    /* By the new one it reads otherwise; one never issued is not guessed. */
    /* The same from a folder of it, and from outside: below another one, which
     * is not meant. */
    const char *inside[] = {program, "sheet", "fen-lamps-2027", NULL};
    const char *outside[] = {program, "sheet", "issued/" LAMPS, NULL};
    const char *inner = path_in(&l, "procedures");
    expect_status(&l, command_run(inside, inner, l.out, l.err), 0);
    expect_status(&l, command_run(outside, ROOM, l.out, l.err), 0);
    expect_text(output(&l), "issued/" LAMPS_PDF);
    edit(&l, LAMPS, "revision: 1", "revision: 2");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    expect_text(printed(&l, LAMPS_PDF), "0.55");
    edit(&l, LAMPS, "revision: 2", "revision: 3");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 2);
    assert_non_null(strstr(messages(&l), "job of a revision that is not here"));
    arena_free(l.arena);
}

/* The guide was changed, and its revision forgotten: what the job was done by
 * is the one that was issued. A job that names none goes with the guide. */
static void test_issued_revision_that_was_changed(void **state) {
    (void)state;
    struct library l = library_new("changed");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    const char *first = printed(&l, LAMPS_PDF);
    expect_text(first, "passes");
    edit(&l, GUIDE, "| <= 0.45 V", "| <= 0.25 V");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    assert_null(strstr(messages(&l), "issued otherwise"));
    assert_string_equal(printed(&l, LAMPS_PDF), first);
    edit(&l, LAMPS, "revision: 1\n", "");
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    expect_text(messages(&l), "issued otherwise");
    expect_text(printed(&l, LAMPS_PDF), "NOT ISSUED");
    expect_text(printed(&l, LAMPS_PDF), "FAILS");
    arena_free(l.arena);
}

/* What `start job` writes prints once its blanks are filled in. */
static void test_start_job(void **state) {
    (void)state;
    struct library l = library_new("start");
#define MADE "procedures/jobs/headlamp-relay-1.md"
    expect_status(&l, bayleaf(&l, "start", "job", "headlamp-relay"), 0);
    assert_true(there(&l, MADE));
    const char *text = command_read(l.arena, path_in(&l, MADE)).start;
    expect_text(text, "# set: lamp.run = 1.9 m\n");
    expect_text(text, "R1 | | \nR2 | | \nR3 | | \nR4 | | \n");
    expect_status(&l, bayleaf(&l, "sheet", "headlamp-relay-1", NULL), 2);
    assert_non_null(strstr(messages(&l), "not a date"));
    edit(&l, MADE, "date: day month year", "date: 3 December 2025");
    edit(&l, MADE,
         "variant: one of mark 1, mark 2, mark 3, a year, or the "
         "number",
         "variant: mark 1");
    edit(&l, MADE, "# set: lamp.run", "set: lamp.run");
    expect_status(&l, bayleaf(&l, "sheet", "headlamp-relay-1", NULL), 0);
    /* The next one has a file of its own. */
    expect_status(&l, bayleaf(&l, "start", "job", "headlamp-relay"), 0);
    assert_true(there(&l, "procedures/jobs/headlamp-relay-2.md"));
    expect_status(&l, bayleaf(&l, "start", "job", "headlamp-rely"), 2);
    arena_free(l.arena);
}

/* A limit and a maker's torque are measured on no vehicle: neither is offered.
 */
static void test_what_is_not_offered(void **state) {
    (void)state;
    struct library l = library_new("offered");
    edit(&l, GUIDE, "| <= 0.45 V", "| <= most");
    edit(&l, GUIDE, "## Purpose",
         "## Purpose\n\n```values\nmost = 0.45 V\ntight = 30 N.m\n```\n\n"
         "```torque stay\ncondition: oiled\n"
         "figure: tight  \"maker's sheet\"\n```\n");
    expect_status(&l, bayleaf(&l, "start", "job", "headlamp-relay"), 0);
    const char *text = command_read(l.arena, path_in(&l, MADE)).start;
    expect_text(text, "# set: lamp.run = ");
    assert_null(strstr(text, "set: most"));
    assert_null(strstr(text, "set: tight"));
    arena_free(l.arena);
}

/* Fuses that stand in a circuit only are to be kept as well, in one table with
 * the others; what was there before the job is not. Its wires stand among the
 * parts. */
static void test_ratings_of_a_circuit(void **state) {
    (void)state;
    struct library l = library_new("ratings");
    const char *pdf = "build/jobs/fen-house-2040.pdf";
    /* The only one of 5 A may say its style behind its rating. */
    edit(&l, "procedures/house-battery-feed.md", "F3  5 A, blade,",
         "F3  5 A blade,");
    expect_status(&l, bayleaf(&l, "sheet", "fen-house-2040", NULL), 0);
    expect_text(output(&l), "build/jobs/fen-house-2040.pdf  2 pages\n");
    const char *text = printed(&l, pdf);
    /* Which parts are never used twice is for the shop. */
    expect_text(text, "interchange\n");
    expect_text(text, "Parts fitted, continued\n");
    assert_null(strstr(text, "renew\n"));
    text = strstr(text, "Ratings to keep");
    assert_non_null(text);
    static const char *const parts[] = {"F2\n",       "F7\n",    "40 A\n",
                                        "terminal\n", "blade\n", "tan\n"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        expect_text(text, parts[i]);
    assert_null(strstr(text, "W9\n"));
    const char *head = strstr(text, "rating\n");
    assert_non_null(head);
    assert_null(strstr(head + 1, "rating\n"));
    expect_status(&l, bayleaf(&l, "sheet", "fen-lamps-2027", NULL), 0);
    text = strstr(printed(&l, LAMPS_PDF), "Ratings to keep");
    assert_null(strstr(strstr(text, "F1\n") + 1, "F1\n"));
    arena_free(l.arena);
}

/* What to watch is of what was worked on: no fuses after a wheel was fitted. */
static void test_what_to_watch(void **state) {
    (void)state;
    struct library l = library_new("watch");
    const char *job = "procedures/jobs/wheel-fitting-1.md";
    const char *pdf = "build/jobs/wheel-fitting-1.pdf";
    expect_status(&l, bayleaf(&l, "start", "job", "wheel-fitting"), 0);
    edit(&l, job, "date: day month year", "date: 3 December 2025");
    edit(&l, job,
         "variant: one of mark 1, mark 2, mark 3, a year, or the number",
         "variant: mark 1");
    expect_status(&l, bayleaf(&l, "sheet", "wheel-fitting-1", NULL), 0);
    const char *text = strstr(printed(&l, pdf), "What to watch");
    assert_non_null(text);
    expect_text(text, "If a wheel shakes or knocks");
    assert_null(strstr(text, "fuse"));
    assert_null(strstr(text, "propeller"));
    edit(&l, "procedures/wheel-fitting.md", "## Procedure\n",
         "```torque prop\nthread: M20 x 1.5\ngrade: 8.8\n"
         "condition: clean, dry\nfigure: 250 N.m  \"a sheet\"\n"
         "joint: propeller\n```\n\n## Procedure\n\n### Boat\n\n"
         "1. Tighten its nut to {prop.torque}. {initial}\n\n### Wheel\n");
    expect_status(&l, bayleaf(&l, "sheet", "wheel-fitting-1", NULL), 0);
    text = strstr(printed(&l, pdf), "What to watch");
    expect_text(text, "If the propeller shakes or knocks");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    text = strstr(printed(&l, PUMP_PDF), "What to watch");
    expect_text(text, "If a fuse opens again");
    assert_null(strstr(text, "wheel"));
    arena_free(l.arena);
}

/* A figure that the title writes as a value prints as one wherever the title
 * does: at the foot, in the PDF's title, to the owner, in a job that is begun;
 * and so in headings. */
static void test_a_figure_in_the_title(void **state) {
    (void)state;
    struct library l = library_new("title");
    edit(&l, "procedures/water-pump-circuit.md", "# ", "# {12 V}: ");
    edit(&l, "procedures/water-pump-circuit.md", "## Procedure\n",
         "## Procedure\n\n### Below {13 V}\n");
    expect_status(&l, bayleaf(&l, "build", "water-pump-circuit", NULL), 0);
    const char *text = printed(&l, "build/water-pump-circuit.pdf");
    expect_text(text, "Below 13 V\n");
    assert_null(strstr(text, "{"));
    text = told(&l, "pdfinfo", "build/water-pump-circuit.pdf");
    expect_text(text, "12\xC2\xA0V: ");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 0);
    text = printed(&l, PUMP_PDF);
    expect_text(text, "“12 V: ");
    assert_null(strstr(text, "{"));
    expect_status(&l, bayleaf(&l, "start", "job", "water-pump-circuit"), 0);
    text = command_read(l.arena,
                        path_in(&l, "procedures/jobs/water-pump-circuit-1.md"))
               .start;
    assert_true(text_starts(text_of(text), "# 12 V: "));
    arena_free(l.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_the_owner_reads),
        cmocka_unit_test(test_a_reading_is_told_in_words),
        cmocka_unit_test(test_what_is_not_on_the_sheet),
        cmocka_unit_test(test_none_is_not_told),
        cmocka_unit_test(test_an_angle_in_stages_is_set),
        cmocka_unit_test(test_a_sheet_that_cannot_be_written),
        cmocka_unit_test(test_nobody_in_the_file),
        cmocka_unit_test(test_sheet_in_the_hand),
        cmocka_unit_test(test_limit_in_words),
        cmocka_unit_test(test_computed_again),
        cmocka_unit_test(test_refused_sheet_is_withdrawn),
        cmocka_unit_test(test_set_that_lacks_its_voltage),
        cmocka_unit_test(test_issued_revision),
        cmocka_unit_test(test_issued_revision_that_was_changed),
        cmocka_unit_test(test_start_job),
        cmocka_unit_test(test_what_is_not_offered),
        cmocka_unit_test(test_ratings_of_a_circuit),
        cmocka_unit_test(test_what_to_watch),
        cmocka_unit_test(test_a_figure_in_the_title),
    };
    if (!library_room())
        return 1;
    return cmocka_run_group_tests_name("sheet", tests, NULL, NULL);
}
