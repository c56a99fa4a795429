/* graph.h - the nodes below a value, and sweeps of intervals through them. */
#ifndef GRAPH_H
#define GRAPH_H

#include "values/quantity.h"

struct graph {
    const struct quantity **node; /* by serial: arguments before their users */
    size_t (*arg)[CALCULATION_INPUTS]; /* of each node: indices */
    size_t count;                      /* the value itself is the last */
    size_t *root;                      /* indices of the roots */
    size_t root_count;
    struct ends *value, *slope; /* of each node, for the box at hand */
};

struct graph *graph_of(struct arena *a, const struct quantity *q);
/* Fills `value` for a box: the range of each root, in their order. */
void graph_forward(struct graph *g, const struct ends *box);
/* Then `slope`: how the value moves with each node. */
void graph_backward(struct graph *g);

#endif
