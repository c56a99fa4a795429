/* circuit_return.c - how what the loads of a circuit take comes back. */
#include "base/arena.h"
#include "values/circuit_carry.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/circuit_worst.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const struct wire_size *size_of(const struct circuit_work *w,
                                       size_t wire) {
    return w->part[wire].run->ampacity.use.size;
}

static bool is_wire(const struct circuit_work *w, size_t part) {
    return part < w->c->element_count && w->part[part].law == LAW_WIRE;
}

/* A lead on the source's side of a fuse is chosen by the fuse's holder. */
static bool has_fuse_before(const struct circuit_work *w, size_t wire) {
    if (circuit_trace_is_lead(w, wire))
        return false;
    bool *fuse = arena_alloc(w->v->c->arena, w->c->element_count, sizeof *fuse);
    circuit_trace_fuses(w, wire, fuse);
    return memchr(fuse, true, w->c->element_count) != NULL;
}

/* Of what a feed takes out a return brings back so much, or it is not its run:
 * another wire brings back the rest. */
#define OF_ONE_RUN 0.9

/* The thinnest wire that feeds all of these loads, SIZE_MAX: none. A lead ahead
 * of the fuse counts for a return that is one, too. */
static size_t thinnest_feed(const struct circuit_work *w, size_t back,
                            const bool *load, bool *fed) {
    size_t thinnest = SIZE_MAX, n = w->c->element_count;
    double current = fabs(circuit_trace_current(w, back));
    for (size_t i = 0; i < n; i++) {
        if (!is_wire(w, i) ||
            current < OF_ONE_RUN * fabs(circuit_trace_current(w, i)) ||
            (thinnest != SIZE_MAX &&
             size_compare(size_of(w, i), size_of(w, thinnest)) >= 0))
            continue;
        circuit_trace_loads(w, i, true, fed);
        if (memcmp(load, fed, n * sizeof *load) == 0 &&
            (!has_fuse_before(w, back) || has_fuse_before(w, i)))
            thinnest = i;
    }
    return thinnest;
}

/* A wire behind its loads that is thinner than all that feed them. */
static bool require_return(struct circuit_work *w, size_t back, bool *load,
                           bool *fed) {
    if (circuit_trace_loads(w, back, true, load) > 0 ||
        circuit_trace_loads(w, back, false, load) == 0)
        return false;
    size_t feed = thinnest_feed(w, back, load, fed);
    if (feed == SIZE_MAX ||
        size_compare(size_of(w, back), size_of(w, feed)) >= 0)
        return false;
    struct requirement r = circuit_rule(w, back, "return");
    r.what = "one run, two sizes";
    r.trouble = arena_printf(
        w->v->c->arena,
        "%s in %s brings back what %s in %s takes out, and sets the limit "
        "of the whole run",
        w->part[back].name, size_of(w, back)->label, w->part[feed].name,
        size_of(w, feed)->label);
    r.cure = "the same size out and back";
    r.flag = true;
    block_require(w->v, r);
    return true;
}

/* Loads that end in one joint, by name: "E1, M5". */
static const char *names_of(const struct circuit_work *w, const bool *load) {
    struct buf names = buf_in(w->v->c->arena);
    bool any = false;
    for (size_t i = 0; i < w->c->element_count; i++) {
        if (!load[i])
            continue;
        buf_puts(&names, any ? ", " : "");
        buf_text(&names, w->c->element[i].name);
        any = true;
    }
    struct text t = buf_as_text(&names);
    return text_cstr(w->v->c->arena, t);
}

static bool is_fixed(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return w->part[part].law != LAWS &&
           (kind == CIRCUIT_WIRE || kind == CIRCUIT_SPLICE ||
            kind == CIRCUIT_CONNECTOR || kind == CIRCUIT_JOINT);
}

static size_t fed_at(const struct circuit_work *w, size_t load) {
    return circuit_trace_current(w, load) > 0 ? w->from[load] : w->to[load];
}

/* Whether all of them are fed from one point by what nothing opens, as a pair
 * of horns is: they are on together, and none can feed back through another. */
static bool are_one(const struct circuit_work *w, const bool *load) {
    bool *node = arena_alloc(w->v->c->arena, w->node_count, sizeof *node);
    size_t n = w->c->element_count, first = 0;
    while (!load[first])
        first++;
    node[fed_at(w, first)] = true;
    for (bool grown = true; grown;) {
        grown = false;
        for (size_t i = 0; i < n; i++)
            if (is_fixed(w, i) && node[w->from[i]] != node[w->to[i]])
                node[w->from[i]] = node[w->to[i]] = grown = true;
    }
    for (size_t i = first; i < n; i++)
        if (load[i] && !node[fed_at(w, i)])
            return false;
    return true;
}

/* If it loosens, each load finds its way back through the other. */
static bool require_own_ground(struct circuit_work *w, size_t joint,
                               bool *load) {
    if (circuit_trace_loads(w, joint, true, load) > 0 ||
        circuit_trace_returns(w, joint, load) < 2 ||
        circuit_trace_joined(w, joint) < 2 || are_one(w, load))
        return false;
    struct requirement r = circuit_rule(w, joint, "shared-ground");
    r.what = "one ground joint, one circuit";
    r.trouble = arena_printf(
        w->v->c->arena,
        "%s takes the returns of %s under one fastener: if it loosens, each "
        "feeds back through the other",
        w->part[joint].name, names_of(w, load));
    r.cure = "a ground point for each, or a ground bus with a cable of its own";
    r.flag = true;
    block_require(w->v, r);
    return true;
}

/* In the first state in which it shows. */
static void require_back(struct circuit_work *w, size_t part) {
    size_t n = w->c->element_count;
    bool *load = arena_alloc(w->v->c->arena, n, sizeof *load);
    bool *fed = arena_alloc(w->v->c->arena, n, sizeof *fed);
    bool joint = w->c->element[part].part == CIRCUIT_JOINT;
    for (size_t s = 0; s < w->c->state_count; s++) {
        if (circuit_worst_is_short(&w->c->state[s]) ||
            !circuit_solve_state(w, s, NULL))
            continue;
        if (joint ? require_own_ground(w, part, load)
                  : require_return(w, part, load, fed))
            return;
    }
}

void circuit_return_require(struct circuit_work *w) {
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law != LAWS &&
            (w->c->element[i].part == CIRCUIT_JOINT || is_wire(w, i)))
            require_back(w, i);
}
