/* test_usual.c - words put together from pairs are those that HarfBuzz shapes.
 */
#include "layout/usual.h"

#include "base/arena.h"
#include "base/text.h"
#include "layout/face.h"
#include "layout/piece.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { WORDS = 20000, LONGEST = 14 };

struct bench {
    struct arena *arena;
    hb_buffer_t *buffer;
    hb_font_t *font[FACE_COUNT];
};

static int open_bench(void **state) {
    struct arena *a = arena_new();
    struct bench *b = arena_alloc(a, 1, sizeof *b);
    b->arena = a;
    b->buffer = hb_buffer_create();
    for (int f = 0; f < FACE_COUNT; f++)
        b->font[f] = piece_font((enum face)f);
    *state = b;
    return 0;
}

static int close_bench(void **state) {
    struct bench *b = *state;
    hb_buffer_destroy(b->buffer);
    for (int f = 0; f < FACE_COUNT; f++)
        hb_font_destroy(b->font[f]);
    arena_free(b->arena);
    return 0;
}

/* Piece by piece, as the layout does with words that are not usual. */
static void assert_as_shaped(struct bench *b, const struct run *run) {
    int em = face_form(run->face)->em;
    size_t at = 0;
    double advance = 0;
    for (size_t from = 0, to; from < run->text.len; from = to) {
        bool digits;
        to = piece_end(run->text, from, &digits);
        piece_shape(b->buffer, b->font[run->face],
                    text_part(run->text, from, to), digits);
        unsigned count;
        const hb_glyph_info_t *info =
            hb_buffer_get_glyph_infos(b->buffer, &count);
        const hb_glyph_position_t *position =
            hb_buffer_get_glyph_positions(b->buffer, &count);
        long units = 0;
        for (unsigned i = 0; i < count; i++, at++) {
            const struct glyph *g = &run->glyphs[at];
            assert_true(at < run->glyph_count);
            assert_int_equal(g->id, info[i].codepoint);
            assert_int_equal(g->start, from + info[i].cluster);
            assert_int_equal(g->start + g->len,
                             i + 1 < count ? from + info[i + 1].cluster : to);
            assert_true(g->advance ==
                        (float)((double)position[i].x_advance / em));
            assert_true(g->x == 0 && g->y == 0 && position[i].x_offset == 0 &&
                        position[i].y_offset == 0);
            units += position[i].x_advance;
        }
        advance += (double)units / em;
    }
    assert_int_equal(at, run->glyph_count);
    assert_true(advance == run->advance);
}

static void compare(struct bench *b, enum face face, struct text word) {
    struct glyph glyphs[256];
    struct run run = {.face = face, .text = word};
    assert_true(word.len <= 256);
    assert_true(usual_put(&run, glyphs));
    assert_as_shaped(b, &run);
}

static uint32_t next_random(uint32_t *seed) {
    *seed = *seed * 1664525u + 1013904223u;
    return *seed >> 8;
}

static void test_words_of_usual_characters(void **state) {
    struct bench *b = *state;
    uint32_t seed = 20;
    for (int f = 0; f < FACE_COUNT; f++)
        for (int i = 0; i < WORDS; i++) {
            char bytes[4 * LONGEST];
            size_t len = 0, count = 1 + next_random(&seed) % LONGEST;
            while (count-- > 0)
                len += text_encode(
                    usual[f].code[next_random(&seed) % usual[f].count],
                    bytes + len);
            compare(b, (enum face)f, (struct text){bytes, len});
        }
}

static struct text whole_file(struct arena *a, const char *path) {
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    struct buf out = buf_in(a);
    char bytes[4096];
    for (size_t n; (n = fread(bytes, 1, sizeof bytes, f)) > 0;)
        buf_add(&out, bytes, n);
    fclose(f);
    return buf_as_text(&out);
}

/* Words as they are written, and that nearly all of them are usual. */
static void test_words_of_the_handbook(void **state) {
    struct bench *b = *state;
    struct text t = whole_file(b->arena, "docs/language.md");
    for (enum face f = FACE_REGULAR; f <= FACE_OBLIQUE; f++) {
        size_t words = 0, usual_words = 0;
        for (size_t from = 0, to; from < t.len; from = to + 1) {
            to = from;
            while (to < t.len && strchr(" \t\r\n", t.start[to]) == NULL)
                to++;
            struct glyph glyphs[256];
            struct run run = {.face = f, .text = text_part(t, from, to)};
            if (to == from || to - from > 256)
                continue;
            words++;
            if (!usual_put(&run, glyphs))
                continue;
            usual_words++;
            assert_as_shaped(b, &run);
        }
        assert_true(words > 10000 && usual_words * 100 > words * 98);
    }
}

static void test_others_are_left(void **state) {
    static const char *const words[] = {"naïve", "→",         "5→6", "a→", "ﬁ",
                                        "x\xFF", "5\xCC\x81", "Ä",   ""};
    (void)state;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        struct glyph glyphs[16];
        struct run run = {.face = FACE_REGULAR, .text = text_of(words[i])};
        assert_false(usual_put(&run, glyphs));
        assert_int_equal(run.glyph_count, 0);
        assert_true(run.advance == 0);
    }
}

static void test_width_is_that_of_the_face(void **state) {
    struct bench *b = *state;
    for (int f = 0; f < FACE_COUNT; f++) {
        int found = 0;
        for (int g = 0; g < face_form((enum face)f)->glyph_count; g++) {
            int width = usual_width((enum face)f, (uint16_t)g);
            if (width == 0)
                continue;
            found++;
            assert_int_equal(width, hb_font_get_glyph_h_advance(
                                        b->font[f], (hb_codepoint_t)g));
        }
        assert_true(found > 1);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words_of_usual_characters),
        cmocka_unit_test(test_words_of_the_handbook),
        cmocka_unit_test(test_others_are_left),
        cmocka_unit_test(test_width_is_that_of_the_face),
    };
    return cmocka_run_group_tests(tests, open_bench, close_bench);
}
