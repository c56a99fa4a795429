/* install.c - `make install` into an empty root: what is put there works from
 * any folder, and `make uninstall` takes all of it away again. */
#include "support/command.h"

#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#define ROOM BUILD "/install"
#define OUT ROOM "/out"
#define ERR ROOM "/err"

/* A blank in the name: nothing may depend on there being none. */
static char root[PATH_MAX]; /* absolute: set once, in main */

static const char *installed(struct arena *a, const char *name) {
    return arena_printf(a, "%s/usr/%s", root, name);
}

/* The program is the one under test: only what is made from it is made. */
static void make(struct arena *a, const char *target) {
    const char *argv[] = {"make",
                          "-o",
                          BUILD "/bayleaf",
                          "BUILD=" BUILD,
                          arena_printf(a, "DESTDIR=%s", root),
                          "PREFIX=/usr",
                          target,
                          NULL};
    int status = command_run(argv, ".", OUT, ERR);
    if (status != 0)
        fail_msg("make %s: exit %d\n%s", target, status,
                 command_read(a, ERR).start);
}

static int install(void **state) {
    struct arena *a = arena_new();
    const char *empty[] = {"rm", "-rf", ROOM, NULL};
    unlink(BUILD "/bayleaf.1");
    unlink(BUILD "/bayleaf.bash");
    if (command_run(empty, ".", "/dev/null", "/dev/null") != 0 ||
        mkdir(ROOM, 0777) != 0)
        return -1;
    make(a, "install");
    *state = a;
    return 0;
}

static int clean(void **state) {
    arena_free(*state);
    return 0;
}

/* Runs a program without the environment of make check. */
static int run(const char *folder, const char *const *words) {
    const char *argv[16] = {"env", "-i", "PATH=/usr/bin:/bin",
                            "ASAN_OPTIONS=exitcode=99"};
    size_t count = 4;
    while (*words != NULL && count < 15)
        argv[count++] = *words++;
    argv[count] = NULL;
    return command_run(argv, folder, OUT, ERR);
}

static void test_the_program_says_its_version(void **state) {
    struct arena *a = *state;
    const char *argv[] = {installed(a, "bin/bayleaf"), "--version", NULL};
    assert_int_equal(run("/", argv), 0);
    assert_true(text_starts(command_read(a, OUT), "bayleaf "));
}

/* A library of its own, far from the sources: the faces and the catalogue are
 * in the program. */
static void test_it_works_in_a_fresh_library(void **state) {
    struct arena *a = *state;
    const char *program = installed(a, "bin/bayleaf");
    char folder[] = "/tmp/bayleaf-XXXXXX";
    assert_non_null(mkdtemp(folder));
    const char *start[] = {program, "start", "library", "shop", NULL};
    const char *build[] = {program, "build", NULL};
    const char *erase[] = {"rm", "-rf", folder, NULL};
    const char *shop = arena_printf(a, "%s/shop", folder);
    int started = run(folder, start);
    int built = run(arena_printf(a, "%s/procedures/facts", shop), build);
    struct text pdf =
        command_read(a, arena_printf(a, "%s/build/water-pump.pdf", shop));
    const char *said = command_read(a, ERR).start;
    command_run(erase, ".", "/dev/null", "/dev/null");
    assert_int_equal(started, 0);
    if (built != 0)
        fail_msg("exit %d:\n%s", built, said);
    assert_true(text_starts(pdf, "%PDF-"));
}

static void expect_same(struct arena *a, const char *here, const char *there) {
    struct text one = command_read(a, here);
    struct text two = command_read(a, installed(a, there));
    if (one.len == 0 || !text_equal(one, two))
        fail_msg("%s is not %s", there, here);
}

static void test_templates_are_there_to_copy(void **state) {
    struct arena *a = *state;
    const char *list[] = {"find", "templates", "-type", "f", NULL};
    assert_int_equal(command_run(list, ".", OUT, ERR), 0);
    struct text found = command_read(a, OUT);
    size_t count = 0;
    for (const char *at = found.start; *at != '\0'; count++) {
        size_t len = strcspn(at, "\n");
        const char *name = arena_copy(a, at, len);
        expect_same(a, name, arena_printf(a, "share/bayleaf/%s", name));
        at += len + 1;
    }
    assert_true(count > 4);
    expect_same(a, "docs/language.md", "share/doc/bayleaf/language.md");
    expect_same(a, "docs/messages.md", "share/doc/bayleaf/messages.md");
    expect_same(a, "docs/tutorial.md", "share/doc/bayleaf/tutorial.md");
    expect_same(a, "LICENSE", "share/doc/bayleaf/LICENSE");
}

/* --- the manual --- */

static void test_the_manual_is_set_without_a_warning(void **state) {
    struct arena *a = *state;
    const char *page = installed(a, "share/man/man1/bayleaf.1");
    const char *argv[] = {"groff", "-mdoc", "-ww", "-Tutf8", page, NULL};
    int status = run("/", argv);
    if (status == 127)
        fail_msg("groff is missing: make check installs it");
    assert_int_equal(status, 0);
    assert_string_equal(command_read(a, ERR).start, "");
    assert_true(command_read(a, OUT).len > 1000);
}

/* Commands and kinds as `help` lists them: two blanks, a word. */
static void test_the_manual_knows_each_command_and_kind(void **state) {
    struct arena *a = *state;
    const char *argv[] = {installed(a, "bin/bayleaf"), "help", NULL};
    assert_int_equal(run("/", argv), 0);
    struct text help = command_read(a, OUT);
    const char *page =
        command_read(a, installed(a, "share/man/man1/bayleaf.1")).start;
    size_t commands = 0, kinds = 0;
    for (const char *at = help.start; *at != '\0';) {
        size_t len = strcspn(at, "\n");
        const char *word = at + 2;
        bool command = strncmp(at, "  bayleaf ", 10) == 0;
        if (command)
            word = at + 10;
        const char *name = arena_copy(a, word, strcspn(word, " \n"));
        if (command) {
            commands++;
            assert_non_null(strstr(page, arena_printf(a, ".It Cm %s\n", name)));
        } else if (strncmp(at, "  ", 2) == 0) {
            kinds++;
            assert_non_null(strstr(page, arena_printf(a, ".Ss \"%s", name)));
        }
        at += len + (at[len] == '\n');
    }
    assert_true(commands > 5);
    assert_true(kinds > 20);
}

/* --- the completion --- */

/* What bash offers for the words of a line, the last one under the cursor; it
 * parts them at equals signs. */
static const char *complete(struct arena *a, const char *words) {
    const char *script = arena_printf(
        a,
        "source '%s' || exit; COMP_WORDS=(bayleaf %s); "
        "COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _bayleaf; "
        "printf ' %%s' \"${COMPREPLY[@]}\"; echo ' '",
        installed(a, "share/bash-completion/completions/bayleaf"), words);
    const char *argv[] = {"bash", "--norc", "-c", script, NULL};
    assert_int_equal(run("templates/start/library/procedures", argv), 0);
    assert_string_equal(command_read(a, ERR).start, "");
    return command_read(a, OUT).start;
}

static void expect_words(struct arena *a, const char *words,
                         const char *wanted) {
    assert_string_equal(complete(a, words), wanted);
}

static void test_bash_completes_what_the_tables_hold(void **state) {
    struct arena *a = *state;
    expect_words(a, "bu", " build \n");
    expect_words(a, "build wa", " water-pump \n");
    expect_words(a, "build water-pump wa", " water-pump \n");
    expect_words(a, "why ''", " water-pump \n");
    expect_words(a, "why water-pump ''", "  \n");
    expect_words(a, "start ''", " library guide \n");
    expect_words(a, "dump va", " values \n");
    expect_words(a, "dump --paper A4 va", " values \n");
    expect_words(a, "dump --paper = A4 values ''", " water-pump \n");
    expect_words(a, "build --pa", " --paper= \n");
    expect_words(a, "build --paper ''", " letter A4 \n");
    expect_words(a, "build --paper = l", " letter \n");
    expect_words(a, "why --pa", "  \n");
    expect_words(a, "help tor", " torque \n");
    expect_words(a, "size thr", " thread \n");
    expect_words(a, "size hazard", "  \n");
    expect_words(a, "size wire drop", " drop-limit= \n");
    expect_words(a, "size wire load = 30 drop", " drop-limit= \n");
    expect_words(a, "size wire load = ''", "  \n");
}

/* --- taking it away --- */

static void test_uninstall_takes_all_and_nothing_else(void **state) {
    struct arena *a = *state;
    const char *mine = installed(a, "share/bayleaf/templates/mine.md");
    assert_true(command_write(mine, text_of("mine\n")));
    make(a, "uninstall");
    const char *list[] = {"find", root, "-type", "f", NULL};
    assert_int_equal(command_run(list, ".", OUT, ERR), 0);
    assert_string_equal(command_read(a, OUT).start,
                        arena_printf(a, "%s\n", mine));
    unlink(mine);
    make(a, "install");
    make(a, "uninstall");
    assert_int_equal(access(installed(a, "share/bayleaf"), F_OK), -1);
    assert_int_equal(access(installed(a, "share/doc/bayleaf"), F_OK), -1);
}

int main(void) {
    char here[PATH_MAX - 64];
    if (getcwd(here, sizeof here) == NULL)
        return 3;
    snprintf(root, sizeof root, "%s/" ROOM "/a root", here);
    /* This make is not part of the one that runs the tests. */
    unsetenv("MAKEFLAGS");
    unsetenv("MFLAGS");
    unsetenv("MAKELEVEL");
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_program_says_its_version),
        cmocka_unit_test(test_it_works_in_a_fresh_library),
        cmocka_unit_test(test_templates_are_there_to_copy),
        cmocka_unit_test(test_the_manual_is_set_without_a_warning),
        cmocka_unit_test(test_the_manual_knows_each_command_and_kind),
        cmocka_unit_test(test_bash_completes_what_the_tables_hold),
        cmocka_unit_test(test_uninstall_takes_all_and_nothing_else),
    };
    return cmocka_run_group_tests_name("install", tests, install, clean);
}
