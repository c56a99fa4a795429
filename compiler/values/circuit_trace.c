/* circuit_trace.c - what the current of a part comes from and feeds. */
#include "values/circuit_trace.h"

#include "base/arena.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* Less than this flows nowhere: leaks of what is cut off, A. */
#define NOTHING 1e-4

double circuit_trace_current(const struct circuit_work *w, size_t part) {
    size_t n = w->in_net[part];
    return n == SIZE_MAX ? 0 : w->solution.current[n];
}

static bool flows(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count &&
           fabs(circuit_trace_current(w, part)) > NOTHING;
}

/* Where the current of a part enters it, or leaves it. */
static size_t end_of(const struct circuit_work *w, size_t part, bool leaves) {
    return (circuit_trace_current(w, part) > 0) == leaves ? w->to[part]
                                                          : w->from[part];
}

static bool is_taker(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL;
}

static bool is_fuse(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_FUSE || kind == CIRCUIT_BREAKER;
}

/* Marks the nodes on the way, and in `found` the elements that end it. */
static void follow(const struct circuit_work *w, size_t part, bool behind,
                   bool (*ends)(const struct circuit_work *, size_t),
                   bool *found) {
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    if (!flows(w, part))
        return;
    node[end_of(w, part, behind)] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            if (i == part || !flows(w, i) || !node[end_of(w, i, !behind)])
                continue;
            size_t next = end_of(w, i, behind);
            if (ends(w, i))
                found[i] = true;
            else if (!node[next])
                node[next] = grown = true;
        }
    }
}

size_t circuit_trace_loads(const struct circuit_work *w, size_t part,
                           bool behind, bool *load) {
    size_t count = 0;
    memset(load, 0, w->c->element_count * sizeof *load);
    follow(w, part, behind, is_taker, load);
    for (size_t i = 0; i < w->c->element_count; i++)
        count += load[i];
    return count;
}

void circuit_trace_fuses(const struct circuit_work *w, size_t part,
                         bool *fuse) {
    follow(w, part, false, is_fuse, fuse);
}

size_t circuit_trace_joined(const struct circuit_work *w, size_t part) {
    size_t count = 0;
    for (size_t i = 0; i < w->c->element_count; i++)
        count += i != part && flows(w, i) && flows(w, part) &&
                 end_of(w, i, true) == end_of(w, part, false);
    return count;
}

/* Marks the nodes that the current of a load comes through. */
static void mark_feed(const struct circuit_work *w, size_t load, bool *node) {
    node[end_of(w, load, false)] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < w->c->element_count; i++)
            if (flows(w, i) && node[end_of(w, i, true)] &&
                !node[end_of(w, i, false)])
                node[end_of(w, i, false)] = grown = true;
    }
}

size_t circuit_trace_supply(const struct circuit_work *w, size_t load) {
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    size_t feeds = SIZE_MAX;
    double least = INFINITY;
    if (!flows(w, load))
        return SIZE_MAX;
    mark_feed(w, load, node);
    for (size_t s = w->c->element_count; s < w->part_count; s++) {
        double volt = w->solution.volt[w->to[s]] - w->solution.volt[w->from[s]];
        if (w->part[s].law == LAWS || !node[w->to[s]] || volt >= least ||
            circuit_trace_current(w, s) < NOTHING)
            continue;
        feeds = s;
        least = volt;
    }
    return feeds;
}
