/* test_tally.c - the checks as the annex lists them. */
#include "base/arena.h"
#include "layout/tally.h"
#include "source/tree.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static const struct block lamps = {.index = 3}, feed = {.index = 1};

static struct verdict wire(const char *part, const char *what,
                           const char *value) {
    return (struct verdict){.block = &lamps,
                            .rule = "ampacity",
                            .what = what,
                            .part = part,
                            .value = value,
                            .limit = "35 A",
                            .margin = "60 %",
                            .slack = 0.6,
                            .source = "a table",
                            .holds = true,
                            .variants = 1};
}

static int open_arena(void **state) {
    *state = arena_new();
    return 0;
}

static int close_arena(void **state) {
    arena_free(*state);
    return 0;
}

static const struct tally_row *tally(void **state, const struct verdict *list,
                                     size_t count, size_t *rows) {
    struct findings *f = arena_alloc(*state, 1, sizeof *f);
    f->verdict = list;
    f->verdict_count = count;
    return tally_checks(*state, f, 3, rows);
}

/* "each of", since the figure is not that of all of them together. */
static void test_parts_with_the_same_figures_share_a_row(void **state) {
    const struct verdict list[] = {
        wire("W1", "current in W1, high beam, against its ampacity", "12 A"),
        wire("W11", "current in W11, high beam, against its ampacity", "12 A"),
        wire("W2", "current in W2, high beam, against its ampacity", "9 A"),
        wire("W3", "current in W3, low beam, against its ampacity", "12 A"),
        wire("W12", "current in W12, high beam, against its ampacity", "12 A"),
    };
    size_t rows;
    const struct tally_row *row = tally(state, list, 5, &rows);
    assert_int_equal(rows, 3);
    assert_string_equal(row[0].what, "current in each of W1, W11 and W12, "
                                     "high beam, against its ampacity");
    assert_ptr_equal(row[0].verdict, &list[0]);
    assert_string_equal(row[1].what, list[2].what);
    assert_string_equal(row[2].what, list[3].what);
}

static void test_the_word_may_stand_last(void **state) {
    const struct verdict list[] = {
        wire("F1", "rating of F1 against the ampacity of W1", "30 A"),
        wire("F1", "rating of F1 against the ampacity of W21", "30 A"),
        wire("F2", "rating of F2 against the ampacity of W3", "30 A"),
    };
    size_t rows;
    const struct tally_row *row = tally(state, list, 3, &rows);
    assert_int_equal(rows, 2);
    assert_string_equal(row[0].what,
                        "rating of F1 against the ampacity of each of W1 and "
                        "W21");
    assert_string_equal(row[1].what, list[2].what);
}

/* Whatever the row prints, and an author's comparison, keep rows apart. */
static void test_what_differs_stands_apart(void **state) {
    struct verdict list[] = {wire("W1", "current in W1", "12 A"),
                             wire("W2", "current in W2", "12 A")};
    for (int i = 0; i < 8; i++) {
        list[1] = wire("W2", "current in W2", "12 A");
        if (i == 0)
            list[1].value = "13 A";
        else if (i == 1)
            list[1].limit = "36 A";
        else if (i == 2)
            list[1].margin = "61 %";
        else if (i == 3)
            list[1].source = "another table";
        else if (i == 4)
            list[1].variants = 2;
        else if (i == 5)
            list[1].overridden = true;
        else if (i == 6)
            list[1].block = &feed;
        else
            list[1].part = NULL;
        size_t rows;
        tally(state, list, 2, &rows);
        assert_int_equal(rows, 2);
    }
}

/* In the variant with the least margin, beside the others of its block. */
static void test_each_check_once_by_block(void **state) {
    struct verdict list[] = {
        wire("W1", "current in W1", "12 A"),
        {.block = &feed, .what = "drop", .slack = 0.2, .variants = 1},
        wire("W9", "fault current", "14 A"),
        wire("W1", "current in W1", "13 A"),
        {.block = &feed, .what = "other", .slack = 0.1, .variants = 4},
    };
    list[3].slack = 0.5;
    list[3].variants = 2;
    size_t rows;
    const struct tally_row *row = tally(state, list, 5, &rows);
    assert_int_equal(rows, 3); /* one is for vehicles of another sheet */
    assert_ptr_equal(row[0].verdict, &list[3]);
    assert_ptr_equal(row[1].verdict, &list[2]);
    assert_ptr_equal(row[2].verdict, &list[1]);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(
            test_parts_with_the_same_figures_share_a_row, open_arena,
            close_arena),
        cmocka_unit_test_setup_teardown(test_the_word_may_stand_last,
                                        open_arena, close_arena),
        cmocka_unit_test_setup_teardown(test_what_differs_stands_apart,
                                        open_arena, close_arena),
        cmocka_unit_test_setup_teardown(test_each_check_once_by_block,
                                        open_arena, close_arena),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
