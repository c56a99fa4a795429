/* test_print.c - whole PDF files, looked at with other people's readers. */
#define FILE_STEM BUILD "/tests/unit/print/test_print-sample"
#include "unit/print/readers.h"

#include <math.h>

static int open_sheet(void **state) {
    *state = sheet_new();
    return 0;
}

static int close_sheet(void **state) {
    sheet_free(*state);
    return 0;
}

static const char *extracted(struct sheet *s) {
    return run(s, "pdftotext -raw -nopgbrk " FILE_STEM ".pdf -");
}

static void test_all_text_comes_back(void **state) {
    static const char *const lines[] = {
        "Ω ° µ × · ≤ ≥ ½ – — ‘ ’ “ ” → −",
        "office, offset final, fluffy fjord, afflict, shelf, flap",
        "AVATAR To. Wa P, LT \"quoted\" (and) [bracketed] \\ 100 % #10",
        "Šibenik š Ä ö Ü é ñ ç Å ø æ ß ł ž č ő",
        "0.31 V (0.28 V to 0.35 V), 11:47, 1/2 in, 7.5 N·m, −40 °C",
        "Ωhm Ohm \xE2\x84\xA6 and µ \xCE\xBC, A Α А, soft\xE2\x80\x90hyphen",
    };
    struct sheet *s = *state;
    struct page *page = add_page(s);
    struct buf wanted = buf_in(s->arena);
    double y = 72;
    for (int face = 0; face < FACE_COUNT; face++) {
        for (size_t i = 0; i < sizeof lines / sizeof *lines; i++, y += 20) {
            add_text(s, page, (enum face)face, 11, y, lines[i]);
            buf_printf(&wanted, "%s\n", lines[i]);
        }
    }
    add_text(s, page, FACE_SYMBOL, 11, y, "✓ ☐ ⚠ ④ → done");
    add_text(s, page, FACE_BOLD, 11, y + 20, "✓ ⚠ ④ → done");
    buf_puts(&wanted, "✓ ☐ ⚠ ④ → done\n✓ ⚠ ④ → done\n");
    print_sheet(s);
    check_readers(s);
    check_other_readers(s);
    assert_string_equal(extracted(s), wanted.bytes);
    /* "name type encoding emb sub uni object": all three are "yes". */
    const char *fonts = run(s, "pdffonts " FILE_STEM ".pdf | tail -n +3");
    int count = 0;
    for (const char *at = fonts; (at = strstr(at, "yes yes yes")) != NULL; at++)
        count++;
    assert_int_equal(count, FACE_COUNT);
    assert_non_null(strstr(fonts, "CID Type 0C"));
    assert_non_null(strstr(fonts, "CID TrueType"));
}

/* More codes than one byte counts, and each byte that a string must escape. */
static void test_many_letters_come_back(void **state) {
    struct sheet *s = *state;
    struct page *page = add_page(s);
    struct buf wanted = buf_in(s->arena);
    double y = 60;
    for (uint32_t from = 0xA1; from < 0x250; from += 36, y += 20) {
        struct buf line = buf_in(s->arena);
        for (uint32_t code = from; code < from + 36; code++) {
            char utf8[4];
            if (code != 0xAD) /* readers leave a soft hyphen out */
                buf_add(&line, utf8, text_encode(code, utf8));
        }
        add_text(s, page, FACE_REGULAR, 10, y, line.bytes);
        buf_printf(&wanted, "%s\n", line.bytes);
    }
    print_sheet(s);
    check_readers(s);
    assert_string_equal(extracted(s), wanted.bytes);
}

/* A letter and a mark that no letter of the face includes. */
static void test_marks_come_back(void **state) {
    struct sheet *s = *state;
    struct page *page = add_page(s);
    add_text(s, page, FACE_REGULAR, 12, 72, "q\xCC\x87 and e\xCC\x81t\xC3\xA9");
    print_sheet(s);
    check_readers(s);
    /* The accent joins its letter when the text is shaped, so that what comes
     * back is the joined letter's own text. */
    const char *text = extracted(s);
    assert_non_null(strstr(text, "q\xCC\x87 and "));
    assert_non_null(strstr(text, "e\xCC\x81t\xC3\xA9"));
}

/* One that the face places nowhere is drawn back over its letter. */
static void test_marks_drawn_back_come_back(void **state) {
    struct sheet *s = *state;
    struct page *page = add_page(s);
    add_text(s, page, FACE_MONO, 12, 72, "ax\xCC\x82max q\xCC\xA3\xCC\x82.");
    print_sheet(s);
    check_readers(s);
    assert_string_equal(extracted(s), "ax\xCC\x82max q\xCC\xA3\xCC\x82.\n");
}

/* Ink: how much darker than white, in pixels, over the whole page. */
static double ink(struct sheet *s) {
    print_sheet(s);
    check_readers(s);
    run(s, "pdftoppm -r 100 -gray -singlefile " FILE_STEM ".pdf " FILE_STEM);
    FILE *in = fopen(FILE_STEM ".pgm", "rb");
    int width, height, most;
    assert_non_null(in);
    assert_int_equal(fscanf(in, "P5 %d %d %d%*c", &width, &height, &most), 3);
    assert_int_equal(width, 850);
    double sum = 0;
    for (int c = fgetc(in); c != EOF; c = fgetc(in))
        sum += (most - c) / (double)most;
    fclose(in);
    return sum;
}

static double ink_of(enum face face, const char *text) {
    struct sheet *s = sheet_new();
    add_text(s, add_page(s), face, 100, 300, text);
    double sum = ink(s);
    sheet_free(s);
    return sum;
}

/* Letters made of other letters, nested: a subsetter that follows one level
 * only prints a bare s for an s with caron in the bold face. */
static void test_composite_letters_are_whole(void **state) {
    static const char *const pairs[][2] = {
        {"š", "s"}, {"Ä", "A"}, {"ö", "o"}, {"Ü", "U"}, {"é", "e"}, {"ő", "o"},
    };
    (void)state;
    for (int face = 0; face < FACE_COUNT; face++) {
        for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
            double bare = ink_of((enum face)face, pairs[i][1]);
            assert_true(bare > 300);
            assert_true(ink_of((enum face)face, pairs[i][0]) > bare * 1.04);
        }
    }
}

/* Where a reader puts a word is where the display list says it is. */
static void test_words_stand_in_their_place(void **state) {
    struct sheet *s = *state;
    struct page *page = add_page(s);
    const char *line = "AVATAR Wave To. office 11:47 LT-012 VAVAVAVAVAVAVAVAVA";
    struct op *op = add_text(s, page, FACE_REGULAR, 12, 72, line);
    print_sheet(s);
    check_readers(s);
    const char *at = run(s, "pdftotext -bbox " FILE_STEM ".pdf -");
    size_t from = 0;
    int words = 0;
    for (; (at = strstr(at, "<word ")) != NULL; at++, words++) {
        double left, top, right;
        char word[64];
        assert_int_equal(sscanf(at,
                                "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" "
                                "yMax=\"%*f\">%63[^<]",
                                &left, &top, &right, word),
                         4);
        size_t to = from + strlen(word);
        double x = op->x, x2 = 0;
        for (size_t i = 0; i < op->glyph_count; i++) {
            if (op->glyphs[i].start < from)
                x += (double)op->glyphs[i].advance * op->size;
            if (op->glyphs[i].start < to)
                x2 += (double)op->glyphs[i].advance * op->size;
        }
        assert_true(fabs(left - x) < 0.01);
        assert_true(fabs(right - op->x - x2) < 0.01);
        from = to + 1;
    }
    assert_int_equal(words, 7);
}

static void test_links_outline_and_title(void **state) {
    (void)state;
    struct sheet *s = complete_sheet();
    print_sheet(s);
    check_readers(s);
    check_other_readers(s);
    const char *about = run(s, "pdfinfo " FILE_STEM ".pdf");
    assert_non_null(strstr(about, "Fit relays — 4.7 kΩ (draft)\n"));
    assert_non_null(strstr(about, "Quarrel Lane Workshop\n"));
    assert_non_null(strstr(about, "LT-012 \\ 3\n"));
    assert_non_null(strstr(about, "Producer:        Bayleaf "));
    assert_non_null(strstr(about, "Pages:           2\n"));
    assert_null(strstr(about, "Date"));
    const char *urls = run(s, "pdfinfo -url " FILE_STEM ".pdf");
    assert_non_null(strstr(urls, "https://example.org/a%20b(c)?%C3%BC\n"));
    const char *json = run(s, "qpdf --json --json-key=outlines "
                              "--json-key=pagelabels " FILE_STEM ".pdf");
    assert_non_null(strstr(json, "\"title\": \"Purpose\""));
    assert_non_null(strstr(json, "\"title\": \"Prüfen ≤ 5 °C 🔋\""));
    assert_non_null(strstr(json, "\"title\": \"Test (end)\""));
    assert_non_null(strstr(json, "\"destpageposfrom1\": 2"));
    assert_non_null(strstr(json, "\"/S\": \"/D\""));
    const char *plain =
        run(s, "qpdf --qdf --object-streams=disable " FILE_STEM ".pdf -"
               " | tr '\\0' ' '");
    assert_non_null(strstr(plain, "/Lang (en)"));
    assert_non_null(strstr(plain, "%PDF-1.7"));
    assert_non_null(strstr(plain, "/MediaBox ["));
    /* 792 - 300 on the first page, 841.89 - 300 on the second. */
    assert_non_null(strstr(plain, "/XYZ\n    null\n    492\n    null\n"));
    assert_non_null(strstr(plain, "/XYZ\n    null\n    541.89\n    null\n"));
    assert_non_null(strstr(plain, "/Contents (page 2)"));
    assert_non_null(
        strstr(plain, "/Contents (https://example.org/a%20b\\(c\\)?%C3%BC)"));
    sheet_free(s);
}

/* Deep outlines are flattened: libharu walks them by recursion. */
static void test_deep_outline(void **state) {
    struct sheet *s = *state;
    add_page(s);
    s->pages->outline_count = 5000;
    s->pages->outline = arena_alloc(s->arena, 5000, sizeof *s->pages->outline);
    for (int i = 0; i < 5000; i++)
        s->pages->outline[i] = (struct outline){text_of("x"), i + 1, 0, 10};
    print_sheet(s);
    check_readers(s);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define WITH_SHEET(test)                                                       \
    cmocka_unit_test_setup_teardown(test, open_sheet, close_sheet)
        WITH_SHEET(test_all_text_comes_back),
        WITH_SHEET(test_many_letters_come_back),
        WITH_SHEET(test_marks_come_back),
        WITH_SHEET(test_marks_drawn_back_come_back),
        cmocka_unit_test(test_composite_letters_are_whole),
        WITH_SHEET(test_words_stand_in_their_place),
        cmocka_unit_test(test_links_outline_and_title),
        WITH_SHEET(test_deep_outline),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
