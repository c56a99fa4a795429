/* circuit_forgotten.c - the way back of a load that nobody wrote. */
#include "values/circuit_forgotten.h"

#include "base/arena.h"
#include "values/circuit_fault.h"
#include "values/circuit_rule.h"
#include "values/circuit_trace.h"
#include "values/figure.h"
#include "values/range.h"

#include <math.h>
#include <stdint.h>

/* m, of wire from a source on: nearer than this a load may sit on the post, and
 * what is left out is small beside the contacts. Common practice, no source. */
#define NEAR 3.0

/* By node: the least wire from a post that is not grounded, m; INFINITY: it is
 * not fed but through a load. */
static double *find_far(const struct circuit_work *w) {
    double *far = arena_alloc(w->v->c->arena, w->node_count, sizeof *far);
    for (size_t n = 0; n < w->node_count; n++)
        far[n] = INFINITY;
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (w->part[s].law != LAWS)
            far[circuit_trace_hot_post(w, s)] = 0;
    for (bool moved = true; moved;) {
        moved = false;
        for (size_t i = 0; i < w->c->element_count; i++) {
            const struct circuit_piece *p = &w->part[i];
            if (!circuit_fault_carries(w, i))
                continue;
            double own = p->law == LAW_WIRE ? range_ends(p->figure[0]).low : 0;
            size_t near =
                far[w->from[i]] < far[w->to[i]] ? w->from[i] : w->to[i];
            size_t next = w->from[i] + w->to[i] - near;
            if (far[near] + own >= far[next])
                continue;
            far[next] = far[near] + own;
            moved = true;
        }
    }
    return far;
}

/* The supply to whose return post a node belongs; SIZE_MAX: none. */
static size_t returns_to(const struct circuit_work *w, size_t node) {
    for (size_t s = w->c->element_count; s < w->part_count; s++)
        if (w->part[s].law != LAWS &&
            w->from[s] + w->to[s] - circuit_trace_hot_post(w, s) == node)
            return s;
    return SIZE_MAX;
}

static const char *length_of(const struct circuit_work *w, double metre) {
    const struct unit *u =
        w->v->units == UNIT_SI ? unit_find("m", 1) : unit_find("ft", 2);
    return figure_text(w->v->c->arena, metre, u, u->dim, 1, ROUND_HALF_EVEN);
}

static void ask_load(const struct circuit_work *w, const double *far,
                     size_t load) {
    struct arena *a = w->v->c->arena;
    size_t end = w->to[load], feed = w->from[load];
    if (returns_to(w, end) == SIZE_MAX) {
        end = w->from[load];
        feed = w->to[load];
    }
    size_t supply = returns_to(w, end);
    if (supply == SIZE_MAX || !(far[feed] >= NEAR) || isinf(far[feed]))
        return;
    const char *name = w->part[load].name;
    struct requirement r = circuit_rule(w, load, "return");
    r.what = "the way back of a load";
    r.trouble = arena_printf(
        a,
        "%s is fed through %s of wire and comes back to %s %s through nothing: "
        "no drop, no fault current and no parts list knows its return",
        name, length_of(w, far[feed]), w->part[supply].name,
        end == w->from[supply] ? "-" : "+");
    r.cure = arena_printf(a,
                          "write its return behind %s, a wire as long, or what "
                          "it is bolted to: joint G1 chassis",
                          name);
    r.flag = true;
    block_require(w->v, r);
}

void circuit_forgotten_require(struct circuit_work *w) {
    circuit_solve_all_on(w);
    const double *far = find_far(w);
    for (size_t i = 0; i < w->c->element_count; i++)
        if (w->part[i].law != LAWS && w->c->element[i].part == CIRCUIT_LOAD)
            ask_load(w, far, i);
}
