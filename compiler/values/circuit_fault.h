/* circuit_fault.h - currents into a short, anywhere in a circuit of one
 * variant.
 *
 * Loads and coils take nothing: what is left is linear, so that a short between
 * two points takes I = U / R with the open voltage U between them and the
 * resistance R seen from them (Thévenin). At the most: all supplies on, every
 * switch and contact closed, supplies at their highest, cold wire, contacts at
 * their least. At the least: the other ends, wire as hot as its insulation
 * stands, and of the ways in which switches and contacts may stand the one that
 * lets the least through, of those that let anything through: all closed, all
 * change-over relays pulled or all dropped, and each state of the circuit; in
 * each with what a source that limits itself gives for an instant, and with no
 * more than its rated output. */
#ifndef CIRCUIT_FAULT_H
#define CIRCUIT_FAULT_H

#include "values/circuit_solve.h"

/* Share of a fault below which a fuse has no part in it. */
#define FAULT_PART 0.01

/* LIMITED: the least as well, with sources that limit themselves at what
 * lasts. */
enum fault_end { FAULT_LEAST, FAULT_NOMINAL, FAULT_MOST, FAULT_LIMITED };

struct circuit_fault {
    const struct circuit_work *w;
    struct net net;
    double *room; /* of the solution */
    struct net_solution open;
    double *weight, *by; /* by node: of the short that was asked for last */
    size_t *in_net;      /* net part of each part; SIZE_MAX: it takes nothing */
    double current;      /* of that short, A */
    double worst;        /* A, of a short from any node; NAN: not asked yet */
    struct circuit_fault *next; /* of those of the circuit that were solved */
};

/* Solves for the currents at an end, or at the figures' nominal with wire at
 * its ambient, with the supplies that are on, and all closed but what is open
 * by part (NULL: nothing is). Where that gives a net that was solved before, of
 * this or a twin variant, it is that one. NULL: it has no solution. */
struct circuit_fault *circuit_fault_open(struct circuit_work *w,
                                         enum fault_end end, const bool *open);
/* At the least, in each way that switches, contacts and supplies may stand. */
struct circuit_fault_ways {
    struct circuit_fault **way;
    size_t count;
};
/* Both are worked out once; states are put on, and any of them is left on.
 * NULL: there is no solution. */
struct circuit_fault *circuit_fault_most(struct circuit_work *w);
const struct circuit_fault_ways *circuit_fault_least(struct circuit_work *w);
/* A, from one node to another through a short; 0: no supply feeds it. */
double circuit_fault_between(struct circuit_fault *f, size_t from, size_t to);
/* A, of a part while that short lasts; never negative. */
double circuit_fault_through(const struct circuit_fault *f, size_t part);
/* A, the most of the shorts from a node to the minus of each supply; the last
 * one asked for is that short. */
double circuit_fault_at(struct circuit_fault *f, size_t node);
/* The same from the plus of each supply into a node. */
double circuit_fault_into(struct circuit_fault *f, size_t node);
/* A, the most of circuit_fault_at() from all nodes. */
double circuit_fault_worst(struct circuit_fault *f);
/* Draws 1 A from one node and gives it to another, beside all else: what a load
 * between them does to the parts. */
void circuit_fault_draw(struct circuit_fault *f, size_t from, size_t to);
/* Of what was drawn last: the share that a wire carries; 0: none of it. */
double circuit_fault_share(const struct circuit_fault *f, size_t wire);
/* V, the most that may stand across a part once it is open: between one of its
 * ends, with no load on, and any post of a supply. Batteries in series add up.
 */
double circuit_fault_volt(const struct circuit_fault *f, size_t part);
/* Opens, by element, one throw of each change-over relay, all of them pulled or
 * all dropped but the `other` one; false: there is none. */
bool circuit_fault_throw(const struct circuit_work *w, bool pulled,
                         struct text other, bool *open);
/* Whether a part carries a fault: all but loads and coils. */
bool circuit_fault_carries(const struct circuit_work *w, size_t part);

#endif
