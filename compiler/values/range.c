/* range.c - the ends of a computed value over all its roots.
 *
 * The low end is found by best-first branch and bound over the box of the
 * roots' ranges. In each box the derivative by each root is enclosed by one
 * sweep backwards through the graph; a root whose derivative keeps its sign
 * moves to its end, which is exact. Most graphs are solved by that alone; only
 * roots with neither trend are split. */
#include "values/range.h"

#include "base/arena.h"
#include "values/interval.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct graph {
    const struct quantity **node; /* by serial: arguments before their users */
    size_t (*arg)[CALCULATION_INPUTS];
    size_t count;
    size_t *root; /* indices of the roots */
    size_t root_count;
    struct ends *value, *slope; /* of each node, for the box at hand */
};

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

/* Everything below q, each once. Works in rounds, not by recursion: a sum of
 * ten thousand terms is ten thousand deep. */
static void collect(struct arena *a, struct graph *g,
                    const struct quantity *q) {
    size_t room = q->serial + 1;
    bool *seen = arena_alloc(a, room, sizeof *seen);
    const struct quantity **stack = arena_alloc(a, room, sizeof(*stack));
    g->node = arena_alloc(a, room, sizeof(*g->node));
    size_t depth = 0;
    stack[depth++] = q;
    seen[q->serial] = true;
    while (depth > 0) {
        const struct quantity *one = stack[--depth];
        g->node[g->count++] = one;
        for (size_t i = 0; i < one->arg_count; i++) {
            if (seen[one->arg[i]->serial])
                continue;
            seen[one->arg[i]->serial] = true;
            stack[depth++] = one->arg[i];
        }
    }
    qsort(g->node, g->count, sizeof(*g->node), by_serial);
}

static struct graph *graph_of(struct arena *a, const struct quantity *q) {
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

static struct ends node_value(const struct graph *g, size_t i) {
    const struct quantity *q = g->node[i];
    const size_t *arg = g->arg[i];
    struct ends a = q->arg_count > 0 ? g->value[arg[0]] : q->range;
    struct ends b = q->arg_count > 1 ? g->value[arg[1]] : a;
    switch (q->op) {
    case QUANTITY_ROOT:
        return g->value[i]; /* set by the box */
    case QUANTITY_ADD:
        return interval_add(a, b);
    case QUANTITY_SUBTRACT:
        return arg[0] == arg[1] ? (struct ends){0, 0} : interval_subtract(a, b);
    case QUANTITY_MULTIPLY:
        return arg[0] == arg[1] ? interval_power(a, 2, 1)
                                : interval_multiply(a, b);
    case QUANTITY_DIVIDE:
        return arg[0] == arg[1] ? (struct ends){1, 1} : interval_divide(a, b);
    case QUANTITY_POWER:
        return interval_power(a, q->numerator, q->denominator);
    case QUANTITY_ABS:
        return interval_abs(a);
    case QUANTITY_MIN:
        return interval_min(a, b);
    case QUANTITY_MAX:
        return interval_max(a, b);
    case QUANTITY_CALL: {
        struct ends input[CALCULATION_INPUTS];
        for (size_t k = 0; k < q->arg_count; k++)
            input[k] = g->value[arg[k]];
        return interval_call(q->calculation, q->fixed, input);
    }
    }
    abort(); /* the switch is complete */
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

static void sweep_forward(struct graph *g, const struct ends *box) {
    for (size_t r = 0; r < g->root_count; r++)
        g->value[g->root[r]] = box[r];
    for (size_t i = 0; i < g->count; i++)
        g->value[i] = node_value(g, i);
}

static void sweep_backward(struct graph *g) {
    memset(g->slope, 0, g->count * sizeof *g->slope);
    g->slope[g->count - 1] = (struct ends){1, 1};
    for (size_t i = g->count; i-- > 0;) {
        const struct quantity *q = g->node[i];
        for (size_t k = 0; k < q->arg_count; k++) {
            size_t to = g->arg[i][k];
            g->slope[to] = interval_add(
                g->slope[to],
                interval_multiply(g->slope[i], node_slope(g, i, k)));
        }
    }
}

static bool undefined(struct ends e) {
    return isnan(e.low) || isnan(e.high);
}

/* Moves each root with a steady slope to its end, again and again, since a
 * smaller box has tighter slopes. Leaves the value of the box in g->value. */
static void settle(struct graph *g, struct ends *box, bool high) {
    for (bool moved = true; moved;) {
        moved = false;
        sweep_forward(g, box);
        if (undefined(g->value[g->count - 1]))
            return;
        sweep_backward(g);
        for (size_t r = 0; r < g->root_count; r++) {
            struct ends slope = g->slope[g->root[r]];
            if (box[r].low == box[r].high || undefined(slope))
                continue;
            if (slope.low >= 0)
                box[r].low = box[r].high = high ? box[r].high : box[r].low;
            else if (slope.high <= 0)
                box[r].low = box[r].high = high ? box[r].low : box[r].high;
            else
                continue;
            moved = true;
        }
    }
}

struct part {
    struct ends *box;
    double bound; /* no value in the box lies beyond it */
};

struct search {
    struct arena *arena;
    struct graph *graph;
    bool high;
    struct part *heap; /* the part with the widest bound first */
    size_t count, room;
    double best; /* a value that was really reached */
    struct ends *best_box;
};

static bool beyond(const struct search *s, double a, double b) {
    return s->high ? a > b : a < b;
}

static void heap_add(struct search *s, struct part p) {
    if (s->count == s->room) {
        size_t room = s->room == 0 ? 64 : s->room * 2;
        s->heap =
            arena_grow(s->arena, s->heap, s->count, room, sizeof *s->heap);
        s->room = room;
    }
    size_t at = s->count++;
    while (at > 0 && beyond(s, p.bound, s->heap[(at - 1) / 2].bound)) {
        s->heap[at] = s->heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    s->heap[at] = p;
}

static struct part heap_take(struct search *s) {
    struct part top = s->heap[0], last = s->heap[--s->count];
    size_t at = 0;
    for (;;) {
        size_t child = 2 * at + 1;
        if (child >= s->count)
            break;
        if (child + 1 < s->count &&
            beyond(s, s->heap[child + 1].bound, s->heap[child].bound))
            child++;
        if (!beyond(s, s->heap[child].bound, last.bound))
            break;
        s->heap[at] = s->heap[child];
        at = child;
    }
    if (s->count > 0)
        s->heap[at] = last;
    return top;
}

static struct ends *copy_box(const struct search *s, const struct ends *box) {
    size_t roots = s->graph->root_count;
    return arena_grow(s->arena, box, roots, roots + 1, sizeof *box);
}

/* The value in the middle of a box is one that is really reached. */
static double try_middle(struct search *s, const struct ends *box) {
    struct ends *point = copy_box(s, box);
    for (size_t r = 0; r < s->graph->root_count; r++)
        point[r].low = point[r].high = point[r].low == point[r].high
                                           ? point[r].low
                                           : (point[r].low + point[r].high) / 2;
    sweep_forward(s->graph, point);
    struct ends reached = s->graph->value[s->graph->count - 1];
    double value = s->high ? reached.low : reached.high;
    if (s->best_box == NULL || beyond(s, value, s->best)) {
        s->best = value;
        s->best_box = point;
    }
    return value;
}

/* No value in the box lies further from its middle than the slopes carry it:
 * tighter than the plain bound once a box is small. */
static double bound_by_slope(const struct search *s, const struct ends *box,
                             double middle) {
    const struct graph *g = s->graph;
    double reach = 0;
    for (size_t r = 0; r < g->root_count; r++) {
        double half = (box[r].high - box[r].low) / 2;
        struct ends slope = g->slope[g->root[r]];
        if (half > 0)
            reach += half * fmax(fabs(slope.low), fabs(slope.high));
    }
    return s->high ? middle + reach : middle - reach;
}

/* Settles a box and keeps it for splitting, unless it is a point by now. */
static bool enter(struct search *s, struct ends *box) {
    settle(s->graph, box, s->high);
    struct ends value = s->graph->value[s->graph->count - 1];
    if (undefined(value))
        return false;
    double bound = s->high ? value.high : value.low;
    double by_slope = bound_by_slope(s, box, try_middle(s, box));
    if (isfinite(by_slope) && beyond(s, bound, by_slope))
        bound = by_slope;
    heap_add(s, (struct part){box, bound});
    return true;
}

/* The root whose range, weighed by its slope, makes the bound widest. */
static size_t widest(const struct graph *g, const struct ends *box) {
    size_t best = g->root_count;
    double best_effect = -1;
    for (size_t r = 0; r < g->root_count; r++) {
        double width = box[r].high - box[r].low;
        if (width <= 0)
            continue;
        struct ends slope = g->slope[g->root[r]];
        double steep = fmax(fabs(slope.low), fabs(slope.high));
        double effect = isfinite(steep) ? width * steep : HUGE_VAL;
        if (effect > best_effect) {
            best_effect = effect;
            best = r;
        } else if (effect == best_effect && best < g->root_count) {
            double scale = fabs(g->value[g->root[r]].high) + 1e-300;
            double best_scale = fabs(g->value[g->root[best]].high) + 1e-300;
            if (width / scale > (box[best].high - box[best].low) / best_scale)
                best = r;
        }
    }
    return best;
}

enum { PARTS_MAX = 3000 };
#define GAP 1e-8 /* of the value: closer than any printed figure */

/* The extreme value, outward where subdivision ran out; NAN when undefined. */
static double extreme_over(struct search *s, const struct quantity *q) {
    struct graph *g = s->graph;
    struct ends *box = arena_alloc(s->arena, g->root_count + 1, sizeof *box);
    for (size_t r = 0; r < g->root_count; r++)
        box[r] = g->node[g->root[r]]->range;
    if (!enter(s, box))
        return NAN;
    double scale = fabs(q->nominal);
    for (int parts = 0; parts < PARTS_MAX; parts++) {
        struct part top = heap_take(s);
        double gap = s->high ? top.bound - s->best : s->best - top.bound;
        if (!(gap > GAP * (scale + fabs(s->best))))
            return s->high ? fmax(top.bound, s->best)
                           : fmin(top.bound, s->best);
        sweep_forward(g, top.box);
        sweep_backward(g);
        size_t r = widest(g, top.box);
        if (r == g->root_count)
            return top.bound; /* a point: exact */
        double middle = (top.box[r].low + top.box[r].high) / 2;
        struct ends *upper = copy_box(s, top.box);
        top.box[r].high = middle;
        upper[r].low = middle;
        if (!enter(s, top.box) || !enter(s, upper))
            return NAN;
    }
    return s->heap[0].bound;
}

/* The search's own memory goes when it ends: thousands of boxes would stay
 * in the guide's arena otherwise. */
static double search_extreme(const struct quantity *q, bool high,
                             struct corner **corner, size_t *corner_count,
                             struct arena *keep) {
    struct arena *own = arena_new();
    struct search s = {.arena = own, .graph = graph_of(own, q), .high = high};
    double found = extreme_over(&s, q);
    if (corner != NULL && s.best_box != NULL) {
        struct graph *g = s.graph;
        *corner = arena_alloc(keep, g->root_count + 1, sizeof **corner);
        for (size_t r = 0; r < g->root_count; r++) {
            const struct quantity *root = g->node[g->root[r]];
            if (root->range.low < root->range.high)
                (*corner)[(*corner_count)++] =
                    (struct corner){root, s.best_box[r].low};
        }
    }
    arena_free(own);
    return found;
}

struct ends range_ends(const struct quantity *q) {
    /* The ends are a cache in the node: equal whoever asks first. */
    struct quantity *kept = (struct quantity *)(uintptr_t)q;
    if (kept->bounded)
        return kept->ends;
    kept->bounded = true;
    if (q->op == QUANTITY_ROOT)
        kept->ends = q->range;
    else
        kept->ends = (struct ends){search_extreme(q, false, NULL, NULL, NULL),
                                   search_extreme(q, true, NULL, NULL, NULL)};
    return kept->ends;
}

size_t range_corner(struct arena *a, const struct quantity *q, bool high,
                    const struct corner **list) {
    struct corner *corner = NULL;
    size_t count = 0;
    search_extreme(q, high, &corner, &count, a);
    *list = corner;
    return count;
}

size_t range_roots(struct arena *a, const struct quantity *q,
                   const struct quantity *const **list) {
    struct graph *g = graph_of(a, q);
    const struct quantity **roots =
        arena_alloc(a, g->root_count + 1, sizeof(*roots));
    for (size_t r = 0; r < g->root_count; r++)
        roots[r] = g->node[g->root[r]];
    *list = roots;
    return g->root_count;
}

double range_sample(struct arena *a, const struct quantity *q,
                    const double *root_value) {
    struct graph *g = graph_of(a, q);
    struct ends *box = arena_alloc(a, g->root_count + 1, sizeof *box);
    for (size_t r = 0; r < g->root_count; r++)
        box[r].low = box[r].high = root_value[r];
    sweep_forward(g, box);
    return g->value[g->count - 1].low;
}
