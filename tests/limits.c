/* limits.c - what is larger than a library may be: inputs too large to keep in
 * the repository. */
#define ROOM BUILD "/limits"

#include "support/library.h"

#define HEAD "# T\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n"

static void write_text(const struct library *l, const char *name,
                       const struct buf *b) {
    assert_true(command_write(path_in(l, name), buf_as_text(b)));
}

static void write_string(const struct library *l, const char *name,
                         const char *text) {
    assert_true(command_write(path_in(l, name), text_of(text)));
}

static void expect_message(const struct library *l, int status,
                           const char *words) {
    expect_status(l, bayleaf(l, "check", "procedures/big.md", NULL), status);
    if (strstr(messages(l), words) == NULL)
        fail_msg("no '%s' among:\n%s", words, messages(l));
}

static void test_file_over_16_megabytes(void **state) {
    (void)state;
    struct library l = library_new("large");
    struct buf b = buf_in(l.arena);
    buf_puts(&b, HEAD "```\n\n");
    while (b.len <= 16u << 20)
        buf_puts(&b, "Words and words and words and words and words.\n");
    write_text(&l, "procedures/big.md", &b);
    expect_message(&l, 2, "file too large");
    arena_free(l.arena);
}

static void test_includes_within_includes(void **state) {
    (void)state;
    struct library l = library_new("deep");
    write_string(&l, "procedures/big.md", HEAD "```\n\n```include s0\n```\n");
    for (int i = 0; i < 20; i++)
        write_string(&l, arena_printf(l.arena, "procedures/shared/s%d.md", i),
                     arena_printf(l.arena,
                                  "# S\n\n1. Go.\n\n```include s%d\n```\n",
                                  i + 1));
    write_string(&l, "procedures/shared/s20.md", "# S\n\n1. Go.\n");
    expect_message(&l, 2, "includes nested too deeply");
    arena_free(l.arena);
}

static void test_includes_that_double(void **state) {
    (void)state;
    struct library l = library_new("many");
    write_string(&l, "procedures/big.md", HEAD "```\n\n```include s0\n```\n");
    for (int i = 0; i < 12; i++)
        write_string(
            &l, arena_printf(l.arena, "procedures/shared/s%d.md", i),
            arena_printf(l.arena,
                         "# S\n\n```include s%d\n```\n\n```include s%d\n```\n",
                         i + 1, i + 1));
    write_string(&l, "procedures/shared/s12.md", "# S\n\n1. Go.\n");
    expect_message(&l, 2, "too many includes");
    arena_free(l.arena);
}

static void test_more_needs_than_a_file_may_have(void **state) {
    (void)state;
    struct library l = library_new("needs");
    struct buf guide = buf_in(l.arena), shared = buf_in(l.arena);
    buf_puts(&guide, HEAD "```\n\n```include s0\n");
    buf_puts(&shared, "# S\n\n```needs\n");
    for (int i = 0; i < 120; i++) {
        buf_printf(&guide, "n%d = \"x\"\n", i);
        buf_printf(&shared, "n%d: text\n", i);
    }
    buf_puts(&guide, "```\n");
    buf_puts(&shared, "```\n\n1. Go.\n");
    write_text(&l, "procedures/big.md", &guide);
    write_text(&l, "procedures/shared/s0.md", &shared);
    expect_message(&l, 2, "too many needs");
    arena_free(l.arena);
}

static void test_more_variants_than_a_set_holds(void **state) {
    (void)state;
    struct library l = library_new("variants");
    struct buf facts = buf_in(l.arena);
    buf_puts(&facts, "# V\n\n```vehicle v\nvariant\n");
    for (int i = 0; i < 65; i++)
        buf_printf(&facts, "v%d\n", i);
    buf_puts(&facts, "```\n");
    write_text(&l, "procedures/facts/v.md", &facts);
    write_string(&l, "procedures/big.md", HEAD "uses: v\n```\n\nText.\n");
    expect_message(&l, 2, "too many variants");
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_file_over_16_megabytes),
        cmocka_unit_test(test_includes_within_includes),
        cmocka_unit_test(test_includes_that_double),
        cmocka_unit_test(test_more_needs_than_a_file_may_have),
        cmocka_unit_test(test_more_variants_than_a_set_holds),
    };
    return cmocka_run_group_tests_name("limits", tests, NULL, NULL);
}
