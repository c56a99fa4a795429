/* template.c - tests of templates that are wrong: the guides are sound, so
 * nothing is withdrawn and nothing is said of them. */
#define ROOM BUILD "/template"

#include "support/library.h"

#define GUIDE "procedures/headlamp-relay.md"
#define OTHER "procedures/wheel-fitting.md"
#define OTHER_PDF "build/wheel-fitting.pdf"

/* Two guides printed by two templates. */
static struct library library_printed(const char *name) {
    struct library l = library_new(name);
    expect_status(&l, bayleaf(&l, "build", GUIDE, OTHER), 0);
    expect_status(&l, bayleaf(&l, "build", "--template=bench", GUIDE), 0);
    assert_int_equal(count_files(&l, "build", ".pdf"), 3);
    return l;
}

static size_t times(const char *in, const char *what) {
    size_t count = 0;
    for (; (in = strstr(in, what)) != NULL; in += strlen(what))
        count++;
    return count;
}

/* A build of both guides that says this one thing, and leaves what was there.
 */
static void expect_told_once(struct library *l, const char *template,
                             const char *message) {
    static const char *const verbs[] = {"check", "build"};
    for (size_t i = 0; i < 2; i++) {
        const char *argv[] = {program, verbs[i], "--template", template,
                              GUIDE,   OTHER,    NULL};
        expect_status(l, command_run(argv, l->folder, l->out, l->err), 2);
        const char *said = messages(l);
        if (times(said, message) != 1 || times(said, "error: ") != 1)
            fail_msg("%s: %s", verbs[i], said);
        assert_null(strstr(said, GUIDE));
        assert_string_equal(output(l), "");
        assert_int_equal(count_files(l, "build", ".pdf"), 3);
        assert_false(there(l, "build/withdrawn"));
    }
}

static void write_template(struct library *l, const char *name,
                           const char *text) {
    assert_true(command_write(path_in(l, name), text_of(text)));
}

static void test_no_such_template(void **state) {
    (void)state;
    struct library l = library_printed("unknown");
    expect_told_once(&l, "bech",
                     "no such template: 'bech' (did you mean 'bench'?)");
    expect_status(&l, bayleaf(&l, "build", "--json", "--template=bech"), 2);
    assert_string_equal(output(&l), "[]\n");
    arena_free(l.arena);
}

static void test_slips_of_a_template(void **state) {
    (void)state;
    struct library l = library_printed("slips");
    write_template(&l, "templates/ours.md",
                   "# Ours\n\n```page\nlike: shop\nlogo: none.png\n```\n");
    expect_told_once(&l, "ours", "no such file: procedures/none.png");
    write_template(&l, "templates/ours.md",
                   "# Ours\n\n```page\nlike: shop\npaper: A5\n"
                   "binding margin: 40 mm\nouter margin: 40 mm\n```\n");
    expect_told_once(&l, "ours", "the margins leave 68 mm for the text");
    write_template(&l, "templates/ours.md",
                   "# Ours\n\n```insert title\n```\n```insert title\n```\n");
    expect_told_once(&l, "ours", "block written twice: 'title' prints once");
    arena_free(l.arena);
}

/* What shows only where its words are set. */
static void test_words_of_a_template(void **state) {
    (void)state;
    struct library l = library_printed("words");
    write_template(&l, "templates/ours.md",
                   "# Ours\n\n```insert title\n```\n\n"
                   "## Words\n\nWith \xE6\xBC\xA2 in it.\n");
    expect_told_once(&l, "ours", "no face has this character");
    arena_free(l.arena);
}

/* The usual one: its last PDFs stand as well, and those of other templates. */
static void test_usual_template(void **state) {
    (void)state;
    struct library l = library_printed("usual");
    edit(&l, "templates/shop.md", "insert records", "insert recrods");
    expect_told_once(&l, "shop", "unknown part of a guide");
    edit(&l, "templates/shop.md", "insert recrods", "insert records");
    expect_status(&l, bayleaf(&l, "build", GUIDE, OTHER), 0);
    arena_free(l.arena);
}

/* A page that one guide does not fit on: its own PDF goes, by that template
 * alone. */
static void test_page_too_narrow(void **state) {
    (void)state;
    struct library l = library_printed("narrow");
    const char *narrow = "build/wheel-fitting.narrow.pdf";
    const char *argument = "--template=narrow";
    write_template(&l, "templates/narrow.md",
                   "# Narrow\n\n```page\nlike: shop\n```\n");
    expect_status(&l, bayleaf(&l, "build", argument, OTHER), 0);
    assert_true(there(&l, narrow));
    write_template(&l, "templates/narrow.md",
                   "# Narrow\n\n```page\nlike: shop\npaper: A5\n"
                   "binding margin: 32 mm\nouter margin: 32 mm\n```\n");
    expect_status(&l, bayleaf(&l, "build", argument, OTHER), 2);
    assert_int_equal(times(messages(&l), "was refused"), 1);
    assert_false(there(&l, narrow));
    assert_true(there(&l, OTHER_PDF));
    arena_free(l.arena);
}

/* The owner's sheets of a shop that slips in its template. */
static void test_owners_sheets(void **state) {
    (void)state;
    struct library l = library_new("sheets");
    static const char job[] = "fen-lamps-2027";
    expect_status(&l, bayleaf(&l, "sheet", job, NULL), 0);
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 1);
    edit(&l, "templates/owner.md", "insert work", "insert wrok");
    expect_status(&l, bayleaf(&l, "sheet", job, NULL), 2);
    assert_int_equal(times(messages(&l), "error: "), 1);
    assert_null(strstr(messages(&l), "no sheet of"));
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 1);
    expect_status(&l, bayleaf(&l, "sheet", job, "--template=onwer"), 2);
    assert_non_null(strstr(messages(&l), "no such template"));
    assert_int_equal(count_files(&l, "build/jobs", ".pdf"), 1);
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_no_such_template),
        cmocka_unit_test(test_slips_of_a_template),
        cmocka_unit_test(test_words_of_a_template),
        cmocka_unit_test(test_usual_template),
        cmocka_unit_test(test_page_too_narrow),
        cmocka_unit_test(test_owners_sheets),
    };
    return cmocka_run_group_tests_name("template", tests, NULL, NULL);
}
