/* workshop.h - a library on disk for tests of whole guides: files are written
 * below a temporary folder and compiled by the real stages. */
#ifndef WORKSHOP_H
#define WORKSHOP_H

#include "base/arena.h"
#include "base/diag.h"
#include "checks/findings.h"
#include "geometry.h"
#include "layout/layout.h"
#include "layout/paginate.h"
#include "layout/reach.h"
#include "source/tree.h"
#include "stages.h"
#include "values/values.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

struct workshop {
    struct compile compile;
    char folder[32];
    const char *template;          /* its name, or NULL */
    const struct passages *issued; /* to compare with, or NULL */
    struct passages *passages;     /* to fill, or NULL */
};

static inline void workshop_write(const struct workshop *w, const char *name,
                                  const char *text) {
    char path[200];
    snprintf(path, sizeof path, "%s/procedures/%s", w->folder, name);
    FILE *out = fopen(path, "w");
    assert_non_null(out);
    fputs(text, out);
    assert_int_equal(fclose(out), 0);
}

static const char workshop_facts[] =
    "# Facts\n\n"
    "```vehicle fen\n"
    "maker: Wendlow\nmodel: Fen\n"
    "variant | years | chassis\n"
    "mark 1 | 1976 to 1979 | short wheelbase\n"
    "mark 2 | 1980 to 1983 | long wheelbase\n"
    "mark 3 | 1984 to 1988 | long wheelbase\n"
    "```\n\n"
    "```facts\n"
    "drill = 7/16 in [mark 1] 1/2 in [others]\n"
    "```\n";

static inline int workshop_open(void **state) {
    struct workshop *w = calloc(1, sizeof *w);
    if (w == NULL)
        return -1;
    strcpy(w->folder, "/tmp/layout-XXXXXX");
    if (mkdtemp(w->folder) == NULL)
        return -1;
    char path[100];
    snprintf(path, sizeof path, "%s/procedures", w->folder);
    mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/procedures/facts", w->folder);
    mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/templates", w->folder);
    mkdir(path, 0700);
    workshop_write(w, "facts/fen.md", workshop_facts);
    w->compile.arena = arena_new();
    w->compile.diags = diag_new(w->compile.arena);
    w->compile.library = w->folder;
    *state = w;
    return 0;
}

static inline int workshop_close(void **state) {
    static const char *const made[] = {"procedures/facts/fen.md",
                                       "procedures/guide.md",
                                       "procedures/facts",
                                       "procedures",
                                       "templates/ours.md",
                                       "templates",
                                       ""};
    struct workshop *w = *state;
    for (size_t i = 0; i < sizeof made / sizeof made[0]; i++) {
        char path[100];
        snprintf(path, sizeof path, "%s/%s", w->folder, made[i]);
        if (unlink(path) != 0)
            rmdir(path);
    }
    arena_free(w->compile.arena);
    free(w);
    return 0;
}

static inline const char *workshop_messages(const struct workshop *w) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    diag_print(w->compile.diags, out, false);
    fclose(out);
    const char *copy = arena_copy(w->compile.arena, text, len);
    free(text);
    return copy;
}

/* The title and a `guide` block with these settings, then the body. */
static inline const char *workshop_guide(const struct workshop *w,
                                         const char *settings,
                                         const char *body) {
    return arena_printf(w->compile.arena,
                        "# Fit a lamp\n\n```guide\nid: LT-001\nrevision: 1\n"
                        "status: draft\nuses: fen\n%s```\n\n%s",
                        settings, body);
}

static inline struct pages *
workshop_layout(struct workshop *w, const char *path, enum paper paper) {
    struct compile *c = &w->compile;
    struct layout_options options = {.paper = paper,
                                     .template = w->template,
                                     .issued = w->issued,
                                     .passages = w->passages};
    struct guide *g = source_read(c, path);
    if (g == NULL || diag_status(c->diags) != 0)
        fail_msg("%s", workshop_messages(w));
    struct values *v = values_evaluate(c, g);
    struct findings *f = checks_run(c, g, v);
    if (diag_status(c->diags) != 0)
        fail_msg("%s", workshop_messages(w));
    return layout_pages_on(c, g, v, f, &options);
}

/* Compiles the text as a guide; messages of layout are left to the caller. */
static inline struct pages *workshop_pages(struct workshop *w,
                                           const char *text) {
    char path[100];
    workshop_write(w, "guide.md", text);
    snprintf(path, sizeof path, "%s/procedures/guide.md", w->folder);
    return workshop_layout(w, path, PAPER_BY_GUIDE);
}

/* The same, and nothing to complain about. */
static inline struct pages *workshop_sound(struct workshop *w,
                                           const char *text) {
    struct pages *p = workshop_pages(w, text);
    char why[500];
    if (diag_status(w->compile.diags) != 0)
        fail_msg("%s", workshop_messages(w));
    if (geometry_check(p, why, sizeof why) != NULL)
        fail_msg("%s", why);
    return p;
}

/* It goes on where the other ends, in the same letters: they were parted for
 * their tags. */
static inline bool workshop_joined(const struct op *op, const struct op *next) {
    return next->kind == OP_TEXT && op->y == next->y &&
           op->size == next->size && op->face == next->face &&
           fabs(op->x + reach_text(op) - next->x) < 0.01;
}

/* All text of a page, ops parted by line ends. */
static inline const char *workshop_text(const struct workshop *w,
                                        const struct page *page) {
    struct buf b = buf_in(w->compile.arena);
    for (size_t i = 0; i < page->op_count; i++) {
        const struct op *op = &page->ops[i];
        if (op->kind == OP_TEXT)
            buf_text(&b, op->text);
        if (op->kind != OP_TEXT || i + 1 == page->op_count ||
            !workshop_joined(op, op + 1))
            buf_puts(&b, "\n");
    }
    return buf_cstr(&b);
}

static inline const char *workshop_all(const struct workshop *w,
                                       const struct pages *p) {
    struct buf b = buf_in(w->compile.arena);
    for (size_t i = 0; i < p->count; i++)
        buf_puts(&b, workshop_text(w, &p->page[i]));
    return buf_cstr(&b);
}

static inline size_t workshop_times(const char *all, const char *words) {
    size_t count = 0;
    for (const char *at = strstr(all, words); at != NULL;
         at = strstr(at + 1, words))
        count++;
    return count;
}

/* The first text of the page that starts so; NULL: none. */
static inline const struct op *workshop_op(const struct page *page,
                                           const char *start) {
    for (size_t k = 0; k < page->op_count; k++)
        if (page->ops[k].kind == OP_TEXT &&
            text_starts(page->ops[k].text, start))
            return &page->ops[k];
    return NULL;
}

#endif
