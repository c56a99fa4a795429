/* range.c - the ends of a computed value over all its roots.
 *
 * The low end is found by best-first branch and bound over the box of the
 * roots' ranges. In each box the derivative by each root is enclosed by one
 * sweep backwards through the graph; a root whose derivative keeps its sign
 * moves to its end, which is exact. Most graphs are solved by that alone; only
 * roots with neither trend are split. */
#include "values/range.h"

#include "base/arena.h"
#include "base/list.h"
#include "values/graph.h"
#include "values/interval.h"

#include <math.h>

static bool undefined(struct ends e) {
    return isnan(e.low) || isnan(e.high);
}

/* The most that a value with this slope moves by one. */
static double steepness(struct ends slope) {
    return undefined(slope) ? INFINITY
                            : fmax(fabs(slope.low), fabs(slope.high));
}

/* Moves the roots with a steady slope to their ends; false: there was none. */
static bool move_steady(const struct graph *g, struct ends *box, bool high) {
    bool moved = false;
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
    return moved;
}

enum { ROUNDS_MAX = 64 };

/* Moves steady roots again and again, since a smaller box has tighter slopes.
 * Leaves the value of the box in g->value. */
static void settle(struct graph *g, struct ends *box, bool high) {
    bool moved = true;
    for (int round = 0; moved && round < ROUNDS_MAX; round++) {
        graph_forward(g, box);
        if (undefined(g->value[g->count - 1]))
            return;
        graph_backward(g);
        moved = move_steady(g, box, high);
    }
    if (moved)
        graph_forward(g, box);
}

struct part {
    struct ends *box;
    double bound; /* no value in the box lies beyond it */
    size_t split; /* the root to split it by; root_count: it is a point */
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
    s->heap =
        list_grown(s->arena, s->heap, s->count, &s->room, sizeof *s->heap);
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
    return arena_same(s->arena, box, roots, sizeof *box);
}

/* The value in the middle of a box is one that is really reached. */
static double try_middle(struct search *s, const struct ends *box) {
    struct ends *point = copy_box(s, box);
    for (size_t r = 0; r < s->graph->root_count; r++)
        point[r].low = point[r].high = point[r].low == point[r].high
                                           ? point[r].low
                                           : (point[r].low + point[r].high) / 2;
    graph_forward(s->graph, point);
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
        if (half > 0)
            reach += half * steepness(g->slope[g->root[r]]);
    }
    return s->high ? middle + reach : middle - reach;
}

/* The root whose range, weighed by its slope, makes the bound widest. */
static size_t widest(const struct graph *g, const struct ends *box) {
    size_t best = g->root_count;
    double best_effect = -1;
    for (size_t r = 0; r < g->root_count; r++) {
        double width = box[r].high - box[r].low;
        if (width <= 0)
            continue;
        double effect = width * steepness(g->slope[g->root[r]]);
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

/* Settles a box and keeps it for splitting, unless it is a point by now. */
static bool enter(struct search *s, struct ends *box) {
    settle(s->graph, box, s->high);
    struct ends value = s->graph->value[s->graph->count - 1];
    if (undefined(value))
        return false;
    size_t split = widest(s->graph, box);
    double bound = s->high ? value.high : value.low;
    double by_slope = bound_by_slope(s, box, try_middle(s, box));
    if (isfinite(by_slope) && beyond(s, bound, by_slope))
        bound = by_slope;
    heap_add(s, (struct part){box, bound, split});
    return true;
}

/* How often boxes are split at most; the sweeps over the graph before and after
 * must not take seconds. */
enum { PARTS_MIN = 16, PARTS_MAX = 3000, WORK_MAX = 200000 };
#define GAP 1e-8 /* of the value: closer than any printed figure */

static size_t parts_allowed(const struct graph *g) {
    size_t work = 0;
    for (size_t i = 0; i < g->count; i++)
        work += interval_cost(g->node[i]);
    size_t parts = WORK_MAX / work;
    return parts < PARTS_MIN   ? PARTS_MIN
           : parts > PARTS_MAX ? PARTS_MAX
                               : parts;
}

/* The extreme value, outward where subdivision ran out; NAN when undefined. */
static double extreme(struct search *s) {
    struct graph *g = s->graph;
    struct ends *box = arena_alloc(s->arena, g->root_count + 1, sizeof *box);
    for (size_t r = 0; r < g->root_count; r++)
        box[r] = g->node[g->root[r]]->range;
    if (!enter(s, box))
        return NAN;
    double scale = fabs(g->node[g->count - 1]->nominal);
    size_t allowed = parts_allowed(g);
    for (size_t parts = 0; parts < allowed; parts++) {
        struct part top = heap_take(s);
        double gap = s->high ? top.bound - s->best : s->best - top.bound;
        if (!(gap > GAP * (scale + fabs(s->best))))
            return s->high ? fmax(top.bound, s->best)
                           : fmin(top.bound, s->best);
        size_t r = top.split;
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
static void search_ends(const struct quantity *q, bool low, bool high) {
    struct arena *own = arena_new();
    struct search s = {.arena = own, .graph = graph_of(own, q)};
    struct bounds *b = q->bounds;
    if (low)
        b->ends.low = extreme(&s);
    s = (struct search){.arena = own, .graph = s.graph, .high = true};
    if (high)
        b->ends.high = extreme(&s);
    b->low_found = b->low_found || low;
    b->high_found = b->high_found || high;
    arena_free(own);
}

struct ends range_ends(const struct quantity *q) {
    const struct bounds *b = q->bounds;
    if (!b->exact && !(b->low_found && b->high_found))
        search_ends(q, !b->low_found, !b->high_found);
    return b->exact ? b->within : b->ends;
}

double range_low(const struct quantity *q) {
    const struct bounds *b = q->bounds;
    if (!b->exact && !b->low_found)
        search_ends(q, true, false);
    return b->exact ? b->within.low : b->ends.low;
}

struct ends range_confine(const struct quantity *q) {
    q->bounds->within = range_ends(q);
    return q->bounds->within;
}

size_t range_corner(struct arena *a, const struct quantity *q, bool high,
                    const struct corner **list) {
    struct arena *own = arena_new();
    struct search s = {.arena = own, .graph = graph_of(own, q), .high = high};
    extreme(&s);
    struct graph *g = s.graph;
    struct corner *corner = arena_alloc(a, g->root_count + 1, sizeof *corner);
    size_t count = 0;
    for (size_t r = 0; s.best_box != NULL && r < g->root_count; r++) {
        const struct quantity *root = g->node[g->root[r]];
        if (root->range.low < root->range.high)
            corner[count++] = (struct corner){root, s.best_box[r].low};
    }
    arena_free(own);
    *list = corner;
    return count;
}

double range_at(const struct quantity *q, const struct corner *corner,
                size_t count) {
    struct arena *own = arena_new();
    struct graph *g = graph_of(own, q);
    struct ends *box = arena_alloc(own, g->root_count + 1, sizeof *box);
    size_t c = 0;
    for (size_t r = 0; r < g->root_count; r++) {
        const struct quantity *root = g->node[g->root[r]];
        while (c < count && corner[c].root->serial < root->serial)
            c++;
        bool told = c < count && corner[c].root == root;
        box[r].low = box[r].high = told ? corner[c].value : root->nominal;
    }
    graph_forward(g, box);
    double value = g->value[g->count - 1].low;
    arena_free(own);
    return value;
}

size_t range_roots(struct arena *a, const struct quantity *q,
                   const struct quantity *const **list) {
    const struct quantity **roots;
    if (q->op == QUANTITY_ROOT) { /* as most figures are */
        roots = arena_alloc(a, 1, sizeof(*roots));
        roots[0] = q;
        *list = roots;
        return 1;
    }
    struct graph *g = graph_of(a, q);
    roots = arena_alloc(a, g->root_count + 1, sizeof(*roots));
    for (size_t r = 0; r < g->root_count; r++)
        roots[r] = g->node[g->root[r]];
    *list = roots;
    return g->root_count;
}

bool range_is_single(const struct quantity *q) {
    struct ends e = range_ends(q);
    return !(e.high - e.low > 1e-12 * fmax(fabs(e.low), fabs(e.high)));
}
