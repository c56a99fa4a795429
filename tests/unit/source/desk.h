/* desk.h - a guide read from a string, and what the author is told about it. */
#ifndef DESK_H
#define DESK_H

#include "base/arena.h"
#include "base/diag.h"
#include "source/kind.h"
#include "source/read.h"
#include "source/tree.h"
#include "stages.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

struct desk {
    struct compile c;
    char root[32]; /* of the library, when there is one */
};

/* Text of each guide here begins in line 9. */
#define HEAD                                                                   \
    "# Fit a lamp\n\n```guide\nid: T-1\nrevision: 1\nstatus: draft\n```\n\n"

static inline int desk_open(void **state) {
    struct desk *d = calloc(1, sizeof *d);
    d->c.arena = arena_new();
    d->c.diags = diag_new(d->c.arena);
    d->c.library = ".";
    *state = d;
    return 0;
}

static inline int desk_close(void **state) {
    struct desk *d = *state;
    if (d->root[0] != '\0') {
        char command[64];
        snprintf(command, sizeof command, "rm -rf %s", d->root);
        assert_int_equal(system(command), 0);
    }
    arena_free(d->c.arena);
    free(d);
    return 0;
}

/* Forgets the messages so far. */
static inline void desk_clear(struct desk *d) {
    d->c.diags = diag_new(d->c.arena);
}

static inline struct guide *desk_read(struct desk *d, const char *text) {
    return source_read_text(&d->c, "lamp.md", text_of(text));
}

static inline struct guide *desk_read_body(struct desk *d, const char *body) {
    return desk_read(d, arena_printf(d->c.arena, HEAD "%s", body));
}

/* First lines of all messages, without the source lines below them. */
static inline const char *desk_messages(struct desk *d) {
    char *bytes = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&bytes, &len);
    diag_print(d->c.diags, out, false);
    fclose(out);
    struct buf kept = buf_in(d->c.arena);
    for (char *line = strtok(bytes, "\n"); line != NULL;
         line = strtok(NULL, "\n"))
        if (strncmp(line, "  ", 2) != 0) {
            buf_puts(&kept, line);
            buf_puts(&kept, "\n");
        }
    free(bytes);
    return buf_cstr(&kept);
}

static inline struct guide *desk_good(struct desk *d, const char *body) {
    struct guide *g = desk_read_body(d, body);
    assert_string_equal(desk_messages(d), "");
    return g;
}

/* A library in a temporary folder; d->c.library leads to it. */
static inline void desk_library(struct desk *d) {
    strcpy(d->root, "/tmp/bayleaf-XXXXXX");
    assert_non_null(mkdtemp(d->root));
    d->c.library = d->root;
    static const char *const folders[] = {"procedures", "procedures/facts",
                                          "procedures/shared"};
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(
            mkdir(arena_printf(d->c.arena, "%s/%s", d->root, folders[i]), 0700),
            0);
}

static inline const char *desk_path(struct desk *d, const char *path) {
    return arena_printf(d->c.arena, "%s/%s", d->root, path);
}

static inline void desk_write(struct desk *d, const char *path,
                              const char *text) {
    FILE *f = fopen(desk_path(d, path), "w");
    assert_non_null(f);
    assert_int_equal(fputs(text, f) >= 0, 1);
    assert_int_equal(fclose(f), 0);
}

/* Messages with the library's folder cut out of the paths. */
static inline const char *desk_local(struct desk *d) {
    struct buf out = buf_in(d->c.arena);
    size_t len = strlen(d->root);
    for (const char *s = desk_messages(d); *s != '\0';) {
        if (strncmp(s, d->root, len) == 0 && s[len] == '/')
            s += len + 1;
        else
            buf_add(&out, s++, 1);
    }
    return buf_cstr(&out);
}

static inline const struct block *desk_block(const struct guide *g,
                                             enum kind_id kind) {
    for (size_t i = 0; i < g->block_count; i++)
        if (g->blocks[i]->kind->id == kind)
            return g->blocks[i];
    fail_msg("no block of this kind");
    return NULL;
}

static inline void assert_text(struct text t, const char *want) {
    char got[400];
    if (t.start == NULL)
        t = text_of("(absent)");
    snprintf(got, sizeof got, "%.*s", (int)t.len, t.start);
    assert_string_equal(got, want);
}

static inline void assert_place(struct span at, size_t line, size_t column) {
    struct position p = place_position(at.src, at.start);
    assert_int_equal(p.line, line);
    assert_int_equal(p.column, column);
}

#define desk_test(f) cmocka_unit_test_setup_teardown(f, desk_open, desk_close)

#endif
