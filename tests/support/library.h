/* library.h - a library of its own for a test of the whole program: a copy of
 * procedures/ and templates/ under ROOM, so that one that fails leaves its
 * files to look at.
 *
 * A header of static functions: each test program is one source file. It
 * defines ROOM first, and calls library_room() in main. */
#ifndef LIBRARY_H
#define LIBRARY_H

#include "support/command.h"

#include <dirent.h>
#include <limits.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

static char program[PATH_MAX]; /* absolute: set once, in main */

/* At the start of main: where the program is, and an empty ROOM. */
static inline bool library_room(void) {
    char here[PATH_MAX - 64];
    if (getcwd(here, sizeof here) == NULL)
        return false;
    snprintf(program, sizeof program, "%s/" BUILD "/bayleaf", here);
    setenv("ASAN_OPTIONS", "exitcode=99", 0);
    mkdir(ROOM, 0777);
    return true;
}

struct library {
    struct arena *arena;
    const char *folder; /* holds procedures/ */
    const char *out, *err;
};

static inline struct library library_new(const char *name) {
    struct arena *a = arena_new();
    struct library l = {
        .arena = a,
        .folder = arena_printf(a, ROOM "/%s", name),
        .out = arena_printf(a, ROOM "/%s.stdout", name),
        .err = arena_printf(a, ROOM "/%s.stderr", name),
    };
    const char *empty[] = {"rm", "-rf", l.folder, NULL};
    const char *copy[] = {"cp",        "-r",     "procedures",
                          "templates", l.folder, NULL};
    assert_int_equal(command_run(empty, ".", l.out, l.err), 0);
    assert_int_equal(mkdir(l.folder, 0777), 0);
    assert_int_equal(command_run(copy, ".", l.out, l.err), 0);
    return l;
}

static inline const char *path_in(const struct library *l, const char *name) {
    return arena_printf(l->arena, "%s/%s", l->folder, name);
}

/* Replaces the one place where a file holds `from`. */
static inline void edit(const struct library *l, const char *name,
                        const char *from, const char *to) {
    const char *path = path_in(l, name);
    struct text t = command_read(l->arena, path);
    assert_non_null(t.start);
    const char *at = strstr(t.start, from);
    if (at == NULL)
        fail_msg("%s does not hold: %s", path, from);
    struct buf b = buf_in(l->arena);
    buf_add(&b, t.start, (size_t)(at - t.start));
    buf_puts(&b, to);
    buf_puts(&b, at + strlen(from));
    assert_true(command_write(path, buf_as_text(&b)));
}

/* bayleaf with up to three arguments; its exit status. */
static inline int bayleaf(const struct library *l, const char *verb,
                          const char *one, const char *two) {
    const char *argv[] = {program, verb, one, two, NULL};
    return command_run(argv, l->folder, l->out, l->err);
}

static inline void expect_status(const struct library *l, int status,
                                 int wanted) {
    if (status != wanted)
        fail_msg("exit %d instead of %d:\n%s", status, wanted,
                 command_read(l->arena, l->err).start);
}

static inline const char *output(const struct library *l) {
    return command_read(l->arena, l->out).start;
}

static inline const char *messages(const struct library *l) {
    return command_read(l->arena, l->err).start;
}

static inline bool there(const struct library *l, const char *name) {
    return access(path_in(l, name), F_OK) == 0;
}

/* What a PDF says, all in one. */
static inline const char *printed(const struct library *l, const char *pdf) {
    const char *argv[] = {"pdftotext", path_in(l, pdf), "-", NULL};
    assert_int_equal(command_run(argv, ".", l->out, l->err), 0);
    return output(l);
}

/* The code at the foot of its pages. */
static inline const char *code_of(const struct library *l, const char *pdf) {
    const char *text = printed(l, pdf), *at = strstr(text, "page 1 of");
    assert_non_null(at);
    for (; *at != '\0'; at++)
        if (at[0] == '\n' &&
            strspn(at + 1, "23456789ABCDEFGHJKLMNPQRSTUVWXYZ") == 8)
            return arena_copy(l->arena, at + 1, 8);
    fail_msg("no code in %s", text);
    return NULL;
}

/* Files in a folder whose name ends so. */
static inline size_t count_files(const struct library *l, const char *name,
                                 const char *end) {
    DIR *dir = opendir(path_in(l, name));
    size_t count = 0;
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        size_t len = strlen(entry->d_name), tail = strlen(end);
        count += len >= tail && strcmp(entry->d_name + len - tail, end) == 0;
    }
    if (dir != NULL)
        closedir(dir);
    return count;
}

static inline void expect_text(const char *text, const char *part) {
    if (strstr(text, part) == NULL)
        fail_msg("not printed: %s\n%s", part, text);
}

#endif
