/* test_image.c - good images: samples, sizes, turns, what is kept. */
#include "image/image.h"
#include "support/maker.h"

#include <math.h>
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

static struct image *open_good(struct arena *a, struct text file) {
    struct image_report r;
    struct image *im =
        image_open(a, (const unsigned char *)file.start, file.len, &r);
    if (im == NULL)
        fail_msg("fault %d: %s", (int)r.fault, r.words);
    assert_int_equal(r.fault, IMAGE_GOOD);
    return im;
}

static struct picture *fit_good(struct arena *a, const struct image *im,
                                unsigned width, unsigned height) {
    struct image_report r;
    struct picture *p = image_fit(a, im, width, height, &r);
    if (p == NULL)
        fail_msg("fault %d: %s", (int)r.fault, r.words);
    return p;
}

/* What a reader of the PDF would make of it. */
/* The filters of rows, RFC 2083, 6. */
static void undo_filters(unsigned char *out, const unsigned char *rows,
                         const struct picture *p) {
    size_t step = p->channels, row = p->width * step;
    for (size_t y = 0; y < p->height; y++) {
        unsigned char filter = *rows++;
        for (size_t x = 0; x < row; x++) {
            unsigned char *at = out + y * row + x;
            int left = x >= step ? at[-(ptrdiff_t)step] : 0;
            int up = y > 0 ? at[-(ptrdiff_t)row] : 0;
            int corner = x >= step && y > 0 ? at[-(ptrdiff_t)(row + step)] : 0;
            int guess = left + up - corner;
            int paeth = abs(guess - left) <= abs(guess - up) &&
                                abs(guess - left) <= abs(guess - corner)
                            ? left
                        : abs(guess - up) <= abs(guess - corner) ? up
                                                                 : corner;
            int add[] = {0, left, up, (left + up) / 2, paeth};
            assert_in_range(filter, 0, 4);
            *at = (unsigned char)(rows[x] + add[filter]);
        }
        rows += row;
    }
}

static unsigned char *samples_of(struct arena *a, const struct picture *p) {
    uLongf len = (uLongf)p->width * p->height * p->channels;
    unsigned char *out = arena_alloc(a, len, 1);
    if (p->coding == PICTURE_FLATE) {
        uLongf got = len;
        assert_int_equal(uncompress(out, &got, p->bytes, p->len), Z_OK);
        assert_int_equal(got, len);
        return out;
    }
    if (p->coding == PICTURE_PNG) {
        uLongf room = len + p->height, got = room;
        unsigned char *rows = arena_alloc(a, room, 1);
        assert_int_equal(uncompress(rows, &got, p->bytes, p->len), Z_OK);
        assert_int_equal(got, room);
        undo_filters(out, rows, p);
        return out;
    }
    struct jpeg_decompress_struct info;
    struct jpeg_error_mgr errors;
    info.err = jpeg_std_error(&errors);
    jpeg_create_decompress(&info);
    jpeg_mem_src(&info, p->bytes, p->len);
    jpeg_read_header(&info, TRUE);
    assert_int_equal(info.image_width, p->width);
    assert_int_equal(info.image_height, p->height);
    assert_int_equal(info.num_components, p->channels);
    info.out_color_space = p->channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_start_decompress(&info);
    unsigned char *row = out;
    while (info.output_scanline < info.output_height) {
        jpeg_read_scanlines(&info, &row, 1);
        row += (size_t)p->width * p->channels;
    }
    jpeg_finish_decompress(&info);
    jpeg_destroy_decompress(&info);
    return out;
}

static const unsigned char palette[] = {255, 0,   0,  0,  255, 0,  10, 20,
                                        30,  40,  50, 60, 0,   0,  0,  255,
                                        255, 255, 1,  2,  3,   90, 80, 70};

/* The sample as it should come out, 0 to 255: on white. Half-clear
 * parts are mixed as light, which libpng takes for the power 2.2 of the code.
 */
static double wanted(const struct maker_png *p, uint32_t x, uint32_t y,
                     unsigned channel) {
    double most = (1U << p->depth) - 1, value, opaque = 1;
    bool grey = p->colour == MAKER_GREY || p->colour == MAKER_GREY_ALPHA;
    unsigned colours = grey ? 1 : 3;
    if (p->colour == MAKER_PALETTE) {
        unsigned index = maker_coded(p, x, y, 0);
        value = p->palette[3 * index + channel] / 255.0;
        if (index < p->clear_len)
            opaque = p->clear[index] / 255.0;
    } else {
        value = maker_coded(p, x, y, channel) / most;
        if (p->colour == MAKER_GREY_ALPHA || p->colour == MAKER_RGB_ALPHA)
            opaque = maker_coded(p, x, y, colours) / most;
        bool clear = p->clear_len > 0;
        for (unsigned c = 0; c < colours && clear; c++)
            clear = maker_coded(p, x, y, c) ==
                    ((unsigned)p->clear[2 * c] << 8 | p->clear[2 * c + 1]);
        if (clear)
            opaque = 0;
    }
    return 255 * pow(opaque * pow(value, 2.2) + (1 - opaque), 1 / 2.2);
}

static void check_png(struct arena *a, struct maker_png form) {
    struct image *im = open_good(a, maker_png(a, form));
    assert_int_equal(im->format, IMAGE_PNG);
    assert_int_equal(image_width(im), form.width);
    assert_int_equal(image_height(im), form.height);
    struct picture *p = fit_good(a, im, 1000, 1000);
    assert_int_equal(p->width, form.width);
    assert_int_equal(p->height, form.height);
    bool plain = form.depth == 8 && !form.interlaced && form.clear_len == 0 &&
                 (form.colour == MAKER_GREY || form.colour == MAKER_RGB);
    assert_int_equal(p->coding, plain ? PICTURE_PNG : PICTURE_FLATE);
    assert_int_equal(p->turn, 1);
    const unsigned char *got = samples_of(a, p);
    for (uint32_t y = 0; y < form.height; y++)
        for (uint32_t x = 0; x < form.width; x++)
            for (unsigned c = 0; c < p->channels; c++, got++) {
                double want = wanted(&form, x, y, c);
                if (fabs(*got - want) > 2) /* mixed in 8 bits by libpng */
                    fail_msg("colour %d, %u bits, %s, at %u %u %u: %d for %g",
                             (int)form.colour, form.depth,
                             form.interlaced ? "interlaced" : "plain", x, y, c,
                             *got, want);
            }
}

static void test_each_sort_of_png(void **state) {
    static const struct {
        enum maker_colour colour;
        unsigned depth;
    } sorts[] = {
        {MAKER_GREY, 1},      {MAKER_GREY, 2},       {MAKER_GREY, 4},
        {MAKER_GREY, 8},      {MAKER_GREY, 16},      {MAKER_RGB, 8},
        {MAKER_RGB, 16},      {MAKER_PALETTE, 2},    {MAKER_PALETTE, 4},
        {MAKER_PALETTE, 8},   {MAKER_GREY_ALPHA, 8}, {MAKER_GREY_ALPHA, 16},
        {MAKER_RGB_ALPHA, 8}, {MAKER_RGB_ALPHA, 16},
    };
    for (size_t i = 0; i < sizeof sorts / sizeof *sorts; i++)
        for (int interlaced = 0; interlaced < 2; interlaced++) {
            struct maker_png form = {.width = 21,
                                     .height = 13,
                                     .colour = sorts[i].colour,
                                     .depth = sorts[i].depth,
                                     .interlaced = interlaced};
            if (form.colour == MAKER_PALETTE) {
                form.palette = palette;
                form.palette_len = form.depth == 2 ? 12 : sizeof palette;
            }
            check_png(*state, form);
        }
}

static void test_png_with_a_clear_colour(void **state) {
    static const unsigned char clear_indices[] = {255, 0, 128, 20};
    struct maker_png form = {.width = 16, .height = 12, .depth = 8};
    form.colour = MAKER_PALETTE;
    form.palette = palette;
    form.palette_len = sizeof palette;
    form.clear = clear_indices;
    form.clear_len = sizeof clear_indices;
    check_png(*state, form);
    form.depth = 2;
    form.palette_len = 12;
    check_png(*state, form);
    form.depth = 8;
    form.palette = NULL;
    form.palette_len = 0;
    form.colour = MAKER_RGB;
    unsigned char rgb[6] = {0};
    for (unsigned c = 0; c < 3; c++)
        rgb[2 * c + 1] = (unsigned char)maker_coded(&form, 9, 7, c);
    form.clear = rgb;
    form.clear_len = 6;
    check_png(*state, form);
    form.colour = MAKER_GREY;
    form.clear = rgb;
    form.clear_len = 2;
    check_png(*state, form);
}

/* Three equal channels are kept as one. */
static void test_grey_in_colours_becomes_grey(void **state) {
    static const unsigned char greys[] = {9, 9, 9, 200, 200, 200};
    struct maker_png form = {.width = 4,
                             .height = 4,
                             .depth = 1,
                             .colour = MAKER_PALETTE,
                             .palette = greys,
                             .palette_len = sizeof greys};
    struct image *im = open_good(*state, maker_png(*state, form));
    assert_int_equal(im->channels, 3);
    struct picture *p = fit_good(*state, im, 10, 10);
    assert_int_equal(p->channels, 1);
    const unsigned char *got = samples_of(*state, p);
    for (uint32_t y = 0; y < 4; y++)
        for (uint32_t x = 0; x < 4; x++)
            assert_int_equal(*got++,
                             maker_coded(&form, x, y, 0) == 0 ? 9 : 200);
}

static void check_near(struct arena *a, const struct picture *p,
                       double tolerance) {
    const unsigned char *got = samples_of(a, p);
    for (unsigned y = 0; y < p->height; y++)
        for (unsigned x = 0; x < p->width; x++)
            for (unsigned c = 0; c < p->channels; c++, got++) {
                double across = (x + 0.5) / p->width;
                double want =
                    255 * maker_sample(across, (y + 0.5) / p->height, c);
                /* Chroma is coarse beside the edge in the middle. */
                if (fabs(across - 0.5) > 0.15 && fabs(*got - want) > tolerance)
                    fail_msg("at %u %u %u: %d for %g", x, y, c, *got, want);
            }
}

static void test_jpeg_passes_as_it_is(void **state) {
    static const unsigned char exif[] = "Exif\0\0nonsense";
    struct maker_jpeg form = {.width = 40, .height = 24};
    for (int i = 0; i < 4; i++) {
        form.channels = i % 2 == 0 ? 1 : 3;
        form.progressive = form.adobe = i >= 2;
        form.exif = NULL;
        form.remark = NULL;
        struct text bare = maker_jpeg(*state, form);
        form.exif = exif;
        form.exif_len = sizeof exif;
        form.remark = "taken at the bench";
        struct text file = maker_jpeg(*state, form);
        assert_true(file.len > bare.len);
        struct buf longer = buf_in(*state); /* a second image, for cameras */
        buf_text(&longer, file);
        buf_puts(&longer, "preview of another size");
        struct image *im = open_good(*state, buf_as_text(&longer));
        assert_true(im->passes);
        assert_int_equal(im->turn, 1);
        assert_int_equal(im->format, IMAGE_JPEG);
        struct picture *p = fit_good(*state, im, 40, 24);
        assert_int_equal(p->coding, PICTURE_JPEG);
        assert_int_equal(p->channels, form.channels);
        assert_int_equal(p->len, bare.len); /* nothing but the image */
        assert_memory_equal(p->bytes, bare.start, bare.len);
        check_near(*state, p, 8);
    }
}

/* What PDF does not know is coded anew. */
static void test_jpeg_that_does_not_pass(void **state) {
    struct maker_jpeg form = {
        .width = 40, .height = 24, .channels = 3, .rgb = true};
    struct image *im = open_good(*state, maker_jpeg(*state, form));
    assert_false(im->passes);
    check_near(*state, fit_good(*state, im, 99, 99), 12);
    form.rgb = false;
    form.arithmetic = true;
    im = open_good(*state, maker_jpeg(*state, form));
    assert_false(im->passes);
    struct picture *p = fit_good(*state, im, 99, 99);
    check_near(*state, p, 12);
    struct image *again =
        open_good(*state, (struct text){(const char *)p->bytes, p->len});
    assert_true(again->passes);
}

static void test_turns(void **state) {
    for (unsigned turn = 1; turn <= 8; turn++)
        for (int little = 0; little < 2; little++) {
            unsigned char exif[MAKER_EXIF_LEN];
            maker_exif(exif, little, turn);
            struct maker_jpeg form = {.width = 40,
                                      .height = 24,
                                      .channels = 1,
                                      .exif = exif,
                                      .exif_len = sizeof exif};
            struct image *im = open_good(*state, maker_jpeg(*state, form));
            bool side = turn >= 5;
            assert_int_equal(im->turn, turn);
            assert_int_equal(image_width(im), side ? 24 : 40);
            assert_int_equal(image_height(im), side ? 40 : 24);
            struct picture *p = fit_good(*state, im, 10, 20);
            assert_int_equal(p->turn, turn);
            assert_int_equal(p->width, side ? 20 : 10);
            assert_int_equal(p->height, side ? 10 : 20);
        }
}

/* Cut short, with another type, a turn that there is not: upright. */
static void test_turns_that_cannot_be_read(void **state) {
    unsigned char exif[MAKER_EXIF_LEN];
    struct maker_jpeg form = {
        .width = 8, .height = 8, .channels = 1, .exif = exif};
    maker_exif(exif, true, 6);
    for (unsigned len = 0; len < 50; len++) { /* 50: the turn ends */
        form.exif_len = len;
        assert_int_equal(open_good(*state, maker_jpeg(*state, form))->turn, 1);
    }
    form.exif_len = 50;
    assert_int_equal(open_good(*state, maker_jpeg(*state, form))->turn, 6);
    const unsigned bad[] = {0, 9, 0x0600, 0xFFFF};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        maker_exif(exif, i % 2 == 0, bad[i]);
        form.exif_len = MAKER_EXIF_LEN;
        assert_int_equal(open_good(*state, maker_jpeg(*state, form))->turn, 1);
    }
    maker_exif(exif, true, 6);
    exif[6 + 4] = exif[6 + 5] = exif[6 + 6] = exif[6 + 7] = 0xFF;
    assert_int_equal(open_good(*state, maker_jpeg(*state, form))->turn, 1);
}

/* Its coded samples go into the PDF as they are, whatever their filters. */
static void test_plain_png_passes(void **state) {
    struct maker_png form = {.width = 23,
                             .height = 17,
                             .depth = 8,
                             .colour = MAKER_RGB,
                             .filtered = true};
    check_png(*state, form);
    form.colour = MAKER_GREY;
    check_png(*state, form);
    /* Light is not what a PDF would take the samples for. */
    form.gamma = true;
    struct image *im = open_good(*state, maker_png(*state, form));
    struct picture *p = fit_good(*state, im, 1000, 1000);
    assert_int_equal(p->coding, PICTURE_FLATE);
    /* Smaller than it is. */
    form.gamma = false;
    im = open_good(*state, maker_png(*state, form));
    assert_int_equal(fit_good(*state, im, 22, 1000)->coding, PICTURE_FLATE);
}

static void test_never_enlarged(void **state) {
    struct maker_png form = {
        .width = 30, .height = 20, .depth = 8, .colour = MAKER_RGB};
    struct image *im = open_good(*state, maker_png(*state, form));
    struct picture *p = fit_good(*state, im, 300, 10);
    assert_int_equal(p->width, 30);
    assert_int_equal(p->height, 10);
    p = fit_good(*state, im, 0, 0);
    assert_int_equal(p->width, 1);
    assert_int_equal(p->height, 1);
}

static void test_smaller_images_look_alike(void **state) {
    struct maker_png png = {
        .width = 300, .height = 200, .depth = 8, .colour = MAKER_RGB};
    struct image *im = open_good(*state, maker_png(*state, png));
    struct picture *p = fit_good(*state, im, 60, 40);
    assert_int_equal(p->coding, PICTURE_FLATE);
    check_near(*state, p, 1);
    struct maker_jpeg jpeg = {.width = 300, .height = 200, .channels = 3};
    im = open_good(*state, maker_jpeg(*state, jpeg));
    p = fit_good(*state, im, 60, 40);
    assert_int_equal(p->coding, PICTURE_JPEG);
    assert_int_equal(p->width, 60);
    check_near(*state, p, 12);
    struct picture *again = fit_good(*state, im, 60, 40);
    assert_int_equal(again->len, p->len); /* the same bytes each time */
    assert_memory_equal(again->bytes, p->bytes, p->len);
}

int main(void) {
#define TEST(f) cmocka_unit_test_setup_teardown(f, open_arena, close_arena)
    const struct CMUnitTest tests[] = {
        TEST(test_each_sort_of_png),
        TEST(test_png_with_a_clear_colour),
        TEST(test_grey_in_colours_becomes_grey),
        TEST(test_jpeg_passes_as_it_is),
        TEST(test_jpeg_that_does_not_pass),
        TEST(test_turns),
        TEST(test_turns_that_cannot_be_read),
        TEST(test_plain_png_passes),
        TEST(test_never_enlarged),
        TEST(test_smaller_images_look_alike),
    };
    return cmocka_run_group_tests_name("image", tests, NULL, NULL);
}
