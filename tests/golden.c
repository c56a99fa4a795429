/* golden.c - golden tests: inputs under tests/golden with what they must give.
 *
 * Beside TOPIC/NAME.md stand files that say what runs, each a test of its own:
 *
 *   NAME.err      bayleaf check, its messages and "exit N"
 *   NAME.tree     bayleaf dump tree; likewise NAME.values, NAME.cautions and
 *                 NAME.pages
 *   NAME.run      lines "$ bayleaf ARGUMENTS", each with its results, messages
 * and "exit N" if not 0; needs no NAME.md
 *
 * tests/golden is the library: guides find facts and shared steps in its
 * procedures/. The program runs there, so that messages hold short names.
 * `golden --accept [TOPIC[/NAME]]` writes the files instead (NAME.err where
 * there is none); read the diff before committing it. */
#include "base/arena.h"
#include "base/diag.h"
#include "base/text.h"
#include "support/command.h"

#include <dirent.h>
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#define FOLDER "tests/golden"
/* A copy, where the program runs and may leave what it prints. */
#define ROOM BUILD "/golden-room"

enum { ARGUMENTS_MAX = 32 };

static const char *const suffixes[] = {"err",      "tree",  "values",
                                       "cautions", "pages", "run"};
enum { SUFFIX_ERR, SUFFIX_RUN = 5, SUFFIX_COUNT };

struct golden {
    const char *stem;     /* "units/power" */
    int suffix;           /* index in suffixes */
    const char *expected; /* path of the file beside the input */
    const char *actual;   /* path of what the program gave */
};

struct goldens {
    struct arena *arena;
    struct golden *list;
    size_t count, room;
    const char *program; /* absolute */
};

/* --- finding them --- */

static int by_name(const void *a, const void *b) {
    const struct golden *x = a, *y = b;
    int order = strcmp(x->stem, y->stem);
    return order != 0 ? order : x->suffix - y->suffix;
}

static void add(struct goldens *g, const char *stem, int suffix) {
    if (g->count == g->room) {
        g->room = g->room * 2 + 64;
        g->list =
            arena_grow(g->arena, g->list, g->count, g->room, sizeof *g->list);
    }
    g->list[g->count++] = (struct golden){
        .stem = stem,
        .suffix = suffix,
        .expected =
            arena_printf(g->arena, FOLDER "/%s.%s", stem, suffixes[suffix]),
        .actual = arena_printf(g->arena, BUILD "/golden/%s.%s", stem,
                               suffixes[suffix]),
    };
}

static bool exists(struct arena *a, const char *stem, const char *suffix) {
    return access(arena_printf(a, FOLDER "/%s.%s", stem, suffix), R_OK) == 0;
}

/* Each expectation file in a topic, and inputs that have none as .err. */
static void find_in_topic(struct goldens *g, const char *topic) {
    DIR *dir = opendir(arena_printf(g->arena, FOLDER "/%s", topic));
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        const char *dot = strrchr(entry->d_name, '.');
        if (dot == NULL || dot == entry->d_name)
            continue;
        const char *stem =
            arena_printf(g->arena, "%s/%.*s", topic, (int)(dot - entry->d_name),
                         entry->d_name);
        bool expected = false;
        for (int i = 0; i < SUFFIX_COUNT; i++) {
            if (strcmp(dot + 1, suffixes[i]) == 0)
                add(g, stem, i);
            expected |= exists(g->arena, stem, suffixes[i]);
        }
        if (strcmp(dot, ".md") == 0 && !expected)
            add(g, stem, SUFFIX_ERR);
    }
    if (dir != NULL)
        closedir(dir);
}

static void find_all(struct goldens *g) {
    DIR *dir = opendir(FOLDER);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        /* Parts of the library that the inputs share. */
        if (entry->d_name[0] == '.' || strcmp(entry->d_name, "build") == 0 ||
            strcmp(entry->d_name, "procedures") == 0 ||
            strcmp(entry->d_name, "templates") == 0)
            continue;
        find_in_topic(g, entry->d_name);
    }
    if (dir != NULL)
        closedir(dir);
    if (g->count > 0)
        qsort(g->list, g->count, sizeof *g->list, by_name);
}

/* --- running them --- */

static void add_file(struct buf *b, const char *path) {
    buf_text(b, command_read(b->arena, path));
}

/* Splits "$ bayleaf why x.md feed.drop" at blanks; double quotes hold. */
static void split(struct arena *a, struct text line, const char **argv) {
    size_t count = 0, at = 0;
    while (at < line.len && count < ARGUMENTS_MAX) {
        struct buf word = buf_in(a);
        buf_puts(&word, "");
        bool quoted = false;
        for (; at < line.len && (quoted || line.start[at] != ' '); at++) {
            if (line.start[at] == '"')
                quoted = !quoted;
            else
                buf_add(&word, line.start + at, 1);
        }
        argv[count++] = arena_copy(a, buf_cstr(&word), word.len);
        while (at < line.len && line.start[at] == ' ')
            at++;
    }
    argv[count] = NULL;
}

/* The dialogue of an expectation file, with what the program says now. */
static void run_dialogue(const struct goldens *g, const struct golden *t,
                         const char *out, const char *err, struct buf *b) {
    static const char prompt[] = "$ bayleaf ";
    struct text file = command_read(g->arena, t->expected);
    for (size_t at = 0; at < file.len;) {
        const char *start = file.start + at;
        const char *end = memchr(start, '\n', file.len - at);
        size_t len = end != NULL ? (size_t)(end - start) : file.len - at;
        struct text line = {start, len};
        at += len + 1;
        if (!text_starts(line, prompt))
            continue;
        const char *argv[ARGUMENTS_MAX + 1];
        split(g->arena, text_part(line, 2, line.len), argv);
        argv[0] = g->program;
        int status = command_run(argv, ROOM, out, err);
        buf_printf(b, "%.*s\n", (int)len, start);
        add_file(b, out);
        add_file(b, err);
        if (status != 0)
            buf_printf(b, "exit %d\n", status);
    }
}

static struct buf produce(const struct goldens *g, const struct golden *t) {
    const char *out = arena_printf(g->arena, "%s.stdout", t->actual);
    const char *err = arena_printf(g->arena, "%s.stderr", t->actual);
    struct buf b = buf_in(g->arena);
    const char *guide = arena_printf(g->arena, "%s.md", t->stem);
    if (t->suffix == SUFFIX_RUN) {
        run_dialogue(g, t, out, err, &b);
    } else if (t->suffix == SUFFIX_ERR) {
        const char *argv[] = {g->program, "check", guide, NULL};
        int status = command_run(argv, ROOM, out, err);
        add_file(&b, err);
        buf_printf(&b, "exit %d\n", status);
    } else {
        const char *argv[] = {g->program, "dump", suffixes[t->suffix], guide,
                              NULL};
        command_run(argv, ROOM, out, err);
        add_file(&b, out);
    }
    unlink(out);
    unlink(err);
    return b;
}

/* What the program gives for every test, in files, some at a time. */
static void produce_all(const struct goldens *g) {
    long room = sysconf(_SC_NPROCESSORS_ONLN), running = 0;
    for (size_t i = 0; i < g->count; i++) {
        const struct golden *t = &g->list[i];
        if (running >= room && wait(NULL) > 0)
            running--;
        pid_t child = fork();
        if (child == 0) {
            struct buf b = produce(g, t);
            _exit(command_write(t->actual, buf_as_text(&b)) ? 0 : 1);
        }
        if (child > 0)
            running++;
    }
    while (wait(NULL) > 0)
        ;
}

static void make_folders(const struct goldens *g) {
    const char *empty[] = {"rm", "-rf", ROOM, NULL};
    const char *copy[] = {"cp", "-r", FOLDER, ROOM, NULL};
    mkdir(BUILD "/golden", 0777);
    if (command_run(empty, ".", "/dev/null", "/dev/null") != 0 ||
        command_run(copy, ".", "/dev/null", "/dev/null") != 0) {
        fprintf(stderr, "golden: cannot copy " FOLDER " to " ROOM "\n");
        exit(3);
    }
    for (size_t i = 0; i < g->count; i++) {
        char *path = arena_printf(g->arena, "%s", g->list[i].actual);
        *strrchr(path, '/') = '\0';
        mkdir(path, 0777);
        unlink(g->list[i].actual);
    }
}

/* --- the tests --- */

static struct text first_line(struct text t, size_t from) {
    size_t start = from, end = from;
    while (start > 0 && t.start[start - 1] != '\n')
        start--;
    while (end < t.len && t.start[end] != '\n')
        end++;
    return text_part(t, start, end);
}

static void test_golden(void **state) {
    const struct golden *t = *state;
    struct arena *a = arena_new();
    struct text want = command_read(a, t->expected);
    struct text got = command_read(a, t->actual);
    if (want.start == NULL)
        print_error("%s is missing: make accept TEST=%s\n", t->expected,
                    t->stem);
    bool equal = want.start != NULL && text_equal(want, got);
    if (want.start != NULL && !equal) {
        size_t at = 0;
        while (at < want.len && at < got.len && want.start[at] == got.start[at])
            at++;
        struct text w = first_line(want, at), h = first_line(got, at);
        print_error("%s\n  expected: %.*s\n  but got:  %.*s\n", t->expected,
                    (int)w.len, w.start, (int)h.len, h.start);
    }
    arena_free(a);
    assert_true(equal);
}

/* All files of a folder's folders whose names end so. */
static void add_all(struct buf *b, const char *folder, const char *end) {
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        if (entry->d_name[0] == '.')
            continue;
        const char *path =
            arena_printf(b->arena, "%s/%s", folder, entry->d_name);
        const char *dot = strrchr(entry->d_name, '.');
        if (dot == NULL)
            add_all(b, path, end);
        else if (strcmp(dot, end) == 0)
            add_file(b, path);
    }
    if (dir != NULL)
        closedir(dir);
}

/* Each message stands in a golden test; those that no file of this folder can
 * provoke stand word for word in a test of the whole program or of a module. */
static void test_every_message_is_provoked(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct buf golden = buf_in(a), tests = buf_in(a);
    add_all(&golden, FOLDER, ".err");
    add_all(&golden, FOLDER, ".run");
    add_all(&tests, "tests/unit", ".c");
    add_file(&tests, "tests/program.c");
    add_file(&tests, "tests/limits.c");
    add_file(&tests, "tests/issue.c");
    size_t missing = 0;
    for (enum diag_id id = 0; id < DIAG_COUNT; id++) {
        const char *words = diag_wording(id);
        if (strstr(buf_cstr(&golden), arena_printf(a, " error: %s", words)) ||
            strstr(buf_cstr(&golden), arena_printf(a, " warning: %s", words)) ||
            strstr(buf_cstr(&tests), words))
            continue;
        print_error("no test provokes: %s\n", words);
        missing++;
    }
    arena_free(a);
    assert_int_equal(missing, 0);
}

/* docs/messages.md explains each message and nothing else. */
static void test_every_message_is_explained(void **state) {
    (void)state;
    struct arena *a = arena_new();
    struct text page = command_read(a, "docs/messages.md");
    assert_non_null(page.start);
    size_t missing = 0, entries = 0;
    for (enum diag_id id = 0; id < DIAG_COUNT; id++) {
        if (strstr(page.start, arena_printf(a, "\n**%s** ", diag_wording(id))))
            continue;
        print_error("not explained: %s\n", diag_wording(id));
        missing++;
    }
    for (const char *at = page.start; (at = strstr(at, "\n**")) != NULL; at++)
        entries++;
    arena_free(a);
    assert_int_equal(missing, 0);
    assert_int_equal(entries, DIAG_COUNT);
}

static int accept(const struct goldens *g, const char *wanted) {
    size_t len = strlen(wanted), accepted = 0;
    for (size_t i = 0; i < g->count; i++) {
        const struct golden *t = &g->list[i];
        if (len > 0 && (strncmp(t->stem, wanted, len) != 0 ||
                        (t->stem[len] != '\0' && t->stem[len] != '/')))
            continue;
        struct buf b = produce(g, t);
        if (!command_write(t->expected, buf_as_text(&b))) {
            fprintf(stderr, "golden: cannot write %s\n", t->expected);
            return 3;
        }
        printf("%s\n", t->expected);
        accepted++;
    }
    if (accepted == 0)
        fprintf(stderr, "golden: no test is named %s\n", wanted);
    return accepted == 0 ? 2 : 0;
}

int main(int argc, char **argv) {
    struct goldens g = {.arena = arena_new()};
    /* A sanitizer's report must not look like a refused guide. */
    setenv("ASAN_OPTIONS", "exitcode=99", 0);
    setenv("UBSAN_OPTIONS", "print_stacktrace=1", 0);
    unsetenv("CMOCKA_TEST_FILTER");
    char here[PATH_MAX];
    if (getcwd(here, sizeof here) == NULL ||
        access(BUILD "/bayleaf", X_OK) != 0) {
        fprintf(stderr, "golden: no program " BUILD "/bayleaf\n");
        return 3;
    }
    g.program = arena_printf(g.arena, "%s/" BUILD "/bayleaf", here);
    find_all(&g);
    make_folders(&g);
    int status;
    if (argc >= 2 && argc <= 3 && strcmp(argv[1], "--accept") == 0) {
        status = accept(&g, argc == 3 ? argv[2] : "");
    } else if (argc == 1) {
        produce_all(&g);
        struct CMUnitTest *tests =
            arena_alloc(g.arena, g.count + 2, sizeof *tests);
        for (size_t i = 0; i < g.count; i++)
            tests[i] = (struct CMUnitTest){
                .name = arena_printf(g.arena, "%s.%s", g.list[i].stem,
                                     suffixes[g.list[i].suffix]),
                .test_func = test_golden,
                .initial_state = &g.list[i],
            };
        tests[g.count] =
            (struct CMUnitTest)cmocka_unit_test(test_every_message_is_provoked);
        tests[g.count + 1] = (struct CMUnitTest)cmocka_unit_test(
            test_every_message_is_explained);
        status =
            _cmocka_run_group_tests("golden", tests, g.count + 2, NULL, NULL);
    } else {
        fprintf(stderr, "usage: golden [--accept [TOPIC[/NAME]]]\n");
        status = 2;
    }
    arena_free(g.arena);
    return status;
}
