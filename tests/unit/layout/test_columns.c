/* test_columns.c - small print in two columns. */
#include "bench.h"
#include "geometry.h"
#include "layout/columns.h"

static const struct span nowhere;
static const struct type type = {9, 11.25};
static const double width = 504;

/* Paragraphs of different length; each line of each begins with a word of its
 * own: p03 for the first. */
static struct columns some(struct bench *b, size_t count) {
    struct arena *a = b->composer.arena;
    struct columns p = {0};
    for (size_t i = 0; i < count; i++) {
        struct buf text = buf_in(a);
        buf_printf(&text, "p%02zu", i);
        for (size_t k = 0; k < 5 + i * 7 % 40; k++)
            buf_puts(&text, " small");
        buf_printf(&text, " e%02zu", i);
        rich_add(a, columns_add(a, &p), bench_tone(FACE_REGULAR, type.size),
                 text_of(buf_cstr(&text)), nowhere);
    }
    return p;
}

/* In the order in which they are read: ops of a page, page after page. */
static const char *read_all(const struct bench *b, const struct pages *pages) {
    struct buf text = buf_in(b->composer.arena);
    for (size_t i = 0; i < pages->count; i++)
        for (size_t k = 0; k < pages->page[i].op_count; k++) {
            const struct op *op = &pages->page[i].ops[k];
            if (op->kind == OP_TEXT)
                buf_text(&text, op->text);
            buf_puts(&text, " ");
        }
    return buf_cstr(&text);
}

static void check_order(const struct bench *b, const struct pages *pages,
                        size_t count) {
    const char *at = read_all(b, pages);
    for (size_t i = 0; i < count; i++) {
        at = strstr(at, arena_printf(b->composer.arena, "p%02zu", i));
        assert_non_null(at);
        at = strstr(at, arena_printf(b->composer.arena, "e%02zu", i));
        assert_non_null(at);
    }
}

struct feet { /* lowest baselines of a page's columns; 0: it has none */
    double left, right;
};

/* The columns of a page are one pair: no line of the left one stands behind one
 * of the right one, and each line lies in its column. */
static struct feet check_page(const struct page *page, double left_edge) {
    struct feet low = {0, 0};
    double middle = left_edge + width / 2;
    for (size_t k = 0; k < page->op_count; k++) {
        const struct op *op = &page->ops[k];
        if (op->size > type.size)
            continue; /* what stands above the columns */
        double right = geometry_of(op).right;
        if (op->x > middle) {
            low.right = fmax(low.right, op->y);
            assert_true(right <= left_edge + width);
        } else {
            assert_true(low.right == 0);
            low.left = fmax(low.left, op->y);
            assert_true(right <= middle);
        }
    }
    return low;
}

/* Up to a paragraph of three lines, which is not parted, with the cost of one
 * that would be. */
static void check_balance(struct feet low) {
    assert_true(fabs(low.left - low.right) <= 4 * type.leading + 4.01);
}

static void test_order_and_balance(void **state) {
    for (size_t count = 1; count < 60; count++) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        struct columns p = some(b, count);
        columns_set(&b->flow, &p, 0, width, type, nowhere);
        const struct pages *pages = bench_pages(b);
        char why[500];
        if (geometry_check(pages, why, sizeof why) != NULL)
            fail_msg("%zu: %s", count, why);
        check_order(b, pages, count);
        for (size_t i = 0; i < pages->count && count >= 3; i++)
            check_balance(check_page(&pages->page[i], b->composer.style->left));
    }
}

/* Below whatever stands on a page already, the rest on the next ones. */
static void test_long_lists_go_on(void **state) {
    for (int above = 0; above < 700; above += 23) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        for (int i = 0; i < above; i += 23)
            bench_slab(b, 23, "above");
        struct columns p = some(b, 160);
        columns_set(&b->flow, &p, 0, width, type, nowhere);
        bench_slab(b, 23, "below");
        const struct pages *pages = bench_pages(b);
        char why[500];
        if (geometry_check(pages, why, sizeof why) != NULL)
            fail_msg("%d: %s", above, why);
        check_order(b, pages, 160);
        for (size_t i = 0; i < pages->count; i++)
            check_balance(check_page(&pages->page[i], b->composer.style->left));
        assert_true(geometry_find(pages, "below") + 1 == (int)pages->count);
    }
    struct bench *b = *state;
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

/* A page shorter than half of what the list takes. */
static void test_small_pages(void **state) {
    struct bench *b = *state;
    struct style small = *style_standard();
    small.bottom = small.top + 120;
    b->composer.style = &small;
    struct columns p = some(b, 60);
    columns_set(&b->flow, &p, 0, width, type, nowhere);
    const struct pages *pages = bench_pages(b);
    check_order(b, pages, 60);
    assert_true(pages->count > 3);
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
    b->composer.style = style_standard();
}

static void test_nothing_sets_nothing(void **state) {
    struct bench *b = *state;
    struct columns none = {0};
    columns_set(&b->flow, &none, 0, width, type, nowhere);
    assert_int_equal(b->flow.count, 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_order_and_balance),
        TEST(test_long_lists_go_on),
        TEST(test_small_pages),
        TEST(test_nothing_sets_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
