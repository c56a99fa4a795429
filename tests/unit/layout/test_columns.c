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

/* In the order in which they are read: ops of a slab, slab after slab. */
static const char *read_all(const struct bench *b) {
    struct buf text = buf_in(b->composer.arena);
    for (size_t i = 0; i < b->flow.count; i++)
        for (size_t k = 0; k < b->flow.slab[i]->op_count; k++) {
            const struct op *op = &b->flow.slab[i]->ops[k];
            if (op->kind == OP_TEXT)
                buf_text(&text, op->text);
            buf_puts(&text, " ");
        }
    return buf_cstr(&text);
}

static void test_order_and_balance(void **state) {
    for (size_t count = 1; count < 60; count++) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        struct columns p = some(b, count);
        columns_set(&b->flow, &p, 0, width, type, nowhere);
        const char *at = read_all(b);
        for (size_t i = 0; i < count; i++) {
            at = strstr(at, arena_printf(b->composer.arena, "p%02zu", i));
            assert_non_null(at);
            at = strstr(at, arena_printf(b->composer.arena, "e%02zu", i));
            assert_non_null(at);
        }
        for (size_t i = 0; i < b->flow.count; i++) {
            double left = 0, right = 0;
            const struct slab *s = b->flow.slab[i];
            for (size_t k = 0; k < s->op_count; k++) {
                double *side = s->ops[k].x < width / 2 ? &left : &right;
                *side = fmax(*side, s->ops[k].y);
                struct geometry_box box = geometry_of(&s->ops[k]);
                assert_true(box.right <= (side == &left ? width / 2 : width));
                assert_true(box.bottom <= s->height);
            }
            /* Up to a paragraph of three lines, which is not parted. */
            assert_true(fabs(left - right) <= 3 * type.leading + 2.01 ||
                        count < 3);
        }
        char why[500];
        if (geometry_check(bench_pages(b), why, sizeof why) != NULL)
            fail_msg("%zu: %s", count, why);
    }
}

/* More than a page is parted into even pieces. */
static void test_long_lists_are_parted(void **state) {
    struct bench *b = *state;
    struct columns p = some(b, 110);
    columns_set(&b->flow, &p, 0, width, type, nowhere);
    assert_true(b->flow.count >= 2);
    double first = b->flow.slab[0]->height;
    double last = b->flow.slab[b->flow.count - 1]->height;
    assert_true(first < bench_room(b) && last > first * 0.8);
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
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
        TEST(test_long_lists_are_parted),
        TEST(test_nothing_sets_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
