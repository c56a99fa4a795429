/* test_schematic_cut.c - drawings cut for sheets of any height: each part
 * stands on one sheet, and what ends on one goes on on the next. */
#include "layout/schematic_cut.h"
#include "layout/schematic_rung.h"

#include "base/arena.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "unit/dice.h"

enum { TAPS = 9, BAND = 15, COLUMNS = 4 };

static struct dice dice;

static void add_rung(struct arena *a, struct diagram *d, size_t from,
                     size_t to) {
    size_t n = 1 + roll_one(&dice, 4);
    struct plan_span *s = arena_alloc(a, 1, sizeof *s);
    double *height = arena_alloc(a, n, sizeof *height);
    for (size_t i = 0; i < n; i++)
        height[i] = 30 + 10 * (double)roll_one(&dice, 4);
    *s = (struct plan_span){.from = from,
                            .to = to,
                            .height = height,
                            .count = n,
                            .y = arena_alloc(a, n, sizeof *s->y)};
    d->item_count += n;
    d->plan.rung[d->plan.rung_count++] =
        (struct plan_rung){.span = s, .count = 1};
}

/* A trunk whose taps all return to minus. */
static void plan_trunk(struct arena *a, struct diagram *d, struct leaf *l) {
    l->composer.arena = a;
    *d = (struct diagram){.l = l, .band = BAND};
    d->plan.band = BAND;
    d->plan.point_count = TAPS + 2;
    d->plan.point = arena_alloc(a, TAPS + 2, sizeof *d->plan.point);
    d->plan.rung = arena_alloc(a, 2 * TAPS + 1, sizeof *d->plan.rung);
    add_rung(a, d, 0, 1); /* the battery */
    for (size_t i = 0; i < TAPS; i++)
        add_rung(a, d, i == 0 ? 0 : i + 1, i + 2);
    for (size_t i = 0; i < TAPS; i++)
        add_rung(a, d, i + 2, 1);
    plan_make(a, &d->plan);
}

static bool has_column(const struct piece *p, size_t column) {
    return column >= p->from && column < p->to;
}

static void check_parts(const struct diagram *d, const struct piece *piece,
                        size_t count) {
    for (size_t r = 0; r < d->plan.rung_count; r++) {
        const struct plan_rung *rung = &d->plan.rung[r];
        for (size_t i = 0; i < rung->span[0].count; i++) {
            double y = rung->span[0].y[i];
            size_t shown = 0;
            for (size_t k = 0; k < count; k++)
                shown += has_column(&piece[k], rung->column) &&
                         y >= piece[k].top && y < piece[k].bottom;
            assert_int_equal(shown, 1);
        }
    }
}

/* Once for each group of columns that it lies over. */
static void check_bars(const struct diagram *d, const struct piece *piece,
                       size_t count) {
    for (size_t i = 0; i < d->plan.point_count; i++)
        for (size_t from = 0; from < d->plan.columns; from += COLUMNS) {
            const struct plan_point *q = &d->plan.point[i];
            size_t shown = 0;
            for (size_t k = 0; k < count; k++)
                shown += piece[k].from == from && q->y >= piece[k].top &&
                         q->y <= piece[k].bottom;
            if (q->first < from + COLUMNS && q->last >= from)
                assert_int_equal(shown, 1);
        }
}

/* The lines cut at the bottom of a piece are those at the top of the next. */
static void check_marks(struct diagram *d, const struct piece *piece,
                        size_t count) {
    for (size_t k = 0; k < count; k++) {
        size_t below = 0;
        bool last = k + 1 == count || piece[k + 1].from != piece[k].from;
        d->piece = piece[k];
        assert_true(piece[k].bottom + schematic_overhang(d) - piece[k].top <=
                    fmax(d->room, 6 * BAND) + 1e-6);
        for (size_t r = 0; r < d->plan.rung_count; r++) {
            if (!has_column(&piece[k], d->plan.rung[r].column))
                continue;
            bool cut = !isnan(schematic_cut_rung(d, r, piece[k].bottom));
            bool goes_on =
                !last && !isnan(schematic_cut_rung(d, r, piece[k + 1].top));
            assert_true(cut == goes_on);
            below += cut;
        }
        if (k + 1 < count) {
            assert_int_equal(piece[k + 1].above, piece[k].below);
            assert_int_equal(piece[k + 1].below,
                             piece[k].below + (last ? 0 : below));
        }
    }
}

static void test_any_room(void **state) {
    (void)state;
    for (size_t n = 0; n < 40; n++) {
        struct arena *a = arena_new();
        struct leaf l = {0};
        struct diagram d;
        dice.state = n;
        plan_trunk(a, &d, &l);
        for (double room = 150; room < 700; room += 2.5) {
            size_t count;
            d.room = room;
            struct piece *piece = schematic_cut(&d, COLUMNS, &count);
            check_parts(&d, piece, count);
            check_bars(&d, piece, count);
            check_marks(&d, piece, count);
        }
        arena_free(a);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_any_room)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
