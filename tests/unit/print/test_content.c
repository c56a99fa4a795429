/* test_content.c - page operators, byte for byte, and what is refused. */
#include "base/arena.h"
#include "image/picture.h"
#include "layout/shape.h"
#include "print/content.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

struct fixture {
    struct arena *arena;
    struct shaper *shaper;
    struct content_into into;
    struct page page;
};

static int open_fixture(void **state) {
    struct arena *a = arena_new();
    struct fixture *f = arena_alloc(a, 1, sizeof *f);
    f->arena = a;
    f->shaper = shape_new(a, NULL);
    f->into.fonts = font_new(a, NULL);
    f->into.images = xobject_new(a);
    f->page.width = 612;
    f->page.height = 792;
    *state = f;
    return 0;
}

static int close_fixture(void **state) {
    struct fixture *f = *state;
    shape_free(f->shaper);
    font_free(f->into.fonts);
    arena_free(f->arena);
    return 0;
}

static struct op *add(struct fixture *f, enum op_kind kind) {
    return display_op(f->arena, &f->page, kind);
}

static struct op *add_text(struct fixture *f, enum face face, double size,
                           double x, double y, const char *text) {
    const struct run *run = shape_text(f->shaper, face, text_of(text));
    struct op *op = add(f, OP_TEXT);
    op->face = face;
    op->size = size;
    op->x = x;
    op->y = y;
    op->text = run->text;
    op->glyphs = run->glyphs;
    op->glyph_count = run->glyph_count;
    return op;
}

static void assert_content(struct fixture *f, const char *wanted, size_t len) {
    struct buf out = buf_in(f->arena);
    struct content_fault fault = content_write(&out, &f->page, 0, &f->into);
    assert_null(fault.words);
    assert_int_equal(out.len, len);
    assert_memory_equal(buf_cstr(&out), wanted, len);
}

#define ASSERT_CONTENT(f, wanted)                                              \
    assert_content((f), (wanted), sizeof(wanted) - 1)

static void test_shapes(void **state) {
    struct fixture *f = *state;
    struct op *op = add(f, OP_RECT);
    op->x = 72;
    op->y = 100;
    op->width = 20;
    op->height = 10.5;
    op->fill = true;
    op->colour = (struct colour){0.5F, 0.5F, 0.5F};
    op = add(f, OP_RECT);
    op->width = op->height = 10;
    op->line_width = 1; /* as the page begins: not written */
    op = add(f, OP_LINE);
    op->x2 = 10;
    op->y = op->y2 = 792;
    op->line_width = 0.75;
    op->dash_on = 3;
    op->dash_off = 1.5;
    op->colour.red = 1;
    op = add(f, OP_LINE);
    op->x2 = 10;
    op->y = op->y2 = 792;
    op->line_width = 0.75;
    op->colour.red = 1;
    ASSERT_CONTENT(f, " .5 g 72 681.5 20 10.5 re f\n"
                      " 0 782 10 10 re S\n"
                      " .75 w [ 3 1.5] 0 d 1 0 0 RG 0 0 m 10 0 l S\n"
                      " [] 0 d 0 0 m 10 0 l S\n");
}

static void test_path(void **state) {
    static const struct path_point points[] = {
        {.verb = PATH_MOVE, .x = 0, .y = 792},
        {.verb = PATH_LINE, .x = 10, .y = 792},
        {PATH_CURVE, 1, 791, 2, 790, 3, 789},
        {.verb = PATH_CLOSE},
    };
    struct fixture *f = *state;
    struct op *op = add(f, OP_PATH);
    op->path = points;
    op->path_count = 4;
    op->fill = true;
    op = add(f, OP_PATH);
    op->path = points;
    op->path_count = 2;
    op->line_width = 2;
    add(f, OP_PATH); /* empty: nothing to draw */
    ASSERT_CONTENT(f, " 0 0 m 10 0 l 1 1 2 2 3 3 c h f\n"
                      " 2 w 0 0 m 10 0 l S\n"
                      "\n");
}

/* Letters end before an image, and a second one of the same samples is the same
 * object. */
static void test_images(void **state) {
    static const unsigned char bytes[] = {1, 2, 3};
    static const struct picture first = {PICTURE_FLATE, 4, 2, 3, 1, bytes, 3},
                                other = {PICTURE_FLATE, 4, 2, 3, 1, bytes, 2},
                                again = {PICTURE_FLATE, 4, 2, 3, 6, bytes, 3};
    const struct picture *const shown[] = {&first, &other, &again};
    struct fixture *f = *state;
    add_text(f, FACE_REGULAR, 12, 72, 92, "A");
    for (size_t i = 0; i < 3; i++) {
        struct op *op = add(f, OP_IMAGE);
        op->x = 10;
        op->y = 92;
        op->width = 40;
        op->height = 20.5;
        op->picture = shown[i];
    }
    ASSERT_CONTENT(f, " /F1 12 Tf BT 72 700 Td[(\0\1)]TJ\n"
                      " ET q 40 0 0 20.5 10 679.5 cm /I1 Do Q\n"
                      " q 40 0 0 20.5 10 679.5 cm /I2 Do Q\n"
                      " q 0 -20.5 40 0 10 700 cm /I1 Do Q\n");
}

/* A 1260 and V 1260 units of 2048, kerned by -131 (see test_shape): -63.96
 * thousandths, written as 64; what is lost is made up for at the next gap. */
static void test_kerned_text(void **state) {
    struct fixture *f = *state;
    add_text(f, FACE_REGULAR, 12, 72, 92, "AVA");
    add_text(f, FACE_REGULAR, 12, 100.25, 92, "VA");
    struct op *op = add_text(f, FACE_BOLD, 12, 72, 104, "A");
    op->colour.blue = 1;
    ASSERT_CONTENT(f, " /F1 12 Tf BT 72 700 Td[(\0\1) 68(\0\2) 63(\0\1)]TJ\n"
                      " 28.25 0 Td[(\0\2) 62(\0\1)]TJ\n"
                      " 0 0 1 rg /F2 12 Tf -28.25 -12 Td[(\0\1)]TJ\n"
                      " ET");
}

/* Where `needle` next stands in the content, which has NULs in it; or NULL. */
static const char *find(const struct buf *out, const char *from,
                        const char *needle) {
    size_t len = strlen(needle);
    const char *end = out->bytes + out->len;
    for (; from + len <= end; from++) {
        if (memcmp(from, needle, len) == 0)
            return from;
    }
    return NULL;
}

static void test_text_does_not_drift(void **state) {
    struct fixture *f = *state;
    struct buf out = buf_in(f->arena);
    for (int i = 0; i < 1000; i++)
        add_text(f, FACE_MONO, 10, 50 + i / 3.0, 100, "x");
    assert_null(content_write(&out, &f->page, 0, &f->into).words);
    double x = 0;
    int moves = 0;
    for (const char *td = find(&out, out.bytes, " Td"); td != NULL;
         td = find(&out, td + 1, " Td"), moves++) {
        const char *number = td;
        for (int blanks = 0; blanks < 2;)
            blanks += *--number == ' ';
        x += strtod(number, NULL);
    }
    assert_int_equal(moves, 1000);
    assert_true(fabs(x - (50 + 999 / 3.0)) < 0.0006);
}

/* Codes 0x0D, 0x28, 0x29, 0x5C have bytes that a string must escape. */
static void test_strings_are_escaped(void **state) {
    struct fixture *f = *state;
    char letter = '!';
    for (int i = 0; i < 94; i++, letter++)
        font_code(f->into.fonts, FACE_MONO, (uint16_t)(3 + i),
                  (struct text){arena_copy(f->arena, &letter, 1), 1});
    static struct glyph glyphs[] = {{.id = 3 + 0x0D - 1},
                                    {.id = 3 + 0x28 - 1},
                                    {.id = 3 + 0x29 - 1},
                                    {.id = 3 + 0x5C - 1},
                                    {.id = 3 + 0x0A - 1}};
    for (uint32_t i = 0; i < 5; i++) {
        glyphs[i].start = i;
        glyphs[i].len = 1;
        glyphs[i].advance = 1233.0F / 2048; /* of every glyph in this face */
    }
    struct op *op = add(f, OP_TEXT);
    op->face = FACE_MONO;
    op->size = 10;
    op->y = 792;
    op->text = text_of("-HI|*"); /* the letters of those codes */
    op->glyphs = glyphs;
    op->glyph_count = 5;
    ASSERT_CONTENT(f, " /F4 10 Tf BT 0 0 Td[("
                      "\0\\r\0\\(\0\\)\0\\\\\0\n"
                      ")]TJ\n ET");
}

static void test_mark_is_raised(void **state) {
    struct fixture *f = *state;
    static const struct glyph glyphs[] = {
        {.id = 68, .start = 0, .len = 1, .advance = 0.5F},
        {.id = 69, .start = 1, .len = 1, .x = -0.25F, .y = 0.125F},
    };
    struct op *op = add(f, OP_TEXT);
    op->size = 8;
    op->y = 792;
    op->text = text_of("ab");
    op->glyphs = glyphs;
    op->glyph_count = 2;
    struct buf out = buf_in(f->arena);
    assert_null(content_write(&out, &f->page, 0, &f->into).words);
    assert_non_null(find(&out, out.bytes, ")]TJ 1 Ts["));
}

/* Equal texts share a code; another text for the same glyph has its own. */
static void test_codes(void **state) {
    struct fixture *f = *state;
    uint16_t a = font_code(f->into.fonts, FACE_BOLD, 36, text_of("A"));
    assert_int_equal(a, 1);
    assert_int_equal(font_code(f->into.fonts, FACE_BOLD, 36, text_of("A")), a);
    assert_int_equal(font_code(f->into.fonts, FACE_BOLD, 36, text_of("Α")), 2);
    assert_int_equal(font_code(f->into.fonts, FACE_BOLD, 36, text_of("A")), a);
    assert_int_equal(font_code(f->into.fonts, FACE_BOLD, 65535, text_of("x")),
                     0);
    assert_true(font_width(f->into.fonts, FACE_BOLD, a) > 500);
}

static void test_codes_are_used_up(void **state) {
    struct fixture *f = *state;
    for (unsigned i = 1; i <= 65535; i++) {
        char *text = arena_printf(f->arena, "%u", i);
        assert_int_equal(font_code(f->into.fonts, FACE_MONO,
                                   (uint16_t)(40 + i % 3000), text_of(text)),
                         i);
    }
    assert_int_equal(font_code(f->into.fonts, FACE_MONO, 37, text_of("more")),
                     0);
}

/* Each of these would be a broken or an unreadable page. */
static void test_bad_ops_are_refused(void **state) {
    static const struct glyph strange[] = {{.id = 65535}},
                              far[] = {{.id = 36, .start = 1, .len = 2}},
                              wide[] = {{.id = 36, .len = 1, .x = 1e30F}},
                              high[] = {{.id = 36, .len = 1, .y = NAN}};
    static const struct path_point adrift[] = {{.verb = PATH_LINE}},
                                   beyond[] = {{.verb = PATH_MOVE, .x = NAN}};
    static const struct picture askew = {.width = 1, .height = 1, .turn = 9};
    const struct op text = {
        .kind = OP_TEXT, .size = 10, .text = text_of("ab"), .glyph_count = 1};
    struct op bad[] = {
        {.kind = OP_RECT, .x = NAN},
        {.kind = OP_RECT, .y = INFINITY},
        {.kind = OP_RECT, .width = -INFINITY},
        {.kind = OP_RECT, .height = 40000},
        {.kind = OP_RECT, .fill = true, .colour = {.red = 1.5F}},
        {.kind = OP_RECT, .fill = true, .colour = {.green = NAN}},
        {.kind = OP_RECT, .colour = {.blue = -0.1F}},
        {.kind = OP_RECT, .line_width = -1},
        {.kind = OP_RECT, .line_width = NAN},
        {.kind = OP_RECT, .dash_on = -1, .dash_off = 2},
        {.kind = OP_RECT, .dash_on = 1, .dash_off = NAN},
        {.kind = OP_LINE, .x = 1e9},
        {.kind = OP_LINE, .x2 = NAN},
        {.kind = OP_LINE, .y2 = NAN},
        {.kind = OP_PATH, .path = adrift, .path_count = 1},
        {.kind = OP_PATH, .path = beyond, .path_count = 1},
        {.kind = OP_IMAGE},
        {.kind = OP_IMAGE, .picture = &askew},
        text,
        text,
        text,
        text,
        text,
        text,
        text,
        text,
        text,
    };
    size_t first = sizeof bad / sizeof *bad - 9;
    for (size_t i = first; i < sizeof bad / sizeof *bad; i++)
        bad[i].glyphs = wide;
    bad[first].glyphs = strange;
    bad[first + 1].glyphs = far;
    bad[first + 2].glyphs = wide;
    bad[first + 3].glyphs = high;
    bad[first + 4].size = 0;
    bad[first + 5].size = NAN;
    bad[first + 6].size = 1e6;
    bad[first + 7].x = NAN;
    bad[first + 8].face = FACE_COUNT;
    struct fixture *f = *state;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct buf out = buf_in(f->arena);
        f->page.op_count = 0;
        add(f, OP_LINK);
        *add(f, bad[i].kind) = bad[i];
        struct content_fault fault = content_write(&out, &f->page, 0, &f->into);
        assert_non_null(fault.words);
        assert_ptr_equal(fault.op, &f->page.ops[1]);
        assert_null(find(&out, buf_cstr(&out), "nan"));
        assert_null(find(&out, buf_cstr(&out), "inf"));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define WITH_FIXTURE(test)                                                     \
    cmocka_unit_test_setup_teardown(test, open_fixture, close_fixture)
        WITH_FIXTURE(test_shapes),
        WITH_FIXTURE(test_path),
        WITH_FIXTURE(test_images),
        WITH_FIXTURE(test_kerned_text),
        WITH_FIXTURE(test_text_does_not_drift),
        WITH_FIXTURE(test_strings_are_escaped),
        WITH_FIXTURE(test_mark_is_raised),
        WITH_FIXTURE(test_codes),
        WITH_FIXTURE(test_codes_are_used_up),
        WITH_FIXTURE(test_bad_ops_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
