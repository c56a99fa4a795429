/* fleet.c - many jobs at once: `bayleaf sheet` of several, and of the rows of a
 * table. */
#define ROOM BUILD "/fleet"

#include "support/library.h"

#define GUIDE "procedures/headlamp-relay.md"
#define PUMP "procedures/jobs/fen-pump-2031.md"

/* More rows of an issued revision than are computed at once. */
static void test_fleet_of_an_issued_revision(void **state) {
    (void)state;
    struct library l = library_new("issued-fleet");
    enum { ROWS = 140 };
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    edit(&l, GUIDE, "| <= 0.45 V", "| <= 0.25 V");
    struct buf table = buf_in(l.arena);
    buf_puts(&table, "number,guide,revision,variant,date,R1 left\n");
    for (int i = 0; i < ROWS; i++)
        buf_printf(&table,
                   "L-%d,headlamp-relay,1,mark 1,26 November 2025,0.3 V\n", i);
    assert_true(command_write(path_in(&l, "lamps.csv"), buf_as_text(&table)));
    expect_status(&l, bayleaf(&l, "sheet", "--from", "lamps.csv"), 0);
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), ROWS);
    const char *last = printed(&l, "build/jobs/L-139.pdf");
    expect_text(last, "passes");
    assert_null(strstr(last, "NOT ISSUED"));
    arena_free(l.arena);
}

/* As many as are wanted at once, the good ones printed, the bad one named. */
static void test_many(void **state) {
    (void)state;
    struct library l = library_new("many");
    const char *argv[] = {
        program,  "sheet", "fen-pump-2031", "fen-lamps-2027", "fen-house-2040",
        "--json", NULL};
    edit(&l, "procedures/jobs/fen-house-2040.md", "R1 | 9 A", "R7 | 9 A");
    assert_int_equal(command_run(argv, l.folder, l.out, l.err), 2);
    assert_non_null(strstr(messages(&l), "fen-house-2040.md:16:1: error: "
                                         "reading that the guide does not "
                                         "take: 'R7'"));
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 2);
    const char *out = output(&l);
    const char *one = strstr(out, "fen-pump"), *two = strstr(out, "fen-lamps"),
               *three = strstr(out, "fen-house");
    assert_true(one != NULL && two != NULL && three != NULL);
    assert_true(one < two && two < three);
    arena_free(l.arena);
}

static void test_two_of_one_number(void **state) {
    (void)state;
    struct library l = library_new("twice");
    edit(&l, PUMP, "number: 2031", "number: 2027");
    expect_status(&l, bayleaf(&l, "sheet", "fen-pump-2031", NULL), 2);
    assert_non_null(strstr(messages(&l), "two jobs of one number: 2027 is "
                                         "that of procedures/jobs/"
                                         "fen-lamps-2027.md too"));
    arena_free(l.arena);
}

/* A table of fifty: as the same rows in files would print. */
static void test_fleet(void **state) {
    (void)state;
    struct library l = library_new("fleet");
    expect_status(
        &l, bayleaf(&l, "sheet", "--from", "procedures/jobs/hire-fleet.csv"),
        0);
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 50);
    struct text row = command_read(l.arena, path_in(&l, "build/jobs/H-07.pdf"));
    assert_true(text_starts(row, "%PDF-"));
    expect_text(printed(&l, "build/jobs/H-07.pdf"), "Lakeside Hire");
    expect_text(printed(&l, "build/jobs/H-07.pdf"), "H-07");
    /* Once more, by its name, the same bytes, and nothing but sheets in the
     * folder. */
    expect_status(&l, bayleaf(&l, "sheet", "--from", "hire-fleet.csv"), 0);
    assert_true(text_equal(
        row, command_read(l.arena, path_in(&l, "build/jobs/H-07.pdf"))));
    assert_int_equal(count_files(&l, "build/jobs", ""), 50 + 2); /* . and .. */
    /* One that does not hold is named; the others are there. */
    edit(&l, "procedures/jobs/hire-fleet.csv", "H-07,water-pump-circuit",
         "H-07,water-pump-circus");
    expect_status(
        &l, bayleaf(&l, "sheet", "--from", "procedures/jobs/hire-fleet.csv"),
        2);
    assert_non_null(strstr(messages(&l), "hire-fleet.csv row 8, guide: error: "
                                         "no such file"));
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 49);
    assert_true(there(&l, "build/jobs/withdrawn/H-07.pdf"));
    /* A table without a row prints nothing, and says so. */
    struct text all =
        command_read(l.arena, path_in(&l, "procedures/jobs/hire-fleet.csv"));
    const char *end = strchr(all.start, '\n');
    assert_true(
        command_write(path_in(&l, "head.csv"),
                      (struct text){all.start, (size_t)(end - all.start) + 1}));
    expect_status(&l, bayleaf(&l, "sheet", "--from", "head.csv"), 2);
    assert_non_null(strstr(messages(&l), "has no row below them"));
    arena_free(l.arena);
}

/* A row that is wrong otherwise, too, takes no sheet from the one whose number
 * it has. */
static void test_wrong_row_of_a_number_that_is_taken(void **state) {
    (void)state;
    struct library l = library_new("taken");
    const char *fleet = "procedures/jobs/hire-fleet.csv";
    expect_status(&l, bayleaf(&l, "sheet", "--from", fleet), 0);
    edit(&l, fleet, "H-50,water-pump-circuit", "H-01,");
    expect_status(&l, bayleaf(&l, "sheet", "--from", fleet), 2);
    expect_text(messages(&l), "row 51: error: setting missing");
    expect_text(messages(&l), "two jobs of one number: H-01");
    assert_null(strstr(messages(&l), "its last sheet is now"));
    assert_true(there(&l, "build/jobs/H-01.pdf"));
    arena_free(l.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fleet_of_an_issued_revision),
        cmocka_unit_test(test_many),
        cmocka_unit_test(test_two_of_one_number),
        cmocka_unit_test(test_fleet),
        cmocka_unit_test(test_wrong_row_of_a_number_that_is_taken),
    };
    if (!library_room())
        return 1;
    return cmocka_run_group_tests_name("fleet", tests, NULL, NULL);
}
