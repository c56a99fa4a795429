/* issue.c - tests of `bayleaf issue`: what is frozen, what it refuses, and how
 * later builds stand against it. */
#define ROOM BUILD "/issue"

#include "support/library.h"

#define GUIDE "procedures/headlamp-relay.md"
#define PDF "build/headlamp-relay.pdf"
#define FIRST "procedures/issued/LT-012-1.txt"
#define SECOND "procedures/issued/LT-012-2.txt"

static const char *said(const struct library *l) {
    return command_read(l->arena, l->out).start;
}

static void issue(const struct library *l) {
    expect_status(l, bayleaf(l, "issue", GUIDE, NULL), 0);
}

static void test_issued_guide_says_so(void **state) {
    (void)state;
    struct library l = library_new("says-so");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_non_null(strstr(printed(&l, PDF), "NOT ISSUED"));
    issue(&l);
    assert_true(strncmp(said(&l), FIRST, strlen(FIRST)) == 0);
    assert_null(strstr(printed(&l, PDF), "NOT ISSUED"));
    /* The code that was told is the one on the sheet. */
    issue(&l);
    const char *code = arena_copy(l.arena, said(&l) + strlen(FIRST) + 2, 8);
    assert_non_null(strstr(said(&l), "as it was"));
    assert_non_null(strstr(printed(&l, PDF), code));
    /* A build of the same source is issued too, and so is another template. */
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_string_equal(messages(&l), "");
    assert_non_null(strstr(printed(&l, PDF), code));
    expect_status(&l, bayleaf(&l, "build", "--template=bench", GUIDE), 0);
    assert_null(
        strstr(printed(&l, "build/headlamp-relay.bench.pdf"), "NOT ISSUED"));
    arena_free(l.arena);
}

/* The frozen file holds the sources byte for byte. */
static void test_sources_are_kept(void **state) {
    (void)state;
    struct library l = library_new("sources");
    issue(&l);
    struct text file = command_read(l.arena, path_in(&l, FIRST));
    struct text guide = command_read(l.arena, path_in(&l, GUIDE));
    struct buf wanted = buf_in(l.arena);
    buf_puts(&wanted, "| ");
    for (size_t i = 0; i < guide.len; i++) {
        buf_add(&wanted, guide.start + i, 1);
        if (guide.start[i] == '\n' && i + 1 < guide.len)
            buf_puts(&wanted, guide.start[i + 1] == '\n' ? "|" : "| ");
    }
    assert_non_null(strstr(file.start, buf_cstr(&wanted)));
    assert_non_null(strstr(file.start, "\nsource procedures/facts/"));
    assert_non_null(strstr(file.start, "\n| feed.size\t10 AWG; mark\xC2\xA0"
                                       "3: 8 AWG\n"));
    arena_free(l.arena);
}

/* Words of a drawing and the samples of a picture are printed, too. */
static void test_changed_drawings_are_told(void **state) {
    (void)state;
    static const char *const change[][2] = {
        {"switch S2   dip switch", "switch S2   toggle"},
        {"wire    W2  feed, 0.4 m, red/white", "wire    W2  feed, 0.4 m, red"},
        {"state: high beam", "state: main beam"},
        {"joint   G1  ring M8", "joint   G1  ring M10"},
        {"title: Relay K1 from below", "title: Relay K1 seen from below"},
    };
    struct library l = library_new("drawings");
    issue(&l);
    struct text guide = command_read(l.arena, path_in(&l, GUIDE));
    for (size_t i = 0; i < sizeof change / sizeof *change; i++) {
        edit(&l, GUIDE, change[i][0], change[i][1]);
        expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
        if (strstr(messages(&l), "warning: issued otherwise") == NULL)
            fail_msg("%s: %s", change[i][1], messages(&l));
        assert_true(command_write(path_in(&l, GUIDE), guide));
    }
    arena_free(l.arena);
}

static void test_changed_words_are_told(void **state) {
    (void)state;
    struct library l = library_new("changed");
    issue(&l);
    struct text was = command_read(l.arena, path_in(&l, FIRST));
    edit(&l, GUIDE, "red from F1 to terminals",
         "red wire from F1 to terminals");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_non_null(strstr(messages(&l),
                           "warning: issued otherwise: revision 1 "
                           "of LT-012 was issued with another "
                           "text, first at step"));
    assert_non_null(strstr(printed(&l, PDF), "NOT ISSUED"));
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 1);
    assert_non_null(strstr(messages(&l), "error: cannot be issued: revision 1 "
                                         "was issued with another text"));
    assert_true(text_equal(was, command_read(l.arena, path_in(&l, FIRST))));
    arena_free(l.arena);
}

/* A comment changes nothing that anyone reads. */
static void test_comment_is_no_change(void **state) {
    (void)state;
    struct library l = library_new("comment");
    issue(&l);
    edit(&l, GUIDE, "```wire feed\n", "```wire feed\n# measured again\n");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_string_equal(messages(&l), "");
    assert_null(strstr(printed(&l, PDF), "NOT ISSUED"));
    arena_free(l.arena);
}

/* Words and a computed number that changed have a bar, and stand on page 1. */
static void test_next_revision_shows_what_changed(void **state) {
    (void)state;
    struct library l = library_new("next");
    issue(&l);
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_non_null(
        strstr(printed(&l, PDF), "Changed since revision 1: nothing"));
    edit(&l, GUIDE, "use: 10 AWG [mark 1, mark 2] 8 AWG [mark 3]",
         "use: 8 AWG");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    const char *page = printed(&l, PDF);
    assert_null(strstr(page, "Changed since revision 1: nothing"));
    assert_non_null(strstr(page, "Changed since revision 1:"));
    expect_status(&l, bayleaf(&l, "dump", "pages", GUIDE), 0);
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    assert_true(there(&l, FIRST) && there(&l, SECOND));
    arena_free(l.arena);
}

static void test_draft_is_not_issued(void **state) {
    (void)state;
    struct library l = library_new("draft");
    edit(&l, GUIDE, "status: released", "status: draft");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 1);
    assert_non_null(strstr(messages(&l), "cannot be issued: only a released "
                                         "guide is"));
    assert_false(there(&l, "procedures/issued"));
    arena_free(l.arena);
}

/* One vehicle's print is held against what was issued for that vehicle. */
static void test_changes_for_one_vehicle(void **state) {
    (void)state;
    struct library l = library_new("for-one");
    issue(&l);
    edit(&l, GUIDE, "revision: 1", "revision: 2");
    edit(&l, GUIDE, "Take off the heater-box cover",
         "Lift off the heater-box cover");
    expect_status(&l, bayleaf(&l, "build", "--for=mark 3", GUIDE), 0);
    assert_non_null(strstr(printed(&l, "build/headlamp-relay.mark-3.pdf"),
                           "Changed since revision 1: step 5 (page"));
    expect_status(&l, bayleaf(&l, "build", "--for=mark 1", GUIDE), 0);
    assert_non_null(strstr(printed(&l, "build/headlamp-relay.mark-1.pdf"),
                           "Changed since revision 1: nothing"));
    arena_free(l.arena);
}

static void test_refused_guide_is_not_issued(void **state) {
    (void)state;
    struct library l = library_new("refused");
    edit(&l, GUIDE, "use: 10 AWG [mark 1, mark 2] 8 AWG [mark 3]",
         "use: 18 AWG");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 1);
    assert_false(there(&l, "procedures/issued"));
    arena_free(l.arena);
}

static void test_two_guides_of_one_number(void **state) {
    (void)state;
    struct library l = library_new("one-number");
    issue(&l);
    const char *copy[] = {"cp", path_in(&l, GUIDE),
                          path_in(&l, "procedures/other.md"), NULL};
    assert_int_equal(command_run(copy, ".", l.out, l.err), 0);
    expect_status(&l, bayleaf(&l, "issue", "other", NULL), 1);
    assert_non_null(
        strstr(messages(&l), "is of another guide, headlamp-relay"));
    /* It is told before that: of two that are worked on, and beside one that
     * stands as it was built. */
    static const char told[] =
        "procedures/other.md:4:1: warning: number of another guide: LT-012 is "
        "that of procedures/headlamp-relay.md, too";
    expect_status(&l, bayleaf(&l, "check", NULL, NULL), 0);
    assert_non_null(strstr(messages(&l), told));
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_null(strstr(messages(&l), "number of another guide"));
    expect_status(&l, bayleaf(&l, "build", "other", NULL), 0);
    assert_non_null(strstr(messages(&l), told));
    /* Each of them, whichever is built by itself. */
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_non_null(strstr(
        messages(&l), "procedures/headlamp-relay.md:4:1: warning: number of "
                      "another guide: LT-012 is that of "
                      "procedures/other.md, too"));
    expect_status(&l, bayleaf(&l, "build", "other", NULL), 0);
    assert_non_null(strstr(messages(&l), told));
    /* In one run it is told once, of the later one. */
    expect_status(&l, bayleaf(&l, "build", NULL, NULL), 0);
    assert_non_null(strstr(messages(&l), told));
    assert_null(strstr(messages(&l), "that of procedures/other.md"));
    expect_status(&l, bayleaf(&l, "register", NULL, NULL), 1);
    assert_non_null(strstr(output(&l), "\n  LT-012 is the number of "
                                       "procedures/headlamp-relay.md and of "
                                       "procedures/other.md\n"));
    edit(&l, "procedures/other.md", "id: LT-012", "id: LT-013");
    expect_status(&l, bayleaf(&l, "build", "other", NULL), 0);
    assert_null(strstr(messages(&l), "number of another guide"));
    arena_free(l.arena);
}

/* A blank in it is one of its letters; how many stand there is not. */
static void test_number_with_a_blank(void **state) {
    (void)state;
    struct library l = library_new("blank");
    edit(&l, GUIDE, "id: LT-012", "id: LT 012");
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    const char *copy[] = {"cp", path_in(&l, GUIDE),
                          path_in(&l, "procedures/other.md"), NULL};
    assert_int_equal(command_run(copy, ".", l.out, l.err), 0);
    edit(&l, "procedures/other.md", "id: LT 012", "id: LT  012");
    expect_status(&l, bayleaf(&l, "build", "other", NULL), 0);
    assert_non_null(
        strstr(messages(&l), "LT 012 is that of procedures/headlamp-relay.md"));
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_non_null(
        strstr(messages(&l), "LT 012 is that of procedures/other.md"));
    edit(&l, "procedures/other.md", "id: LT  012", "id: LT 013");
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_null(strstr(messages(&l), "number of another guide"));
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_non_null(strstr(output(&l), "as it was"));
    arena_free(l.arena);
}

/* A number may begin with any letter there is. */
static void test_number_beyond_ascii(void **state) {
    (void)state;
    struct library l = library_new("letter");
    edit(&l, GUIDE, "id: LT-012", "id: \xC3\x84-12");
    const char *copy[] = {"cp", path_in(&l, GUIDE),
                          path_in(&l, "procedures/other.md"), NULL};
    assert_int_equal(command_run(copy, ".", l.out, l.err), 0);
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_null(strstr(messages(&l), "number of another guide"));
    expect_status(&l, bayleaf(&l, "build", "other", NULL), 0);
    assert_non_null(
        strstr(messages(&l),
               "\xC3\x84-12 is that of procedures/headlamp-relay.md, too"));
    expect_status(&l, bayleaf(&l, "build", "headlamp-relay", NULL), 0);
    assert_non_null(strstr(messages(&l),
                           "\xC3\x84-12 is that of procedures/other.md, too"));
    arena_free(l.arena);
}

static void test_number_that_is_no_file_name(void **state) {
    (void)state;
    struct library l = library_new("no-name");
    edit(&l, GUIDE, "id: LT-012", "id: ../LT 012");
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 1);
    assert_non_null(strstr(messages(&l), "its id is no name of a file"));
    assert_false(there(&l, "procedures/issued"));
    arena_free(l.arena);
}

/* One byte changed, cut short anywhere, or of a newer program: told by name,
 * and nothing is taken for it. */
static void test_damaged(void **state) {
    (void)state;
    struct library l = library_new("damaged");
    issue(&l);
    const char *path = path_in(&l, FIRST);
    struct text whole = command_read(l.arena, path);
    for (size_t i = 0; i < 24; i++) {
        char *bytes = arena_copy(l.arena, whole.start, whole.len);
        size_t at = i * (whole.len - 1) / 23;
        if (i % 2 == 0)
            bytes[at] ^= 1;
        struct text bad = {bytes, i % 2 == 0 ? whole.len : at};
        assert_true(command_write(path, bad));
        expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 2);
        assert_non_null(strstr(messages(&l),
                               "bayleaf: error: issued file is damaged: "
                               "procedures/issued/LT-012-1.txt: "));
    }
    struct buf newer = buf_in(l.arena);
    buf_puts(&newer, "bayleaf issued revision, form 2\n");
    assert_true(command_write(path, buf_as_text(&newer)));
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 2);
    assert_non_null(strstr(messages(&l),
                           "bayleaf: error: issued file of a newer program: "
                           "procedures/issued/LT-012-1.txt: form 2, this "
                           "program knows 1"));
    arena_free(l.arena);
}

/* Left by nobody: a full disk leaves no half of it. */
static void test_full_disk(void **state) {
    (void)state;
    struct library l = library_new("full");
    const char *argv[] = {
        "sh",    "-c",  "ulimit -f 1; exec \"$0\" issue \"$1\"",
        program, GUIDE, NULL};
    int status = command_run(argv, l.folder, l.out, l.err);
    assert_true(status == 3 || status > 128);
    assert_int_equal(count_files(&l, "procedures/issued", ".txt"), 0);
    issue(&l);
    arena_free(l.arena);
}

/* What a killed run left is swept away by the next. */
static void test_left_file_is_swept(void **state) {
    (void)state;
    struct library l = library_new("left");
    issue(&l);
    const char *left = "procedures/issued/.bayleaf-AbCdEf";
    assert_true(command_write(path_in(&l, left), text_of("half")));
    issue(&l);
    assert_false(there(&l, left));
    assert_true(there(&l, FIRST));
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_issued_guide_says_so),
        cmocka_unit_test(test_sources_are_kept),
        cmocka_unit_test(test_changed_drawings_are_told),
        cmocka_unit_test(test_changed_words_are_told),
        cmocka_unit_test(test_comment_is_no_change),
        cmocka_unit_test(test_next_revision_shows_what_changed),
        cmocka_unit_test(test_draft_is_not_issued),
        cmocka_unit_test(test_changes_for_one_vehicle),
        cmocka_unit_test(test_refused_guide_is_not_issued),
        cmocka_unit_test(test_two_guides_of_one_number),
        cmocka_unit_test(test_number_with_a_blank),
        cmocka_unit_test(test_number_beyond_ascii),
        cmocka_unit_test(test_number_that_is_no_file_name),
        cmocka_unit_test(test_damaged),
        cmocka_unit_test(test_full_disk),
        cmocka_unit_test(test_left_file_is_swept),
    };
    return cmocka_run_group_tests_name("issue", tests, NULL, NULL);
}
