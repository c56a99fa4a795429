/* test_shape.c - shaping: the faces, kerning, ligatures, clusters, the cache.
 */
#include "base/arena.h"
#include "layout/face.h"
#include "layout/shape.h"

#include <hb-ot.h>
#include <hb.h>
#include <math.h>
#include <setjmp.h>
#include <sha256.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static int open_shaper(void **state) {
    struct arena *a = arena_new();
    struct shaper *s = shape_new(a, NULL);
    void **both = arena_alloc(a, 2, sizeof *both);
    both[0] = s;
    both[1] = a;
    *state = both;
    return 0;
}

static int close_shaper(void **state) {
    void **both = *state;
    struct arena *a = both[1];
    shape_free(both[0]);
    arena_free(a);
    return 0;
}

static struct shaper *shaper_of(void **state) {
    return ((void **)*state)[0];
}

/* The files of Debian 12, fonts-inter 4.0~beta7+ds-1, fonts-dejavu-core and
 * fonts-dejavu-extra 2.37-6: other faces would print other bytes. */
static void test_faces_are_the_pinned_files(void **state) {
    static const char *const sums[FACE_COUNT] = {
        "a7e791e8f5a0fb02b65663f7fca73e1d1ca9543f772ad480cbd76f4e3fe3f8cc",
        "1e9dfd6a6e33ac63a8fe3b4ed7ae0df9eac2d0b25e444e8e7daef4ac77943fc1",
        "45ecfe6cbadfd4803de6214e02c336a95163a7703973bc8a5ce7ac2d174ecaf7",
        "0f5db4f1749979d961019838b160bec74abdf7f9eca69553fe1aa856bbff49a4",
        "2d8aa290adcf1ebcbb35f63e57cf32941b012eaab4b65096b904112cf3bac972",
    };
    (void)state;
    for (int f = 0; f < FACE_COUNT; f++) {
        size_t len;
        const unsigned char *bytes = shape_face_bytes((enum face)f, &len);
        char sum[SHA256_DIGEST_STRING_LENGTH];
        SHA256Data(bytes, len, sum);
        assert_string_equal(sum, sums[f]);
    }
}

static int table_number(hb_face_t *face, hb_tag_t tag, unsigned offset) {
    hb_blob_t *blob = hb_face_reference_table(face, tag);
    unsigned len;
    const unsigned char *bytes =
        (const unsigned char *)hb_blob_get_data(blob, &len);
    assert_true(offset + 2 <= len);
    int value = bytes[offset] << 8 | bytes[offset + 1];
    hb_blob_destroy(blob);
    return value >= 0x8000 ? value - 0x10000 : value;
}

static int glyph_box(hb_font_t *font, uint32_t code, bool top) {
    hb_codepoint_t glyph;
    hb_glyph_extents_t box;
    assert_true(hb_font_get_nominal_glyph(font, code, &glyph));
    assert_true(hb_font_get_glyph_extents(font, glyph, &box));
    return top ? box.y_bearing : box.width;
}

/* Offsets: OpenType specification, tables head, hhea and post. */
static void test_form_agrees_with_the_tables(void **state) {
    const hb_tag_t head = HB_TAG('h', 'e', 'a', 'd');
    const hb_tag_t hhea = HB_TAG('h', 'h', 'e', 'a');
    const hb_tag_t post = HB_TAG('p', 'o', 's', 't');
    (void)state;
    for (int f = 0; f < FACE_COUNT; f++) {
        const struct face_form *form = face_form((enum face)f);
        hb_blob_t *blob = hb_blob_create((const char *)form->start,
                                         (unsigned)(form->end - form->start),
                                         HB_MEMORY_MODE_READONLY, NULL, NULL);
        hb_face_t *face = hb_face_create(blob, 0);
        hb_font_t *font = hb_font_create(face);
        char name[64];
        unsigned size = sizeof name;
        hb_ot_name_get_utf8(face, 6, hb_language_from_string("en", 2), &size,
                            name);
        assert_string_equal(form->name, name);
        assert_int_equal(hb_face_get_upem(face), form->em);
        assert_int_equal(form->glyph_count, hb_face_get_glyph_count(face));
        assert_int_equal(form->left, table_number(face, head, 36));
        assert_int_equal(form->bottom, table_number(face, head, 38));
        assert_int_equal(form->right, table_number(face, head, 40));
        assert_int_equal(form->top, table_number(face, head, 42));
        assert_int_equal(form->ascent, table_number(face, hhea, 4));
        assert_int_equal(form->descent, table_number(face, hhea, 6));
        assert_int_equal((int)floor(form->italic_angle),
                         table_number(face, post, 4));
        hb_blob_t *cff =
            hb_face_reference_table(face, HB_TAG('C', 'F', 'F', ' '));
        assert_int_equal(form->cubic, hb_blob_get_length(cff) > 0);
        hb_blob_destroy(cff);
        assert_int_equal(form->fixed_pitch, table_number(face, post, 14) != 0);
        assert_int_equal(form->cap_height, glyph_box(font, 'H', true));
        if (f != FACE_OBLIQUE && f != FACE_MONO)
            assert_int_equal(form->stem, glyph_box(font, 'I', false));
        hb_font_destroy(font);
        hb_face_destroy(face);
        hb_blob_destroy(blob);
        assert_true(shape_ascent((enum face)f) > 0.9);
        assert_true(shape_descent((enum face)f) > 0.2);
        assert_true(shape_cap_height((enum face)f) > 0.7);
    }
}

static const struct run *word(void **state, enum face face, const char *s) {
    return shape_word(shaper_of(state), face, text_of(s));
}

static double advance(void **state, enum face face, const char *s) {
    return word(state, face, s)->advance;
}

static void test_letters_are_kerned(void **state) {
    double apart =
        advance(state, FACE_REGULAR, "A") + advance(state, FACE_REGULAR, "V");
    double together = advance(state, FACE_REGULAR, "AV");
    assert_true(together < apart - 0.03);
}

/* The four of the bold face is narrower than its other digits by 1/560 em, less
 * than 0.03 pt in a step; nothing else differs. */
static void assert_same_width(double a, double b) {
    assert_true(fabs(a - b) < 0.0037);
}

static void test_digits_are_never_kerned(void **state) {
    static const char *const beside[] = {".", ",", "-", "−", "+", "±", "T", "V",
                                         "/", "°", "½", "A", "f", "y", " "};
    for (int f = 0; f < FACE_COUNT; f++) {
        double digit = advance(state, (enum face)f, "0");
        for (char a = '0'; a <= '9'; a++) {
            for (char b = '0'; b <= '9'; b++) {
                const struct run *pair =
                    word(state, (enum face)f, (char[]){a, b, '\0'});
                assert_int_equal(pair->glyph_count, 2);
                assert_same_width(pair->advance, 2 * digit);
            }
            for (size_t k = 0; k < sizeof beside / sizeof *beside; k++) {
                char text[16];
                double one = advance(state, (enum face)f, beside[k]);
                snprintf(text, sizeof text, "%c%s", a, beside[k]);
                assert_same_width(advance(state, (enum face)f, text),
                                  digit + one);
                snprintf(text, sizeof text, "%s%c", beside[k], a);
                assert_same_width(advance(state, (enum face)f, text),
                                  digit + one);
            }
        }
    }
}

/* Each byte of the text belongs to exactly one glyph, in order. */
static void assert_covered(const struct run *run) {
    size_t at = 0;
    for (size_t i = 0; i < run->glyph_count; i++) {
        const struct glyph *g = &run->glyphs[i];
        if (g->len == 0)
            continue;
        assert_int_equal(g->start, at);
        at += g->len;
    }
    assert_int_equal(at, run->text.len);
}

static void test_clusters_cover_the_text(void **state) {
    static const char *const texts[] = {
        "office",
        "offset",
        "final",
        "W1a2.5mm²",
        "Ω°µ×·≤≥½",
        "–—‘’“”→✓☐⚠−",
        "šÄöü",
        "e\xCC\x81x",
        "1\xCC\x84",
        "12\xCC\x84"
        "3",
        "q\xCC\x81\xCC\xA3",
        "\xFF\xFE"
        "ab\xE2\x82",
        "",
        "café 10 AWG, 4.7 kΩ",
    };
    for (int f = 0; f < FACE_COUNT; f++) {
        for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
            assert_covered(word(state, (enum face)f, texts[i]));
            assert_covered(
                shape_text(shaper_of(state), (enum face)f, text_of(texts[i])));
        }
    }
}

static void test_ligature_is_one_glyph(void **state) {
    const struct run *run = word(state, FACE_SYMBOL, "office");
    assert_int_equal(run->glyph_count, 4);
    assert_int_equal(run->glyphs[1].start, 1);
    assert_int_equal(run->glyphs[1].len, 3);
    assert_int_equal(word(state, FACE_MONO, "office")->glyph_count, 6);
}

/* I, l, 1 and O, 0 have forms that cannot be taken for each other, and an arrow
 * is printed only where one was written. */
static void test_letters_are_told_apart(void **state) {
    struct shaper *s = shaper_of(state);
    for (int f = FACE_REGULAR; f <= FACE_OBLIQUE; f++) {
        enum face face = (enum face)f;
        const struct run *plain = word(state, face, "Il0");
        hb_blob_t *blob;
        size_t len;
        const unsigned char *bytes = shape_face_bytes(face, &len);
        blob = hb_blob_create((const char *)bytes, (unsigned)len,
                              HB_MEMORY_MODE_READONLY, NULL, NULL);
        hb_face_t *whole = hb_face_create(blob, 0);
        hb_font_t *font = hb_font_create(whole);
        for (size_t i = 0; i < 3; i++) {
            hb_codepoint_t usual;
            assert_true(
                hb_font_get_nominal_glyph(font, (uint32_t) "Il0"[i], &usual));
            assert_int_not_equal(plain->glyphs[i].id, usual);
        }
        hb_font_destroy(font);
        hb_face_destroy(whole);
        hb_blob_destroy(blob);
        assert_int_equal(shape_word(s, face, text_of("->"))->glyph_count, 2);
        assert_int_not_equal(word(state, face, "->")->glyphs[1].id,
                             word(state, face, "→")->glyphs[0].id);
    }
}

static void test_accents_become_one_letter(void **state) {
    const struct run *apart = word(state, FACE_BOLD, "s\xCC\x8C");
    const struct run *whole = word(state, FACE_BOLD, "š");
    assert_int_equal(apart->glyph_count, 1);
    assert_int_equal(apart->glyphs[0].id, whole->glyphs[0].id);
}

static void test_mark_sits_on_its_letter(void **state) {
    const struct run *run = word(state, FACE_SYMBOL, "q\xCC\x81");
    assert_int_equal(run->glyph_count, 2);
    assert_true(run->glyphs[1].advance == 0);
    assert_true(run->glyphs[1].x != 0 || run->glyphs[1].y != 0);
    assert_int_equal(run->glyphs[1].len, 2);
}

/* The face of code has places on some small letters only; anywhere else a mark
 * would stand behind. A second one stands over the first. */
static void test_mark_sits_on_any_letter_of_code(void **state) {
    const struct run *small = word(state, FACE_MONO, "x\xCC\x82");
    const struct run *digit = word(state, FACE_MONO, "5\xCC\x82");
    assert_int_equal(digit->glyph_count, 2);
    assert_int_equal(digit->glyphs[1].id, small->glyphs[1].id);
    assert_true(digit->advance == small->advance);
    assert_true(digit->glyphs[1].x == small->glyphs[1].x);
    assert_true(small->glyphs[1].y == 0);
    /* From the height of a small letter to that of a digit: 0.55 to 0.73. */
    assert_true(digit->glyphs[1].y > 0.05 && digit->glyphs[1].y < 0.25);
    const struct run *twice = word(state, FACE_MONO, "5\xCC\x82\xCC\x82");
    assert_int_equal(twice->glyph_count, 3);
    assert_true(twice->glyphs[2].x == digit->glyphs[1].x);
    assert_true(twice->glyphs[2].y > digit->glyphs[1].y + 0.1f);
    const struct run *below = word(state, FACE_MONO, "5\xCC\xA3");
    assert_true(below->glyphs[1].x < 0 && below->glyphs[1].y <= 0);
}

static void test_missing_is_named(void **state) {
    struct shaper *s = shaper_of(state);
    const char *symbols = "Ω°µ×·≤≥½–—‘’“”→✓⚠−④ office\xC2\xA0";
    for (int f = FACE_REGULAR; f <= FACE_OBLIQUE; f++)
        assert_int_equal(shape_missing(s, (enum face)f, text_of(symbols)), 0);
    assert_int_equal(shape_missing(s, FACE_SYMBOL, text_of("☐☑⑩")), 0);
    assert_int_equal(shape_missing(s, FACE_REGULAR, text_of("a☐")), 0x2610);
    assert_int_equal(shape_missing(s, FACE_MONO, text_of("a④")), 0x2463);
    assert_int_equal(shape_missing(s, FACE_REGULAR, text_of("a中")), 0x4E2D);
    assert_int_equal(shape_missing(s, FACE_REGULAR, text_of("a\tb")), '\t');
    assert_int_equal(word(state, FACE_REGULAR, "中")->glyphs[0].id, 0);
    /* Hebrew is in the face, but would come out in the wrong order. */
    assert_int_equal(shape_missing(s, FACE_REGULAR, text_of("aא")), 0x5D0);
    assert_int_equal(word(state, FACE_REGULAR, "aא")->glyphs[1].id, 0);
    for (int f = 0; f < FACE_COUNT; f++) {
        for (char c = ' '; c <= '~'; c++)
            assert_int_equal(
                shape_missing(s, (enum face)f, (struct text){&c, 1}), 0);
    }
}

static void test_words_are_kept(void **state) {
    struct shaper *s = shaper_of(state);
    char text[] = "relay";
    const struct run *first = shape_word(s, FACE_BOLD, text_of(text));
    const struct run *other = shape_word(s, FACE_REGULAR, text_of(text));
    assert_ptr_not_equal(first, other);
    text[0] = 'd';
    assert_ptr_equal(first, word(state, FACE_BOLD, "relay"));
    for (int i = 0; i < 5000; i++) {
        char many[16];
        snprintf(many, sizeof many, "w%d", i);
        assert_int_equal(word(state, FACE_REGULAR, many)->text.len,
                         strlen(many));
    }
    assert_ptr_equal(first, word(state, FACE_BOLD, "relay"));
    assert_ptr_equal(other, word(state, FACE_REGULAR, "relay"));
}

static void test_line_is_the_sum_of_its_words(void **state) {
    const char *line = "Run 8 AWG  red from F1 to K1-30, 2.6 m. ";
    struct shaper *s = shaper_of(state);
    const struct run *run = shape_text(s, FACE_REGULAR, text_of(line));
    double sum = 0;
    for (size_t i = 0; i < run->glyph_count; i++)
        sum += (double)run->glyphs[i].advance;
    assert_true(fabs(sum - run->advance) < 1e-5);
    assert_true(fabs(shape_width(s, FACE_REGULAR, 12, text_of(line)) -
                     12 * run->advance) < 1e-9);
    assert_string_equal(run->text.start, line);
    shape_free(s);
    const struct run *again = shape_text(s, FACE_REGULAR, text_of("Another"));
    assert_true(again->glyph_count > 0);
}

static void test_long_word_takes_time_in_proportion(void **state) {
    enum { LEN = 1 << 20 };
    struct arena *a = ((void **)*state)[1];
    char *text = arena_alloc(a, LEN + 1, 1);
    for (size_t i = 0; i < LEN; i++)
        text[i] = i % 2 == 0 ? 'a' : '1';
    const struct run *run = word(state, FACE_REGULAR, text);
    assert_int_equal(run->glyph_count, LEN);
    assert_covered(run);
}

static void assert_alike(const struct run *a, const struct run *b) {
    assert_true(text_equal(a->text, b->text));
    assert_true(a->advance == b->advance);
    assert_int_equal(a->glyph_count, b->glyph_count);
    assert_memory_equal(a->glyphs, b->glyphs,
                        a->glyph_count * sizeof *a->glyphs);
}

/* One guide after another, each with an arena of its own: the words that come
 * again are those that are there, and stay when the guide that brought them is
 * gone. More words than are kept are shaped all the same. */
static void test_guides_share_what_is_kept(void **state) {
    enum { MANY = 5000, GUIDES = 3 };
    struct shape_kept *kept = shape_kept_new();
    const struct run *first = NULL;
    for (int guide = 0; guide < GUIDES; guide++) {
        struct arena *a = arena_new();
        struct shaper *s = shape_new(a, kept);
        const struct run *washer = shape_word(s, FACE_BOLD, text_of("washer"));
        first = guide == 0 ? washer : first;
        assert_ptr_equal(washer, first);
        assert_alike(washer, word(state, FACE_BOLD, "washer"));
        for (int i = 0; i < MANY; i++) {
            char name[32];
            snprintf(name, sizeof name, "w%c%d", 'a' + guide, i);
            assert_int_equal(
                shape_word(s, FACE_REGULAR, text_of(name))->glyph_count,
                strlen(name));
        }
        const char *line = "A late word, 5.3 m: naïve";
        assert_alike(shape_text(s, FACE_REGULAR, text_of(line)),
                     shape_text(shaper_of(state), FACE_REGULAR, text_of(line)));
        shape_free(s);
        arena_free(a);
    }
    assert_alike(first, word(state, FACE_BOLD, "washer"));
    shape_kept_free(kept);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faces_are_the_pinned_files),
        cmocka_unit_test(test_form_agrees_with_the_tables),
        cmocka_unit_test(test_letters_are_kerned),
        cmocka_unit_test(test_digits_are_never_kerned),
        cmocka_unit_test(test_clusters_cover_the_text),
        cmocka_unit_test(test_ligature_is_one_glyph),
        cmocka_unit_test(test_letters_are_told_apart),
        cmocka_unit_test(test_accents_become_one_letter),
        cmocka_unit_test(test_mark_sits_on_its_letter),
        cmocka_unit_test(test_mark_sits_on_any_letter_of_code),
        cmocka_unit_test(test_missing_is_named),
        cmocka_unit_test(test_words_are_kept),
        cmocka_unit_test(test_guides_share_what_is_kept),
        cmocka_unit_test(test_line_is_the_sum_of_its_words),
        cmocka_unit_test(test_long_word_takes_time_in_proportion),
    };
    return cmocka_run_group_tests(tests, open_shaper, close_shaper);
}
