/* test_schematic_columns.c - the columns of rungs, on random circuits: what was
 * reckoned move by move is what a count over the whole drawing gives. */
#include "layout/schematic_columns.h"
#include "layout/schematic_rung.h"

#include "base/arena.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "unit/dice.h"

enum { CIRCUITS = 2000, RUNGS = 60, POINTS = 24 };

static struct dice dice;

/* Points below each other, some at one height; rungs down over two to four. */
static void fill(struct arena *a, struct plan *p) {
    p->point_count = 3 + roll_one(&dice, POINTS - 2);
    p->rung_count = 2 + roll_one(&dice, RUNGS - 1);
    p->band = 15;
    p->rung = arena_alloc(a, p->rung_count, sizeof *p->rung);
    p->point = arena_alloc(a, p->point_count, sizeof *p->point);
    for (size_t i = 1; i < p->point_count; i++)
        p->point[i].y = p->point[i - 1].y + 40 * (double)roll_one(&dice, 3);
    p->point[p->point_count - 1].y += 80;
    for (size_t r = 0; r < p->rung_count; r++) {
        struct plan_rung *rung = &p->rung[r];
        rung->span = arena_alloc(a, 3, sizeof *rung->span);
        size_t at = roll_one(&dice, (uint32_t)p->point_count - 1), to = at;
        while (to + 1 < p->point_count && rung->count < 3 &&
               (rung->count == 0 || roll_one(&dice, 2) == 0)) {
            while (p->point[to].y == p->point[at].y ||
                   (to + 1 < p->point_count && roll_one(&dice, 3) == 0))
                to++;
            rung->span[rung->count++] =
                (struct plan_span){.from = at, .to = to};
            at = to;
            if (p->point[at].y == p->point[p->point_count - 1].y)
                break;
        }
    }
    rung_find_points(a, p);
}

static size_t crossings(const struct plan *p) {
    size_t sum = 0;
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t i = 0; i < p->point_count; i++)
            sum += rung_crosses(p, &p->rung[r], i);
    return sum;
}

/* From the first of its rungs to the last. */
static void check_bar(const struct plan *p, size_t point) {
    size_t first = SIZE_MAX, last = 0;
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t c = p->rung[r].column;
        if (!rung_joins(&p->rung[r], point))
            continue;
        first = c < first ? c : first;
        last = c > last ? c : last;
    }
    assert_true(p->point[point].first == first);
    assert_true(p->point[point].last == last);
}

static void check_columns(const struct plan *p) {
    for (size_t c = 0; c < p->columns; c++) {
        size_t used = 0;
        for (size_t r = 0; r < p->rung_count; r++)
            used += p->rung[r].column == c;
        assert_true(used > 0);
    }
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < r; k++)
            assert_true(
                p->rung[r].column != p->rung[k].column ||
                rung_bottom(p, &p->rung[r]) <= rung_top(p, &p->rung[k]) ||
                rung_bottom(p, &p->rung[k]) <= rung_top(p, &p->rung[r]));
}

static void test_counted(void **state) {
    (void)state;
    size_t shared = 0;
    for (size_t n = 0; n < CIRCUITS; n++) {
        struct arena *a = arena_new();
        struct plan p = {0};
        dice.state = 11 * n + 5;
        fill(a, &p);
        schematic_columns(a, &p);
        assert_int_equal(p.crossings, crossings(&p));
        for (size_t i = 0; i < p.point_count; i++)
            check_bar(&p, i);
        check_columns(&p);
        shared += p.rung_count - p.columns;
        arena_free(a);
    }
    assert_true(shared > CIRCUITS);
}

static void add_rung(struct arena *a, struct plan *p, size_t from, size_t to) {
    struct plan_rung *rung = &p->rung[p->rung_count++];
    rung->span = arena_alloc(a, 3, sizeof *rung->span);
    for (size_t at = from; at < to; at++)
        rung->span[rung->count++] =
            (struct plan_span){.from = at, .to = at + 1};
}

/* A supply, the feed of a bus above its first fuse, more fuses, the last with
 * the return below it: the fuses between stand as they are written. */
static void test_alike(void **state) {
    (void)state;
    enum { FUSES = 6 };
    struct arena *a = arena_new();
    struct plan p = {.point_count = 4, .band = 15};
    p.rung = arena_alloc(a, FUSES + 1, sizeof *p.rung);
    p.point = arena_alloc(a, p.point_count, sizeof *p.point);
    for (size_t i = 1; i < p.point_count; i++)
        p.point[i].y = p.point[i - 1].y + 80;
    add_rung(a, &p, 0, 3);
    p.rung[0].span[0].to = 3;
    p.rung[0].count = 1;
    add_rung(a, &p, 0, 2);
    for (size_t i = 0; i + 2 < FUSES; i++)
        add_rung(a, &p, 1, 2);
    add_rung(a, &p, 1, 3);
    rung_find_points(a, &p);
    schematic_columns(a, &p);
    assert_int_equal(p.crossings, 0);
    for (size_t r = 2; r + 1 < FUSES; r++)
        assert_true(p.rung[r].column < p.rung[r + 1].column);
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_counted),
                                       cmocka_unit_test(test_alike)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
