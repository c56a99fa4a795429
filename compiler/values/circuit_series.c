/* circuit_series.c - parts of a circuit that one current goes through. */
#include "values/circuit_series.h"

#include <stdint.h>

/* What a state cuts off has a leak besides. */
static bool leaks(const struct circuit_memo *m, size_t node) {
    for (size_t n = m->net.part_count - m->strays; n < m->net.part_count; n++)
        if (m->net_part[n].from == node)
            return true;
    return false;
}

/* The node between two neighbours of a path, whichever way it is turned. */
static size_t node_between(const struct circuit_work *w, size_t part,
                           size_t next) {
    bool begins =
        w->from[next] == w->to[part] || w->from[next] == w->from[part];
    return begins ? w->from[next] : w->to[next];
}

/* The next part of the path that conducts, on or back; `part` where another
 * way begins there. */
static size_t next_to(const struct circuit_work *w,
                      const struct circuit_memo *m, size_t part, bool on) {
    const struct circuit_branch *b = &w->c->branch[w->c->element[part].branch];
    size_t i = part, end = on ? b->first + b->count - 1 : b->first;
    while (i != end) {
        i += on ? 1 : (size_t)-1;
        if (w->part[i].law != LAWS) /* it is there in this variant */
            return m->in_net[i] == SIZE_MAX ||
                           leaks(m, node_between(w, part, i))
                       ? part
                       : i;
    }
    return part;
}

static bool is_load(const struct circuit_work *w, size_t part) {
    enum circuit_part kind = w->c->element[part].part;
    return kind == CIRCUIT_LOAD || kind == CIRCUIT_COIL;
}

size_t circuit_series_part(const struct circuit_work *w,
                           const struct circuit_memo *state, size_t part) {
    size_t first = part, next;
    if (part >= w->c->element_count || state->in_net[part] == SIZE_MAX)
        return part;
    while ((next = next_to(w, state, first, false)) != first)
        first = next;
    for (size_t i = first;; i = next) {
        if (is_load(w, i))
            return i;
        next = next_to(w, state, i, true);
        if (next == i)
            return first;
    }
}
