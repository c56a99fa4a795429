/* circuit_net_make.c - a state of a circuit as a net, at a corner of the roots.
 */
#include "values/circuit_memo.h"

#include "base/arena.h"

#include <math.h>
#include <stdint.h>

/* Of what a state cuts off, so that it has a voltage, 0: ohm. */
#define STRAY 1e9

size_t circuit_solve_figures(const struct circuit_work *w, size_t part,
                             const struct quantity **figure) {
    const struct circuit_piece *p = &w->part[part];
    for (size_t k = 0; k < p->figure_count; k++)
        figure[k] = p->figure[k];
    if (w->peak[part]) {
        figure[0] = p->starting;
        figure[1] = p->at;
        return 2;
    }
    if (w->start[part] > 0) {
        figure[3] = w->span;
        return WIRE_CRANKED;
    }
    if (part == w->c->element_count && w->at != NULL)
        figure[0] = w->at;
    return p->figure_count;
}

/* The first of a corner's roots, in order, with this serial or a later one. */
static size_t root_from(const struct corner *corner, size_t count,
                        size_t serial) {
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (corner[middle].root->serial < serial)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* Sums and products of figures, `run + 0.3 m`, go without a graph of their own
 * down to here. */
enum { PLAIN_DEPTH = 4 };

static double figure_at(const struct quantity *q, const struct corner *corner,
                        size_t count, int depth) {
    if (q->op == QUANTITY_ROOT) {
        size_t i = root_from(corner, count, q->serial);
        return i < count && corner[i].root == q ? corner[i].value : q->nominal;
    }
    if (quantity_is_exact(q))
        return q->nominal;
    bool plain = q->op == QUANTITY_ADD || q->op == QUANTITY_SUBTRACT ||
                 q->op == QUANTITY_MULTIPLY;
    if (!plain || depth == PLAIN_DEPTH)
        return range_at(q, corner, count);
    double a = figure_at(q->arg[0], corner, count, depth + 1);
    double b = figure_at(q->arg[1], corner, count, depth + 1);
    return q->op == QUANTITY_ADD        ? a + b
           : q->op == QUANTITY_SUBTRACT ? a - b
                                        : a * b;
}

static struct circuit_figures find_roots(const struct circuit_work *w,
                                         size_t part, const struct corner *root,
                                         size_t count) {
    struct circuit_figures f;
    f.moves = false;
    f.count = circuit_solve_figures(w, part, f.of);
    for (size_t k = 0; k < f.count; k++) {
        const struct quantity *q = f.of[k];
        bool own = q->op == QUANTITY_ROOT;
        size_t first = own ? q->serial : q->bounds->first;
        size_t last = own ? q->serial : q->bounds->last;
        f.first[k] = f.last[k] = root_from(root, count, first);
        while (f.last[k] < count && root[f.last[k]].root->serial <= last)
            f.last[k]++;
        f.moves = f.moves || f.first[k] < f.last[k];
    }
    return f;
}

const struct circuit_figures *circuit_solve_index(const struct circuit_work *w,
                                                  const struct corner *root,
                                                  size_t count) {
    struct circuit_figures *list =
        arena_alloc(w->v->c->arena, w->part_count, sizeof *list);
    for (size_t i = 0; i < w->part_count; i++)
        if (w->in_net[i] != SIZE_MAX)
            list[i] = find_roots(w, i, root, count);
    return list;
}

double circuit_solve_value(const struct circuit_figures *f, size_t k,
                           const struct corner *corner, size_t count) {
    if (f->first[k] == f->last[k])
        return f->of[k]->nominal;
    if (f->of[k]->op == QUANTITY_ROOT)
        return corner[f->first[k]].value;
    return figure_at(f->of[k], corner, count, 0);
}

bool circuit_solve_differs(const struct circuit_work *w, size_t part) {
    return w->peak[part] || w->start[part] > 0;
}

struct circuit_piece circuit_solve_piece(const struct circuit_work *w,
                                         size_t part) {
    struct circuit_piece p = w->part[part];
    if (w->peak[part]) {
        p.law = LAW_RESISTANCE;
        p.figure_count = 2;
    }
    if (w->start[part] > 0) {
        p.figure[3] = w->span;
        p.figure_count = WIRE_CRANKED;
        p.warm = w->warm[part];
    }
    return p;
}

struct circuit_part_law circuit_solve_law(const struct circuit_work *w,
                                          size_t part, const double *x) {
    if (!circuit_solve_differs(w, part))
        return circuit_part_law(&w->part[part], x);
    struct circuit_piece p = circuit_solve_piece(w, part);
    return circuit_part_law(&p, x);
}

/* The parts that the roots move; the others are as they were. */
static void move_parts(struct circuit_work *w, const struct corner *corner,
                       size_t count) {
    for (size_t i = 0; i < w->part_count; i++) {
        const struct circuit_figures *f = &w->figures[i];
        double x[PART_FIGURES] = {0};
        if (w->in_net[i] == SIZE_MAX || !f->moves)
            continue;
        for (size_t k = 0; k < f->count; k++)
            x[k] = circuit_solve_value(f, k, corner, count);
        w->net_part[w->in_net[i]].law = circuit_solve_law(w, i, x);
    }
}

void circuit_solve_make(struct circuit_work *w, const struct corner *corner,
                        size_t count) {
    size_t n = 0;
    if (corner != NULL && corner == w->root) {
        move_parts(w, corner, count);
        return;
    }
    for (size_t i = 0; i < w->part_count; i++) {
        const struct quantity *figure[PART_FIGURES];
        double x[PART_FIGURES] = {0};
        w->in_net[i] = SIZE_MAX;
        if (w->part[i].law == LAWS || w->open[i])
            continue;
        size_t figures = circuit_solve_figures(w, i, figure);
        for (size_t k = 0; k < figures; k++)
            x[k] = count == 0 ? figure[k]->nominal
                              : figure_at(figure[k], corner, count, 0);
        w->in_net[i] = n;
        w->of_net[n] = i;
        w->net_part[n++] =
            (struct net_part){w->from[i], w->to[i], circuit_solve_law(w, i, x)};
    }
    w->net = (struct net){w->net_part, n + w->strays, w->node_count};
}

size_t circuit_solve_room(const struct circuit_work *w) {
    return circuit_net_room(w->node_count, w->part_count + w->node_count);
}

static enum net_fault solve_once(struct circuit_work *w) {
    if (w->work == NULL)
        w->work =
            arena_alloc(w->v->c->arena, circuit_solve_room(w), sizeof *w->work);
    return circuit_net_solve(&w->net, w->work, &w->solution);
}

/* Whether a load of constant power is cut off by the state: without it nothing
 * is across it. It then stays as a leak, which draws nothing. */
static bool is_cut_off(struct circuit_work *w, size_t net_part) {
    struct net_part *p = &w->net_part[net_part];
    p->law = (struct circuit_part_law){LAW_RESISTANCE, {STRAY, 0, 0}};
    enum net_fault fault = solve_once(w);
    const double *volt = w->solution.volt;
    return (fault == NET_SOLVED || fault == NET_UNFED) &&
           fabs(volt[p->from] - volt[p->to]) < 1;
}

/* What a state cuts off floats rightly, and leaks to minus. */
enum net_fault circuit_solve_net(struct circuit_work *w, bool cut) {
    for (;;) {
        enum net_fault fault = solve_once(w);
        size_t where = w->solution.where;
        if (fault == NET_UNFED && cut) {
            struct circuit_part_law law = w->net_part[where].law;
            if (is_cut_off(w, where))
                continue;
            w->net_part[where].law = law;
            return solve_once(w);
        }
        if (fault != NET_FLOATS || !cut)
            return fault;
        size_t n = w->net.part_count++;
        w->strays++;
        w->work[0] = 0; /* another net */
        w->of_net[n] = SIZE_MAX;
        w->net_part[n] =
            (struct net_part){where, 0, {LAW_RESISTANCE, {STRAY, 0, 0}}};
    }
}
