/* test_damage.c - images that are refused, and why. */
#include "base/diag.h"
#include "image/image.h"
#include "support/maker.h"

#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static int open_arena(void **state) {
    *state = arena_new();
    return 0;
}

static int close_arena(void **state) {
    arena_free(*state);
    return 0;
}

/* Opens a file, and decodes it where it opens. Its bytes are moved to memory of
 * just their size, so that the sanitizer sees a read beyond them. */
static struct image_report try_bytes(const void *bytes, size_t len) {
    struct arena *a = arena_new();
    unsigned char *copy = malloc(len > 0 ? len : 1);
    assert_non_null(copy);
    if (len > 0)
        memcpy(copy, bytes, len);
    struct image_report r;
    struct image *im = image_open(a, copy, len, &r);
    assert_true((im == NULL) == (r.fault != IMAGE_GOOD));
    if (im != NULL) {
        struct picture *p = image_fit(a, im, 8, 8, &r);
        assert_true((p == NULL) == (r.fault != IMAGE_GOOD));
    }
    assert_true((r.words[0] == '\0') == (r.fault == IMAGE_GOOD));
    free(copy);
    arena_free(a);
    return r;
}

static void expect(struct text file, enum image_fault fault,
                   const char *words) {
    struct image_report r = try_bytes(file.start, file.len);
    if (r.fault != fault || strcmp(r.words, words) != 0)
        fail_msg("fault %d (%s) instead of %d (%s)", (int)r.fault, r.words,
                 (int)fault, words);
}

static struct text changed(struct arena *a, struct text file, size_t at,
                           int byte) {
    char *copy = arena_copy(a, file.start, file.len);
    copy[at] = (char)byte;
    return (struct text){copy, file.len};
}

static struct text some_png(struct arena *a) {
    struct maker_png form = {
        .width = 9, .height = 7, .depth = 8, .colour = MAKER_RGB};
    return maker_png(a, form);
}

static struct text some_jpeg(struct arena *a, int channels) {
    struct maker_jpeg form = {.width = 24, .height = 16, .channels = channels};
    return maker_jpeg(a, form);
}

static void test_neither(void **state) {
    (void)state;
    expect(text_of(""), IMAGE_UNKNOWN, "it is empty");
    expect(text_of("\xFF"), IMAGE_UNKNOWN, "its first bytes are of neither");
    expect(text_of("# A guide\n"), IMAGE_UNKNOWN,
           "its first bytes are of neither");
    expect(text_of("GIF89a"), IMAGE_UNKNOWN, "it looks like GIF");
    expect(text_of("RIFF....WEBPVP8 "), IMAGE_UNKNOWN, "it looks like WebP");
    expect(text_of("<svg/>"), IMAGE_UNKNOWN, "it looks like SVG");
}

static void test_png_cut_short(void **state) {
    struct text file = some_png(*state);
    assert_int_equal(try_bytes(file.start, file.len).fault, IMAGE_GOOD);
    for (size_t len = 0; len < file.len; len++) {
        enum image_fault fault = try_bytes(file.start, len).fault;
        assert_int_equal(fault, len < 4 ? IMAGE_UNKNOWN : IMAGE_DAMAGED);
    }
    expect(text_part(file, 0, file.len - 12), IMAGE_DAMAGED,
           "the file ends too early");
    expect(text_part(file, 0, 60), IMAGE_DAMAGED, "the file ends inside IDAT");
}

/* No byte of a PNG can be changed unseen. */
static void test_png_changed(void **state) {
    struct text file = some_png(*state);
    for (size_t at = 0; at < file.len; at++)
        for (int bit = 1; bit < 256; bit *= 4) {
            struct text bad = changed(*state, file, at, file.start[at] ^ bit);
            assert_int_not_equal(try_bytes(bad.start, bad.len).fault,
                                 IMAGE_GOOD);
        }
    expect(changed(*state, file, file.len - 14, 0), IMAGE_DAMAGED,
           "IDAT has a wrong checksum");
    expect(changed(*state, file, 4, '\n'), IMAGE_DAMAGED,
           "its first bytes were changed, as when a file is sent as text");
}

/* Checksums right, nonsense inside. */
static void test_png_of_nonsense(void **state) {
    struct maker_png form = {
        .width = 9, .height = 7, .depth = 8, .colour = MAKER_RGB};
    struct buf b = buf_in(*state);
    maker_head(&b, &form);
    maker_chunk(&b, "IEND", NULL, 0);
    assert_int_equal(try_bytes(b.bytes, b.len).fault, IMAGE_DAMAGED);
    b.len = 0;
    maker_head(&b, &form);
    maker_chunk(&b, "IDAT", "no deflate data", 15);
    maker_chunk(&b, "IEND", NULL, 0);
    assert_int_equal(try_bytes(b.bytes, b.len).fault, IMAGE_DAMAGED);
    b.len = 0;
    form.depth = 3;
    maker_head(&b, &form);
    maker_chunk(&b, "IEND", NULL, 0);
    assert_int_equal(try_bytes(b.bytes, b.len).fault, IMAGE_DAMAGED);
    b.len = 0;
    buf_add(&b, "\x89PNG\r\n\x1A\n", 8);
    maker_chunk(&b, "IEND", NULL, 0);
    expect(buf_as_text(&b), IMAGE_DAMAGED, "it does not begin with IHDR");
    /* Too few rows. */
    b.len = 0;
    struct text small = some_png(*state);
    form.depth = 8;
    form.height = 70;
    maker_head(&b, &form);
    buf_text(&b, text_part(small, 33, small.len));
    assert_int_equal(try_bytes(b.bytes, b.len).fault, IMAGE_DAMAGED);
}

static struct text png_of_size(struct arena *a, uint32_t width,
                               uint32_t height) {
    struct buf b = buf_in(a);
    struct maker_png form = {.width = width,
                             .height = height,
                             .depth = 8,
                             .colour = MAKER_RGB_ALPHA};
    maker_head(&b, &form);
    maker_chunk(&b, "IDAT", "", 0);
    maker_chunk(&b, "IEND", NULL, 0);
    return buf_as_text(&b);
}

/* Refused before memory is asked for. */
static void test_sizes(void **state) {
    expect(png_of_size(*state, 0, 7), IMAGE_DAMAGED, "it has no pixels");
    expect(png_of_size(*state, 7, 0), IMAGE_DAMAGED, "it has no pixels");
    expect(png_of_size(*state, 65500, 65500), IMAGE_LARGE,
           "65500 by 65500 pixels; at most 40 million");
    expect(png_of_size(*state, 6326, 6324), IMAGE_LARGE,
           "6326 by 6324 pixels; at most 40 million");
    expect(png_of_size(*state, 0xFFFFFFFF, 0xFFFFFFFF), IMAGE_LARGE,
           "4294967295 by 4294967295 pixels; at most 65500 a side");
    struct text jpeg = some_jpeg(*state, 1);
    size_t frame = 0; /* SOF0: marker, length, precision, height, width */
    while (memcmp(jpeg.start + frame, "\xFF\xC0", 2) != 0)
        frame++;
    struct text high = changed(*state, jpeg, frame + 5, 0xFF);
    expect(changed(*state, changed(*state, high, frame + 6, 0xFF), frame + 7,
                   0xFF),
           IMAGE_LARGE, "Maximum supported image dimension is 65500 pixels");
    expect(changed(*state, changed(*state, high, frame + 7, 0xF0), frame + 5,
                   0xF0),
           IMAGE_LARGE, "61464 by 61456 pixels; at most 40 million");
    struct text flat = changed(*state, jpeg, frame + 6, 0);
    assert_int_equal(try_bytes(flat.start, flat.len).fault, IMAGE_DAMAGED);
    expect(changed(*state, jpeg, frame + 4, 12), IMAGE_UNCOMMON,
           "Unsupported JPEG data precision 12");
}

static void test_file_size(void **state) {
    struct text png = some_png(*state);
    char *bytes = arena_alloc(*state, IMAGE_BYTES_MAX + 1, 1);
    memcpy(bytes, png.start, png.len);
    expect((struct text){bytes, IMAGE_BYTES_MAX + 1}, IMAGE_LARGE,
           "16777217 bytes; at most 16 MiB");
    expect((struct text){bytes, IMAGE_BYTES_MAX}, IMAGE_GOOD, "");
}

static void test_inks(void **state) {
    struct text file = some_jpeg(*state, 4);
    expect(file, IMAGE_INKS, "save it as RGB");
}

static void test_jpeg_cut_short(void **state) {
    for (int progressive = 0; progressive < 2; progressive++) {
        struct maker_jpeg form = {.width = 24, .height = 16, .channels = 3};
        form.progressive = progressive;
        struct text file = maker_jpeg(*state, form);
        assert_int_equal(try_bytes(file.start, file.len).fault, IMAGE_GOOD);
        for (size_t len = 0; len < file.len; len++) {
            enum image_fault fault = try_bytes(file.start, len).fault;
            assert_int_equal(fault, len < 3 ? IMAGE_UNKNOWN : IMAGE_DAMAGED);
        }
    }
}

/* A JPEG has no checksums: a change may go unseen, but does no harm. */
static void test_jpeg_changed(void **state) {
    size_t refused = 0;
    for (int progressive = 0; progressive < 2; progressive++) {
        struct maker_jpeg form = {.width = 24, .height = 16, .channels = 3};
        form.progressive = progressive;
        struct text file = maker_jpeg(*state, form);
        for (size_t at = 0; at < file.len; at++)
            for (int bit = 1; bit < 256; bit *= 4) {
                struct text bad =
                    changed(*state, file, at, file.start[at] ^ bit);
                refused += try_bytes(bad.start, bad.len).fault != IMAGE_GOOD;
            }
    }
    assert_true(refused > 500);
}

/* A thousand scans of a large image are legal, and only keep a reader busy. */
static void test_jpeg_of_many_scans(void **state) {
    struct maker_jpeg form = {
        .width = 24, .height = 16, .channels = 1, .fine = 1};
    expect(maker_jpeg(*state, form), IMAGE_GOOD, "");
    form.fine = 2;
    expect(maker_jpeg(*state, form), IMAGE_UNCOMMON, "more than 100 scans");
}

static void test_told_to_the_author(void **state) {
    static const struct {
        enum image_fault fault;
        const char *line;
    } told[] = {
        {IMAGE_UNKNOWN, "neither PNG nor JPEG: a.png: why\n"},
        {IMAGE_DAMAGED, "image damaged: a.png: why\n"},
        {IMAGE_LARGE, "image too large: a.png: why\n"},
        {IMAGE_INKS, "image in printing inks (CMYK): a.png: why\n"},
        {IMAGE_UNCOMMON, "image of an uncommon sort: a.png: why\n"},
    };
    for (size_t i = 0; i < sizeof told / sizeof *told; i++) {
        struct diags *d = diag_new(*state);
        struct image_report r = {told[i].fault, "why"};
        struct span at = {NULL, 0, 0};
        image_tell(d, at, "a.png", &r);
        assert_int_equal(diag_status(d), LEVEL_MISTAKE);
        char *text = NULL;
        size_t len = 0;
        FILE *out = open_memstream(&text, &len);
        diag_print(d, out, false);
        fclose(out);
        assert_string_equal(text + strlen("bayleaf: error: "), told[i].line);
        free(text);
    }
    struct diags *d = diag_new(*state);
    image_tell(d, (struct span){NULL, 0, 0}, "a.png",
               &(struct image_report){0});
    assert_int_equal(diag_count(d, LEVEL_WARNING), 0);
}

int main(void) {
#define TEST(f) cmocka_unit_test_setup_teardown(f, open_arena, close_arena)
    const struct CMUnitTest tests[] = {
        TEST(test_neither),
        TEST(test_png_cut_short),
        TEST(test_png_changed),
        TEST(test_png_of_nonsense),
        TEST(test_sizes),
        TEST(test_file_size),
        TEST(test_inks),
        TEST(test_jpeg_cut_short),
        TEST(test_jpeg_changed),
        TEST(test_jpeg_of_many_scans),
        TEST(test_told_to_the_author),
    };
    return cmocka_run_group_tests_name("damage", tests, NULL, NULL);
}
