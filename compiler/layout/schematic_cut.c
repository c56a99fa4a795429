/* schematic_cut.c - where a drawing that is too large for a page is cut. */
#include "layout/schematic_cut.h"

#include "base/arena.h"
#include "layout/schematic_rung.h"

#include <math.h>

/* An element, or a bar with its words: what shall not be cut. */
struct thing {
    bool bar;
    double at; /* where it stands: of a bar its line */
    double top, bottom;
};

/* Those of some columns, in the order of the plan. */
struct things {
    struct thing *thing;
    size_t count;
    double tallest; /* element */
};

bool schematic_is_tall(const struct diagram *d) {
    return d->plan.height > d->room;
}

static struct things find_things(const struct diagram *d, size_t from,
                                 size_t to) {
    const struct plan *p = &d->plan;
    struct things t = {0};
    t.thing = arena_alloc(d->l->composer.arena, d->item_count + p->point_count,
                          sizeof *t.thing);
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung[r].count; k++) {
            const struct plan_span *s = &p->rung[r].span[k];
            if (p->rung[r].column < from || p->rung[r].column >= to)
                break;
            for (size_t i = 0; i < s->count; i++) {
                t.thing[t.count++] = (struct thing){false, s->y[i], s->y[i],
                                                    s->y[i] + s->height[i]};
                t.tallest = fmax(t.tallest, s->height[i]);
            }
        }
    for (size_t i = 0; i < p->point_count; i++) {
        const struct plan_point *q = &p->point[i];
        if (q->ends > 0 && q->first < to && q->last >= from)
            t.thing[t.count++] = (struct thing){true, q->y, q->y - d->band - 2,
                                                q->y + d->band + 2};
    }
    return t;
}

/* The top of what a cut there would part; the place itself where it is clear.
 */
static double clear_above(const struct things *t, double y, bool bars) {
    double top = y;
    for (size_t i = 0; i < t->count; i++)
        if ((t->thing[i].bar || !bars) && y > t->thing[i].top &&
            y < t->thing[i].bottom)
            top = fmin(top, t->thing[i].top);
    return top;
}

/* As low as possible with nothing cut, but with most of the sheet used; NAN:
 * everything is in the way. */
static double clear_place(const struct things *t, double top, double most,
                          bool bars) {
    for (double y = top + most; y > top + most / 3;) {
        double clear = clear_above(t, y, bars);
        if (clear == y)
            return y;
        y -= fmax(1, ceil(y - clear));
    }
    return NAN;
}

/* Where a sheet ends that begins at `top`; the last thing of all is a bar. */
static double sheet_end(const struct diagram *d, const struct things *t,
                        double top) {
    double last = top, most = d->room;
    for (size_t i = 0; i < t->count; i++)
        last = fmax(last, t->thing[i].at);
    if (last - top <= most)
        return last;
    double end = clear_place(t, top, most, false);
    if (!isnan(end))
        return end;
    most = fmax(most / 2, most - t->tallest); /* elements may reach below it */
    end = clear_place(t, top, most, true);
    return isnan(end) ? top + most : end;
}

/* Down to the last thing that begins on the sheet. */
static double trimmed(const struct things *t, double top, double end) {
    double last = top;
    for (size_t i = 0; i < t->count; i++)
        if (t->thing[i].top < end)
            last = fmax(last, t->thing[i].bottom);
    return fmin(last, end);
}

/* The first thing that a sheet with this end leaves; INFINITY: nothing. A bar
 * at its very end stands on it. */
static double next_thing(const struct things *t, double end) {
    double next = INFINITY;
    for (size_t i = 0; i < t->count; i++) {
        const struct thing *thing = &t->thing[i];
        if (thing->bar ? thing->at > end : thing->at >= end)
            next = fmin(next, thing->at);
    }
    return next;
}

double schematic_cut_rung(const struct diagram *d, size_t rung, double y) {
    const struct plan_rung *r = &d->plan.rung[rung];
    if (y <= rung_top(&d->plan, r) || y >= rung_bottom(&d->plan, r))
        return NAN;
    double at = y;
    for (size_t k = 0; k < r->count; k++)
        for (size_t i = 0; i < r->span[k].count; i++) {
            double top = r->span[k].y[i], bottom = top + r->span[k].height[i];
            if (y > top && y < bottom)
                at = bottom;
        }
    return at;
}

static bool is_drawn(const struct diagram *d, size_t rung) {
    size_t column = d->plan.rung[rung].column;
    return column >= d->piece.from && column < d->piece.to;
}

double schematic_overhang(const struct diagram *d) {
    double over = 0;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        if (is_drawn(d, r) && !isnan(schematic_cut_rung(d, r, d->piece.bottom)))
            over = fmax(over, schematic_cut_rung(d, r, d->piece.bottom) -
                                  d->piece.bottom);
    return over;
}

static size_t marks_at(const struct diagram *d, const struct piece *p,
                       double y) {
    size_t marks = 0;
    for (size_t r = 0; r < d->plan.rung_count; r++)
        marks += d->plan.rung[r].column >= p->from &&
                 d->plan.rung[r].column < p->to &&
                 !isnan(schematic_cut_rung(d, r, y));
    return marks;
}

/* One piece below the other. What ends at the bottom of one goes on at the top
 * of the next: nothing stands between them. */
static size_t cut_columns(const struct diagram *d, struct piece *piece,
                          size_t from, size_t to, size_t *marks) {
    struct things t = find_things(d, from, to);
    double end = 0, next = next_thing(&t, -1);
    size_t count = 0;
    while (isfinite(next)) {
        struct piece *p = &piece[count++];
        double top = fmax(end, next - d->band);
        end = sheet_end(d, &t, top);
        *p = (struct piece){from, to, top, trimmed(&t, top, end), *marks, 0};
        *marks += marks_at(d, p, top);
        p->below = *marks;
        next = next_thing(&t, end);
    }
    return count;
}

struct piece *schematic_cut(const struct diagram *d, size_t columns,
                            size_t *count) {
    size_t across = (d->plan.columns + columns - 1) / columns, marks = 0;
    bool tall = schematic_is_tall(d);
    size_t down = 2 + (tall ? (size_t)(6 * d->plan.height / d->room) : 0);
    struct piece *piece =
        arena_alloc(d->l->composer.arena, across * down, sizeof *piece);
    *count = 0;
    for (size_t from = 0; from < d->plan.columns; from += columns) {
        size_t to =
            from + columns < d->plan.columns ? from + columns : d->plan.columns;
        if (tall)
            *count += cut_columns(d, piece + *count, from, to, &marks);
        else
            piece[(*count)++] =
                (struct piece){from, to, 0, d->plan.height, 0, 0};
    }
    return piece;
}
