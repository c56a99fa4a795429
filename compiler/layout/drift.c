/* drift.c - drawings that may leave their place. */
#include "layout/drift.h"

#include "base/list.h"
#include "layout/paginate.h"

#include <string.h>

/* What it must save, in costs of paginate.h: a drawing is looked for where the
 * text speaks of it. At the top of some page it is further from there than
 * right below the heading. */
static const double move_cost = 4, head_cost = 2;

void drift_begin(struct flow *f, bool heads) {
    f->drift_first = f->count;
    f->drift_heads = heads;
    f->drift_open = true;
}

void drift_end(struct flow *f) {
    for (size_t k = 0; k < f->drift_count; k++) {
        struct drift *d = &f->drift[k];
        if (d->open)
            d->last = f->count;
        d->open = false;
    }
    f->drift_open = false;
}

void drift_add(struct flow *f, size_t from) {
    if (f->count == from)
        return;
    f->drift = list_grown(f->c->arena, f->drift, f->drift_count, &f->drift_room,
                          sizeof *f->drift);
    f->drift[f->drift_count++] = (struct drift){
        .from = from,
        .to = f->count,
        .first = f->drift_open ? f->drift_first : from,
        .heads = f->drift_open && f->drift_heads,
        .open = true,
    };
}

static void turn_round(struct slab **list, size_t count) {
    for (size_t i = 0; i < count / 2; i++) {
        struct slab *other = list[count - 1 - i];
        list[count - 1 - i] = list[i];
        list[i] = other;
    }
}

/* list[0..middle-1] behind list[middle..count-1]. */
static void rotate(struct slab **list, size_t middle, size_t count) {
    turn_round(list, middle);
    turn_round(list + middle, count - middle);
    turn_round(list, count);
}

/* The drawing stands before what is slab `at` now, outside of it; returns where
 * it stood before what is there now, to move it back. */
static size_t move(struct flow *f, struct drift *d, size_t at) {
    size_t size = d->to - d->from, back;
    if (at < d->from) {
        rotate(f->slab + at, d->from - at, d->to - at);
        back = d->to;
        d->from = at;
    } else {
        rotate(f->slab + d->from, size, at - d->from);
        back = d->from;
        d->from = at - size;
    }
    d->to = d->from + size;
    return back;
}

/* The slabs that change their places, and the one behind them its bond. */
static size_t move_in(struct flow *f, struct plan *p, struct drift *d,
                      size_t at) {
    size_t first = at < d->from ? at : d->from;
    size_t last = at > d->to ? at : d->to;
    paginate_moved(p, first, last < f->count ? last : f->count - 1);
    return move(f, d, at);
}

/* How a drawing is held where it stands. */
struct hold {
    enum bond bond, next; /* of its first slab; of the one behind it */
    bool fresh;
};

static struct slab *behind(const struct flow *f, const struct drift *d) {
    return d->to < f->count ? f->slab[d->to] : NULL;
}

static struct hold hold_of(const struct flow *f, const struct drift *d) {
    const struct slab *first = f->slab[d->from], *next = behind(f, d);
    return (struct hold){first->bond, next == NULL ? BOND_NONE : next->bond,
                         first->fresh};
}

static void set_hold(struct flow *f, const struct drift *d, struct hold h) {
    f->slab[d->from]->bond = h.bond;
    f->slab[d->from]->fresh = h.fresh;
    if (behind(f, d) != NULL)
        behind(f, d)->bond = h.next;
}

/* Where it has been moved to: below the heading, whose bond it takes, or at the
 * top of a page. */
static void take_hold(struct flow *f, const struct drift *d) {
    struct hold h = hold_of(f, d);
    if (h.next == BOND_FAST) {
        h.bond = BOND_FAST;
        h.next = BOND_LIGHT;
    } else {
        h.fresh = true;
    }
    set_hold(f, d, h);
}

static bool may_begin(const struct flow *f, const struct drift *d, size_t at) {
    return (at == d->first && d->heads) || at == f->count ||
           f->slab[at]->bond <= BOND_LIGHT;
}

/* A place, and the pages that it makes. */
struct place {
    size_t at;
    double cost;
};

/* With the drawing before slab `at`, and all as it was afterwards. */
static double cost_at(struct flow *f, struct plan *p, struct drift *d,
                      size_t at) {
    size_t back = move_in(f, p, d, at);
    struct hold was = hold_of(f, d);
    take_hold(f, d);
    bool heads = !f->slab[d->from]->fresh;
    double cost = paginate_cost(f, p) + (heads ? head_cost : move_cost);
    set_hold(f, d, was);
    move_in(f, p, d, back);
    return cost;
}

static void settle(struct flow *f, struct plan *p, size_t k) {
    struct drift *d = &f->drift[k];
    struct place best = {d->from, paginate_cost(f, p)};
    size_t first =
        k > 0 && f->drift[k - 1].to > d->first ? f->drift[k - 1].to : d->first;
    size_t last = d->last;
    if (k + 1 < f->drift_count && f->drift[k + 1].from < last)
        last = f->drift[k + 1].from;
    for (size_t at = first; at <= last; at++) {
        if ((at >= d->from && at <= d->to) || !may_begin(f, d, at))
            continue;
        double cost = cost_at(f, p, d, at);
        if (cost < best.cost - 1e-6) /* not by rounding */
            best = (struct place){at, cost};
    }
    if (best.at == d->from)
        return;
    move_in(f, p, d, best.at);
    take_hold(f, d);
}

/* The first slab that no drawing changes: not even the bond of the one behind
 * it does. */
static size_t still_from(const struct flow *f) {
    size_t end = 0;
    for (size_t k = 0; k < f->drift_count; k++) {
        const struct drift *d = &f->drift[k];
        size_t behind = (d->last > d->to ? d->last : d->to) + 1;
        end = behind > end ? behind : end;
    }
    return end < f->count ? end : f->count;
}

void drift_settle(struct flow *f) {
    drift_end(f);
    if (f->drift_count == 0)
        return;
    f->plan = paginate_plan(f, still_from(f));
    for (size_t k = 0; k < f->drift_count; k++)
        settle(f, f->plan, k);
}
