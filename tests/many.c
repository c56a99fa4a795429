/* many.c - tests of runs over many guides, and of many runs over one library:
 * who is faster shows nowhere. */
#define ROOM BUILD "/many"

#include "support/library.h"

enum { GUIDES = 40, RUNS = 50 };

static const char *pdf_of(const struct library *l, int i) {
    return path_in(l, arena_printf(l->arena, "build/copy-%02d.pdf", i));
}

/* The wheel guide under 40 names; every seventh is refused, every fifth warns.
 */
static void fill(const struct library *l) {
    struct text wheel =
        command_read(l->arena, path_in(l, "procedures/wheel-fitting.md"));
    const char *remove[] = {"sh", "-c", "rm procedures/*.md", NULL};
    assert_int_equal(command_run(remove, l->folder, l->out, l->err), 0);
    for (int i = 0; i < GUIDES; i++) {
        struct buf b = buf_in(l->arena);
        buf_text(&b, wheel);
        if (i % 7 == 3)
            buf_puts(&b, "\n```check\n2 V <= 1 V  \"never\"\n```\n");
        if (i % 5 == 1)
            buf_puts(&b, "\n## More\n\nKeep 3 m away.\n");
        const char *name = arena_printf(l->arena, "procedures/copy-%02d.md", i);
        assert_true(command_write(path_in(l, name), buf_as_text(&b)));
        edit(l, name, "id: WH-007", arena_printf(l->arena, "id: WH-%d", i));
        if (i % 5 == 1)
            edit(l, name, "status: released", "status: draft");
    }
}

/* Words, files and status are those of one guide after the other. */
static void test_order_of_many(void **state) {
    (void)state;
    struct library l = library_new("order");
    fill(&l);
    struct buf out = buf_in(l.arena), err = buf_in(l.arena);
    struct text pdf[GUIDES];
    for (int i = 0; i < GUIDES; i++) {
        const char *name = arena_printf(l.arena, "procedures/copy-%02d.md", i);
        int status = bayleaf(&l, "build", name, NULL);
        expect_status(&l, status, i % 7 == 3 ? 1 : 0);
        buf_puts(&out, output(&l));
        buf_puts(&err, messages(&l));
        pdf[i] = command_read(l.arena, pdf_of(&l, i));
    }
    const char *remove[] = {"rm", "-rf", path_in(&l, "build"), NULL};
    for (int round = 0; round < 3; round++) {
        assert_int_equal(command_run(remove, ".", l.out, l.err), 0);
        expect_status(&l, bayleaf(&l, "build", NULL, NULL), 1);
        assert_string_equal(output(&l), buf_cstr(&out));
        assert_string_equal(messages(&l), buf_cstr(&err));
        for (int i = 0; i < GUIDES; i++)
            assert_true(
                text_equal(command_read(l.arena, pdf_of(&l, i)), pdf[i]));
    }
    arena_free(l.arena);
}

/* Fifty runs at once leave what one leaves. */
static void test_many_runs(void **state) {
    (void)state;
    struct library l = library_new("runs");
    fill(&l);
    expect_status(&l, bayleaf(&l, "build", NULL, NULL), 1);
    struct text pdf[GUIDES];
    for (int i = 0; i < GUIDES; i++)
        pdf[i] = command_read(l.arena, pdf_of(&l, i));
    assert_int_equal(remove(path_in(&l, "build/index.txt")), 0);
    pid_t child[RUNS];
    for (int k = 0; k < RUNS; k++) {
        child[k] = fork();
        assert_true(child[k] >= 0);
        if (child[k] == 0) {
            /* One in ten builds them all, of which some are refused. */
            const char *one =
                arena_printf(l.arena, "procedures/copy-%02d.md", k % 3 * 2);
            const char *argv[] = {program, "build", k % 10 == 0 ? NULL : one,
                                  NULL};
            int status = command_run(argv, l.folder, "/dev/null", "/dev/null");
            _exit(status != (k % 10 == 0 ? 1 : 0));
        }
    }
    for (int k = 0; k < RUNS; k++) {
        int status = 0;
        assert_true(waitpid(child[k], &status, 0) == child[k]);
        assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    for (int i = 0; i < GUIDES; i++)
        assert_true(text_equal(command_read(l.arena, pdf_of(&l, i)), pdf[i]));
    const char *left[] = {"sh", "-c", "ls -A build | grep -c '^[.]'", NULL};
    assert_int_equal(command_run(left, l.folder, l.out, l.err), 1);
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_order_of_many),
        cmocka_unit_test(test_many_runs),
    };
    return cmocka_run_group_tests_name("many", tests, NULL, NULL);
}
