/* circuit_dead.c - loads that no current can reach, however switches stand.
 *
 * A part lies on a way from plus to minus, without going through a node twice,
 * when it and a supply are in one biconnected component of the circuit
 * (Hopcroft and Tarjan 1973; depth-first, here without recursion). */
#include "values/circuit_dead.h"

#include "base/arena.h"
#include "base/diag.h"
#include "source/suggest.h"
#include "values/circuit_trace.h"

#include <math.h>
#include <stdint.h>

/* Parts by node, and the search. */
struct search {
    const struct circuit_work *w;
    size_t *first, *part; /* of node n: part[first[n]] up to first[n + 1] */
    size_t *next;         /* by node: where it goes on among its parts */
    size_t *order, *low;  /* by node; order 0: not met */
    size_t *by;           /* by node: the part through which it was met */
    size_t *stack, *path; /* parts; nodes */
    bool *taken, *fed;    /* by part: on the stack once; with a supply */
    size_t stacked, met;
};

static bool is_there(const struct circuit_work *w, size_t part) {
    return part >= w->c->element_count || w->part[part].law != LAWS;
}

static void list_parts(struct search *s) {
    const struct circuit_work *w = s->w;
    for (size_t i = 0; i < w->part_count; i++)
        if (is_there(w, i)) {
            s->first[w->from[i] + 1]++;
            s->first[w->to[i] + 1]++;
        }
    for (size_t n = 0; n < w->node_count; n++) {
        s->first[n + 1] += s->first[n];
        s->next[n] = s->first[n];
    }
    for (size_t i = 0; i < w->part_count; i++)
        if (is_there(w, i)) {
            s->part[s->next[w->from[i]]++] = i;
            s->part[s->next[w->to[i]]++] = i;
        }
    for (size_t n = 0; n < w->node_count; n++)
        s->next[n] = s->first[n];
}

static size_t other_end(const struct circuit_work *w, size_t part,
                        size_t node) {
    return w->from[part] == node ? w->to[part] : w->from[part];
}

/* The component that ends with this part is whole. */
static void close_component(struct search *s, size_t part) {
    size_t from = s->stacked;
    bool supply = false;
    do {
        from--;
        supply = supply || s->stack[from] >= s->w->c->element_count;
    } while (s->stack[from] != part);
    for (size_t i = from; i < s->stacked; i++)
        s->fed[s->stack[i]] = supply;
    s->stacked = from;
}

static void meet(struct search *s, size_t node, size_t by) {
    s->order[node] = s->low[node] = ++s->met;
    s->by[node] = by;
}

static void leave(struct search *s, size_t node, size_t before) {
    if (s->low[node] < s->low[before])
        s->low[before] = s->low[node];
    if (s->low[node] >= s->order[before])
        close_component(s, s->by[node]);
}

static void search_from(struct search *s, size_t start) {
    size_t depth = 0;
    meet(s, start, SIZE_MAX);
    s->path[depth++] = start;
    while (depth > 0) {
        size_t node = s->path[depth - 1];
        if (s->next[node] == s->first[node + 1]) {
            if (--depth > 0)
                leave(s, node, s->path[depth - 1]);
            continue;
        }
        size_t part = s->part[s->next[node]++];
        if (s->taken[part])
            continue;
        s->taken[part] = true;
        s->stack[s->stacked++] = part;
        size_t end = other_end(s->w, part, node);
        if (s->order[end] == 0) {
            meet(s, end, part);
            s->path[depth++] = end;
        } else if (s->order[end] < s->low[node]) {
            s->low[node] = s->order[end];
        }
    }
}

static bool *find_fed(const struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    struct search s = {.w = w};
    size_t nodes = w->node_count + 1;
    s.first = arena_alloc(a, nodes, sizeof *s.first);
    s.next = arena_alloc(a, nodes, sizeof *s.next);
    s.order = arena_alloc(a, nodes, sizeof *s.order);
    s.low = arena_alloc(a, nodes, sizeof *s.low);
    s.by = arena_alloc(a, nodes, sizeof *s.by);
    s.path = arena_alloc(a, nodes, sizeof *s.path);
    s.part = arena_alloc(a, 2 * w->part_count, sizeof *s.part);
    s.stack = arena_alloc(a, w->part_count, sizeof *s.stack);
    s.taken = arena_alloc(a, w->part_count, sizeof *s.taken);
    s.fed = arena_alloc(a, w->part_count, sizeof *s.fed);
    list_parts(&s);
    for (size_t n = 0; n < w->node_count; n++)
        if (s.order[n] == 0)
            search_from(&s, n);
    return s.fed;
}

/* Marks the nodes that a load reaches without one where current passes; true:
 * it is joined to such a one. */
static bool mark_beyond(const struct circuit_work *w, size_t load,
                        const bool *fed, bool *live, bool *beyond) {
    for (size_t i = 0; i < w->part_count; i++)
        if (is_there(w, i) && fed[i])
            live[w->from[i]] = live[w->to[i]] = true;
    bool joined = live[w->from[load]] || live[w->to[load]];
    beyond[w->from[load]] = !live[w->from[load]];
    beyond[w->to[load]] = !live[w->to[load]];
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->part_count; i++) {
            if (!is_there(w, i) || beyond[w->from[i]] == beyond[w->to[i]])
                continue;
            size_t end = beyond[w->from[i]] ? w->to[i] : w->from[i];
            joined = joined || live[end];
            if (!live[end])
                beyond[end] = grown = true;
        }
    }
    return joined;
}

/* " (did you mean 'ground'?)": a point where current passes; or "". */
static const char *near_name(const struct circuit_work *w, size_t point,
                             const bool *live) {
    const struct circuit_point *all = w->c->point;
    struct nearest near = nearest_to(all[point].name);
    for (size_t p = 0; p < w->c->point_count; p++)
        if (w->node[p] != SIZE_MAX && live[w->node[p]])
            nearest_offer(&near, all[p].name);
    return near.best == NULL ? ""
                             : suggest(w->v->c->arena, all[point].name,
                                       (struct text){near.best, near.best_len});
}

static void report(const struct circuit_work *w, size_t load, const bool *fed) {
    struct arena *a = w->v->c->arena;
    bool *live = arena_alloc(a, w->node_count, sizeof *live);
    bool *beyond = arena_alloc(a, w->node_count, sizeof *beyond);
    size_t where = SIZE_MAX;
    const char *near = "";
    bool joined = mark_beyond(w, load, fed, live, beyond);
    for (size_t p = 0; p < w->c->point_count && near[0] == '\0'; p++) {
        if (w->node[p] == SIZE_MAX || !beyond[w->node[p]])
            continue;
        const char *one = near_name(w, p, live);
        if (where == SIZE_MAX || one[0] != '\0')
            where = p;
        near = one;
    }
    if (where == SIZE_MAX || (!joined && near[0] == '\0')) {
        diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED,
                 w->part[load].element->at, "%s gets no current: %s",
                 w->part[load].name,
                 joined ? "no path from a plus to a minus leads through it"
                        : "no path joins it to a supply");
        return;
    }
    const struct circuit_point *p = &w->c->point[where];
    diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED, p->at,
             "%s gets no current: '%.*s' leads no further%s",
             w->part[load].name, (int)p->name.len, p->name.start, near);
    diag_note(w->v->c->diags, w->part[load].element->at, "the load is here");
}

static bool is_joined(const struct circuit_work *w, size_t supply,
                      size_t node) {
    for (size_t i = 0; i < w->part_count; i++)
        if (i != supply && is_there(w, i) &&
            (w->from[i] == node || w->to[i] == node))
            return true;
    return false;
}

/* The chassis may join it, unwritten. */
static bool is_grounded(const struct circuit_work *w, size_t supply,
                        size_t post) {
    return circuit_trace_is_grounded(w, supply) &&
           circuit_trace_hot_post(w, supply) != post;
}

/* A supply of which one post is joined and the other is not; in a variant that
 * has no such supply, neither is. */
static bool report_posts(const struct circuit_work *w) {
    bool any = false;
    for (size_t i = 0; i < w->c->supply_count; i++) {
        const struct circuit_supply *one = &w->c->supply[i];
        size_t part = w->c->element_count + i;
        bool minus = is_joined(w, part, w->from[part]);
        if (minus == is_joined(w, part, w->to[part]) ||
            is_grounded(w, part, minus ? w->to[part] : w->from[part]))
            continue;
        diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED, one->at,
                 "%.*s gives no current: nothing is joined to %.*s %c",
                 (int)one->name.len, one->name.start, (int)one->name.len,
                 one->name.start, minus ? '+' : '-');
        any = true;
    }
    return any;
}

bool circuit_dead_report(struct circuit_work *w) {
    bool any = report_posts(w);
    const bool *fed = find_fed(w);
    for (size_t i = 0; i < w->c->element_count; i++) {
        enum circuit_part kind = w->c->element[i].part;
        if (w->part[i].law == LAWS || fed[i] ||
            (kind != CIRCUIT_LOAD && kind != CIRCUIT_COIL))
            continue;
        report(w, i, fed);
        any = true;
    }
    return any;
}

/* A: below it, or below a thousandth of what it takes, is what leaks through a
 * diode the wrong way. */
static const double nothing = 1e-4;

static double least_of(const struct circuit_work *w, size_t load) {
    const struct circuit_piece *p = &w->part[load];
    bool current = p->law != LAW_RESISTANCE || p->figure_count == 2;
    return current ? fmin(nothing, fabs(p->figure[0]->nominal) / 1000)
                   : nothing;
}

static bool is_on(struct circuit_work *w, size_t load) {
    for (size_t s = 0; s < w->c->state_count; s++)
        if (!circuit_solve_state(w, s, NULL) ||
            fabs(circuit_trace_current(w, load)) > least_of(w, load))
            return true; /* without a solution there is a message */
    return false;
}

void circuit_dead_require(struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law != LAWS && w->c->element[i].part == CIRCUIT_LOAD &&
            !is_on(w, i))
            diag_add(w->v->c->diags, DIAG_CIRCUIT_UNSOLVED,
                     w->part[i].element->at,
                     "%s takes nothing in any state, so that nothing checks "
                     "its wires and its fuse; write a state in which it is on, "
                     "or see to the relay or diode before it",
                     w->part[i].name);
}
