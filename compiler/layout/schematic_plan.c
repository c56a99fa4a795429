/* schematic_plan.c - where the parts of a circuit stand in its drawing. */
#include "layout/schematic_plan.h"

#include "base/arena.h"
#include "layout/schematic_order.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* The bar `below` lies at least so far under the bar `above`. */
struct apart {
    size_t above, below;
    double least;
};

/* A rung that passes the height of a bar it is not joined to. */
struct passing {
    size_t rung, point;
};

struct work {
    struct plan *p;
    struct apart *apart;
    size_t count, room;
    struct passing *passing; /* as the bars lie now */
    size_t passing_count;
    size_t *at; /* rung by place, while their order is sought */
    struct arena *arena;
};

static void keep_apart(struct work *w, size_t above, size_t below,
                       double least) {
    if (above == below)
        return;
    if (w->count == w->room) {
        size_t room = w->room == 0 ? 64 : w->room * 2;
        w->apart =
            arena_grow(w->arena, w->apart, w->room, room, sizeof *w->apart);
        w->room = room;
    }
    w->apart[w->count++] = (struct apart){above, below, least};
}

static double span_height(const struct plan *p, const struct plan_span *s) {
    double sum = 2 * p->band;
    for (size_t i = 0; i < s->count; i++)
        sum += s->height[i];
    return sum;
}

static void order_points(struct work *w) {
    struct plan *p = w->p;
    schematic_order(w->arena, p);
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung[r].count; k++) {
            const struct plan_span *s = &p->rung[r].span[k];
            keep_apart(w, s->up ? s->to : s->from, s->up ? s->from : s->to,
                       span_height(p, s));
        }
}

/* A rung goes down or up its whole column: where one turns another begins. */
static void part_rungs(struct plan *p) {
    for (size_t r = 0; r < p->rung_count; r++) {
        struct plan_rung *one = &p->rung[r];
        size_t same = 1;
        while (same < one->count && one->span[same].up == one->span[0].up)
            same++;
        if (same == one->count)
            continue;
        memmove(one + 2, one + 1, (p->rung_count - r - 1) * sizeof *one);
        p->rung_count++;
        one[1] = (struct plan_rung){.span = one->span + same,
                                    .count = one->count - same};
        one->count = same;
    }
}

/* Each bar as high as those above it allow. */
static void settle(struct work *w) {
    struct plan *p = w->p;
    for (size_t i = 0; i < p->point_count; i++)
        p->point[i].y = 0;
    bool moved = true;
    for (size_t round = 0; moved && round <= p->point_count; round++) {
        moved = false;
        for (size_t i = 0; i < w->count; i++) {
            const struct apart *a = &w->apart[i];
            double least = p->point[a->above].y + a->least;
            if (p->point[a->below].y < least) {
                p->point[a->below].y = least;
                moved = true;
            }
        }
    }
}

static void rung_range(const struct plan *p, size_t rung, double *top,
                       double *bottom) {
    *top = INFINITY;
    *bottom = -INFINITY;
    for (size_t k = 0; k < p->rung[rung].count; k++) {
        const struct plan_span *s = &p->rung[rung].span[k];
        double from = p->point[s->from].y, to = p->point[s->to].y;
        *top = fmin(*top, fmin(from, to));
        *bottom = fmax(*bottom, fmax(from, to));
    }
}

static bool touches(const struct plan *p, size_t rung, size_t point) {
    for (size_t k = 0; k < p->rung[rung].count; k++)
        if (p->rung[rung].span[k].from == point ||
            p->rung[rung].span[k].to == point)
            return true;
    return false;
}

static bool passes(const struct plan *p, size_t rung, size_t point) {
    double top, bottom, y = p->point[point].y;
    if (touches(p, rung, point))
        return false;
    rung_range(p, rung, &top, &bottom);
    return y > top && y < bottom;
}

static bool in_columns(const struct plan *p, size_t rung, size_t point) {
    size_t column = p->rung[rung].column;
    return column >= p->point[point].first && column <= p->point[point].last;
}

bool plan_crosses(const struct plan *p, size_t rung, size_t point) {
    return in_columns(p, rung, point) && passes(p, rung, point);
}

/* What can cross at all, whatever the order of the rungs. */
static void find_passing(struct work *w) {
    const struct plan *p = w->p;
    w->passing_count = 0;
    for (size_t i = 0; i < p->point_count; i++)
        for (size_t r = 0; r < p->rung_count; r++)
            if (passes(p, r, i))
                w->passing[w->passing_count++] = (struct passing){r, i};
}

/* Columns of the bars, from those of the rungs. */
static void stretch_bars(struct plan *p) {
    for (size_t i = 0; i < p->point_count; i++)
        p->point[i] = (struct plan_point){
            .post = p->point[i].post, .y = p->point[i].y, .first = SIZE_MAX};
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung[r].count; k++) {
            size_t end[2] = {p->rung[r].span[k].from, p->rung[r].span[k].to};
            for (int e = 0; e < 2; e++) {
                struct plan_point *q = &p->point[end[e]];
                size_t column = p->rung[r].column;
                q->first = column < q->first ? column : q->first;
                q->last = column > q->last ? column : q->last;
                q->ends++;
            }
        }
}

/* What an order of the rungs costs: crossings first, then length of bars. */
static size_t cost(struct work *w) {
    struct plan *p = w->p;
    size_t sum = 0;
    p->crossings = 0;
    stretch_bars(p);
    for (size_t i = 0; i < p->point_count; i++)
        sum += p->point[i].last - p->point[i].first;
    for (size_t i = 0; i < w->passing_count; i++)
        p->crossings += in_columns(p, w->passing[i].rung, w->passing[i].point);
    return p->crossings * 1000 + sum;
}

static size_t cost_of_order(struct work *w) {
    for (size_t i = 0; i < w->p->rung_count; i++)
        w->p->rung[w->at[i]].column = i;
    w->p->columns = w->p->rung_count;
    return cost(w);
}

static void move(size_t *at, size_t from, size_t to) {
    size_t rung = at[from];
    if (from < to)
        memmove(at + from, at + from + 1, (to - from) * sizeof(*at));
    else
        memmove(at + to + 1, at + to, (from - to) * sizeof(*at));
    at[to] = rung;
}

enum { ROUNDS = 12, MANY = 40 };

/* From the written order: each rung to the place where it costs least, until
 * none gains. With very many only the next places are tried. */
static void order_rungs(struct work *w) {
    size_t n = w->p->rung_count;
    size_t reach = n > MANY ? 2 : n;
    size_t best = cost_of_order(w);
    bool better = true;
    for (int round = 0; better && round < ROUNDS; round++) {
        better = false;
        for (size_t i = 0; i < n; i++) {
            size_t low = i > reach ? i - reach : 0;
            size_t high = i + reach < n ? i + reach : n - 1;
            size_t place = i;
            for (size_t k = low; k <= high; k++) {
                move(w->at, i, k);
                size_t now = cost_of_order(w);
                if (now < best) {
                    best = now;
                    place = k;
                }
                move(w->at, k, i);
            }
            if (place != i) {
                move(w->at, i, place);
                better = true;
            }
        }
    }
    cost_of_order(w);
}

/* Two rungs fit into one column where one ends before the other begins: at the
 * same point, or with a band between them. */
static bool fit(const struct plan *p, size_t a, size_t b) {
    double top[2], bottom[2];
    rung_range(p, a, &top[0], &bottom[0]);
    rung_range(p, b, &top[1], &bottom[1]);
    size_t upper = bottom[0] <= top[1] ? 0 : 1, lower = 1 - upper;
    if (bottom[upper] > top[lower])
        return false;
    if (bottom[upper] + 2 * p->band < top[lower])
        return true;
    const struct plan_rung *u = &p->rung[upper == 0 ? a : b];
    for (size_t k = 0; bottom[upper] == top[lower] && k < u->count; k++) {
        size_t end[2] = {u->span[k].from, u->span[k].to};
        for (int e = 0; e < 2; e++)
            if (p->point[end[e]].y == bottom[upper] &&
                touches(p, upper == 0 ? b : a, end[e]))
                return true;
    }
    return false;
}

static bool fits_column(const struct plan *p, size_t rung, size_t column) {
    for (size_t r = 0; r < p->rung_count; r++)
        if (r != rung && p->rung[r].column == column && !fit(p, r, rung))
            return false;
    return true;
}

static void drop_empty(struct plan *p) {
    for (size_t c = p->columns; c-- > 0;) {
        bool used = false;
        for (size_t r = 0; r < p->rung_count; r++)
            used |= p->rung[r].column == c;
        for (size_t r = 0; !used && r < p->rung_count; r++)
            p->rung[r].column -= p->rung[r].column > c;
        p->columns -= !used;
    }
}

static size_t lowest(const struct plan *p, size_t rung, bool highest) {
    size_t best = p->rung[rung].span[0].from;
    for (size_t k = 0; k < p->rung[rung].count; k++) {
        size_t end[2] = {p->rung[rung].span[k].from, p->rung[rung].span[k].to};
        for (int e = 0; e < 2; e++)
            if (highest ? p->point[end[e]].y < p->point[best].y
                        : p->point[end[e]].y > p->point[best].y)
                best = end[e];
    }
    return best;
}

/* Of two rungs in one column the lower one stays below. */
static void stay_below(struct work *w, size_t upper, size_t lower) {
    size_t above = lowest(w->p, upper, false),
           below = lowest(w->p, lower, true);
    if (above != below && w->p->point[above].y < w->p->point[below].y)
        keep_apart(w, above, below, 2 * w->p->band + 2);
}

/* Rungs that hang below each other share a column where that costs no crossing:
 * the sheet has only so many. Those written first are moved first: the feed of
 * a bus to above its first load, not its last load to below the feed. */
static void share_columns(struct work *w) {
    struct plan *p = w->p;
    size_t allowed = p->crossings;
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t own = p->rung[r].column, best = own, least = SIZE_MAX;
        for (size_t c = 0; c < p->columns; c++) {
            if (c == own || !fits_column(p, r, c))
                continue;
            p->rung[r].column = c;
            size_t now = cost(w);
            if (p->crossings <= allowed && now < least) {
                least = now;
                best = c;
            }
        }
        p->rung[r].column = own;
        /* Worth it only when the column becomes free. */
        bool alone = true;
        for (size_t k = 0; k < p->rung_count; k++)
            alone = alone && (k == r || p->rung[k].column != own);
        if (best == own || !alone)
            continue;
        p->rung[r].column = best;
        drop_empty(p); /* or a later rung would move there, out of order */
    }
    cost(w);
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung_count; k++)
            if (r != k && p->rung[r].column == p->rung[k].column)
                stay_below(w, r, k);
}

static bool overlap(const struct plan_point *a, const struct plan_point *b) {
    return a->first <= b->last && b->first <= a->last;
}

/* Bars beside each other that would lie too near are set apart. */
static bool part_bars(struct work *w) {
    struct plan *p = w->p;
    bool any = false;
    for (size_t i = 0; i < p->point_count; i++)
        for (size_t k = 0; k < p->point_count; k++) {
            const struct plan_point *a = &p->point[i], *b = &p->point[k];
            double below = b->y - a->y, least = 2 * p->band + 2;
            if (i == k || !overlap(a, b) || below < 0 ||
                (below == 0 && k < i) || below >= least)
                continue;
            keep_apart(w, i, k, least);
            any = true;
        }
    if (any)
        settle(w);
    return any;
}

/* Where a foreign bar lies in the way of an element it stands below that bar.
 * The height that is missing at the end, 0: all have room. */
static double place_elements(struct plan *p, size_t rung, struct plan_span *s) {
    double from = p->point[s->from].y, to = p->point[s->to].y;
    bool down = from < to;
    double top = fmin(from, to), bottom = fmax(from, to), y = top + p->band;
    for (size_t i = 0; i < s->count; i++) {
        size_t e = down ? i : s->count - 1 - i;
        bool free = false;
        while (!free) {
            free = true;
            for (size_t k = 0; k < p->point_count; k++) {
                double bar = p->point[k].y;
                if (plan_crosses(p, rung, k) && bar > y - p->band &&
                    bar < y + s->height[e] + p->band) {
                    y = bar + p->band;
                    free = false;
                }
            }
        }
        s->y[e] = y;
        y += s->height[e];
    }
    double missing = y + p->band - bottom;
    if (missing > 1e-6)
        return missing;
    /* What is left over is shared out, where no bar is in the way. */
    bool crossed = false;
    for (size_t k = 0; k < p->point_count; k++)
        crossed |= plan_crosses(p, rung, k);
    for (size_t i = 0; !crossed && i < s->count; i++)
        s->y[down ? i : s->count - 1 - i] -=
            missing * (double)(i + 1) / (double)(s->count + 1);
    return 0;
}

static bool place_all(struct work *w) {
    struct plan *p = w->p;
    bool short_of = false;
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung[r].count; k++) {
            struct plan_span *s = &p->rung[r].span[k];
            double missing = place_elements(p, r, s);
            if (missing == 0)
                continue;
            double from = p->point[s->from].y, to = p->point[s->to].y;
            keep_apart(w, from < to ? s->from : s->to,
                       from < to ? s->to : s->from, fabs(to - from) + missing);
            short_of = true;
        }
    if (short_of)
        settle(w);
    return short_of;
}

void plan_make(struct arena *a, struct plan *p) {
    struct work w = {.p = p, .arena = a};
    order_points(&w);
    part_rungs(p);
    w.at = arena_alloc(a, p->rung_count + 1, sizeof(*w.at));
    for (size_t i = 0; i < p->rung_count; i++)
        w.at[i] = i;
    settle(&w);
    w.passing =
        arena_alloc(a, p->rung_count * p->point_count + 1, sizeof *w.passing);
    find_passing(&w);
    order_rungs(&w);
    share_columns(&w);
    for (int round = 0; round < 40; round++) {
        bool moved = part_bars(&w);
        moved = place_all(&w) || moved;
        if (!moved)
            break;
    }
    find_passing(&w);
    cost(&w);
    p->height = 0;
    for (size_t i = 0; i < p->point_count; i++)
        p->height = fmax(p->height, p->point[i].y);
}
