/* graph.c - the nodes below a value, and sweeps of intervals through them. */
#include "values/graph.h"

#include "base/arena.h"
#include "base/list.h"
#include "values/interval.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static int by_serial(const void *left, const void *right) {
    const struct quantity *const *a = left, *const *b = right;
    if ((*a)->serial == (*b)->serial)
        return 0;
    return (*a)->serial < (*b)->serial ? -1 : 1;
}

static size_t index_of(const struct graph *g, const struct quantity *q) {
    const struct quantity **found =
        bsearch(&q, g->node, g->count, sizeof(*g->node), by_serial);
    return (size_t)(found - g->node);
}

/* Nodes still to be visited: a heap with the latest on top. */
struct pending {
    struct arena *arena;
    const struct quantity **node;
    size_t count, room;
};

static void pending_add(struct pending *p, const struct quantity *q) {
    p->node =
        list_grown(p->arena, p->node, p->count, &p->room, sizeof(*p->node));
    size_t at = p->count++;
    while (at > 0 && p->node[(at - 1) / 2]->serial < q->serial) {
        p->node[at] = p->node[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    p->node[at] = q;
}

static const struct quantity *pending_take(struct pending *p) {
    const struct quantity *top = p->node[0], *last = p->node[--p->count];
    size_t at = 0;
    for (size_t child; (child = 2 * at + 1) < p->count; at = child) {
        if (child + 1 < p->count &&
            p->node[child + 1]->serial > p->node[child]->serial)
            child++;
        if (p->node[child]->serial <= last->serial)
            break;
        p->node[at] = p->node[child];
    }
    p->node[at] = last;
    return top;
}

/* Everything below q, each once, arguments before their users. Not by
 * recursion: a sum of ten thousand terms is ten thousand deep. The latest node
 * that is pending has no user left, so what was met twice comes out in a row.
 */
static void collect(struct arena *a, struct graph *g,
                    const struct quantity *q) {
    struct pending pending = {.arena = a};
    size_t room = 0;
    pending_add(&pending, q);
    while (pending.count > 0) {
        const struct quantity *one = pending_take(&pending);
        if (g->count > 0 && g->node[g->count - 1] == one)
            continue;
        g->node = list_grown(a, g->node, g->count, &room, sizeof(*g->node));
        g->node[g->count++] = one;
        for (size_t i = 0; i < one->arg_count; i++)
            pending_add(&pending, one->arg[i]);
    }
    for (size_t i = 0; i < g->count / 2; i++) {
        const struct quantity *swap = g->node[i];
        g->node[i] = g->node[g->count - 1 - i];
        g->node[g->count - 1 - i] = swap;
    }
}

struct graph *graph_of(struct arena *a, const struct quantity *q) {
    struct graph *g = arena_alloc(a, 1, sizeof *g);
    collect(a, g, q);
    g->arg = arena_alloc(a, g->count, sizeof *g->arg);
    g->root = arena_alloc(a, g->count, sizeof *g->root);
    g->value = arena_alloc(a, g->count, sizeof *g->value);
    g->slope = arena_alloc(a, g->count, sizeof *g->slope);
    for (size_t i = 0; i < g->count; i++) {
        const struct quantity *one = g->node[i];
        for (size_t k = 0; k < one->arg_count; k++)
            g->arg[i][k] = index_of(g, one->arg[k]);
        if (one->op == QUANTITY_ROOT)
            g->root[g->root_count++] = i;
    }
    return g;
}

/* Within what is known of the node over all its roots' ranges: tighter than
 * interval arithmetic where a root stands in two arguments. */
static struct ends node_value(const struct graph *g, size_t i) {
    const struct quantity *q = g->node[i];
    struct ends arg[CALCULATION_INPUTS];
    for (size_t k = 0; k < q->arg_count; k++)
        arg[k] = g->value[g->arg[i][k]];
    return interval_within(interval_node(q, arg), q->bounds->within);
}

/* Never falls, and has no finite slope at 0. */
static struct ends root_slope(struct ends of) {
    return (struct ends){of.high > 0 ? 0.5 / sqrt(of.high) : 0,
                         of.low > 0 ? 0.5 / sqrt(of.low) : INFINITY};
}

/* Slope of node i by its argument k. */
static struct ends node_slope(const struct graph *g, size_t i, size_t k) {
    const struct quantity *q = g->node[i];
    const struct ends one = {1, 1}, minus_one = {-1, -1};
    const struct ends any = {0, 1}, none = {0, 0};
    struct ends a = g->value[g->arg[i][0]];
    struct ends b = q->arg_count > 1 ? g->value[g->arg[i][1]] : a;
    struct ends mine = k == 0 ? a : b, other = k == 0 ? b : a;
    switch (q->op) {
    case QUANTITY_ROOT:
        return none;
    case QUANTITY_ADD:
        return one;
    case QUANTITY_SUBTRACT:
        return k == 0 ? one : minus_one;
    case QUANTITY_MULTIPLY:
        return other;
    case QUANTITY_DIVIDE:
        if (k == 0)
            return interval_divide(one, b);
        return interval_divide(interval_multiply(minus_one, a),
                               interval_power(b, 2, 1));
    case QUANTITY_POWER: {
        if (q->numerator == 1 && q->denominator == 2)
            return root_slope(a);
        struct ends exponent = {(double)q->numerator / q->denominator,
                                (double)q->numerator / q->denominator};
        return interval_multiply(
            exponent,
            interval_power(a, q->numerator - q->denominator, q->denominator));
    }
    case QUANTITY_ABS:
        return a.low >= 0    ? one
               : a.high <= 0 ? minus_one
                             : (struct ends){-1, 1};
    case QUANTITY_MIN:
        return mine.high <= other.low  ? one
               : mine.low > other.high ? none
                                       : any;
    case QUANTITY_MAX:
        return mine.low >= other.high  ? one
               : mine.high < other.low ? none
                                       : any;
    case QUANTITY_CALL:
        switch (q->calculation->input[k].trend) {
        case TREND_RISING:
            return (struct ends){0, INFINITY};
        case TREND_FALLING:
            return (struct ends){-INFINITY, 0};
        case TREND_NEITHER:
            return (struct ends){-INFINITY, INFINITY};
        }
    }
    abort(); /* the switches are complete */
}

void graph_forward(struct graph *g, const struct ends *box) {
    for (size_t r = 0; r < g->root_count; r++)
        g->value[g->root[r]] = box[r];
    for (size_t i = 0; i < g->count; i++)
        if (g->node[i]->op != QUANTITY_ROOT)
            g->value[i] = node_value(g, i);
}

static bool is_both(struct ends e, double x) {
    return e.low == x && e.high == x;
}

/* Most slopes are 1, and most nodes have one user: nothing to work out. */
static struct ends times(struct ends a, struct ends b) {
    return is_both(a, 1) ? b : is_both(b, 1) ? a : interval_multiply(a, b);
}

void graph_backward(struct graph *g) {
    memset(g->slope, 0, g->count * sizeof *g->slope);
    g->slope[g->count - 1] = (struct ends){1, 1};
    for (size_t i = g->count; i-- > 0;) {
        const struct quantity *q = g->node[i];
        for (size_t k = 0; k < q->arg_count; k++) {
            struct ends *to = &g->slope[g->arg[i][k]];
            struct ends by = times(g->slope[i], node_slope(g, i, k));
            *to = is_both(*to, 0) ? by : interval_add(*to, by);
        }
    }
}
