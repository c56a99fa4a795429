/* docs.c - what docs/ says is what the program does: the tables and examples of
 * language.md, the examples of messages.md, the rules that an override names.
 */
#include "base/diag.h"
#include "support/command.h"
#include "support/page.h"

#include <dirent.h>
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#define ROOM BUILD "/docs"
#define LIBRARY ROOM "/library"

static char program[PATH_MAX]; /* absolute: set once, in main */

static struct text read_page(struct arena *a, const char *path) {
    struct text page = command_read(a, path);
    if (page.start == NULL)
        fail_msg("%s cannot be read", path);
    return page;
}

/* --- the tables of language.md --- */

static void test_tables_are_those_of_the_program(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *argv[] = {program, "help", "--as=reference", NULL};
    assert_int_equal(command_run(argv, ".", ROOM "/tables", ROOM "/messages"),
                     0);
    struct text made = command_read(a, ROOM "/tables");
    struct text page = read_page(a, "docs/language.md");
    const char *start = strstr(page.start, "<!-- tables");
    assert_non_null(start);
    start = strchr(start, '\n') + 1;
    const char *end = strstr(start, "<!-- end of tables");
    assert_non_null(end);
    if (!text_equal(made, (struct text){start, (size_t)(end - start)}))
        fail_msg("docs/language.md is stale: make docs");
    assert_true(made.len > 1000);
    arena_free(a);
}

/* --- the examples of language.md --- */

/* `<!-- in procedures/lamp.md -->` above a snippet: it is a part of that file.
 */
static const char *file_of(struct arena *a, const struct snippet *s) {
    static const char lead[] = "<!-- in ";
    if (!text_starts(s->above, lead))
        return NULL;
    struct text name =
        text_part(s->above, sizeof lead - 1, s->above.len - strlen(" -->"));
    return text_cstr(a, text_trim(name));
}

/* The parts of one file, in order, with a blank line between them. */
static size_t write_file(struct arena *a, const struct snippets *s,
                         const char *name) {
    struct buf b = buf_in(a);
    size_t parts = 0;
    for (size_t i = 0; i < s->count; i++) {
        const char *file = file_of(a, &s->list[i]);
        if (file == NULL || strcmp(file, name) != 0)
            continue;
        buf_text(&b, s->list[i].text);
        buf_puts(&b, "\n");
        parts++;
    }
    assert_true(
        command_write(arena_printf(a, LIBRARY "/%s", name), buf_as_text(&b)));
    return parts;
}

static void build_with(struct arena *a, const char *template, const char *pdf) {
    const char *argv[] = {program, "build", "--template", template, NULL};
    int status = command_run(argv, LIBRARY, ROOM "/built", ROOM "/messages");
    struct text said = command_read(a, ROOM "/messages");
    if (status != 0 || said.len > 0)
        fail_msg("the example of docs/language.md, exit %d:\n%.*s", status,
                 (int)said.len, said.start);
    assert_non_null(strstr(command_read(a, ROOM "/built").start, pdf));
}

static void test_examples_are_a_library_that_builds(void **state) {
    (void)state;
    struct arena *a = arena_new();
    const char *folders[] = {"mkdir",
                             "-p",
                             LIBRARY "/procedures/facts",
                             LIBRARY "/procedures/shared",
                             LIBRARY "/procedures/jobs",
                             LIBRARY "/templates",
                             NULL};
    assert_int_equal(command_run(folders, ".", "/dev/null", "/dev/null"), 0);
    struct text page = read_page(a, "docs/language.md");
    struct snippets s = page_snippets(a, page);
    size_t parts = 0;
    for (size_t i = 0; i < s.count; i++)
        if (file_of(a, &s.list[i]) != NULL)
            parts += write_file(a, &s, file_of(a, &s.list[i]));
    assert_true(parts > 10);
    build_with(a, "shop", "build/lamp.pdf");
    build_with(a, "ours", "build/lamp.ours.pdf");
    build_with(a, "short", "build/lamp.short.pdf");
    const char *sheet[] = {program, "sheet", "lamp-17", NULL};
    if (command_run(sheet, LIBRARY, ROOM "/out", ROOM "/messages") != 0)
        fail_msg("%s", command_read(a, ROOM "/messages").start);
    arena_free(a);
}

/* --- rules --- */

/* Rules stand in the code as `.rule = "NAME"`. */
static void check_rules(struct arena *a, const char *path, struct text page,
                        size_t *count) {
    static const char lead[] = ".rule = \"";
    struct text code = read_page(a, path);
    for (const char *at = code.start; (at = strstr(at, lead)) != NULL;) {
        at += sizeof lead - 1;
        size_t len = strcspn(at, "\"");
        const char *row = arena_printf(a, "| `%.*s` |", (int)len, at);
        if (strstr(page.start, row) == NULL)
            fail_msg("docs/language.md has no row for the rule %.*s", (int)len,
                     at);
        ++*count;
    }
}

static void test_each_rule_is_named(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct text page = read_page(a, "docs/language.md");
    DIR *dir = opendir("compiler/values");
    assert_non_null(dir);
    struct dirent *entry;
    size_t count = 0;
    while ((entry = readdir(dir)) != NULL) {
        const char *dot = strrchr(entry->d_name, '.');
        if (dot != NULL && strcmp(dot, ".c") == 0)
            check_rules(a, arena_printf(a, "compiler/values/%s", entry->d_name),
                        page, &count);
    }
    closedir(dir);
    assert_true(count > 10);
    arena_free(a);
}

/* --- the examples of messages.md --- */

/* Whether messages hold this one, with a detail behind it or without. */
static bool says(struct arena *a, struct text said, const char *wording) {
    static const char *const levels[] = {"error", "warning"};
    for (size_t i = 0; said.start != NULL && i < 2; i++) {
        const char *full = arena_printf(a, " %s: %s", levels[i], wording);
        size_t len = strlen(full);
        for (const char *at = said.start; (at = strstr(at, full)); at++)
            if (at[len] == ':' || at[len] == '\n')
                return true;
    }
    return false;
}

static const char *stem_of(struct arena *a, const char *name, const char *end) {
    const char *dot = strrchr(name, '.');
    if (dot == NULL || strcmp(dot, end) != 0)
        return NULL;
    return arena_copy(a, name, (size_t)(dot - name));
}

/* Sources of a topic that provoke a message; NULL: all of its sources. */
static void add_sources(struct buf *b, const char *topic, const char *wording) {
    struct arena *a = b->arena;
    DIR *dir = opendir(topic);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        const char *stem =
            stem_of(a, entry->d_name, wording == NULL ? ".md" : ".err");
        if (stem == NULL)
            continue;
        struct text said =
            command_read(a, arena_printf(a, "%s/%s.err", topic, stem));
        if (wording == NULL || says(a, said, wording))
            buf_text(b,
                     command_read(a, arena_printf(a, "%s/%s.md", topic, stem)));
    }
    if (dir != NULL)
        closedir(dir);
}

/* With what all of them may include and use, when there are any. */
static struct text golden_sources(struct arena *a, const char *wording) {
    struct buf b = buf_in(a);
    DIR *dir = opendir("tests/golden");
    assert_non_null(dir);
    struct dirent *entry;
    while ((entry = readdir(dir)) != NULL)
        if (entry->d_name[0] != '.')
            add_sources(&b, arena_printf(a, "tests/golden/%s", entry->d_name),
                        wording);
    closedir(dir);
    if (b.len > 0) {
        add_sources(&b, "tests/golden/procedures/facts", NULL);
        add_sources(&b, "tests/golden/procedures/shared", NULL);
    }
    return (struct text){buf_cstr(&b), b.len};
}

/* The paragraph of a message, its line ends as blanks. */
static const char *paragraph(struct arena *a, struct text page,
                             const char *wording) {
    const char *start =
        strstr(page.start, arena_printf(a, "\n**%s** ", wording));
    if (start == NULL)
        return NULL;
    const char *end = strstr(start, "\n\n");
    size_t len = end == NULL ? strlen(start) : (size_t)(end - start);
    return text_cstr(a, text_squeezed(a, (struct text){start, len}));
}

/* An example that quotes a source is taken from one that provokes the message.
 */
static bool is_true(struct arena *a, const char *example, size_t len,
                    const char *wording) {
    const char *open = memchr(example, '`', len);
    const char *close =
        open == NULL
            ? NULL
            : memchr(open + 1, '`', len - (size_t)(open + 1 - example));
    if (close == NULL)
        return true;
    struct text sources = golden_sources(a, wording);
    const char *quoted = arena_copy(a, open + 1, (size_t)(close - open - 1));
    return sources.len == 0 || strstr(sources.start, quoted) != NULL;
}

static void test_each_message_has_example_and_cure(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct text page = read_page(a, "docs/messages.md");
    size_t wrong = 0;
    for (enum diag_id id = 0; id < DIAG_COUNT; id++) {
        const char *wording = diag_wording(id);
        const char *text = paragraph(a, page, wording);
        const char *example = text == NULL ? NULL : strstr(text, " Example: ");
        const char *cure = example == NULL ? NULL : strstr(example, " Cure: ");
        if (cure == NULL) {
            print_error("docs/messages.md: '%s' wants: what it means. "
                        "Example: ... Cure: ...\n",
                        wording);
            wrong++;
        } else if (!is_true(a, example, (size_t)(cure - example), wording)) {
            print_error("docs/messages.md: the example of '%s' is in no golden "
                        "test that provokes it\n",
                        wording);
            wrong++;
        }
    }
    arena_free(a);
    assert_int_equal(wrong, 0);
}

int main(void) {
    char here[PATH_MAX - 64];
    if (getcwd(here, sizeof here) == NULL)
        return 3;
    snprintf(program, sizeof program, "%s/" BUILD "/bayleaf", here);
    setenv("ASAN_OPTIONS", "exitcode=99", 0);
    const char *empty[] = {"rm", "-rf", ROOM, NULL};
    command_run(empty, ".", "/dev/null", "/dev/null");
    mkdir(ROOM, 0777);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tables_are_those_of_the_program),
        cmocka_unit_test(test_examples_are_a_library_that_builds),
        cmocka_unit_test(test_each_rule_is_named),
        cmocka_unit_test(test_each_message_has_example_and_cure),
    };
    return cmocka_run_group_tests_name("docs", tests, NULL, NULL);
}
