/* test_schematic_plan.c - where the parts of circuits stand: on random circuits
 * nothing lies over anything, and what needs no crossing has none. */
#include "layout/schematic_plan.h"
#include "layout/schematic_rung.h"

#include "base/arena.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "unit/dice.h"

enum { CIRCUITS = 500, BAND = 15, TAPS = 400, MOST = 1024 };

static struct dice dice;

struct drawing {
    struct arena *arena;
    struct plan plan;
    struct plan_rung rung[MOST];
    struct plan_point point[MOST];
    size_t spans;
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
    d->spans += count - 1;
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
    assert_true(s->up == !down);
    double y = top_of(d, s) + BAND;
    assert_true(d->point[s->from].y != d->point[s->to].y);
    for (size_t i = 0; i < s->count; i++) {
        size_t e = down ? i : s->count - 1 - i;
        assert_true(s->y[e] >= y - 1e-6);
        y = s->y[e] + s->height[e];
        for (size_t k = 0; k < d->plan.point_count; k++)
            if (rung_crosses(&d->plan, &d->rung[rung], k))
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

/* The spans of a rung meet at their ends and nowhere else. */
static void check_rung(const struct drawing *d, const struct plan_rung *r) {
    for (size_t i = 0; i < r->count; i++)
        for (size_t k = 0; k < i; k++)
            assert_true(
                fmax(top_of(d, &r->span[i]), top_of(d, &r->span[k])) >=
                fmin(bottom_of(d, &r->span[i]), bottom_of(d, &r->span[k])));
}

/* No span is lost where chains are parted. */
static void check_spans(const struct drawing *d) {
    size_t spans = 0;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        spans += d->rung[r].count;
    assert_int_equal(spans, d->spans);
}

static void check(const struct drawing *d) {
    const struct plan *p = &d->plan;
    size_t crossings = 0;
    check_spans(d);
    for (size_t r = 0; r < p->rung_count; r++) {
        assert_true(d->rung[r].column < p->columns);
        check_rung(d, &d->rung[r]);
        for (size_t k = 0; k < d->rung[r].count; k++)
            check_span(d, r, &d->rung[r].span[k]);
        for (size_t k = 0; k < r; k++)
            if (d->rung[k].column == d->rung[r].column)
                check_column(d, k, r);
        for (size_t k = 0; k < p->point_count; k++)
            crossings += rung_crosses(p, &d->rung[r], k);
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

/* The same with rungs written against the current: each point still lies
 * between the posts, and nothing crosses. */
static void turn_some(struct drawing *d) {
    for (size_t r = 1; r < d->plan.rung_count; r++) {
        struct plan_span *s = &d->rung[r].span[0];
        size_t from = s->from;
        if (roll_one(&dice, 2) == 0)
            continue;
        s->from = s->to;
        s->to = from;
    }
}

static void test_written_back(void **state) {
    (void)state;
    for (size_t n = 0; n < CIRCUITS; n++) {
        struct drawing d;
        dice.state = 3 * n + 2;
        open(&d);
        d.plan.point_count = 2;
        add_rung(&d, (size_t[]){0, 1}, 2); /* the battery */
        d.point[0].post = PLAN_PLUS;
        d.point[1].post = PLAN_MINUS;
        grow(&d, 0, 1, 0);
        turn_some(&d);
        plan_make(d.arena, &d.plan);
        check(&d);
        assert_int_equal(d.plan.crossings, 0);
        for (size_t i = 2; i < d.plan.point_count; i++)
            assert_true(d.point[i].y > d.point[0].y &&
                        d.point[i].y < d.point[1].y);
        arena_free(d.arena);
    }
}

/* A relay coil between plus and minus, its flyback diode written from minus to
 * the signal in one chain or in a path of its own. */
static void test_flyback(void **state) {
    (void)state;
    for (int chained = 0; chained < 2; chained++) {
        struct drawing d;
        dice.state = 5;
        open(&d);
        d.plan.point_count = 3;
        d.point[0].post = PLAN_PLUS;
        d.point[1].post = PLAN_MINUS;
        add_rung(&d, (size_t[]){0, 1}, 2);
        add_rung(&d, (size_t[]){0, 2, 1, 2}, chained ? 4 : 3);
        if (!chained)
            add_rung(&d, (size_t[]){1, 2}, 2);
        plan_make(d.arena, &d.plan);
        check(&d);
        assert_int_equal(d.plan.rung_count, 3);
        assert_int_equal(d.plan.columns, 3);
        assert_int_equal(d.plan.crossings, 0);
        assert_true(d.point[0].y < d.point[2].y && d.point[2].y < d.point[1].y);
        arena_free(d.arena);
    }
}

/* Battery and alternator: a bus between their plus posts stays between them as
 * it was written, one that nothing feeds hangs below plus, and a lead between
 * the minus posts does not come to lie at the top. */
static void test_two_supplies(void **state) {
    (void)state;
    enum { BATTERY, CHASSIS, ALTERNATOR, CASE, BUS, SENSE, STUD, ALL };
    struct drawing d;
    dice.state = 9;
    open(&d);
    d.plan.point_count = ALL;
    d.point[BATTERY].post = d.point[ALTERNATOR].post = PLAN_PLUS;
    d.point[CHASSIS].post = d.point[CASE].post = PLAN_MINUS;
    add_rung(&d, (size_t[]){BATTERY, CHASSIS}, 2);
    add_rung(&d, (size_t[]){ALTERNATOR, CASE}, 2);
    add_rung(&d, (size_t[]){ALTERNATOR, BUS, BATTERY}, 3);
    add_rung(&d, (size_t[]){SENSE, BATTERY}, 2);
    add_rung(&d, (size_t[]){SENSE, CHASSIS}, 2);
    add_rung(&d, (size_t[]){CHASSIS, STUD, CASE}, 3);
    plan_make(d.arena, &d.plan);
    check(&d);
    assert_true(d.point[ALTERNATOR].y < d.point[BUS].y);
    assert_true(d.point[BUS].y < d.point[BATTERY].y);
    assert_true(d.point[BATTERY].y < d.point[SENSE].y);
    assert_true(d.point[SENSE].y < d.point[CHASSIS].y);
    assert_true(d.point[CHASSIS].y < d.point[STUD].y);
    assert_true(d.point[STUD].y < d.point[CASE].y);
    arena_free(d.arena);
}

/* Two paths that meet at a point and none away from it: through the lower of
 * the points that they come from the current leaves, also where what hangs
 * there is more than one point. */
static void test_turned_to_drain(void **state) {
    (void)state;
    enum { PLUS, MINUS, HIGH, LOW, STUCK, BESIDE, ALL };
    for (int both = 0; both < 2; both++) {
        struct drawing d;
        dice.state = 4;
        open(&d);
        d.plan.point_count = both ? ALL : BESIDE;
        d.point[PLUS].post = PLAN_PLUS;
        d.point[MINUS].post = PLAN_MINUS;
        add_rung(&d, (size_t[]){PLUS, MINUS}, 2);
        add_rung(&d, (size_t[]){PLUS, HIGH, LOW, MINUS}, 4);
        add_rung(&d, (size_t[]){HIGH, STUCK}, 2);
        add_rung(&d, (size_t[]){LOW, STUCK}, 2);
        if (both) {
            add_rung(&d, (size_t[]){LOW, BESIDE, STUCK}, 3);
            add_rung(&d, (size_t[]){LOW, STUCK}, 2);
        }
        plan_make(d.arena, &d.plan);
        check(&d);
        assert_true(d.point[HIGH].y < d.point[STUCK].y);
        assert_true(d.point[STUCK].y < d.point[LOW].y);
        if (both)
            assert_true(d.point[BESIDE].y < d.point[LOW].y);
        arena_free(d.arena);
    }
}

/* Anything joined to anything: bridges, circles, several supplies. */
static void join_any(struct drawing *d, size_t n) {
    dice.state = 7 * n + 3;
    open(d);
    size_t points = 2 + roll_one(&dice, 9), rungs = points + roll_one(&dice, 8);
    d->plan.point_count = points;
    for (size_t i = 0; i < points; i++) /* half the circuits have supplies */
        d->point[i].post =
            n % 2 == 0 ? PLAN_INNER : (enum plan_post)roll_one(&dice, 3);
    for (size_t i = 0; i < rungs; i++) {
        size_t chain[3], count = 2 + roll_one(&dice, 2);
        chain[0] = i < points ? i : roll_one(&dice, points);
        for (size_t k = 1; k < count; k++)
            do
                chain[k] = roll_one(&dice, points);
            while (chain[k] == chain[k - 1]);
        add_rung(d, chain, count);
    }
}

static void test_any(void **state) {
    (void)state;
    size_t crossings = 0;
    for (size_t n = 0; n < CIRCUITS; n++) {
        struct drawing d;
        join_any(&d, n);
        plan_make(d.arena, &d.plan);
        check(&d);
        crossings += d.plan.crossings;
        arena_free(d.arena);
    }
    assert_true(crossings > 0); /* some of them cannot do without */
}

static void stretch(struct drawing *d, size_t n) {
    dice.state = 5 * n + 1;
    d->plan.band += (double)roll_one(&dice, 2);
    for (size_t r = 0; r < d->plan.rung_count; r++)
        for (size_t k = 0; k < d->rung[r].count; k++)
            for (size_t i = 0; i < d->rung[r].span[k].count; i++)
                d->rung[r].span[k].height[i] =
                    30 + (double)roll_one(&dice, 200);
}

/* A plan with other heights is the one that these give at once. */
static void test_again(void **state) {
    (void)state;
    for (size_t n = 0; n < CIRCUITS; n++) {
        static struct drawing once, again;
        join_any(&once, n);
        join_any(&again, n);
        plan_make(again.arena, &again.plan);
        stretch(&again, n);
        plan_make(again.arena, &again.plan);
        stretch(&once, n);
        plan_make(once.arena, &once.plan);
        assert_int_equal(once.plan.columns, again.plan.columns);
        assert_int_equal(once.plan.crossings, again.plan.crossings);
        for (size_t r = 0; r < once.plan.rung_count; r++)
            assert_int_equal(once.rung[r].column, again.rung[r].column);
        for (size_t i = 0; i < once.plan.point_count; i++)
            assert_true(once.point[i].y == again.point[i].y);
        arena_free(once.arena);
        arena_free(again.arena);
    }
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

/* A trunk with very many taps that all return to minus: without a crossing, and
 * in a time that grows with their square at the most. */
static void test_trunk(void **state) {
    (void)state;
    for (size_t taps = 25; taps <= TAPS; taps *= 2) {
        static struct drawing d;
        open(&d);
        dice.state = taps;
        d.plan.point_count = taps + 2;
        add_rung(&d, (size_t[]){0, 1}, 2); /* the battery */
        for (size_t i = 0; i < taps; i++)
            add_rung(&d, (size_t[]){i == 0 ? 0 : i + 1, i + 2}, 2);
        for (size_t i = 0; i < taps; i++)
            add_rung(&d, (size_t[]){i + 2, 1}, 2);
        clock_t start = clock();
        plan_make(d.arena, &d.plan);
        assert_true(clock() - start < 4 * CLOCKS_PER_SEC); /* 0.02 s */
        check(&d);
        assert_int_equal(d.plan.crossings, 0);
        assert_true(d.plan.columns <= taps + 1);
        arena_free(d.arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_series_and_parallel),
        cmocka_unit_test(test_written_back),
        cmocka_unit_test(test_flyback),
        cmocka_unit_test(test_two_supplies),
        cmocka_unit_test(test_turned_to_drain),
        cmocka_unit_test(test_any),
        cmocka_unit_test(test_again),
        cmocka_unit_test(test_bus_in_order),
        cmocka_unit_test(test_trunk),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
