/* bench.h - what the tests of the typographic layer stand on: a composer with
 * its arena, and short ways to make text. */
#ifndef BENCH_H
#define BENCH_H

#include "base/arena.h"
#include "base/diag.h"
#include "layout/flow.h"
#include "layout/paginate.h"
#include "layout/shape.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

struct bench {
    struct composer composer;
    struct flow flow;
    struct tagger tags;
};

static inline int bench_open(void **state) {
    struct arena *a = arena_new();
    struct bench *b = arena_alloc(a, 1, sizeof *b);
    b->composer = (struct composer){a, diag_new(a), shape_new(a, NULL),
                                    style_standard(), &b->tags};
    b->flow = (struct flow){.c = &b->composer};
    *state = b;
    return 0;
}

static inline int bench_close(void **state) {
    struct bench *b = *state;
    shape_free(b->composer.shaper);
    arena_free(b->composer.arena);
    return 0;
}

static inline struct tone bench_tone(enum face face, double size) {
    return (struct tone){face, size, style_black()};
}

static inline struct rich bench_rich(const struct bench *b, const char *text) {
    struct rich r = {0};
    rich_add(b->composer.arena, &r, bench_tone(FACE_REGULAR, 12), text_of(text),
             (struct span){NULL, 0, 0});
    return r;
}

static inline struct lines *bench_break(const struct bench *b, const char *text,
                                        double width) {
    struct rich r = bench_rich(b, text);
    return paragraph_break(&b->composer, words_of(&b->composer, &r), width,
                           (struct type){12, 16}, 1);
}

/* Text of one line, ops parted by |. */
static inline const char *bench_line(const struct bench *b,
                                     const struct lines *l, size_t index) {
    struct buf out = buf_in(b->composer.arena);
    for (size_t i = 0; i < l->line[index].op_count; i++) {
        buf_puts(&out, i > 0 ? "|" : "");
        buf_text(&out, l->line[index].ops[i].text);
    }
    return buf_cstr(&out);
}

/* All messages as printed. */
static inline const char *bench_messages(const struct bench *b) {
    char *text = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&text, &len);
    diag_print(b->composer.diags, out, false);
    fclose(out);
    const char *copy = arena_copy(b->composer.arena, text, len);
    free(text);
    return copy;
}

/* A slab of this height; its name is printed so that it can be found. */
static inline struct slab *bench_slab(struct bench *b, double height,
                                      const char *name) {
    struct slab *s = flow_slab(&b->flow, height, (struct span){NULL, 0, 0});
    if (height >= 14) /* else the letters would reach past it */
        slab_text(&b->composer, s, 0, 10, FACE_REGULAR, 10, style_black(),
                  text_of(name));
    return s;
}

static inline struct pages *bench_pages(struct bench *b) {
    struct pages *p = arena_alloc(b->composer.arena, 1, sizeof *p);
    const size_t *starts;
    size_t count = paginate_break(&b->flow, &starts);
    paginate_place(&b->flow, starts, count, p);
    return p;
}

static inline double bench_room(const struct bench *b) {
    return b->composer.style->bottom - b->composer.style->top;
}

#endif
