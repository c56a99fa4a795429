/* circuit_route.c - the longest route of a wire block through a circuit, as it
 * is written.
 *
 * A route leads from a plus post to a minus post along the paths; the loop of a
 * wire block is the longest sum of its wires on one. Where its wires carry
 * unlike currents the route that loses most may be another: on it each length
 * counts by its share of the largest current. */
#include "base/arena.h"
#include "values/circuit_look.h"

#include <stdint.h>

enum { ROUTES_MAX = 2000 };

/* The length of an element's wire, by its share of the current. */
static struct quantity *add_length(const struct look *k, size_t element,
                                   struct quantity *so_far) {
    if (!circuit_look_uses(k, element))
        return so_far;
    struct quantity *length =
        circuit_look_figure(k, k->c->element[element].word[1], "m");
    double share = k->share == NULL ? 1 : k->share[element];
    if (length != NULL && share != 1) {
        const struct unit *unit = length->unit;
        length = quantity_binary(&k->v->maker, QUANTITY_MULTIPLY, length,
                                 quantity_number(&k->v->maker, share));
        length->unit = unit;
    }
    return circuit_look_sum(k, so_far, length);
}

static struct quantity *add_branch(const struct look *k,
                                   const struct circuit_branch *b,
                                   struct quantity *length) {
    for (size_t e = b->first; e < b->first + b->count; e++)
        length = add_length(k, e, length);
    return length;
}

/* Every route on from a point, with the length so far. */
static void walk(struct look *k, size_t point, struct quantity *length) {
    if (circuit_look_most_of(length) > circuit_look_most_of(k->longest))
        k->longest = length;
    if (++k->routes > ROUTES_MAX || k->on[point] ||
        circuit_look_post(k, point, true) || circuit_look_post(k, point, false))
        return;
    k->on[point] = true;
    for (size_t i = 0; i < k->c->branch_count; i++)
        if (circuit_look_from(k, i) == point)
            walk(k, circuit_look_to(k, i),
                 add_branch(k, &k->c->branch[i], length));
    k->on[point] = false;
}

struct quantity *circuit_route_longest(struct look *k) {
    k->on = arena_alloc(k->v->c->arena, k->c->point_count, sizeof *k->on);
    k->longest = NULL;
    k->routes = 0;
    for (size_t i = 0; i < k->c->branch_count; i++)
        if (circuit_look_post(k, circuit_look_from(k, i), false))
            walk(k, circuit_look_to(k, i),
                 add_branch(k, &k->c->branch[i], NULL));
    return k->longest;
}

/* The share of `most` amperes that each wire of the block carries. False: of
 * one nobody knows, or all carry as much. */
static bool find_shares(struct look *k, double most) {
    size_t n = k->c->element_count;
    bool *load = arena_alloc(k->v->c->arena, n, sizeof *load);
    bool differ = false;
    struct feed feed;
    k->share = arena_alloc(k->v->c->arena, n, sizeof *k->share);
    electrical_voltages(k->v, k->wire, k->variant, &feed);
    for (size_t e = 0; e < n; e++) {
        struct load_current all;
        if (!circuit_look_uses(k, e))
            continue;
        size_t count = circuit_loads_of(k, e, &feed, load, &all);
        if (count == SIZE_MAX || count == 0)
            return false;
        double share = circuit_look_most_of(all.most) / most;
        k->share[e] = share > 1 - 1e-9 ? 1 : share;
        differ = differ || k->share[e] != 1;
    }
    return differ;
}

struct quantity *circuit_route_loaded(struct look *k, double most) {
    bool differ = find_shares(k, most);
    if (!differ)
        k->share = NULL;
    struct quantity *length = circuit_route_longest(k);
    k->share = NULL;
    return length;
}
