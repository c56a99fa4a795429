/* test_schematic_plan.c - where the parts of circuits stand: on random circuits
 * nothing lies over anything, and what needs no crossing has none. */
#include "layout/schematic_plan.h"

#include "base/arena.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "unit/dice.h"

enum { CIRCUITS = 500, BAND = 15 };

static struct dice dice;

struct drawing {
    struct arena *arena;
    struct plan plan;
    struct plan_rung rung[64];
    struct plan_point point[64];
};

static void open(struct drawing *d) {
    memset(d, 0, sizeof *d);
    d->arena = arena_new();
    d->plan.rung = d->rung;
    d->plan.point = d->point;
    d->plan.band = BAND;
}

/* A rung over these points, `count` of them, with 1 to 4 elements in a span. */
static void add_rung(struct drawing *d, const size_t *points, size_t count) {
    struct plan_span *span = arena_alloc(d->arena, count, sizeof *span);
    for (size_t i = 0; i + 1 < count; i++) {
        size_t n = 1 + roll_one(&dice, 4);
        double *height = arena_alloc(d->arena, n, sizeof *height);
        for (size_t k = 0; k < n; k++)
            height[k] = 30 + (double)roll_one(&dice, 40);
        span[i] =
            (struct plan_span){.from = points[i],
                               .to = points[i + 1],
                               .height = height,
                               .count = n,
                               .y = arena_alloc(d->arena, n, sizeof *span->y)};
    }
    d->rung[d->plan.rung_count++] =
        (struct plan_rung){.span = span, .count = count - 1};
}

static double top_of(const struct drawing *d, const struct plan_span *s) {
    return fmin(d->point[s->from].y, d->point[s->to].y);
}

static double bottom_of(const struct drawing *d, const struct plan_span *s) {
    return fmax(d->point[s->from].y, d->point[s->to].y);
}

/* Symbols and words stand in their span, one after the other, clear of every
 * bar that passes. */
static void check_span(const struct drawing *d, size_t rung,
                       const struct plan_span *s) {
    bool down = d->point[s->from].y < d->point[s->to].y;
    double y = top_of(d, s) + BAND;
    assert_true(d->point[s->from].y != d->point[s->to].y);
    for (size_t i = 0; i < s->count; i++) {
        size_t e = down ? i : s->count - 1 - i;
        assert_true(s->y[e] >= y - 1e-6);
        y = s->y[e] + s->height[e];
        for (size_t k = 0; k < d->plan.point_count; k++)
            if (plan_crosses(&d->plan, rung, k))
                assert_true(d->point[k].y <= s->y[e] - BAND + 1e-6 ||
                            d->point[k].y >= y + BAND - 1e-6);
    }
    assert_true(y <= bottom_of(d, s) - BAND + 1e-6);
}

static bool same_point(const struct plan_rung *a, const struct plan_rung *b,
                       double y, const struct drawing *d) {
    for (size_t i = 0; i < a->count; i++)
        for (size_t k = 0; k < b->count; k++) {
            size_t one[2] = {a->span[i].from, a->span[i].to};
            size_t two[2] = {b->span[k].from, b->span[k].to};
            for (int e = 0; e < 4; e++)
                if (one[e / 2] == two[e % 2] && d->point[one[e / 2]].y == y)
                    return true;
        }
    return false;
}

/* Two rungs of one column meet at a point of both at the most. */
static void check_column(const struct drawing *d, size_t a, size_t b) {
    const struct plan_rung *r = &d->rung[a], *q = &d->rung[b];
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < q->count; k++) {
            double low = fmax(top_of(d, &r->span[i]), top_of(d, &q->span[k]));
            double high =
                fmin(bottom_of(d, &r->span[i]), bottom_of(d, &q->span[k]));
            assert_true(low >= high);
            if (low == high)
                assert_true(same_point(r, q, low, d));
        }
}

/* The names above and the volts below two bars do not meet. */
static void check_bars(const struct drawing *d, size_t a, size_t b) {
    const struct plan_point *p = &d->point[a], *q = &d->point[b];
    if (p->first <= q->last && q->first <= p->last)
        assert_true(fabs(p->y - q->y) >= 2 * BAND);
}

static void check(const struct drawing *d) {
    const struct plan *p = &d->plan;
    size_t crossings = 0;
    for (size_t r = 0; r < p->rung_count; r++) {
        assert_true(d->rung[r].column < p->columns);
        for (size_t k = 0; k < d->rung[r].count; k++)
            check_span(d, r, &d->rung[r].span[k]);
        for (size_t k = 0; k < r; k++)
            if (d->rung[k].column == d->rung[r].column)
                check_column(d, k, r);
        for (size_t k = 0; k < p->point_count; k++)
            crossings += plan_crosses(p, r, k);
    }
    assert_int_equal(crossings, p->crossings);
    for (size_t i = 0; i < p->point_count; i++) {
        assert_true(d->point[i].y >= 0 && d->point[i].y <= p->height);
        assert_true(d->point[i].ends > 0);
        for (size_t k = 0; k < i; k++)
            check_bars(d, k, i);
    }
}

/* Circuits of series and parallel parts, as shops wire them, between a plus and
 * a minus: they can be drawn without a crossing. */
static void grow(struct drawing *d, size_t from, size_t to, int depth) {
    size_t ways = depth == 0                ? 1 + roll_one(&dice, 3)
                  : roll_one(&dice, 3) == 0 ? 2
                                            : 1;
    for (size_t i = 0; i < ways && d->plan.rung_count < 30; i++) {
        if (depth > 2 || d->plan.point_count > 20 || roll_one(&dice, 2) == 0) {
            add_rung(d, (size_t[]){from, to}, 2);
            continue;
        }
        size_t middle = d->plan.point_count++;
        add_rung(d, (size_t[]){from, middle}, 2);
        grow(d, middle, to, depth + 1);
    }
}

static void test_series_and_parallel(void **state) {
    (void)state;
    for (size_t n = 0; n < CIRCUITS; n++) {
        struct drawing d;
        dice.state = n + 1;
        open(&d);
        d.plan.point_count = 2;
        add_rung(&d, (size_t[]){0, 1}, 2); /* the battery */
        grow(&d, 0, 1, 0);
        plan_make(d.arena, &d.plan);
        check(&d);
        assert_int_equal(d.plan.crossings, 0);
        arena_free(d.arena);
    }
}

/* Anything joined to anything: bridges, circles, several supplies. */
static void test_any(void **state) {
    (void)state;
    size_t crossings = 0;
    for (size_t n = 0; n < CIRCUITS; n++) {
        struct drawing d;
        dice.state = 7 * n + 3;
        open(&d);
        size_t points = 2 + roll_one(&dice, 9),
               rungs = points + roll_one(&dice, 8);
        d.plan.point_count = points;
        for (size_t i = 0; i < rungs; i++) {
            size_t chain[3], count = 2 + roll_one(&dice, 2);
            chain[0] = i < points ? i : roll_one(&dice, points);
            for (size_t k = 1; k < count; k++)
                do
                    chain[k] = roll_one(&dice, points);
                while (chain[k] == chain[k - 1]);
            add_rung(&d, chain, count);
        }
        plan_make(d.arena, &d.plan);
        check(&d);
        crossings += d.plan.crossings;
        arena_free(d.arena);
    }
    assert_true(crossings > 0); /* some of them cannot do without */
}

/* Loads on one bus hang from it in the order in which they are written, from
 * left to right, whether each returns by itself or all through one wire. */
static void test_bus_in_order(void **state) {
    (void)state;
    for (size_t loads = 2; loads <= 24; loads++)
        for (int common = 0; common < 2; common++) {
            struct drawing d;
            dice.state = loads;
            open(&d);
            d.plan.point_count = common ? 4 : 3;
            add_rung(&d, (size_t[]){0, 1}, 2); /* the battery */
            add_rung(&d, (size_t[]){0, 2}, 2); /* the feed of the bus */
            for (size_t i = 0; i < loads; i++)
                add_rung(&d, (size_t[]){2, common ? 3 : 1}, 2);
            if (common)
                add_rung(&d, (size_t[]){3, 1}, 2);
            plan_make(d.arena, &d.plan);
            check(&d);
            for (size_t i = 1; i < loads; i++)
                assert_true(d.rung[1 + i].column < d.rung[2 + i].column);
            arena_free(d.arena);
        }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_series_and_parallel),
        cmocka_unit_test(test_any),
        cmocka_unit_test(test_bus_in_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
