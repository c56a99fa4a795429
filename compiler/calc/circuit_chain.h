/* circuit_chain.h - resistances and wires in series as one part of a circuit:
 * inside circuit_net.
 *
 * Most nodes of a vehicle's wiring stand between two such parts and no others.
 * One current goes through all of a chain, and at that current the voltage
 * across each of its parts is known, so that its inner nodes need no place in
 * the matrix. A part that is in series with nothing is a chain of one, of
 * whatever law; it keeps its direction. */
#ifndef CIRCUIT_CHAIN_H
#define CIRCUIT_CHAIN_H

#include "calc/circuit_net.h"

/* Slices of the caller's memory. Nodes that are not inside a chain have numbers
 * of their own, outer ones; the reference is 0 in both. */
struct circuit_chains {
    size_t part_count, node_count; /* of the net */
    unsigned *count;               /* [2] chains; outer nodes */
    unsigned *from, *to;           /* outer nodes by chain */
    unsigned *first; /* by chain, and one more: where its parts begin in `part`
                      */
    unsigned *part;  /* in order from `from` to `to` */
    unsigned *back;  /* by part: 1: stands the other way round in its chain */
    unsigned *outer; /* by node; CHAIN_INNER */
    unsigned *chain; /* by inner node: that it stands in */
    unsigned *at;    /* 2 by node: while chains are sought, parts there */
};

#define CHAIN_INNER (~0U)

/* Doubles of memory. */
size_t circuit_chain_index(size_t nodes, size_t parts);
struct circuit_chains circuit_chains_at(const struct net *net, double *index);
/* Finds the chains of a net of which nothing floats. */
void circuit_chains_find(struct circuit_chains *c, const struct net *net);
/* Whether they still are: the law of a part may have changed since. */
bool circuit_chains_hold(const struct circuit_chains *c, const struct net *net);

/* The only part of a chain of one; NULL: there are more. */
static inline const struct net_part *
circuit_chain_single(const struct circuit_chains *c, const struct net *net,
                     size_t chain) {
    unsigned first = c->first[chain];
    return c->first[chain + 1] - first == 1 ? &net->part[c->part[first]] : NULL;
}

/* A through a chain of several at u volts; *slope is its derivative, A/V.
 * `near` is where the search begins. */
double circuit_chain_current(const struct circuit_chains *c,
                             const struct net *net, size_t chain, double u,
                             double near, double *slope);
/* V over it at a current; *ohm is its derivative. */
double circuit_chain_voltage(const struct circuit_chains *c,
                             const struct net *net, size_t chain, double ampere,
                             double *ohm);
/* A conductance to begin with, S. */
double circuit_chain_start(const struct circuit_chains *c,
                           const struct net *net, size_t chain);
/* At the current of a chain of several: that of its parts, from their `from` to
 * their `to`; their tangents, ohm; the voltages of its inner nodes. Its own
 * tangent, ohm. */
double circuit_chain_inside(const struct circuit_chains *c,
                            const struct net *net, size_t chain, double current,
                            double *by_part, double *tangent, double *volt);

/* An ampere that is put into an inner node as those that do the same at the
 * ends of its chain, which are added to `into` by outer node. */
void circuit_chain_gather(const struct circuit_chains *c, const struct net *net,
                          size_t node, const double *tangent, double ampere,
                          double *into);
/* From how the ends move, how the inner nodes of a chain of several move with
 * these amperes; all by node of the net. */
void circuit_chain_spread(const struct circuit_chains *c, const struct net *net,
                          size_t chain, const double *tangent,
                          const double *ampere, double *by);

#endif
