/* disagreements.c - where published sources disagree, the author must choose or
 * the output says which was used: tests/reference/disagreements.csv. */
#define ROOM BUILD "/disagreements"

#include "support/library.h"

#include "unit/calc/csv.h"

enum { ARGUMENTS = 16 };

/* Words between bars. */
static void arguments_of(char *text, const char *argv[ARGUMENTS]) {
    size_t count = 0;
    argv[count++] = program;
    argv[count++] = "size";
    for (char *at = text; at != NULL;) {
        char *bar = strchr(at, '|');
        assert_true(count < ARGUMENTS - 1);
        argv[count++] = at;
        if (bar != NULL)
            *bar++ = '\0';
        at = bar;
    }
    argv[count] = NULL;
}

static void test_choice_or_notice(void **state) {
    (void)state;
    struct library l = library_new("rows");
    struct csv c = csv_open("disagreements");
    while (csv_next(&c)) {
        const char *argv[ARGUMENTS];
        arguments_of(arena_printf(l.arena, "%s", csv_text(&c, "try")), argv);
        int status = command_run(argv, l.folder, l.out, l.err);
        bool chosen = csv_is(&c, "then", "refused");
        if (status != (chosen ? 2 : 0))
            fail_msg("row %d (%s): exit %d\n%s%s", c.row, csv_text(&c, "about"),
                     status, output(&l), messages(&l));
        const char *said = chosen ? messages(&l) : output(&l);
        if (strstr(said, csv_text(&c, "says")) == NULL)
            fail_msg("row %d (%s): not said:\n%s", c.row, csv_text(&c, "about"),
                     said);
        csv_agreed(&c);
    }
    csv_close(&c);
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 1;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_choice_or_notice),
    };
    return cmocka_run_group_tests_name("disagreements", tests, NULL, NULL);
}
