/* schematic_order.c - which of two points of a circuit lies above the other. */
#include "layout/schematic_order.h"

#include "base/arena.h"

#include <stdint.h>
#include <string.h>

struct order {
    struct plan *p;
    struct plan_span **span; /* in the order in which they are written */
    bool *known;             /* by span: its way is settled */
    size_t count;
    bool *fed;  /* by point: it hangs below one from which the order begins */
    bool *mark; /* by point: where the search has been */
    size_t barred; /* a point that feeds nothing for now, or SIZE_MAX */
};

static size_t upper(const struct plan_span *s) {
    return s->up ? s->to : s->from;
}

static size_t lower(const struct plan_span *s) {
    return s->up ? s->from : s->to;
}

static enum plan_post post(const struct order *o, size_t point) {
    return o->p->point[point].post;
}

static void settle_way(struct order *o, size_t i, bool up) {
    o->span[i]->up = up;
    o->known[i] = true;
}

static void mark_below(struct order *o, size_t point) {
    o->mark[point] = true;
    for (size_t i = 0; i < o->count; i++)
        if (o->known[i] && upper(o->span[i]) == point &&
            !o->mark[lower(o->span[i])])
            mark_below(o, lower(o->span[i]));
}

/* Whether settled spans lead down from one point to another. */
static bool leads(struct order *o, size_t from, size_t to) {
    memset(o->mark, 0, o->p->point_count * sizeof *o->mark);
    mark_below(o, from);
    return o->mark[to];
}

/* The first span, as written or against it, from a point that is fed to one
 * that is not; SIZE_MAX: none. */
static size_t next_fed(const struct order *o, bool back, bool past_minus) {
    for (size_t i = 0; i < o->count; i++) {
        const struct plan_span *s = o->span[i];
        size_t above = back ? s->to : s->from, below = back ? s->from : s->to;
        bool minus =
            post(o, above) == PLAN_MINUS || post(o, below) == PLAN_MINUS;
        if (o->fed[above] && !o->fed[below] && above != o->barred &&
            (past_minus || !minus))
            return i;
    }
    return SIZE_MAX;
}

/* What the points that are fed feed: along the paths as they are written as far
 * as these lead, else against one. A point that is fed now was not met before,
 * so that no circle can close. */
static void feed(struct order *o, bool past_minus) {
    for (;;) {
        size_t ahead = next_fed(o, false, past_minus);
        size_t i = ahead == SIZE_MAX ? next_fed(o, true, past_minus) : ahead;
        if (i == SIZE_MAX)
            return;
        settle_way(o, i, ahead == SIZE_MAX);
        o->fed[lower(o->span[i])] = true;
    }
}

static void feed_from(struct order *o, enum plan_post kind) {
    for (size_t i = 0; i < o->p->point_count; i++)
        if (post(o, i) == kind)
            o->fed[i] = true;
    feed(o, kind == PLAN_MINUS);
}

/* What is no part of a supply's circuit: from a point that nothing leads to, or
 * else from any. */
static void feed_rest(struct order *o) {
    bool *entered = o->mark;
    memset(entered, 0, o->p->point_count * sizeof *entered);
    for (size_t i = 0; i < o->count; i++)
        entered[o->span[i]->to] = true;
    for (int any = 0; any < 2; any++)
        for (size_t i = 0; i < o->p->point_count; i++) {
            if (o->fed[i] || (any == 0 && entered[i]))
                continue;
            o->fed[i] = true;
            feed(o, true);
        }
}

/* Supplies, and loads right across them, then what returns to a minus post.
 * Nothing leads down from a minus post yet: no circle. */
static void settle_posts(struct order *o) {
    for (size_t i = 0; i < o->count; i++)
        if (post(o, o->span[i]->from) == PLAN_PLUS &&
            post(o, o->span[i]->to) == PLAN_MINUS)
            settle_way(o, i, false);
}

static void settle_returns(struct order *o) {
    for (size_t i = 0; i < o->count; i++) {
        const struct plan_span *s = o->span[i];
        if (post(o, s->to) == PLAN_MINUS && post(o, s->from) == PLAN_INNER &&
            o->fed[s->from])
            settle_way(o, i, false);
        if (post(o, s->from) == PLAN_MINUS && post(o, s->to) == PLAN_INNER &&
            o->fed[s->to])
            settle_way(o, i, true);
    }
}

/* As written, unless that closes a circle. */
static void settle_others(struct order *o) {
    for (size_t i = 0; i < o->count; i++)
        if (!o->known[i])
            settle_way(o, i, leads(o, o->span[i]->to, o->span[i]->from));
}

/* Points from which a way leads down to minus. */
static void find_drained(const struct order *o, bool *drained) {
    for (size_t i = 0; i < o->p->point_count; i++)
        drained[i] = post(o, i) == PLAN_MINUS;
    for (bool more = true; more;) {
        more = false;
        for (size_t i = 0; i < o->count; i++)
            if (drained[lower(o->span[i])] && !drained[upper(o->span[i])])
                more = drained[upper(o->span[i])] = true;
    }
}

/* Points without such a way that hang together, from one of them on. */
static void find_stuck(const struct order *o, const bool *drained, size_t point,
                       bool *stuck) {
    memset(stuck, 0, o->p->point_count * sizeof *stuck);
    stuck[point] = true;
    for (bool more = true; more;) {
        more = false;
        for (size_t i = 0; i < o->count; i++) {
            size_t a = o->span[i]->from, b = o->span[i]->to;
            if (stuck[a] != stuck[b] && !drained[a] && !drained[b])
                more = stuck[a] = stuck[b] = true;
        }
    }
}

/* Whether a span joins the point, itself not stuck, to what is. */
static bool borders(const struct order *o, const bool *stuck, size_t point) {
    for (size_t i = 0; i < o->count; i++) {
        size_t a = o->span[i]->from, b = o->span[i]->to;
        if (!stuck[point] &&
            ((a == point && stuck[b]) || (b == point && stuck[a])))
            return true;
    }
    return false;
}

/* Through which of the points around it the current leaves what is stuck: one
 * that lies above no other of them. SIZE_MAX: it is a dead end. */
static size_t find_exit(struct order *o, const bool *stuck) {
    for (size_t q = 0; q < o->p->point_count; q++) {
        if (post(o, q) != PLAN_INNER || !borders(o, stuck, q))
            continue;
        bool above = false, others = false;
        for (size_t i = 0; i < o->p->point_count; i++) {
            if (i == q || !borders(o, stuck, i))
                continue;
            others = true;
            above = above || leads(o, q, i);
        }
        if (others && !above)
            return q;
    }
    return SIZE_MAX;
}

static bool touches(const struct order *o, const bool *stuck, size_t i) {
    return stuck[o->span[i]->from] || stuck[o->span[i]->to];
}

/* Fed anew from the points around it but the exit, which lies below. */
static void lead_out(struct order *o, const bool *stuck, size_t exit) {
    for (size_t i = 0; i < o->p->point_count; i++)
        o->fed[i] = o->fed[i] && !stuck[i];
    o->barred = exit;
    feed(o, true);
    o->barred = SIZE_MAX;
    for (size_t i = 0; i < o->count; i++)
        if (touches(o, stuck, i) &&
            (o->span[i]->from == exit || o->span[i]->to == exit))
            settle_way(o, i, o->span[i]->from == exit);
    settle_others(o);
}

/* Where paths lead to a point, or to several that hang together, and none leads
 * away, one of them is written against the current. True: turned; at least one
 * point more has a way to minus now. */
static bool drain(struct order *o, bool *drained, bool *stuck) {
    find_drained(o, drained);
    for (size_t k = 0; k < o->p->point_count; k++) {
        if (drained[k])
            continue;
        find_stuck(o, drained, k, stuck);
        for (size_t i = 0; i < o->count; i++)
            o->known[i] = !touches(o, stuck, i);
        size_t exit = find_exit(o, stuck);
        if (exit != SIZE_MAX) {
            lead_out(o, stuck, exit);
            return true;
        }
        for (size_t i = 0; i < o->count; i++)
            o->known[i] = true;
    }
    return false;
}

static struct order read_spans(struct arena *a, struct plan *p) {
    struct order o = {.p = p, .barred = SIZE_MAX};
    size_t room = 1;
    for (size_t r = 0; r < p->rung_count; r++)
        room += p->rung[r].count;
    o.span = arena_alloc(a, room, sizeof(*o.span));
    o.known = arena_alloc(a, room, sizeof *o.known);
    o.fed = arena_alloc(a, p->point_count + 1, sizeof *o.fed);
    o.mark = arena_alloc(a, p->point_count + 1, sizeof *o.mark);
    for (size_t r = 0; r < p->rung_count; r++)
        for (size_t k = 0; k < p->rung[r].count; k++)
            o.span[o.count++] = &p->rung[r].span[k];
    return o;
}

void schematic_order(struct arena *a, struct plan *p) {
    struct order o = read_spans(a, p);
    settle_posts(&o);
    feed_from(&o, PLAN_PLUS);
    settle_returns(&o);
    feed_from(&o, PLAN_MINUS);
    feed_rest(&o);
    settle_others(&o);
    bool *drained = arena_alloc(a, p->point_count + 1, sizeof *drained);
    bool *stuck = arena_alloc(a, p->point_count + 1, sizeof *stuck);
    while (drain(&o, drained, stuck))
        continue;
}
