/* circuit_inflow.c - what fuses that feed one wire let into it together. */
#include "values/circuit_inflow.h"

#include "base/arena.h"
#include "values/circuit_fault.h"
#include "values/circuit_trace.h"
#include "values/circuit_unfused.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* A part on the way: what it lets pass from one node to the other, and back. */
struct channel {
    size_t from, to;
    double ahead, back;           /* A; INFINITY: as much as comes */
    double flow;                  /* along `from` to `to` */
    const struct quantity *holds; /* its rating or output; NULL: nothing */
    const char *name;
};

struct inflow {
    const struct circuit_work *w;
    struct channel *channel;
    size_t channel_count;
    size_t source; /* a node beside those of the circuit, behind all supplies */
    size_t *came;  /* by node: the channel by which it is reached */
    size_t *level; /* by node: how far from the source; SIZE_MAX: no way */
};

static double most_of(const struct quantity *q) {
    return q == NULL ? INFINITY : range_ends(q).high;
}

static struct channel channel_of(const struct circuit_work *w, size_t part,
                                 size_t source) {
    const struct circuit_piece *p = &w->part[part];
    struct channel c = {.from = w->from[part],
                        .to = w->to[part],
                        .ahead = INFINITY,
                        .back = INFINITY,
                        .name = p->name};
    if (part >= w->c->element_count) {
        c.holds = circuit_solve_output(w, part);
        c.from = source;
        c.to = circuit_trace_hot_post(w, part);
        c.ahead = most_of(c.holds);
        c.back = 0;
    } else if (circuit_unfused_ends(w, part)) {
        c.holds = p->rating;
        c.ahead = c.back = most_of(p->rating);
    } else if (p->law == LAW_DIODE) {
        bool against = circuit_trace_minus_hot(w, w->c->element_count);
        c.ahead = against ? 0 : INFINITY;
        c.back = against ? INFINITY : 0;
    }
    return c;
}

/* All that conducts in the state at hand, but the wire itself. */
static void open_channels(struct inflow *f, size_t wire) {
    const struct circuit_work *w = f->w;
    f->channel_count = 0;
    for (size_t i = 0; i < w->part_count; i++)
        if (i != wire && circuit_fault_carries(w, i) && !w->open[i])
            f->channel[f->channel_count++] = channel_of(w, i, f->source);
}

/* What a channel still lets pass out of a node. */
static double left_of(const struct channel *c, size_t from) {
    return c->from == from ? c->ahead - c->flow : c->back + c->flow;
}

/* Levels of the nodes to which more may flow, the nearest first. */
static void find_levels(const struct inflow *f) {
    for (size_t n = 0; n <= f->source; n++)
        f->level[n] = SIZE_MAX;
    f->level[f->source] = 0;
    bool grown = true;
    for (size_t level = 0; grown; level++) {
        grown = false;
        for (size_t i = 0; i < f->channel_count; i++) {
            const struct channel *c = &f->channel[i];
            size_t from = f->level[c->from] == level ? c->from : c->to;
            size_t to = from == c->from ? c->to : c->from;
            if (f->level[from] != level || f->level[to] != SIZE_MAX ||
                left_of(c, from) <= 0)
                continue;
            f->level[to] = level + 1;
            f->came[to] = i;
            grown = true;
        }
    }
}

/* One way on to a node; false: nothing more flows. INFINITY is left to the
 * caller. */
static bool add_way(const struct inflow *f, size_t node, double *all) {
    double least = INFINITY;
    find_levels(f);
    if (f->level[node] == SIZE_MAX)
        return false;
    for (size_t n = node, before; n != f->source; n = before) {
        const struct channel *c = &f->channel[f->came[n]];
        before = c->from == n ? c->to : c->from;
        least = fmin(least, left_of(c, before));
    }
    *all += least;
    for (size_t n = node, before; n != f->source && isfinite(least);
         n = before) {
        struct channel *c = &f->channel[f->came[n]];
        before = c->from == n ? c->to : c->from;
        c->flow += before == c->from ? least : -least;
    }
    return isfinite(least);
}

/* Whether a channel is full, and so holds the current back: more comes to one
 * of its ends only. */
static bool is_full(const struct inflow *f, const struct channel *c) {
    return c->holds != NULL &&
           (f->level[c->from] == SIZE_MAX) != (f->level[c->to] == SIZE_MAX);
}

/* What holds the current back, once no more flows. */
static struct circuit_inflow held_back(const struct inflow *f) {
    const struct circuit_work *w = f->w;
    struct circuit_inflow all = {NULL, NULL};
    struct buf names = buf_in(w->v->c->arena);
    size_t count = 0, told = 0;
    for (size_t i = 0; i < f->channel_count; i++)
        count += is_full(f, &f->channel[i]);
    for (size_t i = 0; i < f->channel_count && count > 1; i++) {
        const struct channel *c = &f->channel[i];
        if (!is_full(f, c))
            continue;
        all.most = told == 0 ? c->holds
                             : quantity_binary(&w->v->maker, QUANTITY_ADD,
                                               all.most, c->holds);
        told++;
        buf_printf(&names, "%s%s",
                   told == 1       ? ""
                   : told == count ? " and "
                                   : ", ",
                   c->name);
    }
    all.names = count > 1 ? buf_cstr(&names) : NULL;
    return all;
}

/* Whether something takes current there: a load, or a battery that is charged.
 * A fault between a wire and a source that limits itself is held by each fuse
 * alone. */
static bool is_taken(const struct inflow *f, size_t node) {
    const struct circuit_work *w = f->w;
    if (f->level[node] == SIZE_MAX)
        return false;
    for (size_t i = 0; i < w->part_count; i++) {
        if (w->part[i].law == LAWS)
            continue;
        bool supply = i >= w->c->element_count;
        if (supply ? circuit_trace_hot_post(w, i) == node &&
                         circuit_solve_output(w, i) == NULL
                   : !circuit_fault_carries(w, i) &&
                         (w->from[i] == node || w->to[i] == node))
            return true;
    }
    return false;
}

/* Nodes that are joined to one by what conducts, but for the wire itself: they
 * get a level. */
static void find_joined(const struct inflow *f, size_t node) {
    for (size_t n = 0; n <= f->source; n++)
        f->level[n] = SIZE_MAX;
    f->level[node] = 0;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < f->channel_count; i++) {
            const struct channel *c = &f->channel[i];
            if (c->from == f->source || (f->level[c->from] == SIZE_MAX) ==
                                            (f->level[c->to] == SIZE_MAX))
                continue;
            f->level[c->from] = f->level[c->to] = 0;
            grown = true;
        }
    }
}

/* Into a wire at a node, for what takes it beyond the other end. */
static struct circuit_inflow into(struct inflow *f, size_t wire, size_t node) {
    const struct circuit_work *w = f->w;
    double all = 0;
    bool taken = false;
    open_channels(f, wire);
    find_joined(f, w->from[wire] + w->to[wire] - node);
    for (size_t n = 0; n < f->source && !taken; n++)
        taken = is_taken(f, n);
    if (!taken)
        return (struct circuit_inflow){NULL, NULL};
    while (add_way(f, node, &all))
        ;
    return isinf(all) ? (struct circuit_inflow){NULL, NULL} : held_back(f);
}

struct circuit_inflow circuit_inflow_of(struct circuit_work *w, size_t wire) {
    struct arena *a = w->v->c->arena;
    struct inflow f = {.w = w, .source = w->node_count};
    f.channel = arena_alloc(a, w->part_count, sizeof *f.channel);
    f.came = arena_alloc(a, w->node_count + 1, sizeof *f.came);
    f.level = arena_alloc(a, w->node_count + 1, sizeof *f.level);
    struct circuit_inflow most = {NULL, NULL};
    for (size_t s = 0; s < w->c->state_count; s++) {
        if (!circuit_solve_state(w, s, NULL))
            continue;
        for (int end = 0; end < 2; end++) {
            struct circuit_inflow one =
                into(&f, wire, end == 0 ? w->from[wire] : w->to[wire]);
            if (one.most != NULL &&
                (most.most == NULL || most_of(one.most) > most_of(most.most)))
                most = one;
        }
    }
    return most;
}
