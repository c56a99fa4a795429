/* program.c - tests of the whole program: files written, refused, damaged.
 *
 * Each test works in a library of its own, a copy of procedures/ and templates/
 * under BUILD/program/, so that one that fails leaves its files to look at. */
#define ROOM BUILD "/program"

#include "support/library.h"

#include <fcntl.h>

#define GUIDE "procedures/headlamp-relay.md"
#define PDF "build/headlamp-relay.pdf"

static void require_tool(const struct library *l, const char *name) {
    const char *argv[] = {name, "--version", NULL};
    if (command_run(argv, ".", l->out, l->err) == 127)
        fail_msg("%s is missing: make check installs it", name);
}

/* --- the PDF --- */

static void test_build_names_file_and_pages(void **state) {
    (void)state;
    struct library l = library_new("names");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_non_null(strstr(output(&l), PDF));
    assert_non_null(strstr(output(&l), " pages"));
    struct text pdf = command_read(l.arena, path_in(&l, PDF));
    assert_true(text_starts(pdf, "%PDF-"));
    assert_int_equal(count_files(&l, "build", ".pdf"), 1);
    arena_free(l.arena);
}

static void test_two_runs_give_the_same_bytes(void **state) {
    (void)state;
    struct library one = library_new("same-1"), two = library_new("same-2");
    expect_status(&one, bayleaf(&one, "build", GUIDE, NULL), 0);
    setenv("TZ", "Pacific/Chatham", 1);
    setenv("LC_ALL", "de_DE.UTF-8", 1);
    setenv("MALLOC_PERTURB_", "171", 1);
    int status = bayleaf(&two, "build", GUIDE, NULL);
    unsetenv("TZ");
    unsetenv("LC_ALL");
    unsetenv("MALLOC_PERTURB_");
    expect_status(&two, status, 0);
    struct text first = command_read(one.arena, path_in(&one, PDF));
    struct text second = command_read(two.arena, path_in(&two, PDF));
    assert_true(first.len > 1000);
    assert_true(text_equal(first, second));
    arena_free(one.arena);
    arena_free(two.arena);
}

/* How often each character but white space occurs. Text comes back in an order
 * of the reader's own, so characters are counted. */
enum { CODES = 0x11000 };

static bool is_space(uint32_t code) {
    return code <= 0x20 || code == 0xA0 || code == 0x202F ||
           (code >= 0x2000 && code <= 0x200B);
}

static void count_codes(struct text t, size_t *count) {
    for (size_t at = 0; at < t.len;) {
        uint32_t code = text_next(t, &at);
        if (!is_space(code) && code < CODES)
            count[code]++;
    }
}

/* The strings of the text lines of a dump: between quotes, \" and \\ undone. */
static void count_dumped(struct arena *a, const char *dump, size_t *count) {
    for (const char *line = dump; *line != '\0';) {
        const char *end = strchr(line, '\n');
        if (end == NULL)
            end = line + strlen(line);
        const char *quote = memchr(line, '"', (size_t)(end - line));
        struct buf b = buf_in(a);
        if (strncmp(line, "text ", 5) == 0 && quote != NULL)
            for (const char *c = quote + 1; c < end && *c != '"'; c++) {
                c += *c == '\\';
                buf_add(&b, c, 1);
            }
        count_codes(buf_as_text(&b), count);
        line = *end == '\0' ? end : end + 1;
    }
}

static void check_pdf(const char *guide, const char *stem) {
    struct library l = library_new(stem);
    const char *pdf = arena_printf(l.arena, "build/%s.pdf", stem);
    require_tool(&l, "qpdf");
    expect_status(&l, bayleaf(&l, "build", guide, NULL), 0);
    const char *qpdf[] = {"qpdf", "--check", pdf, NULL};
    int status = command_run(qpdf, l.folder, l.out, l.err);
    if (status != 0)
        fail_msg("qpdf --check: %s%s", output(&l), messages(&l));
    const char *back[] = {"pdftotext", "-enc", "UTF-8", pdf, "-", NULL};
    assert_int_equal(command_run(back, l.folder, l.out, l.err), 0);
    assert_string_equal(messages(&l), "");
    size_t *printed = arena_alloc(l.arena, CODES, sizeof *printed);
    size_t *extracted = arena_alloc(l.arena, CODES, sizeof *extracted);
    count_codes(command_read(l.arena, l.out), extracted);
    expect_status(&l, bayleaf(&l, "dump", "pages", guide), 0);
    count_dumped(l.arena, output(&l), printed);
    size_t total = 0;
    for (unsigned i = 0; i < CODES; i++) {
        if (printed[i] != extracted[i])
            fail_msg("%s: U+%04X is printed %zu times, extracted %zu", pdf, i,
                     printed[i], extracted[i]);
        total += printed[i];
    }
    assert_true(total > 500);
    arena_free(l.arena);
}

static void test_pdfs_are_sound_and_give_their_text_back(void **state) {
    (void)state;
    DIR *dir = opendir("procedures");
    assert_non_null(dir);
    struct dirent *entry;
    size_t guides = 0;
    while ((entry = readdir(dir)) != NULL) {
        char *dot = strrchr(entry->d_name, '.');
        if (dot == NULL || strcmp(dot, ".md") != 0)
            continue;
        char path[PATH_MAX];
        snprintf(path, sizeof path, "procedures/%s", entry->d_name);
        *dot = '\0';
        check_pdf(path, entry->d_name);
        guides++;
    }
    closedir(dir);
    assert_true(guides > 0);
}

/* --- refusal --- */

static void test_refused_guide_is_withdrawn(void **state) {
    (void)state;
    struct library l = library_new("withdrawn");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    struct text good = command_read(l.arena, path_in(&l, PDF));
    edit(&l, "procedures/facts/fen.md", "3.4 m ± 0.1 m [mark 3]",
         "6.4 m ± 0.1 m [mark 3]");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 1);
    assert_false(there(&l, PDF));
    assert_int_equal(count_files(&l, "build", ".pdf"), 0);
    struct text kept = command_read(
        l.arena, path_in(&l, "build/withdrawn/headlamp-relay.pdf"));
    assert_true(text_equal(good, kept));
    assert_non_null(strstr(messages(&l), "; in mark 3"));
    assert_null(strstr(messages(&l), "; in mark 2"));
    arena_free(l.arena);
}

/* What was withdrawn goes when its guide builds again, by its own template. */
static void test_withdrawn_goes_with_the_next_build(void **state) {
    (void)state;
    struct library l = library_new("again");
    const char *old = "build/withdrawn/headlamp-relay.pdf";
    const char *old_bench = "build/withdrawn/headlamp-relay.bench.pdf";
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    expect_status(&l, bayleaf(&l, "build", GUIDE, "--template=bench"), 0);
    edit(&l, GUIDE, "## Purpose", "## Purpose \xFF");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 2);
    assert_true(there(&l, old));
    assert_true(there(&l, old_bench));
    edit(&l, GUIDE, "## Purpose \xFF", "## Purpose");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_true(there(&l, PDF));
    assert_false(there(&l, old));
    assert_true(there(&l, old_bench));
    expect_status(&l, bayleaf(&l, "build", GUIDE, "--template=bench"), 0);
    assert_false(there(&l, old_bench));
    /* What cannot be taken away is named; the new PDF stands. */
    edit(&l, GUIDE, "## Purpose", "## Purpose of it");
    assert_int_equal(mkdir(path_in(&l, old), 0777), 0);
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 3);
    assert_non_null(strstr(messages(&l), old));
    assert_true(there(&l, PDF));
    arena_free(l.arena);
}

/* Bytes that no guide can be read from. */
static void test_unreadable_guide_is_withdrawn(void **state) {
    (void)state;
    struct library l = library_new("unreadable");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_true(there(&l, PDF));
    edit(&l, GUIDE, "## Purpose", "## Purpose \xFF");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 2);
    assert_false(there(&l, PDF));
    assert_true(there(&l, "build/withdrawn/headlamp-relay.pdf"));
    /* A folder in the way: the PDF stays, and that is said. */
    edit(&l, GUIDE, "## Purpose \xFF", "## Purpose");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    const char *folder = path_in(&l, "build/withdrawn");
    const char *clear[] = {"rm", "-rf", folder, NULL};
    assert_int_equal(command_run(clear, ".", l.out, l.err), 0);
    assert_true(command_write(folder, text_of("in the way")));
    edit(&l, GUIDE, "## Purpose", "## Purpose \xFF");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 3);
    assert_non_null(strstr(messages(&l), "headlamp-relay.pdf still stands"));
    assert_true(there(&l, PDF));
    arena_free(l.arena);
}

static void test_check_writes_nothing(void **state) {
    (void)state;
    struct library l = library_new("check");
    expect_status(&l, bayleaf(&l, "check", GUIDE, NULL), 0);
    assert_int_equal(count_files(&l, "build", ".pdf"), 0);
    arena_free(l.arena);
}

static void test_fuse_without_place_counts_as_unfused(void **state) {
    (void)state;
    struct library l = library_new("unfused");
    edit(&l, GUIDE, "place: 5 in from battery +\n", "");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 1);
    assert_non_null(strstr(messages(&l), "counts as unfused"));
    assert_false(there(&l, PDF));
    arena_free(l.arena);
}

static bool prints(const struct library *l, const char *guide,
                   const char *words) {
    expect_status(l, bayleaf(l, "dump", "pages", guide), 0);
    return strstr(output(l), words) != NULL;
}

static void test_deleting_ambient_brings_the_caution(void **state) {
    (void)state;
    struct library l = library_new("ambient");
    static const char guide[] = "procedures/cool.md";
    static const char text[] =
        "# Feed a lamp\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n"
        "uses: fen, shop\n```\n\n```wire feed\nload: 3 A\nlength: 2 m\n"
        "return: own wire\nsupply: battery\ndrop limit: 3 %\n"
        "ambient: 30 degC\nbundle: 2\nuse: 10 AWG\n```\n\n```fuse F1\n"
        "protects: feed\nplace: 5 in from battery +\nstyle: strip SF30\n"
        "interrupt: 2 kA \"sheet\"\nuse: 30 A\n```\n\n"
        "## Procedure\n\n1. Run the feed.\n";
    assert_true(command_write(path_in(&l, guide), text_of(text)));
    assert_false(prints(&l, guide, "Hot cable"));
    assert_true(prints(&l, guide, "High fault current"));
    edit(&l, guide, "ambient: 30 degC\n", "");
    assert_true(prints(&l, guide, "Hot cable"));
    arena_free(l.arena);
}

/* --- the shop's own catalogue; another folder --- */

/* A row that only flags may do without a panel, but not with half of one. */
static void test_half_a_panel(void **state) {
    (void)state;
    struct library l = library_new("half-a-panel");
    edit(&l, "templates/hazards.md", "hazard H01", "hazard Q01");
    edit(&l, "templates/hazards.md", "consequence: ", "# consequence: ");
    edit(&l, "templates/hazards.md", "action: insert", "action: flag");
    expect_status(&l, bayleaf(&l, "check", GUIDE, NULL), 2);
    assert_non_null(strstr(messages(&l), "a panel needs title, hazard"));
    arena_free(l.arena);
}

static void test_shops_own_catalogue_names_no_such_symbol(void **state) {
    (void)state;
    struct library l = library_new("symbol");
    edit(&l, "templates/hazards.md", "symbols: electricity",
         "symbols: electrcity");
    expect_status(&l, bayleaf(&l, "check", GUIDE, NULL), 2);
    assert_non_null(strstr(messages(&l), "no such symbol"));
    arena_free(l.arena);
}

/* From a folder that is in no library: the guide's path names its own. */
static void test_guide_from_elsewhere(void **state) {
    (void)state;
    struct library l = library_new("elsewhere");
    char folder[PATH_MAX];
    assert_non_null(realpath(l.folder, folder));
    const char *path = arena_printf(l.arena, "%s/" GUIDE, folder);
    const char *argv[] = {program, "build", path, NULL};
    expect_status(&l, command_run(argv, "/", l.out, l.err), 0);
    assert_true(there(&l, PDF));
    arena_free(l.arena);
}

/* --- a system that fails --- */

static void test_full_disk(void **state) {
    (void)state;
    struct library l = library_new("full");
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    struct text good = command_read(l.arena, path_in(&l, PDF));
    edit(&l, GUIDE, "one vehicle electrician", "two vehicle electricians");
    /* The limit counts blocks of 512 or 1024 bytes; the signal that comes with
     * it is ignored, so that the write itself fails. */
    const char *argv[] = {"sh", "-c",
                          "trap '' XFSZ; ulimit -f 8; exec \"$0\" build " GUIDE,
                          program, NULL};
    expect_status(&l, command_run(argv, l.folder, l.out, l.err), 3);
    assert_non_null(strstr(messages(&l), "cannot write"));
    /* The last good sheet stands, and nothing half written beside it. */
    assert_true(text_equal(good, command_read(l.arena, path_in(&l, PDF))));
    assert_int_equal(count_files(&l, "build", ".pdf"), 1);
    /* and the index, . and .. */
    assert_int_equal(count_files(&l, "build", ""), 1 + 1 + 2);
    arena_free(l.arena);
}

/* What a killed run left goes with the next build; what a run at work has open,
 * and what is no file, stays. */
static void test_left_files_are_swept(void **state) {
    (void)state;
    struct library l = library_new("left");
    const char *held = path_in(&l, "build/.bayleaf-held01");
    mkdir(path_in(&l, "build"), 0777);
    mkdir(path_in(&l, "build/.bayleaf-folder"), 0777);
    assert_true(command_write(path_in(&l, "build/.bayleaf-left01"),
                              text_of("half a shee")));
    assert_true(command_write(held, text_of("half a shee")));
    assert_int_equal(symlink("../procedures/headlamp-relay.md",
                             path_in(&l, "build/.bayleaf-link01")),
                     0);
    int file = open(held, O_RDWR);
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    assert_int_equal(fcntl(file, F_SETLK, &whole), 0);
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_false(there(&l, "build/.bayleaf-left01"));
    assert_true(there(&l, "build/.bayleaf-held01"));
    assert_true(there(&l, "build/.bayleaf-link01"));
    assert_true(there(&l, "build/.bayleaf-folder"));
    assert_true(there(&l, GUIDE));
    close(file);
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 0);
    assert_false(there(&l, "build/.bayleaf-held01"));
    arena_free(l.arena);
}

static void test_output_is_a_folder(void **state) {
    (void)state;
    struct library l = library_new("folder");
    mkdir(path_in(&l, "build"), 0777);
    mkdir(path_in(&l, PDF), 0777);
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 3);
    assert_non_null(strstr(messages(&l), "cannot write"));
    arena_free(l.arena);
}

static void test_build_folder_is_a_file(void **state) {
    (void)state;
    struct library l = library_new("no-folder");
    assert_true(command_write(path_in(&l, "build"), text_of("not a folder\n")));
    expect_status(&l, bayleaf(&l, "build", GUIDE, NULL), 3);
    assert_non_null(strstr(messages(&l), "cannot write"));
    arena_free(l.arena);
}

/* What one vehicle's guide says, by variant, model year or number. */
static const char *for_vehicle(const struct library *l, const char *vehicle,
                               const char *pdf) {
    const char *only = arena_printf(l->arena, "--for=%s", vehicle);
    expect_status(l, bayleaf(l, "build", only, GUIDE), 0);
    const char *back[] = {"pdftotext", path_in(l, pdf), "-", NULL};
    assert_int_equal(command_run(back, ".", l->out, l->err), 0);
    return output(l);
}

static void test_for_one_vehicle(void **state) {
    (void)state;
    struct library l = library_new("vehicle");
    const char *third =
        for_vehicle(&l, "mark 3", "build/headlamp-relay.mark-3.pdf");
    assert_non_null(strstr(third, "Run 8 AWG red"));
    assert_null(strstr(third, "10 AWG red"));
    assert_null(strstr(third, "mark 3 only"));
    assert_non_null(strstr(third, "\n12\n"));
    assert_non_null(strstr(third, "Route red and black"));
    static const char *const seconds[][2] = {
        {"mark 2", "build/headlamp-relay.mark-2.pdf"},
        {"1982", "build/headlamp-relay.1982.pdf"},
        {"W30-105000", "build/headlamp-relay.W30-105000.pdf"},
    };
    for (size_t i = 0; i < 3; i++) {
        const char *second = for_vehicle(&l, seconds[i][0], seconds[i][1]);
        assert_null(strstr(second, "Route red and black"));
        const char *gap = strstr(second, "Not for this vehicle");
        const char *clip = strstr(second, "\n13\n"); /* it stays 13 */
        assert_true(gap != NULL && clip != NULL && gap < clip);
        assert_true(clip < strstr(clip, "Clip the loom"));
        assert_null(strstr(clip, "\n12\n"));
        assert_non_null(strstr(second, "mark 2"));
        assert_null(strstr(second, "mark 1"));
    }
    static const char *const none[] = {"mark 9",     "1999",       "W30-1",
                                       "X30-105000", "W30-115201", "2"};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        const char *only = arena_printf(l.arena, "--for=%s", none[i]);
        expect_status(&l, bayleaf(&l, "build", only, GUIDE), 2);
        assert_non_null(strstr(
            messages(&l),
            arena_printf(l.arena,
                         "error: no vehicle of that sort: '%s'; the guide is "
                         "for mark 1 (",
                         none[i])));
    }
    /* A slip of the pen is not another vehicle. */
    expect_status(&l, bayleaf(&l, "build", "--for=mrk 2", GUIDE), 2);
    assert_non_null(strstr(messages(&l),
                           "'mrk 2' (did you mean 'mark 2'?); the guide is "
                           "for mark 1 ("));
    /* One variant that does not hold stops the guides for all. */
    edit(&l, GUIDE, "use: 10 AWG [mark 1, mark 2] 8 AWG [mark 3]",
         "use: 10 AWG");
    expect_status(&l, bayleaf(&l, "build", "--for=mark 1", GUIDE), 1);
    arena_free(l.arena);
}

/* Issued once, for all its vehicles. */
static void test_for_one_vehicle_issued(void **state) {
    (void)state;
    struct library l = library_new("vehicle-issued");
    assert_non_null(
        strstr(for_vehicle(&l, "mark 1", "build/headlamp-relay.mark-1.pdf"),
               "NOT ISSUED"));
    expect_status(&l, bayleaf(&l, "issue", GUIDE, NULL), 0);
    assert_null(
        strstr(for_vehicle(&l, "mark 1", "build/headlamp-relay.mark-1.pdf"),
               "NOT ISSUED"));
    arena_free(l.arena);
}

int main(void) {
    if (!library_room())
        return 3;
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_build_names_file_and_pages),
        cmocka_unit_test(test_two_runs_give_the_same_bytes),
        cmocka_unit_test(test_pdfs_are_sound_and_give_their_text_back),
        cmocka_unit_test(test_refused_guide_is_withdrawn),
        cmocka_unit_test(test_unreadable_guide_is_withdrawn),
        cmocka_unit_test(test_withdrawn_goes_with_the_next_build),
        cmocka_unit_test(test_for_one_vehicle),
        cmocka_unit_test(test_for_one_vehicle_issued),
        cmocka_unit_test(test_check_writes_nothing),
        cmocka_unit_test(test_fuse_without_place_counts_as_unfused),
        cmocka_unit_test(test_deleting_ambient_brings_the_caution),
        cmocka_unit_test(test_half_a_panel),
        cmocka_unit_test(test_shops_own_catalogue_names_no_such_symbol),
        cmocka_unit_test(test_guide_from_elsewhere),
        cmocka_unit_test(test_full_disk),
        cmocka_unit_test(test_left_files_are_swept),
        cmocka_unit_test(test_output_is_a_folder),
        cmocka_unit_test(test_build_folder_is_a_file),
    };
    return cmocka_run_group_tests_name("program", tests, NULL, NULL);
}
