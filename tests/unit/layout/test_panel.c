/* test_panel.c - panels, signs, record boxes, QR code, fingerprint. */
#include "bench.h"
#include "geometry.h"
#include "layout/fingerprint.h"
#include "layout/panel.h"
#include "layout/qr.h"
#include "layout/record.h"

static const struct span nowhere;

static void put_panel(struct bench *b, enum panel_signal signal,
                      size_t symbols) {
    static const struct symbol *both[2];
    struct rich text[2] = {
        bench_rich(b, "Live battery cable. A tool that touches chassis can arc "
                      "and burn you."),
        bench_rich(b, "Disconnect the grounded terminal first.")};
    both[0] = symbol_find("electricity");
    both[1] = symbol_find("disconnect");
    struct panel p = {.signal = signal,
                      .symbol = both,
                      .symbol_count = symbols,
                      .paragraph = text,
                      .paragraph_count = 2};
    panel_set(&b->flow, &p);
}

static bool put_brief(struct bench *b, enum panel_signal signal,
                      const char *words) {
    struct panel p = {.signal = signal, .brief = bench_rich(b, words)};
    return panel_set_brief(&b->flow, &p);
}

static size_t count_ops(const struct slab *s, enum op_kind kind, bool dashed) {
    size_t count = 0;
    for (size_t i = 0; i < s->op_count; i++)
        count += s->ops[i].kind == kind && (s->ops[i].dash_on > 0) == dashed;
    return count;
}

/* Without colour: outlines, their dashes, hatch bars and triangle tell the four
 * apart. */
static void test_panels_differ_without_colour(void **state) {
    struct bench *b = *state;
    size_t mark[4][3];
    for (int i = 0; i < 4; i++) {
        put_panel(b, (enum panel_signal)i, 0);
        const struct slab *s = b->flow.slab[i];
        mark[i][0] = count_ops(s, OP_RECT, false);
        mark[i][1] = count_ops(s, OP_RECT, true);
        mark[i][2] = count_ops(s, OP_PATH, false);
        assert_true(text_is(s->ops[1].text, panel_word((enum panel_signal)i)));
        assert_true(s->ops[1].size >= 1.5 * b->composer.style->step.size);
    }
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < i; k++)
            assert_memory_not_equal(mark[i], mark[k], sizeof mark[i]);
    assert_int_equal(mark[PANEL_NOTICE][2], 0); /* never a triangle */
    assert_int_equal(mark[PANEL_NOTICE][1], 1);
    assert_true(mark[PANEL_WARNING][2] > mark[PANEL_CAUTION][2]);
}

/* The brief form has the same borders, triangle and hatch. */
static void test_brief_panels_differ_without_colour(void **state) {
    struct bench *b = *state;
    size_t mark[4][3];
    for (int i = 0; i < 4; i++) {
        put_panel(b, (enum panel_signal)i, 1);
        assert_true(put_brief(b, (enum panel_signal)i,
                              "Live battery circuit. Take off rings and watch. "
                              "Take the grounded cable off first."));
        const struct slab *full = b->flow.slab[2 * i];
        const struct slab *brief = b->flow.slab[2 * i + 1];
        mark[i][0] = count_ops(brief, OP_RECT, false);
        mark[i][1] = count_ops(brief, OP_RECT, true);
        mark[i][2] = count_ops(brief, OP_PATH, false);
        assert_true(
            text_is(brief->ops[1].text, panel_word((enum panel_signal)i)));
        assert_true(brief->height < full->height * 0.7);
    }
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < i; k++)
            assert_memory_not_equal(mark[i], mark[k], sizeof mark[i]);
    assert_int_equal(mark[PANEL_NOTICE][2], 0); /* never a triangle */
    assert_int_equal(mark[PANEL_NOTICE][1], 1);
    assert_int_equal(mark[PANEL_CAUTION][2], 2); /* triangle and its sign */
    assert_true(mark[PANEL_WARNING][2] > 4);     /* and a hatch */
    char why[500];
    const char *fault = geometry_check(bench_pages(b), why, sizeof why);
    if (fault != NULL)
        fail_msg("%s", fault);
}

static bool is_on_grid(const struct bench *b, const struct slab *s) {
    double beats = s->height / b->composer.style->grid;
    return fabs(beats - round(beats)) < 1e-6;
}

/* Three lines at most, one and two of one height; else nothing is set. */
static void test_brief_panel_of_three_lines(void **state) {
    struct bench *b = *state;
    struct buf words = buf_in(b->composer.arena);
    double height = 0;
    size_t longest = 0, higher = 0;
    for (size_t i = 1; i < 60; i++) {
        buf_puts(&words, "danger ");
        size_t count = b->flow.count;
        bool set = put_brief(b, PANEL_WARNING, buf_cstr(&words));
        assert_int_equal(b->flow.count, count + set);
        if (!set)
            continue;
        assert_int_equal(longest, i - 1); /* none behind one that was not */
        longest = i;
        const struct slab *s = b->flow.slab[count];
        assert_true(s->height >= height);
        higher += height > 0 && s->height > height;
        height = s->height;
        assert_true(is_on_grid(b, s));
        for (size_t k = 0; k < s->op_count; k++) {
            struct geometry_box box = geometry_of(&s->ops[k]);
            assert_true(box.top >= -0.01 && box.left >= -0.01);
            assert_true(box.bottom <= s->height + 0.01);
            assert_true(box.right <= 504.01);
        }
    }
    assert_int_equal(higher, 1);
    assert_true(longest > 20 && longest < 45);
    assert_false(put_brief(b, PANEL_CAUTION, ""));
}

static void test_panel_holds_its_content(void **state) {
    struct bench *b = *state;
    for (int i = 0; i < 4; i++)
        for (size_t symbols = 0; symbols <= 2; symbols++)
            put_panel(b, (enum panel_signal)i, symbols);
    for (size_t i = 0; i < b->flow.count; i++)
        assert_true(is_on_grid(b, b->flow.slab[i]));
    for (size_t i = 0; i < b->flow.count; i++)
        for (size_t k = 0; k < b->flow.slab[i]->op_count; k++) {
            struct geometry_box box = geometry_of(&b->flow.slab[i]->ops[k]);
            assert_true(box.top >= -0.01 && box.left >= -0.01);
            assert_true(box.bottom <= b->flow.slab[i]->height + 0.01);
            assert_true(box.right <= 504.01);
        }
    char why[500];
    const char *fault = geometry_check(bench_pages(b), why, sizeof why);
    if (fault != NULL)
        fail_msg("%s", fault);
}

/* Linear-light luminance, WCAG 2 definition (from memory). */
static double luminance(struct colour c) {
    const double part[] = {(double)c.red, (double)c.green, (double)c.blue};
    double linear[3];
    for (int i = 0; i < 3; i++)
        linear[i] = part[i] <= 0.04045 ? part[i] / 12.92
                                       : pow((part[i] + 0.055) / 1.055, 2.4);
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
}

static void test_letters_stand_out(void **state) {
    struct bench *b = *state;
    for (int i = 0; i < 4; i++) {
        put_panel(b, (enum panel_signal)i, 0);
        const struct slab *s = b->flow.slab[i];
        double ground = luminance(s->ops[0].colour);
        double letter = luminance(s->ops[1].colour);
        double ratio =
            (fmax(ground, letter) + 0.05) / (fmin(ground, letter) + 0.05);
        assert_true(ratio >= 7);
    }
}

static void test_symbols_stay_in_their_square(void **state) {
    struct bench *b = *state;
    size_t count = 0;
    for (; symbol_at(count) != NULL; count++) {
        struct slab *s = slab_new(&b->composer, 100, nowhere);
        symbol_draw(&b->composer, s, symbol_at(count), 10, 20, 36);
        assert_true(s->op_count >= 2);
        for (size_t k = 0; k < s->op_count; k++) {
            struct geometry_box box = geometry_of(&s->ops[k]);
            assert_true(box.left >= 10 - 0.5 && box.right <= 46.5);
            assert_true(box.top >= 20 - 0.5 && box.bottom <= 56.5);
            assert_int_equal(s->ops[k].path[0].verb, PATH_MOVE);
        }
        assert_ptr_equal(symbol_find(symbol_name(symbol_at(count))),
                         symbol_at(count));
    }
    assert_true(count >= 9);
    assert_null(symbol_find("unicorn"));
}

static void test_record_boxes_fill_their_width(void **state) {
    static const struct field_box boxes[] = {{"done by", 3, {NULL, 0}},
                                             {"date", 1, {NULL, 0}}};
    struct bench *b = *state;
    struct slab *s = record_row(&b->flow, boxes, 2, 72, 432, 30, nowhere);
    struct geometry_box first = geometry_of(&s->ops[0]);
    struct geometry_box last = geometry_of(&s->ops[2]);
    assert_int_equal(s->op_count, 4);
    assert_true(fabs(first.left - 72.4) < 0.01);
    assert_true(fabs(last.right - 503.6) < 0.01);
    assert_true(fabs(first.right - last.left) < 0.01); /* one shared line */
}

static void test_reading_grows_with_its_text(void **state) {
    struct bench *b = *state;
    struct rich few = bench_rich(b, "R1 lost: ≤ 0.45 V");
    struct rich many = bench_rich(
        b, "R2 lost between the negative post of the starter battery and the "
           "ground terminal of the left inner lamp, high beam on, engine at "
           "1500 rpm, all other loads off: ≤ 0.30 V");
    record_reading(&b->flow, &few, RECORD_FOUND, 72, 432, nowhere);
    record_reading(&b->flow, &many, RECORD_ONCE, 72, 432, nowhere);
    assert_true(b->flow.slab[0]->height >= 23); /* 8 mm for a pen */
    assert_true(b->flow.slab[1]->height > b->flow.slab[0]->height + 10);
    char why[500];
    const char *fault = geometry_check(bench_pages(b), why, sizeof why);
    if (fault != NULL)
        fail_msg("%s", fault);
}

/* The merged rectangles cover what libqrencode calls dark, each point once. */
static void test_qr_covers_dark_modules_once(void **state) {
    struct bench *b = *state;
    struct slab *s = slab_new(&b->composer, 0, nowhere);
    assert_true(qr_draw(&b->composer, s, 0, 0, 29, "LT-012 3 7KQ2M9XF"));
    int cover[29][29] = {{0}}, dark = 0;
    for (size_t i = 0; i < s->op_count; i++) {
        struct geometry_box box = geometry_of(&s->ops[i]);
        for (int y = 0; y < 29; y++)
            for (int x = 0; x < 29; x++)
                cover[y][x] += x + 0.5 > box.left && x + 0.5 < box.right &&
                               y + 0.5 > box.top && y + 0.5 < box.bottom;
    }
    for (int y = 0; y < 29; y++)
        for (int x = 0; x < 29; x++) {
            bool quiet = x < 4 || y < 4 || x >= 25 || y >= 25;
            assert_true(cover[y][x] <= (quiet ? 0 : 1));
            dark += cover[y][x];
        }
    /* Finder pattern of the top left corner: 7 x 7 ring, 3 x 3 heart. */
    assert_true(cover[4][4] && cover[4][10] && cover[10][4] && cover[7][7]);
    assert_false(cover[5][5] || cover[9][9] || cover[11][11]);
    assert_true(dark > 150 && dark < 300);
    assert_true(s->op_count < (size_t)dark / 2);
}

static void test_qr_refuses_what_does_not_fit(void **state) {
    struct bench *b = *state;
    char text[4000];
    memset(text, 'a', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    struct slab *s = slab_new(&b->composer, 0, nowhere);
    assert_false(qr_draw(&b->composer, s, 0, 0, 29, text));
}

/* The code follows what is seen, and only that. */
static void test_fingerprint(void **state) {
    struct bench *b = *state;
    bench_slab(b, 20, "first");
    struct slab *s = bench_slab(b, 20, "second");
    struct anchor there = {0, 0};
    char one[9], two[9];
    fingerprint_make(bench_pages(b), one);
    assert_int_equal(strlen(one), 8);
    assert_int_equal(strspn(one, "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"), 8);
    slab_link(&b->composer, s, (struct link){.width = 3, .to = &there});
    fingerprint_make(bench_pages(b), two);
    assert_string_equal(one, two); /* links are not seen */
    s->ops[0].x += 0.0001;
    fingerprint_make(bench_pages(b), two);
    assert_string_equal(one, two); /* nor is a ten-thousandth of a point */
    s->ops[0].x += 0.01;
    fingerprint_make(bench_pages(b), two);
    assert_string_not_equal(one, two);
    s->ops[0].x -= 0.0101;
    s->ops[0].text = text_of("secund");
    fingerprint_make(bench_pages(b), two);
    assert_string_not_equal(one, two);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_panels_differ_without_colour),
        TEST(test_brief_panels_differ_without_colour),
        TEST(test_brief_panel_of_three_lines),
        TEST(test_panel_holds_its_content),
        TEST(test_letters_stand_out),
        TEST(test_symbols_stay_in_their_square),
        TEST(test_record_boxes_fill_their_width),
        TEST(test_reading_grows_with_its_text),
        TEST(test_qr_covers_dark_modules_once),
        TEST(test_qr_refuses_what_does_not_fit),
        TEST(test_fingerprint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
