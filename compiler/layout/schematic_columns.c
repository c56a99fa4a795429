/* schematic_columns.c - in which column each rung of a drawing stands. */
#include "layout/schematic_columns.h"

#include "base/arena.h"
#include "layout/schematic_rung.h"

#include <stdint.h>
#include <string.h>

/* What a rung has to do with the bar of a point. */
enum way { WAY_CLEAR, WAY_JOINS, WAY_PASSES };

struct work {
    struct plan *p;
    unsigned char *way; /* enum way, by rung and point */
    size_t *at, *other; /* rung by place, while their order is sought */
    bool *nested;       /* by rung: it has its place in `at` */
    size_t nested_count;
    bool *leads_on;           /* by point: something hangs from it */
    size_t crossings, length; /* as the rungs stand now; length of all bars */
    /* By column, of a rung that might move there: */
    bool *fits;
    size_t *crossed, *longer; /* crossings and length of bars that it makes */
    size_t *before;           /* rungs that pass a bar at the left of it */
};

static enum way way_of(const struct work *w, size_t rung, size_t point) {
    return (enum way)w->way[rung * w->p->point_count + point];
}

static void find_ways(struct work *w) {
    const struct plan *p = w->p;
    for (size_t r = 0; r < p->rung_count; r++) {
        const struct plan_rung *rung = &p->rung[r];
        unsigned char *way = w->way + r * p->point_count;
        double top = rung_top(p, rung), bottom = rung_bottom(p, rung);
        for (size_t i = 0; i < p->point_count; i++)
            if (p->point[i].y > top && p->point[i].y < bottom)
                way[i] = WAY_PASSES;
        for (size_t i = 0; i <= rung->count; i++)
            way[rung->point[i]] = WAY_JOINS;
    }
}

/* Columns of the bars, from those of the rungs, and what these cost. */
static void stretch_bars(struct work *w) {
    struct plan *p = w->p;
    for (size_t i = 0; i < p->point_count; i++)
        p->point[i] = (struct plan_point){
            .post = p->point[i].post, .y = p->point[i].y, .first = SIZE_MAX};
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t column = p->rung[r].column;
        for (size_t k = 0; k <= p->rung[r].count; k++) {
            struct plan_point *q = &p->point[p->rung[r].point[k]];
            q->first = column < q->first ? column : q->first;
            q->last = column > q->last ? column : q->last;
        }
        for (size_t k = 0; k < p->rung[r].count; k++) {
            p->point[p->rung[r].span[k].from].ends++;
            p->point[p->rung[r].span[k].to].ends++;
        }
    }
    w->length = 0;
    for (size_t i = 0; i < p->point_count; i++)
        if (p->point[i].ends > 0)
            w->length += p->point[i].last - p->point[i].first;
}

static void count_crossings(struct work *w) {
    w->crossings = 0;
    for (size_t r = 0; r < w->p->rung_count; r++)
        for (size_t i = 0; i < w->p->point_count; i++)
            w->crossings += way_of(w, r, i) == WAY_PASSES &&
                            w->p->rung[r].column >= w->p->point[i].first &&
                            w->p->rung[r].column <= w->p->point[i].last;
}

static size_t cost(const struct work *w) {
    return w->crossings * 1000 + w->length;
}

/* A rung that goes from one place to the next, past another: its bars that the
 * other is not joined to end elsewhere, where they ended at its place, and lie
 * over the other no more, or now. */
static void pull_bars(struct work *w, size_t rung, size_t other, size_t from,
                      size_t to) {
    const struct plan_rung *r = &w->p->rung[rung];
    for (size_t i = 0; i <= r->count; i++) {
        struct plan_point *q = &w->p->point[r->point[i]];
        enum way way = way_of(w, other, r->point[i]);
        if (way == WAY_JOINS)
            continue;
        bool over = q->first <= to && to <= q->last;
        w->length -= q->last - q->first;
        q->first = q->first == from ? to : q->first;
        q->last = q->last == from ? to : q->last;
        w->length += q->last - q->first;
        bool over_now = q->first <= from && from <= q->last;
        if (way == WAY_PASSES)
            w->crossings += (size_t)over_now - (size_t)over;
    }
}

/* No bar but those of the two rungs ends at their places: what the others cost
 * stays. */
static void swap_places(struct work *w, size_t place) {
    size_t left = w->at[place], right = w->at[place + 1];
    pull_bars(w, left, right, place, place + 1);
    pull_bars(w, right, left, place + 1, place);
    w->at[place] = right;
    w->at[place + 1] = left;
}

static size_t move(struct work *w, size_t from, size_t to) {
    for (; from < to; from++)
        swap_places(w, from);
    for (; from > to; from--)
        swap_places(w, from - 1);
    return to;
}

enum { ROUNDS = 12, MANY = 40 };

static void stand_in_order(struct work *w) {
    w->p->columns = w->p->rung_count;
    for (size_t i = 0; i < w->p->rung_count; i++)
        w->p->rung[w->at[i]].column = i;
    stretch_bars(w);
    count_crossings(w);
}

/* From the order in which they stand: each rung to the place where it costs
 * least, until none gains. With very many only the next places are tried. */
static void order_rungs(struct work *w) {
    size_t n = w->p->rung_count;
    size_t reach = n > MANY ? 2 : n;
    stand_in_order(w);
    size_t best = cost(w);
    bool better = true;
    for (int round = 0; better && round < ROUNDS; round++) {
        better = false;
        for (size_t i = 0; i < n; i++) {
            size_t low = i > reach ? i - reach : 0;
            size_t high = i + reach < n ? i + reach : n - 1;
            size_t place = i;
            for (size_t at = move(w, i, low);; at = move(w, at, at + 1)) {
                if (cost(w) < best) {
                    best = cost(w);
                    place = at;
                }
                if (at == high)
                    break;
            }
            move(w, high, place);
            better = better || place != i;
        }
    }
}

static void nest_below(struct work *w, size_t point);

static void nest_rung(struct work *w, size_t r) {
    const struct plan_rung *rung = &w->p->rung[r];
    w->nested[r] = true;
    w->at[w->nested_count++] = r;
    for (size_t i = 1; i <= rung->count; i++)
        nest_below(w, rung->point[i]);
}

/* What hangs from a point and is not yet placed: first what leads on. */
static void nest_below(struct work *w, size_t point) {
    const struct plan *p = w->p;
    for (int ends = 0; ends < 2; ends++)
        for (size_t r = 0; r < p->rung_count; r++)
            if (!w->nested[r] && rung_highest(&p->rung[r]) == point &&
                (ends == 1 || w->leads_on[rung_lowest(&p->rung[r])]))
                nest_rung(w, r);
}

/* Each rung with all that hangs below it behind it: the taps of a trunk, which
 * are seldom written in that order, do not cross each other. */
static void nest_rungs(struct work *w) {
    const struct plan *p = w->p;
    for (size_t r = 0; r < p->rung_count; r++)
        w->leads_on[rung_highest(&p->rung[r])] = true;
    for (size_t r = 0; r < p->rung_count; r++) {
        if (w->nested[r])
            continue;
        nest_rung(w, r);
        nest_below(w, rung_highest(&p->rung[r]));
    }
}

/* As they are written, or nested where this saves crossings. */
static void seek_order(struct work *w) {
    size_t n = w->p->rung_count, *written = w->at;
    for (size_t i = 0; i < n; i++)
        written[i] = i;
    order_rungs(w);
    size_t least = w->crossings;
    if (least == 0)
        return;
    w->at = w->other;
    nest_rungs(w);
    order_rungs(w);
    w->at = w->crossings < least ? w->at : written;
}

static bool same_ways(const struct work *w, size_t a, size_t b) {
    size_t points = w->p->point_count;
    return memcmp(w->way + a * points, w->way + b * points, points) == 0;
}

/* Rungs that have to do the same with every bar cost as much in each other's
 * places: they stand as they are written, as the fuses of a block do. */
static void sort_alike(struct work *w) {
    for (size_t i = 0; i < w->p->rung_count; i++)
        for (size_t k = i + 1; k < w->p->rung_count; k++) {
            size_t left = w->at[i], right = w->at[k];
            if (left < right || !same_ways(w, left, right))
                continue;
            w->at[i] = right;
            w->at[k] = left;
        }
}

/* The order hangs only on what a rung has to do with each bar: where that is as
 * it was in an earlier plan the order is, too. */
static void find_order(struct work *w) {
    struct plan *p = w->p;
    size_t ways = p->rung_count * p->point_count;
    find_ways(w);
    if (p->known.way != NULL && memcmp(p->known.way, w->way, ways) == 0) {
        memcpy(w->at, p->known.at, p->rung_count * sizeof *w->at);
    } else {
        seek_order(w);
        sort_alike(w);
    }
    p->known.way = w->way;
    p->known.at = w->at;
    stand_in_order(w);
}

/* Two rungs fit into one column where one ends before the other begins: at the
 * same point, or with a band between them. */
static bool fit(const struct plan *p, const struct plan_rung *a,
                const struct plan_rung *b) {
    const struct plan_rung *upper = rung_bottom(p, a) <= rung_top(p, b) ? a : b;
    const struct plan_rung *lower = upper == a ? b : a;
    double from = rung_bottom(p, upper), to = rung_top(p, lower);
    return from + 2 * p->band < to ||
           (from == to && rung_lowest(upper) == rung_highest(lower));
}

/* Whether the rung would fit into any column but its own. */
static bool find_columns(struct work *w, size_t rung) {
    const struct plan *p = w->p;
    size_t own = p->rung[rung].column, left = p->columns - 1;
    for (size_t c = 0; c < p->columns; c++)
        w->fits[c] = c != own;
    for (size_t r = 0; r < p->rung_count && left > 0; r++) {
        bool *fits = &w->fits[p->rung[r].column];
        if (*fits && !fit(p, &w->p->rung[r], &w->p->rung[rung])) {
            *fits = false;
            left--;
        }
    }
    return left > 0;
}

/* Bars that the rung would cross. */
static void add_crossed(struct work *w, size_t rung) {
    const struct plan *p = w->p;
    size_t *begins = w->before, here = 0; /* less those that have ended */
    memset(begins, 0, (p->columns + 1) * sizeof *begins);
    for (size_t i = 0; i < p->point_count; i++)
        if (p->point[i].ends > 0 && way_of(w, rung, i) == WAY_PASSES) {
            begins[p->point[i].first]++;
            begins[p->point[i].last + 1]--;
        }
    for (size_t c = 0; c < p->columns; c++)
        w->crossed[c] += here += begins[c];
}

/* Rungs that would cross one of its bars, and how long that would be. */
static void add_bar(struct work *w, size_t rung, size_t point) {
    const struct plan *p = w->p;
    size_t first = SIZE_MAX, last = 0, here = 0; /* where others are joined */
    memset(w->before, 0, (p->columns + 1) * sizeof *w->before);
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t c = p->rung[r].column;
        if (r != rung && way_of(w, r, point) == WAY_JOINS) {
            first = c < first ? c : first;
            last = c > last ? c : last;
        } else if (way_of(w, r, point) == WAY_PASSES) {
            w->before[c]++;
        }
    }
    for (size_t c = 0; c <= p->columns; c++) {
        size_t passing = w->before[c];
        w->before[c] = here;
        here += passing;
    }
    for (size_t c = 0; c < p->columns; c++) {
        size_t low = c < first ? c : first, high = c > last ? c : last;
        w->crossed[c] += w->before[high + 1] - w->before[low];
        w->longer[c] += high - low;
    }
}

/* What the rung costs in each column. */
static void find_costs(struct work *w, size_t rung) {
    memset(w->crossed, 0, w->p->columns * sizeof *w->crossed);
    memset(w->longer, 0, w->p->columns * sizeof *w->longer);
    add_crossed(w, rung);
    for (size_t i = 0; i <= w->p->rung[rung].count; i++)
        add_bar(w, rung, w->p->rung[rung].point[i]);
}

/* The column where a rung costs least without a crossing more than are
 * `allowed`; its own, when there is none. */
static size_t best_column(struct work *w, size_t rung, size_t allowed) {
    size_t own = w->p->rung[rung].column, best = own, least = SIZE_MAX;
    find_costs(w, rung);
    size_t others = w->crossings - w->crossed[own];
    for (size_t c = 0; c < w->p->columns; c++) {
        size_t now = w->crossed[c] * 1000 + w->longer[c];
        if (w->fits[c] && others + w->crossed[c] <= allowed && now < least) {
            least = now;
            best = c;
        }
    }
    w->crossings = others + w->crossed[best];
    return best;
}

/* Into another column; its own becomes free and is dropped, or a later rung
 * would move there, out of order. */
static void leave_column(struct work *w, size_t rung, size_t column) {
    struct plan *p = w->p;
    size_t own = p->rung[rung].column;
    p->rung[rung].column = column;
    for (size_t r = 0; r < p->rung_count; r++)
        p->rung[r].column -= p->rung[r].column > own;
    p->columns--;
    stretch_bars(w);
}

static bool stands_alone(const struct plan *p, size_t rung) {
    for (size_t r = 0; r < p->rung_count; r++)
        if (r != rung && p->rung[r].column == p->rung[rung].column)
            return false;
    return true;
}

/* Rungs that hang below each other share a column where that costs no crossing:
 * the sheet has only so many. Those written first are moved first: the feed of
 * a bus to above its first load, not its last load to below the feed. */
static void share_columns(struct work *w) {
    size_t allowed = w->crossings;
    for (size_t r = 0; r < w->p->rung_count; r++) {
        if (!stands_alone(w->p, r) || !find_columns(w, r))
            continue;
        size_t best = best_column(w, r, allowed);
        if (best != w->p->rung[r].column)
            leave_column(w, r, best);
    }
}

void schematic_columns(struct arena *a, struct plan *p) {
    size_t n = p->rung_count + 1;
    struct work w = {.p = p};
    w.way = arena_alloc(a, n * (p->point_count + 1), sizeof *w.way);
    w.at = arena_alloc(a, n, sizeof *w.at);
    w.fits = arena_alloc(a, n, sizeof *w.fits);
    w.crossed = arena_alloc(a, n, sizeof *w.crossed);
    w.longer = arena_alloc(a, n, sizeof *w.longer);
    w.before = arena_alloc(a, n, sizeof *w.before);
    w.other = arena_alloc(a, n, sizeof *w.other);
    w.nested = arena_alloc(a, n, sizeof *w.nested);
    w.leads_on = arena_alloc(a, p->point_count + 1, sizeof *w.leads_on);
    find_order(&w);
    share_columns(&w);
    p->crossings = w.crossings;
}
