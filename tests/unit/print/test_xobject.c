/* test_xobject.c - images in whole PDF files, as other people's readers show
 * them. */
#define FILE_STEM BUILD "/tests/unit/print/test_xobject-sample"
#include "unit/print/readers.h"

#include "image/image.h"
#include "support/maker.h"

/* Upright; each pixel is printed as CELL by CELL points. */
enum { WIDTH = 5, HEIGHT = 3, CELL = 12, LEFT = 60, TOP = 96 };

static unsigned sample(unsigned x, unsigned y, unsigned channel) {
    return (x * 40 + y * 15 + channel * 60) % 256;
}

static int open_sheet(void **state) {
    *state = sheet_new();
    return 0;
}

static int close_sheet(void **state) {
    sheet_free(*state);
    return 0;
}

/* Where a stored pixel is seen, by where row 0 and column 0 are seen (Exif). */
static void seen_at(unsigned turn, unsigned row, unsigned column, unsigned *x,
                    unsigned *y) {
    static const struct {
        bool side, right, bottom; /* right: what counts across begins there */
    } turns[] = {{false, false, false}, {false, true, false},
                 {false, true, true},   {false, false, true},
                 {true, false, false},  {true, true, false},
                 {true, true, true},    {true, false, true}};
    bool side = turns[turn - 1].side;
    unsigned across = side ? row : column, down = side ? column : row;
    *x = turns[turn - 1].right ? WIDTH - 1 - across : across;
    *y = turns[turn - 1].bottom ? HEIGHT - 1 - down : down;
}

/* The samples as a camera that was held so stores them. */
static struct picture *stored(struct arena *a, unsigned turn,
                              unsigned channels) {
    struct picture *p = arena_alloc(a, 1, sizeof *p);
    bool side = turn >= 5;
    p->coding = PICTURE_FLATE;
    p->width = side ? HEIGHT : WIDTH;
    p->height = side ? WIDTH : HEIGHT;
    p->channels = channels;
    p->turn = turn;
    unsigned char *samples = arena_alloc(a, WIDTH * HEIGHT, channels);
    unsigned char *next = samples;
    for (unsigned row = 0; row < p->height; row++)
        for (unsigned column = 0; column < p->width; column++)
            for (unsigned c = 0; c < channels; c++) {
                unsigned x, y;
                seen_at(turn, row, column, &x, &y);
                *next++ = (unsigned char)sample(x, y, c);
            }
    uLongf len = compressBound((uLong)(next - samples));
    unsigned char *bytes = arena_alloc(a, len, 1);
    compress2(bytes, &len, samples, (uLong)(next - samples), 9);
    p->bytes = bytes;
    p->len = len;
    return p;
}

/* The same as a PNG of plain rows and rows of differences, by turns. */
static struct picture *filtered(struct arena *a, unsigned turn,
                                unsigned channels) {
    struct picture *p = stored(a, turn, channels);
    size_t row = p->width * channels;
    uLongf count = (uLongf)(row * p->height), len;
    unsigned char *samples = arena_alloc(a, count, 1);
    unsigned char *rows = arena_alloc(a, count + p->height, 1), *to = rows;
    assert_int_equal(uncompress(samples, &count, p->bytes, p->len), Z_OK);
    for (size_t y = 0; y < p->height; y++) {
        *to++ = y % 2 == 0 ? 0 : 1;
        for (size_t x = 0; x < row; x++) {
            const unsigned char *at = samples + y * row + x;
            *to++ = (unsigned char)(y % 2 == 0 || x < channels
                                        ? *at
                                        : *at - at[-(ptrdiff_t)channels]);
        }
    }
    len = compressBound((uLong)(to - rows));
    unsigned char *bytes = arena_alloc(a, len, 1);
    compress2(bytes, &len, rows, (uLong)(to - rows), 9);
    p->coding = PICTURE_PNG;
    p->bytes = bytes;
    p->len = len;
    return p;
}

static void show(struct sheet *s, struct page *page, const struct picture *p) {
    struct op *op = display_op(s->arena, page, OP_IMAGE);
    op->x = LEFT;
    op->y = TOP;
    op->width = WIDTH * CELL;
    op->height = HEIGHT * CELL;
    op->picture = p;
}

/* A page as the reader draws it, at one pixel a point. */
static unsigned char *drawn(struct sheet *s, int page) {
    run(s, arena_printf(s->arena,
                        "pdftoppm -r 72 -f %d -l %d -singlefile " FILE_STEM
                        ".pdf " FILE_STEM,
                        page, page));
    FILE *in = fopen(FILE_STEM ".ppm", "rb");
    int width, height;
    assert_non_null(in);
    assert_int_equal(fscanf(in, "P6 %d %d 255%*c", &width, &height), 2);
    assert_int_equal(width, 612);
    assert_int_equal(height, 792);
    unsigned char *pixels = arena_alloc(s->arena, 612 * 792, 3);
    assert_int_equal(fread(pixels, 3, 612 * 792, in), 612 * 792);
    fclose(in);
    return pixels;
}

static const unsigned char *pixel(const unsigned char *drawing, unsigned x,
                                  unsigned y) {
    return drawing + ((size_t)y * 612 + x) * 3;
}

static void check_drawing(const unsigned char *drawing, unsigned channels) {
    for (unsigned y = 0; y < HEIGHT; y++)
        for (unsigned x = 0; x < WIDTH; x++)
            for (unsigned c = 0; c < 3; c++) {
                unsigned got = pixel(drawing, LEFT + x * CELL + CELL / 2,
                                     TOP + y * CELL + CELL / 2)[c];
                unsigned want = sample(x, y, channels == 1 ? 0 : c);
                if (got > want + 1 || want > got + 1)
                    fail_msg("at %u %u %u: %u for %u", x, y, c, got, want);
            }
    /* Nothing beside it. */
    const unsigned beyond[][2] = {{LEFT - 2, TOP + 5},
                                  {LEFT + WIDTH * CELL + 1, TOP + 5},
                                  {LEFT + 5, TOP - 2},
                                  {LEFT + 5, TOP + HEIGHT * CELL + 1}};
    for (int i = 0; i < 4; i++)
        assert_int_equal(pixel(drawing, beyond[i][0], beyond[i][1])[0], 255);
}

static void test_each_turn_shows_the_same(void **state) {
    struct sheet *s = *state;
    for (unsigned turn = 1; turn <= 8; turn++)
        show(s, add_page(s),
             (turn > 5 ? filtered : stored)(s->arena, turn,
                                            turn % 2 == 0 ? 1 : 3));
    print_sheet(s);
    check_readers(s);
    for (unsigned turn = 1; turn <= 8; turn++)
        check_drawing(drawn(s, (int)turn), turn % 2 == 0 ? 1 : 3);
}

/* From the file of a camera to the page. */
static void test_jpeg_with_a_turn(void **state) {
    struct sheet *s = *state;
    unsigned char exif[MAKER_EXIF_LEN];
    maker_exif(exif, true, 6); /* row 0 is seen on the right */
    struct maker_jpeg form = {.width = 120,
                              .height = 200,
                              .channels = 3,
                              .exif = exif,
                              .exif_len = sizeof exif};
    struct text file = maker_jpeg(s->arena, form);
    struct image_report r;
    struct image *im =
        image_open(s->arena, (const unsigned char *)file.start, file.len, &r);
    assert_non_null(im);
    struct picture *p = image_fit(s->arena, im, 500, 500, &r);
    assert_int_equal(p->coding, PICTURE_JPEG);
    show(s, add_page(s), p);
    print_sheet(s);
    check_readers(s);
    const unsigned char *drawing = drawn(s, 1);
    for (unsigned y = 2; y < HEIGHT * CELL; y += 3)
        for (unsigned x = 2; x < WIDTH * CELL; x += 3) {
            double down = (y + 0.5) / (HEIGHT * CELL),
                   across = (x + 0.5) / (WIDTH * CELL);
            for (unsigned c = 0; c < 3; c++) {
                double want = 255 * maker_sample(down, 1 - across, c);
                int got = pixel(drawing, LEFT + x, TOP + y)[c];
                if ((down < 0.4 || down > 0.6) &&
                    (got > want + 14 || got < want - 14))
                    fail_msg("at %u %u %u: %d for %g", x, y, c, got, want);
            }
        }
    assert_non_null(
        strstr(run(s, "pdfimages -list " FILE_STEM ".pdf"), " jpeg "));
}

/* However often and however turned it is shown. */
static void test_each_image_once(void **state) {
    struct sheet *s = *state;
    const struct picture *p = stored(s->arena, 1, 3);
    struct picture turned = *p, other = *stored(s->arena, 2, 1);
    turned.turn = 3;
    for (int i = 0; i < 3; i++) {
        struct page *page = add_page(s);
        show(s, page, p);
        show(s, page, &turned);
        show(s, page, &other);
    }
    print_sheet(s);
    check_readers(s);
    const char *plain = run(s, "qpdf --qdf --object-streams=disable " FILE_STEM
                               ".pdf - | tr '\\0' ' '");
    int count = 0;
    for (; (plain = strstr(plain, "/Subtype /Image")) != NULL; plain++)
        count++;
    assert_int_equal(count, 2);
}

static void test_same_bytes_twice(void **state) {
    struct sheet *s = *state, *t = sheet_new();
    show(s, add_page(s), stored(s->arena, 5, 3));
    show(t, add_page(t), stored(t->arena, 5, 3));
    print_sheet(s);
    print_sheet(t);
    assert_int_equal(s->len, t->len);
    assert_memory_equal(s->bytes, t->bytes, s->len);
    sheet_free(t);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define WITH_SHEET(test)                                                       \
    cmocka_unit_test_setup_teardown(test, open_sheet, close_sheet)
        WITH_SHEET(test_each_turn_shows_the_same),
        WITH_SHEET(test_jpeg_with_a_turn),
        WITH_SHEET(test_each_image_once),
        WITH_SHEET(test_same_bytes_twice),
    };
    return cmocka_run_group_tests_name("xobject", tests, NULL, NULL);
}
