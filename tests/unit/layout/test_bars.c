/* test_bars.c - a reading before and after as bars, with what its limit allows.
 */
#include "bench.h"
#include "layout/bars.h"

static const struct span nowhere;
static const double left = 0, width = 500;

static struct bars reading(double found, double after, double low,
                           double high) {
    return (struct bars){.label = text_of("Voltage"),
                         .found = found,
                         .left = after,
                         .low = low,
                         .high = high,
                         .found_text = text_of("found"),
                         .left_text = text_of("left"),
                         .limit_text = text_of("as said"),
                         .verdict = text_of("FAILS")};
}

/* What is drawn: where bars end, where the limit has its lines. */
struct drawn {
    double bar[2];     /* right end */
    double upright[2]; /* x of the lines across the bars */
    size_t uprights;
    double from, to; /* of what is allowed */
};

static struct drawn draw(struct bench *b, const struct bars *bars) {
    struct drawn d = {.from = NAN, .to = NAN};
    size_t count = 0;
    b->flow = (struct flow){.c = &b->composer};
    bars_set(&b->flow, bars, left, width, nowhere);
    const struct slab *s = b->flow.slab[0];
    for (size_t i = 0; i < s->op_count; i++) {
        const struct op *op = &s->ops[i];
        if (op->kind == OP_RECT && count < 2)
            d.bar[count++] = op->x + op->width;
        if (op->kind != OP_LINE)
            continue;
        if (op->x == op->x2 && d.uprights < 2)
            d.upright[d.uprights++] = op->x;
        else {
            d.from = op->x;
            d.to = op->x2;
        }
        assert_true(op->y <= s->height && op->y2 <= s->height);
    }
    /* Below the tails of the letters above the bars: a fifth of their size. */
    const struct op *label = &s->ops[0];
    for (size_t i = 0; i < s->op_count; i++)
        if (s->ops[i].kind == OP_LINE)
            assert_true(s->ops[i].y > label->y + 0.22 * label->size);
    assert_int_equal(count, 2);
    return d;
}

/* 12 V to 14 V: 11.5 V ends left of both lines, 13 V between them. */
static void test_two_sided(void **state) {
    struct bars bars = reading(11.5, 13, 12, 14);
    struct drawn d = draw(*state, &bars);
    assert_int_equal(d.uprights, 2);
    assert_true(d.bar[0] + 1 < d.upright[0]);
    assert_true(d.upright[0] < d.bar[1] && d.bar[1] < d.upright[1]);
    assert_true(d.from == d.upright[0] && d.to == d.upright[1]);
}

static void test_at_most(void **state) {
    struct bars bars = reading(1.3, 0.3, -INFINITY, 0.5);
    struct drawn d = draw(*state, &bars);
    assert_int_equal(d.uprights, 1);
    assert_true(d.bar[1] < d.upright[0] && d.upright[0] < d.bar[0]);
    assert_true(d.to == d.upright[0] && d.from < d.bar[1]);
}

static void test_at_least(void **state) {
    struct bars bars = reading(9, 11.8, 11.8, INFINITY);
    struct drawn d = draw(*state, &bars);
    assert_int_equal(d.uprights, 1);
    assert_true(d.bar[0] < d.upright[0]);
    assert_true(d.from == d.upright[0] && d.to > d.from + 20);
}

static void test_verdict_stands_beside(void **state) {
    struct bench *b = *state;
    struct bars bars = reading(11.5, 13, 12, 14);
    tag_begin(b->composer.tags, b->composer.arena);
    draw(b, &bars);
    const struct slab *s = b->flow.slab[0];
    size_t found = 0;
    for (size_t i = 0; i < s->op_count; i++)
        found += s->ops[i].kind == OP_TEXT && text_is(s->ops[i].text, "FAILS");
    assert_int_equal(found, 1);
    struct text spoken = b->tags.list[b->tags.count - 1].words;
    assert_non_null(strstr(spoken.start, "left after, FAILS; limit as said"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_two_sided),
        TEST(test_at_most),
        TEST(test_at_least),
        TEST(test_verdict_stands_beside),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
