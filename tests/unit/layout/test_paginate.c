/* test_paginate.c - page breaks: what stays together, what is reported. */
#include "bench.h"
#include "geometry.h"

static const char sentence[] =
    "Bolt both relays to the inner wing, studs down, clear of the exhaust, and "
    "run the red wire from the fuse holder to the first relay. ";

/* A spacer that pushes what follows down the page, ending in a good break. */
static void spacer(struct bench *b, double height) {
    while (height > 0) {
        double part = height > 20 ? 20 : height;
        bench_slab(b, part, "spacer");
        height -= part;
    }
}

static void paragraph(struct bench *b, size_t sentences) {
    struct buf text = buf_in(b->composer.arena);
    for (size_t i = 0; i < sentences; i++)
        buf_puts(&text, sentence);
    struct rich r = bench_rich(b, buf_cstr(&text));
    flow_paragraph(&b->flow, &r, 72, 400, (struct type){12, 16},
                   (struct span){NULL, 0, 0});
}

/* Runs a case at 60 offsets down the page, 12 pt apart. */
static void at_offsets(void **state, void (*build)(struct bench *b),
                       void (*check)(struct bench *b, const struct pages *p)) {
    for (int i = 0; i < 60; i++) {
        struct bench *b = *state;
        b->flow = (struct flow){.c = &b->composer};
        spacer(b, 12.0 * i);
        build(b);
        spacer(b, 200);
        const struct pages *p = bench_pages(b);
        char why[500];
        if (geometry_check(p, why, sizeof why) != NULL)
            fail_msg("offset %d: %s", i, why);
        check(b, p);
    }
    struct bench *b = *state;
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

static void build_heading(struct bench *b) {
    bench_slab(b, 30, "HEADING");
    flow_bond(&b->flow, BOND_FAST);
    paragraph(b, 4);
}

/* The heading has at least two lines of its paragraph below it. */
static void check_heading(struct bench *b, const struct pages *p) {
    (void)b;
    const struct page *page = &p->page[geometry_find(p, "HEADING")];
    size_t lines = 0, at = 0;
    for (size_t k = 0; k < page->op_count; k++) {
        at = page->ops[k].kind == OP_TEXT &&
                     text_is(page->ops[k].text, "HEADING")
                 ? k
                 : at;
        lines += at > 0 && k > at && page->ops[k].x > 100;
    }
    assert_true(lines >= 2 || at == 0);
}

static void test_heading_never_ends_a_page(void **state) {
    at_offsets(state, build_heading, check_heading);
}

static void build_paragraph(struct bench *b) {
    paragraph(b, 5);
}

/* No page holds exactly one line of the paragraph. */
static void check_paragraph(struct bench *b, const struct pages *p) {
    (void)b;
    for (size_t i = 0; i < p->count; i++) {
        size_t lines = 0;
        for (size_t k = 0; k < p->page[i].op_count; k++)
            lines += p->page[i].ops[k].x > 100;
        assert_int_not_equal(lines, 1);
    }
}

static void test_no_widows_or_orphans(void **state) {
    at_offsets(state, build_paragraph, check_paragraph);
}

static void build_group(struct bench *b) {
    size_t from = b->flow.count;
    bench_slab(b, 90, "first");
    bench_slab(b, 90, "second");
    bench_slab(b, 90, "third");
    flow_together(&b->flow, from, BOND_FAST);
}

static void check_group(struct bench *b, const struct pages *p) {
    (void)b;
    assert_int_equal(geometry_find(p, "first"), geometry_find(p, "third"));
}

static void test_group_stays_on_one_page(void **state) {
    at_offsets(state, build_group, check_group);
}

/* A group taller than a page is let go rather than lost. */
static void test_tall_group_is_parted(void **state) {
    struct bench *b = *state;
    for (int i = 0; i < 20; i++)
        bench_slab(b, 60, "part");
    flow_together(&b->flow, 0, BOND_FAST);
    const struct pages *p = bench_pages(b);
    assert_int_equal(p->count, 2);
    assert_int_equal(diag_count(b->composer.diags, LEVEL_WARNING), 0);
}

static void test_fewest_pages(void **state) {
    struct bench *b = *state;
    double room = bench_room(b);
    for (int i = 0; i < 40; i++)
        bench_slab(b, room / 10, "tenth");
    assert_int_equal(bench_pages(b)->count, 4);
}

/* Slabs bound together, of this height. */
static void kept(struct bench *b, double height, enum bond bond,
                 const char *name) {
    size_t from = b->flow.count;
    bench_slab(b, 20, name);
    spacer(b, height - 20);
    flow_together(&b->flow, from, bond);
}

/* Steps that need not stand together, then a table: rather two pages with a
 * third empty than one with more than half. */
static void test_white_space_is_shared(void **state) {
    struct bench *b = *state;
    kept(b, 270, BOND_FAST, "first");
    kept(b, 180, BOND_FAST, "second");
    kept(b, 440, BOND_FAST, "third");
    kept(b, 400, BOND_FIRM, "table");
    spacer(b, 200);
    const struct pages *p = bench_pages(b);
    assert_int_equal(p->count, 3);
    assert_int_equal(geometry_find(p, "second"), 0);
    assert_int_equal(geometry_find(p, "third"), 1);
    assert_int_equal(geometry_find(p, "table"), 2);
}

/* Steps that just do not fit on two pages: the third gets some company. */
static void test_the_last_page_is_worth_turning_to(void **state) {
    struct bench *b = *state;
    double room = bench_room(b);
    for (size_t over = 1; over <= 6; over++) {
        b->flow = (struct flow){.c = &b->composer};
        size_t count = 2 * (size_t)(room / 30) + over;
        for (size_t i = 0; i < count; i++)
            bench_slab(b, 30, "step");
        const struct pages *p = bench_pages(b);
        assert_int_equal(p->count, 3);
        size_t last = geometry_count(&p->page[2], "step");
        assert_true(30 * (double)last >= 0.2 * room);
        assert_true(30 * (double)last <= 0.4 * room);
    }
}

/* Ten slabs of 30 pt with a space of 15 above all but the first, on a page that
 * lacks so many points for the last of them; where that ends, 0: overleaf. */
static double last_of_ten(void **state, double lacking) {
    struct bench *b = *state;
    double room = bench_room(b);
    b->flow = (struct flow){.c = &b->composer};
    bench_slab(b, room - 9 * 45 + lacking, "first");
    for (int i = 0; i < 9; i++) {
        flow_space(&b->flow, 15);
        bench_slab(b, 30, i < 8 ? "one" : "LAST");
    }
    const struct pages *p = bench_pages(b);
    size_t page = (size_t)geometry_find(p, "LAST");
    assert_int_equal(page + 1, p->count);
    char why[500];
    assert_null(geometry_check(p, why, sizeof why));
    for (size_t k = 0; page == 0 && k < p->page[0].op_count; k++)
        if (p->page[0].ops[k].kind == OP_TEXT &&
            text_is(p->page[0].ops[k].text, "LAST"))
            return p->page[0].ops[k].y;
    return 0;
}

/* A page more is not begun for what has room when spaces are narrower: by as
 * much as it takes, down to 0.72 of nine times 15 pt, which is 38 pt. */
static void test_set_closer(void **state) {
    double whole = last_of_ten(state, 0), close = last_of_ten(state, 30);
    assert_true(whole > 0 && close > 0);
    assert_true(fabs(close - whole) < 10);
    assert_true(last_of_ten(state, 45) == 0);
}

static void test_space_is_dropped_at_the_top(void **state) {
    struct bench *b = *state;
    double room = bench_room(b);
    bench_slab(b, room - 10, "all of it");
    flow_space(&b->flow, 40);
    bench_slab(b, 20, "next");
    const struct pages *p = bench_pages(b);
    assert_int_equal(p->count, 2);
    assert_true(fabs(p->page[1].ops[0].y - (b->composer.style->top + 10)) <
                0.01);
}

static void test_too_tall_is_reported(void **state) {
    struct bench *b = *state;
    bench_slab(b, bench_room(b) + 5, "giant");
    bench_pages(b);
    assert_non_null(strstr(bench_messages(b), "taller than the page"));
}

static void test_too_much_bound_together_is_reported(void **state) {
    struct bench *b = *state;
    for (int i = 0; i < 4; i++) {
        flow_bond(&b->flow, BOND_FAST);
        bench_slab(b, bench_room(b) / 3, "bound");
    }
    bench_pages(b);
    assert_non_null(strstr(bench_messages(b), "leaves it no room"));
}

static void test_not_finite_is_reported(void **state) {
    struct bench *b = *state;
    struct slab *s = bench_slab(b, 20, "good");
    slab_rule(&b->composer, s, 0, 5, (double)NAN, 5, 1);
    slab_fill(&b->composer, s, 0, 0, (double)INFINITY, 5, style_black());
    const struct pages *p = bench_pages(b);
    assert_int_equal(p->page[0].op_count, 1); /* the others are not drawn */
    assert_non_null(
        strstr(bench_messages(b), "place on the page is not a number"));
}

static void test_past_the_margin_is_reported(void **state) {
    struct bench *b = *state;
    struct slab *s = bench_slab(b, 20, "good");
    slab_rule(&b->composer, s, 0, 5, 510, 5, 1);
    bench_pages(b);
    assert_non_null(strstr(bench_messages(b), "wider than the page"));
}

/* Links find their target on another page; one without a target is left out. */
static void test_links_and_anchors(void **state) {
    struct bench *b = *state;
    struct anchor there = {-1, 0}, nowhere = {-1, 0};
    struct slab *s = bench_slab(b, bench_room(b), "from");
    slab_link(
        &b->composer, s,
        (struct link){.x = 1, .y = 2, .width = 3, .height = 4, .to = &there});
    slab_link(&b->composer, s, (struct link){.x = 9, .to = &nowhere});
    bench_slab(b, 20, "to")->anchor = &there;
    const struct pages *p = bench_pages(b);
    assert_int_equal(there.page, 1);
    assert_int_equal(p->page[0].op_count, 2);
    const struct op *link = &p->page[0].ops[1];
    assert_int_equal(link->kind, OP_LINK);
    assert_int_equal(link->page, 1);
    assert_true(fabs(link->target_y - b->composer.style->top) < 0.01);
}

/* What follows space stands on the grid, on each page anew, and near what it
 * asked for. */
static void test_space_keeps_the_grid(void **state) {
    struct bench *b = *state;
    const struct style *style = b->composer.style;
    for (int i = 0; i < 90; i++) {
        flow_space(&b->flow, 1 + i % 11);
        bench_slab(b, 14 + i % 7, "slab");
    }
    const struct pages *p = bench_pages(b);
    assert_true(p->count > 1);
    for (size_t i = 0; i < p->count; i++)
        for (size_t k = 0; k < p->page[i].op_count; k++) {
            double y = p->page[i].ops[k].y - 10 - style->top;
            assert_true(fabs(y / style->grid - round(y / style->grid)) < 1e-6);
        }
    for (size_t i = 1; i < b->flow.count; i++) {
        const struct slab *s = b->flow.slab[i];
        double gap = flow_below(style, 100, s) - 100;
        assert_true(gap >= s->space / 2 && gap < s->space + style->grid);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
#define TEST(name)                                                             \
    cmocka_unit_test_setup_teardown(name, bench_open, bench_close)
        TEST(test_heading_never_ends_a_page),
        TEST(test_no_widows_or_orphans),
        TEST(test_group_stays_on_one_page),
        TEST(test_tall_group_is_parted),
        TEST(test_fewest_pages),
        TEST(test_white_space_is_shared),
        TEST(test_the_last_page_is_worth_turning_to),
        TEST(test_set_closer),
        TEST(test_space_is_dropped_at_the_top),
        TEST(test_space_keeps_the_grid),
        TEST(test_too_tall_is_reported),
        TEST(test_too_much_bound_together_is_reported),
        TEST(test_not_finite_is_reported),
        TEST(test_past_the_margin_is_reported),
        TEST(test_links_and_anchors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
