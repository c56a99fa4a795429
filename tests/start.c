/* start.c - tests of `bayleaf start`: what it makes builds, and nothing that
 * was there is touched. */
#include "support/command.h"

#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#define ROOM BUILD "/start"
#define OUT ROOM "/out"
#define ERR ROOM "/err"

static char program[PATH_MAX]; /* absolute: set once, in main */

/* bayleaf with up to three words, in a folder below ROOM; its exit status. */
static int bayleaf(const char *folder, const char *one, const char *two,
                   const char *three) {
    const char *argv[] = {program, one, two, three, NULL};
    return command_run(argv, folder, OUT, ERR);
}

static void expect(struct arena *a, int status, int wanted) {
    if (status != wanted)
        fail_msg("exit %d instead of %d:\n%s", status, wanted,
                 command_read(a, ERR).start);
}

static bool there(const char *path) {
    return access(path, F_OK) == 0;
}

/* An empty folder to work in. */
static const char *empty_folder(struct arena *a, const char *name) {
    const char *folder = arena_printf(a, ROOM "/%s", name);
    const char *empty[] = {"rm", "-rf", folder, NULL};
    assert_int_equal(command_run(empty, ".", OUT, ERR), 0);
    assert_int_equal(mkdir(folder, 0777), 0);
    return folder;
}

static const char *in(struct arena *a, const char *folder, const char *name) {
    return arena_printf(a, "%s/%s", folder, name);
}

/* --- what it makes --- */

static void test_a_library_builds_at_once(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "builds");
    expect(a, bayleaf(folder, "start", "library", "shop"), 0);
    const char *shop = in(a, folder, "shop");
    /* Each path that it names is there. */
    struct text said = command_read(a, OUT);
    size_t named = 0;
    for (size_t at = 0; at < said.len; named++) {
        const char *end = strchr(said.start + at, '\n');
        struct text line = text_part(said, at, (size_t)(end - said.start));
        at += line.len + 1;
        if (text_starts(line, "now: "))
            break;
        assert_true(there(in(a, folder, text_cstr(a, line))));
    }
    assert_true(named > 5);
    expect(a, bayleaf(shop, "build", NULL, NULL), 0);
    assert_string_equal(command_read(a, ERR).start, "");
    assert_true(there(in(a, shop, "build/water-pump.pdf")));
    arena_free(a);
}

static void test_a_guide_builds_at_once(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "guide");
    mkdir(in(a, folder, "procedures"), 0777);
    expect(a, bayleaf(folder, "start", "guide", "bilge-pump"), 0);
    struct text guide =
        command_read(a, in(a, folder, "procedures/bilge-pump.md"));
    assert_non_null(guide.start);
    assert_non_null(strstr(guide.start, "\nid: bilge-pump\n"));
    assert_null(strstr(guide.start, "NAME"));
    expect(a, bayleaf(folder, "build", "bilge-pump", NULL), 0);
    assert_string_equal(command_read(a, ERR).start, "");
    assert_true(there(in(a, folder, "build/bilge-pump.pdf")));
    arena_free(a);
}

/* The longest name fits the foot of the page. */
static void test_the_longest_name_prints(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "longest");
    char name[29];
    memset(name, 'W', 28);
    name[28] = '\0';
    mkdir(in(a, folder, "procedures"), 0777);
    expect(a, bayleaf(folder, "start", "guide", name), 0);
    expect(a, bayleaf(folder, "build", name, NULL), 0);
    arena_free(a);
}

static void test_a_guide_goes_to_the_nearest_library(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "nearest");
    mkdir(in(a, folder, "procedures"), 0777);
    mkdir(in(a, folder, "procedures/facts"), 0777);
    expect(a,
           bayleaf(in(a, folder, "procedures/facts"), "start", "guide", "lamp"),
           0);
    assert_true(there(in(a, folder, "procedures/lamp.md")));
    arena_free(a);
}

/* --- what it leaves alone --- */

static void expect_there(const char *folder, const char *what,
                         const char *name) {
    struct arena *a = arena_new();
    expect(a, bayleaf(folder, "start", what, name), 2);
    assert_non_null(strstr(command_read(a, ERR).start, "is there already"));
    arena_free(a);
}

static void test_a_folder_is_not_touched(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "folder");
    mkdir(in(a, folder, "shop"), 0777);
    expect_there(folder, "library", "shop");
    assert_false(there(in(a, folder, "shop/procedures")));
    assert_true(command_write(in(a, folder, "file"), text_of("mine\n")));
    expect_there(folder, "library", "file");
    assert_string_equal(command_read(a, in(a, folder, "file")).start, "mine\n");
    arena_free(a);
}

static void test_a_guide_is_not_overwritten(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "overwritten");
    const char *guide = in(a, folder, "procedures/lamp.md");
    mkdir(in(a, folder, "procedures"), 0777);
    assert_true(command_write(guide, text_of("mine\n")));
    expect_there(folder, "guide", "lamp");
    assert_string_equal(command_read(a, guide).start, "mine\n");
    /* A link that leads nowhere is there as well. */
    assert_int_equal(
        symlink("../beyond.md", in(a, folder, "procedures/link.md")), 0);
    expect_there(folder, "guide", "link");
    assert_false(there(in(a, folder, "beyond.md")));
    arena_free(a);
}

static void test_names_that_are_none(void **state) {
    (void)state;
    static const char *const names[] = {
        "",       ".",        "..",         "../x",
        "/tmp/x", "a/b",      "a.md",       "a b",
        "_a",     "a\nb",     "a\x1b[31mb", "a\\b",
        "b\xC3",  "\xC3\xA9", "a\x7F",      "WWWWWWWWWWWWWWWWWWWWWWWWWWWWW"};
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "names");
    mkdir(in(a, folder, "procedures"), 0777);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        expect(a, bayleaf(folder, "start", "library", names[i]), 2);
        expect(a, bayleaf(folder, "start", "guide", names[i]), 2);
        for (const char *s = command_read(a, ERR).start; *s != '\0'; s++)
            assert_true(*s == '\n' ||
                        ((unsigned char)*s >= 0x20 && *s != 0x7F));
    }
    /* An option-like name reaches the command behind `--` only. */
    const char *argv[] = {program, "start", "guide", "--", "-a", NULL};
    expect(a, command_run(argv, folder, OUT, ERR), 2);
    const char *list[] = {"find", ".", "-mindepth", "1", NULL};
    assert_int_equal(command_run(list, folder, OUT, ERR), 0);
    assert_string_equal(command_read(a, OUT).start, "./procedures\n");
    arena_free(a);
}

static void test_no_library_for_a_guide(void **state) {
    (void)state;
    struct arena *a = arena_new();
    expect(a, bayleaf("/", "start", "guide", "lamp"), 2);
    assert_non_null(
        strstr(command_read(a, ERR).start, "bayleaf start library NAME"));
    expect(a, bayleaf(ROOM, "start", "libary", "lamp"), 2);
    assert_non_null(strstr(command_read(a, ERR).start, "library, guide"));
    arena_free(a);
}

/* --- a system that fails --- */

static void test_a_full_disk_leaves_nothing(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folder = empty_folder(a, "full");
    mkdir(in(a, folder, "procedures"), 0777);
    /* Blocks of 512 or 1024 bytes: the first small file fits. */
    static const char script[] =
        "trap '' XFSZ; ulimit -f 1; exec \"$0\" start \"$1\" new";
    static const char *const what[] = {"library", "guide"};
    for (size_t i = 0; i < 2; i++) {
        const char *argv[] = {"sh", "-c", script, program, what[i], NULL};
        expect(a, command_run(argv, folder, OUT, ERR), 3);
        assert_non_null(strstr(command_read(a, ERR).start, "cannot write"));
    }
    assert_false(there(in(a, folder, "new")));
    assert_false(there(in(a, folder, "procedures/new.md")));
    arena_free(a);
}

int main(void) {
    char here[PATH_MAX - 64];
    if (getcwd(here, sizeof here) == NULL)
        return 3;
    snprintf(program, sizeof program, "%s/" BUILD "/bayleaf", here);
    setenv("ASAN_OPTIONS", "exitcode=99", 0);
    mkdir(ROOM, 0777);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_library_builds_at_once),
        cmocka_unit_test(test_a_guide_builds_at_once),
        cmocka_unit_test(test_the_longest_name_prints),
        cmocka_unit_test(test_a_guide_goes_to_the_nearest_library),
        cmocka_unit_test(test_a_folder_is_not_touched),
        cmocka_unit_test(test_a_guide_is_not_overwritten),
        cmocka_unit_test(test_names_that_are_none),
        cmocka_unit_test(test_no_library_for_a_guide),
        cmocka_unit_test(test_a_full_disk_leaves_nothing),
    };
    return cmocka_run_group_tests_name("start", tests, NULL, NULL);
}
