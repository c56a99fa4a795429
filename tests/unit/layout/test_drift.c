/* test_drift.c - drawings that leave their place: how far, and what for. */
#include "bench.h"
#include "geometry.h"
#include "layout/drift.h"

struct order {
    bool heads;      /* it may stand right below the heading */
    size_t drawings; /* of 300 points each; one has 450 */
    size_t behind;   /* tables behind them */
};

static void add_table(struct bench *b, size_t number) {
    bench_slab(b, 20, arena_printf(b->composer.arena, "table%02zu", number));
    flow_bond(&b->flow, BOND_FAST);
    bench_slab(b, 50, "rows");
}

static void add_drawing(struct bench *b, size_t number, double height) {
    size_t from = b->flow.count;
    bench_slab(b, 15, arena_printf(b->composer.arena, "caption%zu", number));
    flow_bond(&b->flow, BOND_FAST);
    bench_slab(b, height - 15, "drawing");
    drift_add(&b->flow, from);
}

/* What stands above, a heading, two tables, drawings, tables, steps. */
static void set(struct bench *b, double above, const struct order *o) {
    b->flow = (struct flow){.c = &b->composer};
    for (double y = 0; y < above; y += 12)
        bench_slab(b, 12, "");
    bench_slab(b, 20, "HEADING");
    flow_bond(&b->flow, BOND_FAST);
    drift_begin(&b->flow, o->heads);
    add_table(b, 0);
    add_table(b, 1);
    for (size_t i = 0; i < o->drawings; i++)
        add_drawing(b, i, o->drawings == 1 ? 450 : 300);
    for (size_t i = 0; i < o->behind; i++)
        add_table(b, 2 + i);
    drift_end(&b->flow);
    for (size_t i = 0; i < 40; i++)
        bench_slab(b, 20, arena_printf(b->composer.arena, "step%02zu", i));
}

struct found { /* in the order in which it is read */
    size_t page, at;
    double y;
};

static struct found find(const struct pages *p, const char *word) {
    size_t at = 0;
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++, at++)
            if (text_is(p->page[i].ops[k].text, word))
                return (struct found){i, at, p->page[i].ops[k].y};
    fail_msg("no '%s'", word);
    return (struct found){0, 0, 0};
}

static void check_order(struct bench *b, const struct pages *p,
                        const struct order *o) {
    struct arena *a = b->composer.arena;
    size_t last = find(p, "HEADING").at;
    for (size_t i = 0; i < 2 + o->behind; i++) {
        size_t at = find(p, arena_printf(a, "table%02zu", i)).at;
        assert_true(at > last);
        last = at;
    }
    for (size_t i = 0; i < 40; i++) {
        size_t at = find(p, arena_printf(a, "step%02zu", i)).at;
        assert_true(at > last);
        last = at;
    }
    last = find(p, "HEADING").at;
    for (size_t i = 0; i < o->drawings; i++) {
        size_t at = find(p, arena_printf(a, "caption%zu", i)).at;
        assert_true(at > last);
        last = at;
    }
    assert_true(last < find(p, "step00").at);
}

/* The largest share of a page, not the last, that is white at its end. */
static double largest_gap(const struct bench *b, const struct pages *p) {
    double gap = 0;
    for (size_t i = 0; i + 1 < p->count; i++) {
        double end = 0;
        for (size_t k = 0; k < p->page[i].op_count; k++)
            end = fmax(end, p->page[i].ops[k].y + 40);
        if (find(p, "caption0").page == i)
            end = fmax(end, find(p, "caption0").y + 435);
        gap = fmax(gap, (b->composer.style->bottom - end) / bench_room(b));
    }
    return gap;
}

/* At its place, below the heading, or at the top of a page. */
static void check_place(const struct bench *b, const struct pages *p,
                        const struct order *o) {
    struct found at = find(p, "caption0"), head = find(p, "HEADING");
    bool top = at.y < b->composer.style->top + 15;
    bool below = o->heads && at.page == head.page && at.y < head.y + 30;
    bool home = at.at > find(p, "table01").at &&
                (o->behind == 0 || at.at < find(p, "table02").at);
    assert_true(top || below || home);
}

/* What was found out of the pages while drawings moved still holds. */
static void check_plan(struct bench *b) {
    const size_t *with, *without;
    struct plan *plan = b->flow.plan;
    assert_non_null(plan);
    size_t count = paginate_break(&b->flow, &with);
    b->flow.plan = NULL;
    assert_int_equal(paginate_break(&b->flow, &without), count);
    assert_memory_equal(with, without, count * sizeof *with);
    b->flow.plan = plan;
}

static void test_gaps_are_filled(void **state) {
    static const struct order orders[] = {
        {false, 1, 0}, {true, 1, 0}, {false, 1, 3}, {true, 1, 3}, {true, 2, 2},
    };
    for (size_t k = 0; k < sizeof orders / sizeof orders[0]; k++) {
        const struct order *o = &orders[k];
        size_t moved = 0;
        for (double above = 0; above < 700; above += 12) {
            struct bench *b = *state;
            set(b, above, o);
            const struct pages *stayed = bench_pages(b);
            set(b, above, o);
            drift_settle(&b->flow);
            check_plan(b);
            const struct pages *p = bench_pages(b);
            check_order(b, p, o);
            assert_true(p->count <= stayed->count);
            if (o->drawings > 1)
                continue;
            check_place(b, p, o);
            bool same = find(p, "caption0").at == find(stayed, "caption0").at;
            moved += !same;
            assert_true(same || p->count < stayed->count ||
                        largest_gap(b, p) < largest_gap(b, stayed));
        }
        if (o->heads || o->behind > 0) /* else there is little to gain */
            assert_true(moved > 0 || o->drawings > 1);
    }
    struct bench *b = *state;
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

/* One that stands below what it belongs to is left alone. */
static void test_one_that_fits_stays(void **state) {
    static const struct order o = {true, 1, 3};
    struct bench *b = *state;
    set(b, 60, &o);
    drift_settle(&b->flow);
    const struct pages *p = bench_pages(b);
    assert_int_equal(find(p, "caption0").page, find(p, "table01").page);
    assert_true(find(p, "caption0").at > find(p, "table01").at);
}

/* The drawing fills its page well where it stands, and yet a page is saved when
 * the tables behind it go before it: then the one above is parted. */
static void test_a_page_is_saved(void **state) {
    size_t count[2];
    for (int settled = 0; settled < 2; settled++) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        bench_slab(b, 600, "");
        for (int i = 0; i < 12; i++) {
            flow_bond(&b->flow, i > 0 ? BOND_FIRM : BOND_LIGHT);
            bench_slab(b, 41, "row");
        }
        bench_slab(b, 20, "HEADING");
        flow_bond(&b->flow, BOND_FAST);
        drift_begin(&b->flow, false);
        add_table(b, 0);
        add_table(b, 1);
        add_drawing(b, 0, 450);
        add_table(b, 2);
        add_table(b, 3);
        drift_end(&b->flow);
        for (size_t i = 0; i < 3; i++)
            bench_slab(b, 250, "panel and step");
        if (settled)
            drift_settle(&b->flow);
        const struct pages *p = bench_pages(b);
        count[settled] = p->count;
        if (settled)
            assert_true(find(p, "caption0").at > find(p, "table03").at);
    }
    assert_int_equal(count[1], count[0] - 1);
}

/* Nothing that may go before it: the page stays as empty as it is. */
static void test_not_past_a_step(void **state) {
    for (double above = 0; above < 700; above += 12) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        for (double y = 0; y < above; y += 12)
            bench_slab(b, 12, "");
        bench_slab(b, 20, "HEADING");
        add_drawing(b, 0, 450);
        drift_end(&b->flow);
        for (size_t i = 0; i < 20; i++)
            bench_slab(b, 20, arena_printf(b->composer.arena, "step%02zu", i));
        drift_settle(&b->flow);
        const struct pages *p = bench_pages(b);
        assert_true(find(p, "HEADING").at < find(p, "caption0").at);
        assert_true(find(p, "caption0").at < find(p, "step00").at);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_gaps_are_filled),
        TEST(test_one_that_fits_stays),
        TEST(test_a_page_is_saved),
        TEST(test_not_past_a_step),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
