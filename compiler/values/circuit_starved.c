/* circuit_starved.c - motors with too little voltage, and what hangs on them.
 */
#include "values/circuit_starved.h"

#include "base/arena.h"
#include "values/circuit_trace.h"

#include <math.h>

/* Share of the voltage of its figure down to which a motor is taken to take the
 * current of it. A fan's torque, and with it its current, goes with the square
 * of its speed: behind its dropping resistor it takes a third. Common practice,
 * no source. */
#define TURNS 0.5

static bool is_starved(const struct circuit_work *w, size_t part) {
    struct circuit_piece p = circuit_solve_piece(w, part);
    if (p.law != LAW_CURRENT || p.figure_count < 2 || p.figure[1] == NULL ||
        w->in_net[part] == SIZE_MAX)
        return false;
    double u = w->solution.volt[w->from[part]] - w->solution.volt[w->to[part]];
    return fabs(u) < TURNS * p.figure[1]->nominal;
}

static bool hangs_on(const struct circuit_work *w, size_t part,
                     const bool *found, bool *load) {
    circuit_trace_served(w, part, load);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (load[i] && found[i])
            return true;
    return false;
}

const bool *circuit_starved_parts(const struct circuit_work *w) {
    size_t n = w->c->element_count;
    bool *found = NULL, *load = NULL;
    for (size_t i = 0; i < n; i++) {
        if (w->part[i].law == LAWS || !is_starved(w, i))
            continue;
        if (found == NULL)
            found = arena_alloc(w->v->c->arena, n, sizeof *found);
        found[i] = true;
    }
    if (found == NULL)
        return NULL;
    load = arena_alloc(w->v->c->arena, n, sizeof *load);
    for (bool grown = true; grown;) { /* through loads in series, too */
        grown = false;
        for (size_t i = 0; i < n; i++)
            if (w->part[i].law != LAWS && !found[i] &&
                hangs_on(w, i, found, load))
                found[i] = grown = true;
    }
    return found;
}

bool circuit_starved_point(const struct circuit_work *w, size_t point) {
    const bool *part = circuit_starved_parts(w);
    size_t node = w->node[point];
    if (part == NULL || w->c->point[point].supply != CIRCUIT_NONE)
        return false;
    for (size_t i = 0; i < w->c->element_count; i++)
        if (part[i] && (w->from[i] == node || w->to[i] == node))
            return true;
    return false;
}
