/* sheet.h - documents for the tests of print/: made of shaped text and printed.
 */
#ifndef TEST_SHEET_H
#define TEST_SHEET_H

#include "base/arena.h"
#include "base/diag.h"
#include "image/picture.h"
#include "layout/shape.h"
#include "stages.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

struct sheet { /* one document in the making, with all that it needs */
    struct arena *arena;
    struct shaper *shaper;
    struct pages *pages;
    struct compile compile;
    const unsigned char *bytes;
    size_t len;
};

static inline struct sheet *sheet_new(void) {
    struct arena *a = arena_new();
    struct sheet *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    s->shaper = shape_new(a, NULL);
    s->pages = arena_alloc(a, 1, sizeof *s->pages);
    s->compile =
        (struct compile){.arena = a, .diags = diag_new(a), .library = "."};
    return s;
}

static inline void sheet_free(struct sheet *s) {
    shape_free(s->shaper);
    arena_free(s->arena);
}

static inline struct page *add_page(struct sheet *s) {
    return display_page(s->arena, s->pages, 612, 792);
}

static inline struct op *add_text(struct sheet *s, struct page *page,
                                  enum face face, double size, double y,
                                  const char *text) {
    const struct run *run = shape_text(s->shaper, face, text_of(text));
    struct op *op = display_op(s->arena, page, OP_TEXT);
    op->face = face;
    op->size = size;
    op->x = 72;
    op->y = y;
    op->text = run->text;
    op->glyphs = run->glyphs;
    op->glyph_count = run->glyph_count;
    return op;
}

static inline struct op *add_link(struct sheet *s, struct page *page, int to,
                                  const char *uri) {
    struct op *op = display_op(s->arena, page, OP_LINK);
    op->x = 72;
    op->y = 100;
    op->width = 50;
    op->height = 12;
    op->page = to;
    op->target_y = 300;
    op->uri = text_of(uri);
    return op;
}

/* One grey pixel. */
static inline void add_image(struct sheet *s, struct page *page) {
    static const unsigned char bytes[] = {0x78, 0x9C, 0x6B, 0x00, 0x00,
                                          0x00, 0x81, 0x00, 0x81};
    static const struct picture pixel = {PICTURE_FLATE, 1,           1, 1, 1,
                                         bytes,         sizeof bytes};
    struct op *op = display_op(s->arena, page, OP_IMAGE);
    op->x = op->y = 200;
    op->width = op->height = 30;
    op->picture = &pixel;
}

static inline void print_sheet(struct sheet *s) {
    s->bytes = print_pdf(&s->compile, s->pages, &s->len);
    if (s->bytes == NULL)
        diag_print(s->compile.diags, stderr, false);
    assert_non_null(s->bytes);
    assert_int_equal(diag_count(s->compile.diags, LEVEL_WARNING), 0);
}

static inline struct sheet *complete_sheet(void) {
    struct sheet *s = sheet_new();
    struct pages *p = s->pages;
    struct outline *o = arena_alloc(s->arena, 4, sizeof *o);
    o[0] = (struct outline){text_of("Purpose"), 1, 0, 72};
    o[1] = (struct outline){text_of("Prüfen ≤ 5 °C 🔋"), 2, 1, 100};
    o[2] = (struct outline){text_of("Test (end)"), 1, 1, 300.25};
    o[3] = (struct outline){text_of("Deep"), 7, 1, 400};
    p->title = text_of("Fit relays — 4.7 kΩ (draft)");
    p->author = text_of("Quarrel Lane Workshop");
    p->subject = text_of("LT-012 \\ 3");
    p->outline = o;
    p->outline_count = 4;
    for (int i = 0; i < 2; i++) {
        struct page *page = add_page(s);
        add_text(s, page, FACE_REGULAR, 12, 72, "Run 8 AWG red, 2.6 m.");
        add_text(s, page, FACE_BOLD, 18, 100, "Warning");
        struct op *op = display_op(s->arena, page, OP_RECT);
        op->x = op->y = 60;
        op->width = 200;
        op->height = 50;
        op->line_width = 1;
        add_link(s, page, 1 - i, NULL);
        add_link(s, page, -1, "https://example.org/a b(c)?ü");
        add_image(s, page);
    }
    s->pages->page[1].width = 595.276;
    s->pages->page[1].height = 841.89;
    return s;
}

#endif
