/* test_display.c - the display list: building, and its text form both ways. */
#include "base/arena.h"
#include "image/picture.h"
#include "layout/display.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static int open_arena(void **state) {
    *state = arena_new();
    return 0;
}

static int close_arena(void **state) {
    arena_free(*state);
    return 0;
}

static struct op *add_text(struct arena *a, struct page *page,
                           const char *text) {
    struct glyph *g = arena_alloc(a, 3, sizeof *g);
    struct op *op = display_op(a, page, OP_TEXT);
    g[0] = (struct glyph){36, 0, 3, 1782.0F / 2048, 0, 0};
    g[1] = (struct glyph){65535, 3, 1, 0.1F, -0.0F, 1e-7F};
    g[2] = (struct glyph){0, 4, 0, 0, 1.0F / 3, -12.5F};
    op->x = 72.1;
    op->y = 700.0 / 3;
    op->face = FACE_OBLIQUE;
    op->size = 10.5;
    op->text = text_of(text);
    op->glyphs = g;
    op->glyph_count = 3;
    op->colour = (struct colour){0.1F, 1.0F / 3, 1};
    return op;
}

static void add_shapes(struct arena *a, struct page *page) {
    struct op *op = display_op(a, page, OP_RECT);
    op->x = -0.0;
    op->y = 1e-300;
    op->width = 0.1 + 0.2;
    op->height = 5;
    op->fill = true;
    op = display_op(a, page, OP_RECT);
    op->width = op->height = 10;
    op->line_width = 0.75;
    op->dash_on = 0.5;
    op->dash_off = 1.75;
    op = display_op(a, page, OP_LINE);
    op->x = 1;
    op->y = 2.25;
    op->x2 = 3;
    op->y2 = 123456.789;
    op->line_width = 0.5;
    op = display_op(a, page, OP_PATH);
    struct path_point *p = arena_alloc(a, 4, sizeof *p);
    p[0] = (struct path_point){.verb = PATH_MOVE, .x = 1, .y = 2};
    p[1] = (struct path_point){.verb = PATH_LINE, .x = 3.5, .y = 4};
    p[2] = (struct path_point){PATH_CURVE, 1, 2, 3, 4, 5, 3.14159265358979};
    p[3] = (struct path_point){.verb = PATH_CLOSE};
    op->path = p;
    op->path_count = 4;
    op->fill = true;
    op->colour.green = 0.25F;
}

static void add_links(struct arena *a, struct page *page) {
    struct op *op = display_op(a, page, OP_LINK);
    op->x = op->y = 10;
    op->width = 100;
    op->height = 12;
    op->page = 1;
    op->target_y = 99.5;
    op = display_op(a, page, OP_LINK);
    op->uri = text_of("https://example.org/a b?\"c\"");
}

static void add_images(struct arena *a, struct page *page) {
    static const unsigned char bytes[] = {0x00, 0xFF, 0x7F, 0x80, 0x09, 0xA0};
    static const struct picture pictures[] = {
        {PICTURE_FLATE, 640, 480, 3, 1, bytes, sizeof bytes},
        {PICTURE_JPEG, 1, 65500, 1, 8, bytes, 1},
        {PICTURE_PNG, 2, 1, 1, 1, bytes, 3},
    };
    for (size_t i = 0; i < 3; i++) {
        struct op *op = display_op(a, page, OP_IMAGE);
        op->x = 72.1;
        op->y = 100;
        op->width = 200.0 / 3;
        op->height = 50;
        op->picture = &pictures[i];
        if (i == 0)
            op->text = text_of("The \"bracket\"");
    }
}

static struct pages *sample(struct arena *a) {
    struct pages *p = arena_alloc(a, 1, sizeof *p);
    p->title = text_of("Fit \"relays\" \\ 4.7 kΩ\nnow\x01");
    p->subject = text_of("");
    memcpy(p->code, "ABCD2345", 9);
    struct outline *o = arena_alloc(a, 2, sizeof *o);
    o[0] = (struct outline){text_of("Purpose"), 1, 0, 72.25};
    o[1] = (struct outline){text_of("Test"), 2, 1, 1.0 / 7};
    p->outline = o;
    p->outline_count = 2;
    struct page *page = display_page(a, p, 612, 792);
    add_text(a, page, "abcd");
    add_shapes(a, page);
    page = display_page(a, p, 595.276, 841.89);
    add_links(a, page);
    add_images(a, page);
    add_text(a, page, "ffi \xE2\x9C\x93")->text.len = 4;
    return p;
}

static struct text written(struct arena *a, const struct pages *p, bool full) {
    char *bytes = NULL;
    size_t len = 0;
    FILE *out = open_memstream(&bytes, &len);
    assert_non_null(out);
    display_write(p, full, out);
    fclose(out);
    struct text t = {arena_copy(a, bytes, len), len};
    free(bytes);
    return t;
}

static void assert_same_text(struct text a, struct text b) {
    assert_true(text_equal(a, b));
    assert_int_equal(a.start == NULL, b.start == NULL);
}

static void assert_same_number(double a, double b) {
    assert_memory_equal(&a, &b, sizeof a);
}

static void assert_same_glyphs(const struct op *a, const struct op *b) {
    assert_int_equal(a->glyph_count, b->glyph_count);
    for (size_t i = 0; i < a->glyph_count; i++) {
        assert_int_equal(a->glyphs[i].id, b->glyphs[i].id);
        assert_int_equal(a->glyphs[i].start, b->glyphs[i].start);
        assert_int_equal(a->glyphs[i].len, b->glyphs[i].len);
        assert_true(a->glyphs[i].advance == b->glyphs[i].advance);
        assert_true(a->glyphs[i].x == b->glyphs[i].x);
        assert_true(a->glyphs[i].y == b->glyphs[i].y);
    }
}

static void assert_same_path(const struct op *a, const struct op *b) {
    assert_int_equal(a->path_count, b->path_count);
    for (size_t i = 0; i < a->path_count; i++) {
        const struct path_point *p = &a->path[i], *q = &b->path[i];
        assert_int_equal(p->verb, q->verb);
        assert_same_number(p->x1, q->x1);
        assert_same_number(p->y1, q->y1);
        assert_same_number(p->x2, q->x2);
        assert_same_number(p->y2, q->y2);
        assert_same_number(p->x, q->x);
        assert_same_number(p->y, q->y);
    }
}

static void assert_same_picture(const struct picture *a,
                                const struct picture *b) {
    assert_int_equal(a->coding, b->coding);
    assert_int_equal(a->width, b->width);
    assert_int_equal(a->height, b->height);
    assert_int_equal(a->channels, b->channels);
    assert_int_equal(a->turn, b->turn);
    assert_int_equal(a->len, b->len);
    assert_memory_equal(a->bytes, b->bytes, a->len);
}

static void assert_same_line(const struct op *a, const struct op *b) {
    assert_same_number(a->line_width, b->line_width);
    assert_same_number(a->dash_on, b->dash_on);
    assert_same_number(a->dash_off, b->dash_off);
}

static void assert_same_box(const struct op *a, const struct op *b) {
    assert_same_number(a->width, b->width);
    assert_same_number(a->height, b->height);
}

static void assert_same_op(const struct op *a, const struct op *b) {
    assert_int_equal(a->kind, b->kind);
    assert_same_number(a->x, b->x);
    assert_same_number(a->y, b->y);
    assert_memory_equal(&a->colour, &b->colour, sizeof a->colour);
    assert_int_equal(a->fill, b->fill);
    assert_int_equal(a->face, b->face);
    switch (a->kind) {
    case OP_TEXT:
        assert_same_number(a->size, b->size);
        assert_same_text(a->text, b->text);
        assert_same_glyphs(a, b);
        break;
    case OP_RECT:
        assert_same_box(a, b);
        assert_same_line(a, b);
        break;
    case OP_LINE:
        assert_same_number(a->x2, b->x2);
        assert_same_number(a->y2, b->y2);
        assert_same_line(a, b);
        break;
    case OP_PATH:
        assert_same_path(a, b);
        assert_same_line(a, b);
        break;
    case OP_LINK:
        assert_same_box(a, b);
        assert_int_equal(a->page, b->page);
        assert_same_number(a->target_y, b->target_y);
        assert_same_text(a->uri, b->uri);
        break;
    case OP_IMAGE:
        assert_same_box(a, b);
        assert_same_text(a->text, b->text);
        assert_same_picture(a->picture, b->picture);
        break;
    }
}

static void test_full_form_comes_back_bit_for_bit(void **state) {
    struct arena *a = *state;
    const struct pages *p = sample(a);
    size_t line = 0;
    struct text dump = written(a, p, true);
    const struct pages *q = display_read(a, dump, &line);
    assert_non_null(q);
    assert_int_equal(line, 0);
    assert_same_text(p->title, q->title);
    assert_same_text(p->author, q->author);
    assert_same_text(p->subject, q->subject);
    assert_string_equal(p->code, q->code);
    assert_int_equal(p->outline_count, q->outline_count);
    for (size_t i = 0; i < p->outline_count; i++) {
        assert_same_text(p->outline[i].title, q->outline[i].title);
        assert_int_equal(p->outline[i].level, q->outline[i].level);
        assert_int_equal(p->outline[i].page, q->outline[i].page);
        assert_same_number(p->outline[i].y, q->outline[i].y);
    }
    assert_int_equal(p->count, q->count);
    for (size_t i = 0; i < p->count; i++) {
        assert_same_number(p->page[i].width, q->page[i].width);
        assert_same_number(p->page[i].height, q->page[i].height);
        assert_int_equal(p->page[i].op_count, q->page[i].op_count);
        for (size_t k = 0; k < p->page[i].op_count; k++)
            assert_same_op(&p->page[i].ops[k], &q->page[i].ops[k]);
    }
    assert_true(text_equal(dump, written(a, q, true)));
}

static void test_random_numbers_come_back(void **state) {
    struct arena *a = *state;
    struct pages *p = arena_alloc(a, 1, sizeof *p);
    struct page *page = display_page(a, p, 612, 792);
    uint64_t seed = 42;
    for (int i = 0; i < 20000; i++) {
        struct op *op = display_op(a, page, OP_LINE);
        double *numbers[] = {&op->x, &op->y, &op->x2, &op->y2};
        for (int k = 0; k < 4; k++) {
            do {
                seed = seed * 6364136223846793005u + 1442695040888963407u;
                uint64_t bits = seed ^ seed >> 29;
                memcpy(numbers[k], &bits, sizeof bits);
            } while (!isfinite(*numbers[k]));
        }
    }
    size_t line;
    const struct pages *q = display_read(a, written(a, p, true), &line);
    assert_non_null(q);
    for (size_t i = 0; i < page->op_count; i++)
        assert_same_op(&page->ops[i], &q->page[0].ops[i]);
}

static void test_brief_form_reads_well(void **state) {
    static const char *const wanted =
        "bayleaf pages 1 brief 2\n"
        "title \"Fit \\\"relays\\\" \\\\ 4.7 kΩ\\x0Anow\\x01\"\n"
        "author -\n"
        "subject \"\"\n"
        "code \"ABCD2345\"\n"
        "outline 1 page 1 y 72.25 \"Purpose\"\n"
        "outline 2 page 2 y 0.14 \"Test\"\n"
        "page 612 792\n"
        "text 72.1 233.33 oblique 10.5 \"abcd\" colour 0.1 0.333 1\n"
        "rect 0 0 0.3 5 fill\n"
        "rect 0 0 10 10 stroke width 0.75 dash 0.5 1.75\n"
        "line 1 2.25 3 123456.79 width 0.5\n"
        "path fill colour 0 0.25 0 points M 1 2 L 3.5 4 C 1 2 3 4 5 3.14 Z\n"
        "page 595.28 841.89\n"
        "link 10 10 100 12 page 2 y 99.5\n"
        "link 0 0 0 0 uri \"https://example.org/a b?\\\"c\\\"\"\n"
        "image 72.1 100 66.67 50 pixels 640 480 colour flate turn 1 "
        "\"The \\\"bracket\\\"\"\n"
        "image 72.1 100 66.67 50 pixels 1 65500 grey jpeg turn 8 -\n"
        "image 72.1 100 66.67 50 pixels 2 1 grey png turn 1 -\n"
        "text 72.1 233.33 oblique 10.5 \"ffi \" colour 0.1 0.333 1\n"
        "end\n";
    struct text dump = written(*state, sample(*state), false);
    assert_string_equal(dump.start, wanted);
    size_t line;
    assert_null(display_read(*state, dump, &line));
    assert_int_equal(line, 1);
}

static void test_every_cut_is_refused(void **state) {
    struct text dump = written(*state, sample(*state), true);
    for (size_t len = 0; len < dump.len; len++) {
        size_t line = 0, lines = 1;
        struct arena *a = arena_new();
        char *cut = arena_copy(a, dump.start, len);
        for (size_t i = 0; i < len; i++)
            lines += cut[i] == '\n';
        assert_null(display_read(a, (struct text){cut, len}, &line));
        assert_int_equal(line, lines);
        arena_free(a);
    }
}

/* Each of these replaces the whole line of that number in a good dump. */
static void test_damaged_lines_are_named(void **state) {
    (void)state;
    static const struct {
        size_t line;
        const char *text;
    } damage[] = {
        {1, "bayleaf pages 2 full 1"},
        {1, "bayleaf pages 1 brief 1"},
        {1, "bayleaf pages 1 full 99999999999999999999"},
        {1, "bayleaf pages 1 full 1 "},
        {2, "title"},
        {2, "title x"},
        {2, "title \"x"},
        {2, "title \"x\\"},
        {2, "title \"x\\x0\""},
        {2, "title \"x\\x0g\""},
        {2, "title \"x\\n\""},
        {2, "title \"x\" y"},
        {3, "authors -"},
        {5, "code \"123456789\""},
        {6, "outline 0 page 1 y 1 \"a\""},
        {6, "outline 1 page 0 y 1 \"a\""},
        {6, "outline 1 page 2 y 1 \"a\""},
        {6, "outline -1 page 1 y 1 \"a\""},
        {6, "outline 1 page 1 y 1"},
        {6, "line 1 2 3 4"},
        {7, "page 612"},
        {7, "page 612 nan"},
        {7, "page 612 inf"},
        {7, "page 612 1e999"},
        {7, "page 612 0x10"},
        {7, "page 612 1.2.3"},
        {7, "page 612 -"},
        {7, "page 612  792"},
        {7, "page 612 792 1"},
        {8, ""},
        {8, "oval 1 2 3 4"},
        {8, "outline 1 page 1 y 1 \"a\""},
        {8, "line 1 2 3"},
        {8, "line 1 2 3 4 width"},
        {8, "line 1 2 3 4 colour 1 1"},
        {8, "line 1 2 3 4 colour 1 1 1e60"},
        {8, "rect 1 2 3 4"},
        {8, "rect 1 2 3 4 full"},
        {8, "link 1 2 3 4"},
        {8, "link 1 2 3 4 page 2 y 1"},
        {8, "link 1 2 3 4 page 1"},
        {8, "path fill"},
        {8, "path fill points M 1"},
        {8, "path fill points Q 1 2"},
        {8, "path fill points M 1 2 ZZ"},
        {8, "text 1 2 italic 10 \"ab\" glyphs"},
        {8, "text 1 2 bold 10 \"ab\""},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 65536:0+1@1"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:3+0@1"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:1+2@1"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:0+4294967297@1"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:0+1@1,2"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:0+1@1,2,3,4"},
        {8, "text 1 2 bold 10 \"ab\" glyphs 1:0+1@nan"},
        {8, "text 1 2 bold 10 \"ab\" glyphs  1:0+1@1"},
        {8, "text 1 2 bold 10 - glyphs 1:0+1@1"},
        {8, "image 1 2 3 4"},
        {8, "image 1 2 3 4 pixels 5 6 gray flate turn 1 - data 00"},
        {8, "image 1 2 3 4 pixels 5 6 grey deflate turn 1 - data 00"},
        {8, "image 1 2 3 4 pixels 0 6 grey flate turn 1 - data 00"},
        {8, "image 1 2 3 4 pixels 5 0 grey flate turn 1 - data 00"},
        {8, "image 1 2 3 4 pixels 5 65501 grey flate turn 1 - data 00"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 0 - data 00"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 9 - data 00"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 1 data 00"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 1 - data"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 1 - data 0"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 1 - data 0g"},
        {8, "image 1 2 3 4 pixels 5 6 grey flate turn 1 - data 00 11"},
        {9, "page 1 1"}, /* one more than line 1 says; noticed at the end */
        {10, "end"},
    };
    static const char *const good[] = {
        "bayleaf pages 1 full 1",
        "title \"a\"",
        "author -",
        "subject -",
        "code \"AB\"",
        "outline 1 page 1 y 1 \"a\"",
        "page 612 792",
        "text 1 2 bold 10 \"ab\" glyphs 1:0+1@1 2:1+1@1,2,3",
        "end",
    };
    enum { GOOD = sizeof good / sizeof *good };
    for (size_t i = 0; i <= sizeof damage / sizeof *damage; i++) {
        struct arena *a = arena_new();
        struct buf dump = buf_in(a);
        size_t line = 0;
        bool damaged = i < sizeof damage / sizeof *damage;
        for (size_t k = 0; k < GOOD; k++) {
            bool here = damaged && damage[i].line == k + 1;
            buf_printf(&dump, "%s\n", here ? damage[i].text : good[k]);
        }
        if (damaged && damage[i].line > GOOD)
            buf_printf(&dump, "%s\n", damage[i].text);
        struct pages *p = display_read(a, buf_as_text(&dump), &line);
        if (damaged) {
            assert_null(p);
            size_t named = damage[i].line;
            /* Behind the last page or the end, the next line is at fault. */
            if (strcmp(damage[i].text, "page 1 1") == 0)
                named = 10;
            if (strcmp(damage[i].text, "end") == 0)
                named = 9;
            assert_int_equal(line, named);
        } else {
            assert_non_null(p);
        }
        arena_free(a);
    }
}

/* No crash, whatever a byte is changed to: the sanitizers look on. */
static void test_changed_bytes_do_no_harm(void **state) {
    struct text dump = written(*state, sample(*state), true);
    static const char bytes[] = {'\0', ' ', '\n', '"', '\\', '9',
                                 'e',  ':', '-',  'x', ',',  '\xFF'};
    size_t refused = 0;
    for (size_t at = 0; at < dump.len; at++) {
        struct arena *a = arena_new();
        size_t line = 0;
        char *bad = arena_copy(a, dump.start, dump.len);
        for (size_t k = 0; k < sizeof bytes; k++) {
            bad[at] = bytes[k];
            refused +=
                display_read(a, (struct text){bad, dump.len}, &line) == NULL;
        }
        arena_free(a);
    }
    assert_true(refused > dump.len * sizeof bytes / 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_full_form_comes_back_bit_for_bit),
        cmocka_unit_test(test_random_numbers_come_back),
        cmocka_unit_test(test_brief_form_reads_well),
        cmocka_unit_test(test_every_cut_is_refused),
        cmocka_unit_test(test_damaged_lines_are_named),
        cmocka_unit_test(test_changed_bytes_do_no_harm),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
