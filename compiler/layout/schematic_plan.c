/* schematic_plan.c - where the parts of a circuit stand in its drawing. */
#include "layout/schematic_plan.h"

#include "base/arena.h"
#include "layout/schematic_columns.h"
#include "layout/schematic_order.h"
#include "layout/schematic_rung.h"

#include <math.h>
#include <string.h>

/* The bar `below` lies at least so far under the bar `above`. */
struct apart {
    size_t above, below;
    double least;
};

struct work {
    struct plan *p;
    struct apart *apart;
    size_t count, room;
    double *crossed; /* heights of the bars that a rung crosses */
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

/* Rungs that share a column stay as they hang, each below the next above it. */
static void stay_below(struct work *w) {
    const struct plan *p = w->p;
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t next = r;
        for (size_t k = 0; k < p->rung_count; k++)
            if (p->rung[k].column == p->rung[r].column &&
                rung_top(p, &p->rung[k]) >= rung_bottom(p, &p->rung[r]) &&
                (next == r ||
                 rung_top(p, &p->rung[k]) < rung_top(p, &p->rung[next])))
                next = k;
        size_t above = rung_lowest(&p->rung[r]);
        if (next != r && p->point[above].y < rung_top(p, &p->rung[next]))
            keep_apart(w, above, rung_highest(&p->rung[next]), 2 * p->band + 2);
    }
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

/* The heights of the bars that a rung crosses, downward; how many. */
static size_t find_crossed(struct work *w, size_t rung) {
    const struct plan *p = w->p;
    size_t count = 0;
    for (size_t k = 0; k < p->point_count; k++) {
        if (!rung_crosses(p, &p->rung[rung], k))
            continue;
        size_t i = count++;
        for (; i > 0 && w->crossed[i - 1] > p->point[k].y; i--)
            w->crossed[i] = w->crossed[i - 1];
        w->crossed[i] = p->point[k].y;
    }
    return count;
}

/* Where a foreign bar lies in the way of an element it stands below that bar.
 * The height that is missing at the end, 0: all have room. */
static double place_elements(const struct work *w, struct plan_span *s,
                             size_t crossed) {
    const struct plan *p = w->p;
    double from = p->point[s->from].y, to = p->point[s->to].y;
    bool down = from < to;
    double top = fmin(from, to), bottom = fmax(from, to), y = top + p->band;
    for (size_t i = 0; i < s->count; i++) {
        size_t e = down ? i : s->count - 1 - i;
        for (size_t k = 0; k < crossed; k++) {
            double bar = w->crossed[k];
            if (bar > y - p->band && bar < y + s->height[e] + p->band)
                y = bar + p->band;
        }
        s->y[e] = y;
        y += s->height[e];
    }
    double missing = y + p->band - bottom;
    if (missing > 1e-6)
        return missing;
    /* What is left over is shared out, where no bar is in the way. */
    for (size_t i = 0; crossed == 0 && i < s->count; i++)
        s->y[down ? i : s->count - 1 - i] -=
            missing * (double)(i + 1) / (double)(s->count + 1);
    return 0;
}

static bool place_all(struct work *w) {
    struct plan *p = w->p;
    bool short_of = false;
    for (size_t r = 0; r < p->rung_count; r++) {
        size_t crossed = find_crossed(w, r);
        for (size_t k = 0; k < p->rung[r].count; k++) {
            struct plan_span *s = &p->rung[r].span[k];
            double missing = place_elements(w, s, crossed);
            if (missing == 0)
                continue;
            double from = p->point[s->from].y, to = p->point[s->to].y;
            keep_apart(w, from < to ? s->from : s->to,
                       from < to ? s->to : s->from, fabs(to - from) + missing);
            short_of = true;
        }
    }
    if (short_of)
        settle(w);
    return short_of;
}

void plan_make(struct arena *a, struct plan *p) {
    struct work w = {.p = p, .arena = a};
    order_points(&w);
    part_rungs(p);
    settle(&w);
    w.crossed = arena_alloc(a, p->point_count + 1, sizeof *w.crossed);
    rung_find_points(a, p);
    schematic_columns(a, p);
    stay_below(&w);
    for (int round = 0; round < 40; round++) {
        bool moved = part_bars(&w);
        moved = place_all(&w) || moved;
        if (!moved)
            break;
    }
    p->crossings = 0;
    for (size_t r = 0; r < p->rung_count; r++)
        p->crossings += find_crossed(&w, r);
    p->height = 0;
    for (size_t i = 0; i < p->point_count; i++)
        p->height = fmax(p->height, p->point[i].y);
}
