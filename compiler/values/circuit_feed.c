/* circuit_feed.c - the fuses through which a wire of a circuit is fed. */
#include "values/circuit_feed.h"

#include "base/arena.h"
#include "values/circuit_fault.h"
#include "values/circuit_trace.h"
#include "values/circuit_unfused.h"
#include "values/circuit_worst.h"

#include <stdint.h>
#include <string.h>

struct circuit_throws {
    bool **open; /* by part */
    size_t count;
};

static bool limits_itself(const struct circuit_work *w, size_t supply) {
    return circuit_solve_output(w, supply) != NULL;
}

/* Whether a source that does not limit itself stands among these nodes: how far
 * a wire may go from it without a fuse is another rule. */
static bool is_fed_directly(const struct circuit_work *w, const bool *zone) {
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        if (zone[circuit_trace_hot_post(w, s)] && !limits_itself(w, s))
            return true;
    }
    return false;
}

/* Fuses through which sources feed a short of a wire, whose nodes up to a fuse
 * are `zone`: between two sources the one at its far end, which its current
 * meets last. */
static void add_far_fuses(struct circuit_work *w, size_t wire, const bool *zone,
                          bool *fuse) {
    struct circuit_fault *most =
        w->c->supply_count > 1 ? circuit_fault_most(w) : NULL;
    if (most == NULL)
        return;
    double all = circuit_trace_minus_hot(w, w->c->element_count)
                     ? circuit_fault_into(most, w->from[wire])
                     : circuit_fault_at(most, w->from[wire]);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (circuit_unfused_ends(w, i) && zone[w->from[i]] != zone[w->to[i]] &&
            circuit_fault_through(most, i) > FAULT_PART * all)
            fuse[i] = true;
}

/* A way to the marked nodes grows by what carries a fault: against the current
 * that feeds them up to fuses, or along the current past them. */
struct growth {
    const bool *open; /* by part */
    const bool *wall; /* nodes that are not entered; NULL: fuses are the wall */
    bool along;
};

static void grow(const struct circuit_work *w, const struct growth *g,
                 bool *node) {
    /* Where minus is hot the current of a fault flows towards it. */
    bool ahead = g->along != circuit_trace_minus_hot(w, w->c->element_count);
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            size_t from = w->from[i], to = w->to[i];
            if (!circuit_fault_carries(w, i) || g->open[i] ||
                node[from] == node[to] ||
                (g->wall == NULL && circuit_unfused_ends(w, i)) ||
                (w->part[i].law == LAW_DIODE && node[ahead ? to : from]))
                continue;
            size_t next = node[from] ? to : from;
            if (g->wall == NULL || !g->wall[next])
                node[next] = grown = true;
        }
    }
}

/* Whether a short there is one of the return, or of wire ahead of a fuse. */
static bool has_post(const struct circuit_work *w, const bool *node) {
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (node[w->from[s] + w->to[s] - circuit_trace_hot_post(w, s)])
            return true;
    return is_fed_directly(w, node);
}

/* Fuses at the border of the wire's zone whose other side is fed from a source
 * by a way outside of it. */
static void add_feeding(const struct circuit_work *w, size_t wire,
                        const bool *open, bool *fuse) {
    struct arena *a = w->v->c->arena;
    bool *zone = arena_alloc(a, w->node_count, sizeof *zone);
    bool *fed = arena_alloc(a, w->node_count, sizeof *fed);
    zone[w->from[wire]] = zone[w->to[wire]] = true;
    grow(w, &(struct growth){open, NULL, false}, zone);
    if (has_post(w, zone))
        return;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        fed[circuit_trace_hot_post(w, s)] = w->part[s].law != LAWS;
    grow(w, &(struct growth){open, zone, true}, fed);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (circuit_unfused_ends(w, i) && zone[w->from[i]] != zone[w->to[i]] &&
            fed[zone[w->from[i]] ? w->to[i] : w->from[i]])
            fuse[i] = true;
}

static struct text relay_of(const struct circuit_work *w, size_t i) {
    const struct circuit_element *e = &w->c->element[i];
    bool rests = e->part == CIRCUIT_CONTACT && w->part[i].law != LAWS &&
                 circuit_solve_rests(e);
    return rests ? e->name : (struct text){NULL, 0};
}

static void add_throw(struct circuit_throws *t, const struct circuit_work *w,
                      bool pulled, struct text other) {
    bool *open = arena_alloc(w->v->c->arena, w->part_count, sizeof *open);
    circuit_fault_throw(w, pulled, other, open);
    t->open[t->count++] = open;
}

const struct circuit_throws *circuit_feed_throws(const struct circuit_work *w) {
    struct arena *a = w->v->c->arena;
    struct circuit_throws *t = arena_alloc(a, 1, sizeof *t);
    size_t relays = 0;
    for (size_t i = 0; i < w->c->element_count; i++)
        relays += relay_of(w, i).len > 0;
    t->open = arena_alloc(a, 2 * (relays + 1), sizeof(*t->open));
    for (int pulled = 0; pulled < (relays > 0 ? 2 : 1); pulled++) {
        add_throw(t, w, pulled, (struct text){NULL, 0});
        for (size_t i = 0; i < w->c->element_count && relays > 1; i++)
            if (relay_of(w, i).len > 0)
                add_throw(t, w, pulled, relay_of(w, i));
    }
    return t;
}

/* The only other part at a node; SIZE_MAX: there are none, or several. */
static size_t only_other(const struct circuit_work *w, size_t node,
                         size_t part) {
    size_t other = SIZE_MAX;
    for (size_t i = 0; i < w->part_count; i++) {
        if (i == part || (i < w->c->element_count && w->part[i].law == LAWS) ||
            (w->from[i] != node && w->to[i] != node))
            continue;
        if (other != SIZE_MAX)
            return SIZE_MAX;
        other = i;
    }
    return other;
}

/* The fuses behind a source that limits itself, of a wire that leads to its
 * other post and nowhere else: what the wire carries goes through them. False:
 * there are none. */
static bool find_beyond(const struct circuit_work *w, size_t wire, size_t node,
                        bool *fuse) {
    bool beyond = false, any = false;
    size_t part = only_other(w, node, wire);
    for (size_t i = 0; i < w->part_count && part != SIZE_MAX; i++) {
        if (part >= w->c->element_count && !limits_itself(w, part))
            return any;
        beyond = beyond || part >= w->c->element_count;
        if (beyond && part < w->c->element_count &&
            circuit_unfused_ends(w, part) && circuit_fault_carries(w, part))
            any = fuse[part] = true;
        node = w->from[part] == node ? w->to[part] : w->from[part];
        part = only_other(w, node, part);
    }
    return any;
}

bool *circuit_feed_fuses(struct circuit_work *w,
                         const struct circuit_throws *throws, size_t wire) {
    struct arena *a = w->v->c->arena;
    bool *fuse = arena_alloc(a, w->c->element_count, sizeof *fuse);
    bool *zone = arena_alloc(a, w->node_count, sizeof *zone);
    circuit_unfused_zone(w, w->from[wire], zone);
    if (is_fed_directly(w, zone))
        return fuse;
    if (find_beyond(w, wire, w->from[wire], fuse) ||
        find_beyond(w, wire, w->to[wire], fuse))
        return fuse;
    for (size_t s = 0; s < w->c->state_count; s++)
        if (!circuit_worst_is_short(&w->c->state[s]) &&
            circuit_solve_state(w, s, NULL))
            circuit_trace_fuses(w, wire, fuse);
    add_far_fuses(w, wire, zone, fuse);
    circuit_solve_all_on(w);
    for (size_t i = 0; i < throws->count; i++)
        add_feeding(w, wire, throws->open[i], fuse);
    return fuse;
}
